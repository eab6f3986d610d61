// More air through a filter than its medium takes: fine dust is driven into the cloth, the pressure climbs
// early and dust passes. Judged at the greatest flow of any state, against the rule that applies here.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"
#include "judge/rules/filter_support.h"
#include "physics/filter.h"

namespace kerfdraft::judge {

namespace {

/// The state in which most air passes a filter.
struct Busiest {
  std::size_t state = 0;
  FilterAir air;
};

std::optional<Busiest> busiestState(const Evidence& evidence, base::Id filter) {
  std::optional<Busiest> out;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    const auto air = filterAir(evidence.pieces(), evidence.state(s).solution, filter);
    if (air && (!out || air->flow_m3_s > out->air.flow_m3_s)) {
      out = Busiest{s, *air};
    }
  }
  return out;
}

void lookAt(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
            const shop::Filter& filter, std::vector<Finding>& out) {
  const auto busiest = busiestState(evidence, filter.id);
  const auto loading = loadingRule(evidence, fan, filter);
  if (!filter.area || !(filter.area->si() > 0) || !busiest || !loading) {
    return;
  }
  const double speed_m_s = physics::filterFaceSpeed(busiest->air.flow_m3_s, filter.area->si());
  if (!(speed_m_s > loading->most_m_s)) {
    return;
  }
  const bool sure = speed_m_s * evidence.fanBand(busiest->state, fan).low > loading->most_m_s;
  Finding finding;
  finding.key = {pieces::Role::Filter, filter.id, {}};
  finding.label = filterLabel(collector, filter);
  finding.state = busiest->state;
  finding.figures = {
      {"speed", speed_m_s, base::Kind::Speed},
      {"flow", busiest->air.flow_m3_s, base::Kind::VolumeFlow},
      {"area", filter.area->si(), base::Kind::Area},
      {"area-needed", physics::filterAreaNeeded(busiest->air.flow_m3_s, loading->most_m_s), base::Kind::Area},
      {"least", loading->least_m_s, base::Kind::Speed},
      {"most", loading->most_m_s, base::Kind::Speed}};
  finding.words = {loading->name, loading->assumed ? "assumed" : "known", sure ? "sure" : "doubtful"};
  finding.limit = limitOf(loading->origin, loading->most_m_s, base::Kind::Speed,
                          std::string(kFilterLoading) + ": " + loading->row);
  if (loading->assumed) {
    finding.severity = Severity::Note;
  } else {
    finding.severity = loading->binds && sure ? Severity::Serious : Severity::Caution;
  }
  finding.badness = badnessOf(speed_m_s / loading->most_m_s);
  finding.defers = loading->binds;
  finding.remedies = {
      {"more-filter", {finding.figure("area-needed"), finding.figure("area")}, {finding.label}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const shop::Collector& collector : evidence.project().collectors) {
    const auto fan = fanOf(evidence.pieces(), collector.id);
    for (const shop::Filter& filter : collector.filters) {
      if (fan) {
        lookAt(evidence, *fan, collector, filter, out);
      }
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string area = voice.show(finding.figure("area"));
  const std::string speed = filterSpeed(finding.figure("speed").value, voice);
  const double least_m_s = finding.figure("least").value;
  const double most_m_s = finding.figure("most").value;
  const std::string limit = least_m_s < most_m_s ? fmt::format("{} to {}", filterSpeed(least_m_s, voice),
                                                               filterSpeed(most_m_s, voice))
                                                 : filterSpeed(most_m_s, voice);
  const bool assumed = finding.words[1] == "assumed";
  const bool doubtful = finding.words[2] == "doubtful";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} {} for {}: {} of medium, where at least {} would be right{}. It clogs early and lets "
          "fine dust through.",
          finding.label, doubtful ? "may be small" : "is small", flow, area,
          voice.show(finding.figure("area-needed")), assumed ? " for one cleaned by hand" : "");
    case Reader::Adviser:
      return fmt::format("{} passes {} through {}: {} through the medium, against {} ({}{}){}.",
                         finding.label, flow, area, speed, limit, finding.words[0],
                         assumed ? "; how it is cleaned is not said" : "",
                         doubtful ? "; the lower end of the flow is within" : "");
    case Reader::Inspector:
      return fmt::format("{}: loading of the medium {} at {}; limit {} ({}). {}", finding.label, speed, flow,
                         limit, finding.words[0], doubtful || assumed ? "Cannot conclude." : "Not met.");
  }
  return {};
}

}  // namespace

const Rule kFilterLoaded{"filter-loaded", Topic::FilterAndBin, "Filter too small for its air", &look,
                         &tidied<tell>};

}  // namespace kerfdraft::judge
