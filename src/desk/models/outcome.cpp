// Findings of two verdicts are matched by rule, piece and the id of their state.
#include "desk/models/outcome.h"

#include <algorithm>
#include <cstddef>
#include <vector>

#include <fmt/format.h>

#include "judge/speech.h"
#include "judge/trial.h"
#include "judge/verdict.h"

namespace kerfdraft::desk {

namespace {

constexpr std::size_t kMostNamed = 2;

base::Id stateIdOf(const Solved& solved, const judge::Finding& finding) {
  return finding.state ? solved.assessment->states[*finding.state].id : base::Id{};
}

/// The same finding of another verdict; null where it is not found there.
const judge::Finding* sameIn(const Solved& there, const Solved& here, const judge::Finding& finding) {
  for (const judge::Finding& each : there.verdict->findings) {
    if (each.rule == finding.rule && each.key == finding.key &&
        stateIdOf(there, each) == stateIdOf(here, finding)) {
      return &each;
    }
  }
  return nullptr;
}

bool isWorse(const judge::Finding& now, const judge::Finding* was) {
  if (now.severity >= judge::Severity::Note) {
    return false;
  }
  return was == nullptr || now.severity < was->severity ||
         (now.severity == was->severity && now.badness > judge::kReturnsAt * was->badness + 1e-3);
}

}  // namespace

std::string outcomeOf(const Solved& before, std::size_t finding, const Solved& after,
                      const judge::Voice& voice) {
  if (after.problem) {
    return fmt::format("With this change the shop cannot be solved: {}", after.problem->text());
  }
  if (!before.verdict || !after.verdict || finding >= before.verdict->findings.size()) {
    return "What the change brought is not known: the shop is not judged.";
  }
  const judge::Finding& of = before.verdict->findings[finding];
  const judge::Finding* now = sameIn(after, before, of);
  const std::string title = judge::say(of, voice).title;
  const bool settled =
      now == nullptr || (now->severity == judge::Severity::Note && of.severity != judge::Severity::Note);
  const auto gain = judge::gainBetween(*before.assessment, of, *after.assessment);
  std::string brought;
  if (gain) {
    const std::string from = voice.show(gain->before, gain->kind);
    const std::string to = voice.show(gain->after, gain->kind);
    const std::string where = gain->at.empty() ? "" : " at " + gain->at;
    brought = from == to ? fmt::format("; still {}{}", to, where)
                         : fmt::format("; from {} to {}{}", from, to, where);
  }
  std::string out = fmt::format("{}: {}{}.", settled ? "Settled" : "Not settled", title, brought);

  const auto run_of = [](const Solved& in, const judge::Finding& each) {
    return each.runs.empty() ? pieces::PieceKey{} : in.assessment->pieces->runs[each.runs.front()].key;
  };
  if (!settled && gain && run_of(after, *now) != run_of(before, of)) {
    out += " What is worst of it lies at another place now.";
  }

  std::vector<std::string> worse;
  for (const judge::Finding& each : after.verdict->findings) {
    if (&each != now && isWorse(each, sameIn(before, after, each))) {
      worse.push_back(judge::say(each, voice).title);
    }
  }
  if (worse.empty()) {
    return out + " Nothing else became worse.";
  }
  out += " Worse now: ";
  for (std::size_t i = 0; i < std::min(worse.size(), kMostNamed); ++i) {
    out += (i > 0 ? "; " : "") + worse[i];
  }
  if (worse.size() > kMostNamed) {
    out += fmt::format("; and {} more", worse.size() - kMostNamed);
  }
  return out + ".";
}

}  // namespace kerfdraft::desk
