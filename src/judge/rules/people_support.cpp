// Ways through the drawing and the rooms that the rules about people need.
#include "judge/rules/people_support.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "judge/rules/fan_support.h"
#include "physics/opening.h"

namespace kerfdraft::judge {

namespace {

using pieces::NodeKind;

bool isAir(NodeKind kind) {
  return kind == NodeKind::Room || kind == NodeKind::Outdoors || kind == NodeKind::Body;
}

/// Nodes in groups that ducts and fans join; rooms, bodies and the outdoors join nothing.
class NodeGroups {
 public:
  explicit NodeGroups(const pieces::Pieces& drawing) : drawing_(drawing), parent_(drawing.nodes.size()) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    for (const pieces::Run& run : drawing.runs) {
      join(run.from, run.to);
    }
    for (const pieces::Fan& fan : drawing.fans) {
      join(fan.from, fan.to);
    }
  }

  /// The group of what lies between two nodes; nothing where both are open air.
  std::optional<std::size_t> between(std::size_t from, std::size_t to) const {
    if (!isAir(drawing_.nodes[to].kind)) {
      return root(to);
    }
    return isAir(drawing_.nodes[from].kind) ? std::nullopt : std::optional(root(from));
  }

 private:
  std::size_t root(std::size_t node) const {
    while (parent_[node] != node) {
      node = parent_[node];
    }
    return node;
  }
  void join(std::size_t a, std::size_t b) {
    if (!isAir(drawing_.nodes[a].kind) && !isAir(drawing_.nodes[b].kind)) {
      parent_[root(b)] = root(a);
    }
  }

  const pieces::Pieces& drawing_;
  std::vector<std::size_t> parent_;
};

template <class T>
void addOnce(std::vector<T>& list, const T& item) {
  if (std::find(list.begin(), list.end(), item) == list.end()) {
    list.push_back(item);
  }
}

/// Ids in the order of these things.
template <class T>
void inOrderOf(const std::vector<const T*>& things, std::vector<base::Id>& ids) {
  std::vector<base::Id> sorted;
  for (const T* thing : things) {
    if (std::find(ids.begin(), ids.end(), thing->id) != ids.end()) {
      sorted.push_back(thing->id);
    }
  }
  ids = std::move(sorted);
}

}  // namespace

std::vector<DuctSystem> ductSystems(const Evidence& evidence) {
  const pieces::Pieces& drawing = evidence.pieces();
  const NodeGroups groups(drawing);
  std::vector<std::size_t> roots;
  std::vector<DuctSystem> systems;
  for (const shop::Collector* collector : printed(evidence.project().collectors)) {
    const auto f = fanOf(drawing, collector->id);
    const auto group = f ? groups.between(drawing.fans[*f].to, drawing.fans[*f].from) : std::nullopt;
    if (!group) {
      continue;
    }
    auto at = std::find(roots.begin(), roots.end(), *group);
    if (at == roots.end()) {
      roots.push_back(*group);
      systems.emplace_back();
      at = roots.end() - 1;
    }
    systems[static_cast<std::size_t>(at - roots.begin())].fans.push_back(*f);
  }
  const auto system_of = [&](std::size_t run) -> DuctSystem* {
    const auto group = groups.between(drawing.runs[run].from, drawing.runs[run].to);
    const auto at = group ? std::find(roots.begin(), roots.end(), *group) : roots.end();
    return at == roots.end() ? nullptr : &systems[static_cast<std::size_t>(at - roots.begin())];
  };
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    if (DuctSystem* system = system_of(drawing.ports[p].run)) {
      system->ports.push_back(p);
      addOnce(system->machines, drawing.ports[p].ref.machine);
    }
  }
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    // A machine whose body stands at room pressure begins at the room's node too: what was drawn decides.
    const std::vector<const shop::Duct*> ducts = evidence.ductsOfRun(r);
    if (drawing.nodes[drawing.runs[r].from].kind != NodeKind::Room || ducts.empty() ||
        !std::holds_alternative<shop::FreeAir>(ducts.front()->from)) {
      continue;
    }
    if (DuctSystem* system = system_of(r)) {
      addOnce(system->sweeps, ducts.front()->id);
    }
  }
  const std::vector<const shop::Machine*> machines = printed(evidence.project().machines);
  const std::vector<const shop::Duct*> ducts = printed(evidence.project().ducts);
  for (DuctSystem& system : systems) {
    inOrderOf(machines, system.machines);
    inOrderOf(ducts, system.sweeps);
  }
  return systems;
}

bool throwsWood(const Evidence& evidence, base::Id machine) {
  const shop::Machine* of = evidence.machine(machine);
  return of != nullptr && of->throws_what == shop::Throws::Wood;
}

bool throwsSanderDust(const Evidence& evidence, base::Id machine) {
  const auto& machines = evidence.project().machines;
  for (std::size_t m = 0; m < machines.size(); ++m) {
    if (machines[m].id == machine) {
      return machines[m].throws_what == shop::Throws::Wood &&
             evidence.needs.needs()[evidence.needs.ofMachine(m)].material == "sander-dust";
    }
  }
  return false;
}

std::vector<base::Id> sandersOn(const Evidence& evidence, const DuctSystem& system) {
  std::vector<base::Id> out;
  std::copy_if(system.machines.begin(), system.machines.end(), std::back_inserter(out),
               [&](base::Id machine) { return throwsSanderDust(evidence, machine); });
  return out;
}

std::vector<std::string> machineNames(const Evidence& evidence, const std::vector<base::Id>& machines) {
  std::vector<std::string> names;
  names.reserve(machines.size());
  for (const base::Id machine : machines) {
    names.push_back(evidence.machineName(machine));
  }
  return names;
}

