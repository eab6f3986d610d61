// Warm air that is blown outdoors has to be warmed again: how much heat that is, for a cold day. Once for the
// project.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Outdoors is taken so much colder than the room (ours: nobody enters the weather).
constexpr double kColder_k = 20;
/// Of air at room temperature.
constexpr double kHeat_j_kg_k = 1006;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const pieces::Pieces& drawing = evidence.pieces();
  double most_kg_s = 0;
  std::optional<std::size_t> state;
  std::vector<std::string> units;
  pieces::PieceKey first;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    double sum_kg_s = 0;
    std::vector<std::string> here;
    pieces::PieceKey key;
    for (const shop::Collector* collector : printed(evidence.project().collectors)) {
      const auto f = fanOf(drawing, collector->id);
      const double flow_kg_s = f ? evidence.state(s).solution.fans[*f].flow_kg_s : 0;
      if (!(flow_kg_s > 0) || outletOf(drawing, *f) != Outlet::Outdoors) {
        continue;
      }
      key = here.empty() ? drawing.fans[*f].key : key;
      here.push_back(fanName(drawing, *f));
      sum_kg_s += flow_kg_s;
    }
    if (sum_kg_s > most_kg_s) {
      most_kg_s = sum_kg_s;
      state = s;
      units = here;
      first = key;
    }
  }
  if (!state || evidence.project().rooms.empty()) {
    return;
  }
  Finding finding;
  finding.key = first;
  finding.label = listed(units);
  finding.state = state;
  finding.figures = {{"heat", most_kg_s * kHeat_j_kg_k * kColder_k, base::Kind::Power},
                     {"flow", most_kg_s / evidence.pieces().air.density_kg_m3, base::Kind::VolumeFlow},
                     {"colder", kColder_k, base::Kind::TemperatureDifference}};
  finding.words = units;
  finding.severity = Severity::Note;
  finding.badness = 1;
  out.push_back(std::move(finding));
}

std::string tell(const Finding& finding, const Voice& voice) {
  // Heat is told in kilowatts everywhere: the usual unit of power here is that of motors.
  const std::string heat = fmt::format("{:.2g} kW", finding.figure("heat").value / 1000);
  const std::string flow = voice.show(finding.figure("flow"));
  const std::string colder = voice.show(finding.figure("colder"));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{} blows {} of warm air outdoors. On a day {} colder than the room that takes {} of heating to "
          "make "
          "good.",
          finding.label, flow, colder, heat);
    case Reader::Adviser:
      return fmt::format("Make-up air of {} ({}): {} at {} between inside and outside, while the fans run.",
                         flow, finding.label, heat, colder);
    case Reader::Inspector:
      return fmt::format("{}: {} discharged outdoors; make-up heat {} at {}. Noted.", finding.label, flow,
                         heat, colder);
  }
  return {};
}

}  // namespace

const Rule kMakeUpHeat{"make-up-heat", Topic::People, "Heat carried outdoors", &look, &tell};

}  // namespace kerfdraft::judge
