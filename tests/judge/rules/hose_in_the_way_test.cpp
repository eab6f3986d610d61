// Hose that takes much of the suction, and hose that hangs slack.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/rules/air_shops.h"
#include "judge/rules/pressure_rules.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::length;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::remedyOf;
using tests::RuleStage;

/// The first 3 m of the duct as hose.
support::OneMachine withHose(shop::HoseInside inside, shop::HoseHung hung, const char* installed = nullptr) {
  support::OneMachine shop = support::oneMachine();
  shop::Duct& duct = shop.builder.ductOf(shop.duct);
  const shop::Leg rigid = *duct.corners.front().leg;
  duct.corners[0].leg = support::ProjectBuilder::hose("100 mm", inside, hung);
  if (installed != nullptr) {
    duct.corners[0].leg->hose->length = length(installed);
  }
  duct.corners[1].leg = rigid;
  return shop;
}

TEST(HoseHeavy, MoreThanAQuarterOfTheWay) {
  auto shop = withHose(shop::HoseInside::Ribbed, shop::HoseHung::Hung, "9 m");
  shop.builder.port(shop.port).floor = flowOf(1.2 * flowAt(shop.builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  auto findings = found(kHoseHeavy, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("length").value, 9, 1e-6);
  double hose_pa = 0;
  double way_pa = 0;
  for (const SheetRow& row : stage.evidence().sheets[0][0]->rows) {
    if (row.key.role == pieces::Role::Fan) {
      break;
    }
    hose_pa += row.key.role == pieces::Role::Hose ? row.loss_pa : 0;
    way_pa += row.loss_pa;
  }
  EXPECT_NEAR(findings[0].figure("share").value, hose_pa / way_pa, 1e-9);
  EXPECT_NEAR(findings[0].badness, 4 * hose_pa / way_pa - 1, 1e-9);
  // Half of 9 m still reaches over the 3 m.
  ASSERT_NE(remedyOf(findings[0], "shorter-hose"), nullptr);
  EXPECT_NEAR(remedyOf(findings[0], "shorter-hose")->change->value, 4.5, 1e-6);
  tryRemedies(stage.evidence(), findings[0]);
  EXPECT_GT(findings[0].remedies[0].gain->after, 1.1 * findings[0].remedies[0].gain->before);
}

TEST(HoseHeavy, AServedMachineMakesItANote) {
  const auto findings = found(
      kHoseHeavy, RuleStage(withHose(shop::HoseInside::Ribbed, shop::HoseHung::Hung, "9 m").builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
}

TEST(HoseHeavy, SilentBelowAQuarter) {
  auto shop = withHose(shop::HoseInside::Smooth, shop::HoseHung::Tight);
  EXPECT_EQ(found(kHoseHeavy, RuleStage(shop.builder.project)).size(), 1u);
  // A dearer entry leaves the same hose a smaller share.
  shop.builder.port(shop.port).entry = support::ratio("2");
  const RuleStage stage(shop.builder.project);
  const auto& sheet = *stage.evidence().sheets[0][0];
  double hose_pa = 0;
  for (const SheetRow& row : sheet.rows) {
    hose_pa += row.key.role == pieces::Role::Hose ? row.loss_pa : 0;
  }
  EXPECT_GT(hose_pa, 0);
  EXPECT_LT(hose_pa / -sheet.fans.back().inlet_total_pa, 0.25);
  EXPECT_TRUE(found(kHoseHeavy, stage).empty());
}

TEST(HoseSlack, TimesWhatItWouldLoseTight) {
  const auto shop = withHose(shop::HoseInside::Ribbed, shop::HoseHung::Slack);
  const RuleStage stage(shop.builder.project);
  auto findings = found(kHoseSlack, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_FALSE(findings[0].state);
  EXPECT_NEAR(findings[0].figure("times").value, 6.0 / 2.0, 1e-12);  // the two rows of the table of hoses
  EXPECT_NEAR(findings[0].figure("length").value, 3, 1e-6);
  EXPECT_NEAR(findings[0].figure("tight").value, findings[0].figure("loss").value / 3, 1e-9);
  EXPECT_NEAR(findings[0].badness, 0.5, 1e-12);
  tryRemedies(stage.evidence(), findings[0]);
  EXPECT_TRUE(findings[0].remedies[0].gain->cures);
}

TEST(HoseSlack, AHungHoseIsNotSlack) {
  EXPECT_TRUE(
      found(kHoseSlack, RuleStage(withHose(shop::HoseInside::Ribbed, shop::HoseHung::Hung).builder.project))
          .empty());
}

TEST(HoseSlack, PushedTogetherCountsFromTwiceTheLossOn) {
  auto shop = withHose(shop::HoseInside::Ribbed, shop::HoseHung::Hung);
  shop.builder.ductOf(shop.duct).corners[0].leg->hose->compression = support::ratio("30 %");
  const auto findings = found(kHoseSlack, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_GT(findings[0].figure("times").value, 2);
  shop.builder.ductOf(shop.duct).corners[0].leg->hose->compression = support::ratio("2 %");
  EXPECT_TRUE(found(kHoseSlack, RuleStage(shop.builder.project)).empty());
}

}  // namespace
}  // namespace kerfdraft::judge
