// Air at the machine's body and port: in-draught, gaps that are too tight, ports too small for their duct.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_shops.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::given;
using support::length;
using testing::HasSubstr;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::portBands;
using tests::remedyOf;
using tests::roundArea;
using tests::RuleStage;
using tests::told;

support::OneMachine withGaps(const char* area) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.machineOf(shop.port).openings = given<base::Area>(area);
  return shop;
}

TEST(WeakIndraught, FlowOverGaps) {
  const auto shop = withGaps("0.8 m2");
  const RuleStage stage(shop.builder.project);
  const auto findings = found(kWeakIndraught, stage);
  ASSERT_EQ(findings.size(), 1u);
  const double flow_m3_s = stage.evidence().state(0).solution.ports[0].flow_m3_s;
  const double leak_share = 0.01;  // joints of the duct take a little
  EXPECT_NEAR(findings[0].figure("speed").value, flow_m3_s / 0.8, leak_share * flow_m3_s / 0.8);
  EXPECT_LT(findings[0].figure("speed").value, 0.5);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].badness, 0.5 / findings[0].figure("speed").value - 1, 1e-9);
  // Closed down to 1 m/s at the same air.
  const Remedy* closer = remedyOf(findings[0], "close-gaps");
  ASSERT_NE(closer, nullptr);
  EXPECT_NEAR(closer->change->value, findings[0].figure("flow").value / 1.0, 1e-9);
}

TEST(WeakIndraught, ClosingTheGapsCures) {
  const auto shop = withGaps("0.8 m2");
  const RuleStage stage(shop.builder.project);
  Finding finding = found(kWeakIndraught, stage)[0];
  tryRemedies(stage.evidence(), finding);
  ASSERT_TRUE(finding.remedies[0].gain);
  EXPECT_EQ(finding.remedies[0].kind, "close-gaps");
  EXPECT_TRUE(finding.remedies[0].gain->cures);
}

TEST(WeakIndraught, BetweenHalfAMetreAndOneIsANote) {
  const double flow_m3_s = flowAt(support::oneMachine().builder.project, 0, 0);
  const std::string wide = std::to_string(flow_m3_s / 0.7) + " m2";
  auto findings = found(kWeakIndraught, RuleStage(withGaps(wide.c_str()).builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].limit->value, 1.0, 1e-12);
  const std::string good = std::to_string(flow_m3_s / 1.1) + " m2";
  EXPECT_TRUE(found(kWeakIndraught, RuleStage(withGaps(good.c_str()).builder.project)).empty());
}

TEST(WeakIndraught, DoubtfulWhereTheBandReachesTheLimit) {
  const double flow_m3_s = flowAt(support::oneMachine().builder.project, 0, 0);
  const std::string wide = std::to_string(flow_m3_s / 0.45) + " m2";
  const auto shop = withGaps(wide.c_str());
  const auto findings =
      found(kWeakIndraught, RuleStage(shop.builder.project, portBands(shop.builder.project, {0.8, 1.2})));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_THAT(told(kWeakIndraught, findings[0], Reader::Inspector), HasSubstr("Cannot conclude."));
}

TEST(WeakIndraught, ABodyWithoutGapsIsNotJudged) {
  EXPECT_TRUE(found(kWeakIndraught, RuleStage(support::oneMachine().builder.project)).empty());
}

TEST(SealedBody, GapsSmallerThanThePortStarveIt) {
  auto shop = withGaps("40 cm2");
  shop.builder.port(shop.port).floor = flowOf(flowAt(support::oneMachine().builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  auto findings = found(kSealedBody, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].figure("area").value, 40e-4, 1e-12);
  EXPECT_NEAR(findings[0].figure("ports").value, roundArea(0.1), 1e-9);
  EXPECT_NEAR(findings[0].badness, roundArea(0.1) / 40e-4 - 1, 1e-6);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  // Gaps lose rho/2 (Q/(0.61 A))^2: the sharp opening of the model.
  const double flow_m3_s = stage.evidence().state(0).solution.ports[0].flow_m3_s;
  const double speed_m_s = flow_m3_s / (0.61 * 40e-4);
  const double density_kg_m3 = stage.evidence().pieces().air.density_kg_m3;
  EXPECT_NEAR(findings[0].figure("loss").value, 0.5 * density_kg_m3 * speed_m_s * speed_m_s,
              0.01 * findings[0].figure("loss").value);
  tryRemedies(stage.evidence(), findings[0]);
  ASSERT_TRUE(findings[0].remedies[0].gain);
  EXPECT_GT(findings[0].remedies[0].gain->after, 1.15 * findings[0].remedies[0].gain->before);
}

TEST(SealedBody, AServedMachineIsNoMoreThanACaution) {
  const auto findings = found(kSealedBody, RuleStage(withGaps("40 cm2").builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
}

TEST(SealedBody, SilentWhereTheGapsHaveThePortsArea) {
  EXPECT_TRUE(found(kSealedBody, RuleStage(withGaps("79 cm2").builder.project)).empty());
  EXPECT_EQ(found(kSealedBody, RuleStage(withGaps("78 cm2").builder.project)).size(), 1u);
}

support::OneMachine withPort(const char* port, const char* duct) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.port(shop.port).bore = length(port);
  shop.builder.ductOf(shop.duct).corners.front().leg->bore = length(duct);
  shop.builder.collectorOf(shop.collector).inlet_bore = length(duct);
  return shop;
}

TEST(SmallPort, EntryAndStepTakeMostOfTheWay) {
  auto shop = withPort("63 mm", "125 mm");
  shop.builder.port(shop.port).floor = flowOf(1.5 * flowAt(shop.builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  auto findings = found(kSmallPort, stage);
  ASSERT_EQ(findings.size(), 1u);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_NEAR(finding.figure("bore").value, 0.063, 1e-9);
  EXPECT_NEAR(finding.figure("behind").value, 0.125, 1e-9);
  // Entry 0.5 and a stepped widening (1 - a)^2, both on the velocity pressure in the port.
  const double speed_m_s = finding.figure("speed").value;
  const double a = roundArea(0.063) / roundArea(0.125);
  const double vp_pa = 0.5 * stage.evidence().pieces().air.density_kg_m3 * speed_m_s * speed_m_s;
  EXPECT_NEAR(finding.figure("loss").value, (0.5 + (1 - a) * (1 - a)) * vp_pa,
              0.03 * finding.figure("loss").value);
  EXPECT_GT(finding.figure("share").value, 0.5);
  EXPECT_NEAR(finding.badness, finding.figure("share").value / 0.35 - 1, 1e-9);
  ASSERT_FALSE(finding.remedies.empty());
  EXPECT_NEAR(finding.remedies.back().change->value, 0.125, 1e-9);
  tryRemedies(stage.evidence(), findings[0]);
  EXPECT_TRUE(findings[0].remedies[0].gain->cures);
}

TEST(SmallPort, SilentBeforeADuctOfItsOwnSize) {
  EXPECT_TRUE(found(kSmallPort, RuleStage(withPort("100 mm", "100 mm").builder.project)).empty());
  EXPECT_TRUE(found(kSmallPort, RuleStage(withPort("120 mm", "125 mm").builder.project)).empty());
}

TEST(SmallPort, ServedItIsANote) {
  const auto findings = found(kSmallPort, RuleStage(withPort("63 mm", "125 mm").builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
}

}  // namespace
}  // namespace kerfdraft::judge
