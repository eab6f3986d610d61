// Which pressure of a fan was rated, from the project's word to that of the law.
#pragma once

#include "physics/fan.h"
#include "shop/project.h"

namespace kerfdraft::pieces {

constexpr physics::RatingBasis basisOf(shop::RatingBasis basis) {
  switch (basis) {
    case shop::RatingBasis::StaticAtInlet:
      return physics::RatingBasis::StaticAtInlet;
    case shop::RatingBasis::TotalAtInlet:
      return physics::RatingBasis::TotalAtInlet;
    case shop::RatingBasis::FanStatic:
      return physics::RatingBasis::FanStatic;
    case shop::RatingBasis::FanTotal:
      return physics::RatingBasis::FanTotal;
  }
  return physics::RatingBasis::StaticAtInlet;
}

}  // namespace kerfdraft::pieces
