// Branches that come up into a level main from below: whatever rolls along the bottom of the main falls into
// them, and a shut one fills.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::size_t first = out.size();
  for (const BranchEntry& entry : branchEntries(evidence)) {
    const pieces::Run& main = evidence.pieces().runs[entry.main_run];
    if (!main.carries_chips || entry.rise < kLevelSine || std::abs(entry.main_rise) >= kLevelSine) {
      continue;
    }
    auto at = std::find_if(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                           [&](const Finding& each) { return each.key.a == entry.main->id; });
    if (at == out.end()) {
      Finding finding = aboutDuct(*entry.main);
      finding.severity = Severity::Caution;
      finding.limit = Limit{std::asin(kLevelSine), base::Kind::Angle, {}, base::SourceStatus::Ours, {}};
      finding.figures = {{"angle", 0, base::Kind::Angle}};
      at = out.insert(out.end(), std::move(finding));
    }
    // The steeper, the wider the mouth that faces up: 1 for straight up.
    at->figures[0].value = std::max(at->figures[0].value, std::asin(entry.rise));
    at->badness = std::max(at->badness, entry.rise);
    at->runs.push_back(entry.run);
    at->words.push_back(entry.duct->label);
  }
  for (std::size_t f = first; f < out.size(); ++f) {
    std::vector<std::string> words{""};
    words.insert(words.end(), out[f].words.begin(), out[f].words.end());
    words[0] = out[f].label;
    out[f].remedies = {{"enter-from-above", {}, std::move(words), {}, {}, {}}};
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string branches = listed(finding.words);
  const bool one = finding.words.size() == 1;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} into {} from below: chips that roll along its bottom fall in, and fill {} while "
          "{} shut.",
          branches, one ? "comes" : "come", finding.label, one ? "it" : "them", one ? "it is" : "they are");
    case Reader::Adviser:
      return fmt::format(
          "{} {} into the level {} from below, at up to {} from the level: a trap for chips "
          "when shut.",
          branches, one ? "rises" : "rise", finding.label, voice.show(finding.figure("angle")));
    case Reader::Inspector:
      return fmt::format("{}: {} from below ({}). Entry from the side or from above not met.", finding.label,
                         one ? "branch entry" : "branch entries", branches);
  }
  return {};
}

}  // namespace

const Rule kBranchFromBelow{"branch-from-below", Topic::Conveying, "Branch comes in from below", &look,
                            &tell};

}  // namespace kerfdraft::judge
