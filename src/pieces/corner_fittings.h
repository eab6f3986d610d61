// What a corner makes of two legs: elbow or hose bend by the turn, reducer by the bores. Private to this
// room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pieces/draft.h"
#include "pieces/drawing.h"

namespace kerfdraft::pieces {

/// Turns below this are drawing, not fittings.
inline constexpr double kLeastTurn_rad = 0.5 * 3.14159265358979323846 / 180;

/// A corner between two legs, in the order of the air.
struct CornerBetween {
  Id id;              ///< of the corner that is the fitting
  std::string place;  ///< "D2 at 3.2 m"
  const shop::Corner* corner = nullptr;
  const shop::Duct* duct = nullptr;  ///< whose usual elbow it is
  const DrawnLeg* before = nullptr;
  const DrawnLeg* after = nullptr;
  double turn_rad = 0;
};

/// The pieces of one corner: none, an elbow or bend, a reducer, or both. The elbow is of the bore it is
/// entered through; the reducer stands behind it.
base::Result<std::vector<DraftPiece>> cornerPieces(Draft& draft, const CornerBetween& corner);

/// A change of bore, or nothing where the bores are equal. Stepped where no taper is given.
std::optional<DraftPiece> reducerPiece(const Draft& draft, PieceKey key, const std::string& place,
                                       double from_bore_m, double to_bore_m,
                                       const std::optional<base::Given<base::Angle>>& taper);

}  // namespace kerfdraft::pieces
