// Where the pressure goes on the worst path, the duct that is too small for it, bores that shrink.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "judge/rules/air_shops.h"
#include "judge/rules/pressure_rules.h"
#include "judge/trial.h"

namespace kerfdraft::judge {
namespace {

using support::length;
using support::ratio;
using testing::HasSubstr;
using tests::flowAt;
using tests::flowOf;
using tests::found;
using tests::foundIn;
using tests::remedyOf;
using tests::RuleStage;

TEST(PathLoss, ThePartsMakeTheWhole) {
  const auto shop = support::oneMachine();
  const RuleStage stage(shop.builder.project);
  const auto findings = found(kPathLoss, stage);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  double sum_pa = 0;
  for (const Figure& figure : findings[0].figures) {
    sum_pa += figure.name != "lost" && figure.name != "flow" ? figure.value : 0;
  }
  EXPECT_NEAR(sum_pa, findings[0].figure("lost").value, 1e-9 * sum_pa);
  // Nothing is lost behind this fan: what is lost is what the fan gives.
  const auto& fan = stage.evidence().sheets[0][0]->fans.back();
  EXPECT_NEAR(findings[0].figure("lost").value, fan.rise_pa, 1e-6 * sum_pa);
  EXPECT_NEAR(findings[0].figure("entry").value,
              0.5 * stage.evidence().sheets[0][0]->rows[0].velocity_pressure_pa, 1e-6 * sum_pa);
}

TEST(PathLoss, TakesThePortThatLacksMost) {
  auto shop = support::twoBranchTree();
  shop.builder.port(shop.main_port).floor = flowOf(0.5 * flowAt(shop.builder.project, 0, 0));
  shop.builder.port(shop.branch_port).floor = flowOf(1.5 * flowAt(shop.builder.project, 0, 1));
  const auto findings = found(kPathLoss, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].ports, std::vector<std::size_t>{1});
  EXPECT_EQ(findings[0].state, 0u);
}

TEST(PathLoss, SilentWithoutAPath) {
  EXPECT_TRUE(found(kPathLoss, RuleStage(support::ProjectBuilder().project)).empty());
}

/// A thin drop of 10 m to a machine that lacks half of what it gets.
support::OneMachine thinDrop() {
  support::OneMachine shop = support::oneMachine();
  shop.builder.ductOf(shop.duct).corners.front().leg->bore = length("80 mm");
  shop.builder.port(shop.port).bore = length("80 mm");
  shop.builder.port(shop.port).floor = flowOf(1.5 * flowAt(shop.builder.project, 0, 0));
  return shop;
}

TEST(SmallDuct, NamesTheDropAndWhatTheNextSizesWouldLose) {
  const auto shop = thinDrop();
  const RuleStage stage(shop.builder.project);
  const auto findings = found(kSmallDuct, stage);
  ASSERT_EQ(findings.size(), 1u);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.label, "D1");
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_NEAR(finding.figure("bore").value, 0.08, 1e-9);
  EXPECT_NEAR(finding.figure("next").value, 0.1, 1e-9);
  EXPECT_NEAR(finding.figure("length").value, 7, 1e-6);
  EXPECT_NEAR(finding.figure("share").value, finding.figure("loss").value / finding.figure("way").value,
              1e-12);
  // Straight duct by the fifth power of the bores, elbow and gate by the fourth.
  double straight_pa = 0;
  double fittings_pa = 0;
  for (const SheetRow& row : stage.evidence().sheets[0][0]->rows) {
    straight_pa += row.key.role == pieces::Role::Straight ? row.loss_pa : 0;
    fittings_pa +=
        row.key.role == pieces::Role::Elbow || row.key.role == pieces::Role::Gate ? row.loss_pa : 0;
  }
  EXPECT_NEAR(finding.figure("loss").value, straight_pa + fittings_pa, 1e-6);
  EXPECT_NEAR(finding.figure("next-loss").value,
              std::pow(0.8, 5) * straight_pa + std::pow(0.8, 4) * fittings_pa, 1e-6);
  EXPECT_EQ(finding.runs.size(), 1u);
}

TEST(SmallDuct, ItsRemediesAreTriedBySolving) {
  const auto shop = thinDrop();
  const RuleStage stage(shop.builder.project);
  Finding finding = found(kSmallDuct, stage)[0];
  ASSERT_NE(remedyOf(finding, "bigger-duct"), nullptr);
  ASSERT_NE(remedyOf(finding, "bigger-duct-and-port"), nullptr);
  tryRemedies(stage.evidence(), finding);
  const Remedy* both = remedyOf(finding, "bigger-duct-and-port");
  ASSERT_TRUE(both->gain);
  EXPECT_GT(both->gain->after, 1.3 * both->gain->before);
}

