// A motor that the fan loads beyond its rated power. Radial wheels take most power with everything open, so
// that state decides; nothing is said where the curve has no power.
#include <fmt/format.h>

#include <cmath>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"
#include "physics/fan.h"

namespace kerfdraft::judge {

namespace {

struct Load {
  double power_w = 0;
  bool beyond = false;  ///< outside the points with power
};

/// Shaft power at a flow, by the fan laws from the test's speed and density.
Load loadAt(const Evidence& evidence, std::size_t fan, const network::FanResult& result, double flow_m3_s) {
  const pieces::Fan& place = evidence.pieces().fans[fan];
  const physics::FanRating& rating = *place.rating;
  const double density_kg_m3 =
      place.rated_at_inlet ? evidence.pieces().air.density_kg_m3 : inletDensity(evidence, result);
  const physics::FanScale scale =
      physics::fanLaws(rating.speed_ratio, 1, density_kg_m3 / rating.density_kg_m3);
  const physics::CurveValue rated = place.power->value(flow_m3_s / scale.flow);
  return {rated.p_pa * scale.power, rated.beyond_data};
}

/// Adds a finding where the shaft power at the predicted flow passes the motor's.
void lookAt(const Evidence& evidence, std::size_t fan, const network::FanResult& result, const Band& band,
            std::optional<std::size_t> state, std::vector<Finding>& out) {
  const pieces::Fan& place = evidence.pieces().fans[fan];
  if (!result.running || !place.power || !place.rating || !place.motor_power_w ||
      !(*place.motor_power_w > 0) || !(result.inlet_flow_m3_s > 0)) {
    return;
  }
  const Load load = loadAt(evidence, fan, result, result.inlet_flow_m3_s);
  if (!(load.power_w > *place.motor_power_w)) {
    return;
  }
  const bool sure =
      loadAt(evidence, fan, result, result.inlet_flow_m3_s * band.low).power_w > *place.motor_power_w;
  Finding finding = aboutFan(evidence, fan);
  finding.state = state;
  finding.figures = {{"power", load.power_w, base::Kind::Power},
                     {"motor-power", *place.motor_power_w, base::Kind::Power},
                     {"flow", result.inlet_flow_m3_s, base::Kind::VolumeFlow}};
  finding.words = {state ? "state" : "freest", load.beyond ? "beyond" : "inside"};
  finding.limit = Limit{*place.motor_power_w, base::Kind::Power, {}, base::SourceStatus::CommonPractice, {}};
  finding.severity = state && sure && !load.beyond ? Severity::Serious : Severity::Caution;
  finding.badness = badnessOf(load.power_w / *place.motor_power_w);
  if (state) {
    finding.ports = portsOn(evidence, *state, fan);
  }
  finding.remedies = {
      {"fewer-gates", {}, {finding.label}, {}, {}, {}},
      {"bigger-motor", {{"power", load.power_w, base::Kind::Power}}, {finding.label}, {}, {}, {}}};
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
    const std::size_t before = out.size();
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (evidence.solved(s)) {
        lookAt(evidence, f, evidence.state(s).solution.fans[f], evidence.fanBand(s, f), s, out);
      }
    }
    // What a declared state says already need not be said of the freest.
    if (out.size() == before && evidence.freest) {
      lookAt(evidence, f, evidence.freest->solution.fans[f], {}, std::nullopt, out);
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string power = voice.show(finding.figure("power"));
  const std::string motor = voice.show(finding.figure("motor-power"));
  const std::string flow = voice.show(finding.figure("flow"));
  const bool freest = finding.words[0] == "freest";
  const std::string_view when = freest ? " with every gate open" : "";
  const std::string_view beyond = finding.words[1] == "beyond" ? ", beyond the points that have power" : "";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "The motor of {} is overloaded{}: it would have to give {} and is built for {}. It runs "
          "hot and trips.",
          finding.label, when, power, motor);
    case Reader::Adviser:
      return fmt::format("{} takes {} at the shaft at {}{}{}, against a rated {}.", finding.label, power,
                         flow, when, beyond, motor);
    case Reader::Inspector:
      return fmt::format("{}: shaft power {} at {}{}{}; motor rated {}. Not met.", finding.label, power, flow,
                         when, beyond, motor);
  }
  return {};
}

}  // namespace

const Rule kMotorOverloaded{"motor-overloaded", Topic::Collector, "Motor overloaded", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
