// Judges the shop, finds what is meant, and saves the project with it.
#include "cli/accept.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "catalogue/near_keys.h"
#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "cli/text_table.h"
#include "doubt/bands.h"
#include "files/lock.h"
#include "files/save.h"
#include "judge/speech.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;
using judge::Finding;

constexpr std::size_t kWidth = 100;

/// What was judged, and what of it is meant.
struct Judged {
  const AcceptOptions& options;
  const judge::Assessment& assessment;
  const judge::Verdict& verdict;
};

Result<std::size_t> chosenOf(const AcceptOptions& options, std::size_t count, std::string_view list) {
  if (options.number >= 1 && static_cast<std::size_t>(options.number) <= count) {
    return static_cast<std::size_t>(options.number) - 1;
  }
  return fail(ErrorCode::Range,
              count == 0 ? fmt::format("there is no {}", list)
                         : fmt::format("there is no {} {}; kerfdraft check lists 1 to {}", list,
                                       options.number, count),
              options.project);
}

/// All of a group: whoever lives with a cause lives with what it does.
Result<std::vector<std::size_t>> byNumber(const Judged& judged) {
  if (judged.options.undo) {
    const std::vector<AcceptedLot> lots = acceptedLots(judged.verdict);
    const Result<std::size_t> lot = chosenOf(judged.options, lots.size(), "accepted finding");
    return lot ? Result<std::vector<std::size_t>>(lots[*lot].findings) : Failure(lot.error());
  }
  const Result<std::size_t> chosen = chosenOf(judged.options, judged.verdict.groups.size(), "finding");
  if (!chosen) {
    return Failure(chosen.error());
  }
  const judge::Group& group = judged.verdict.groups[*chosen];
  std::vector<std::size_t> out{group.lead};
  out.insert(out.end(), group.same.begin(), group.same.end());
  out.insert(out.end(), group.symptoms.begin(), group.symptoms.end());
  return out;
}

Result<std::vector<std::size_t>> byRule(const Judged& judged) {
  const AcceptOptions& options = judged.options;
  if (judge::findRule(options.rule) == nullptr) {
    std::vector<std::string> keys;
    for (const judge::Rule* rule : judge::allRules()) {
      keys.emplace_back(rule->key);
    }
    return fail(ErrorCode::Reference,
                fmt::format("there is no rule \"{}\"{}", options.rule,
                            catalogue::nearKeysSentence(options.rule, keys)),
                "--rule");
  }
  std::optional<std::size_t> state;
  if (!options.state.empty()) {
    const Result<std::size_t> found = stateByName(judged.assessment, options.state);
    if (!found) {
      return Failure(found.error());
    }
    state = *found;
  }
  std::vector<std::size_t> out;
  for (std::size_t f = 0; f < judged.verdict.findings.size(); ++f) {
    const Finding& finding = judged.verdict.findings[f];
    const bool is_accepted = judged.verdict.accepted[f] != judge::Accepted::No;
    if (finding.rule == options.rule && (options.about.empty() || finding.key.text() == options.about) &&
        (!state || finding.state == state) && (!options.undo || is_accepted)) {
      out.push_back(f);
    }
  }
  if (out.empty()) {
    return fail(ErrorCode::Reference,
                fmt::format("{} of rule {} is {}there", options.undo ? "no accepted finding" : "no finding",
                            options.rule, options.about.empty() && options.state.empty() ? "" : "like that "),
                options.project);
  }
  return out;
}

/// The project with these findings accepted, or no longer.
shop::Project changed(const Judged& judged, const std::vector<std::size_t>& findings) {
  shop::Project project = *judged.assessment.project;
  for (const std::size_t f : findings) {
    const Finding& finding = judged.verdict.findings[f];
    shop::Acceptance acceptance;
    acceptance.rule = finding.rule;
    acceptance.about = finding.key.text();
    acceptance.state = finding.state ? judged.assessment.states[*finding.state].id : base::Id{};
    std::erase_if(project.accepted, [&](const shop::Acceptance& other) {
      return other.rule == acceptance.rule && other.about == acceptance.about &&
             other.state == acceptance.state;
    });
    if (!judged.options.undo) {
      const auto badness = base::Given<base::Ratio>::parse(
          fmt::format("{:.6g}", std::max(0.0, finding.badness)), base::Standing::Estimated);
      base::check(badness.has_value(), "how bad a finding is cannot be written");
      acceptance.badness = *badness;
      acceptance.reason = judged.options.reason;
      acceptance.on = judged.options.common.date;
      project.accepted.push_back(std::move(acceptance));
    }
  }
  return project;
}

