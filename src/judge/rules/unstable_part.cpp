// A fan on the part of its curve where pressure rises with flow. There a small push moves the working point
// far: the air surges, the fan growls, and readings do not repeat.
#include <fmt/format.h>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
      const network::FanResult& fan = evidence.state(s).solution.fans[f];
      const auto& rating = evidence.pieces().fans[f].rating;
      if (!fan.running || !fan.rising_part || fan.beyond_data || !rating || !(fan.inlet_flow_m3_s > 0)) {
        continue;
      }
      const double peak_m3_s = rating->speed_ratio * rating->curve.peak().flow_m3_s;
      Finding finding = aboutFan(evidence, f);
      finding.state = s;
      finding.figures = {{"flow", fan.inlet_flow_m3_s, base::Kind::VolumeFlow},
                         {"peak", peak_m3_s, base::Kind::VolumeFlow},
                         {"pressure", fan.rise_pa, base::Kind::Pressure}};
      finding.limit = Limit{peak_m3_s, base::Kind::VolumeFlow, {}, base::SourceStatus::CommonPractice, {}};
      const bool sure = fan.inlet_flow_m3_s * evidence.fanBand(s, f).high < peak_m3_s;
      finding.severity = sure ? Severity::Caution : Severity::Note;
      finding.badness = badnessOf(peak_m3_s / fan.inlet_flow_m3_s);
      finding.ports = portsOn(evidence, s, f);
      finding.words = {sure ? "sure" : "doubtful"};
      finding.remedies = {{"let-air-in",
                           {{"flow", peak_m3_s - fan.inlet_flow_m3_s, base::Kind::VolumeFlow}},
                           {finding.label},
                           {},
                           {},
                           {}}};
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string peak = voice.show(finding.figure("peak"));
  const bool sure = finding.words[0] == "sure";
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} gets too little air to run steadily: {}, where it wants at least {}. {} surge and growl.",
          finding.label, flow, peak, sure ? "It will" : "It may");
    case Reader::Adviser:
      return fmt::format(
          "{} works at {} and {}, left of the peak of its curve at {}, where pressure rises with flow{}.",
          finding.label, flow, voice.show(finding.figure("pressure")), peak,
          sure ? ": surging is to be expected" : "; the upper end of the prediction lies right of the peak");
    case Reader::Inspector:
      return fmt::format("{}: operating point {} on the rising part of the fan curve (peak at {}). {}",
                         finding.label, flow, peak,
                         sure ? "Stable operation not met." : "Stable operation: cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kUnstablePart{"unstable-part", Topic::Collector, "Fan on its unstable part", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
