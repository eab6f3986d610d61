// The pencil method against the worked rows of the exhaust trade. V1 and N1 are published practice questions;
// the other rows are computed with the trade's formulas, as each line says. Pressures of the rows are inches
// of water of 248.64 Pa (68 F), the one that belongs to V = 4005 sqrt(VP): that constant is 4004.94 exactly,
// so pressures agree to 4e-5, flows and ratios to the digits printed.
#include <gtest/gtest.h>

#include "catalogue/catalogue.h"
#include "hand/drawn.h"
#include "hand/hand_sheet.h"
#include "hand/laws.h"
#include "physics/air.h"
#include "physics/friction.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft {
namespace {

using tests::kCfm_m3_s;
using tests::kFeet_m;
using tests::kFpm_m_s;
using tests::kInch_m;
using tests::kTradeInch_pa;

constexpr double kOf4005 = 4e-5;

/// Within the relative difference of 4005 and the row's printed digits.
void expectInches(double pa, double inches) {
  EXPECT_NEAR(pa / kTradeInch_pa, inches, inches * kOf4005 + 6e-6);
}

double vpOf(double cfm, double inches) {
  return physics::velocityPressure(physics::kStandardDensity_kg_m3,
                                   cfm * kCfm_m3_s / physics::roundArea(inches * kInch_m));
}

const catalogue::Catalogue& tables() {
  static const catalogue::Catalogue shipped = catalogue::Catalogue::shipped().value();
  return shipped;
}

hand::HandSheet sheetOf(const tests::Drawn& drawn, double cfm1, double cfm2) {
  hand::Method method;
  method.friction = hand::FrictionRule::PowerLaw;
  const std::vector<hand::DesignFlow> flows{{0, cfm1 * kCfm_m3_s}, {1, cfm2 * kCfm_m3_s}};
  return hand::handSheet(drawn.pieces, tables(), flows, method).value();
}

// Published: practice questions keyed to the numbered equations of the industrial-hygiene examination sheet.
TEST(PublishedHand, V1ResultantVelocityPressure) {
  EXPECT_NEAR(hand::resultantVelocityPressure(200, 1.5, 300, 2.0), 1.80, 1e-12);
}

// Computed: V = 4005 sqrt(VP), VPr and VP3 - VPr of AcgihIv ch. 5.
TEST(PublishedHand, V2ToV4MainsMustGrow) {
  struct Row {
    double cfm1, in1, cfm2, in2, main_in, vpr, vp3, extra;
  };
  const Row rows[] = {
      {800, 6, 350, 4, 7, 1.02517, 1.15437, 0.12919},
      {785, 6, 350, 4, 6, 0.99845, 2.08318, 1.08473},
      {800, 6, 400, 4, 8, 1.12658, 0.73679, 0.0},
  };
  for (const Row& row : rows) {
    const double vpr_pa =
        hand::resultantVelocityPressure(row.cfm1, vpOf(row.cfm1, row.in1), row.cfm2, vpOf(row.cfm2, row.in2));
    const double vp3_pa = vpOf(row.cfm1 + row.cfm2, row.main_in);
    expectInches(vpr_pa, row.vpr);
    expectInches(vp3_pa, row.vp3);
    EXPECT_NEAR(hand::accelerationPressure(vp3_pa, vpr_pa) / kTradeInch_pa, row.extra, 5e-5);
  }
  expectInches(vpOf(800, 6), 1.03494);
  expectInches(vpOf(350, 4), 1.00285);
}

// Published: the same practice questions. A ratio of 4 would be designed again in earnest.
TEST(PublishedHand, N1CorrectedFlow) {
  EXPECT_NEAR(hand::balancedFlow(1500, 4, 1), 3000, 1e-9);
  EXPECT_EQ(hand::judgeBalance(hand::balanceRatio(4, 1)), hand::Verdict::Redesign);
}

// Computed: square roots of the ratios. Limits of 1.05 and 1.20: AcgihIv ch. 5, from memory.
TEST(PublishedHand, N2CorrectionByRatio) {
  EXPECT_NEAR(100 * (hand::balancedFlow(1, 1.05, 1) - 1), 2.4695, 5e-5);
  EXPECT_NEAR(100 * (hand::balancedFlow(1, 1.10, 1) - 1), 4.8809, 5e-5);
  EXPECT_NEAR(100 * (hand::balancedFlow(1, 1.15, 1) - 1), 7.2381, 5e-5);
  EXPECT_NEAR(100 * (hand::balancedFlow(1, 1.20, 1) - 1), 9.5445, 5e-5);
}

// Computed: Loeffler's friction (from memory), entry 0.18 at 30 degrees (AcgihIv Fig. 5-13, from memory).
TEST(PublishedHand, N3AndN4BranchesOfATwoBranchSystem) {
  const hand::HandSheet sheet = sheetOf(tests::twoBranches(), 400, 580);
  ASSERT_EQ(sheet.suction.size(), 3U);
  const hand::HandRun& first = sheet.suction[0];
  const hand::HandRun& second = sheet.suction[1];
  ASSERT_EQ(first.rows.size(), 4U);
  EXPECT_NEAR(first.rows[1].speed_m_s / kFpm_m_s, 4583.66, 5e-3);
  expectInches(first.rows[1].velocity_pressure_pa, 1.30985);
  EXPECT_NEAR(first.rows[1].friction_coefficient / 15, 0.070162, 5e-7);
  EXPECT_NEAR(first.rows[3].local_coefficient, 0.18, 1e-12);
  expectInches(-first.static_end_pa, 4.03751);
  EXPECT_NEAR(second.rows[1].speed_m_s / kFpm_m_s, 4253.64, 5e-3);
  expectInches(second.rows[1].velocity_pressure_pa, 1.12802);
  EXPECT_NEAR(second.rows[1].friction_coefficient / 25, 0.053709, 5e-7);
  expectInches(-second.static_end_pa, 3.66914);
  double k1 = 1;
  for (const hand::SheetRow& row : first.rows) {
    k1 += row.coefficient;
  }
  EXPECT_NEAR(k1, 3.08243, 5e-6);
  double k2 = 1;
  for (const hand::SheetRow& row : second.rows) {
    k2 += row.coefficient;
  }
  EXPECT_NEAR(k2, 3.25273, 5e-6);

  ASSERT_EQ(sheet.junctions.size(), 1U);
  const hand::BalanceLeg& weak = sheet.junctions[0].legs[1];
  EXPECT_EQ(sheet.junctions[0].governing, 0U);
  EXPECT_NEAR(weak.ratio, 1.10040, 5e-6);
  EXPECT_EQ(weak.verdict, hand::Verdict::CorrectFlow);
  EXPECT_NEAR(weak.corrected_flow_m3_s / kCfm_m3_s, 608.42, 5e-3);
}

// Computed: the flow at which branch 2 really takes the governing suction, 0.08 % above the corrected one.
TEST(PublishedHand, N4ExactFlow) {
  const tests::Drawn drawn = tests::twoBranches();
  const double governing_pa = -sheetOf(drawn, 400, 580).suction[0].static_end_pa;
  double low = 580;
  double high = 640;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (-sheetOf(drawn, 400, middle).suction[1].static_end_pa < governing_pa ? low : high) = middle;
  }
  EXPECT_NEAR(low, 608.90, 5e-3);
}

