// Chances of floors, targets and speeds.
#include "doubt/chances.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shops.h"

namespace kerfdraft::doubt {
namespace {

using support::given;

std::string m3h(double flow_m3_s) {
  return std::to_string(flow_m3_s * 3600) + " m3/h";
}

struct Found {
  judge::Assessment assessment;
  std::vector<StateDoubt> doubts;
  std::vector<StateChances> chances;
};

Found find(const shop::Project& project) {
  Found f{assessed(project), {}, {}};
  f.doubts = assessDoubt(f.assessment);
  f.chances = chances(f.assessment, shipped(), f.doubts).value();
  return f;
}

TEST(Chances, AFloorAtThePredictionIsReachedEveryOtherTime) {
  support::TwoBranchTree shop = support::twoBranchTree();
  const Found before = find(shop.builder.project);
  const double flow = before.doubts[0].ports[0].value;
  const shop::PortRef ref = before.assessment.pieces->ports[0].ref;
  shop.builder.port(ref).floor = given<base::VolumeFlow>(m3h(flow));
  shop.builder.port(ref).target = given<base::VolumeFlow>(m3h(flow / judge::kTargetShare));
  const Found f = find(shop.builder.project);
  const FlowChance& chance = f.chances[0].ports[0];
  ASSERT_TRUE(chance.reaches_floor && chance.reaches_target);
  EXPECT_NEAR(*chance.reaches_floor, 0.5, 1e-3);
  EXPECT_NEAR(*chance.reaches_target, 0.5, 1e-3);  // 90 % of a target counts as met
  EXPECT_FALSE(f.chances[0].ports[1].reaches_floor);
}

TEST(Chances, OfAFloorTwoDeviationsBelowItIsYesAndOfOneFarAboveNo) {
  support::TwoBranchTree shop = support::twoBranchTree();
  const Found before = find(shop.builder.project);
  const Spread& flow = before.doubts[0].ports[0];
  shop::Port& port = shop.builder.port(before.assessment.pieces->ports[0].ref);
  const auto with = [&](double z) {
    port.floor = given<base::VolumeFlow>(m3h(flow.at(z)));
    return chanceInWords(*find(shop.builder.project).chances[0].ports[0].reaches_floor);
  };
  EXPECT_EQ(with(-2), Chance::Yes);
  EXPECT_EQ(with(-1), Chance::Likely);
  EXPECT_EQ(with(1), Chance::Unlikely);
  EXPECT_EQ(with(2), Chance::No);
}

TEST(Chances, AShutPortHasNone) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.port(shop.branch_port).floor = given<base::VolumeFlow>("10 m3/h");
  const Found f = find(shop.builder.project);
  for (const FlowChance& chance : f.chances[1].ports) {
    if (chance.ref == shop.branch_port) {
      EXPECT_FALSE(chance.open);
      EXPECT_FALSE(chance.verdict());
    }
  }
}

TEST(Chances, AMachineAddsItsPortsByTheirCommonInputs) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.machineOf(shop.main_port).target = given<base::VolumeFlow>("500 m3/h");
  const Found f = find(shop.builder.project);
  ASSERT_EQ(f.chances[0].machines.size(), 1U);
  const FlowChance& machine = f.chances[0].machines[0];
  for (std::size_t p = 0; p < f.chances[0].ports.size(); ++p) {
    if (f.chances[0].ports[p].ref == shop.main_port) {
      EXPECT_NEAR(machine.flow.sigma, f.doubts[0].ports[p].sigma, 1e-15);
    }
  }
  EXPECT_TRUE(machine.reaches_target);
  EXPECT_FALSE(machine.reaches_floor);
}

TEST(Chances, ARunFailsOnlyWhenTheUpperEndIsTooSlow) {
  const Found f = find(support::twoBranchTree().builder.project);
  ASSERT_FALSE(f.chances[0].runs.empty());
  for (const StateChances& state : f.chances) {
    for (const RunChance& run : state.runs) {
      EXPECT_NEAR(run.fast_enough, run.speed.chanceOfAtLeast(run.minimum_m_s), 1e-15);
      EXPECT_EQ(run.fails, run.speed.value * std::exp(2 * run.speed.relative()) < run.minimum_m_s);
    }
  }
}

}  // namespace
}  // namespace kerfdraft::doubt
