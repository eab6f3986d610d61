// The collector as the cause of a short port: how much pressure it lacks.
#include <gtest/gtest.h>

#include <algorithm>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_shops.h"

namespace kerfdraft {
namespace {

using judge::Finding;
using judge::kWeakFan;
using judge::Severity;
using tests::RuleStage;

/// A machine that gets some 90 % of its floor.
tests::OneMachine shortShop() {
  tests::OneMachine shop = tests::oneMachine();
  const double now_m3_h = tests::perHour(tests::flowAtPort(RuleStage(shop.builder.project)));
  tests::setFloor(shop, now_m3_h / 0.9);
  tests::setCurve(tests::unitOf(shop), {{0, 2400}, {1000, 2200}, {2000, 1600}, {3000, 600}});
  return shop;
}

bool has(const Finding& finding, std::string_view kind) {
  return std::any_of(finding.remedies.begin(), finding.remedies.end(),
                     [&](const judge::Remedy& remedy) { return remedy.kind == kind; });
}

TEST(WeakFan, AFanWithThePressureThatItNamesBringsTheAir) {
  tests::OneMachine shop = shortShop();
  const RuleStage stage(shop.builder.project);
  const auto findings = tests::found(kWeakFan, stage);
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.label, "C1");
  EXPECT_EQ(finding.ports, std::vector<std::size_t>{0});
  const double needed_pa = finding.figure("needed").value;
  const double had_pa = finding.figure("had").value;
  EXPECT_GT(needed_pa, had_pa);
  EXPECT_NEAR(finding.badness, needed_pa / had_pa - 1, 1e-12);
  // A ninth more air through the same way wants about 1.23 times the pressure.
  const double rise_pa = stage.evidence().state(0).solution.fans[0].rise_pa;
  EXPECT_NEAR(needed_pa / rise_pa, 1 / 0.81, 0.01);
  // The same shop with a fan as strong as that: the floor is met. Friction factors fall a little with the
  // flow, which the rule leaves out.
  const double factor = needed_pa / had_pa;
  tests::setCurve(tests::unitOf(shop),
                  {{0, 2400 * factor}, {1000, 2200 * factor}, {2000, 1600 * factor}, {3000, 600 * factor}});
  const double got_m3_s = tests::flowAtPort(RuleStage(shop.builder.project));
  EXPECT_NEAR(got_m3_s / finding.figure("port-needed").value, 1, 0.01);
}

TEST(WeakFan, SilentWhereTheFloorIsJustMet) {
  tests::OneMachine shop = tests::oneMachine();
  const double now_m3_h = tests::perHour(tests::flowAtPort(RuleStage(shop.builder.project)));
  tests::setFloor(shop, 0.999 * now_m3_h);
  EXPECT_TRUE(tests::found(kWeakFan, RuleStage(shop.builder.project)).empty());
}

TEST(WeakFan, NotAskedNotShort) {
  EXPECT_TRUE(tests::found(kWeakFan, RuleStage(tests::oneMachine().builder.project)).empty());
}

TEST(WeakFan, ABandThatReachesTheFloorLeavesItDoubtful) {
  tests::OneMachine shop = tests::oneMachine();
  shop::Collector& unit = tests::unitOf(shop);
  tests::setCurve(unit, {{0, 1000}, {500, 900}, {1000, 400}, {1200, 0}});
  const RuleStage plain(shop.builder.project);
  tests::setFloor(shop, tests::perHour(tests::flowAtPort(plain)) / 0.9);
  const auto sure = tests::found(kWeakFan, RuleStage(shop.builder.project));
  ASSERT_EQ(sure.size(), 1U);
  EXPECT_EQ(sure[0].severity, Severity::Serious);
  EXPECT_TRUE(has(sure[0], "bigger-collector"));
  const auto doubtful =
      tests::found(kWeakFan, RuleStage(shop.builder.project, tests::evenBands(plain, 0.8, 1.2)));
  ASSERT_EQ(doubtful.size(), 1U);
  EXPECT_EQ(doubtful[0].severity, Severity::Caution);
  EXPECT_NE(tests::told(kWeakFan, doubtful[0], judge::Reader::Inspector).find("Cannot conclude"),
            std::string::npos);
}

TEST(WeakFan, WhereTheDuctWouldBeTooFastItComesFirst) {
  tests::OneMachine shop = tests::oneMachine();
  tests::setFloor(shop, 1500);  // 53 m/s in 100 mm
  const auto findings = tests::found(kWeakFan, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_FALSE(has(findings[0], "bigger-collector"));
  EXPECT_NEAR(findings[0].figure("speed").value, 1500 / 3600.0 / 0.0078540, 1.5);
  EXPECT_NE(tests::told(kWeakFan, findings[0]).find("D1"), std::string::npos);
}

TEST(WeakFan, OfAVacuumPlantTheHosesAreMeantToBeFast) {
  tests::OneMachine shop = tests::oneMachine();
  tests::setCurve(tests::unitOf(shop), {{0, 20000}, {300, 12000}, {600, 4000}, {900, 0}});
  const double now_m3_h = tests::perHour(tests::flowAtPort(RuleStage(shop.builder.project)));
  tests::setFloor(shop, 1.2 * now_m3_h);
  tests::OneMachine fast = shop;
  fast.builder.ductOf(fast.duct).corners[0].leg->bore = support::length("60 mm");
  fast.builder.port(fast.port).bore = support::length("60 mm");
  tests::unitOf(fast).inlet_bore = support::length("60 mm");
  const auto findings = tests::found(kWeakFan, RuleStage(fast.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  ASSERT_TRUE(has(findings[0], "bigger-collector"));
  EXPECT_EQ(findings[0].remedies[0].words.size(), 1U);  // no size class reaches there
}

TEST(WeakFan, ProposesToShutTheGateBesideIt) {
  tests::TwoBranchTree shop = tests::twoBranchTree();
  const RuleStage plain(shop.builder.project);
  std::size_t branch = 0;
  for (std::size_t p = 0; p < plain.evidence().pieces().ports.size(); ++p) {
    branch = plain.evidence().pieces().ports[p].ref == shop.branch_port ? p : branch;
  }
  const double together_m3_s = tests::flowAtPort(plain, 0, branch);
  const double alone_m3_s = tests::flowAtPort(plain, 2, branch);
  ASSERT_GT(alone_m3_s, 1.05 * together_m3_s);
  shop.builder.port(shop.branch_port).floor = support::given<base::VolumeFlow>(
      std::to_string(tests::perHour(0.5 * (alone_m3_s + together_m3_s))) + " m3/h");
  // What is served alone lacks no stronger fan.
  EXPECT_TRUE(tests::found(kWeakFan, RuleStage(shop.builder.project)).empty());
  shop.builder.port(shop.branch_port).floor =
      support::given<base::VolumeFlow>(std::to_string(tests::perHour(1.1 * alone_m3_s)) + " m3/h");
  const auto findings = tests::found(kWeakFan, RuleStage(shop.builder.project));
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings[0].state, 0U);
  const auto shut = std::find_if(findings[0].remedies.begin(), findings[0].remedies.end(),
                                 [](const judge::Remedy& remedy) { return remedy.kind == "shut-gate"; });
  ASSERT_NE(shut, findings[0].remedies.end());
  ASSERT_TRUE(shut->change);
  EXPECT_EQ(shut->change->a, shop.main_gate);
  EXPECT_EQ(shut->change->b, shop.both);
}

}  // namespace
}  // namespace kerfdraft
