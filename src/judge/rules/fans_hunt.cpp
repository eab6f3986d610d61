// Fans side by side that cannot share the air evenly: one takes it all, the other stalls, and they may change
// places. Known from the solution, where the even sharing is not stable.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Running collectors, the humped curves first in the drawing's order; all where none is humped.
std::vector<std::size_t> rivals(const Evidence& evidence, std::size_t state) {
  std::vector<std::size_t> humped;
  std::vector<std::size_t> running;
  for (std::size_t f = 0; f < evidence.pieces().fans.size(); ++f) {
    const pieces::Fan& fan = evidence.pieces().fans[f];
    if (!evidence.state(state).solution.fans[f].running || !fan.rating) {
      continue;
    }
    running.push_back(f);
    if (fan.rating->curve.hasRisingPart()) {
      humped.push_back(f);
    }
  }
  return humped.size() > 1 ? humped : running;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s) || !evidence.state(s).solution.fans_hunt) {
      continue;
    }
    const std::vector<std::size_t> fans = rivals(evidence, s);
    if (fans.size() < 2) {
      continue;
    }
    Finding finding = aboutFan(evidence, fans[0]);
    finding.state = s;
    double least_m3_s = HUGE_VAL;
    double most_m3_s = -HUGE_VAL;
    for (const std::size_t f : fans) {
      const double flow_m3_s = evidence.state(s).solution.fans[f].inlet_flow_m3_s;
      least_m3_s = std::min(least_m3_s, flow_m3_s);
      most_m3_s = std::max(most_m3_s, flow_m3_s);
      finding.words.push_back(fanLabel(evidence, f));
    }
    finding.label = listed(finding.words);
    finding.figures = {{"least", least_m3_s, base::Kind::VolumeFlow},
                       {"most", most_m3_s, base::Kind::VolumeFlow}};
    finding.severity = Severity::Caution;
    finding.badness = 1;
    finding.remedies = {{"one-fan-at-a-time", {}, finding.words, {}, {}, {}},
                        {"separate-systems", {}, {finding.label}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string least = voice.show(finding.figure("least"));
  const std::string most = voice.show(finding.figure("most"));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} do not share the work: one moves {}, the other {}, and they may change places any moment.",
          finding.label, most, least);
    case Reader::Adviser:
      return fmt::format(
          "{} run side by side on curves with a rising part: the even sharing is unstable. This solution has "
          "{} "
          "and {}; there are others.",
          finding.label, most, least);
    case Reader::Inspector:
      return fmt::format("{}: parallel operation unstable (flows {} and {}). Intended performance not met.",
                         finding.label, most, least);
  }
  return {};
}

}  // namespace

const Rule kFansHunt{"fans-hunt", Topic::Collector, "Fans that hunt", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
