// A state in which the air has no solution: where it breaks off and why. Nothing else can be said of such a
// state, so this stands before everything.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/air_rules.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

using network::Outcome;

std::string kindOf(Outcome outcome) {
  switch (outcome) {
    case Outcome::NoFan:
      return "no fan";
    case Outcome::NoFreeAir:
      return "no free air";
    case Outcome::NoRoomAir:
      return "no room air";
    default:
      return "not settled";
  }
}

/// The node or fan that a solution names, so that the finding stays where it is when the state is renamed.
pieces::PieceKey keyOfPlace(const pieces::Pieces& drawing, const std::string& place) {
  for (const pieces::Fan& fan : drawing.fans) {
    if (!place.empty() && fan.label == place) {
      return fan.key;
    }
  }
  for (const pieces::Node& node : drawing.nodes) {
    if (!place.empty() && node.label == place) {
      return node.key;
    }
  }
  return {pieces::Role::Fan, {}, {}};
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const shop::Project& project = evidence.project();
  if (project.ducts.empty() && project.machines.empty() && project.collectors.empty()) {
    return;  // nothing is drawn yet
  }
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    const network::Solution& solution = evidence.state(s).solution;
    if (solution.solved()) {
      continue;
    }
    Finding finding;
    finding.key = keyOfPlace(evidence.pieces(), solution.place);
    finding.label = solution.place.empty() ? "The whole shop" : solution.place;
    finding.state = s;
    finding.severity = Severity::Severe;
    finding.words = {kindOf(solution.outcome), solution.why};
    finding.badness = 1;
    if (solution.outcome == Outcome::NoFan) {
      finding.remedies.push_back({"draw-collector", {}, {}, {}, {}, {}});
    } else if (solution.outcome == Outcome::NoRoomAir) {
      finding.remedies.push_back({"let-room-breathe", {}, {finding.label}, {}, {}, {}});
    } else if (solution.outcome == Outcome::NoFreeAir) {
      finding.remedies.push_back({"give-air-a-way", {}, {finding.label}, {}, {}, {}});
    }
    out.push_back(std::move(finding));
  }
}

std::string cause(const std::string& kind) {
  if (kind == "no fan") {
    return "no fan is drawn, so nothing moves the air";
  }
  if (kind == "no free air") {
    return "the air has no way in or no way out there";
  }
  if (kind == "no room air") {
    return "a fan draws this room's air outdoors and no opening lets air in again";
  }
  return "the calculation did not settle";
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string why = cause(finding.words[0]);
  const std::string detail = finding.words[1].empty() ? "" : fmt::format(" ({})", finding.words[1]);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format("At {} it breaks off: {}. Nothing can be said of any machine here.", finding.label,
                         why);
    case Reader::Adviser:
      return fmt::format("No solution; place: {}; {}{}.", finding.label, why, detail);
    case Reader::Inspector:
      return fmt::format("{}: {}. Cannot conclude for any hood in this condition.", finding.label, why);
  }
  return {};
}

}  // namespace

const Rule kNoSolution{"no-solution", Topic::Air, "No air can be computed", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
