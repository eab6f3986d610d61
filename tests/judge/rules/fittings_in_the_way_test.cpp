// Crowded fan inlets, elbows close together, steep entries and entries that face each other.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

#include "judge/rules/air_shops.h"
#include "judge/rules/pressure_rules.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::at;
using support::length;
using support::ratio;
using testing::ElementsAre;
using testing::HasSubstr;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::RuleStage;
using tests::told;

/// The elbow stands this far before the collector's 100 mm inlet.
support::OneMachine elbowBefore(double straight_m) {
  support::OneMachine shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.collectorOf(shop.collector).at = at(1 + straight_m, 1, 3.2);
  b.ductOf(shop.duct).corners.back().at = at(1 + straight_m, 1, 3.2);
  return shop;
}

TEST(CrowdedInlet, FadesOverFiveBores) {
  auto shop = elbowBefore(0.2);
  shop.builder.port(shop.port).floor = flowOf(1.1 * flowAt(shop.builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  auto findings = found(kCrowdedInlet, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].figure("bores").value, 2, 1e-9);
  EXPECT_NEAR(findings[0].figure("coefficient").value, 1 - 2.0 / 5, 1e-9);
  EXPECT_NEAR(findings[0].figure("wanted").value, 0.5, 1e-9);
  EXPECT_NEAR(findings[0].badness, 0.6, 1e-9);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_GT(findings[0].figure("share").value, 0.05);
  tryRemedies(stage.evidence(), findings[0]);
  ASSERT_TRUE(findings[0].remedies[0].gain);
  EXPECT_TRUE(findings[0].remedies[0].gain->cures);
}

TEST(CrowdedInlet, AServedShopMakesItANote) {
  const auto findings = found(kCrowdedInlet, RuleStage(elbowBefore(0.2).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
}

TEST(CrowdedInlet, SilentBehindFiveBores) {
  EXPECT_TRUE(found(kCrowdedInlet, RuleStage(elbowBefore(0.51).builder.project)).empty());
  EXPECT_EQ(found(kCrowdedInlet, RuleStage(elbowBefore(0.49).builder.project)).size(), 1u);
}

/// A second elbow this far behind the first, in 100 mm duct.
support::OneMachine twoElbows(double apart_m) {
  support::OneMachine shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  shop::Duct& duct = b.ductOf(shop.duct);
  shop::Corner corner;
  corner.id = b.id();
  corner.at = at(1, 1 + apart_m, 3.2);
  duct.corners.insert(duct.corners.begin() + 2, corner);
  duct.corners.back().at = at(5, 1 + apart_m, 3.2);
  b.collectorOf(shop.collector).at = at(5, 1 + apart_m, 3.2);
  return shop;
}

TEST(CloseElbows, LessThanTwoBores) {
  const auto findings = found(kCloseElbows, RuleStage(twoElbows(0.15).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].figure("apart").value, 0.15, 1e-9);
  EXPECT_EQ(findings[0].figure("count").value, 1);
  EXPECT_NEAR(findings[0].badness, 0.25, 1e-9);
  EXPECT_TRUE(found(kCloseElbows, RuleStage(twoElbows(0.21).builder.project)).empty());
}

/// The branch of the tree enters its main at this angle, from above.
support::TwoBranchTree entryAt(double degrees) {
  support::TwoBranchTree shop = support::twoBranchTree();
  const double angle_rad = degrees * std::numbers::pi / 180;
  shop.builder.ductOf(shop.branch).corners[1].at = at(5 - std::cos(angle_rad), 2, 2.5 - std::sin(angle_rad));
  return shop;
}

TEST(SteepEntry, OverSixtyDegreesIsACaution) {
  const RuleStage stage(entryAt(75).builder.project);
  const auto findings = found(kSteepEntry, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].label, "D1");
  EXPECT_THAT(findings[0].words, ElementsAre("D2"));
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("angle").value, 75 * std::numbers::pi / 180, 1e-4);
  EXPECT_NEAR(findings[0].badness, 75.0 / 60 - 1, 1e-4);
  EXPECT_THAT(told(kSteepEntry, findings[0]), HasSubstr("75°"));
  // Its dearest state by the sheets.
  double most = 0;
  for (std::size_t s = 0; s < 3; ++s) {
    if (const auto& sheet = stage.evidence().sheets[s][1]) {
      for (const SheetRow& row : sheet->rows) {
        most = row.key.role == pieces::Role::Junction ? std::max(most, row.loss_pa) : most;
      }
    }
  }
  EXPECT_NEAR(findings[0].figure("loss").value, most, 1e-6);
}

TEST(SteepEntry, BetweenFortyFiveAndSixtyIsANote) {
  const auto findings = found(kSteepEntry, RuleStage(entryAt(55).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_TRUE(found(kSteepEntry, RuleStage(entryAt(45).builder.project)).empty());
  EXPECT_TRUE(found(kSteepEntry, RuleStage(entryAt(30).builder.project)).empty());
}

TEST(SteepEntry, AMainThatBendsWhereABranchJoinsIsNone) {
  // The ring's halves turn where the drops and each other meet; only the drops enter steeply.
  const auto findings = found(kSteepEntry, RuleStage(support::ringMain().builder.project));
  for (const Finding& finding : findings) {
    for (const std::string& branch : finding.words) {
      EXPECT_NE(branch, finding.label);
    }
  }
  ASSERT_FALSE(findings.empty());
  EXPECT_NEAR(findings[0].figure("angle").value, std::numbers::pi / 2, 1e-6);
}

/// A second branch into the same meeting, from this side of the main.
support::TwoBranchTree secondBranch(double y_m, bool both_open) {
  support::TwoBranchTree shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  // The first comes in level at 45 degrees.
  b.ductOf(shop.branch).corners[1].at = at(4, 1, 2.5);
  b.ductOf(shop.branch).corners[0].at = at(4, 1, 0.3);
  b.port(shop.branch_port).at = at(4, 1, 0.3);
  const shop::PortRef port = b.machine("", at(4, y_m, 0.3), "100 mm", shop.room);
  b.port(port).entry = ratio("0.5");
  const base::Id duct = b.duct(port, shop::OnCorner{shop.main, b.ductOf(shop.main).corners[2].id, false},
                               {at(4, y_m, 0.3), at(4, y_m, 2.5), at(5, 2, 2.5)}, "100 mm");
  const base::Id gate = b.gate(duct, 0, "0.6 m");
  if (both_open) {
    b.project.states[2].gates.push_back({gate, ratio("100 %")});
  }
  return shop;
}

TEST(OpposedEntries, OpenTogetherTheyCollide) {
  const RuleStage stage(secondBranch(3, true).builder.project);
  const auto findings = found(kOpposedEntries, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].state, 2u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_THAT(findings[0].words, ElementsAre("D2", "D3"));
  EXPECT_NEAR(findings[0].figure("angle").value, std::numbers::pi / 4, 1e-6);
  EXPECT_NEAR(findings[0].figure("first").value, stage.evidence().state(2).solution.ports[1].flow_m3_s,
              0.01 * findings[0].figure("first").value);
}

TEST(OpposedEntries, SilentWhereOnlyOneIsOpenOrBothComeFromOneSide) {
  EXPECT_TRUE(found(kOpposedEntries, RuleStage(secondBranch(3, false).builder.project)).empty());
  EXPECT_TRUE(found(kOpposedEntries, RuleStage(secondBranch(0.5, true).builder.project)).empty());
}

}  // namespace
}  // namespace kerfdraft::judge
