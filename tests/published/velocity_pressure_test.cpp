// Rows B1 to B12: velocity pressure in the trade's units. Every row names the inch of water that it used.
// Source of the trade form: ACGIH Industrial Ventilation, as used in certification practice sets (read).
#include "physics/velocity_pressure.h"

#include <gtest/gtest.h>

#include <cmath>

#include "physics/air.h"
#include "units.h"

namespace kerfdraft::physics {
namespace {

using published::kFoot_m;
using published::kFpm_m_s;

constexpr double kInch4C_pa = 249.08891;  // conventional water, 4 C
constexpr double kInch60F_pa = 248.84;    // water at 60 F
constexpr double kInch68F_pa = 248.64;    // water at 68 F, the one behind "4005"

double areaOfInches(double bore_in) {
  return roundArea(bore_in / 12);
}  // ft2

/// The constant in V[fpm] = constant sqrt(VP[in]) at standard air, from first principles.
double constantOf(double inch_pa) {
  return speedFromVelocityPressure(inch_pa, kStandardDensity_kg_m3) / kFpm_m_s;
}

TEST(PublishedVelocityPressure, WhereTheTradesConstantComesFrom) {
  // Computed: 4004.94 (68 F), 4006.55 (60 F), 4008.55 (4 C). So 4005 means water at 68 F.
  EXPECT_NEAR(constantOf(kInch68F_pa), 4004.94, 0.05);
  EXPECT_NEAR(constantOf(kInch60F_pa), 4006.55, 0.05);
  EXPECT_NEAR(constantOf(kInch4C_pa), 4008.55, 0.01);
  // Published in SI practice sets: V = 1.29 sqrt(pv[Pa]); computed 1.290250.
  EXPECT_NEAR(speedFromVelocityPressure(1, kStandardDensity_kg_m3), 1.290250, 5.1e-7);
  // 1096.8 sqrt(VP/rho[lb/ft3]) = 4005/sqrt(1/0.075), computed.
  EXPECT_NEAR(constantOf(kInch68F_pa) * std::sqrt(0.075), 1096.80, 0.02);
}

TEST(PublishedVelocityPressure, SpeedAndFlowFromTheTradeForm) {
  // B1 to B6, computed with 4005 (inch at 68 F); B6's 8010 fpm published. {VP, fpm, cfm in 4 in, cfm in 6 in}
  const double rows[][4] = {{0.10, 1266.492, 110.522, 248.68}, {0.40, 2532.984, 221.045, 497.35},
                            {0.50, 2831.963, 247.135, 556.05}, {1.00, 4005.000, 349.502, 786.38},
                            {1.60, 5065.969, 442.089, 994.70}, {4.00, 8010.000, 699.004, 1572.76}};
  for (const auto& row : rows) {
    const double speed = tradeSpeed(row[0], 1);
    EXPECT_NEAR(speed, row[1], 6e-4);
    EXPECT_NEAR(speed * areaOfInches(4), row[2], 6e-4);
    EXPECT_NEAR(speed * areaOfInches(6), row[3], 6e-3);
    // The law itself with the inch at 68 F: 4004.94 for 4005, within 3e-5.
    EXPECT_NEAR(speedFromVelocityPressure(row[0] * kInch68F_pa, kStandardDensity_kg_m3) / kFpm_m_s / row[1],
                1, 3e-5);
  }
}

TEST(PublishedVelocityPressure, SiRows) {
  // B7: published 100 Pa for 12.9 m/s, by the rounded 1.29; exact 99.963 at standard air, computed.
  EXPECT_NEAR(velocityPressure(kStandardDensity_kg_m3, 12.9), 99.963, 0.003);
  EXPECT_NEAR(velocityPressure(kStandardDensity_kg_m3, 12.9), 100, 0.05);
  // B8: published 38.7 m/s for 900 Pa.
  EXPECT_NEAR(speedFromVelocityPressure(900, kStandardDensity_kg_m3), 38.7, 0.05);
  // B10, computed at standard air.
  const double rows[][2] = {{10, 60.0692}, {15, 135.1558}, {20, 240.2770}, {25, 375.4327}};
  for (const auto& row : rows) {
    EXPECT_NEAR(velocityPressure(kStandardDensity_kg_m3, row[0]), row[1], 6e-5);
  }
}

TEST(PublishedVelocityPressure, PressureFromSpeed) {
  // B9, computed with 4005 (inch at 68 F).
  const double rows[][2] = {{2000, 0.24938}, {3500, 0.76371}, {4000, 0.99750},
                            {4500, 1.26247}, {5000, 1.55860}, {6000, 2.24439}};
  for (const auto& row : rows) {
    const double inches = velocityPressure(kStandardDensity_kg_m3, row[0] * kFpm_m_s) / kInch68F_pa;
    EXPECT_NEAR(inches / row[1], 1, 5e-5);
  }
  // B11: 4490 fpm -> 1.2569, published as 1.26 (its "3 inch" duct carries the area of 3.5 in: 0.0668 ft2).
  EXPECT_NEAR(velocityPressure(kStandardDensity_kg_m3, 4490 * kFpm_m_s) / kInch68F_pa, 1.2569, 1e-4);
  EXPECT_NEAR(areaOfInches(3.5), 0.066813, 5e-7);
  EXPECT_NEAR(4490 * areaOfInches(3.5), 300, 0.05);
  EXPECT_NEAR(4490 * areaOfInches(3.0), 220, 0.5);
}

TEST(PublishedVelocityPressure, ThinAir) {
  // B12, computed: VP 1.0 in at df 0.83529 -> 4382.1 fpm (inch at 68 F).
  EXPECT_NEAR(tradeSpeed(1.0, 0.83529), 4382.1, 0.05);
  EXPECT_NEAR(speedFromVelocityPressure(kInch68F_pa, 0.83529 * kStandardDensity_kg_m3) / kFpm_m_s, 4382.1,
              0.1);
}

TEST(PublishedVelocityPressure, CommonPracticeFourInchReadings) {
  // Common practice, no source: 4 in duct, mean pitot reading 1.6 in -> 5065 fpm, 440 cfm; 0.4 in ->
  // 2533 fpm, 220 cfm, within 0.6 %. With the conventional inch at 4 C, as the program shows.
  const auto fpm = [](double inches) {
    return speedFromVelocityPressure(inches * kInch4C_pa, kStandardDensity_kg_m3) / kFpm_m_s;
  };
  EXPECT_NEAR(fpm(1.6) / 5065, 1, 0.006);
  EXPECT_NEAR(fpm(1.6) * areaOfInches(4) / 440, 1, 0.006);
  EXPECT_NEAR(fpm(0.4) / 2533, 1, 0.006);
  EXPECT_NEAR(fpm(0.4) * areaOfInches(4) / 220, 1, 0.006);
  // Twice the bore carries four times the air at the same speed.
  EXPECT_DOUBLE_EQ(roundArea(8 * kFoot_m / 12) / roundArea(4 * kFoot_m / 12), 4);
}

}  // namespace
}  // namespace kerfdraft::physics
