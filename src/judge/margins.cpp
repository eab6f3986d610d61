// Flow against floor and target, speed against the transport minimum, state by state.
#include "judge/margins.h"

#include <algorithm>
#include <vector>

#include "judge/transport.h"
#include "network/shown.h"

namespace kerfdraft::judge {

namespace {

using pieces::NodeKind;

std::optional<double> siOf(const std::optional<base::Given<base::VolumeFlow>>& given) {
  return given ? std::optional(given->si()) : std::nullopt;
}

void judge(FlowMargin& margin) {
  if (!margin.open) {
    margin.served = Served::Shut;
    return;
  }
  if (!margin.floor_m3_s && !margin.target_m3_s) {
    margin.served = Served::NothingAsked;
    return;
  }
  const bool target_met = margin.target_m3_s && margin.flow_m3_s >= kTargetShare * *margin.target_m3_s;
  if (margin.floor_m3_s && margin.flow_m3_s < *margin.floor_m3_s) {
    margin.served = Served::Short;
  } else if (target_met) {
    margin.served = Served::TargetMet;
  } else {
    margin.served = margin.floor_m3_s ? Served::FloorMet : Served::Short;
  }
}

const shop::Machine* machineOf(const shop::Project& project, base::Id id) {
  const auto found = std::find_if(project.machines.begin(), project.machines.end(),
                                  [&](const shop::Machine& machine) { return machine.id == id; });
  return found == project.machines.end() ? nullptr : &*found;
}

FlowMargin portMargin(const Assessment& assessment, const StateResult& state, std::size_t index) {
  const pieces::PortPlace& place = assessment.pieces->ports[index];
  FlowMargin margin;
  margin.ref = place.ref;
  margin.port = index;
  margin.label = place.label;
  margin.open = isOpen(*assessment.pieces, state.situation, index);
  margin.flow_m3_s = state.solution.ports[index].flow_m3_s;
  if (const shop::Machine* machine = machineOf(*assessment.project, place.ref.machine)) {
    for (const shop::Port& port : machine->ports) {
      if (port.id == place.ref.port) {
        margin.floor_m3_s = siOf(port.floor);
        margin.target_m3_s = siOf(port.target);
      }
    }
  }
  judge(margin);
  return margin;
}

/// A machine with one requirement for all its ports: the sum of those that are open.
FlowMargin machineMargin(const shop::Machine& machine, const std::vector<FlowMargin>& ports) {
  FlowMargin margin;
  margin.ref.machine = machine.id;
  margin.label = machine.label;
  margin.floor_m3_s = siOf(machine.floor);
  margin.target_m3_s = siOf(machine.target);
  for (const FlowMargin& port : ports) {
    if (port.ref.machine == machine.id && port.open) {
      margin.open = true;
      margin.flow_m3_s += port.flow_m3_s;
    }
  }
  judge(margin);
  return margin;
}

std::vector<BodyMargin> bodyMargins(const pieces::Pieces& drawing, const network::Solution& solution) {
  std::vector<BodyMargin> bodies;
  for (std::size_t node = 0; node < drawing.nodes.size(); ++node) {
    if (drawing.nodes[node].kind != NodeKind::Body) {
      continue;
    }
    double area_m2 = 0;
    double flow_m3_s = 0;
    for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
      if (drawing.openings[o].to == node) {
        area_m2 += drawing.openings[o].area_m2;
        flow_m3_s += solution.openings[o].speed_m_s * drawing.openings[o].area_m2;
      }
    }
    if (area_m2 > 0) {
      bodies.push_back({drawing.nodes[node].key.a, drawing.nodes[node].label, flow_m3_s / area_m2});
    }
  }
  return bodies;
}

bool hasDuct(const pieces::Run& run) {
  return std::any_of(run.pieces.begin(), run.pieces.end(), [](const pieces::Piece& piece) {
    return piece.key.role == pieces::Role::Straight || piece.key.role == pieces::Role::Hose;
  });
}

/// The most demanding of the chips that travel in a run decides.
RunMargin runMargin(const Assessment& assessment, const StateResult& state, std::size_t index,
                    const std::vector<std::size_t>& chips, const TransportNeeds& needs) {
  const pieces::Run& run = assessment.pieces->runs[index];
  RunMargin margin;
  margin.run = index;
  margin.label = run.label;
  margin.main = assessment.pieces->nodes[run.from].kind == NodeKind::Junction;
  margin.slowest_m_s = state.solution.runs[index].slowest_m_s;
  for (const std::size_t at : chips) {
    const TransportNeed& need = needs.needs()[at];
    const double minimum_m_s = margin.main ? need.minimum_main_m_s : need.minimum_branch_m_s;
    if (minimum_m_s > margin.minimum_m_s) {
      margin.minimum_m_s = minimum_m_s;
      margin.material = need.material;
      margin.source = need.source;
    }
    margin.advised_m_s =
        std::max(margin.advised_m_s, margin.main ? need.rule.advised_main_m_s : need.rule.advised_branch_m_s);
    margin.caution_below_m_s = std::max(margin.caution_below_m_s, need.rule.caution_below_m_s);
    margin.not_carried_below_m_s = std::max(margin.not_carried_below_m_s, need.rule.not_carried_below_m_s);
    margin.high_above_m_s = std::max(margin.high_above_m_s, need.rule.high_above_m_s);
  }
  margin.ratio = margin.slowest_m_s / margin.minimum_m_s;
  return margin;
}

StateMargins stateMargins(const Assessment& assessment, std::size_t index, const TransportNeeds& needs) {
  const StateResult& state = assessment.states[index];
  const pieces::Pieces& drawing = *assessment.pieces;
  StateMargins out;
  out.state = index;
  out.solved = state.solution.solved();
  if (!out.solved) {
    return out;
  }
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    out.ports.push_back(portMargin(assessment, state, p));
  }
  for (const shop::Machine& machine : assessment.project->machines) {
    if (machine.floor || machine.target) {
      out.machines.push_back(machineMargin(machine, out.ports));
    }
  }
  out.bodies = bodyMargins(drawing, state.solution);
  const auto chips = travellingChips(assessment, index, needs);
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    if (!chips[r].empty() && hasDuct(drawing.runs[r])) {
      out.runs.push_back(runMargin(assessment, state, r, chips[r], needs));
    }
  }
  const auto reached = [](const FlowMargin& margin) { return margin.reached(); };
  out.served = std::all_of(out.ports.begin(), out.ports.end(), reached) &&
               std::all_of(out.machines.begin(), out.machines.end(), reached);
  return out;
}

