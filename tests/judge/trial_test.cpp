// What a change brings is what solving the changed shop gives.
#include "judge/trial.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/prices.h"
#include "judge/rule_stage.h"

namespace kerfdraft::judge {
namespace {

using base::Kind;
using tests::RuleStage;

Finding aboutPort(std::size_t port, std::optional<std::size_t> state) {
  Finding finding;
  finding.rule = "no-rule-of-this-key";
  finding.ports = {port};
  finding.state = state;
  return finding;
}

Remedy with(std::string kind, Change change) {
  Remedy remedy;
  remedy.kind = std::move(kind);
  remedy.change = change;
  return remedy;
}

TEST(Trial, GainIsTheFlowOfTheChangedShop) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const Change change{ChangeKind::Bore, shop.branch, {}, 0.125, true};
  const auto gain = tryChange(stage.evidence(), aboutPort(1, 0), change);
  ASSERT_TRUE(gain);
  const Assessment changed = tests::solved(withChange(shop.builder.project, change).value());
  EXPECT_EQ(gain->kind, Kind::VolumeFlow);
  EXPECT_NEAR(gain->before, stage.evidence().state(0).solution.ports[1].flow_m3_s, 1e-12);
  EXPECT_NEAR(gain->after, changed.states[0].solution.ports[1].flow_m3_s, 1e-9);
  EXPECT_GT(gain->after, 1.2 * gain->before);
  EXPECT_EQ(gain->at, stage.evidence().pieces().ports[1].label);
  EXPECT_FALSE(gain->cures);
}

TEST(Trial, WithoutAPortItIsTheSlowestSpeedOfTheRun) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  Finding finding = aboutPort(0, 2);
  finding.ports.clear();
  finding.runs = {stage.evidence().path(2, 1).back()};  // the main while the branch alone is open
  const auto gain = tryChange(stage.evidence(), finding,
                              {ChangeKind::GateOpen, shop.main_gate, shop.branch_alone, 0, false});
  ASSERT_TRUE(gain);
  EXPECT_EQ(gain->kind, Kind::Speed);
  EXPECT_NEAR(gain->after, stage.evidence().state(0).solution.runs[finding.runs[0]].slowest_m_s, 1e-6);
}

TEST(Trial, OfTheDrawingItselfTheWorstStateCounts) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const auto gain = tryChange(stage.evidence(), aboutPort(1, std::nullopt),
                              {ChangeKind::Bore, shop.branch, {}, 0.125, false});
  ASSERT_TRUE(gain);
  // With both gates open the branch gets less than alone.
  EXPECT_NEAR(gain->before, stage.evidence().state(0).solution.ports[1].flow_m3_s, 1e-12);
}

TEST(Trial, ARoomsPressureCountsWhereNoAirIsMeant) {
  auto shop = support::oneMachine();
  shop.builder.collectorOf(shop.collector).discharge.room = {};
  const RuleStage stage(shop.builder.project);
  Finding finding;
  finding.rule = "no-rule-of-this-key";
  finding.key = {pieces::Role::Room, shop.room, {}};
  finding.state = 0;
  const auto gain =
      tryChange(stage.evidence(), finding, {ChangeKind::RoomOpening, shop.room, {}, 0.1, false});
  ASSERT_TRUE(gain);
  EXPECT_EQ(gain->kind, Kind::Pressure);
  EXPECT_LT(gain->before, -5);
  EXPECT_GT(gain->after, 0.5 * gain->before);
}

TEST(Trial, WhatCannotBeTriedHasNoGain) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  Finding finding = aboutPort(1, 0);
  finding.remedies = {with("a", {ChangeKind::Bore, base::Id(7), {}, 0.2, false}), Remedy{}};
  tryRemedies(stage.evidence(), finding);
  EXPECT_FALSE(finding.remedies[0].gain);
  EXPECT_FALSE(finding.remedies[1].gain);
  Finding nowhere;
  nowhere.rule = "no-rule-of-this-key";
  EXPECT_FALSE(tryChange(stage.evidence(), nowhere, {ChangeKind::Bore, shop.branch, {}, 0.125, false}));
  Finding unsolved = aboutPort(0, 0);
  shop::Project stopped = shop.builder.project;
  stopped.collectors.clear();
  stopped.ducts[0].to = shop::OpenEnd{};
  const RuleStage dead(stopped);
  EXPECT_FALSE(tryChange(dead.evidence(), unsolved, {ChangeKind::Bore, shop.branch, {}, 0.125, false}));
}