TEST(SmallDuct, SilentWhereTheMachineHasItsAir) {
  auto shop = thinDrop();
  shop.builder.port(shop.port).floor = flowOf(0.99 * flowAt(shop.builder.project, 0, 0));
  EXPECT_TRUE(found(kSmallDuct, RuleStage(shop.builder.project)).empty());
}

TEST(SmallDuct, SilentWhereAWiderOneWouldLetChipsSettle) {
  // Wide duct and a fan that hardly pulls: the bore is not what the machine lacks.
  auto shop = support::oneMachine();
  shop.builder.ductOf(shop.duct).corners.front().leg->bore = length("160 mm");
  shop.builder.port(shop.port).bore = length("160 mm");
  shop.builder.collectorOf(shop.collector).inlet_bore = length("160 mm");
  for (shop::CurvePoint& point : shop.builder.collectorOf(shop.collector).rating.points) {
    point.pressure = support::given<base::Pressure>(std::to_string(0.06 * point.pressure.si()) + " Pa");
  }
  shop.builder.port(shop.port).floor = flowOf(1.05 * flowAt(shop.builder.project, 0, 0));
  const RuleStage stage(shop.builder.project);
  ASSERT_LT(stage.evidence().sheets[0][0]->rows[1].speed_m_s, 15);
  EXPECT_TRUE(found(kSmallDuct, stage).empty());
}

TEST(SmallDuct, OneFindingForADuctThatTwoPortsShare) {
  auto shop = support::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.ductOf(shop.main).corners[2].leg->bore = length("100 mm");
  b.port(shop.main_port).floor = flowOf(1.3 * flowAt(b.project, 0, 0));
  b.port(shop.branch_port).floor = flowOf(1.6 * flowAt(b.project, 0, 1));
  const auto findings = foundIn(kSmallDuct, RuleStage(b.project), 0);
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].figure("bore").value, 0.1, 1e-9);
  EXPECT_THAT(findings[0].ports, testing::UnorderedElementsAre(0u, 1u));
  EXPECT_EQ(findings[0].words[0], "part");
  EXPECT_EQ(remedyOf(findings[0], "bigger-duct")->change->kind, ChangeKind::LegBore);
}

TEST(ReducerBackwards, AMainThatNarrows) {
  auto shop = support::oneMachine();
  support::ProjectBuilder& b = shop.builder;
  shop::Leg narrow = *b.ductOf(shop.duct).corners.front().leg;
  narrow.bore = length("80 mm");
  b.ductOf(shop.duct).corners[1].leg = narrow;
  b.port(shop.port).floor = flowOf(1.3 * flowAt(b.project, 0, 0));
  const RuleStage stage(b.project);
  auto findings = found(kReducerBackwards, stage);
  ASSERT_EQ(findings.size(), 1u);  // widening again into the collector is no finding
  EXPECT_EQ(findings[0].label, "D1");
  EXPECT_EQ(findings[0].words[0], "reducer");
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("before").value, 0.1, 1e-9);
  EXPECT_NEAR(findings[0].figure("behind").value, 0.08, 1e-9);
  EXPECT_NEAR(findings[0].badness, 0.25, 1e-9);
  tryRemedies(stage.evidence(), findings[0]);
  ASSERT_TRUE(findings[0].remedies[0].gain);
  EXPECT_GT(findings[0].remedies[0].gain->after, 1.1 * findings[0].remedies[0].gain->before);
}

TEST(ReducerBackwards, APortChokedByItsDuct) {
  auto shop = support::oneMachine();
  shop.builder.port(shop.port).bore = length("150 mm");
  const auto findings = found(kReducerBackwards, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].words[0], "port");
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].remedies[0].change->value, 0.15, 1e-9);
}

TEST(ReducerBackwards, AMainThatIsSmallerBehindAMeeting) {
  auto shop = support::twoBranchTree();
  shop.builder.ductOf(shop.main).corners[2].leg->bore = length("100 mm");
  const auto findings = found(kReducerBackwards, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].words[0], "meeting");
  EXPECT_NEAR(findings[0].figure("before").value, 0.125, 1e-9);
}

TEST(ReducerBackwards, SilentWhereBoresGrow) {
  EXPECT_TRUE(found(kReducerBackwards, RuleStage(support::twoBranchTree().builder.project)).empty());
}

TEST(PressureRules, NothingFiresOnAnEmptyProject) {
  const RuleStage stage(support::ProjectBuilder().project);
  for (const Rule* rule : pressureRules()) {
    EXPECT_TRUE(found(*rule, stage).empty()) << rule->key;
  }
}

}  // namespace
}  // namespace kerfdraft::judge
