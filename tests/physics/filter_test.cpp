// Filters: the linear law and its derivative, defaults for what is not known, and the refusals.
#include "physics/filter.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

using ::testing::HasSubstr;

TEST(Filter, LossMatchesItsDerivative) {
  for (const double m : {-0.3, -1e-6, 0.0, 0.1, 0.7}) {
    const double numeric =
        tests::centralDifference([](double x) { return filterLoss(1234, x, 1.1).dp_pa; }, m, 0.1);
    EXPECT_NEAR(filterLoss(1234, m, 1.1).slope_pa_s_kg, numeric, 1e-5);
    EXPECT_NEAR(filterLoss(1234, m, 1.1).dp_pa, 1234 * m / 1.1, 1e-9);
  }
}

TEST(Filter, HalvingTheAreaAtEqualCaughtMassMakesTheCakeFourTimesAsHeavy) {
  const double caught_kg = 2;
  const double whole = filterResistance(0, 63000, caught_kg / 10, 10);
  const double half = filterResistance(0, 63000, caught_kg / 5, 5);
  EXPECT_NEAR(half / whole, 4, 1e-12);
}

TEST(Filter, FittedInTheTestOnlyTheRestIsCharged) {
  EXPECT_EQ(filterCharged(900, 300), 600);
  EXPECT_EQ(filterCharged(300, 300), 0);
  EXPECT_EQ(filterCharged(200, 300), 0);
}

TEST(Filter, WithoutDataTheDefaultsHoldAtTwentyFiveMillimetresASecond) {
  const auto r = filterResistances({.area_m2 = 8.0});
  ASSERT_TRUE(r) << r.error().text();
  const double q = 0.025 * 8;
  EXPECT_NEAR(r->clean * q, 120, 1e-9);
  EXPECT_NEAR(r->seasoned * q, 360, 1e-9);
  EXPECT_NEAR(r->due * q, 1100, 1e-9);
  EXPECT_TRUE(r->clean_assumed && r->seasoned_assumed && r->due_assumed);
  EXPECT_EQ(r->at(FilterState::Seasoned), r->seasoned);
  EXPECT_TRUE(r->assumed(FilterState::Due));
}

TEST(Filter, WithoutAreaTheDefaultsHoldAtTheUnitsFlow) {
  const auto r = filterResistances({}, 0.25);
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->clean * 0.25, 120, 1e-9);
  EXPECT_NEAR(r->due * 0.25, 1100, 1e-9);
}

TEST(Filter, AReadingFillsItsStateAndTheOthersFollow) {
  const auto r = filterResistances({.area_m2 = 8.0, .clean = DropAtFlow{300, 0.2}});
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->clean, 1500, 1e-9);
  EXPECT_FALSE(r->clean_assumed);
  EXPECT_NEAR(r->seasoned, 4500, 1e-9);
  EXPECT_NEAR(r->due, 1.5 * 4500, 1e-9);  // 1.1 kPa at 0.2 m3/s would be 5500, below 1.5 x seasoned
}

TEST(Filter, ADirtyReadingAloneLeavesRoomForACleanerFilter) {
  const auto r = filterResistances({.area_m2 = 8.0, .seasoned = DropAtFlow{150, 0.2}});
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->seasoned, 750, 1e-9);
  EXPECT_NEAR(r->clean, 250, 1e-9);
  const auto due_only = filterResistances({.area_m2 = 8.0, .due = DropAtFlow{90, 0.2}});
  ASSERT_TRUE(due_only);
  EXPECT_NEAR(due_only->seasoned, 300, 1e-9);
  EXPECT_NEAR(due_only->clean, 100, 1e-9);
}

TEST(Filter, AMediumGivesAllThreeStates) {
  const FilterMedium medium{
      .medium_pa_s_m = 7000, .dust_per_s = 63000, .clean_kg_m2 = 0, .seasoned_kg_m2 = 0.1, .due_kg_m2 = 0.4};
  const auto r = filterResistances({.area_m2 = 10.0, .medium = medium});
  ASSERT_TRUE(r);
  EXPECT_NEAR(r->clean, 700, 1e-9);
  EXPECT_NEAR(r->seasoned, (7000 + 6300) / 10.0, 1e-9);
  EXPECT_NEAR(r->due, (7000 + 25200) / 10.0, 1e-9);
  EXPECT_FALSE(r->seasoned_assumed);
}

TEST(Filter, RefusesWithASentence) {
  const auto says = [](const FilterData& data, const char* what, std::optional<double> flow = std::nullopt) {
    const auto r = filterResistances(data, flow, "/collectors/0/filter");
    ASSERT_FALSE(r) << what;
    EXPECT_THAT(r.error().message, HasSubstr(what));
    EXPECT_EQ(r.error().where, "/collectors/0/filter");
  };
  says({.area_m2 = 0.0}, "must be above zero, not 0 m2");
  says({.area_m2 = -2.0}, "not -2 m2");
  says({.area_m2 = std::nan("")}, "not nan m2");
  says({}, "nothing is known of this filter");
  says({.clean = DropAtFlow{300, 0}}, "not 0 m3/s");
  says({.clean = DropAtFlow{-300, 0.2}}, "not -300 Pa");
  says({.medium = FilterMedium{7000, 1, 0, 0, 0}}, "needs its area");
  says({.area_m2 = 1.0, .medium = FilterMedium{7000, -1, 0, 0, 0}}, "not -1");
  says({.area_m2 = 1.0, .clean = DropAtFlow{300, 0.2}, .seasoned = DropAtFlow{200, 0.2}}, "when seasoned");
  says({.area_m2 = 1.0, .seasoned = DropAtFlow{300, 0.2}, .due = DropAtFlow{200, 0.2}}, "when due");
  says({}, "not -1 m3/s", -1);
}

TEST(Filter, GasToClothSaysWhenItLeavesItsData) {
  EXPECT_TRUE(gasToCloth(15, 1, 300, 0.005, 20e-6).in_range);
  EXPECT_FALSE(gasToCloth(15, 1, 300, 0.005, 200e-6).in_range);
  EXPECT_FALSE(gasToCloth(15, 1, 420, 0.005, 20e-6).in_range);
  EXPECT_FALSE(gasToCloth(15, 1, 300, 1.0, 20e-6).in_range);
}

TEST(Filter, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  EXPECT_EQ(filterLoss(1234, 0.3, 1.1, recorder).dp_pa, filterLoss(1234, 0.3, 1.1).dp_pa);
  EXPECT_EQ(filterResistance(7000, 63000, 0.1, 9, recorder), filterResistance(7000, 63000, 0.1, 9));
  EXPECT_EQ(pulseJetPressure(0.02, 6e5, 1e5, 0.01, 600, recorder),
            pulseJetPressure(0.02, 6e5, 1e5, 0.01, 600));
  EXPECT_EQ(recorder.steps().size(), 3U);
}

}  // namespace
}  // namespace kerfdraft::physics
