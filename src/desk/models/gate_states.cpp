// The drawing is a graph of corners; shut gates cut legs out of it.
#include "desk/models/gate_states.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace kerfdraft::desk {
namespace {

using base::Id;

shop::Edit opened(const shop::State& state, Id gate) {
  return shop::SetTravel{state.id, gate, *base::Given<base::Ratio>::parse("1")};
}

bool isShut(const shop::State& state, Id gate) {
  const auto at = std::find_if(state.gates.begin(), state.gates.end(),
                               [gate](const shop::GateSetting& each) { return each.gate == gate; });
  return at == state.gates.end() || at->travel.si() <= 0;
}

bool isShut(const shop::State& state, const shop::Duct& duct, std::size_t leg) {
  return std::any_of(duct.gates.begin(), duct.gates.end(), [&](const shop::Gate& gate) {
    return gate.corner == duct.corners[leg].id && isShut(state, gate.id);
  });
}

/// Corners that air joins, with what lies on each side.
class Air {
 public:
  Air(const shop::Project& project, const shop::State& state) : state_(state) {
    for (const shop::Duct& duct : project.ducts) {
      for (const shop::Corner& corner : duct.corners) {
        number_.emplace(corner.id, number_.size());
      }
    }
    parent_.resize(number_.size());
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
    opening_.resize(number_.size());
    fan_.resize(number_.size());
  }

  std::size_t top(Id corner) { return top(number_.at(corner)); }
  void join(Id a, Id b) {
    const auto other = number_.find(b);
    if (other != number_.end()) {
      parent_[top(a)] = top(other->second);
    }
  }
  void end(const shop::Duct& duct, const shop::DuctEnd& end, Id corner) {
    const std::size_t at = number_.at(corner);
    if (const auto* on = std::get_if<shop::OnCorner>(&end)) {
      join(corner, on->corner);
    } else if (std::holds_alternative<shop::PortRef>(end) || std::holds_alternative<shop::FreeAir>(end)) {
      opening_[at] = true;
    } else if (std::holds_alternative<shop::MovedEnd>(end)) {
      opening_[at] = std::any_of(state_.hoses.begin(), state_.hoses.end(),
                                 [&](const shop::HosePlace& hose) { return hose.duct == duct.id; });
    } else if (const auto* inlet = std::get_if<shop::CollectorInlet>(&end)) {
      fan_[at] = runs(inlet->collector);
    } else if (const auto* outlet = std::get_if<shop::CollectorOutlet>(&end)) {
      fan_[at] = runs(outlet->collector);
    }
  }
  bool has(const std::vector<bool>& what, std::size_t side) {
    for (std::size_t k = 0; k < what.size(); ++k) {
      if (what[k] && top(k) == side) {
        return true;
      }
    }
    return false;
  }
  bool between(std::size_t a, std::size_t b) {
    return (has(opening_, a) && has(fan_, b)) || (has(opening_, b) && has(fan_, a));
  }

 private:
  std::size_t top(std::size_t k) {
    while (parent_[k] != k) {
      k = parent_[k] = parent_[parent_[k]];
    }
    return k;
  }
  bool runs(Id collector) const {
    return std::find(state_.off.begin(), state_.off.end(), collector) == state_.off.end();
  }

  const shop::State& state_;
  std::map<Id, std::size_t> number_;
  std::vector<std::size_t> parent_;
  std::vector<bool> opening_;
  std::vector<bool> fan_;
};

}  // namespace

bool airGoesThrough(const shop::Project& project, const shop::State& state, const shop::Duct& duct,
                    std::size_t leg) {
  if (leg + 1 >= duct.corners.size() || isShut(state, duct, leg)) {
    return false;
  }
  Air air(project, state);
  for (const shop::Duct& each : project.ducts) {
    if (each.corners.empty()) {
      continue;
    }
    air.end(each, each.from, each.corners.front().id);
    air.end(each, each.to, each.corners.back().id);
    for (std::size_t k = 0; k + 1 < each.corners.size(); ++k) {
      if ((each.id != duct.id || k != leg) && !isShut(state, each, k)) {
        air.join(each.corners[k].id, each.corners[k + 1].id);
      }
    }
  }
  return air.between(air.top(duct.corners[leg].id), air.top(duct.corners[leg + 1].id));
}

std::vector<shop::Edit> openWhereAirWent(const shop::Project& project, const shop::Duct& duct,
                                         std::size_t leg, Id gate) {
  std::vector<shop::Edit> edits;
  for (const shop::State& state : project.states) {
    if (airGoesThrough(project, state, duct, leg)) {
      edits.push_back(opened(state, gate));
    }
  }
  return edits;
}

std::vector<shop::Edit> openWhereNothingIsShut(const shop::Project& project, Id gate) {
  std::vector<Id> gates;
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& each : duct.gates) {
      gates.push_back(each.id);
    }
  }
  std::vector<shop::Edit> edits;
  for (const shop::State& state : project.states) {
    const bool all = std::none_of(gates.begin(), gates.end(), [&](Id each) { return isShut(state, each); });
    if (all && gates.size() != 1) {
      edits.push_back(opened(state, gate));
    }
  }
  return edits;
}

}  // namespace kerfdraft::desk
