// Chips in air too slow for them: when it is said, how gravely, with which numbers, and what helps.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/units.h"
#include "judge/rule_stage.h"
#include "judge/rules/conveying_rules.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::length;
using support::ratio;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using tests::found;
using tests::foundIn;
using tests::RuleStage;

constexpr double kFpm = 0.3048 / 60;

double area(double bore_m) {
  return std::numbers::pi * bore_m * bore_m / 4;
}

/// One machine with a 100 mm port on a duct of this bore: its air slows down in the duct.
support::OneMachine wideDuct(const char* bore) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.ductOf(shop.duct).corners.front().leg->bore = length(bore);
  return shop;
}

/// Two machines on a main of this bore, from its second corner on.
support::TwoBranchTree wideMain(const char* bore) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.ductOf(shop.main).corners[2].leg->bore = length(bore);
  return shop;
}

std::vector<StateBands> bandsOf(const RuleStage& stage, Band band) {
  std::vector<StateBands> bands(stage.assessment().states.size());
  for (StateBands& state : bands) {
    state.run_speed.assign(stage.assessment().pieces->runs.size(), band);
  }
  return bands;
}

const Remedy* remedyOf(const Finding& finding, std::string_view kind) {
  const auto at = std::find_if(finding.remedies.begin(), finding.remedies.end(),
                               [&](const Remedy& remedy) { return remedy.kind == kind; });
  return at == finding.remedies.end() ? nullptr : &*at;
}

TEST(ChipsSettle, AWideDuctIsSerious) {
  const RuleStage stage(wideDuct("250 mm").builder.project);
  const auto findings = found(kChipsSettle, stage);
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_EQ(finding.state, 0U);
  EXPECT_EQ(finding.label, "D1");
  // The flow of the port through the duct's area; leaks add a little on the way.
  const double port_m3_s = stage.assessment().states[0].solution.ports[0].flow_m3_s;
  const double slowest_m_s = finding.figure("slowest").value;
  EXPECT_NEAR(slowest_m_s, port_m3_s / area(0.25), 0.02 * slowest_m_s);
  EXPECT_LT(slowest_m_s, 2500 * kFpm);
  EXPECT_NEAR(finding.figure("needed").value, 3500 * kFpm, 1e-9);
  EXPECT_NEAR(finding.figure("flow-needed").value, 3500 * kFpm * area(0.25), 1e-9);
  EXPECT_NEAR(finding.figure("flow").value, slowest_m_s * area(0.25), 1e-9);
  EXPECT_NEAR(finding.figure("length").value, 7, 1e-6);  // 3 m up, 4 m along
  EXPECT_NEAR(finding.badness, 3500 * kFpm / slowest_m_s - 1, 1e-9);
  ASSERT_TRUE(finding.limit);
  EXPECT_NEAR(finding.limit->value, 3500 * kFpm, 1e-9);
  EXPECT_EQ(finding.limit->policy, "transport-velocity: the working rule");
  EXPECT_THAT(finding.words, ElementsAre("not-carried", "sure", "dry chips and dust, mixed", "T1"));
}

TEST(ChipsSettle, ChoosesTheGreatestSizeThatCarriesWithATenthToSpareAndItCures) {
  const RuleStage stage(wideDuct("250 mm").builder.project);
  Finding finding = found(kChipsSettle, stage).at(0);
  ASSERT_FALSE(finding.remedies.empty());
  const Remedy* smaller = remedyOf(finding, "smaller-duct");
  ASSERT_NE(smaller, nullptr);
  ASSERT_TRUE(smaller->change);
  const double flow_m3_s = finding.figure("flow").value;
  const double bore_m = smaller->change->value;
  EXPECT_EQ(bore_m, finding.figure("suits").value);
  EXPECT_GE(flow_m3_s / area(bore_m), 1.1 * 3500 * kFpm);
  // The next size sold above it does not.
  const std::vector<double> sold{0.1, 0.12, 0.125, 0.14, 0.15, 0.16, 0.18, 0.2, 0.225, 0.25};
  const auto next = std::upper_bound(sold.begin(), sold.end(), bore_m + 1e-9);
  ASSERT_NE(next, sold.end());
  EXPECT_LT(flow_m3_s / area(*next), 1.1 * 3500 * kFpm);
  tryRemedies(stage.evidence(), finding);
  ASSERT_TRUE(finding.remedies[0].gain);
  EXPECT_TRUE(finding.remedies[0].gain->cures);
  EXPECT_EQ(finding.remedies[0].gain->kind, base::Kind::Speed);
  EXPECT_GT(finding.remedies[0].gain->after, 3500 * kFpm);
}

