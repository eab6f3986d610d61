// Floors, targets and transport speeds against what solved states give.
#include "judge/margins.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/materials.h"
#include "judge/shops.h"
#include "judge/transport.h"

namespace kerfdraft {
namespace {

using judge::Served;
using support::given;
using testing::HasSubstr;

std::vector<judge::StateMargins> marginsOf(const shop::Project& project) {
  return judge::margins(tests::solved(project), tests::shippedTables()).value();
}

std::string cubicMetresPerHour(double flow_m3_s) {
  return std::to_string(flow_m3_s * 3600) + " m3/h";
}

/// One machine with a floor and a target that are these shares of what it gets.
judge::FlowMargin oneMachineWith(double floor_share, double target_share) {
  support::OneMachine shop = support::oneMachine();
  const double flow_m3_s = marginsOf(shop.builder.project)[0].ports[0].flow_m3_s;
  shop::Port& port = shop.builder.port(shop.port);
  if (floor_share > 0) {
    port.floor = given<base::VolumeFlow>(cubicMetresPerHour(floor_share * flow_m3_s));
  }
  if (target_share > 0) {
    port.target = given<base::VolumeFlow>(cubicMetresPerHour(target_share * flow_m3_s));
  }
  return marginsOf(shop.builder.project)[0].ports[0];
}

TEST(Margins, FloorAndTarget) {
  EXPECT_EQ(oneMachineWith(0, 0).served, Served::NothingAsked);
  EXPECT_EQ(oneMachineWith(0.99, 0).served, Served::FloorMet);
  EXPECT_EQ(oneMachineWith(1.01, 0).served, Served::Short);
  EXPECT_EQ(oneMachineWith(0.99, 1.2).served, Served::FloorMet);
  EXPECT_EQ(oneMachineWith(0.5, 0.99).served, Served::TargetMet);
}

TEST(Margins, NinetyPercentOfATargetIsMet) {
  EXPECT_EQ(oneMachineWith(0.5, 1 / 0.901).served, Served::TargetMet);
  EXPECT_EQ(oneMachineWith(0.5, 1 / 0.899).served, Served::FloorMet);
  EXPECT_EQ(oneMachineWith(0, 1 / 0.901).served, Served::TargetMet);
  EXPECT_EQ(oneMachineWith(0, 1 / 0.899).served, Served::Short);
}

TEST(Margins, OnlyAnUnreachedFloorLeavesAStateUnserved) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.port(shop.branch_port).target = given<base::VolumeFlow>("9000 m3/h");
  for (const judge::StateMargins& state : marginsOf(shop.builder.project)) {
    EXPECT_TRUE(state.served);
  }
  shop.builder.port(shop.branch_port).floor = given<base::VolumeFlow>("9000 m3/h");
  const auto states = marginsOf(shop.builder.project);
  EXPECT_FALSE(states[0].served);
  EXPECT_TRUE(states[1].served) << "its gate is shut in this state";
  EXPECT_FALSE(states[2].served);
  EXPECT_EQ(states[1].ports[1].served, Served::Shut);
}

TEST(Margins, AMachineAsksForTheSumOfItsPorts) {
  support::OneMachine shop = support::oneMachine();
  const double flow_m3_s = marginsOf(shop.builder.project)[0].ports[0].flow_m3_s;
  shop.builder.machineOf(shop.port).floor = given<base::VolumeFlow>(cubicMetresPerHour(0.9 * flow_m3_s));
  auto states = marginsOf(shop.builder.project);
  ASSERT_EQ(states[0].machines.size(), 1U);
  EXPECT_EQ(states[0].machines[0].served, Served::FloorMet);
  EXPECT_NEAR(states[0].machines[0].flow_m3_s, flow_m3_s, 1e-12);
  shop.builder.machineOf(shop.port).floor = given<base::VolumeFlow>(cubicMetresPerHour(1.1 * flow_m3_s));
  EXPECT_FALSE(marginsOf(shop.builder.project)[0].served);
}

TEST(Margins, AStandingCollectorServesNobody) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.port(shop.port).floor = given<base::VolumeFlow>("100 m3/h");
  shop.builder.project.states[0].off.push_back(shop.collector);
  const auto states = marginsOf(shop.builder.project);
  EXPECT_TRUE(states[0].solved);
  EXPECT_FALSE(states[0].served);
}

TEST(Margins, InDraughtOfABody) {
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  const auto states = judge::margins(assessment, tests::shippedTables()).value();
  ASSERT_EQ(states[0].bodies.size(), 1U);
  EXPECT_NEAR(states[0].bodies[0].indraught_m_s, states[0].ports[0].flow_m3_s / 0.02,
              0.01 * states[0].bodies[0].indraught_m_s)
      << "what enters the port came through 200 cm2 of gaps";
}

