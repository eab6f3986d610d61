// Gathers what rules look at, once: margins, sheets, what each machine would get alone, the freest state, and
// the ways back from pieces to what was drawn.
#include "judge/evidence.h"

#include <algorithm>
#include <set>
#include <utility>

#include "network/solve.h"

namespace kerfdraft::judge {

namespace {

/// The item of an id in a list of the project, or null.
template <class Items>
const typename Items::value_type* byId(const Items& items, base::Id id) {
  const auto found =
      std::find_if(items.begin(), items.end(), [&](const auto& item) { return item.id == id; });
  return found == items.end() || !id.valid() ? nullptr : &*found;
}

/// Gates that the air of a machine's ports can come to, as drawn.
std::set<std::size_t> gatesOf(const pieces::Pieces& drawing, base::Id machine) {
  std::vector<std::size_t> runs;
  for (const pieces::PortPlace& port : drawing.ports) {
    if (port.ref.machine == machine) {
      runs.push_back(port.run);
    }
  }
  std::vector<char> seen(drawing.runs.size(), 0);
  std::set<std::size_t> gates;
  while (!runs.empty()) {
    const std::size_t run = runs.back();
    runs.pop_back();
    if (seen[run] != 0) {
      continue;
    }
    seen[run] = 1;
    for (const pieces::Piece& piece : drawing.runs[run].pieces) {
      if (piece.gate >= 0) {
        gates.insert(static_cast<std::size_t>(piece.gate));
      }
    }
    for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
      if (drawing.runs[r].from == drawing.runs[run].to) {
        runs.push_back(r);
      }
    }
  }
  return gates;
}

/// The situation of a state with everything shut that does not serve this machine.
network::Situation aloneSituation(const pieces::Pieces& drawing, network::Situation situation,
                                  base::Id machine) {
  const std::set<std::size_t> own = gatesOf(drawing, machine);
  for (std::size_t g = 0; g < situation.gate_travel.size(); ++g) {
    if (!own.contains(g)) {
      situation.gate_travel[g] = 0;
    }
  }
  for (std::size_t m = 0; m < situation.hose_place.size(); ++m) {
    const int place = situation.hose_place[m];
    if (place >= 0 && drawing.moved[m].places[static_cast<std::size_t>(place)].ref.machine != machine) {
      situation.hose_place[m] = -1;
    }
  }
  return situation;
}

/// Machines with an open port, in the order of the ports, each once.
std::vector<base::Id> openMachines(const Assessment& assessment, std::size_t state) {
  std::vector<base::Id> machines;
  const pieces::Pieces& drawing = *assessment.pieces;
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    const base::Id machine = drawing.ports[p].ref.machine;
    if (isOpen(drawing, assessment.states[state].situation, p) &&
        std::find(machines.begin(), machines.end(), machine) == machines.end()) {
      machines.push_back(machine);
    }
  }
  return machines;
}

void addAlone(const Assessment& assessment, std::size_t state, std::vector<AloneFlow>& out) {
  const StateResult& result = assessment.states[state];
  const std::vector<base::Id> machines = openMachines(assessment, state);
  if (!result.declared || !result.solution.solved() || machines.size() < 2) {
    return;
  }
  const pieces::Pieces& drawing = *assessment.pieces;
  for (const base::Id machine : machines) {
    const network::Solution solution =
        network::solveFully(*assessment.network, aloneSituation(drawing, result.situation, machine));
    if (!solution.solved()) {
      continue;
    }
    for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
      if (drawing.ports[p].ref.machine == machine && isOpen(drawing, result.situation, p)) {
        out.push_back({state, p, solution.ports[p].flow_m3_s});
      }
    }
  }
}

std::optional<StateResult> freestState(const Assessment& assessment) {
  StateResult free{{}, "every gate open", false, network::restingSituation(*assessment.pieces), {}};
  for (double& travel : free.situation.gate_travel) {
    travel = 1;
  }
  for (int& place : free.situation.hose_place) {
    place = 0;
  }
  free.situation.filter = shop::FilterState::Clean;
  free.solution = network::solveFully(*assessment.network, free.situation);
  if (!free.solution.solved()) {
    return std::nullopt;
  }
  return free;
}

FilterLife filterLife(const Assessment& assessment, std::size_t state) {
  FilterLife life;
  const StateResult& now = assessment.states[state];
  const auto solve = [&](shop::FilterState filter) -> std::optional<network::Solution> {
    if (now.situation.filter == filter) {
      return now.solution;
    }
    network::Situation situation = now.situation;
    situation.filter = filter;
    network::Solution solution = network::solveFully(*assessment.network, situation);
    return solution.solved() ? std::optional(std::move(solution)) : std::nullopt;
  };
  life.clean = solve(shop::FilterState::Clean);
  life.due = solve(shop::FilterState::Due);
  return life;
}

Band bandAt(const std::vector<StateBands>& bands, std::size_t state, std::vector<Band> StateBands::*of,
            std::size_t index) {
  if (state >= bands.size() || index >= (bands[state].*of).size()) {
    return {};
  }
  return (bands[state].*of)[index];
}

}  // namespace