TEST(Trial, WhatBringsMoreStandsBeforeAndWhatBringsNothingIsLeftOut) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  Finding finding = aboutPort(1, 0);
  Remedy words;
  words.kind = "words-only";
  finding.remedies = {with("narrower", {ChangeKind::Bore, shop.branch, {}, 0.08, false}), words,
                      with("wider", {ChangeKind::Bore, shop.branch, {}, 0.125, true}),
                      with("shut", {ChangeKind::GateShut, shop.main_gate, shop.both, 0, false})};
  tryRemedies(stage.evidence(), finding);
  ASSERT_EQ(finding.remedies.size(), 3U);
  // None of them cures, so what could not be tried stands before them.
  EXPECT_EQ(finding.remedies[0].kind, "words-only");
  EXPECT_EQ(finding.remedies[1].kind, "shut");  // costs nothing
  EXPECT_EQ(finding.remedies[1].price->high_usd, 0);
  EXPECT_EQ(finding.remedies[2].kind, "wider");
  // Where there is no other, it is still said what it does.
  finding.remedies = {with("narrower", {ChangeKind::Bore, shop.branch, {}, 0.08, false})};
  tryRemedies(stage.evidence(), finding);
  ASSERT_EQ(finding.remedies.size(), 1U);
  EXPECT_LT(finding.remedies[0].gain->after, finding.remedies[0].gain->before);
}

TEST(Trial, APriceIsThatOfWhatDiffers) {
  const auto shop = support::oneMachine();
  const RuleStage stage(shop.builder.project);
  Finding finding = aboutPort(0, 0);
  finding.remedies = {with("wider", {ChangeKind::Bore, shop.duct, {}, 0.15, false})};
  tryRemedies(stage.evidence(), finding);
  ASSERT_TRUE(finding.remedies[0].price);
  // 3 m up and 4 m along of 150 mm spiral duct, one elbow, one gate.
  const catalogue::Catalogue& tables = tests::shippedTables();
  const auto duct = catalogue::ductPrice(tables, "spiral-galvanized", 0.15);
  const auto elbow = catalogue::elbowPrice(tables);
  const auto gate = catalogue::gatePrice(tables, 0.15);
  ASSERT_TRUE(duct && elbow && gate);
  EXPECT_NEAR(finding.remedies[0].price->low_usd, 7 * duct->low_usd + elbow->low_usd + gate->low_usd, 1e-9);
  EXPECT_NEAR(finding.remedies[0].price->high_usd, 7 * duct->high_usd + elbow->high_usd + gate->high_usd,
              1e-9);
}

TEST(Trial, ABranchOfAnotherSizeNeedsAnotherFitting) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  Finding finding = aboutPort(1, 0);
  finding.remedies = {with("elbows", {ChangeKind::WideElbows, shop.branch, {}, 0, false}),
                      with("wider", {ChangeKind::Bore, shop.branch, {}, 0.125, false})};
  tryRemedies(stage.evidence(), finding);
  const catalogue::Catalogue& tables = tests::shippedTables();
  const auto branch = catalogue::branchPrice(tables);
  const auto elbow = catalogue::elbowPrice(tables);
  ASSERT_TRUE(branch && elbow);
  for (const Remedy& remedy : finding.remedies) {
    ASSERT_TRUE(remedy.price) << remedy.kind;
    if (remedy.kind == "elbows") {
      EXPECT_NEAR(remedy.price->low_usd, elbow->low_usd, 1e-9);
    } else {
      EXPECT_GT(remedy.price->low_usd, branch->low_usd + elbow->low_usd);
    }
  }
}

TEST(Trial, BetweenTwoBuildsTheSameNumberIsReadInTheSameState) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const Finding finding = aboutPort(1, 0);
  const Change change{ChangeKind::Bore, shop.branch, {}, 0.125, true};
  shop::Project project = withChange(shop.builder.project, change).value();
  std::rotate(project.states.begin(), project.states.begin() + 1, project.states.end());
  const Assessment changed = tests::solved(project);
  const auto between = gainBetween(stage.evidence().assessment, finding, changed);
  const auto gain = tryChange(stage.evidence(), finding, change);
  ASSERT_TRUE(between && gain);
  EXPECT_EQ(between->before, gain->before);
  EXPECT_NEAR(between->after, gain->after, 1e-9);
  EXPECT_FALSE(gainBetween(stage.evidence().assessment, aboutPort(1, std::nullopt), changed));
  project.states.pop_back();
  EXPECT_FALSE(gainBetween(stage.evidence().assessment, finding, tests::solved(project)));
}

}  // namespace
}  // namespace kerfdraft::judge
