// What stands where on the plan.
#include "desk/models/places.h"

#include <gtest/gtest.h>

#include "pieces/pieces.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

class Places : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  const shop::Project& project = tree.builder.project;
  const shop::Duct& main = tree.builder.ductOf(tree.main);
};

TEST_F(Places, ALegIsNearWithinItsRimAndReach) {
  EXPECT_EQ(legsNear(project, {3'000'000, 2'100'000}, 0.05).size(), 1U);
  EXPECT_TRUE(legsNear(project, {3'000'000, 2'120'000}, 0.05).empty());
}

TEST_F(Places, APlaceKnowsHowFarAlongItIs) {
  const LegPlace place = legsNear(project, {3'000'000, 2'020'000}, 0.05).at(0);
  EXPECT_EQ(place.duct, tree.main);
  EXPECT_EQ(place.corner, main.corners[1].id);
  EXPECT_DOUBLE_EQ(place.along_m, 2);
  EXPECT_DOUBLE_EQ(place.length_m, 4);
  EXPECT_EQ(place.at, support::at(3, 2, 2.5));
  EXPECT_DOUBLE_EQ(place.bore_m, 0.125);
}

TEST_F(Places, ARiserIsAPlaceAtItsMiddle) {
  const auto places = legsNear(project, {1'000'000, 2'000'000}, 0.02);
  ASSERT_EQ(places.size(), 2U);
  EXPECT_FALSE(places[0].upright);  // the run lies higher
  EXPECT_TRUE(places[1].upright);
  EXPECT_DOUBLE_EQ(places[1].along_m, 1.1);
}

TEST_F(Places, IdsLeadToThings) {
  EXPECT_EQ(thingOf(project, tree.main), (Thing{ThingKind::Duct, tree.main, {}}));
  EXPECT_EQ(thingOf(project, tree.main_gate), (Thing{ThingKind::Gate, tree.main_gate, tree.main}));
  EXPECT_EQ(thingOf(project, tree.main_port.port),
            (Thing{ThingKind::Port, tree.main_port.port, tree.main_port.machine}));
  EXPECT_EQ(thingOf(project, tree.collector)->kind, ThingKind::Collector);
  EXPECT_FALSE(thingOf(project, base::Id(1)));
}

TEST_F(Places, KeysOfPiecesLeadToTheirDuctOrCorner) {
  const pieces::PieceKey straight{pieces::Role::Straight, main.corners[1].id, main.corners[2].id};
  EXPECT_EQ(thingOf(project, straight.text()), (Thing{ThingKind::Duct, tree.main, {}}));
  const pieces::PieceKey elbow{pieces::Role::Elbow, main.corners[1].id, {}};
  EXPECT_EQ(thingOf(project, elbow.text()), (Thing{ThingKind::Corner, main.corners[1].id, tree.main}));
  EXPECT_FALSE(thingOf(project, "elbow:xyz"));
}

TEST_F(Places, SentencesNameThings) {
  EXPECT_EQ(nameOf(project, *thingOf(project, tree.main_port.port)), "port P1 of T1");
  EXPECT_EQ(nameOf(project, *thingOf(project, tree.branch_gate)), "gate G2");
  EXPECT_EQ(nameOf(project, *thingOf(project, main.corners[1].id)), "corner of duct D1");
}

TEST_F(Places, LabelsAreNotUsedTwice) {
  EXPECT_EQ(freeLabel(project, "D"), "D3");
  EXPECT_EQ(freeLabel(project, "G"), "G3");
  EXPECT_EQ(freeLabel(project, "TP"), "TP1");
}

}  // namespace
}  // namespace kerfdraft::desk
