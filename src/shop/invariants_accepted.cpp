// Accepted findings: about what a finding can be about, in a state that is there, each once.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

using base::ErrorCode;

constexpr std::size_t kIdDigits = 16;

bool isId(std::string_view text) {
  return text.size() == kIdDigits && text.find_first_not_of('0') != std::string_view::npos &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

/// A role in small letters and at most two ids behind colons, as a piece's key is written. Whether that piece
/// is still there does not matter: the acceptance then has no effect.
bool isPieceKey(std::string_view text) {
  const std::size_t colon = text.find(':');
  const std::string_view role = text.substr(0, colon);
  if (role.empty() ||
      !std::all_of(role.begin(), role.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; })) {
    return false;
  }
  if (colon == std::string_view::npos) {
    return true;
  }
  const std::string_view ids = text.substr(colon + 1);
  return ids.size() <= kIdDigits
             ? isId(ids)
             : isId(ids.substr(0, kIdDigits)) && ids[kIdDigits] == ':' && isId(ids.substr(kIdDigits + 1));
}

}  // namespace

void checkAccepted(Survey& survey) {
  const std::vector<Acceptance>& accepted = survey.project().accepted;
  std::set<std::tuple<std::string, std::string, Id>> seen;
  for (std::size_t i = 0; i < accepted.size(); ++i) {
    const Acceptance& each = accepted[i];
    Survey::Place place(survey, "accepted", i, named("accepted finding", each.rule));
    survey.expect(each.state, Thing::State, "state", true);
    if (each.rule.empty()) {
      Survey::Place rule(survey, "rule");
      survey.problem(ErrorCode::Reference, "the accepted finding does not say of which rule it is");
    }
    if (!each.about.empty() && !isPieceKey(each.about)) {
      Survey::Place about(survey, "about");
      survey.problem(
          ErrorCode::Parse,
          fmt::format("\"{}\" is not what a finding is about: a role and at most two ids of 16 hex "
                      "digits, like \"elbow:00000000000000a1\"",
                      each.about.substr(0, 80)));
    }
    if (!seen.emplace(each.rule, each.about, each.state).second) {
      survey.problem(ErrorCode::Conflict, "the same finding is accepted twice; keep the one that holds");
    }
  }
}

}  // namespace kerfdraft::shop
