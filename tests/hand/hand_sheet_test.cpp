// The whole sheet: its books close, its options do what they say, and shut branches cost nothing.
#include "hand/hand_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "hand/drawn.h"
#include "physics/air.h"
#include "physics/gate.h"
#include "physics/opening.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft {
namespace {

using pieces::NodeKind;
using pieces::Role;
using testing::HasSubstr;
using tests::kCfm_m3_s;
using tests::kInch_m;

const catalogue::Catalogue& tables() {
  static const catalogue::Catalogue shipped = catalogue::Catalogue::shipped().value();
  return shipped;
}

hand::HandSheet fill(const tests::Drawn& drawn, const std::vector<hand::DesignFlow>& flows,
                     const hand::Method& method = {}) {
  return hand::handSheet(drawn.pieces, tables(), flows, method).value();
}

const std::vector<hand::DesignFlow> kBoth{{0, 400 * kCfm_m3_s}, {1, 580 * kCfm_m3_s}};

/// The two branches, a main with a filter behind the fan and an outlet.
tests::Drawn withDischarge() {
  tests::Drawn drawn = tests::twoBranches();
  drawn.straight(2, 9);
  drawn.fitting(2, Role::Elbow, 0.3);
  const std::size_t outlet = drawn.node(NodeKind::Joint, "fan outlet");
  drawn.pieces.fans[0].to = outlet;
  drawn.pieces.fans[0].inlet_bore_m = 7 * kInch_m;
  drawn.pieces.fans[0].outlet_bore_m = 6 * kInch_m;
  const std::size_t stack = drawn.run(outlet, 0, 6 * kInch_m, "stack");
  pieces::Piece& filter = drawn.fitting(stack, Role::Filter, 0);
  filter.filter = 0;
  drawn.pieces.filters.push_back({drawn.nextId(), "bag", {400, 1000, 3000}});
  drawn.straight(stack, 3);
  drawn.fitting(stack, Role::Outlet, 1.0);
  return drawn;
}

TEST(HandSheet, LossesAddUpToThePressureAtTheFan) {
  const hand::HandSheet sheet = fill(withDischarge(), kBoth);
  // The governing branch, the mixing and the main lead to the fan's inlet.
  double sum_pa = 0;
  for (const std::size_t run : {std::size_t{0}, std::size_t{2}}) {
    for (const hand::SheetRow& row : sheet.suction[run].rows) {
      sum_pa += row.loss_pa;
      EXPECT_NEAR(row.running_loss_pa, sum_pa, 1e-9);
      EXPECT_NEAR(row.total_pa, -sum_pa, 1e-9);
      EXPECT_NEAR(row.static_pa, row.total_pa - row.velocity_pressure_pa, 1e-9);
      EXPECT_NEAR(row.loss_pa, row.coefficient * row.velocity_pressure_pa, 1e-9);
    }
  }
  EXPECT_NEAR(-sum_pa, sheet.fan.inlet_total_pa, 1e-9);
  double discharge_pa = 0;
  for (const hand::SheetRow& row : sheet.discharge[0].rows) {
    discharge_pa += row.loss_pa;
    EXPECT_NEAR(row.running_loss_pa, sum_pa + discharge_pa, 1e-9);
  }
  EXPECT_NEAR(discharge_pa, sheet.fan.outlet_total_pa, 1e-9);
  EXPECT_NEAR(sheet.discharge[0].rows.back().total_pa, 0, 1e-9);
  EXPECT_NEAR(sheet.fan.required_total_pa, sum_pa + discharge_pa, 1e-9);
}

TEST(HandSheet, FanStaticIsInletSuctionPlusOutletStaticLessInletVelocityPressure) {
  const hand::HandSheet sheet = fill(withDischarge(), kBoth);
  const double flow_m3_s = sheet.fan.flow_m3_s;
  const auto vp = [&](double bore_m) {
    return physics::velocityPressure(physics::kStandardDensity_kg_m3, flow_m3_s / physics::roundArea(bore_m));
  };
  const double outlet_static_pa = sheet.fan.outlet_total_pa - vp(6 * kInch_m);
  EXPECT_NEAR(sheet.fan.required_static_pa, -sheet.fan.inlet_static_pa + outlet_static_pa - vp(7 * kInch_m),
              1e-9);
}

TEST(HandSheet, DensityFactorScalesEveryPressureButTheFilter) {
  tests::Drawn drawn = withDischarge();
  drawn.pieces.air.density_kg_m3 = 0.83 * physics::kStandardDensity_kg_m3;
  const hand::HandSheet high = fill(drawn, kBoth);
  hand::Method sea_level;
  sea_level.density_factor = 1.0;
  const hand::HandSheet low = fill(drawn, kBoth, sea_level);
  EXPECT_NEAR(high.density_factor, 0.83, 1e-12);
  EXPECT_NEAR(high.fan.inlet_total_pa, 0.83 * low.fan.inlet_total_pa, 1e-9);
  EXPECT_NEAR(high.fan.flow_m3_s, low.fan.flow_m3_s, 1e-12);
  EXPECT_NEAR(high.discharge[0].rows[0].loss_pa, 1000 * high.fan.flow_m3_s, 1e-9);
  EXPECT_NEAR(low.discharge[0].rows[0].loss_pa, 1000 * low.fan.flow_m3_s, 1e-9);
}

TEST(HandSheet, FilterFollowsItsState) {
  hand::Method due;
  due.filter = shop::FilterState::Due;
  const hand::HandSheet sheet = fill(withDischarge(), kBoth, due);
  EXPECT_NEAR(sheet.discharge[0].rows[0].loss_pa, 3000 * sheet.fan.flow_m3_s, 1e-9);
}

TEST(HandSheet, GatesKeepTheDesignFlowsAndTakeTheRest) {
  hand::Method method;
  method.balancing = hand::Balancing::ByGates;
  const hand::HandSheet sheet = fill(tests::twoBranches(), kBoth, method);
  const hand::JunctionBalance& balance = sheet.junctions[0];
  EXPECT_EQ(sheet.fan.flow_m3_s, kBoth[0].flow_m3_s + kBoth[1].flow_m3_s);
  const hand::BalanceLeg& weak = balance.legs[1 - balance.governing];
  EXPECT_NEAR(weak.suction_pa + weak.gate_coefficient * weak.velocity_pressure_pa,
              balance.legs[balance.governing].suction_pa, 1e-9);
  EXPECT_EQ(balance.legs[balance.governing].gate_coefficient, 0);
}

// A branch with branches of its own takes them all along when its flow is raised.
TEST(HandSheet, CorrectionReachesEverythingUpstream) {
  tests::Drawn drawn;
  const std::size_t far = drawn.node(NodeKind::Junction, "J1");
  const std::size_t near = drawn.node(NodeKind::Junction, "J2");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "inlet");
  const std::size_t a = drawn.run(0, far, 0.1, "A");
  const std::size_t b = drawn.run(0, far, 0.1, "B");
  const std::size_t middle = drawn.run(far, near, 0.15, "middle");
  const std::size_t c = drawn.run(0, near, 0.1, "C");
  const std::size_t last = drawn.run(near, inlet, 0.18, "last");
  drawn.fitting(a, Role::Entry, 1.0);
  drawn.fitting(b, Role::Entry, 1.0);
  drawn.fitting(c, Role::Entry, 1.2);
  drawn.junction(far, {a, b}, {0, 0}, middle);
  drawn.junction(near, {middle, c}, {0, 0}, last);
  drawn.fan(inlet, 0, "F1");
  const hand::HandSheet sheet = fill(drawn, {{a, 0.16}, {b, 0.16}, {c, 0.16}});
  const hand::BalanceLeg& weak = sheet.junctions[1].legs[0];
  ASSERT_EQ(weak.verdict, hand::Verdict::CorrectFlow);
  const double factor = weak.corrected_flow_m3_s / weak.flow_m3_s;
  EXPECT_GT(factor, 1.02);
  EXPECT_NEAR(sheet.suction[0].carried_flow_m3_s, 0.16 * factor, 1e-12);
  EXPECT_NEAR(sheet.suction[1].carried_flow_m3_s, 0.16 * factor, 1e-12);
  EXPECT_EQ(sheet.suction[0].computed_flow_m3_s, 0.16);
  EXPECT_NEAR(sheet.fan.flow_m3_s, 0.32 * factor + 0.16, 1e-12);
}