std::string fanName(const pieces::Pieces& drawing, std::size_t fan) {
  const std::string& label = drawing.fans[fan].label;
  return label.empty() ? "the collector" : label;
}

Outlet outletOf(const pieces::Pieces& drawing, std::size_t fan) {
  std::vector<char> seen(drawing.nodes.size(), 0);
  std::vector<std::size_t> nodes{drawing.fans[fan].to};
  Outlet found = Outlet::Nowhere;
  while (!nodes.empty()) {
    const std::size_t node = nodes.back();
    nodes.pop_back();
    if (seen[node] != 0) {
      continue;
    }
    seen[node] = 1;
    if (drawing.nodes[node].kind == NodeKind::Room) {
      return Outlet::Room;
    }
    if (drawing.nodes[node].kind == NodeKind::Outdoors) {
      found = Outlet::Outdoors;
      continue;
    }
    for (const pieces::Run& run : drawing.runs) {
      if (run.from == node) {
        nodes.push_back(run.to);
      }
    }
  }
  return found;
}

RoomDepth deepest(const Evidence& evidence, base::Id room) {
  RoomDepth out;
  const pieces::Pieces& drawing = evidence.pieces();
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      out.all_solved = false;
      continue;
    }
    const network::Solution& solution = evidence.state(s).solution;
    for (std::size_t n = 0; n < drawing.nodes.size(); ++n) {
      if (drawing.nodes[n].kind != NodeKind::Room || drawing.nodes[n].key.a != room ||
          !(-solution.node_pa[n] > out.depth_pa)) {
        continue;
      }
      out.depth_pa = -solution.node_pa[n];
      out.state = s;
      out.inflow_kg_s = 0;
      for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
        const pieces::Opening& opening = drawing.openings[o];
        const bool of_body = drawing.nodes[opening.to].kind == NodeKind::Body;
        if (!of_body && opening.to == n) {
          out.inflow_kg_s += solution.openings[o].flow_kg_s;
        } else if (!of_body && opening.from == n) {
          out.inflow_kg_s -= solution.openings[o].flow_kg_s;
        }
      }
    }
  }
  return out;
}

double areaToAdd(const Evidence& evidence, const RoomDepth& depth, double limit_pa) {
  const double density_kg_m3 = evidence.pieces().air.density_kg_m3;
  if (!(depth.inflow_kg_s > 0) || !(depth.depth_pa > limit_pa) || !(limit_pa > 0) || !(density_kg_m3 > 0)) {
    return 0;
  }
  // dp grows with the square of flow over area, so the drop through one square metre gives both areas.
  const double one_m2_pa = physics::opening(depth.inflow_kg_s, density_kg_m3, 1.0).dp_pa;
  return std::sqrt(one_m2_pa / limit_pa) - std::sqrt(one_m2_pa / depth.depth_pa);
}

std::vector<base::Id> joinedRooms(const shop::Project& project, base::Id room) {
  std::vector<base::Id> joined{room};
  for (std::size_t i = 0; i < joined.size(); ++i) {
    for (const shop::Room& each : project.rooms) {
      for (const shop::Opening& opening : each.openings) {
        if (!opening.leads_to.valid()) {
          continue;
        }
        if (each.id == joined[i]) {
          addOnce(joined, opening.leads_to);
        } else if (opening.leads_to == joined[i]) {
          addOnce(joined, each.id);
        }
      }
    }
  }
  return joined;
}

std::optional<catalogue::PolicyChoice> policyTaken(const Evidence& evidence, std::string_view subject) {
  std::string chosen;
  for (const shop::Policy& policy : evidence.project().setting.policies) {
    if (policy.subject == subject && chosen.empty()) {
      chosen = policy.choice;
    }
  }
  const auto choice = catalogue::policyChoice(evidence.catalogue, subject, chosen);
  return choice ? std::optional(*choice) : std::nullopt;
}

std::string policyName(const catalogue::PolicyChoice& choice) {
  return choice.name;
}

pieces::PieceKey shopKey(const shop::Project& project) {
  return {pieces::Role::Room, project.rooms.empty() ? base::Id{} : project.rooms.front().id, {}};
}

std::vector<std::string> firstWords(const Finding& finding, std::size_t from, std::size_t count) {
  const std::size_t begin = std::min(from, finding.words.size());
  const std::size_t end = std::min(begin + count, finding.words.size());
  return {finding.words.begin() + static_cast<std::ptrdiff_t>(begin),
          finding.words.begin() + static_cast<std::ptrdiff_t>(end)};
}

std::optional<MostFlow> mostFlow(const Evidence& evidence, std::size_t fan) {
  std::optional<MostFlow> most;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s)) {
      continue;
    }
    const double flow_m3_s = evidence.state(s).solution.fans[fan].inlet_flow_m3_s;
    if (flow_m3_s > 0 && (!most || flow_m3_s > most->flow_m3_s)) {
      most = MostFlow{flow_m3_s, s};
    }
  }
  return most;
}

std::string roomPressure(double pressure_pa, const Voice& voice) {
  constexpr double kInchOfWater_pa = 249.08891;
  // Less than a twentieth of a pascal is what the solver leaves of nothing.
  if (std::abs(pressure_pa) < 0.05) {
    return "0 Pa";
  }
  const auto digits = [](double value) { return fmt::format("{:.2g}", value); };
  const std::string text =
      pressure_pa < 99.5 ? digits(pressure_pa) + " Pa" : fmt::format("{:.0f} Pa", pressure_pa);
  return voice.units() == base::UnitSystem::Us
             ? fmt::format("{} ({} in of water)", text, digits(pressure_pa / kInchOfWater_pa))
             : text;
}

std::string dustText(double dust_kg_m3) {
  return fmt::format("{:.3g} mg/m³", dust_kg_m3 * 1e6);
}

}  // namespace kerfdraft::judge
