// Pieces in air: falling, saltation, pickup, and what dust costs; the models never lower the trade's minimum.
#include "physics/conveying.h"

#include <gtest/gtest.h>

#include <cmath>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

constexpr double kRho = 1.2;
constexpr double kMu = 1.81e-5;

TEST(Conveying, ASmallBallFallsByStokes) {
  const double v = terminalSpeed({2e-6, 650, 1}, kRho, kMu);
  EXPECT_NEAR(v, (650 - kRho) * kStandardGravity_m_s2 * 4e-12 / (18 * kMu), 1e-3 * v);
}

TEST(Conveying, TerminalSpeedBalancesWeightAndDrag) {
  for (const double s : {0.3, 0.5, 0.8, 1.0}) {
    for (const double d : {1e-5, 1e-4, 1e-3, 1e-2}) {
      const Piece piece{d, 650, s};
      const double v = terminalSpeed(piece, kRho, kMu);
      const double drag = dragCoefficient(kRho * v * d / kMu, s) * 0.5 * kRho * v * v;
      const double weight = 2.0 / 3 * (650 - kRho) * kStandardGravity_m_s2 * d;
      EXPECT_NEAR(drag, weight, 1e-9 * weight) << d << " " << s;
    }
  }
}

TEST(Conveying, WhatIsLighterThanAirDoesNotFall) {
  EXPECT_EQ(terminalSpeed({1e-3, 1.0, 1}, kRho, kMu), 0);
  EXPECT_EQ(terminalSpeed({0, 650, 1}, kRho, kMu), 0);
}

TEST(Conveying, FlakesFallSlowerThanBalls) {
  EXPECT_LT(terminalSpeed({3e-3, 650, 0.5}, kRho, kMu), terminalSpeed({3e-3, 650, 1}, kRho, kMu));
}

TEST(Conveying, ModelsSolveTheirOwnEquation) {
  const Carried carried{32e-3, 0.1, kRho};
  const Piece piece{1e-3, 650, 0.7};
  const double vt = terminalSpeed(piece, kRho, kMu);
  const auto load = [&](double u) { return 32e-3 / (kRho * u * roundArea(0.1)); };
  const auto froude = [&](double u) { return u / std::sqrt(kStandardGravity_m_s2 * 0.1); };
  const double frp = vt / std::sqrt(kStandardGravity_m_s2 * 1e-3);
  const double rizk = saltationRizk(carried, 1e-3);
  EXPECT_NEAR(load(rizk), std::pow(10.0, -3.4) * std::pow(froude(rizk), 3.6), 1e-9);
  const double m74 = saltationMatsumoto1974(carried, piece, vt);
  EXPECT_NEAR(load(m74),
              0.448 * std::sqrt(650 / kRho) * std::pow(frp / 10, -1.75) * std::pow(froude(m74) / 10, 3),
              1e-9);
  const double m75 = saltationMatsumoto1975(carried, piece, vt);
  EXPECT_NEAR(load(m75),
              1.11 * std::pow(650 / kRho, 0.55) * std::pow(frp / 10, -2.3) * std::pow(froude(m75) / 10, 3),
              1e-9);
  const double m77 = saltationMatsumoto1977(carried, piece, vt);  // fine: 1 mm is below d* = 1.3 mm
  EXPECT_NEAR(load(m77), 5560 * std::pow(0.01, 1.43) * std::pow(froude(m77) / 10, 4), 1e-9);
  const Piece coarse{3e-3, 650, 0.5};
  const double vc = terminalSpeed(coarse, kRho, kMu);
  const double c77 = saltationMatsumoto1977(carried, coarse, vc);
  EXPECT_NEAR(load(c77),
              0.373 * std::pow(650 / kRho, 1.06) *
                  std::pow(vc / std::sqrt(kStandardGravity_m_s2 * 3e-3) / 10, -3.7) *
                  std::pow(froude(c77) / 10, 3.61),
              1e-9);
  const Pickup cabrejos = pickupCabrejosKlinzing(piece, 0.1, kRho, kMu);
  EXPECT_NEAR(cabrejos.speed_m_s / std::sqrt(kStandardGravity_m_s2 * 1e-3),
              0.0428 * std::pow(kRho * cabrejos.speed_m_s * 1e-3 / kMu, 0.175) * std::pow(100, 0.25) *
                  std::pow(650 / kRho, 0.75),
              1e-9);
  EXPECT_FALSE(cabrejos.in_range);
  EXPECT_TRUE(pickupCabrejosKlinzing({1e-3, 1500, 1}, 0.1, kRho, kMu).in_range);
}

