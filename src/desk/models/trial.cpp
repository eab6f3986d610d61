// A trial has the settings of the state that it began from, apart from the gates that were clicked.
#include "desk/models/trial.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "desk/models/places.h"

namespace kerfdraft::desk {
namespace {

constexpr const char* kTried = "As tried";

base::Given<base::Ratio> ratio(const char* text) {
  return *base::Given<base::Ratio>::parse(text, base::Standing::Assumed);
}

}  // namespace

double travelIn(const shop::State& state, base::Id gate) {
  const auto at = std::find_if(state.gates.begin(), state.gates.end(),
                               [&](const shop::GateSetting& each) { return each.gate == gate; });
  return at == state.gates.end() ? 0 : at->travel.si();
}

shop::State trialFrom(const shop::Project& project, const std::optional<shop::State>& trial,
                      std::size_t shown, base::Id new_id) {
  if (trial) {
    return *trial;
  }
  shop::State out;
  if (shown < project.states.size()) {
    out = project.states[shown];
  }
  out.id = new_id;
  out.name = kTried;
  out.unused = false;
  return out;
}

shop::State withGateToggled(shop::State trial, base::Id gate) {
  const bool open = travelIn(trial, gate) > 0;
  std::erase_if(trial.gates, [&](const shop::GateSetting& each) { return each.gate == gate; });
  if (!open) {
    trial.gates.push_back({gate, ratio("100 %")});
  }
  return trial;
}

shop::State keptTrial(const shop::Project& project, shop::State trial, std::string name) {
  const auto taken = [&](const std::string& text) {
    return std::any_of(project.states.begin(), project.states.end(),
                       [&](const shop::State& state) { return state.name == text; });
  };
  for (int k = 1; name.empty(); ++k) {
    std::string free = fmt::format("Trial {}", k);
    name = taken(free) ? std::string() : free;
  }
  trial.name = std::move(name);
  return trial;
}

namespace {

/// Gates that the air of a duct passes on its way, those of the ducts it enters too.
void gatesOnTheWay(const shop::Project& project, const shop::Duct& duct, std::size_t from_corner,
                   std::set<base::Id>& met, std::vector<base::Id>& gates) {
  if (!met.insert(duct.id).second) {
    return;  // a ring
  }
  for (const shop::Gate& gate : duct.gates) {
    if (cornerIndex(duct, gate.corner).value_or(0) >= from_corner) {
      gates.push_back(gate.id);
    }
  }
  if (const auto* on = std::get_if<shop::OnCorner>(&duct.to)) {
    if (const shop::Duct* next = ductOf(project, on->duct)) {
      gatesOnTheWay(project, *next, cornerIndex(*next, on->corner).value_or(0), met, gates);
    }
  }
}

}  // namespace

std::vector<shop::State> statesForMachines(const shop::Project& project, base::IdSource& ids) {
  std::vector<shop::State> out;
  for (const shop::Machine& machine : project.machines) {
    shop::State state;
    state.name = machine.name.empty() ? machine.label : machine.label + " " + machine.name;
    bool reached = false;
    std::set<base::Id> met;
    std::vector<base::Id> gates;
    for (const shop::Duct& duct : project.ducts) {
      const auto* port = std::get_if<shop::PortRef>(&duct.from);
      if (port != nullptr && port->machine == machine.id) {
        reached = true;
        gatesOnTheWay(project, duct, 0, met, gates);
      }
      const auto* moved = std::get_if<shop::MovedEnd>(&duct.from);
      for (const shop::PortRef& place : moved != nullptr ? moved->places : std::vector<shop::PortRef>{}) {
        if (place.machine == machine.id && met.find(duct.id) == met.end()) {
          reached = true;
          state.hoses.push_back({duct.id, place});
          gatesOnTheWay(project, duct, 0, met, gates);
        }
      }
    }
    const auto taken = [&](const std::vector<shop::State>& list) {
      return std::any_of(list.begin(), list.end(),
                         [&](const shop::State& each) { return each.name == state.name; });
    };
    if (!reached || taken(project.states) || taken(out)) {
      continue;
    }
    state.id = ids.next();
    for (const base::Id gate : gates) {
      state.gates.push_back({gate, *base::Given<base::Ratio>::parse("1")});
    }
    out.push_back(std::move(state));
  }
  return out;
}

}  // namespace kerfdraft::desk
