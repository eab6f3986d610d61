// From the typed pieces of `kerfdraft line` to a shop with one machine, one duct and one collector, so that
// the same builder and solver answer as for a drawing.
#pragma once

#include <optional>
#include <vector>

#include "base/result.h"
#include "pieces/line_words.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

struct LineRequest {
  std::vector<LinePiece> pieces;
  shop::FanRating rating;
  shop::Motor motor;
  std::optional<base::Given<base::Length>> fan_inlet;  ///< the last bore where not given
  shop::Air air;
  shop::FilterState filter = shop::FilterState::Seasoned;
  std::optional<base::Given<base::VolumeFlow>> need;
  base::UnitSystem units = base::UnitSystem::Us;
};

/// Elbows, gates and fittings stand between pieces of duct; where none was typed, one of this length is put
/// there [m]. Its friction is below a thousandth of a velocity pressure.
inline constexpr double kConnector_m = 0.002;

/// The shop of the line. Refused, naming the piece: no duct or hose at all, a second hood or port, a hood
/// that is not first, a bore that is not known yet, a taper without a change of bore.
base::Result<shop::Project> lineProject(const LineRequest& request);

}  // namespace kerfdraft::pieces