// Computed.
TEST(PublishedHand, N5BeyondOnePointTwoIsDesignedAgain) {
  const hand::HandSheet sheet = sheetOf(tests::twoBranches(), 400, 550);
  expectInches(-sheet.suction[1].static_end_pa, 3.30512);
  EXPECT_NEAR(sheet.junctions[0].legs[1].ratio, 1.22159, 5e-6);
  EXPECT_EQ(sheet.junctions[0].legs[1].verdict, hand::Verdict::Redesign);
  EXPECT_TRUE(sheet.redesign);

  const hand::HandSheet wider = sheetOf(tests::twoBranches({4.5, 7}), 400, 550);
  expectInches(-wider.suction[0].static_end_pa, 2.41905);
  EXPECT_EQ(wider.junctions[0].governing, 1U);
  EXPECT_NEAR(wider.junctions[0].legs[0].ratio, 1.366, 5e-4);
}

// Computed.
TEST(PublishedHand, N6IntoTheMain) {
  const hand::HandSheet seven = sheetOf(tests::twoBranches(), 400, 580);
  const hand::JunctionBalance& into7 = seven.junctions[0];
  EXPECT_NEAR(seven.suction[2].computed_flow_m3_s / kCfm_m3_s, 1008.42, 5e-3);
  EXPECT_NEAR(seven.suction[2].computed_flow_m3_s / physics::roundArea(7 * kInch_m) / kFpm_m_s, 3773.27,
              2e-2);
  expectInches(into7.resultant_pa, 1.26847);
  expectInches(into7.main_pa, 0.88763);
  EXPECT_EQ(into7.acceleration_pa, 0);
  expectInches(into7.suction_pa, 4.03751);
  expectInches(-seven.fan.inlet_static_pa, 4.03751);

  const hand::HandSheet six = sheetOf(tests::twoBranches({4, 6}), 400, 580);
  expectInches(six.junctions[0].main_pa, 1.64444);
  EXPECT_NEAR(six.junctions[0].acceleration_pa / kTradeInch_pa, 0.37597, 7e-5);
  expectInches(six.junctions[0].suction_pa, 4.41348);
  expectInches(-six.fan.inlet_static_pa, 4.41348);
}

