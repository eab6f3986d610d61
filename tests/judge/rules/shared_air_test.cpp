// Machines that take each other's air, ends that lead nowhere, and states without a solution.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/rules/air_rules.h"
#include "judge/rules/air_shops.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::at;
using support::length;
using support::ratio;
using testing::HasSubstr;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::foundIn;
using tests::remedyOf;
using tests::RuleStage;
using tests::told;

/// Two machines of which each is served alone and the branch is short beside the main.
support::TwoBranchTree crowded() {
  support::TwoBranchTree shop = support::twoBranchTree();
  const double together_m3_s = flowAt(shop.builder.project, 0, 1);
  const double alone_m3_s = flowAt(shop.builder.project, 2, 1);
  shop.builder.port(shop.branch_port).floor = flowOf(0.5 * (together_m3_s + alone_m3_s));
  return shop;
}

TEST(NotTogether, NamesWhatIsServedOnlyAlone) {
  const auto shop = crowded();
  const RuleStage stage(shop.builder.project);
  const auto findings = found(kNotTogether, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].state, 0u);
  EXPECT_EQ(findings[0].label, "T2");
  EXPECT_EQ(findings[0].words[2], "T1");
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  EXPECT_NEAR(findings[0].figure("flow").value, flowAt(shop.builder.project, 0, 1), 1e-9);
  EXPECT_NEAR(findings[0].figure("alone").value, flowAt(shop.builder.project, 2, 1),
              1e-6 * findings[0].figure("alone").value);
  EXPECT_THAT(told(kNotTogether, findings[0]), HasSubstr("T1"));
}

TEST(NotTogether, ShuttingTheOtherCures) {
  const auto shop = crowded();
  const RuleStage stage(shop.builder.project);
  Finding finding = found(kNotTogether, stage)[0];
  const Remedy* shut = remedyOf(finding, "shut-gate");
  ASSERT_NE(shut, nullptr);
  EXPECT_EQ(shut->change->a, shop.main_gate);
  tryRemedies(stage.evidence(), finding);
  EXPECT_TRUE(finding.remedies[0].gain->cures);
}

TEST(NotTogether, SilentWhereItIsShortAloneToo) {
  auto shop = crowded();
  shop.builder.port(shop.branch_port).floor = flowOf(1.01 * flowAt(shop.builder.project, 2, 1));
  EXPECT_TRUE(found(kNotTogether, RuleStage(shop.builder.project)).empty());
}

TEST(NotTogether, SilentWhereBothAreServed) {
  auto shop = crowded();
  shop.builder.port(shop.branch_port).floor = flowOf(0.99 * flowAt(shop.builder.project, 0, 1));
  EXPECT_TRUE(found(kNotTogether, RuleStage(shop.builder.project)).empty());
}

/// A branch that comes straight down into a main of the same bore behind it: its air is fast, that of the
/// main slow through a poor entry.
support::TwoBranchTree rivals() {
  support::TwoBranchTree shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.port(shop.main_port).entry = ratio("1.5");
  b.port(shop.branch_port).entry = ratio("0.5");
  b.port(shop.branch_port).at = at(5, 2, 0.3);
  b.ductOf(shop.branch).corners[0].at = at(5, 2, 0.3);
  b.ductOf(shop.branch).corners[1].at = at(5, 2, 1.5);
  b.ductOf(shop.main).corners[2].leg->bore = length("125 mm");
  return shop;
}

TEST(BranchRivalry, NamesTheFastOneAndTheMeeting) {
  auto shop = rivals();
  shop.builder.port(shop.main_port).floor = flowOf(1.2 * flowAt(shop.builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  const auto findings = foundIn(kBranchRivalry, stage, 0);
  ASSERT_EQ(findings.size(), 1u);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.ports, std::vector<std::size_t>{0});
  EXPECT_EQ(finding.words[0], "T2");
  EXPECT_EQ(finding.words[2], "held back");
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_GT(finding.figure("rival").value, 1.25 * finding.figure("speed").value);
  // The meeting's line of the sheet says the same.
  const auto& sheet = *stage.evidence().sheets[0][0];
  const auto line = std::find_if(sheet.rows.begin(), sheet.rows.end(),
                                 [](const SheetRow& row) { return row.key.role == pieces::Role::Junction; });
  ASSERT_NE(line, sheet.rows.end());
  EXPECT_NEAR(finding.figure("loss").value, line->loss_pa, 1e-6);
  EXPECT_NEAR(finding.figure("share").value, line->loss_pa / -sheet.fans.back().inlet_total_pa, 1e-6);
  EXPECT_NE(remedyOf(finding, "shut-gate"), nullptr);
  ASSERT_NE(remedyOf(finding, "bigger-duct"), nullptr);
  EXPECT_EQ(remedyOf(finding, "bigger-duct")->change->kind, ChangeKind::LegBore);
}

TEST(BranchRivalry, AMachinesBlowerTurnsItsNeighbourRound) {
  auto shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  shop::Blower blower;
  blower.id = b.id();
  blower.rating = b.collectorOf(shop.collector).rating;
  b.machineOf(shop.branch_port).blower = blower;
  for (shop::CurvePoint& point : b.collectorOf(shop.collector).rating.points) {
    point.pressure = support::given<base::Pressure>(std::to_string(0.02 * point.pressure.si()) + " Pa");
  }
  // It blows into the meeting at right angles, so that it pulls nobody along.
  b.port(shop.branch_port).at = at(5, 2, 0.3);
  b.ductOf(shop.branch).corners[0].at = at(5, 2, 0.3);
  b.ductOf(shop.branch).corners[1].at = at(5, 2, 1.5);
  b.ductOf(shop.main).corners[2].leg->bore = length("100 mm");
  const RuleStage stage(b.project);
  ASSERT_LT(stage.evidence().state(0).solution.ports[0].flow_m3_s, 0);
  const auto findings = foundIn(kBranchRivalry, stage, 0);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].words[2], "backward");
  EXPECT_EQ(findings[0].words[0], "T2");
  EXPECT_EQ(findings[0].severity, Severity::Caution);  // nothing is asked of that port
  EXPECT_LT(findings[0].figure("speed").value, 0);
}

