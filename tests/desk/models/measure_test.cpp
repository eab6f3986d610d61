// Distance of two places in words.
#include "desk/models/measure.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kerfdraft::desk {
namespace {

using ::testing::ElementsAre;

TEST(Measure, GivesThePlanItsPartsAndTheAngle) {
  Snapped a;
  Snapped b;
  b.at = {-3'000'000, 4'000'000};
  const Measured m = measure(a, b);
  EXPECT_DOUBLE_EQ(m.plan_m, 5);
  EXPECT_FALSE(m.rise_m);
  EXPECT_THAT(toWords(m, base::UnitSystem::Metric),
              ElementsAre("5.000 m on the plan", "3.000 m west, 4.000 m north", "at 126.9°"));
}

TEST(Measure, CountsHeightsWhereBothAreKnown) {
  Snapped a;
  Snapped b;
  a.z_um = 3'000'000;
  b.z_um = 0;
  b.at = {4'000'000, 0};
  EXPECT_DOUBLE_EQ(measure(a, b).space_m, 5);
  EXPECT_EQ(toWords(measure(a, b), base::UnitSystem::Metric).back(), "3.000 m down, 5.000 m in space");
  b.z_um.reset();
  EXPECT_DOUBLE_EQ(measure(a, b).space_m, 4);
}

}  // namespace
}  // namespace kerfdraft::desk