TEST(ChipsSettle, FastEnoughAirIsNotMentioned) {
  const RuleStage stage(support::oneMachine().builder.project);
  EXPECT_GT(stage.evidence().margins[0].runs.at(0).slowest_m_s, 3500 * kFpm);
  EXPECT_TRUE(found(kChipsSettle, stage).empty());
}

TEST(ChipsSettle, SeverityFollowsTheThreeLimits) {
  // An entry that throttles the air a little more each time takes the speed down through all three limits.
  int seen[4] = {};
  for (int k = 0; k <= 120; k += 2) {
    support::OneMachine shop = wideDuct("125 mm");
    shop.builder.port(shop.port).entry = ratio(std::to_string(k));
    const RuleStage stage(shop.builder.project);
    const double speed_m_s = stage.evidence().margins[0].runs.at(0).slowest_m_s;
    const auto findings = found(kChipsSettle, stage);
    if (speed_m_s >= 3500 * kFpm) {
      EXPECT_TRUE(findings.empty()) << speed_m_s;
      ++seen[0];
      continue;
    }
    ASSERT_EQ(findings.size(), 1U) << speed_m_s;
    const Severity expected = speed_m_s >= 3000 * kFpm   ? Severity::Note
                              : speed_m_s >= 2500 * kFpm ? Severity::Caution
                                                         : Severity::Serious;
    EXPECT_EQ(findings[0].severity, expected) << speed_m_s;
    ++seen[expected == Severity::Note ? 1 : expected == Severity::Caution ? 2 : 3];
  }
  for (const int count : seen) {
    EXPECT_GT(count, 0);
  }
}

TEST(ChipsSettle, IsMilderWhereTheUpperEndOfThePredictionStillCarries) {
  support::OneMachine shop = wideDuct("160 mm");
  shop.builder.port(shop.port).entry = ratio("8");
  const RuleStage plain(shop.builder.project);
  const double speed_m_s = plain.evidence().margins[0].runs.at(0).slowest_m_s;
  ASSERT_LT(speed_m_s, 2500 * kFpm);
  ASSERT_EQ(found(kChipsSettle, plain).at(0).severity, Severity::Serious);

  const double to_above = 1.01 * 2500 * kFpm / speed_m_s;
  const RuleStage doubtful(shop.builder.project, bandsOf(plain, {0.7, to_above}));
  const Finding milder = found(kChipsSettle, doubtful).at(0);
  EXPECT_EQ(milder.severity, Severity::Caution);
  EXPECT_EQ(milder.words[0], "not-carried");
  EXPECT_EQ(milder.words[1], "doubtful");
  EXPECT_THAT(tests::told(kChipsSettle, milder, Reader::Inspector), HasSubstr("Cannot conclude."));

  const double to_below = 0.99 * 2500 * kFpm / speed_m_s;
  const RuleStage sure(shop.builder.project, bandsOf(plain, {0.7, to_below}));
  EXPECT_EQ(found(kChipsSettle, sure).at(0).severity, Severity::Serious);
}