TEST(Margins, ChipsAreJudgedOnlyWhereTheyTravel) {
  support::TwoBranchTree shop = support::twoBranchTree();
  const judge::Assessment assessment = tests::solved(shop.builder.project);
  const auto states = judge::margins(assessment, tests::shippedTables()).value();
  const auto runsOf = [&](std::size_t state) {
    std::vector<std::string> labels;
    for (const judge::RunMargin& run : states[state].runs) {
      labels.push_back(run.label);
    }
    return labels.size();
  };
  EXPECT_EQ(runsOf(0), 3U);  // both drops and the main
  EXPECT_EQ(runsOf(1), 2U);  // the first drop and the main
  EXPECT_EQ(runsOf(2), 2U);
  for (const judge::RunMargin& run : states[1].runs) {
    const network::RunResult& result = assessment.states[1].solution.runs[run.run];
    EXPECT_EQ(run.slowest_m_s, result.slowest_m_s);
    EXPECT_NEAR(run.ratio, run.slowest_m_s / run.minimum_m_s, 1e-12);
    EXPECT_EQ(run.material, "mixed");
  }
}

TEST(Margins, TheMinimumIsThatOfTheMostDemandingChips) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.machineOf(shop.main_port).chips = "sander-dust";
  shop.builder.machineOf(shop.branch_port).chips = "damp-chips";
  const auto states = marginsOf(shop.builder.project);
  const auto rule = [](const char* key) {
    return catalogue::transportRule(tests::shippedTables(), key).value();
  };
  for (const judge::RunMargin& run : states[0].runs) {
    if (run.main) {
      EXPECT_EQ(run.material, "damp-chips");
      EXPECT_NEAR(run.minimum_m_s, rule("damp-chips").note_below_m_s, 1e-9);
    }
  }
  for (const judge::RunMargin& run : states[1].runs) {
    EXPECT_EQ(run.material, "sander-dust");
    EXPECT_NEAR(run.not_carried_below_m_s, rule("sander-dust").not_carried_below_m_s, 1e-9);
  }
}

TEST(Margins, ThinAirAsksForMoreSpeedAndDenseAirForNoLess) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.project.air.altitude = support::length("1900 m");
  const judge::Assessment assessment = tests::solved(shop.builder.project);
  const auto high = judge::margins(assessment, tests::shippedTables()).value();
  const double rule = catalogue::transportRule(tests::shippedTables(), "mixed").value().note_below_m_s;
  ASSERT_EQ(high[0].runs.size(), 1U);
  EXPECT_NEAR(high[0].runs[0].minimum_m_s, rule * std::sqrt(101325 / assessment.pieces->air.pressure_pa),
              1e-9);
  shop.builder.project.air.altitude.reset();
  shop.builder.project.air.barometer = given<base::AbsolutePressure>("104 kPa");
  EXPECT_NEAR(marginsOf(shop.builder.project)[0].runs[0].minimum_m_s, rule, 1e-9);
}

TEST(Margins, APolicyChoosesTheAuthority) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.project.setting.policies.push_back({"transport-velocity", "hsg258"});
  const auto states = marginsOf(shop.builder.project);
  EXPECT_NEAR(states[0].runs[0].minimum_m_s, 20.0, 1e-9);
  EXPECT_THAT(states[0].runs[0].source, HasSubstr("Hsg258"));
}

TEST(Margins, TheWorkingRuleIsAPolicyToo) {
  support::OneMachine shop = support::oneMachine();
  const double usual = marginsOf(shop.builder.project)[0].runs[0].minimum_m_s;
  shop.builder.project.setting.policies.push_back({"transport-velocity", "working-rule"});
  EXPECT_DOUBLE_EQ(marginsOf(shop.builder.project)[0].runs[0].minimum_m_s, usual);
}

TEST(Margins, RefusesUnknownChipsAndAuthorities) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.machineOf(shop.port).chips = "sawdusty";
  const auto bad = judge::margins(tests::solved(shop.builder.project), tests::shippedTables());
  ASSERT_FALSE(bad.has_value());
  EXPECT_THAT(bad.error().text(), HasSubstr("sawdusty"));
  EXPECT_THAT(bad.error().where, HasSubstr("T1"));
  support::OneMachine other = support::oneMachine();
  other.builder.project.setting.policies.push_back({"transport-velocity", "nobody"});
  const auto unknown = judge::assess(other.builder.project, tests::shippedTables());
  ASSERT_FALSE(unknown.has_value());
  EXPECT_THAT(unknown.error().text(), HasSubstr("nobody"));
}

TEST(Assess, AProjectWithoutStatesIsSolvedWithEverythingOpen) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states.clear();
  const judge::Assessment assessment = tests::solved(shop.builder.project);
  ASSERT_EQ(assessment.states.size(), 1U);
  EXPECT_FALSE(assessment.states[0].declared);
  EXPECT_EQ(assessment.states[0].situation.gate_travel, std::vector<double>({1, 1}));
}

TEST(Assess, RefusesAStateThatNamesWhatIsNotThere) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.project.states[0].gates.push_back({base::Id(77), support::ratio("100 %")});
  EXPECT_FALSE(judge::assess(shop.builder.project, tests::shippedTables()).has_value());
}

}  // namespace
}  // namespace kerfdraft
