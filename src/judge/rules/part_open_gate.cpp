// A gate half open where chips pass: its blade makes an edge on which they hang and a dead corner in which
// they lie. Balancing belongs into duct without chips.
#include <fmt/format.h>

#include <cmath>

#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Between these shares of its travel a gate counts as part open: nobody shuts or opens one to the hair
/// (ours).
constexpr double kShut = 0.05;
constexpr double kOpen = 0.95;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const pieces::Pieces& drawing = evidence.pieces();
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    const StateResult& state = evidence.state(s);
    if (!state.declared || !evidence.solved(s)) {
      continue;
    }
    for (std::size_t g = 0; g < drawing.gates.size(); ++g) {
      const pieces::GatePlace& gate = drawing.gates[g];
      const double travel = state.situation.gate_travel[g];
      if (!(travel > kShut && travel < kOpen) || evidence.chips[s][gate.run].empty()) {
        continue;
      }
      Finding finding;
      finding.key = {pieces::Role::Gate, gate.id, {}};
      finding.label = gate.label;
      finding.state = s;
      finding.severity = Severity::Caution;
      finding.figures = {
          {"travel", travel, base::Kind::Ratio},
          {"loss", std::abs(state.solution.runs[gate.run].pieces[gate.piece].loss_pa), base::Kind::Pressure}};
      finding.limit = Limit{kOpen, base::Kind::Ratio, {}, base::SourceStatus::Ours, {}};
      finding.badness = 1 - travel;
      finding.runs = {gate.run};
      finding.ports = portsThrough(evidence, s, gate.run);
      finding.words = machinesOf(evidence, finding.ports);
      finding.remedies = {{"open-gate-fully",
                           {},
                           {gate.label},
                           Change{ChangeKind::GateOpen, gate.id, state.id, 0, false},
                           {},
                           {}}};
      out.push_back(std::move(finding));
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string travel = voice.percent(finding.figure("travel").value);
  const std::string machines = finding.words.empty() ? "a machine" : listed(finding.words);
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Gate {} stands {} open while chips of {} pass it: they hang on its blade and take the "
          "air away.",
          finding.label, travel, machines);
    case Reader::Adviser:
      return fmt::format(
          "Gate {} takes {} at {} of its travel, in a run with chips of {} that catch on its blade; "
          "balancing "
          "belongs elsewhere.",
          finding.label, voice.show(finding.figure("loss")), travel, machines);
    case Reader::Inspector:
      return fmt::format("Gate {} in a run that carries chips of {}: {} open, fully open intended. Not met.",
                         finding.label, machines, travel);
  }
  return {};
}

}  // namespace

const Rule kPartOpenGate{"part-open-gate", Topic::Conveying, "Gate half open where chips pass", &look, &tell};

}  // namespace kerfdraft::judge