bool gatesOpen(const pieces::Pieces& drawing, const network::Situation& situation, std::size_t run) {
  return std::all_of(
      drawing.runs[run].pieces.begin(), drawing.runs[run].pieces.end(), [&](const pieces::Piece& piece) {
        return piece.gate < 0 || situation.gate_travel[static_cast<std::size_t>(piece.gate)] > 0;
      });
}

}  // namespace

std::string_view toText(Served served) {
  switch (served) {
    case Served::Shut:
      return "shut";
    case Served::NothingAsked:
      return "nothing asked";
    case Served::Short:
      return "short";
    case Served::FloorMet:
      return "floor met";
    case Served::TargetMet:
      return "target met";
  }
  return "";
}

bool isOpen(const pieces::Pieces& drawing, const network::Situation& situation, std::size_t port) {
  std::vector<char> seen(drawing.nodes.size(), 0);
  std::vector<std::size_t> runs{drawing.ports[port].run};
  while (!runs.empty()) {
    const std::size_t run = runs.back();
    runs.pop_back();
    if (network::shownClosedAt(drawing, situation, run) != network::kNotShut ||
        !gatesOpen(drawing, situation, run)) {
      continue;
    }
    const std::size_t node = drawing.runs[run].to;
    if (seen[node] != 0) {
      continue;
    }
    seen[node] = 1;
    const NodeKind kind = drawing.nodes[node].kind;
    if (kind == NodeKind::Room || kind == NodeKind::Outdoors ||
        std::any_of(drawing.fans.begin(), drawing.fans.end(),
                    [&](const pieces::Fan& fan) { return fan.from == node; })) {
      return true;
    }
    for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
      if (drawing.runs[r].from == node) {
        runs.push_back(r);
      }
    }
  }
  return false;
}

base::Result<std::vector<StateMargins>> margins(const Assessment& assessment,
                                                const catalogue::Catalogue& catalogue) {
  const auto needs = TransportNeeds::of(*assessment.project, assessment.pieces->air.pressure_pa, catalogue);
  if (!needs) {
    return base::Failure(needs.error());
  }
  std::vector<StateMargins> out;
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    out.push_back(stateMargins(assessment, s, *needs));
  }
  return out;
}

}  // namespace kerfdraft::judge
