// Small gestures as edits.
#include "desk/models/change.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

class Changes : public ::testing::Test {
 protected:
  support::TwoBranchTree tree = support::twoBranchTree();
  const shop::Project& project = tree.builder.project;
  base::SeededIds ids{9};

  shop::Project done(const base::Result<Change>& change) {
    EXPECT_TRUE(change) << (change ? "" : change.error().text());
    if (!change) {
      return project;
    }
    const auto after = shop::applyEdits(project, change->edits);
    EXPECT_TRUE(after) << (after ? "" : after.error().text());
    return after.value_or(project);
  }
  Thing thing(base::Id id) { return *thingOf(project, id); }
};

TEST_F(Changes, AMachineTakesItsDuctAlongAndTheRiserStaysPlumb) {
  const shop::Project after = done(moveThing(project, thing(tree.main_port.machine), 200'000, -100'000));
  const auto& corners = ductOf(after, tree.main)->corners;
  EXPECT_EQ(corners[0].at, support::at(1.2, 1.9, 0.3));
  EXPECT_EQ(corners[1].at, support::at(1.2, 1.9, 2.5));
}

TEST_F(Changes, AnInnerCornerMovesWithItsBranch) {
  const base::Id corner = ductOf(project, tree.main)->corners[2].id;
  const shop::Project after = done(moveThing(project, thing(corner), 0, 300'000));
  EXPECT_EQ(ductOf(after, tree.main)->corners[2].at, support::at(5, 2.3, 2.5));
  EXPECT_EQ(ductOf(after, tree.branch)->corners.back().at, support::at(5, 2.3, 2.5));
}

TEST_F(Changes, TheEndOfABranchMovesTheCornerOfItsMain) {
  const base::Id end = ductOf(project, tree.branch)->corners.back().id;
  const shop::Project after = done(moveThing(project, thing(end), 250'000, 0));
  EXPECT_EQ(ductOf(after, tree.main)->corners[2].at, support::at(5.25, 2, 2.5));
}

TEST_F(Changes, AnEndAtAPortIsNotDraggedOff) {
  const base::Id end = ductOf(project, tree.main)->corners.front().id;
  EXPECT_THAT(moveThing(project, thing(end), 1, 1).error().text(), HasSubstr("is joined"));
  EXPECT_FALSE(canMove(project, thing(end)));
  EXPECT_TRUE(canMove(project, thing(tree.collector)));
}

TEST_F(Changes, AGateSlidesAlongItsDuctFromLegToLeg) {
  const shop::Project after = done(slideThing(project, thing(tree.main_gate), {3'000'000, 2'400'000}));
  const shop::Gate& gate = ductOf(after, tree.main)->gates[0];
  EXPECT_EQ(gate.corner, ductOf(project, tree.main)->corners[1].id);
  EXPECT_DOUBLE_EQ(gate.distance.si(), 2);
}

TEST_F(Changes, RemovingABranchHealsAStraightMain) {
  auto& main = tree.builder.ductOf(tree.main);
  main.corners[2].leg.reset();
  const shop::Project after = done(removeThings(project, {tree.branch}));
  EXPECT_EQ(after.ducts.size(), 1U);
  EXPECT_EQ(after.ducts[0].corners.size(), 3U);
}

TEST_F(Changes, RemovingABranchKeepsTheCornerWhereTheMainWidens) {
  EXPECT_EQ(done(removeThings(project, {tree.branch})).ducts[0].corners.size(), 4U);
}

TEST_F(Changes, RemovesSeveralThingsAtOnceAlsoThoseInsideOthers) {
  const auto change = removeThings(project, {tree.branch, tree.branch_gate, tree.branch_port.machine});
  EXPECT_EQ(change->words, "Remove 3 things");
  const shop::Project after = done(change);
  EXPECT_EQ(after.ducts.size(), 1U);
  EXPECT_EQ(after.machines.size(), 1U);
}

TEST_F(Changes, ACornerWithABranchIsNotRemoved) {
  const auto change = removeThings(project, {ductOf(project, tree.main)->corners[2].id});
  ASSERT_TRUE(change);
  EXPECT_THAT(shop::applyEdits(project, change->edits).error().text(), HasSubstr("part them first"));
}

TEST_F(Changes, APortGoesFromItsMachineAndItsDuctIsOpen) {
  const shop::Project after = done(removeThings(project, {tree.main_port.port}));
  EXPECT_TRUE(after.machines[0].ports.empty());
  EXPECT_TRUE(std::holds_alternative<shop::OpenEnd>(ductOf(after, tree.main)->from));
}

TEST_F(Changes, NothingPickedIsSaid) {
  EXPECT_FALSE(removeThings(project, {}));
}

TEST_F(Changes, ACornerIsPutWhereTheDuctLies) {
  const shop::Project after = done(insertCorner(project, {3'000'000, 2'030'000}, 0.05, ids));
  EXPECT_EQ(ductOf(after, tree.main)->corners[2].at, support::at(3, 2, 2.5));
  EXPECT_FALSE(insertCorner(project, {3'000'000, 4'000'000}, 0.05, ids));
}

TEST_F(Changes, OneClickHangsAGateATapAndACleanout) {
  const shop::PlanPoint at{3'000'000, 2'000'000};
  EXPECT_EQ(ductOf(done(hang(project, Hung::Gate, at, 0.05, 0, ids)), tree.main)->gates.back().label, "G3");
  const shop::Project tapped = done(hang(project, Hung::Tap, at, 0.05, 0, ids));
  EXPECT_EQ(ductOf(tapped, tree.main)->taps.back().label, "TP1");
  EXPECT_DOUBLE_EQ(ductOf(tapped, tree.main)->taps.back().distance.si(), 2);
  EXPECT_EQ(ductOf(done(hang(project, Hung::Cleanout, at, 0.05, 0, ids)), tree.main)->cleanouts.back().label,
            "CO1");
}

TEST_F(Changes, AGateOpensWhereTheAirWentBefore) {
  const auto open_in = [&](const shop::Project& after, base::Id gate) {
    std::set<base::Id> states;
    for (const shop::State& state : after.states) {
      for (const shop::GateSetting& each : state.gates) {
        if (each.gate == gate && each.travel.si() == 1) {
          states.insert(state.id);
        }
      }
    }
    return states;
  };
  // Beside the branch's entry only the main's own air; behind it that of both.
  const shop::Project before = done(hang(project, Hung::Gate, {3'000'000, 2'000'000}, 0.05, 0, ids));
  EXPECT_EQ(open_in(before, ductOf(before, tree.main)->gates.back().id),
            (std::set{tree.both, tree.main_alone}));
  const shop::Project behind = done(hang(project, Hung::Gate, {7'000'000, 2'000'000}, 0.05, 0, ids));
  EXPECT_EQ(open_in(behind, ductOf(behind, tree.main)->gates.back().id),
            (std::set{tree.both, tree.main_alone, tree.branch_alone}));
  // Where the fan stands no air goes; an end that lies open gives none.
  tree.builder.project.states[0].off.push_back(tree.collector);
  tree.builder.ductOf(tree.branch).from = shop::OpenEnd{};
  const shop::Project still = done(hang(project, Hung::Gate, {7'000'000, 2'000'000}, 0.05, 0, ids));
  EXPECT_EQ(open_in(still, ductOf(still, tree.main)->gates.back().id), std::set{tree.main_alone});
}

TEST_F(Changes, AClickOnTheCircleOfARiserMeansTheUprightLeg) {
  const shop::Project after = done(hang(project, Hung::Gate, {1'030'000, 2'000'000}, 0.05, 0, ids));
  const shop::Gate& gate = ductOf(after, tree.main)->gates.back();
  EXPECT_EQ(gate.corner, ductOf(project, tree.main)->corners[0].id);
  EXPECT_DOUBLE_EQ(gate.distance.si(), 1.1);
  const auto level = hangingPlace(project, {1'030'000, 2'000'000}, 0.05, 1);
  ASSERT_TRUE(level);
  EXPECT_FALSE(level->upright);
}

TEST_F(Changes, ATapInHoseAndAGateBesideEveryDuctAreRefused) {
  tree.builder.ductOf(tree.main).corners[0].leg->hose = shop::Hose{};
  EXPECT_THAT(hang(project, Hung::Tap, {3'000'000, 2'000'000}, 0.05, 0, ids).error().text(),
              HasSubstr("is hose"));
  EXPECT_THAT(hang(project, Hung::Gate, {3'000'000, 5'000'000}, 0.05, 0, ids).error().text(),
              HasSubstr("no duct lies here"));
}

TEST_F(Changes, TheMovedHoseGainsAndLosesPlaces) {
  const shop::PortRef third = tree.builder.machine("", support::at(1, 4, 0.4), "125 mm", tree.room);
  const shop::Project after = done(toggleHosePlace(project, tree.main, third));
  const auto& moved = std::get<shop::MovedEnd>(ductOf(after, tree.main)->from);
  EXPECT_EQ(moved.places, (std::vector{tree.main_port, third}));
  EXPECT_TRUE(ductOf(after, tree.main)->corners[0].leg->hose);
  EXPECT_FALSE(ductOf(after, tree.main)->corners[1].leg->hose);
  const auto again = shop::applyEdits(after, toggleHosePlace(after, tree.main, third)->edits);
  ASSERT_TRUE(again);
  EXPECT_EQ(std::get<shop::MovedEnd>(ductOf(*again, tree.main)->from).places.size(), 1U);
}

TEST_F(Changes, TheMovedHoseKeepsAwayFromAPortWithItsOwnDuct) {
  EXPECT_THAT(toggleHosePlace(project, tree.main, tree.branch_port).error().text(),
              HasSubstr("duct D2 for good"));
}

}  // namespace
}  // namespace kerfdraft::desk
