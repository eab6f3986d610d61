// One change of a shop that a remedy proposes, as data, and the project with it made. Small on purpose:
// designing a shop anew is the work of room `design`.
#pragma once

#include "base/id.h"
#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::judge {

enum class ChangeKind {
  Bore,      ///< every leg of duct `a` gets bore `value` [m]; a port at its start too where `with_port`
  LegBore,   ///< the legs of duct `a` with the bore of the leg that begins at corner `b` get bore `value` [m]
  PortBore,  ///< port `b` of machine `a` gets bore `value` [m]
  HoseLength,     ///< hose of duct `a` from corner `b` is `value` [m] long as installed, hung tight
  HoseTight,      ///< every hose of duct `a` is pulled tight and smooth inside
  GateOpen,       ///< gate `a` is fully open in state `b`
  GateShut,       ///< gate `a` is shut in state `b`
  FilterClean,    ///< state `b` (every state where not valid) with a clean filter
  NonReturn,      ///< collector `a` gets a damper that shuts when it stands
  StraightInlet,  ///< no fitting closer than five bores before collector `a`: its system effect is gone
  WideElbows,     ///< every elbow of duct `a` becomes a five-piece one of radius 2 bores
  RoomOpening,    ///< room `a` gets a free opening to the outdoors of `value` [m2]
  BodyOpening,    ///< machine `a` has openings of `value` [m2]
};

struct Change {
  ChangeKind kind = ChangeKind::Bore;
  base::Id a;
  base::Id b;
  double value = 0;
  bool with_port = false;
};

/// The project with a change made. Refused: ids that are not there, a change that this place does not allow.
base::Result<shop::Project> withChange(const shop::Project& project, const Change& change);

}  // namespace kerfdraft::judge
