// Edits of a project as values. A gesture is an edit or a chain of them; undo keeps the project before it.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <variant>

#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::shop {

// "Put" adds a thing, or replaces the one that has its id. What hangs on a thing follows it, and what loses
// its hold becomes an open end: nothing is ever left pointing at what is gone.

struct SetSetting {
  Setting setting;
};
struct SetAir {
  Air air;
};
struct SetUnderlay {
  std::optional<Underlay> underlay;  ///< without one there is none any more
};

// ---------------------------------------------------------------------------------------------------- rooms

struct PutRoom {
  Room room;  ///< states forget doors and windows that are no longer in it
};
struct RemoveRoom {
  Id room;  ///< machines and collectors in it stand outdoors; air that went into it goes outdoors
};

// ------------------------------------------------------------------------------------------------- machines

struct PutMachine {
  Machine machine;  ///< ducts follow ports that moved; those at ports that are gone get an open end
};
struct MoveMachine {
  Id machine;
  Point to;                   ///< middle of its footprint
  Given<base::Angle> turned;  ///< ports turn with it, and duct ends follow them
};
struct RemoveMachine {
  Id machine;
};

// ---------------------------------------------------------------------------------------------------- ducts

struct PutDuct {
  Duct duct;  ///< branches at corners that are gone get an open end
};
struct RemoveDuct {
  Id duct;
};
struct MoveCorner {
  Id duct;
  Id corner;
  Point to;  ///< branches that enter there follow; gates and taps keep their share of the leg
};
struct InsertCorner {
  Id duct;
  Id after;  ///< corner at which the leg begins that is parted
  Id id;     ///< of the new corner
  Point at;  ///< gates and taps behind it hang on the new corner's leg
};
struct RemoveCorner {
  Id duct;
  Id corner;  ///< an inner one without a branch; its gates and taps go to the leg before
};
struct JoinEnd {
  Id duct;
  bool start = true;  ///< which of its ends
  DuctEnd end;        ///< the end moves to the port, inlet or corner that it is joined to
};

/// A gate, tap or cleanout of a duct.
struct PutGate {
  Id duct;
  Gate gate;
};
struct PutTap {
  Id duct;
  Access tap;
};
struct PutCleanout {
  Id duct;
  Access cleanout;
};
struct RemoveFromDuct {
  Id id;  ///< of the gate, tap or cleanout; states forget a gate
};

// ----------------------------------------------------------------------------------------------- collectors

struct PutCollector {
  Collector collector;  ///< the end of a duct follows its inlet
};
struct MoveCollector {
  Id collector;
  Point to;
};
struct RemoveCollector {
  Id collector;
};

// ------------------------------------------------------------------------- states, circuits, what is
// accepted

struct PutState {
  State state;
};
struct RemoveState {
  Id state;  ///< what was accepted in it is forgotten
};
struct OrderState {
  Id state;
  std::size_t place = 0;  ///< index that it gets; the last where it is beyond
};
struct SetTravel {
  Id state;
  Id gate;
  Given<base::Ratio> travel;
};
struct PutCircuit {
  Circuit circuit;
};
struct RemoveCircuit {
  Id circuit;
};
struct Accept {
  Acceptance acceptance;  ///< replaces that of the same rule, piece and state
};
struct Withdraw {
  std::string rule;
  std::string about;
  Id state;
};

using Edit =
    std::variant<SetSetting, SetAir, SetUnderlay, PutRoom, RemoveRoom, PutMachine, MoveMachine, RemoveMachine,
                 PutDuct, RemoveDuct, MoveCorner, InsertCorner, RemoveCorner, JoinEnd, PutGate, PutTap,
                 PutCleanout, RemoveFromDuct, PutCollector, MoveCollector, RemoveCollector, PutState,
                 RemoveState, OrderState, SetTravel, PutCircuit, RemoveCircuit, Accept, Withdraw>;

/// The project with the edit made. Refused: an id that is not there, and an edit after which the project
/// would contradict itself in a way in which it did not before (checkProject() says how).
base::Result<Project> applyEdit(const Project& project, const Edit& edit);

/// A chain of edits as one gesture: all of them or none. Only the last result must not contradict itself.
base::Result<Project> applyEdits(const Project& project, std::span<const Edit> edits);

}  // namespace kerfdraft::shop
