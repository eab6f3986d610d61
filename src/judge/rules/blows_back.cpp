// A collector that stands while another one draws air backward through it, out of its filter and bin. It
// steals air from the machines and brings dust into the ducts and the room.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Less than this share of what the running fans move is leakage of a stopped fan, more than the second one
/// robs the machines (ours).
constexpr double kNoticed = 0.01;
constexpr double kGrave = 0.10;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto& fans = evidence.pieces().fans;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    const std::vector<network::FanResult>& air = evidence.state(s).solution.fans;
    double moved_kg_s = 0;
    for (const network::FanResult& fan : air) {
      moved_kg_s += fan.running ? std::max(0.0, fan.flow_kg_s) : 0.0;
    }
    for (std::size_t f = 0; f < fans.size(); ++f) {
      if (air[f].running || fans[f].non_return || fans[f].key.role != pieces::Role::Fan ||
          !(moved_kg_s > 0) || !(-air[f].flow_kg_s > kNoticed * moved_kg_s)) {
        continue;
      }
      const double share = -air[f].flow_kg_s / moved_kg_s;
      Finding finding = aboutFan(evidence, f);
      finding.state = s;
      finding.figures = {{"flow", -air[f].inlet_flow_m3_s, base::Kind::VolumeFlow},
                         {"share", share, base::Kind::Ratio}};
      finding.severity = share > kGrave ? Severity::Serious : Severity::Caution;
      finding.badness = share / kGrave;
      // Whose air it robs: the gain of a damper is read there.
      for (std::size_t other = 0; other < fans.size(); ++other) {
        if (air[other].running) {
          const std::vector<std::size_t> ports = portsOn(evidence, s, other);
          finding.ports.insert(finding.ports.end(), ports.begin(), ports.end());
        }
      }
      std::sort(finding.ports.begin(), finding.ports.end());
      finding.remedies = {{"non-return",
                           {},
                           {finding.label},
                           Change{ChangeKind::NonReturn, fans[f].id, {}, 0, false},
                           {},
                           {}}};
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string share = voice.percent(finding.figure("share").value);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "While {} stands, {} are drawn backward through it. That air is missing at the machines and brings "
          "dust out of its filter.",
          finding.label, flow);
    case Reader::Adviser:
      return fmt::format(
          "{} stands and {} run backward through it, {} of what the running fans move; it has no "
          "damper that shuts when it stands.",
          finding.label, flow, share);
    case Reader::Inspector:
      return fmt::format("{}: reversed flow of {} through the stopped unit, no non-return damper. Not met.",
                         finding.label, flow);
  }
  return {};
}

}  // namespace

const Rule kBlowsBack{"blows-back", Topic::Collector, "Air backward through a stopped collector", &look,
                      &tidied<tell>};

}  // namespace kerfdraft::judge