TEST(Conveying, WiderBoresAndMoreDustNeedMoreSpeed) {
  const Piece piece{1e-3, 650, 0.7};
  const double vt = terminalSpeed(piece, kRho, kMu);
  const Carried narrow{32e-3, 0.1, kRho};
  const Carried heavy{64e-3, 0.1, kRho};
  EXPECT_GT(saltationRizk(heavy, 1e-3), saltationRizk(narrow, 1e-3));
  EXPECT_GT(saltationMatsumoto1974(heavy, piece, vt), saltationMatsumoto1974(narrow, piece, vt));
  EXPECT_GT(pickupKalman(piece, 0.2, kRho, kMu).speed_m_s, pickupKalman(piece, 0.1, kRho, kMu).speed_m_s);
}

TEST(Conveying, AtWorkshopLoadsEveryModelStaysBelowTheTradesMinimum) {
  // The stated reading of the models: 3 to 12.5 m/s, against 15 m/s (3000 fpm), so they never decide.
  const struct {
    double solids, size, bore, sphericity;
  } cases[] = {
      {3.5e-3, 0.5e-3, 0.1, 0.8}, {32e-3, 1e-3, 0.1, 0.7}, {88e-3, 3e-3, 0.16, 0.5}, {32e-3, 3e-3, 0.2, 0.5}};
  for (const auto& c : cases) {
    const Piece piece{c.size, 650, c.sphericity};
    const Carried carried{c.solids, c.bore, kRho};
    const double vt = terminalSpeed(piece, kRho, kMu);
    for (const double u :
         {saltationRizk(carried, c.size), saltationMatsumoto1974(carried, piece, vt),
          saltationMatsumoto1975(carried, piece, vt), saltationMatsumoto1977(carried, piece, vt),
          pickupKalman(piece, c.bore, kRho, kMu).speed_m_s}) {
      EXPECT_GT(u, 2);
      EXPECT_LT(u, 15.24);
    }
  }
}

TEST(Conveying, SolidsRatioIsAtMostOne) {
  EXPECT_NEAR(solidsRatio(0.032, 0.27), 0.032 / 0.27, 1e-15);
  EXPECT_EQ(solidsRatio(5, 0.1), 1);
  EXPECT_EQ(solidsRatio(5, 0), 0);
}

TEST(Conveying, DustCostsFrictionAndAcceleration) {
  EXPECT_DOUBLE_EQ(dustFrictionFactor(0), 1);
  EXPECT_DOUBLE_EQ(dustFrictionFactor(0.12), 1.06);
  const double area = roundArea(0.1);
  const double m = 20 * kRho * area;
  EXPECT_NEAR(dustAcceleration(0.12, m, kRho, area).dp_pa, 0.8 * 0.12 * kRho * 400, 1e-9);
  EXPECT_EQ(dustAcceleration(0.12, -m, kRho, area).dp_pa, 0);
  for (const double x : {-0.2, 0.0, 0.05, 0.3}) {
    const double numeric = tests::centralDifference(
        [&](double f) { return dustAcceleration(0.12, f, kRho, area).dp_pa; }, x, 0.1);
    EXPECT_NEAR(dustAcceleration(0.12, x, kRho, area).slope_pa_s_kg, numeric, 1e-3 + 1e-6 * numeric);
  }
}

TEST(Conveying, ThinAirRaisesTheMinimumAndDenseAirDoesNotLowerIt) {
  EXPECT_NEAR(minimumSpeedAt(20, 0.81 * kStandardDensity_kg_m3), 20 / 0.9, 1e-12);
  EXPECT_EQ(minimumSpeedAt(20, 1.3), 20);
}

TEST(Conveying, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  const Piece piece{1e-3, 650, 0.7};
  EXPECT_EQ(terminalSpeed(piece, kRho, kMu, recorder), terminalSpeed(piece, kRho, kMu));
  EXPECT_EQ(saltationRizk({0.03, 0.1, kRho}, 1e-3, recorder), saltationRizk({0.03, 0.1, kRho}, 1e-3));
  EXPECT_EQ(minimumSpeedAt(20, 1.0, recorder), minimumSpeedAt(20, 1.0));
  ASSERT_EQ(recorder.steps().size(), 4U);
  EXPECT_EQ(recorder.steps()[1].law->key, "terminal-speed");
}

}  // namespace
}  // namespace kerfdraft::physics
