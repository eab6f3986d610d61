// Filters without a gauge across them: nobody sees when they are full or torn. One finding for the project.
#include <fmt/format.h>

#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"
#include "judge/rules/filter_support.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  Finding finding;
  for (const shop::Collector& collector : evidence.project().collectors) {
    for (const shop::Filter& filter : collector.filters) {
      if (filter.gauge) {
        continue;
      }
      if (finding.words.empty()) {
        finding.key = {pieces::Role::Filter, filter.id, {}};
      }
      finding.words.push_back(filterLabel(collector, filter));
    }
  }
  if (finding.words.empty()) {
    return;
  }
  finding.label = listed(finding.words);
  finding.severity = answersForOthers(evidence.project()) ? Severity::Caution : Severity::Note;
  finding.badness = 1;
  finding.remedies = {{"fit-gauge", {}, finding.words, {}, {}, {}}};
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool one = finding.words.size() == 1;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("{} {} no gauge, so nobody sees when to clean or when a bag is torn.", finding.label,
                         one ? "has" : "have");
    case Reader::Adviser:
      return fmt::format(
          "No gauge across {}: the state of the filter, which every flow here depends on, is not known.",
          finding.label);
    case Reader::Inspector:
      return fmt::format("{}: no differential pressure indication. Filter condition: cannot conclude.",
                         finding.label);
  }
  return {};
}

}  // namespace

const Rule kNoGauge{"no-gauge", Topic::FilterAndBin, "Filter without a gauge", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
