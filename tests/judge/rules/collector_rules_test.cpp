// Labels, wheels, motors, and where on its curve a fan works.
#include <gtest/gtest.h>

#include <numbers>

#include "judge/rules/collector_rules.h"
#include "judge/rules/fan_shops.h"

namespace kerfdraft {
namespace {

using judge::Finding;
using judge::Severity;
using support::given;
using tests::found;
using tests::OneMachine;
using tests::oneMachine;
using tests::RuleStage;

OneMachine labelShop() {
  OneMachine shop = oneMachine();
  shop::FanRating& rating = tests::unitOf(shop).rating;
  rating.points.clear();
  rating.basis = shop::RatingBasis::StaticAtInlet;
  rating.free_air_flow = given<base::VolumeFlow>("1600 m3/h");
  rating.greatest_suction = given<base::Pressure>("1900 Pa");
  return shop;
}

TEST(LabelOnly, ANoteWhereNoVerdictHangsOnIt) {
  OneMachine shop = labelShop();
  tests::setFloor(shop, 50);
  const auto findings = found(judge::kLabelOnly, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_TRUE(finding.ports.empty());
  EXPECT_NEAR(finding.figure("free-air").value, 1600 / 3600.0, 1e-9);
  // Without computed bands: the root of a spread of 60 % on pressure.
  EXPECT_NEAR(finding.figure("flow-low").value / finding.figure("flow").value, 0.632, 1e-9);
  EXPECT_NEAR(finding.figure("flow-high").value / finding.figure("flow").value, 1.265, 1e-9);
  EXPECT_FALSE(finding.state.has_value());
}

TEST(LabelOnly, ACautionWhereAFloorLiesInTheBand) {
  OneMachine shop = labelShop();
  const double now_m3_h = tests::perHour(tests::flowAtPort(RuleStage(shop.builder.project)));
  tests::setFloor(shop, 1.1 * now_m3_h);
  const auto findings = found(judge::kLabelOnly, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_EQ(findings[0].ports, std::vector<std::size_t>{0});
  ASSERT_FALSE(findings[0].remedies.empty());
  EXPECT_EQ(findings[0].remedies[0].kind, "shut-inlet-test");
}

TEST(LabelOnly, ComputedBandsGoBeforeTheRuleOfThumb) {
  OneMachine shop = labelShop();
  const RuleStage plain(shop.builder.project);
  tests::setFloor(shop, 1.1 * tests::perHour(tests::flowAtPort(plain)));
  const auto findings =
      found(judge::kLabelOnly, RuleStage(shop.builder.project, tests::evenBands(plain, 0.95, 1.05)));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_TRUE(findings[0].ports.empty());
}

TEST(LabelOnly, SilentWhereACurveIsKnown) {
  EXPECT_TRUE(found(judge::kLabelOnly, RuleStage(oneMachine().builder.project)).empty());
}

/// Wheel of 300 mm at 2900 rpm: rim 45.55 m/s.
OneMachine wheelShop(const std::string& suction) {
  OneMachine shop = labelShop();
  shop::Collector& unit = tests::unitOf(shop);
  unit.rating.greatest_suction = given<base::Pressure>(suction);
  unit.motor.wheel = support::length("300 mm");
  unit.motor.speed = given<base::RotationalSpeed>("2900 rpm");
  return shop;
}

TEST(ImpossibleLabel, MoreSuctionThanTheRimMakes) {
  const auto findings = found(judge::kImpossibleLabel, RuleStage(wheelShop("1900 Pa").builder.project));
  ASSERT_EQ(findings.size(), 1U);
  const double rim_m_s = std::numbers::pi * 0.3 * 2900 / 60;
  EXPECT_NEAR(findings[0].figure("tip-speed").value, rim_m_s, 1e-9);
  const double possible_pa = 0.65 * physics::kStandardDensity_kg_m3 * rim_m_s * rim_m_s;
  EXPECT_NEAR(findings[0].figure("possible").value, possible_pa, 1e-6);
  EXPECT_NEAR(possible_pa, 1621, 5);  // 1.62 kPa: woodshop practice for 300 mm at 2900 rpm
  EXPECT_NEAR(findings[0].figure("claimed").value, 1900, 1e-9);
  EXPECT_NEAR(findings[0].badness, 1900 / possible_pa - 1, 1e-9);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
}

TEST(ImpossibleLabel, SilentWhereTheWheelJustMakesIt) {
  EXPECT_TRUE(found(judge::kImpossibleLabel, RuleStage(wheelShop("1600 Pa").builder.project)).empty());
}

TEST(ImpossibleLabel, SilentWithoutWheelAndMotor) {
  EXPECT_TRUE(found(judge::kImpossibleLabel, RuleStage(labelShop().builder.project)).empty());
}

TEST(ImpossibleLabel, MorePowerInTheAirThanTheMotorHas) {
  OneMachine shop = oneMachine();
  // 2000 m3/h x 1600 Pa and more: some 0.9 kW of air.
  tests::unitOf(shop).motor.power = given<base::Power>("0.75 kW");
  const auto findings = found(judge::kImpossibleLabel, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_GE(findings[0].figure("air-power").value, 2000 / 3600.0 * 1600);
  EXPECT_GT(findings[0].figure("efficiency").value, 1);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  tests::unitOf(shop).motor.power = given<base::Power>("1.3 kW");
  const auto doubtful = found(judge::kImpossibleLabel, RuleStage(shop.builder.project));
  ASSERT_EQ(doubtful.size(), 1U);
  EXPECT_EQ(doubtful[0].severity, Severity::Note);
  tests::unitOf(shop).motor.power = given<base::Power>("2.2 kW");
  EXPECT_TRUE(found(judge::kImpossibleLabel, RuleStage(shop.builder.project)).empty());
}

TEST(BeyondCurve, RightOfTheLastPoint) {
  OneMachine shop = oneMachine();
  tests::setCurve(tests::unitOf(shop), {{0, 2400}, {200, 2350}, {400, 2250}});
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kBeyondCurve, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].state, 0U);
  EXPECT_NEAR(findings[0].figure("edge").value, 400 / 3600.0, 1e-9);
  EXPECT_EQ(findings[0].figure("flow").value, stage.evidence().state(0).solution.fans[0].inlet_flow_m3_s);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  const auto doubtful =
      found(judge::kBeyondCurve, RuleStage(shop.builder.project, tests::evenBands(stage, 0.3, 2)));
  ASSERT_EQ(doubtful.size(), 1U);
  EXPECT_EQ(doubtful[0].severity, Severity::Note);
}

TEST(BeyondCurve, SilentInsideIt) {
  EXPECT_TRUE(found(judge::kBeyondCurve, RuleStage(oneMachine().builder.project)).empty());
}

TEST(BeyondCurve, BackwardThroughATurningFan) {
  OneMachine shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  const base::Id weak = b.collector(support::at(1, 4, 3.2), "100 mm", shop.room);
  tests::setCurve(b.collectorOf(weak), {{0, 300}, {500, 200}, {1000, 0}});
  b.duct(shop::OnCorner{shop.duct, b.ductOf(shop.duct).corners[1].id, false}, shop::CollectorInlet{weak},
         {support::at(1, 1, 3.2), support::at(1, 4, 3.2)}, "100 mm");
  const auto findings = found(judge::kBeyondCurve, RuleStage(b.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].label, "C2");
  EXPECT_LT(findings[0].figure("flow").value, 0);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
}

TEST(UnstablePart, LeftOfThePeak) {
  OneMachine shop = oneMachine();
  tests::setCurve(tests::unitOf(shop), {{0, 1500}, {2000, 2400}, {3000, 1600}, {4000, 0}});
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kUnstablePart, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_NEAR(findings[0].figure("peak").value, 2000 / 3600.0, 1e-9);
  EXPECT_LT(findings[0].figure("flow").value, 2000 / 3600.0);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  const auto doubtful =
      found(judge::kUnstablePart, RuleStage(shop.builder.project, tests::evenBands(stage, 0.3, 6)));
  ASSERT_EQ(doubtful.size(), 1U);
  EXPECT_EQ(doubtful[0].severity, Severity::Note);
}

TEST(UnstablePart, SilentRightOfIt) {
  OneMachine shop = oneMachine();
  tests::setCurve(tests::unitOf(shop), {{0, 1500}, {300, 2400}, {2000, 1600}, {3000, 0}});
  EXPECT_TRUE(found(judge::kUnstablePart, RuleStage(shop.builder.project)).empty());
}

/// Two equal humped fans side by side on one machine.
support::ProjectBuilder twoFans(const std::vector<std::pair<double, double>>& curve) {
  OneMachine shop = oneMachine();
  support::ProjectBuilder b = shop.builder;
  const base::Id second = b.collector(support::at(1, 5, 3.2), "100 mm", shop.room);
  tests::setCurve(b.collectorOf(shop.collector), curve);
  tests::setCurve(b.collectorOf(second), curve);
  b.duct(shop::OnCorner{shop.duct, b.ductOf(shop.duct).corners[1].id, false}, shop::CollectorInlet{second},
         {support::at(1, 1, 3.2), support::at(1, 5, 3.2)}, "100 mm");
  return b;
}

TEST(FansHunt, SaidExactlyWhereTheSolverSaysSo) {
  for (const auto& curve :
       {std::vector<std::pair<double, double>>{{0, 1000}, {700, 2400}, {1400, 1600}, {2000, 0}},
        std::vector<std::pair<double, double>>{{0, 2400}, {700, 2000}, {1400, 1200}, {2000, 0}}}) {
    const RuleStage stage(twoFans(curve).project);
    const network::Solution& solution = stage.evidence().state(0).solution;
    ASSERT_TRUE(solution.solved());
    const auto findings = found(judge::kFansHunt, stage);
    EXPECT_EQ(findings.size(), solution.fans_hunt ? 1U : 0U);
    EXPECT_EQ(solution.fans_hunt, curve[0].second < 1500);
    if (!findings.empty()) {
      EXPECT_EQ(findings[0].label, "C1 and C2");
      EXPECT_GT(findings[0].figure("most").value, findings[0].figure("least").value);
    }
  }
}

/// Power rises from 0.3 kW to 1.1 kW over 2000 m3/h.
OneMachine poweredShop(const std::string& motor) {
  OneMachine shop = oneMachine();
  shop::Collector& unit = tests::unitOf(shop);
  unit.motor.power = given<base::Power>(motor);
  for (shop::CurvePoint& point : unit.rating.points) {
    point.power = given<base::Power>(std::to_string(0.3 + 0.4 * point.flow.si() * 3.6) + " kW");
  }
  return shop;
}

TEST(MotorOverloaded, ByThePowerOfItsCurve) {
  const OneMachine shop = poweredShop("0.5 kW");
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kMotorOverloaded, stage);
  ASSERT_EQ(findings.size(), 1U);
  // Linear points give a straight curve; a fan rated by total pressure takes power in proportion to the
  // density at its inlet.
  const network::FanResult& fan = stage.evidence().state(0).solution.fans[0];
  const double density_kg_m3 = fan.flow_kg_s / fan.inlet_flow_m3_s;
  const double power_w =
      1000 * (0.3 + 0.4 * fan.inlet_flow_m3_s * 3.6) * density_kg_m3 / physics::kStandardDensity_kg_m3;
  EXPECT_NEAR(findings[0].figure("power").value, power_w, 1e-3 * power_w);
  EXPECT_NEAR(findings[0].badness, power_w / 500 - 1, 2e-3);
  EXPECT_EQ(findings[0].state, 0U);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  const auto doubtful =
      found(judge::kMotorOverloaded, RuleStage(shop.builder.project, tests::evenBands(stage, 0.2, 2)));
  ASSERT_EQ(doubtful.size(), 1U);
  EXPECT_EQ(doubtful[0].severity, Severity::Caution);
}

TEST(MotorOverloaded, SilentWithEnoughMotorOrWithoutData) {
  EXPECT_TRUE(found(judge::kMotorOverloaded, RuleStage(poweredShop("1.5 kW").builder.project)).empty());
  OneMachine shop = oneMachine();
  tests::unitOf(shop).motor.power = given<base::Power>("10 W");
  EXPECT_TRUE(found(judge::kMotorOverloaded, RuleStage(shop.builder.project)).empty());
}

TEST(MotorOverloaded, OnlyWithEveryGateOpen) {
  support::TwoBranchTree shop = tests::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.project.states.erase(b.project.states.begin());  // never both
  shop::Collector& unit = b.collectorOf(shop.collector);
  for (shop::CurvePoint& point : unit.rating.points) {
    point.power = given<base::Power>(std::to_string(0.3 + 0.4 * point.flow.si() * 3.6) + " kW");
  }
  unit.motor.power = given<base::Power>("10 kW");
  const RuleStage plain(b.project);
  ASSERT_TRUE(plain.evidence().freest);
  const double most_m3_s = std::max(plain.evidence().state(0).solution.fans[0].inlet_flow_m3_s,
                                    plain.evidence().state(1).solution.fans[0].inlet_flow_m3_s);
  const double freest_m3_s = plain.evidence().freest->solution.fans[0].inlet_flow_m3_s;
  ASSERT_GT(freest_m3_s, 1.05 * most_m3_s);
  unit.motor.power =
      given<base::Power>(std::to_string(0.3 + 0.4 * 0.5 * (most_m3_s + freest_m3_s) * 3.6) + " kW");
  const auto findings = found(judge::kMotorOverloaded, RuleStage(b.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_FALSE(findings[0].state.has_value());
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NE(tests::told(judge::kMotorOverloaded, findings[0]).find("every gate open"), std::string::npos);
}

TEST(BlowsBack, ThroughACollectorThatStands) {
  support::ProjectBuilder b = twoFans({{0, 2400}, {700, 2000}, {1400, 1200}, {2000, 0}});
  b.project.states[0].off = {b.project.collectors[1].id};
  const RuleStage stage(b.project);
  const auto findings = found(judge::kBlowsBack, stage);
  ASSERT_EQ(findings.size(), 1U);
  const auto& fans = stage.evidence().state(0).solution.fans;
  EXPECT_EQ(findings[0].label, "C2");
  EXPECT_NEAR(findings[0].figure("flow").value, -fans[1].inlet_flow_m3_s, 1e-12);
  EXPECT_NEAR(findings[0].figure("share").value, -fans[1].flow_kg_s / fans[0].flow_kg_s, 1e-12);
  ASSERT_EQ(findings[0].remedies.size(), 1U);
  ASSERT_TRUE(findings[0].remedies[0].change);
  EXPECT_EQ(findings[0].remedies[0].change->kind, judge::ChangeKind::NonReturn);
  EXPECT_EQ(findings[0].ports, std::vector<std::size_t>{0});
  b.project.collectors[1].non_return = true;
  EXPECT_TRUE(found(judge::kBlowsBack, RuleStage(b.project)).empty());
}

TEST(BlowsBack, SilentWhileBothRun) {
  const RuleStage stage(twoFans({{0, 2400}, {700, 2000}, {1400, 1200}, {2000, 0}}).project);
  EXPECT_TRUE(found(judge::kBlowsBack, stage).empty());
}

/// Thin snap-lock of 160 mm, which bears 4 to 8 in w.g. (996 to 1993 Pa) by the shipped table.
OneMachine thinShop(double shutoff_pa) {
  OneMachine shop = oneMachine();
  support::ProjectBuilder& b = shop.builder;
  b.port(shop.port).bore = support::length("160 mm");
  shop::Leg& leg = *b.ductOf(shop.duct).corners[0].leg;
  leg.bore = support::length("160 mm");
  leg.construction = "snap-lock";
  tests::setCurve(tests::unitOf(shop), {{0, shutoff_pa}, {1000, 0.9 * shutoff_pa}, {3000, 0}});
  return shop;
}

TEST(SuctionTooGreat, ThinDuctUnderAStrongFan) {
  const RuleStage stage(thinShop(2400).builder.project);
  const auto findings = found(judge::kSuctionTooGreat, stage);
  ASSERT_EQ(findings.size(), 1U);  // one for two stretches
  EXPECT_EQ(findings[0].label, "D1");
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  const double density = stage.evidence().pieces().air.density_kg_m3 / physics::kStandardDensity_kg_m3;
  EXPECT_NEAR(findings[0].figure("suction").value, 2400 * density, 1e-6);
  EXPECT_NEAR(findings[0].figure("high").value, 8 * 249.08891, 0.01);
  EXPECT_NEAR(findings[0].badness, 2400 * density / (8 * 249.08891) - 1, 1e-6);
}

TEST(SuctionTooGreat, InsideTheBandANoteAndBelowItNothing) {
  const auto findings = found(judge::kSuctionTooGreat, RuleStage(thinShop(1500).builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_TRUE(found(judge::kSuctionTooGreat, RuleStage(thinShop(950).builder.project)).empty());
  EXPECT_TRUE(found(judge::kSuctionTooGreat, RuleStage(oneMachine().builder.project)).empty());
}

TEST(SuctionTooGreat, ALinerUnderASeparatorBeforeTheFan) {
  OneMachine shop = oneMachine();
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.label = "Y1";
  cyclone.kind = "cyclone";
  cyclone.bin_form = "bag-liner";
  tests::unitOf(shop).separators.push_back(cyclone);
  const auto findings = found(judge::kSuctionTooGreat, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].remedies[0].kind, "hold-liner");
  tests::unitOf(shop).separators[0].side = shop::FanSide::Downstream;
  EXPECT_TRUE(found(judge::kSuctionTooGreat, RuleStage(shop.builder.project)).empty());
}

TEST(LooseCollector, ThatStandsInEveryState) {
  OneMachine shop = oneMachine();
  const base::Id loose = shop.builder.collector(support::at(6, 4, 1), "100 mm", shop.room);
  shop.builder.project.states[0].off = {loose};
  const auto findings = found(judge::kLooseCollector, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].label, "C2");
  EXPECT_TRUE(found(judge::kLooseCollector, RuleStage(oneMachine().builder.project)).empty());
}

TEST(CollectorRules, AreSilentWithoutCollectorStateOrDuct) {
  support::ProjectBuilder empty;
  OneMachine bare = oneMachine();
  bare.builder.project.states.clear();
  OneMachine without = oneMachine();
  without.builder.project.ducts.clear();
  without.builder.project.collectors.clear();
  without.builder.project.states.clear();
  for (const shop::Project& project : {empty.project, bare.builder.project, without.builder.project}) {
    const RuleStage stage(project);
    for (const judge::Rule* rule : judge::collectorRules()) {
      EXPECT_TRUE(found(*rule, stage).empty()) << rule->key;
    }
  }
}

}  // namespace
}  // namespace kerfdraft