TEST(ChipsSettle, AMarginalSpeedWhoseUpperEndCarriesIsNotMentioned) {
  support::OneMachine shop = wideDuct("125 mm");
  for (int k = 0; k <= 60; k += 2) {
    shop.builder.port(shop.port).entry = ratio(std::to_string(k));
    const RuleStage plain(shop.builder.project);
    const double speed_m_s = plain.evidence().margins[0].runs.at(0).slowest_m_s;
    if (speed_m_s < 3500 * kFpm && speed_m_s > 3000 * kFpm) {
      EXPECT_EQ(found(kChipsSettle, plain).size(), 1U);
      const RuleStage doubtful(shop.builder.project, bandsOf(plain, {0.8, 1.2}));
      EXPECT_TRUE(found(kChipsSettle, doubtful).empty());
      return;
    }
  }
  FAIL() << "no marginal speed was met";
}

TEST(ChipsSettle, WithoutDeclaredStatesItIsANote) {
  support::OneMachine shop = wideDuct("250 mm");
  shop.builder.project.states.clear();
  const auto findings = found(kChipsSettle, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
}

TEST(ChipsSettle, AShutRunIsNotJudged) {
  support::OneMachine shop = wideDuct("250 mm");
  shop.builder.project.states[0].gates.clear();
  EXPECT_TRUE(found(kChipsSettle, RuleStage(shop.builder.project)).empty());
  shop.builder.project.states[0].off = {shop.collector};
  EXPECT_TRUE(found(kChipsSettle, RuleStage(shop.builder.project)).empty());
}

TEST(ChipsSettle, AMachineThatLacksAirIsNotGivenNarrowerDuct) {
  support::OneMachine shop = wideDuct("250 mm");
  shop.builder.port(shop.port).floor = support::given<base::VolumeFlow>("9000 m3/h");
  const Finding finding = found(kChipsSettle, RuleStage(shop.builder.project)).at(0);
  EXPECT_EQ(remedyOf(finding, "smaller-duct"), nullptr);
  ASSERT_NE(remedyOf(finding, "more-air"), nullptr);
  EXPECT_EQ(remedyOf(finding, "more-air")->figures[0].value, finding.figure("flow-needed").value);
}

TEST(ChipsSettle, NoDuctIsNarrowedBelowItsPort) {
  support::OneMachine shop = wideDuct("250 mm");
  shop.builder.port(shop.port).bore = length("250 mm");
  shop.builder.port(shop.port).entry = ratio("40");
  const Finding finding = found(kChipsSettle, RuleStage(shop.builder.project)).at(0);
  EXPECT_EQ(finding.findFigure("suits"), nullptr);
  EXPECT_NE(remedyOf(finding, "more-air"), nullptr);
}

TEST(ChipsSettle, OneFindingForAllSlowPartsOfAMainAndASecondGateHelps) {
  const support::TwoBranchTree shop = wideMain("225 mm");
  const RuleStage stage(shop.builder.project);
  const auto alone = foundIn(kChipsSettle, stage, 2);  // second alone
  ASSERT_EQ(alone.size(), 1U);
  Finding finding = alone[0];
  EXPECT_EQ(finding.label, "D1");
  EXPECT_EQ(finding.words.back(), "T2");
  EXPECT_NEAR(finding.figure("length").value, 3, 1e-6);
  const Remedy* gate = remedyOf(finding, "open-gate");
  ASSERT_NE(gate, nullptr);
  EXPECT_EQ(gate->change->a, shop.main_gate);
  EXPECT_EQ(gate->change->b, shop.branch_alone);
  tryRemedies(stage.evidence(), finding);
  gate = remedyOf(finding, "open-gate");
  ASSERT_TRUE(gate->gain);
  EXPECT_GT(gate->gain->after, 1.3 * gate->gain->before);
}

/// The finding of "second alone" where both machines ask for what they get when both are open.
Finding aloneOnMain(const char* bore) {
  support::TwoBranchTree shop = wideMain(bore);
  const RuleStage before(shop.builder.project);
  const network::Solution& both = before.assessment().states[0].solution;
  for (const std::size_t p : {0U, 1U}) {
    const std::string flow = std::to_string(std::floor(3600 * both.ports[p].flow_m3_s)) + " m3/h";
    shop.builder.port(before.assessment().pieces->ports[p].ref).floor =
        support::given<base::VolumeFlow>(flow);
  }
  const RuleStage stage(shop.builder.project);
  EXPECT_TRUE(stage.evidence().margins[0].served);
  const auto alone = foundIn(kChipsSettle, stage, 2);
  EXPECT_EQ(alone.size(), 1U);
  return alone.at(0);
}

TEST(ChipsSettle, AMainThatOtherStatesNeedStaysWideAndIsKeptMoving) {
  const Finding finding = aloneOnMain("180 mm");
  // The size that would carry the second machine's chips is too narrow for both, and no other is smaller.
  EXPECT_LT(finding.figure("suits").value, 0.16);
  EXPECT_EQ(remedyOf(finding, "smaller-duct"), nullptr);
  ASSERT_NE(remedyOf(finding, "keep-moving"), nullptr);
  EXPECT_NEAR(remedyOf(finding, "keep-moving")->figures[0].value,
              finding.figure("flow-needed").value - finding.figure("flow").value, 1e-12);
}

TEST(ChipsSettle, AMainWiderThanAnyStateNeedsBecomesAsNarrowAsTheyAllow) {
  const Finding finding = aloneOnMain("250 mm");
  const Remedy* smaller = remedyOf(finding, "smaller-duct");
  ASSERT_NE(smaller, nullptr);
  EXPECT_GT(smaller->change->value, finding.figure("suits").value);
  EXPECT_LT(smaller->change->value, 0.25);
  EXPECT_NE(remedyOf(finding, "keep-moving"), nullptr);
}

TEST(ChipsSettle, ThePolicyOfTheProjectDecidesTheLimit) {
  support::OneMachine shop = wideDuct("250 mm");
  shop.builder.project.setting.policies = {{"transport-velocity", "hsg258"}};
  const Finding finding = found(kChipsSettle, RuleStage(shop.builder.project)).at(0);
  ASSERT_TRUE(finding.limit);
  EXPECT_NEAR(finding.limit->value, 20, 1e-9);  // Hsg258, process dust with shavings: about 20 m/s
  EXPECT_EQ(finding.limit->policy, "transport-velocity: hsg258");
  EXPECT_THAT(finding.limit->source, HasSubstr("Hsg258"));
  EXPECT_EQ(finding.limit->status, base::SourceStatus::FromMemory);
  EXPECT_NEAR(finding.figure("flow-needed").value, 20 * area(0.25), 1e-9);
}

TEST(ChipsSettle, SanderDustAloneIsCarriedBySlowerAir) {
  support::OneMachine shop = wideDuct("125 mm");
  for (int k = 0; k <= 120; k += 2) {
    shop.builder.port(shop.port).entry = ratio(std::to_string(k));
    shop.builder.machineOf(shop.port).chips = "sander-dust";
    const RuleStage dust(shop.builder.project);
    const double speed_m_s = dust.evidence().margins[0].runs.at(0).slowest_m_s;
    if (speed_m_s < 2450 * kFpm && speed_m_s > 2050 * kFpm) {
      EXPECT_EQ(found(kChipsSettle, dust).at(0).severity, Severity::Caution);
      shop.builder.machineOf(shop.port).chips = "sawdust";
      EXPECT_EQ(found(kChipsSettle, RuleStage(shop.builder.project)).at(0).severity, Severity::Serious);
      return;
    }
  }
  FAIL() << "no speed between the two limits was met";
}

TEST(ChipsSettle, AnEmptyProjectIsLookedAtWithoutHarm) {
  shop::Project empty;
  empty.air.temperature = support::given<base::Temperature>("20 °C");
  const RuleStage stage(empty);
  for (const Rule* rule : conveyingRules()) {
    EXPECT_TRUE(found(*rule, stage).empty()) << rule->key;
  }
}

}  // namespace
}  // namespace kerfdraft::judge
