// Distances and turns between points of whole micrometres.
#include "shop/geometry.h"

#include <gtest/gtest.h>

#include <numbers>

namespace kerfdraft::shop {

TEST(Geometry, DistanceInMetres) {
  EXPECT_DOUBLE_EQ(distance({0, 0, 0}, {3'000'000, 4'000'000, 0}), 5);
  EXPECT_DOUBLE_EQ(distance({1, 2, 3}, {1, 2, 3}), 0);
  EXPECT_DOUBLE_EQ(distance({-500'000'000, 0, 0}, {500'000'000, 0, 0}), 1000);
}

TEST(Geometry, TurnIsZeroStraightOnAndPiStraightBack) {
  constexpr double kPi = std::numbers::pi;
  const Point a{0, 0, 0};
  const Point b{1'000'000, 0, 0};
  EXPECT_DOUBLE_EQ(turn(a, b, {2'000'000, 0, 0}), 0);
  EXPECT_DOUBLE_EQ(turn(a, b, {1'000'000, 1'000'000, 0}), kPi / 2);
  EXPECT_DOUBLE_EQ(turn(a, b, {1'000'000, 0, -1'000'000}), kPi / 2);
  EXPECT_DOUBLE_EQ(turn(a, b, {2'000'000, 1'000'000, 0}), kPi / 4);
  EXPECT_DOUBLE_EQ(turn(a, b, {0, 0, 0}), kPi);
  EXPECT_DOUBLE_EQ(turn(a, a, b), 0);
}

}  // namespace kerfdraft::shop
