// What the families of edits share. Inside the room only.
#pragma once

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <vector>

#include "shop/edit.h"

namespace kerfdraft::shop {

// Each makes its edit on a project that is already a copy. Errors: an id that is not there.
base::Result<void> make(Project& project, const SetSetting& edit);
base::Result<void> make(Project& project, const SetAir& edit);
base::Result<void> make(Project& project, const SetUnderlay& edit);
base::Result<void> make(Project& project, const PutRoom& edit);
base::Result<void> make(Project& project, const RemoveRoom& edit);
base::Result<void> make(Project& project, const PutMachine& edit);
base::Result<void> make(Project& project, const MoveMachine& edit);
base::Result<void> make(Project& project, const RemoveMachine& edit);
base::Result<void> make(Project& project, const PutDuct& edit);
base::Result<void> make(Project& project, const RemoveDuct& edit);
base::Result<void> make(Project& project, const MoveCorner& edit);
base::Result<void> make(Project& project, const InsertCorner& edit);
base::Result<void> make(Project& project, const RemoveCorner& edit);
base::Result<void> make(Project& project, const JoinEnd& edit);
base::Result<void> make(Project& project, const PutGate& edit);
base::Result<void> make(Project& project, const PutTap& edit);
base::Result<void> make(Project& project, const PutCleanout& edit);
base::Result<void> make(Project& project, const RemoveFromDuct& edit);
base::Result<void> make(Project& project, const PutCollector& edit);
base::Result<void> make(Project& project, const MoveCollector& edit);
base::Result<void> make(Project& project, const RemoveCollector& edit);
base::Result<void> make(Project& project, const PutState& edit);
base::Result<void> make(Project& project, const RemoveState& edit);
base::Result<void> make(Project& project, const OrderState& edit);
base::Result<void> make(Project& project, const SetTravel& edit);
base::Result<void> make(Project& project, const PutCircuit& edit);
base::Result<void> make(Project& project, const RemoveCircuit& edit);
base::Result<void> make(Project& project, const Accept& edit);
base::Result<void> make(Project& project, const Withdraw& edit);

template <class T>
auto whereIs(std::vector<T>& things, Id id) {
  return std::find_if(things.begin(), things.end(), [id](const T& each) { return each.id == id; });
}

template <class T>
T* find(std::vector<T>& things, Id id) {
  const auto at = whereIs(things, id);
  return at == things.end() ? nullptr : &*at;
}

/// Adds a thing, or replaces the one of its id.
template <class T>
void put(std::vector<T>& things, const T& thing) {
  if (T* there = find(things, thing.id)) {
    *there = thing;
  } else {
    things.push_back(thing);
  }
}

/// "no machine has the id …".
base::Failure notThere(std::string_view noun, Id id);

/// Moves a corner of a duct; gates, taps and cleanouts on its two legs keep their share of them.
void moveCorner(Duct& duct, std::size_t corner, const Point& to);

/// Mends every joint after things moved or went. Ends at ports and inlets move by as much as these did since
/// `before`, and a drop that hung plumb still does; ends on corners lie on them; ends whose hold is gone are
/// open, places of moved hoses that are gone are left out, and states forget what is gone.
void mendJoints(Project& project, const Project& before);

}  // namespace kerfdraft::shop