Band Evidence::speedBand(std::size_t state, std::size_t run) const {
  return bandAt(bands, state, &StateBands::run_speed, run);
}

Band Evidence::flowBand(std::size_t state, std::size_t port) const {
  return bandAt(bands, state, &StateBands::port_flow, port);
}

Band Evidence::fanBand(std::size_t state, std::size_t fan) const {
  return bandAt(bands, state, &StateBands::fan_flow, fan);
}

std::optional<double> Evidence::aloneFlow(std::size_t state, std::size_t port) const {
  for (const AloneFlow& flow : alone) {
    if (flow.state == state && flow.port == port) {
      return flow.flow_m3_s;
    }
  }
  return std::nullopt;
}

std::vector<std::size_t> Evidence::path(std::size_t state, std::size_t port) const {
  std::vector<std::size_t> runs;
  if (state >= sheets.size() || port >= sheets[state].size() || !sheets[state][port]) {
    return runs;
  }
  const Sheet& sheet = *sheets[state][port];
  const std::size_t fan_row = sheet.fans.empty() ? sheet.rows.size() : sheet.fans.back().row;
  for (std::size_t i = 0; i < fan_row; ++i) {
    const std::string& label = sheet.rows[i].run;
    if (label.empty() || (!runs.empty() && pieces().runs[runs.back()].label == label)) {
      continue;
    }
    for (std::size_t r = 0; r < pieces().runs.size(); ++r) {
      if (pieces().runs[r].label == label) {
        runs.push_back(r);
        break;
      }
    }
  }
  return runs;
}

const shop::Machine* Evidence::machine(base::Id id) const {
  return byId(project().machines, id);
}

const shop::Duct* Evidence::duct(base::Id id) const {
  return byId(project().ducts, id);
}

const shop::Collector* Evidence::collector(base::Id id) const {
  return byId(project().collectors, id);
}

const shop::Room* Evidence::room(base::Id id) const {
  return byId(project().rooms, id);
}

const shop::Duct* Evidence::ductOfCorner(base::Id corner) const {
  for (const shop::Duct& duct : project().ducts) {
    if (byId(duct.corners, corner) != nullptr) {
      return &duct;
    }
  }
  return nullptr;
}

std::vector<const shop::Duct*> Evidence::ductsOfRun(std::size_t run) const {
  using pieces::Role;
  std::vector<const shop::Duct*> ducts;
  for (const pieces::Piece& piece : pieces().runs[run].pieces) {
    const shop::Duct* of = nullptr;
    switch (piece.key.role) {
      case Role::Straight:
      case Role::Hose:
      case Role::Elbow:
      case Role::HoseBend:
        of = ductOfCorner(piece.key.a);
        break;
      case Role::Gate:
        for (const shop::Duct& duct : project().ducts) {
          if (byId(duct.gates, piece.key.a) != nullptr) {
            of = &duct;
          }
        }
        break;
      default:
        break;
    }
    if (of != nullptr && std::find(ducts.begin(), ducts.end(), of) == ducts.end()) {
      ducts.push_back(of);
    }
  }
  return ducts;
}

std::string Evidence::machineName(base::Id id) const {
  const shop::Machine* of = machine(id);
  if (of == nullptr) {
    return "a machine";
  }
  if (of->label.empty() || of->name.empty()) {
    return of->label.empty() ? (of->name.empty() ? "a machine" : of->name) : of->label;
  }
  return of->label + " " + of->name;
}

base::Result<Evidence> gatherEvidence(const Assessment& assessment, const catalogue::Catalogue& catalogue,
                                      std::vector<StateBands> bands) {
  auto of_states = margins(assessment, catalogue);
  if (!of_states) {
    return base::Failure(of_states.error());
  }
  auto needs = TransportNeeds::of(*assessment.project, assessment.pieces->air.pressure_pa, catalogue);
  if (!needs) {
    return base::Failure(needs.error());
  }
  Evidence out{assessment, catalogue, std::move(*of_states), std::move(bands), {}, {}, {},
               {},         {},        std::move(*needs)};
  const pieces::Pieces& drawing = *assessment.pieces;
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    std::vector<std::optional<Sheet>> sheets(drawing.ports.size());
    std::vector<std::vector<std::size_t>> chips(drawing.runs.size());
    if (out.solved(s)) {
      for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
        if (isOpen(drawing, assessment.states[s].situation, p)) {
          if (auto sheet = modelSheet(assessment, s, p)) {
            sheets[p] = std::move(*sheet);
          }
        }
      }
      chips = travellingChips(assessment, s, out.needs);
      addAlone(assessment, s, out.alone);
    }
    out.filter_life.push_back(out.solved(s) && !drawing.filters.empty() ? filterLife(assessment, s)
                                                                        : FilterLife{});
    out.sheets.push_back(std::move(sheets));
    out.chips.push_back(std::move(chips));
  }
  out.freest = freestState(assessment);
  return out;
}

}  // namespace kerfdraft::judge