std::string told(const Judged& judged, const std::vector<std::size_t>& findings) {
  const base::UnitSystem units =
      judged.options.common.units.value_or(judged.assessment.project->setting.units);
  const judge::Voice voice(judge::Reader::Adviser, units);
  std::string out = judged.options.undo ? "No longer accepted:\n" : "Accepted:\n";
  for (const std::size_t f : findings) {
    out += "  " + wrapped(judge::say(judged.verdict.findings[f], voice).title, kWidth, 4) + '\n';
  }
  return out +
         (judged.options.undo
              ? std::string()
              : "  " + wrapped("Reason: " + stopped(judged.options.reason), kWidth, 4) + '\n') +
         fmt::format("Saved in {}; kerfdraft check shows what {}.\n", judged.options.project,
                     judged.options.undo ? "stands again" : "is left, and how to take this back");
}

Result<void> checkAsked(const AcceptOptions& options) {
  if ((options.number != 0) == !options.rule.empty()) {
    return fail(ErrorCode::Parse, "say which finding: its number in kerfdraft check, or --rule, and not both",
                "accept");
  }
  if (options.rule.empty() && !(options.about.empty() && options.state.empty())) {
    return fail(ErrorCode::Parse, "--about and --state belong to --rule", "accept");
  }
  if (!options.undo && options.reason.find_first_not_of(" \t") == std::string::npos) {
    return fail(ErrorCode::Parse, "say why with --reason; who reads it later should understand it", "accept");
  }
  return {};
}

}  // namespace

std::vector<AcceptedLot> acceptedLots(const judge::Verdict& verdict) {
  std::vector<AcceptedLot> lots;
  for (const judge::Group& group : verdict.lived_with) {
    const std::string& reason = verdict.reasons[group.lead];
    auto lot = std::find_if(lots.begin(), lots.end(),
                            [&](const AcceptedLot& other) { return other.reason == reason; });
    if (lot == lots.end()) {
      lot = lots.insert(lots.end(), AcceptedLot{reason, {}});
    }
    lot->findings.push_back(group.lead);
    lot->findings.insert(lot->findings.end(), group.same.begin(), group.same.end());
    lot->findings.insert(lot->findings.end(), group.symptoms.begin(), group.symptoms.end());
  }
  return lots;
}

int runAccept(const AcceptOptions& options, std::ostream& out, std::ostream& err) {
  if (const Result<void> asked = checkAsked(options); !asked) {
    return refuse(asked.error(), err);
  }
  // From before it is read until after it is saved, nobody else may write.
  const Result<files::ProjectLock> lock = files::ProjectLock::take(options.project);
  if (!lock) {
    return refuse(lock.error(), err);
  }
  const std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  const Result<judge::Verdict> verdict = judge::judgeShop(
      shop->assessment, shop->catalogue, doubt::assessBands(shop->assessment, shop->catalogue));
  if (!verdict) {
    return refuse(verdict.error(), err);
  }
  const Judged judged{options, shop->assessment, *verdict};
  const Result<std::vector<std::size_t>> findings = options.rule.empty() ? byNumber(judged) : byRule(judged);
  if (!findings) {
    return refuse(findings.error(), err);
  }
  if (const Result<void> saved = files::saveProject(changed(judged, *findings), options.project); !saved) {
    return refuse(saved.error(), err);
  }
  return deliver(told(judged, *findings), options.common, kAllServed, out, err);
}

void declareOptions(OptionList& list, AcceptOptions& o) {
  list.required("project", "FILE", &o.project,
                "Project file of the shop; it is changed, and kept once as .bak");
  list.option("number", "N", &o.number,
              "Number of the finding in kerfdraft check, with all that stands behind it; with --undo, of the "
              "accepted ones there");
  list.option("--reason", "TEXT", &o.reason, "Why it is lived with; needed, and printed wherever it is told");
  list.flag("--undo", o.undo, "Take it back");
  list.option("--rule", "KEY", &o.rule, "In place of a number: every finding of this rule");
  list.option("--about", "KEY", &o.about, "With --rule: only of this piece, as check --json names it");
  list.option("--state", "NAME", &o.state, "With --rule: only in this state");
  list.date(o.common);
  list.footer(
      "An accepted finding comes back when it grows worse by a tenth.\n\n"
      "Examples:\n"
      "  kerfdraft accept my-shop.json 3 --reason \"The lathe is used twice a year\"\n"
      "  kerfdraft accept my-shop.json --rule plastic-duct --reason \"Bonded, checked in spring\"\n"
      "  kerfdraft accept my-shop.json 1 --undo");
}

}  // namespace kerfdraft::cli
