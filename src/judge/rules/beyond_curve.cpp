// A fan that works where its curve has no points. Numbers there are a continuation and no data: right of the
// last point less air comes than it seems, left of zero air runs backward through a turning fan.
#include <fmt/format.h>

#include <cmath>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

constexpr std::string_view kRight = "right";
constexpr std::string_view kLeft = "left";
constexpr std::string_view kBackward = "backward";
/// Less than this share of the curve's last flow is no flow: the sign of it is noise (ours).
constexpr double kStill = 1e-6;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
      const network::FanResult& fan = evidence.state(s).solution.fans[f];
      const auto& rating = evidence.pieces().fans[f].rating;
      if (!fan.running || !fan.beyond_data || !rating) {
        continue;
      }
      const bool right =
          fan.inlet_flow_m3_s > 0 && fan.inlet_flow_m3_s > rating->speed_ratio * rating->curve.lastFlow();
      if (std::abs(fan.inlet_flow_m3_s) < kStill * rating->curve.lastFlow()) {
        continue;
      }
      const bool backward = fan.inlet_flow_m3_s < 0;
      const double edge_m3_s = rating->speed_ratio * (right ? rating->curve.lastFlow()
                                                            : (backward ? 0.0 : rating->curve.firstFlow()));
      Finding finding = aboutFan(evidence, f);
      finding.state = s;
      finding.figures = {{"flow", fan.inlet_flow_m3_s, base::Kind::VolumeFlow},
                         {"edge", edge_m3_s, base::Kind::VolumeFlow},
                         {"pressure", fan.rise_pa, base::Kind::Pressure}};
      finding.words = {std::string(backward ? kBackward : (right ? kRight : kLeft))};
      finding.limit = Limit{edge_m3_s, base::Kind::VolumeFlow, {}, base::SourceStatus::Ours, {}};
      finding.ports = portsOn(evidence, s, f);
      if (backward) {
        // Whatever the band: the sign of the flow is beyond doubt only where much runs backward, but air
        // through a filter against its way is bad in any amount.
        finding.severity = Severity::Serious;
        finding.badness = 1;
        finding.remedies = {{"separate-systems", {}, {finding.label}, {}, {}, {}},
                            {"switch-off-with-damper", {}, {finding.label}, {}, {}, {}}};
      } else if (right) {
        const bool sure = fan.inlet_flow_m3_s * evidence.fanBand(s, f).low > edge_m3_s;
        finding.severity = sure ? Severity::Caution : Severity::Note;
        finding.badness = badnessOf(fan.inlet_flow_m3_s / edge_m3_s);
        finding.remedies = {{"ask-for-curve",
                             {{"flow", fan.inlet_flow_m3_s, base::Kind::VolumeFlow}},
                             {finding.label},
                             {},
                             {},
                             {}},
                            {"fewer-gates", {}, {finding.label}, {}, {}, {}}};
      } else {
        finding.severity = Severity::Note;
        finding.badness = 1 - fan.inlet_flow_m3_s / edge_m3_s;
        finding.remedies = {{"ask-for-curve",
                             {{"flow", fan.inlet_flow_m3_s, base::Kind::VolumeFlow}},
                             {finding.label},
                             {},
                             {},
                             {}}};
      }
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const double flow_m3_s = finding.figure("flow").value;
  const std::string edge = voice.show(finding.figure("edge"));
  const bool owner = voice.reader() == Reader::Owner;
  if (finding.words[0] == kBackward) {
    const std::string flow = voice.show(-flow_m3_s, base::Kind::VolumeFlow);
    if (owner) {
      return fmt::format(
          "Air runs backward through {} although it turns: another fan is stronger, and {} come the wrong "
          "way "
          "through its filter. Dust can be carried back into the ducts or the room.",
          finding.label, flow);
    }
    return voice.reader() == Reader::Adviser
               ? fmt::format(
                     "{} turns and {} run backward through it: the pressure of another fan across it, {}, "
                     "is more than it gives at zero flow. Its curve has no data there.",
                     finding.label, flow, voice.show(finding.figure("pressure")))
               : fmt::format("{}: reversed flow of {} while running. Intended performance not met.",
                             finding.label, flow);
  }
  const std::string flow = voice.show(flow_m3_s, base::Kind::VolumeFlow);
  if (finding.words[0] == kRight) {
    if (owner) {
      return fmt::format(
          "{} is so open that it would move {}, more than its curve tells of ({}). The true air is less sure "
          "than elsewhere, and its motor works hardest here.",
          finding.label, flow, edge);
    }
    return voice.reader() == Reader::Adviser
               ? fmt::format(
                     "{} works at {}, beyond the last point of its curve at {}: the {} there are a "
                     "continuation, not data.",
                     finding.label, flow, edge, voice.show(finding.figure("pressure")))
               : fmt::format(
                     "{}: predicted at {}, outside the documented curve (to {}). Cannot conclude from "
                     "the fan's data.",
                     finding.label, flow, edge);
  }
  if (owner) {
    return fmt::format("{} moves only {} here, less than its curve begins with ({}): the number is a guess.",
                       finding.label, flow, edge);
  }
  return voice.reader() == Reader::Adviser
             ? fmt::format(
                   "{} works at {}, left of the first point of its curve at {}: its slope is carried on "
                   "to zero flow.",
                   finding.label, flow, edge)
             : fmt::format(
                   "{}: predicted at {}, outside the documented curve (from {}). Cannot conclude from "
                   "the fan's data.",
                   finding.label, flow, edge);
}

}  // namespace

const Rule kBeyondCurve{"beyond-curve", Topic::Collector, "Fan beyond its curve", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
