// Plans: marks on the tube, near-wall distances, numbers of points, fractions of an inch.
#include "field/traverse_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

using testing::kInch_m;

PlanRequest roundPlan(double bore_m, PointRule rule = PointRule::LogLinear, int points = 0) {
  PlanRequest r;
  r.section.shape = RoundSection{bore_m};
  r.rule = rule;
  r.points = points;
  return r;
}

PlanRequest boxPlan(double width_m, double height_m, PointRule rule) {
  PlanRequest r;
  r.section.shape = RectangularSection{width_m, height_m};
  r.rule = rule;
  return r;
}

bool has(const TraversePlan& plan, std::string_view key) {
  return std::ranges::find(plan.notices, key, &Notice::key) != plan.notices.end();
}

TEST(TraversePlan, SixPointsOnTwoDiametersInAFourInchDuct) {
  const TraversePlan plan = planTraverse(roundPlan(4 * kInch_m)).value();
  ASSERT_EQ(plan.lines.size(), 2U);
  ASSERT_EQ(plan.lines[0].marks.size(), 6U);
  EXPECT_EQ(plan.pointCount(), 12);
  EXPECT_NEAR(plan.lines[0].marks[0].from_wall_m, 0.032 * 4 * kInch_m, 1e-12);
  EXPECT_EQ(inchMark(plan.lines[0].marks[1].from_wall_m, 16), "9/16 in");
  EXPECT_EQ(inchMark(plan.lines[0].marks[5].from_wall_m, 16), "3 7/8 in");
}

TEST(TraversePlan, TheStubIsAddedToEveryMark) {
  PlanRequest r = roundPlan(0.1);
  r.nipple_m = 0.03;
  const TraversePlan plan = planTraverse(r).value();
  for (const Mark& m : plan.lines[0].marks) {
    EXPECT_DOUBLE_EQ(m.on_tube_m, m.from_wall_m + 0.03);
  }
}

TEST(TraversePlan, LargeDuctsKeepTheMethodOneDistanceFromTheWall) {
  // 18 in, 10 points: 2.6 % is 0.46 in, moved to 0.5 in (12 to 24 in). 30 in, 20 points: 1.0 in.
  const TraversePlan eighteen = planTraverse(roundPlan(18 * kInch_m, PointRule::EqualArea, 10)).value();
  EXPECT_TRUE(eighteen.lines[0].marks[0].moved);
  EXPECT_NEAR(eighteen.lines[0].marks[0].from_wall_m, 0.5 * kInch_m, 1e-12);
  EXPECT_FALSE(eighteen.lines[0].marks[1].moved);
  EXPECT_TRUE(has(eighteen, "near-wall-moved"));
  const TraversePlan thirty = planTraverse(roundPlan(30 * kInch_m, PointRule::EqualArea, 20)).value();
  EXPECT_NEAR(thirty.lines[0].marks[0].from_wall_m, 1.0 * kInch_m, 1e-12);
  EXPECT_FALSE(has(planTraverse(roundPlan(6 * kInch_m, PointRule::EqualArea, 6)).value(), "near-wall-moved"));
}

TEST(TraversePlan, MarksThatFallTogetherAreCounted) {
  // 12 in with 20 points: 1.3 % and 3.9 % are 0.16 and 0.47 in, both moved to 0.5 in at each end.
  const TraversePlan plan = planTraverse(roundPlan(12 * kInch_m, PointRule::EqualArea, 20)).value();
  const auto notice = std::ranges::find(plan.notices, "near-wall-moved", &Notice::key);
  ASSERT_NE(notice, plan.notices.end());
  EXPECT_EQ(quantityOf(*notice, "moved"), 8);
  EXPECT_EQ(quantityOf(*notice, "doubled"), 4);
}

TEST(TraversePlan, TheTubeItselfKeepsOffTheWall) {
  PlanRequest r = roundPlan(0.1);
  r.probe_diameter_m = 0.004;
  const TraversePlan plan = planTraverse(r).value();
  EXPECT_NEAR(plan.lines[0].marks[0].from_wall_m, 0.004, 1e-12);
  EXPECT_TRUE(plan.lines[0].marks[0].moved);
  EXPECT_TRUE(has(plan, "probe-large"));
  r.probe_diameter_m = 0.003;
  EXPECT_FALSE(has(planTraverse(r).value(), "probe-large"));
}

