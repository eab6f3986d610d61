// Too little air at a port or a machine: floor and target apart, nine tenths, bands, and what is left alone.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_shops.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using testing::HasSubstr;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::portBands;
using tests::remedyOf;
using tests::RuleStage;
using tests::told;

/// One machine whose floor and target are these shares of what it gets; zero: not given.
support::OneMachine asking(double floor, double target, double* flow = nullptr) {
  support::OneMachine shop = support::oneMachine();
  const double now_m3_s = flowAt(shop.builder.project, 0, 0);
  if (floor > 0) {
    shop.builder.port(shop.port).floor = flowOf(floor * now_m3_s);
  }
  if (target > 0) {
    shop.builder.port(shop.port).target = flowOf(target * now_m3_s);
  }
  if (flow != nullptr) {
    *flow = now_m3_s;
  }
  return shop;
}

TEST(PortShort, BelowTheFloorIsSerious) {
  double now_m3_s = 0;
  const auto shop = asking(1.25, 0, &now_m3_s);
  const RuleStage stage(shop.builder.project);
  const auto findings = found(kPortShort, stage);
  ASSERT_EQ(findings.size(), 1u);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_NEAR(finding.figure("flow").value, now_m3_s, 1e-9);
  EXPECT_NEAR(finding.figure("needed").value, 1.25 * now_m3_s, 1e-6);
  EXPECT_NEAR(finding.figure("share").value, 0.8, 1e-4);
  EXPECT_NEAR(finding.badness, 0.25, 1e-4);
  ASSERT_TRUE(finding.limit);
  EXPECT_NEAR(finding.limit->value, 1.25 * now_m3_s, 1e-6);
  EXPECT_EQ(finding.ports, std::vector<std::size_t>{0});
  EXPECT_EQ(finding.label, stage.evidence().pieces().ports[0].label);
  EXPECT_THAT(told(kPortShort, finding, Reader::Inspector), HasSubstr("Not met."));
  EXPECT_THAT(told(kPortShort, finding), HasSubstr("80 %"));
}

TEST(PortShort, SilentAtTheFloor) {
  EXPECT_TRUE(found(kPortShort, RuleStage(asking(0.999, 0).builder.project)).empty());
}

TEST(PortShort, NineTenthsOfTheTargetCountAsMet) {
  EXPECT_TRUE(found(kPortShort, RuleStage(asking(0.9, 1.11).builder.project)).empty());
  const auto findings = found(kPortShort, RuleStage(asking(0.9, 1.2).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_EQ(findings[0].words[0], "target");
  // 0.9 x 1.2 of what it gets is needed.
  EXPECT_NEAR(findings[0].figure("share").value, 1 / 1.08, 1e-4);
}

TEST(PortShort, ATargetAloneIsACautionUntilHalfOfItIsMissing) {
  auto findings = found(kPortShort, RuleStage(asking(0, 1.5).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_EQ(findings[0].words[0], "target-only");
  findings = found(kPortShort, RuleStage(asking(0, 2.5).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
}

TEST(PortShort, DoubtfulWhereTheBandReachesTheFloor) {
  const auto shop = asking(1.1, 0);
  const RuleStage stage(shop.builder.project, portBands(shop.builder.project, {0.85, 1.15}));
  const auto findings = found(kPortShort, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_THAT(told(kPortShort, findings[0], Reader::Inspector), HasSubstr("Cannot conclude."));
  const RuleStage narrow(shop.builder.project, portBands(shop.builder.project, {0.95, 1.05}));
  EXPECT_EQ(found(kPortShort, narrow)[0].severity, Severity::Serious);
}

TEST(PortShort, AMachineWithOneRequirementIsJudgedAsAWhole) {
  auto shop = support::oneMachine();
  const double now_m3_s = flowAt(shop.builder.project, 0, 0);
  shop.builder.machineOf(shop.port).floor = flowOf(2 * now_m3_s);
  const auto findings = found(kPortShort, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].key.role, pieces::Role::Body);
  EXPECT_EQ(findings[0].label, "T1");
  EXPECT_NEAR(findings[0].figure("share").value, 0.5, 1e-4);
  EXPECT_NEAR(findings[0].badness, 1, 1e-4);
}

TEST(PortShort, NothingIsAskedOfAShutGateOrAStandingCollector) {
  auto shop = asking(2, 0);
  shop.builder.project.states[0].gates.clear();
  EXPECT_TRUE(found(kPortShort, RuleStage(shop.builder.project)).empty());
  shop = asking(2, 0);
  shop.builder.project.states[0].off.push_back(shop.collector);
  EXPECT_TRUE(found(kPortShort, RuleStage(shop.builder.project)).empty());
}

/// The two-branch tree with two more machines on the same meeting, and every gate open.
support::TwoBranchTree fourMachines() {
  support::TwoBranchTree shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  const base::Id corner = b.ductOf(shop.main).corners[2].id;
  for (const double y_m : {0.5, 3.5}) {
    const shop::Point from = support::at(4, y_m, 0.3);
    const shop::PortRef port = b.machine("", from, "100 mm", shop.room);
    b.port(port).entry = support::ratio("0.5");
    const base::Id duct =
        b.duct(port, shop::OnCorner{shop.main, corner, false}, {from, support::at(5, 2, 2.5)}, "100 mm");
    b.project.states[0].gates.push_back({b.gate(duct, 0, "0.6 m"), support::ratio("100 %")});
  }
  b.port(shop.branch_port).floor = flowOf(2 * flowAt(b.project, 0, 1));
  return shop;
}

TEST(PortShort, WhoDeclaresNoStateMayNeverOpenEveryGateTogether) {
  auto shop = fourMachines();
  shop.builder.project.states.resize(1);
  EXPECT_EQ(found(kPortShort, RuleStage(shop.builder.project))[0].severity, Severity::Serious);
  shop.builder.project.states.clear();
  EXPECT_EQ(found(kPortShort, RuleStage(shop.builder.project))[0].severity, Severity::Caution);
}

TEST(PortShort, TheWiderDuctIsTriedBySolving) {
  const auto shop = asking(1.5, 0);
  const RuleStage stage(shop.builder.project);
  Finding finding = found(kPortShort, stage)[0];
  ASSERT_NE(remedyOf(finding, "bigger-duct-and-port"), nullptr);
  EXPECT_NEAR(remedyOf(finding, "bigger-duct-and-port")->figures[0].value, 0.12, 1e-9);
  tryRemedies(stage.evidence(), finding);
  const Remedy* wider = remedyOf(finding, "bigger-duct-and-port");
  ASSERT_TRUE(wider->gain);
  EXPECT_GT(wider->gain->after, 1.2 * wider->gain->before);
}

}  // namespace
}  // namespace kerfdraft::judge
