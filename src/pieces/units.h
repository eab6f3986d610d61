// Collectors and boosters: the joints where ducts begin and end, and what stands between. Private to this
// room.
#pragma once

#include <vector>

#include "pieces/draft.h"
#include "pieces/drawing.h"

namespace kerfdraft::pieces {

/// Joints of all collectors' inlets and outlets, before any run.
void addUnitNodes(Draft& draft, const Drawing& drawing);

/// What joins the last leg of a duct to a unit's inlet: a reducer where the bores differ.
std::vector<DraftPiece> unitInletPieces(const Draft& draft, std::size_t collector, const DrawnLeg& leg);

/// What joins a unit's outlet to the first leg of a duct.
std::vector<DraftPiece> unitOutletPieces(const Draft& draft, std::size_t collector, const DrawnLeg& leg);

/// Bore of the section that a duct joins at the inlet.
double inletBore(const shop::Collector& collector);

/// Fans with their separators, filters and discharge, after the ducts.
base::Result<void> addUnits(Draft& draft);

/// System effect of an elbow, bend or Y on a fan's inlet, where no separator or filter stands between.
void addSystemEffects(Draft& draft);

}  // namespace kerfdraft::pieces