TEST(HandSheet, AShutBranchCostsNothing) {
  const tests::Drawn drawn = tests::twoBranches();
  const hand::HandSheet sheet = fill(drawn, {kBoth[1]});
  ASSERT_EQ(sheet.suction.size(), 2U);
  EXPECT_EQ(sheet.junctions[0].legs.size(), 1U);
  EXPECT_EQ(sheet.junctions[0].acceleration_pa, 0);
  EXPECT_NEAR(sheet.fan.inlet_static_pa, sheet.suction[0].static_end_pa, 1e-9);
}

TEST(HandSheet, OpenGatesLoseLittle) {
  tests::Drawn drawn = tests::twoBranches();
  pieces::Piece& gate = drawn.fitting(0, Role::Gate, 0);
  gate.gate = 0;
  drawn.pieces.gates.push_back({drawn.nextId(), "G1", 4 * kInch_m, 0.0098, 0, 3});
  const hand::HandSheet sheet = fill(drawn, kBoth);
  EXPECT_NEAR(sheet.suction[0].rows[3].coefficient, 0.10, 1e-12);
}

TEST(HandSheet, ABodyWithGapsIsChargedOnceForAllItsPorts) {
  tests::Drawn drawn = tests::twoBranches();
  const std::size_t body = drawn.node(NodeKind::Body, "T1");
  pieces::Opening gaps;
  gaps.from = 0;
  gaps.to = body;
  gaps.area_m2 = 0.02;
  drawn.pieces.openings.push_back(gaps);
  drawn.pieces.runs[0].from = body;
  drawn.pieces.runs[1].from = body;
  const hand::HandSheet sheet = fill(drawn, kBoth);
  const double flow_m3_s = kBoth[0].flow_m3_s + kBoth[1].flow_m3_s;
  const double speed_m_s = flow_m3_s / (0.61 * 0.02);
  const double expected_pa = 0.5 * physics::kStandardDensity_kg_m3 * speed_m_s * speed_m_s;
  EXPECT_NEAR(sheet.suction[0].rows[0].loss_pa, expected_pa, 1e-9);
  EXPECT_NEAR(sheet.suction[1].rows[0].loss_pa, expected_pa, 1e-9);
  EXPECT_EQ(sheet.suction[0].rows[0].label, "gaps of T1");
}

