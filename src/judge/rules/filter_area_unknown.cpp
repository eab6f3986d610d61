// A filter whose area nobody has entered: whether it is large enough cannot be said. Says how much medium the
// greatest flow would want, which is quickly held against the filter's label.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"
#include "judge/rules/filter_support.h"
#include "physics/filter.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const shop::Collector& collector : evidence.project().collectors) {
    const auto fan = fanOf(evidence.pieces(), collector.id);
    if (!fan) {
      continue;
    }
    Finding finding;
    double flow_m3_s = 0;
    std::optional<LoadingRule> loading;
    for (const shop::Filter& filter : collector.filters) {
      if (filter.area) {
        continue;
      }
      for (const StateResult& state : evidence.assessment.states) {
        if (const auto air = filterAir(evidence.pieces(), state.solution, filter.id)) {
          flow_m3_s = std::max(flow_m3_s, air->flow_m3_s);
        }
      }
      if (finding.words.empty()) {
        finding.key = {pieces::Role::Filter, filter.id, {}};
        loading = loadingRule(evidence, *fan, filter);
      }
      finding.words.push_back(filterLabel(collector, filter));
    }
    if (finding.words.empty()) {
      continue;
    }
    finding.label = listed(finding.words);
    finding.severity = Severity::Note;
    finding.badness = 1;
    if (loading && flow_m3_s > 0) {
      finding.figures = {
          {"flow", flow_m3_s, base::Kind::VolumeFlow},
          {"area-needed", physics::filterAreaNeeded(flow_m3_s, loading->most_m_s), base::Kind::Area}};
      finding.limit = limitOf(loading->origin, loading->most_m_s, base::Kind::Speed,
                              std::string(kFilterLoading) + ": " + loading->row);
    }
    finding.remedies = {{"enter-filter-area", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string_view pronoun = finding.words.size() == 1 ? "it is" : "they are";
  const Figure* area = finding.findFigure("area-needed");
  const std::string want = area == nullptr
                               ? std::string()
                               : fmt::format(" At {} at least {} of medium would be right.",
                                             voice.show(finding.figure("flow")), voice.show(*area));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "The area of medium of {} is not entered, so nobody can say whether {} large enough.{}",
          finding.label, pronoun, want);
    case Reader::Adviser:
      return fmt::format(
          "Area of {} not entered: no loading, and resistances are guesses where no drop is given.{}",
          finding.label, want);
    case Reader::Inspector:
      return fmt::format("{}: area of medium not recorded. Loading: cannot conclude.", finding.label);
  }
  return {};
}

}  // namespace

const Rule kFilterAreaUnknown{"filter-area-unknown", Topic::FilterAndBin, "Filter of unknown area", &look,
                              &tidied<tell>};

}  // namespace kerfdraft::judge
