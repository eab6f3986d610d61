// Linear propagation against what a pencil gives.
#include "doubt/propagate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shops.h"

namespace kerfdraft::doubt {
namespace {

/// c m² against p0 (1 − (m/m0)²), with an entry and an elbow, no friction.
test::NetBuilder pencil(double entry_share) {
  test::NetBuilder b;
  const std::size_t in = b.joint();
  const double area = physics::roundArea(0.1);
  const double k = 4000 * 2 * 1.2 * area * area;
  b.run(0, in, {b.entry(0.1, entry_share * k), b.fitting(0.1, (1 - entry_share) * k)});
  b.port(0, 0);
  b.lawFan(in, 0, 2000, 1.0);
  return b;
}

TEST(Propagate, OnePathHasThePencilsDeviation) {
  // d ln m/d ln c = −½ s, s = c/(c + p0/m0²); the fan's pressure the same with the other sign. The entry has
  // three quarters of the loss (20 %), the elbow one (20 %), the curve 12 %.
  const test::NetBuilder b = pencil(0.75);
  const judge::Assessment a = assessmentOf(b, network::restingSituation(*b.share()));
  const std::vector<StateDoubt> doubts = assessDoubt(a);
  ASSERT_EQ(doubts.size(), 1U);
  ASSERT_TRUE(doubts[0].defined);
  const double s = 4000 / (4000 + 2000 / 1.44);
  const double meant = 0.5 * s * std::sqrt(std::pow(0.75 * 0.2, 2) + std::pow(0.25 * 0.2, 2) + 0.12 * 0.12);
  EXPECT_NEAR(doubts[0].ports[0].relative(), meant, 1e-5);
  EXPECT_NEAR(doubts[0].fans[0].relative(), meant, 1e-5);
  EXPECT_NEAR(doubts[0].runs[0].relative(), meant, 1e-5);
  // p = c m²: without the fan's doubt twice the flow's own, of the other sign at the loss.
  const Spread& rise = doubts[0].fan_rises[0];
  for (std::size_t i = 0; i < doubts[0].inputs.size(); ++i) {
    const double of_flow = doubts[0].ports[0].effects[i] / doubts[0].ports[0].value;
    const bool fan = doubts[0].inputs[i].parameter.what == network::Parameter::What::Fan;
    const double sigma = doubts[0].inputs[i].prior->sigma();
    const double share = doubts[0].inputs[i].key == "hood-form" ? 0.75 : 0.25;
    EXPECT_NEAR(rise.effects[i] / rise.value, 2 * of_flow + (fan ? 0 : share * sigma), 1e-5);
  }
}

TEST(Propagate, OneFactorMovesAllPiecesOfAKindTogether) {
  // Two equal paths into one fan: what moves one moves the other, so the sum is as doubtful as each.
  test::NetBuilder b;
  const std::size_t in = b.joint();
  for (int i = 0; i < 2; ++i) {
    b.port(b.run(0, in, {b.entry(0.1, 1), b.duct(0.1, 6)}), 0);
  }
  b.lawFan(in, 0, 2000, 0.6);
  const judge::Assessment a = assessmentOf(b, network::restingSituation(b.pieces()));
  const StateDoubt d = assessDoubt(a)[0];
  EXPECT_NEAR((d.ports[0] + d.ports[1]).relative(), d.ports[0].relative(), 1e-12);
  EXPECT_NEAR(d.fans[0].relative(), d.ports[0].relative(), 1e-9);
}

TEST(Propagate, SpeedsFollowTheBoreTwice) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg->bore =
      support::given<base::Length>("100 mm", base::Standing::Assumed);
  const judge::Assessment a = assessed(shop.builder.project);
  const StateDoubt d = assessDoubt(a)[0];
  const std::size_t run = a.pieces->ports[0].run;
  for (std::size_t i = 0; i < d.inputs.size(); ++i) {
    if (d.inputs[i].key == "bore") {
      EXPECT_NEAR(d.speeds[run].effects[i] / d.speeds[run].value,
                  d.ports[0].effects[i] / d.ports[0].value - 2 * 0.03, 2e-3);
    }
  }
}

TEST(Propagate, AStateWhereNothingMovesIsNotDefined) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states[1].off = {shop.collector};
  const std::vector<StateDoubt> doubts = assessDoubt(assessed(shop.builder.project));
  EXPECT_TRUE(doubts[0].defined);
  EXPECT_FALSE(doubts[1].defined);
  EXPECT_TRUE(doubts[1].ports.empty());
}

TEST(Propagate, DoesNotDependOnTheNumberOfThreads) {
  const judge::Assessment a = assessed(support::twoBranchTree().builder.project);
  const auto one = assessDoubt(a, 1);
  const auto three = assessDoubt(a, 3);
  for (std::size_t s = 0; s < one.size(); ++s) {
    for (std::size_t p = 0; p < one[s].ports.size(); ++p) {
      EXPECT_EQ(one[s].ports[p].effects, three[s].ports[p].effects);
    }
  }
}

}  // namespace
}  // namespace kerfdraft::doubt