TEST(HandSheet, AnEntryBeyondTheTableSaysSo) {
  tests::Drawn drawn = tests::twoBranches();
  drawn.pieces.junctions[0].angle_rad[1] = tests::radians(120);
  const hand::HandSheet sheet = fill(drawn, kBoth);
  EXPECT_EQ(sheet.suction[1].rows.back().coefficient, 1.0);
  EXPECT_THAT(sheet.suction[1].rows.back().remark, HasSubstr("90°"));
}

TEST(HandSheet, RefusesADensityFactorThatIsNone) {
  hand::Method method;
  method.density_factor = 0.01;
  const auto sheet = hand::handSheet(tests::twoBranches().pieces, tables(), kBoth, method);
  ASSERT_FALSE(sheet.has_value());
  EXPECT_THAT(sheet.error().message, HasSubstr("0.01"));
}

TEST(HandSheet, PowerLawTakesOneRowForHoseHoweverItHangs) {
  tests::Drawn drawn = tests::twoBranches();
  pieces::Piece& hose = drawn.straight(0, 3, 0.09e-3);
  hose.key.role = Role::Hose;
  hose.multiplier = 6;
  hand::Method power;
  power.friction = hand::FrictionRule::PowerLaw;
  const hand::SheetRow row = fill(drawn, kBoth, power).suction[0].rows[3];
  const hand::SheetRow darcy = fill(drawn, kBoth).suction[0].rows[3];
  EXPECT_EQ(row.friction_factor, 0);
  EXPECT_THAT(row.remark, HasSubstr("pulled tight"));
  EXPECT_GT(darcy.friction_coefficient, 3 * row.friction_coefficient);
}

}  // namespace
}  // namespace kerfdraft
