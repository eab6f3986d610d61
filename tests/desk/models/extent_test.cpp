// Where things are for the eye, and the order in which Tab walks through them.
#include "desk/models/extent.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;

class Walk : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  shop::Project& project = tree.builder.project;

  std::vector<std::string> names(const std::vector<Thing>& things) const {
    std::vector<std::string> out;
    out.reserve(things.size());
    for (const Thing& thing : things) {
      out.push_back(nameOf(project, thing));
    }
    return out;
  }
};

TEST_F(Walk, GoesRowByRowFromTheNorthAndInARowFromTheWest) {
  // One machine far north; the second stands a little lower than the first and is still in its row.
  const shop::PortRef north = tree.builder.machine("", at(6, 5, 0.3), "100 mm", tree.room);
  tree.builder.machineOf(tree.branch_port).at.y_um -= 300'000;
  // What stands at the same distance from the west is read from the north.
  EXPECT_THAT(names(readingOrder(project)),
              ::testing::ElementsAre("room R1", "machine T3", "machine T1", "duct D1", "gate G1", "duct D2",
                                     "gate G2", "machine T2", "collector C1"));
  EXPECT_EQ(nextInOrder(project, {}, true)->id, tree.room);
  EXPECT_EQ(nextInOrder(project, {tree.room}, true)->id, north.machine);
  EXPECT_EQ(nextInOrder(project, {north.machine}, false)->id, tree.room);
  EXPECT_EQ(nextInOrder(project, {}, false)->id, tree.collector);
  EXPECT_FALSE(nextInOrder(project, {tree.collector}, true));
  EXPECT_FALSE(nextInOrder(project, {tree.room}, false));
}

TEST_F(Walk, ReachesEveryThingOnceThereAndBack) {
  const std::size_t all = readingOrder(project).size();
  for (const bool forward : {true, false}) {
    std::set<base::Id> seen;
    std::set<base::Id> picked;
    while (const auto next = nextInOrder(project, picked, forward)) {
      ASSERT_TRUE(seen.insert(next->id).second) << nameOf(project, *next);
      picked = {next->id};
    }
    EXPECT_EQ(seen.size(), all);
  }
}

TEST_F(Walk, GoesOnFromTheMachineOfAPickedPort) {
  const auto after_port = nextInOrder(project, {tree.main_port.port}, true);
  ASSERT_TRUE(after_port);
  EXPECT_EQ(*after_port, *nextInOrder(project, {tree.main_port.machine}, true));
  // What is gone is as nothing.
  EXPECT_EQ(nextInOrder(project, {base::Id(4711)}, true)->id, tree.room);
}

TEST_F(Walk, AnEmptyShopHasNothingToWalkThrough) {
  EXPECT_TRUE(readingOrder({}).empty());
  EXPECT_FALSE(nextInOrder({}, {}, true));
  EXPECT_TRUE(extentOf(shop::Project()).empty());
}

TEST_F(Walk, AGateIsWhereItHangsOnItsDuct) {
  // 1 m up the riser that stands at (1, 2).
  EXPECT_EQ(placeOf(project, {ThingKind::Gate, tree.main_gate, tree.main}),
            (shop::PlanPoint{1'000'000, 2'000'000}));
  const base::Id level = tree.builder.gate(tree.main, 1, "1.5 m");
  EXPECT_EQ(placeOf(project, {ThingKind::Gate, level, tree.main}), (shop::PlanPoint{2'500'000, 2'000'000}));
  EXPECT_FALSE(placeOf(project, {ThingKind::Gate, base::Id(4711), tree.main}));
}

TEST_F(Walk, ExtentsHoldFootprintsTurnedAndDucts) {
  shop::Machine& machine = tree.builder.machineOf(tree.main_port);
  machine.width = support::length("2 m");
  machine.depth = support::length("1 m");
  machine.turned = support::given<base::Angle>("90 deg");
  const drawing::Box box = footprintOf(machine);
  EXPECT_NEAR(box.width(), 1, 1e-9);
  EXPECT_NEAR(box.height(), 2, 1e-9);
  EXPECT_NEAR(box.centre().x, 1, 1e-9);
  EXPECT_NEAR(box.centre().y, 2, 1e-9);
  const drawing::Box duct = extentOf(project, {tree.main});
  EXPECT_NEAR(duct.left, 1, 1e-9);
  EXPECT_NEAR(duct.right, 8, 1e-9);
  EXPECT_TRUE(extentOf(project).contains(extentOf(project, {tree.main, tree.collector, tree.room})));
  EXPECT_TRUE(extentOf(project, {base::Id(4711)}).empty());
}

}  // namespace
}  // namespace kerfdraft::desk
