// Which inputs matter, and what measuring them is worth.
#include "doubt/matters.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shops.h"

namespace kerfdraft::doubt {
namespace {

using base::Standing;
using support::given;

struct Mattering {
  judge::Assessment assessment;
  std::vector<StateDoubt> doubts;
  std::vector<StateChances> chances;
};

Mattering found(const shop::Project& project) {
  Mattering f{assessed(project), {}, {}};
  f.doubts = assessDoubt(f.assessment);
  f.chances = chances(f.assessment, shipped(), f.doubts).value();
  return f;
}

/// Everything measured but the hose of the branch and the entry into its machine.
support::TwoBranchTree hosed() {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  shop.builder.port(shop.branch_port).entry.reset();
  shop.builder.port(shop.branch_port).floor = given<base::VolumeFlow>("700 m3/h");
  return shop;
}

TEST(Matters, SharesOfOneFlowAddUpToOne) {
  const Mattering f = found(hosed().builder.project);
  const auto worst = worstFlow(f.chances);
  ASSERT_TRUE(worst);
  double sum = 0;
  for (const Matter& m : whatMatters(f.assessment, f.doubts, f.chances, worst, 100)) {
    sum += m.share;
  }
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(Matters, TheHoseComesFirstWhereItIsAllThatIsNotKnown) {
  support::TwoBranchTree shop = hosed();
  shop.builder.port(shop.branch_port).entry = given<base::Ratio>("0.5", Standing::Measured);
  const Mattering f = found(shop.builder.project);
  const auto matters = whatMatters(f.assessment, f.doubts, f.chances);
  ASSERT_EQ(matters.size(), 5U);
  EXPECT_EQ(matters[0].key, "hose");
  EXPECT_EQ(matters[0].prior->measure, Measure::HosePressure);
  EXPECT_NE(matters[0].place.find("hose"), std::string::npos) << matters[0].place;
  EXPECT_NE(matters[0].place.find("D2"), std::string::npos) << matters[0].place;
}

TEST(Matters, MeasuringNarrowsTheBandByAsMuchAsItSays) {
  support::TwoBranchTree shop = hosed();
  const Mattering before = found(shop.builder.project);
  const auto at = worstFlow(before.chances);
  ASSERT_TRUE(at);
  Matter entry;
  for (const Matter& m : whatMatters(before.assessment, before.doubts, before.chances, at, 100)) {
    entry = m.key == "hood-unknown" ? m : entry;
  }
  ASSERT_EQ(entry.key, "hood-unknown");
  EXPECT_LT(entry.deviation_then, entry.deviation_now);
  EXPECT_EQ(entry.prior->measure, Measure::HoodStatic);
  // The same entry coefficient, now as a measured one: shared with the other measured hood from here on.
  const std::size_t run = before.assessment.pieces->ports[at->index].run;
  const double k = before.assessment.pieces->runs[run].pieces[0].k_forward;
  shop.builder.port(shop.branch_port).entry = given<base::Ratio>(std::to_string(k), Standing::Measured);
  const Mattering after = found(shop.builder.project);
  EXPECT_NEAR(after.doubts[at->state].ports[at->index].relative(), entry.deviation_then,
              0.01 * entry.deviation_now);
}

TEST(Matters, TheWorstFlowIsTheLeastLikelyThatIsNotDecided) {
  support::TwoBranchTree shop = support::twoBranchTree();
  const Mattering before = found(shop.builder.project);
  const double flow = before.doubts[0].ports[0].value;
  const auto m3h = [](double q) { return given<base::VolumeFlow>(std::to_string(q * 3600) + " m3/h"); };
  shop.builder.port(before.assessment.pieces->ports[0].ref).floor = m3h(flow * 1.01);  // an open question
  shop.builder.port(before.assessment.pieces->ports[1].ref).floor = m3h(10);           // surely not
  const Mattering f = found(shop.builder.project);
  const auto worst = worstFlow(f.chances);
  ASSERT_TRUE(worst);
  EXPECT_EQ(worst->state, 0U);
  EXPECT_EQ(worst->index, 0U);
}

TEST(Matters, WhereNothingIsAskedTheMostDoubtfulFlowSpeaks) {
  support::TwoBranchTree shop = hosed();
  shop.builder.port(shop.branch_port).floor.reset();
  const Mattering f = found(shop.builder.project);
  const auto worst = worstFlow(f.chances);
  ASSERT_TRUE(worst);
  const Spread& flow = f.chances[worst->state].ports[worst->index].flow;
  for (const StateChances& state : f.chances) {
    for (const FlowChance& port : state.ports) {
      EXPECT_TRUE(!port.open || port.flow.relative() <= flow.relative());
    }
  }
  EXPECT_EQ(whatMatters(f.assessment, f.doubts, f.chances).size(), 5U);
}

TEST(Matters, AreSaidInASentence) {
  Matter m;
  m.prior = &prior("hose");
  m.label = "hose friction";
  m.share = 0.62;
  m.port = "T2 chip hood";
  m.deviation_now = 0.16;
  m.deviation_then = 0.09;
  m.place = "D3: hose";
  EXPECT_EQ(
      sentence(m),
      "62 % of the doubt: hose friction, common practice, factor 1.6. Measure the static pressure at both "
      "ends of the hose, and the flow (first at D3: hose): then T2 chip hood is known to 9 % instead of "
      "16 %.");
  m.prior = &prior("friction");
  m.label = "duct friction";
  EXPECT_EQ(sentence(m), "62 % of the doubt: duct friction, by its construction, 8 %.");
}

TEST(Matters, NothingMattersWhereNothingMoves) {
  support::TwoBranchTree shop = support::twoBranchTree();
  for (shop::State& state : shop.builder.project.states) {
    state.off = {shop.collector};
  }
  const Mattering f = found(shop.builder.project);
  EXPECT_FALSE(worstFlow(f.chances));
  EXPECT_TRUE(whatMatters(f.assessment, f.doubts, f.chances).empty());
}

}  // namespace
}  // namespace kerfdraft::doubt
