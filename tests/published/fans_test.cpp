// Rows P, P2, O and woodshop rows on fans against named sources, and the curve against scipy.
// "computed" rows repeat the named formula by another program; "published" rows were read in print.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <numbers>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "physics/fan.h"
#include "units.h"

namespace kerfdraft::physics {
namespace {

using published::kCfm_m3_s;
using published::kFoot_m;

constexpr double kStandard_kg_m3 = 0.075 * 0.45359237 / (kFoot_m * kFoot_m * kFoot_m);
constexpr double kHorsepower_w = 745.699872;

TEST(PublishedFanCurve, AgreesWithScipy) {
  // scipy 1.10.1 PchipInterpolator, vectors/make_pchip.py.
  std::ifstream file(std::string(KERFDRAFT_SOURCE_DIR) + "/tests/published/vectors/pchip.csv");
  std::stringstream text;
  text << file.rdbuf();
  const auto rows = base::parseCsv(text.str(), "pchip.csv");
  ASSERT_TRUE(rows) << rows.error().text();
  std::map<std::string, std::vector<FanPoint>> knots;
  for (const auto& row : *rows) {
    if (row.cells.at(4) == "knot") {
      knots[row.cells[0]].push_back({std::stod(row.cells[1]), std::stod(row.cells[2])});
    }
  }
  ASSERT_EQ(knots.size(), 19U);
  std::map<std::string, FanCurve> curves;
  for (const auto& [name, points] : knots) {
    auto curve = makeFanCurve(points);
    ASSERT_TRUE(curve) << name << ": " << curve.error().text();
    curves.emplace(name, *curve);
  }
  int compared = 0;
  for (const auto& row : *rows) {
    if (row.cells[4] == "kind") {
      continue;
    }
    const FanCurve& curve = curves.at(row.cells[0]);
    const double x = std::stod(row.cells[1]);
    const double steepest = curve.peak().p_pa / (curve.lastFlow() - curve.firstFlow());
    EXPECT_NEAR(curve.value(x).p_pa, std::stod(row.cells[2]), 1e-12 * curve.peak().p_pa) << row.line;
    EXPECT_NEAR(curve.value(x).dp_d_q, std::stod(row.cells[3]), 1e-10 * steepest) << row.line;
    ++compared;
  }
  EXPECT_GT(compared, 480);
}

/// Flow where the falling difference fan - system is zero.
double operatingFlow(const std::function<double(double)>& excess, double low, double high) {
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    (excess(middle) > 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// The law 10 - 2.5e-6 Q^2 of rows O1 to O6, in the rows' own units (cfm and inches), to which a curve is
/// blind.
FanCurve rowLaw() {
  return *makeLawCurve(10, std::sqrt(10 / 2.5e-6));
}

TEST(PublishedFan, OperatingPointsOnASquareLaw) {
  // O1, O2, O3 computed: fan p = 10 - 2.5e-6 Q^2 with systems k Q^2. Also closed forms.
  const struct {
    const char* id;
    double k, flow, p;
  } rows[] = {
      {"O1", 4e-6, 1240.347, 6.15385}, {"O2", 2e-6, 1490.712, 4.44444}, {"O3", 8e-6, 975.900, 7.61905}};
  const FanCurve fan = rowLaw();
  for (const auto& row : rows) {
    const double q = operatingFlow([&](double x) { return fan.value(x).p_pa - row.k * x * x; }, 0, 4000);
    EXPECT_NEAR(q, row.flow, 5.1e-4) << row.id;
    EXPECT_NEAR(fan.value(q).p_pa, row.p, 5.1e-6) << row.id;
  }
}

TEST(PublishedFan, OperatingPointOnAShapePreservingCurve) {
  // O4 computed with scipy: 1053.8414 cfm, 8.32936 in w.g.
  const auto fan =
      makeFanCurve(std::vector<FanPoint>{{0, 10.8}, {400, 10.9}, {800, 9.8}, {1200, 7.2}, {1600, 3.0}});
  ASSERT_TRUE(fan);
  const double q = operatingFlow([&](double x) { return fan->value(x).p_pa - 7.5e-6 * x * x; }, 400, 1600);
  EXPECT_NEAR(q, 1053.8414, 5.1e-5);
  EXPECT_NEAR(fan->value(q).p_pa, 8.32936, 5.1e-6);
}

TEST(PublishedFan, TwoFansInSeriesAndInParallel) {
  // O5, O6 computed: two O1 fans on 4e-6 Q^2.
  const FanCurve fan = rowLaw();
  const double series =
      operatingFlow([&](double x) { return 2 * fan.value(x).p_pa - 4e-6 * x * x; }, 0, 4000);
  EXPECT_NEAR(series, 1490.712, 5.1e-4);
  EXPECT_NEAR(2 * fan.value(series).p_pa, 8.88889, 5.1e-6);
  const double parallel =
      operatingFlow([&](double x) { return fan.value(x / 2).p_pa - 4e-6 * x * x; }, 0, 4000);
  EXPECT_NEAR(parallel, 1470.429, 5.1e-4);
  EXPECT_NEAR(fan.value(parallel / 2).p_pa, 8.64865, 5.1e-6);
}

TEST(PublishedFan, PressureThatParallelIntakesNeed) {
  // O7, published formula (a fluid-mechanics textbook, example 14.6), numbers computed: four 0.15 m ducts, 10
  // m, K 4, 0.2 m3/s each, Fanning 0.008; 0.3 m main of 20 m and a transition of 20 D; 1.2 kg/m3.
  const auto loss = [](double k, double flow_m3_s, double bore_m) {
    return localLoss(k, k, flow_m3_s * 1.2, 1.2, roundArea(bore_m)).dp_pa;
  };
  EXPECT_NEAR(meanSpeed(0.2 * 1.2, 1.2, roundArea(0.15)), 11.31768, 5.1e-6);
  const double intake = loss(4 + 4 * 0.008 * 10 / 0.15, 0.2, 0.15);
  const double main = loss(4 * 0.008 * (20 / 0.3 + 20), 0.8, 0.3);
  EXPECT_NEAR(intake, 471.371, 5.1e-4);
  EXPECT_NEAR(main, 213.142, 5.1e-4);
  EXPECT_NEAR(intake + main, 684.513, 5.1e-4);
}

TEST(PublishedFan, InletAndOutletReadings) {
  // P1 computed: 1000 cfm, inlet 7 in at -6.2, outlet 6 in at +0.8 in w.g.; the row's inch is that of 68 F
  // water, 248.64 Pa (its velocity pressures are (V/4004.9)^2).
  constexpr double kInch_pa = 248.64;
  const double q = 1000 * kCfm_m3_s;
  const auto vp_in_w_g = [&](double bore_in) {
    return velocityPressure(kStandard_kg_m3, q / roundArea(bore_in * 0.0254)) / kInch_pa;
  };
  EXPECT_NEAR(vp_in_w_g(7), 0.872867, 3.2e-5 * 0.873);
  EXPECT_NEAR(vp_in_w_g(6), 1.617094, 3.2e-5 * 1.618);
  // A curve whose point at this flow is the row's fan static pressure: the rating adds the outlet's velocity
  // pressure.
  const double fan_static_pa = 6.127133 * kInch_pa;
  const auto rating = makeFanRating(
      std::vector<FanPoint>{{0, 2000}, {q, fan_static_pa}, {2 * q, 0}},
      {.basis = RatingBasis::FanStatic, .density_kg_m3 = kStandard_kg_m3, .outlet_bore_m = 6 * 0.0254});
  ASSERT_TRUE(rating);
  const double total_pa = fanRise(*rating, q, kStandard_kg_m3, kStandard_kg_m3).p_pa;
  EXPECT_NEAR(total_pa / kInch_pa, 7.744227, 3.2e-5 * 1.618);
  // The inlet reading as static in the inlet pipe: 6.2 less the velocity pressure of 7 in.
  const auto inlet = makeFanRating(
      std::vector<FanPoint>{{0, 2000}, {q, 6.2 * kInch_pa}, {2 * q, 0}},
      {.basis = RatingBasis::StaticAtInlet, .density_kg_m3 = kStandard_kg_m3, .test_bore_m = 7 * 0.0254});
  ASSERT_TRUE(inlet);
  EXPECT_NEAR(fanRise(*inlet, q, kStandard_kg_m3, kStandard_kg_m3).p_pa / kInch_pa, 6.2 - 0.872867,
              3.2e-5 * 0.873);
  const double air_w = airPower(q, total_pa);
  EXPECT_NEAR(air_w / kHorsepower_w, 1.218412, 3e-4);
  EXPECT_NEAR(shaftPower(air_w, 0.6) / kHorsepower_w, 2.030687, 5e-4);
  EXPECT_NEAR(shaftPower(air_w, 0.6), 1514.28, 0.4);
}

TEST(PublishedFan, FanLawTable) {
  // P2, published curve (36 in, 600 rpm, 0.075 lb/ft3: a fluid-mechanics textbook, example 10.11), scaled
  // there to 42 in, 1150 rpm, 0.045 lb/ft3; factors computed.
  const FanScale scale = fanLaws(1150.0 / 600, 42.0 / 36, 0.045 / 0.075);
  EXPECT_NEAR(scale.flow, 3.04359568, 5.1e-9);
  EXPECT_NEAR(scale.pressure, 3.00011574, 5.1e-9);
  EXPECT_NEAR(scale.power, 9.13113931, 5.1e-9);
  const struct {
    double q1, p1, w1, efficiency, q2, p2, w2;
  } rows[] = {{0, 3.68, 11.1, 0, 0, 11.0404, 101.356},
              {10000, 3.75, 15.1, 39.07, 30436.0, 11.2504, 137.880},
              {20000, 3.50, 18.6, 59.21, 60871.9, 10.5004, 169.839},
              {30000, 2.96, 21.4, 65.29, 91307.9, 8.8803, 195.406},
              {40000, 2.12, 23.1, 57.76, 121743.8, 6.3602, 210.929},
              {50000, 1.02, 23.1, 34.74, 152179.8, 3.0601, 210.929},
              {60000, 0, 21.0, 0, 182615.7, 0, 191.754}};
  for (const auto& row : rows) {
    EXPECT_NEAR(row.q1 * scale.flow, row.q2, 0.051);
    EXPECT_NEAR(row.p1 * scale.pressure, row.p2, 5.1e-5);
    EXPECT_NEAR(row.w1 * scale.power, row.w2, 5.1e-4);
    // Efficiency as the row computed it, with 6356 cfm in w.g. per horsepower.
    EXPECT_NEAR(100 * airPower(row.q1, row.p1) / 6356 / row.w1, row.efficiency, 0.0051);
  }
}

TEST(PublishedFan, SimpleFanLawChecks) {
  // Computed: 3450 to 3000 rpm, 12 to 14 in, and 5000 ft (density ratio 0.83209).
  const FanScale slower = fanLaws(3000.0 / 3450, 1, 1);
  EXPECT_NEAR(slower.flow, 0.869565, 5.1e-7);
  EXPECT_NEAR(slower.pressure, 0.756144, 5.1e-7);
  EXPECT_NEAR(slower.power, 0.657516, 5.1e-7);
  const FanScale larger = fanLaws(1, 14.0 / 12, 1);
  EXPECT_NEAR(larger.flow, 1.587963, 5.1e-7);
  EXPECT_NEAR(larger.pressure, 1.361111, 5.1e-7);
  EXPECT_NEAR(larger.power, 2.161394, 5.1e-7);
  const FanScale higher = fanLaws(1, 1, 0.83209);
  EXPECT_NEAR(higher.flow, 1, 1e-15);
  EXPECT_NEAR(higher.pressure, 0.83209, 1e-15);
  EXPECT_NEAR(higher.power, 0.83209, 1e-15);
}

TEST(PublishedFan, ShaftPowerAndTipSpeedOfATwelveInchWheel) {
  // Computed: 800 cfm at 8 in w.g., 50 % gives 2.0 hp; 12 in at 3450 rpm: rho u^2 3638 Pa, shut-off 8.8
  // to 9.5 in w.g. (coefficients common practice). Tolerance 2 % as the row states.
  constexpr double kInch_pa = 249.08891;
  EXPECT_NEAR(shaftPower(airPower(800 * kCfm_m3_s, 8 * kInch_pa), 0.5) / kHorsepower_w, 2.0, 0.04);
  const double speed = 3450 * 2 * std::numbers::pi / 60;
  const WheelCheck check = checkWheel(9 * kInch_pa, 12 * 0.0254, speed, 1.2);
  EXPECT_NEAR(check.tip_pressure_pa, 3638, 0.5);
  EXPECT_NEAR(check.shutoff_low_pa / kInch_pa, 8.8, 0.05);
  EXPECT_NEAR(check.shutoff_high_pa / kInch_pa, 9.5, 0.05);
  EXPECT_FALSE(check.above_wheel);
  // Computed, common practice: other wheels, in w.g. at 3450 rpm and kPa at 2900 rpm.
  const struct {
    double wheel_m, rpm, unit_pa, low, high;
  } rows[] = {{10 * 0.0254, 3450, kInch_pa, 6.1, 6.6},
              {14 * 0.0254, 3450, kInch_pa, 11.9, 12.9},
              {15 * 0.0254, 3450, kInch_pa, 13.7, 14.8},
              {16 * 0.0254, 3450, kInch_pa, 15.6, 16.9},
              {0.28, 2900, 1000, 1.30, 1.41},
              {0.30, 2900, 1000, 1.49, 1.62},
              {0.35, 2900, 1000, 2.03, 2.20},
              {0.40, 2900, 1000, 2.66, 2.88}};
  for (const auto& row : rows) {
    const WheelCheck wheel = checkWheel(1, row.wheel_m, row.rpm * 2 * std::numbers::pi / 60, 1.2);
    const double tolerance = row.unit_pa > 500 ? 0.0051 : 0.051;
    EXPECT_NEAR(wheel.shutoff_low_pa / row.unit_pa, row.low, tolerance) << row.wheel_m;
    EXPECT_NEAR(wheel.shutoff_high_pa / row.unit_pa, row.high, tolerance) << row.wheel_m;
  }
}

}  // namespace
}  // namespace kerfdraft::physics
