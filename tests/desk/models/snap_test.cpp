// Where the hand means to be.
#include "desk/models/snap.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;

shop::PlanPoint plan(double x_m, double y_m) {
  return {std::llround(x_m * 1e6), std::llround(y_m * 1e6)};
}

class Snap : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  shop::Project& project = tree.builder.project;
  SnapRequest request(double x_m, double y_m) {
    SnapRequest r;
    r.pointer = plan(x_m, y_m);
    r.reach_m = 0.08;
    return r;
  }
};

TEST_F(Snap, FindsAPortNearThePointerAndNamesItWithItsHeight) {
  const Snapped found = snap(project, request(1.05, 2.03));
  EXPECT_EQ(found.to, SnapTo::Port);
  EXPECT_EQ(found.port, tree.main_port);
  EXPECT_EQ(found.at, plan(1, 2));
  EXPECT_EQ(found.z_um, 300'000);
  EXPECT_EQ(found.says, "port P1 of T1, 0.300 m up");
}

TEST_F(Snap, FindsNoPortBeyondReach) {
  EXPECT_NE(snap(project, request(1.0, 2.2)).to, SnapTo::Port);
}

TEST_F(Snap, FindsAnInlet) {
  const Snapped found = snap(project, request(8.02, 2.0));
  EXPECT_EQ(found.to, SnapTo::Inlet);
  EXPECT_EQ(found.collector, tree.collector);
}

TEST_F(Snap, FindsAnInnerCornerOfADuct) {
  const Snapped found = snap(project, request(5.01, 2.02));
  EXPECT_EQ(found.to, SnapTo::Corner);
  EXPECT_EQ(found.duct, tree.main);
}

TEST_F(Snap, TurnsThroughWhatLiesAtOnePlaceAndCounts) {
  // Port and the riser's corner stand over one another.
  SnapRequest r = request(1, 2);
  const Snapped first = snap(project, r);
  EXPECT_EQ(first.choices, 2U);
  EXPECT_EQ(first.to, SnapTo::Port);
  r.turn = 1;
  EXPECT_EQ(snap(project, r).to, SnapTo::Corner);
  r.turn = 2;
  EXPECT_EQ(snap(project, r).to, SnapTo::Port);
}

TEST_F(Snap, FindsADuctUnderThePointerAndItsHeight) {
  const Snapped found = snap(project, request(3, 2.05));
  EXPECT_EQ(found.to, SnapTo::Duct);
  EXPECT_EQ(found.duct, tree.main);
  EXPECT_EQ(found.at, plan(3, 2));
  EXPECT_EQ(found.z_um, 2'500'000);
}

TEST_F(Snap, MeetsADuctAtAUsefulAngle) {
  SnapRequest r = request(3.04, 2.05);
  r.from = plan(3, 4);
  const Snapped found = snap(project, r);
  EXPECT_EQ(found.to, SnapTo::Duct);
  EXPECT_EQ(found.at, plan(3, 2));
  EXPECT_EQ(found.says, "on duct D1, at 270°");
  EXPECT_EQ(found.guides.size(), 1U);
}

TEST_F(Snap, LeavesOutTheDuctThatIsDrawn) {
  SnapRequest r = request(3, 2.05);
  r.leave_out = tree.main;
  EXPECT_NE(snap(project, r).to, SnapTo::Duct);
}

TEST_F(Snap, KeepsEveryUsefulAngleExactly) {
  project.machines.clear();
  project.ducts.clear();
  project.collectors.clear();
  for (const int deg : {0, 30, 45, 60, 90, 120, 135, 150, 180, 210, 225, 240, 270, 300, 315, 330}) {
    const double a = deg * 3.14159265358979323846 / 180;
    SnapRequest r =
        request(5 + 1.53 * std::cos(a) - 0.02 * std::sin(a), 3 + 1.53 * std::sin(a) + 0.02 * std::cos(a));
    r.from = plan(5, 3);
    r.wall_gap_m = 0.05;
    const Snapped found = snap(project, r);
    ASSERT_EQ(found.to, SnapTo::Line) << deg;
    const double x = static_cast<double>(found.at.x_um - r.from->x_um);
    const double y = static_cast<double>(found.at.y_um - r.from->y_um);
    EXPECT_NEAR(x * std::sin(a) - y * std::cos(a), 0, 2) << deg;  // micrometres beside the ray
    EXPECT_NEAR(std::hypot(x, y), 1.55e6, 2) << deg;              // the grid along it: 50 mm
  }
}

TEST_F(Snap, GoesStraightOnFromALegThatLiesAskew) {
  project.machines.clear();
  project.ducts.clear();
  project.collectors.clear();
  SnapRequest r = request(5 + 1.5 * std::cos(0.2) + 0.01, 3 + 1.5 * std::sin(0.2));
  r.reach_m = 0.04;
  r.from = plan(5, 3);
  r.direction_rad = 0.2;
  EXPECT_EQ(snap(project, r).says, "straight on");
}

TEST_F(Snap, ComesInLineWithAPort) {
  SnapRequest r = request(4.04, 4.03);
  r.from = plan(7, 4);
  const Snapped found = snap(project, r);
  EXPECT_EQ(found.at, plan(4, 4));
  EXPECT_EQ(found.says, "at 180°, in line with P1 of T2");
}

TEST_F(Snap, HangsBesideAWall) {
  SnapRequest r = request(6.3, 5.87);
  r.wall_gap_m = 0.15;
  const Snapped found = snap(project, r);
  EXPECT_EQ(found.to, SnapTo::Line);
  EXPECT_EQ(found.at.y_um, 5'850'000);
  EXPECT_EQ(found.says, "150.0 mm from the wall");
}

TEST_F(Snap, UsesTheGridWhereNothingElseIs) {
  SnapRequest r = request(6.333, 4.217);
  const Snapped found = snap(project, r);
  EXPECT_EQ(found.to, SnapTo::Grid);
  EXPECT_EQ(found.at, plan(6.35, 4.2));
}

TEST_F(Snap, LeavesThePointerAloneWhereNothingIsAskedFor) {
  SnapRequest r = request(1.01, 2.01);
  r.things = r.lines = r.grid = false;
  const Snapped found = snap(project, r);
  EXPECT_EQ(found.to, SnapTo::Nothing);
  EXPECT_EQ(found.at, r.pointer);
}

TEST(GridStep, IsOfTheReadersUnits) {
  EXPECT_DOUBLE_EQ(gridStep(0.08, base::UnitSystem::Metric), 0.05);
  EXPECT_DOUBLE_EQ(gridStep(0.08, base::UnitSystem::Us), 0.0254);
  EXPECT_DOUBLE_EQ(gridStep(100, base::UnitSystem::Us), 0.9144);
}

}  // namespace
}  // namespace kerfdraft::desk
