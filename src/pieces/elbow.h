// The coefficient of an elbow from the catalogue's tables. Private to this room.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "physics/column.h"
#include "pieces/pieces.h"

namespace kerfdraft::pieces {

struct ElbowLoss {
  double k = 0;
  bool clamped = false;  ///< bore or radius outside the table, held at its end
  std::string name;      ///< "5-piece elbow"
  double radius_ratio = 1.5;
  Source source;
};

/// Loss of an elbow on its own velocity pressure. The form is a key of the catalogue; the radius is the
/// form's usual one where not given. Refused: an unknown form, a mitre beyond 90 degrees, a radius of zero.
base::Result<ElbowLoss> elbowLoss(const catalogue::Catalogue& catalogue, std::string_view form,
                                  std::optional<double> radius_ratio, double bore_m, double angle_rad,
                                  const std::string& where);

/// Single mitre by angle, as junctions want it.
base::Result<physics::Column> mitreColumn(const catalogue::Catalogue& catalogue);

}  // namespace kerfdraft::pieces
