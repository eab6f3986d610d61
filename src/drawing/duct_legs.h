// Ducts as drawn, leg by leg in space, with the bore that a leg inherits. Plan and isometric sketch share it.
#pragma once

#include <cstddef>
#include <map>
#include <vector>

#include "drawing/overlay.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::drawing {

/// From a corner to the next, or to or from a gate between them: what one piece of the network stands for.
struct DuctLeg {
  const shop::Duct* duct = nullptr;
  std::size_t corner = 0;  ///< index of the corner where the leg begins
  double start_m = 0;      ///< of this part from that corner, as drawn
  bool first_part = true;  ///< begins at that corner
  bool last_part = true;   ///< ends at the next one
  pieces::PieceKey key;
  shop::Point from;
  shop::Point to;
  double bore_m = 0;
  const shop::Hose* hose = nullptr;
  const shop::Leg* given = nullptr;  ///< its Leg, where it is given at this very corner

  /// [m], along the drawing.
  double drawnLength() const { return shop::distance(from, to); }
};

/// All legs in the order of ducts, corners and gates. A moved hose lies at the place that the overlay names.
std::vector<DuctLeg> ductLegs(const shop::Project& project, const Overlay& overlay);

/// Index of a leg by the key of its piece.
std::map<pieces::PieceKey, std::size_t> legsByKey(const std::vector<DuctLeg>& legs);

}  // namespace kerfdraft::drawing
