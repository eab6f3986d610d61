// The tree that the pencil method needs, and what is refused as none.
#include "hand/tree.h"

#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "hand/drawn.h"

namespace kerfdraft {
namespace {

using pieces::NodeKind;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(Tree, GathersTheFlowsOfOpenPorts) {
  const tests::Drawn drawn = tests::twoBranches();
  const std::vector<hand::DesignFlow> flows{{1, 0.25}, {0, 0.2}};
  const hand::Tree tree = hand::openTree(drawn.pieces, flows).value();
  EXPECT_THAT(tree.suction, ElementsAre(1U, 0U, 2U));
  EXPECT_THAT(tree.flow_m3_s, ElementsAre(0.2, 0.25, 0.45));
  EXPECT_EQ(tree.fan, 0U);
  EXPECT_TRUE(tree.discharge.empty());
}

TEST(Tree, LeavesShutBranchesOut) {
  const tests::Drawn drawn = tests::twoBranches();
  const std::vector<hand::DesignFlow> flows{{1, 0.25}};
  const hand::Tree tree = hand::openTree(drawn.pieces, flows).value();
  EXPECT_THAT(tree.suction, ElementsAre(1U, 2U));
  EXPECT_EQ(tree.flow_m3_s[0], 0);
}

TEST(Tree, MeetsAShortBranchAfterALongOne) {
  // Two junctions in series: the main between them must come after both of its branches.
  tests::Drawn drawn;
  const std::size_t far = drawn.node(NodeKind::Junction, "J1");
  const std::size_t near = drawn.node(NodeKind::Junction, "J2");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet");
  const std::size_t last = drawn.run(near, inlet, 0.2, "main 2");
  const std::size_t b3 = drawn.run(0, near, 0.1, "B3");
  const std::size_t middle = drawn.run(far, near, 0.15, "main 1");
  const std::size_t b1 = drawn.run(0, far, 0.1, "B1");
  const std::size_t b2 = drawn.run(0, far, 0.1, "B2");
  drawn.junction(far, {b1, b2}, {0, 0.5}, middle);
  drawn.junction(near, {middle, b3}, {0, 0.5}, last);
  drawn.fan(inlet, 0, "F1");
  const std::vector<hand::DesignFlow> flows{{b3, 0.1}, {b1, 0.1}, {b2, 0.1}};
  EXPECT_THAT(hand::openTree(drawn.pieces, flows).value().suction, ElementsAre(b3, b1, b2, middle, last));
}

void expectRefused(const tests::Drawn& drawn, const std::vector<hand::DesignFlow>& flows,
                   const std::string& where, const std::string& why) {
  const auto tree = hand::openTree(drawn.pieces, flows);
  ASSERT_FALSE(tree.has_value());
  EXPECT_EQ(tree.error().where, where);
  EXPECT_THAT(tree.error().message, HasSubstr(why));
}

TEST(Tree, RefusesFlowsThatAreNone) {
  const tests::Drawn drawn = tests::twoBranches();
  expectRefused(drawn, {}, "", "No port is open");
  expectRefused(drawn, {{0, 0.0}}, "B1", "above zero");
  expectRefused(drawn, {{0, -0.2}}, "B1", "-0.2 m³/s");
  expectRefused(drawn, {{0, std::numeric_limits<double>::quiet_NaN()}}, "B1", "nan");
  expectRefused(drawn, {{0, 0.2}, {0, 0.1}}, "B1", "Two design flows");
  expectRefused(drawn, {{9, 0.2}}, "", "no run 9");
  expectRefused(drawn, {{2, 0.2}}, "main", "inside the ducts");
}

TEST(Tree, RefusesAClosedRun) {
  tests::Drawn drawn = tests::twoBranches();
  drawn.pieces.runs[0].closed = true;
  expectRefused(drawn, {{0, 0.2}}, "B1", "closed");
}

TEST(Tree, RefusesARingMain) {
  // The main divides behind the junction and comes together again before the fan.
  tests::Drawn drawn;
  const std::size_t split = drawn.node(NodeKind::Junction, "J1");
  const std::size_t joined = drawn.node(NodeKind::Junction, "J2");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet");
  const std::size_t port = drawn.run(0, split, 0.1, "B1");
  drawn.run(split, joined, 0.15, "north side");
  drawn.run(split, joined, 0.15, "south side");
  drawn.run(joined, inlet, 0.2, "main");
  drawn.fan(inlet, 0, "F1");
  expectRefused(drawn, {{port, 0.2}}, "J1", "north side and by south side: a ring main");
}

TEST(Tree, RefusesARingThatIsDrawnTowardTheFanBothWays) {
  // Both halves are drawn from where they part toward the fan, so every place has one drawn way on.
  tests::Drawn drawn;
  const std::size_t part = drawn.node(NodeKind::Junction, "J1");
  const std::size_t middle = drawn.node(NodeKind::Junction, "J2");
  const std::size_t meet = drawn.node(NodeKind::Junction, "J3");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet");
  drawn.run(part, middle, 0.15, "left, first half");
  drawn.run(middle, meet, 0.15, "left, second half");
  const std::size_t right = drawn.run(part, meet, 0.15, "right");
  const std::size_t port = drawn.run(0, middle, 0.1, "B1");
  drawn.run(meet, inlet, 0.2, "main");
  drawn.fan(inlet, 0, "F1");
  expectRefused(drawn, {{port, 0.2}}, "right", "closes a ring main");
  // A gate on the other half, shut, parts the ring.
  drawn.fitting(right, pieces::Role::Gate, 0).gate = 0;
  EXPECT_TRUE(hand::openTree(drawn.pieces, std::vector<hand::DesignFlow>{{port, 0.2}}).has_value());
}

TEST(Tree, RefusesARingWithoutAWayOut) {
  tests::Drawn drawn;
  const std::size_t a = drawn.node(NodeKind::Junction, "J1");
  const std::size_t b = drawn.node(NodeKind::Junction, "J2");
  const std::size_t port = drawn.run(0, a, 0.1, "B1");
  drawn.run(a, b, 0.15, "there");
  drawn.run(b, a, 0.15, "back");
  expectRefused(drawn, {{port, 0.2}}, "B1", "comes round");
}

TEST(Tree, RefusesTwoOutletsBehindTheFan) {
  tests::Drawn drawn = tests::twoBranches();
  const std::size_t outlet = drawn.node(NodeKind::Junction, "outlet Y");
  drawn.pieces.fans[0].to = outlet;
  drawn.run(outlet, 0, 0.15, "summer");
  drawn.run(outlet, 0, 0.15, "winter");
  expectRefused(drawn, {{0, 0.2}}, "outlet Y", "several outlets");
}

TEST(Tree, RefusesTwoCollectors) {
  tests::Drawn drawn = tests::twoBranches();
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet 2");
  const std::size_t other = drawn.run(0, inlet, 0.1, "B3");
  drawn.fan(inlet, 0, "F2");
  expectRefused(drawn, {{0, 0.2}, {other, 0.2}}, "F2", "this fan and F1");
}

TEST(Tree, RefusesABooster) {
  tests::Drawn drawn = tests::twoBranches();
  const std::size_t middle = drawn.node(NodeKind::Joint, "between");
  drawn.pieces.fans[0].to = middle;
  drawn.fan(middle, 0, "F2");
  expectRefused(drawn, {{0, 0.2}}, "F2", "no booster");
}

TEST(Tree, RefusesAMachineWithItsOwnBlower) {
  tests::Drawn drawn = tests::twoBranches();
  const std::size_t body = drawn.node(NodeKind::Body, "sander");
  const std::size_t behind = drawn.node(NodeKind::Joint, "blower outlet");
  drawn.fan(body, behind, "sander's blower");
  drawn.pieces.runs[0].from = behind;
  expectRefused(drawn, {{0, 0.2}}, "B1", "sander's blower");
}

TEST(Tree, RefusesAirThatFindsNoFanOrNoWayOn) {
  tests::Drawn drawn = tests::twoBranches();
  drawn.pieces.fans.clear();
  expectRefused(drawn, {{0, 0.2}}, "fan inlet", "no way on");
  drawn.pieces.runs[2].to = 0;
  expectRefused(drawn, {{0, 0.2}}, "B1", "without passing a fan");
}

TEST(Tree, RefusesAMovedHoseAtTwoPlaces) {
  tests::Drawn drawn;
  const std::size_t cuff = drawn.node(NodeKind::Joint, "H1");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet");
  const std::size_t a = drawn.run(0, cuff, 0.1, "H1 at T1");
  const std::size_t b = drawn.run(0, cuff, 0.1, "H1 at T2");
  drawn.run(cuff, inlet, 0.1, "H1");
  drawn.fan(inlet, 0, "F1");
  EXPECT_TRUE(hand::openTree(drawn.pieces, std::vector<hand::DesignFlow>{{a, 0.2}}).has_value());
  expectRefused(drawn, {{a, 0.2}, {b, 0.2}}, "H1", "one place at a time");
}

}  // namespace
}  // namespace kerfdraft
