// How branches lie to their main: shut ones that catch chips, and those that come in from below.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "judge/rule_stage.h"
#include "judge/rules/conveying_rules.h"

namespace kerfdraft::judge {
namespace {

using support::at;
using testing::ElementsAre;
using testing::HasSubstr;
using tests::found;
using tests::RuleStage;

/// The two-branch tree, whose branch comes up into the main at 45 degrees, with the branch's last leg moved:
/// it ends at (5, 2, 2.5).
support::TwoBranchTree branchFrom(shop::Point last) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).corners[1].at = last;
  return shop;
}

TEST(BranchFromBelow, NamesTheBranchAndItsAngle) {
  const RuleStage stage(support::twoBranchTree().builder.project);
  const auto findings = found(kBranchFromBelow, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].label, "D1");
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_FALSE(findings[0].state);
  EXPECT_THAT(findings[0].words, ElementsAre("D2"));
  EXPECT_NEAR(findings[0].figure("angle").value, std::numbers::pi / 4, 1e-6);
  EXPECT_NEAR(findings[0].badness, std::sqrt(0.5), 1e-6);
}

TEST(BranchFromBelow, FromTheSideOrFromAboveIsRight) {
  EXPECT_TRUE(found(kBranchFromBelow, RuleStage(branchFrom(at(4, 1, 2.5)).builder.project)).empty());
  EXPECT_TRUE(found(kBranchFromBelow, RuleStage(branchFrom(at(4, 2, 3.4)).builder.project)).empty());
  // A little fall of a level branch toward its machine is how one hangs it.
  EXPECT_TRUE(found(kBranchFromBelow, RuleStage(branchFrom(at(4, 1, 2.3)).builder.project)).empty());
}

TEST(DeadLeg, AFallingBranchWithItsGateFarOffIsACaution) {
  const RuleStage stage(support::twoBranchTree().builder.project);
  const auto findings = found(kDeadLeg, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].label, "D1");
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_THAT(findings[0].words, ElementsAre("falls", "D2"));
  // From the main down to the corner, root of 2, and on to the gate, 0.6 m above the port.
  EXPECT_NEAR(findings[0].figure("length").value, std::sqrt(2) + 0.6, 1e-6);
  EXPECT_NEAR(findings[0].badness, (std::sqrt(2) + 0.6) / 1.2 - 1, 1e-6);
  EXPECT_EQ(findings[0].figure("states").value, 1);  // "first alone"
  ASSERT_EQ(findings[0].remedies.size(), 1U);
  EXPECT_THAT(findings[0].remedies[0].words, ElementsAre("G2", "D1"));
}

TEST(DeadLeg, AGateNearTheMainKeepsItEmpty) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop::Gate& gate = shop.builder.ductOf(shop.branch).gates[0];
  gate.corner = shop.builder.ductOf(shop.branch).corners[1].id;
  gate.distance = support::length("0.3 m");  // 1.11 m before the main
  EXPECT_TRUE(found(kDeadLeg, RuleStage(shop.builder.project)).empty());
  gate.distance = support::length("0.2 m");  // 1.21 m
  EXPECT_EQ(found(kDeadLeg, RuleStage(shop.builder.project)).size(), 1U);
}

TEST(DeadLeg, DuctThatRisesFromTheMainHoldsNothing) {
  EXPECT_TRUE(found(kDeadLeg, RuleStage(branchFrom(at(4, 2, 3.4)).builder.project)).empty());
}

TEST(DeadLeg, AnOpenBranchAndAMainWithoutChipsAreNotJudged) {
  support::TwoBranchTree open = support::twoBranchTree();
  open.builder.project.states = {open.builder.project.states[0]};  // both open
  EXPECT_TRUE(found(kDeadLeg, RuleStage(open.builder.project)).empty());
  support::TwoBranchTree still = support::twoBranchTree();
  still.builder.project.states = {still.builder.project.states[1]};
  still.builder.project.states[0].off = {still.collector};
  EXPECT_TRUE(found(kDeadLeg, RuleStage(still.builder.project)).empty());
}

TEST(DeadLeg, ALevelOneIsANote) {
  support::TwoBranchTree shop = branchFrom(at(3.5, 0.5, 2.5));
  shop::Duct& branch = shop.builder.ductOf(shop.branch);
  branch.gates[0].corner = branch.corners[1].id;
  branch.gates[0].distance = support::length("0.2 m");
  const auto findings = found(kDeadLeg, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].figure("length").value, 1.5 * std::sqrt(2) - 0.2, 1e-6);
  EXPECT_THAT(tests::told(kDeadLeg, findings[0], Reader::Owner), HasSubstr("stray into it"));
}

TEST(DeadLeg, AlongABranchThatIsLevelAndThenFallsBothLengthsCount) {
  // A level lead of 0.7 m, then down to the gate at the machine.
  support::TwoBranchTree shop = branchFrom(at(4.5, 1.5, 2.5));
  shop.builder.port(shop.branch_port).at = at(4.5, 1.5, 0.3);
  shop.builder.ductOf(shop.branch).corners[0].at = at(4.5, 1.5, 0.3);
  const auto findings = found(kDeadLeg, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("length").value, std::sqrt(0.5) + 2.2 - 0.6, 1e-6);
}

}  // namespace
}  // namespace kerfdraft::judge
