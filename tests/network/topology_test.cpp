// Shut, tight and floating parts, several stable ways to share, and physics that surprises: shown as it is.
#include <gtest/gtest.h>

#include <cmath>

#include "network/solve.h"
#include "support/nets.h"

namespace kerfdraft::network {
namespace {

using test::NetBuilder;

TEST(Topology, ADeadPipeBetweenTwoTightGatesFloatsWithoutHarm) {
  NetBuilder b;
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  const std::size_t dead = b.joint("dead");
  b.run(0, in, {b.entry(0.1, 1), b.duct(0.1, 3)});
  b.lawFan(in, out, 2000, 0.4, 0.1);
  b.run(out, 0, {b.fitting(0.1, 1)});
  b.run(0, dead, {b.entry(0.1, 1), b.gate(0.1, 0)});
  b.pieces().gates[0].run = 2;
  b.run(dead, in, {b.gate(0.1, 0)});
  b.pieces().gates[1].run = 3;
  const Solution s = b.solve();
  ASSERT_TRUE(s.solved()) << s.why;
  EXPECT_EQ(s.node_pa[dead], 0);
  EXPECT_EQ(s.runs[3].flow_start_kg_s, 0);
}

TEST(Topology, AMovedHoseThatIsElsewhereIsShut) {
  NetBuilder b;
  const std::size_t j = b.joint("hose");
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  const std::size_t first = b.run(0, j, {b.entry(0.1, 1)});
  const std::size_t second = b.run(0, j, {b.entry(0.1, 3)});
  b.run(j, in, {b.duct(0.1, 4)});
  b.lawFan(in, out, 2000, 0.4, 0.1);
  b.run(out, 0, {b.fitting(0.1, 1)});
  b.pieces().moved.push_back(
      {base::Id(900), "hose", {{{base::Id(1), base::Id(2)}, first}, {{base::Id(3), base::Id(4)}, second}}});
  Situation s = restingSituation(b.pieces());
  const auto net = b.compile();
  s.hose_place = {0};
  const Solution at_first = solveFully(*net, s);
  s.hose_place = {1};
  const Solution at_second = solveFully(*net, s);
  s.hose_place = {-1};
  const Solution nowhere = solveFully(*net, s);
  ASSERT_TRUE(at_first.solved() && at_second.solved() && nowhere.solved());
  EXPECT_EQ(at_first.runs[second].flow_start_kg_s, 0);
  EXPECT_EQ(at_second.runs[first].flow_start_kg_s, 0);
  EXPECT_GT(at_first.fans[0].flow_kg_s, at_second.fans[0].flow_kg_s);
  EXPECT_NEAR(nowhere.fans[0].flow_kg_s, 0, 1e-9);
}

TEST(Topology, OneFanOfTwoStoppedBehindADamperTakesNothing) {
  NetBuilder b;
  const std::size_t j = b.joint("plenum");
  b.run(0, j, {b.entry(0.15, 1), b.duct(0.15, 5)});
  for (int i = 0; i < 2; ++i) {
    const std::size_t in = b.joint();
    const std::size_t out = b.joint();
    b.run(j, in, {b.duct(0.12, 1)});
    b.lawFan(in, out, 2000, 0.4, 0.12);
    b.run(out, 0, {b.fitting(0.12, 1)});
  }
  Situation s = restingSituation(b.pieces());
  s.fan_on = {1, 0};
  const Solution leaky = solveFully(*b.compile(), s);
  ASSERT_TRUE(leaky.solved()) << leaky.why;
  EXPECT_LT(leaky.fans[1].flow_kg_s, -0.01);  // air is drawn back through the stopped unit
  b.pieces().fans[1].non_return = true;
  const Solution damped = solveFully(*b.compile(), s);
  EXPECT_EQ(damped.fans[1].flow_kg_s, 0);
  EXPECT_GT(damped.runs[0].flow_start_kg_s, leaky.runs[0].flow_start_kg_s);
}

TEST(Topology, ParallelFansWithAHumpHuntAtHighResistanceAndNotAtLow) {
  // Two equal fans whose pressure rises before it falls, on one duct: at high resistance even sharing lies on
  // the rising part, where it is unstable (Eck and others on parallel fans, from memory).
  const auto shop = [](double k) {
    NetBuilder b;
    const std::size_t j = b.joint("plenum");
    b.run(0, j, {b.fitting(0.2, k)});
    const std::vector<physics::FanPoint> points{
        {0, 1500}, {0.2, 1900}, {0.35, 2000}, {0.6, 1500}, {0.9, 300}};
    for (int i = 0; i < 2; ++i) {
      physics::FanRating rating{physics::makeFanCurve(points).value(), physics::RatingBasis::FanTotal, 1.2, 0,
                                1};
      b.fan(j, 0, rating, 0.2);
    }
    return b.solve();
  };
  const Solution low = shop(5);
  ASSERT_TRUE(low.solved()) << low.why;
  EXPECT_TRUE(low.stable);
  EXPECT_FALSE(low.fans_hunt);
  EXPECT_NEAR(low.fans[0].flow_kg_s, low.fans[1].flow_kg_s, 1e-9);
  const Solution high = shop(150);
  ASSERT_TRUE(high.solved()) << high.why;
  EXPECT_TRUE(high.stable);
  EXPECT_TRUE(high.fans_hunt);
  EXPECT_GT(std::abs(high.fans[0].flow_kg_s - high.fans[1].flow_kg_s), 0.01);
  bool even_and_unstable = false;
  for (const Solution& other : high.others) {
    even_and_unstable = even_and_unstable ||
                        (!other.stable && std::abs(other.fans[0].flow_kg_s - other.fans[1].flow_kg_s) < 1e-6);
  }
  EXPECT_TRUE(even_and_unstable);
}

TEST(Topology, APointOnTheRisingPartIsReturnedAndFlagged) {
  NetBuilder b;
  const std::size_t j = b.joint();
  b.run(0, j, {b.fitting(0.2, 300)});
  const std::vector<physics::FanPoint> points{{0, 1500}, {0.2, 1900}, {0.35, 2000}, {0.6, 1500}, {0.9, 300}};
  physics::FanRating rating{physics::makeFanCurve(points).value(), physics::RatingBasis::FanTotal, 1.2, 0, 1};
  b.fan(j, 0, rating, 0.2);
  const Solution s = b.solve();
  ASSERT_TRUE(s.solved()) << s.why;
  EXPECT_TRUE(s.fans[0].rising_part);
  EXPECT_TRUE(s.stable);  // the duct's own resistance is steeper than the curve
}

TEST(Topology, AFastBranchPumpsItsNeighbour) {
  // woodshop.md row 21: "a second gate never raises flow at the first" is not a theorem.
  NetBuilder b;
  const std::size_t j = b.node(pieces::NodeKind::Junction, "J");
  const std::size_t in = b.joint();
  const std::size_t out = b.joint();
  const std::size_t slow = b.run(0, j, {b.entry(0.15, 6), b.duct(0.15, 2)});
  const std::size_t fast = b.run(0, j, {b.entry(0.08, 0.05), b.gate(0.08, 0.001)});
  b.pieces().gates[0].run = fast;
  const std::size_t main = b.run(j, in, {b.duct(0.15, 0.5)});
  b.junction(j, {slow, fast}, {0, 15}, main);
  // A stiff fan: the suction hardly falls when a gate opens.
  b.lawFan(in, out, 1000, 20, 0.15);
  b.run(out, 0, {b.fitting(0.5, 1)});
  const auto net = b.compile();
  Situation s = restingSituation(b.pieces());
  const double shut = solveFully(*net, s).runs[slow].flow_start_kg_s;
  s.gate_travel = {1};
  const double open = solveFully(*net, s).runs[slow].flow_start_kg_s;
  EXPECT_GT(open, 1.02 * shut) << open << " against " << shut;
}

}  // namespace
}  // namespace kerfdraft::network