TEST(BranchRivalry, SilentWhereTheMachineHasWhatItNeeds) {
  auto shop = rivals();
  shop.builder.port(shop.main_port).floor = flowOf(0.9 * flowAt(shop.builder.project, 0, 0));
  EXPECT_TRUE(found(kBranchRivalry, RuleStage(shop.builder.project)).empty());
}

TEST(BranchRivalry, SilentWhereTheMeetingCostsLittle) {
  auto shop = support::twoBranchTree();
  shop.builder.port(shop.branch_port).floor = flowOf(1.1 * flowAt(shop.builder.project, 0, 1));
  EXPECT_TRUE(foundIn(kBranchRivalry, RuleStage(shop.builder.project), 0).empty());
}

TEST(OpenEnd, ADuctThatLeadsNowhereIsSeriousForItsMachine) {
  auto shop = support::twoBranchTree();
  shop.builder.ductOf(shop.branch).to = shop::OpenEnd{};
  const auto findings = found(kOpenEnd, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].label, "D2");
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  EXPECT_THAT(findings[0].words, testing::ElementsAre("end", "T2"));
  EXPECT_EQ(findings[0].runs.size(), 1u);
}

TEST(OpenEnd, ACappedMainIsANote) {
  const auto shop = support::ringMain();
  const auto findings = found(kOpenEnd, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 2u);  // the lead, and the half from which the other parts
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_EQ(findings[0].words[0], "stub");
}

TEST(OpenEnd, SilentWhereEverythingIsJoined) {
  EXPECT_TRUE(found(kOpenEnd, RuleStage(support::twoBranchTree().builder.project)).empty());
}

TEST(NoSolution, AShopWithoutAFan) {
  auto shop = support::oneMachine();
  shop.builder.ductOf(shop.duct).to = shop::FreeAir{};
  shop.builder.project.collectors.clear();
  const RuleStage stage(shop.builder.project);
  ASSERT_FALSE(stage.evidence().solved(0));
  const auto findings = found(kNoSolution, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Severe);
  EXPECT_EQ(findings[0].words[0], "no fan");
  EXPECT_EQ(findings[0].remedies[0].kind, "draw-collector");
}

TEST(NoSolution, ARoomThatIsEmptiedOutdoors) {
  support::ProjectBuilder b;
  const auto room = b.room(8, 6, 3);
  const auto port = b.machine("", at(1, 1, 0.2), "100 mm", room);
  b.port(port).entry = ratio("0.5");
  const auto unit = b.collector(at(5, 1, 0.2), "100 mm");
  b.duct(port, shop::CollectorInlet{unit}, {at(1, 1, 0.2), at(5, 1, 0.2)}, "100 mm");
  b.project.setting.leakage = false;  // else cracks are assumed
  const RuleStage stage(b.project);
  ASSERT_FALSE(stage.evidence().solved(0));
  const auto findings = found(kNoSolution, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].label, "R1");
  EXPECT_EQ(findings[0].words[0], "no room air");
}

TEST(NoSolution, SilentWhereTheAirIsSolvedAndWhereNothingIsDrawn) {
  EXPECT_TRUE(found(kNoSolution, RuleStage(support::oneMachine().builder.project)).empty());
  EXPECT_TRUE(found(kNoSolution, RuleStage(support::ProjectBuilder().project)).empty());
}

TEST(AirRules, NothingFiresOnAnEmptyProject) {
  const RuleStage stage(support::ProjectBuilder().project);
  for (const Rule* rule : airRules()) {
    EXPECT_TRUE(found(*rule, stage).empty()) << rule->key;
  }
}

}  // namespace
}  // namespace kerfdraft::judge
