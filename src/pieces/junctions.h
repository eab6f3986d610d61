// Meetings of ducts: their nodes before the runs, their geometry after them. Private to this room.
#pragma once

#include "pieces/draft.h"
#include "pieces/drawing.h"
#include "pieces/runs.h"

namespace kerfdraft::pieces {

/// Gives every meeting its node: a junction for three legs and more, a joint for two, a unit's own joint
/// where one duct meets it. Where several ducts meet at a unit, a short run joins the junction to the unit.
void addMeetingNodes(Draft& draft, Drawing& drawing);

/// The legs, angles and effective cosines of all junctions.
base::Result<void> addJunctions(Draft& draft, const Drawing& drawing, const RunsOfLegs& runs);

}  // namespace kerfdraft::pieces