// Computed, columns "Loeffler" and "Colebrook 5e-4 ft" of rows G1 to G11 (inches of 248.84 Pa): over shop
// sizes the trade's power law lies 0 to 4 % above Colebrook-White with 0.15 mm.
TEST(PublishedHand, TradeFrictionStandsBesideColebrook) {
  struct Row {
    double bore_in, cfm, loeffler;
  };
  const Row rows[] = {{3, 200, 10.4228}, {4, 350, 7.1109},   {4, 400, 9.1902},  {5, 550, 5.4709},
                      {6, 600, 2.5675},  {6, 800, 4.4619},   {7, 1000, 3.1372}, {8, 1000, 1.5950},
                      {8, 1400, 3.0441}, {10, 2200, 2.3421}, {12, 3200, 1.9101}};
  for (const Row& row : rows) {
    const double bore_m = row.bore_in * kInch_m;
    const double flow_m3_s = row.cfm * kCfm_m3_s;
    const double speed_m_s = flow_m3_s / physics::roundArea(bore_m);
    const double vp_pa = physics::velocityPressure(physics::kStandardDensity_kg_m3, speed_m_s);
    const double power_pa =
        100 * hand::tradeFrictionPerFoot(hand::kGalvanizedFriction, speed_m_s, flow_m3_s) * vp_pa;
    // The rows' velocity pressures are (V/4005)^2, so again the inch of 68 F.
    EXPECT_NEAR(power_pa / kTradeInch_pa, row.loeffler, row.loeffler * kOf4005 + 6e-5);
    const double colebrook_pa =
        physics::frictionLoss(physics::kStandardDensity_kg_m3 * flow_m3_s, physics::kStandardDensity_kg_m3,
                              physics::kStandardViscosity_pa_s, bore_m, 100 * kFeet_m,
                              5e-4 * kFeet_m / bore_m)
            .dp_pa;
    EXPECT_GT(power_pa / colebrook_pa, 1.0);
    EXPECT_LT(power_pa / colebrook_pa, 1.045);
  }
}

// Computed: control volume for equal speeds and conserved area gives 2 a (1 - cos); at a = 0.5 the practice
// table is that within 0.06.
TEST(PublishedHand, PracticeFactorsAreTheMomentumLawAtEqualSpeeds) {
  const catalogue::Curve curve = tables().curve("branch_entry_k", "practice").value();
  for (const double degrees : {10.0, 20.0, 30.0, 45.0, 60.0, 90.0}) {
    const double factor = hand::branchEntry({curve.x, curve.y}, tests::radians(degrees)).value;
    EXPECT_NEAR(factor, 1 - std::cos(tests::radians(degrees)), 0.061) << degrees;
  }
}

}  // namespace
}  // namespace kerfdraft
