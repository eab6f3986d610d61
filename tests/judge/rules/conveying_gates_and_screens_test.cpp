// What stands in the way of chips: gates half open, covers over outlets; and air faster than it need be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "judge/rule_stage.h"
#include "judge/rules/conveying_rules.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::at;
using support::length;
using support::ratio;
using testing::ElementsAre;
using testing::HasSubstr;
using tests::found;
using tests::RuleStage;

support::TwoBranchTree withTravel(const char* travel) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states[0].gates[1].travel = ratio(travel);
  return shop;
}

TEST(PartOpenGate, IsACautionWithItsLossAndOpeningItCures) {
  const RuleStage stage(withTravel("40 %").builder.project);
  const auto findings = found(kPartOpenGate, stage);
  ASSERT_EQ(findings.size(), 1U);
  Finding finding = findings[0];
  EXPECT_EQ(finding.label, "G2");
  EXPECT_EQ(finding.state_name, "both");
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_NEAR(finding.figure("travel").value, 0.4, 1e-12);
  EXPECT_NEAR(finding.badness, 0.6, 1e-12);
  const auto& gate = stage.evidence().pieces().gates[1];
  EXPECT_NEAR(finding.figure("loss").value,
              std::abs(stage.assessment().states[0].solution.runs[gate.run].pieces[gate.piece].loss_pa),
              1e-12);
  EXPECT_THAT(finding.words, ElementsAre("T2"));
  tryRemedies(stage.evidence(), finding);
  ASSERT_TRUE(finding.remedies[0].gain);
  EXPECT_TRUE(finding.remedies[0].gain->cures);
  EXPECT_GT(finding.remedies[0].gain->after, finding.remedies[0].gain->before);
}

TEST(PartOpenGate, OpenOrShutToTheHairIsNotAsked) {
  for (const char* travel : {"0 %", "4 %", "96 %", "100 %"}) {
    EXPECT_TRUE(found(kPartOpenGate, RuleStage(withTravel(travel).builder.project)).empty()) << travel;
  }
  for (const char* travel : {"6 %", "94 %"}) {
    EXPECT_EQ(found(kPartOpenGate, RuleStage(withTravel(travel).builder.project)).size(), 1U) << travel;
  }
}

TEST(PartOpenGate, WhereNoChipsPassItMayBalance) {
  support::TwoBranchTree shop = withTravel("40 %");
  // Air from the room through the branch: no machine throws into it.
  shop.builder.ductOf(shop.branch).from = shop::FreeAir{shop.room, "bellmouth"};
  EXPECT_TRUE(found(kPartOpenGate, RuleStage(shop.builder.project)).empty());
}

/// A machine, a fan without separator, and a duct behind it that ends outdoors in `form`.
support::OneMachine blowingOut(const std::string& form) {
  support::OneMachine shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.collectorOf(shop.collector).outlet_bore = length("160 mm");
  b.duct(shop::CollectorOutlet{shop.collector}, shop::FreeAir{{}, form},
         {at(5, 1, 3.2), at(5, 1, 3.4), at(9, 1, 3.4)}, "160 mm");
  b.project.rooms[0].openings.push_back({b.id(),
                                         "V1",
                                         shop::OpeningKind::Grille,
                                         {0, 0},
                                         {1000000, 0},
                                         support::given<base::Area>("1 m2"),
                                         {},
                                         {},
                                         true});
  return shop;
}

TEST(ScreenedRun, AScreenWhereChipsBlowOutIsSerious) {
  const RuleStage stage(blowingOut("round-wire-0.6").builder.project);
  const auto findings = found(kScreenedRun, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  EXPECT_EQ(findings[0].label, "D2");
  EXPECT_EQ(findings[0].words[0], "screen");
  // The outlet's 1.0 and the screen's 0.9244 on the velocity pressure of the outlet.
  const auto& run = stage.assessment().states[0].solution.runs[findings[0].runs[0]];
  EXPECT_NEAR(findings[0].figure("loss").value, 1.9244 * run.pieces.back().velocity_pressure_pa,
              1e-6 * findings[0].figure("loss").value);
  EXPECT_THAT(tests::told(kScreenedRun, findings[0], Reader::Owner), HasSubstr("clogs"));
}

TEST(ScreenedRun, ACapIsMilderAndAFreeEndIsRight) {
  const auto capped = found(kScreenedRun, RuleStage(blowingOut("cap-0.60").builder.project));
  ASSERT_EQ(capped.size(), 1U);
  EXPECT_EQ(capped[0].severity, Severity::Caution);
  EXPECT_TRUE(found(kScreenedRun, RuleStage(blowingOut("").builder.project)).empty());
}

TEST(ScreenedRun, BehindASeparatorACoverIsRight) {
  support::OneMachine shop = blowingOut("round-wire-0.6");
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.label = "cyclone";
  cyclone.kind = "cyclone";
  cyclone.heads = ratio("3");
  shop.builder.collectorOf(shop.collector).separators.push_back(cyclone);
  EXPECT_TRUE(found(kScreenedRun, RuleStage(shop.builder.project)).empty());
}

TEST(AirTooFast, IsANoteWithTheSizeThatWouldDo) {
  const RuleStage stage(support::oneMachine().builder.project);
  const auto& margin = stage.evidence().margins[0].runs.at(0);
  ASSERT_GT(margin.slowest_m_s, 5500 * 0.3048 / 60);
  const auto findings = found(kAirTooFast, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].figure("high").value, 5500 * 0.3048 / 60, 1e-9);
  EXPECT_GE(findings[0].figure("fastest").value, margin.slowest_m_s);
  ASSERT_EQ(findings[0].remedies.size(), 1U);
  const double bore_m = findings[0].remedies[0].change->value;
  const double speed_m_s = findings[0].figure("flow").value / (0.785398163 * bore_m * bore_m);
  EXPECT_LT(speed_m_s, 5500 * 0.3048 / 60);
  EXPECT_GT(speed_m_s, 4000 * 0.3048 / 60);
}

TEST(AirTooFast, IsSilentBelowAndWhereTheLowerEndOfThePredictionIsBelow) {
  support::OneMachine slower = support::oneMachine();
  slower.builder.ductOf(slower.duct).corners.front().leg->bore = length("140 mm");
  const RuleStage stage(slower.builder.project);
  ASSERT_LT(stage.evidence().margins[0].runs.at(0).slowest_m_s, 5500 * 0.3048 / 60);
  EXPECT_TRUE(found(kAirTooFast, stage).empty());

  StateBands wide;
  wide.run_speed.assign(stage.assessment().pieces->runs.size(), Band{0.6, 1.4});
  EXPECT_TRUE(found(kAirTooFast, RuleStage(support::oneMachine().builder.project, {wide})).empty());
}

}  // namespace
}  // namespace kerfdraft::judge