TEST(TraversePlan, RectanglesFollowTheirSides) {
  const TraversePlan small = planTraverse(boxPlan(0.3, 0.2, PointRule::LogTchebycheff)).value();
  EXPECT_EQ(small.lines.size(), 5U);
  EXPECT_EQ(small.pointCount(), 25);
  EXPECT_NEAR(small.lines[0].across_m, 0.074 * 0.3, 1e-12);
  EXPECT_NEAR(small.diameter_m, 2 * 0.3 * 0.2 / 0.5, 1e-12);
  const TraversePlan large =
      planTraverse(boxPlan(34 * kInch_m, 40 * kInch_m, PointRule::LogTchebycheff)).value();
  EXPECT_EQ(large.lines.size(), 6U);
  EXPECT_EQ(large.lines[0].marks.size(), 7U);
  const TraversePlan equal = planTraverse(boxPlan(36 * kInch_m, 12 * kInch_m, PointRule::EqualArea)).value();
  EXPECT_EQ(equal.lines.size(), 6U);
  EXPECT_EQ(equal.lines[0].marks.size(), 4U);
}

TEST(TraversePlan, MoreAirBeforeThePlaneMeetsMoreRules) {
  PlanRequest r = roundPlan(0.1);
  r.upstream_m = 0.5;
  r.downstream_m = 0.02;
  EXPECT_TRUE(has(planTraverse(r).value(), "straight-run-short"));
  r.upstream_m = 0.8;
  const TraversePlan plan = planTraverse(r).value();
  EXPECT_FALSE(has(plan, "straight-run-short"));
  EXPECT_NEAR(*plan.upstream_diameters, 8, 1e-12);
  EXPECT_EQ(plan.straight.size(), straightRules().size());
  EXPECT_TRUE(has(planTraverse(roundPlan(0.1)).value(), "straight-run-unstated"));
}

TEST(TraversePlan, SaysWhichNumberOfPointsIsEnough) {
  const TraversePlan few = planTraverse(roundPlan(8 * kInch_m, PointRule::LogLinear, 6)).value();
  ASSERT_EQ(few.counts.size(), 2U);
  EXPECT_EQ(few.counts[0].needed, 10);
  EXPECT_FALSE(few.counts[0].met);
  EXPECT_TRUE(few.counts[1].met);
  PlanRequest large = roundPlan(20 * kInch_m, PointRule::EqualArea, 4);
  large.upstream_m = 8 * 20 * kInch_m;
  large.downstream_m = 2 * 20 * kInch_m;
  const TraversePlan plan = planTraverse(large).value();
  EXPECT_EQ(plan.counts[0].needed, 8);
  EXPECT_TRUE(plan.counts[0].met);
}

TEST(TraversePlan, MarksAreWrittenAsThePersonMarksThem) {
  EXPECT_EQ(inchMark(0.0254, 16), "1 in");
  EXPECT_EQ(inchMark(1.1875 * kInch_m, 16), "1 3/16 in");
  EXPECT_EQ(inchMark(0.5 * kInch_m, 16), "1/2 in");
  EXPECT_EQ(inchMark(0.97 * kInch_m, 16), "1 in");
  EXPECT_EQ(inchMark(0, 16), "0 in");
  EXPECT_EQ(inchMark(0.09375 * kInch_m, 32), "3/32 in");
  EXPECT_EQ(millimetreMark(0.01226), "12.5 mm");
}

TEST(TraversePlan, RefusesWhatCannotBe) {
  EXPECT_FALSE(planTraverse(roundPlan(0)));
  EXPECT_FALSE(planTraverse(roundPlan(-0.1)));
  EXPECT_FALSE(planTraverse(roundPlan(10)));
  EXPECT_FALSE(planTraverse(roundPlan(0.1, PointRule::LogLinear, 7)));
  EXPECT_FALSE(planTraverse(boxPlan(0.2, 0.2, PointRule::LogLinear)));
  PlanRequest r = roundPlan(0.1);
  r.probe_diameter_m = 0.05;
  EXPECT_FALSE(planTraverse(r));
  r = roundPlan(0.1);
  r.upstream_m = -1;
  EXPECT_FALSE(planTraverse(r));
  r = roundPlan(0.1);
  r.nipple_m = 5;
  EXPECT_FALSE(planTraverse(r));
}

}  // namespace
}  // namespace kerfdraft::field
