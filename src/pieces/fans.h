// A fan from its rating, with what it needs to be solved. Private to this room.
#pragma once

#include <optional>
#include <string>

#include "pieces/draft.h"

namespace kerfdraft::pieces {

/// What belongs to the fan beside its rating.
struct FanPlace {
  PieceKey key;
  Id id;
  std::string label;
  double inlet_bore_m = 0;
  std::optional<double> outlet_bore_m;
  bool non_return = false;
};

/// The fan without its nodes. Refused: neither a curve nor a complete label, a curve that cannot be.
base::Result<Fan> makeFan(Draft& draft, const FanPlace& place, const shop::FanRating& rating,
                          const shop::Motor& motor);

/// Flow of the unit at half its shut-off suction, where nothing better tells how large a filter it has.
double flowAtHalfSuction(const Fan& fan);

}  // namespace kerfdraft::pieces
