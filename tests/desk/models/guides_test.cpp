// What a dragged machine falls in line with.
#include "desk/models/guides.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using ::testing::HasSubstr;

shop::PlanPoint plan(double x_m, double y_m) {
  return {std::llround(x_m * 1e6), std::llround(y_m * 1e6)};
}

/// A room of 10 by 6 m; machines of 0.5 by 0.5 m at (2, 2) and (6, 4); an inlet at (9, 5).
class Drag : public ::testing::Test {
 protected:
  support::ProjectBuilder builder;
  base::Id room = builder.room(10, 6, 3);
  base::Id held = builder.machine("", at(2, 2, 0.5), "100 mm", room).machine;
  base::Id other = builder.machine("", at(6, 4, 0.5), "100 mm", room).machine;
  base::Id unit = builder.collector(at(9, 5, 2.0), "150 mm", room);
  const shop::Project& project = builder.project;
  static constexpr double kReach_m = 0.1;

  Aligned align(double x_m, double y_m) const {
    return alignDragged(project, held, plan(x_m, y_m), kReach_m);
  }
};

TEST_F(Drag, MiddlesFallInLineWithMiddlesWithinReach) {
  const Aligned found = align(6.04, 2.3);
  EXPECT_EQ(found.x_um, 6'000'000);
  EXPECT_FALSE(found.y_um);
  EXPECT_THAT(found.says, HasSubstr("in line with T2"));
  EXPECT_FALSE(align(6.7, 2.3).x_um) << "edges and middles are 0.2 m off there";
}

TEST_F(Drag, EdgesFallInLineWithEdges) {
  // The held machine is as wide as the other: its left edge meets the other's right edge at 6.5.
  const Aligned beside = align(6.47, 2.3);
  EXPECT_EQ(beside.x_um, 6'500'000);
  EXPECT_THAT(beside.says, HasSubstr("edge in line with T2"));
  // A wider one: right edges in line.
  builder.project.machines[0].width = support::length("1.2 m");
  EXPECT_EQ(align(5.62, 2.3).x_um, 5'650'000);
}

TEST_F(Drag, ItStandsAgainstAWallAndInLineAtOnce) {
  const Aligned found = align(6.03, 0.29);
  EXPECT_EQ(found.x_um, 6'000'000);
  EXPECT_EQ(found.y_um, 250'000);
  EXPECT_THAT(found.says, HasSubstr("against the wall"));
  EXPECT_GE(found.guides.size(), 2U);
}

TEST_F(Drag, GuidesRunFromTheOtherToTheHeld) {
  const Aligned found = align(6.04, 2.3);
  ASSERT_FALSE(found.guides.empty());
  // Middle and both edges meet: three upright lines from the held one's south edge to the other's north edge.
  EXPECT_EQ(found.guides.size(), 3U);
  for (const Guide& guide : found.guides) {
    EXPECT_EQ(guide.a.x_um, guide.b.x_um);
    EXPECT_EQ(guide.a.y_um, 2'050'000);
    EXPECT_EQ(guide.b.y_um, 4'250'000);
  }
}

TEST_F(Drag, AnInletCountsByItsMiddle) {
  const Aligned found = align(8.95, 3.0);
  EXPECT_EQ(found.x_um, 9'000'000);
  EXPECT_THAT(found.says, HasSubstr("the inlet of C1"));
}

TEST_F(Drag, ItIsNeverInLineWithItself) {
  EXPECT_FALSE(align(2.0, 2.0).x_um);
  EXPECT_TRUE(align(2.0, 2.0).guides.empty());
}

TEST_F(Drag, WallsOfARoomFarAwayDoNotCount) {
  // The west wall is at x = 0 between y = 0 and 6; far north of it nothing is against it.
  EXPECT_EQ(align(0.27, 3.0).x_um, 250'000);
  EXPECT_FALSE(align(0.27, 9.0).x_um);
}

TEST_F(Drag, AWallAskewDoesNotCount) {
  builder.project.rooms[0].outline = {plan(0, 0), plan(10, 0), plan(10, 6), plan(1, 6)};
  EXPECT_FALSE(align(0.27, 3.0).x_um);
}

TEST_F(Drag, OfAMachineThatIsGoneNothingIsSaid) {
  const Aligned found = alignDragged(project, base::Id(4711), plan(6, 4), kReach_m);
  EXPECT_FALSE(found.x_um || found.y_um);
  EXPECT_TRUE(found.guides.empty());
}

}  // namespace
}  // namespace kerfdraft::desk
