// Rows L (filters) and Y (cyclones), with the source beside each.
// "computed" rows repeat the named formula by another program; "published" rows were read in print.
#include "physics/filter.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "physics/cyclone.h"
#include "physics/separator.h"
#include "units.h"

namespace kerfdraft::physics {
namespace {

using published::kCfm_m3_s;
using published::kFoot_m;
using published::kFpm_m_s;
using published::kPound_kg;

constexpr double kInch_pa = 249.08891;  // rows L: the conventional inch, by the row's own 10042.80 1/s
constexpr double kGrain_kg_m3 = kPound_kg / 7000 / (kFoot_m * kFoot_m * kFoot_m);
constexpr double kPoundFoot2_kg_m2 = kPound_kg / (kFoot_m * kFoot_m);
constexpr double kMedium_pa_s_m = kInch_pa / kFpm_m_s;
constexpr double kDust_per_s = kInch_pa / kFpm_m_s / kPoundFoot2_kg_m2;

TEST(PublishedFilter, Units) {
  // Computed: 10042.80 1/s, 49033.3 Pa s/m, 2.28835 g/m3.
  EXPECT_NEAR(kDust_per_s, 10042.80, 0.0051);
  EXPECT_NEAR(kMedium_pa_s_m, 49033.3, 0.051);
  EXPECT_NEAR(kGrain_kg_m3 * 1000, 2.28835, 5.1e-6);
}

TEST(PublishedFilter, PressureThroughADustedMedium) {
  // L1 to L3, computed; the form and K2 of wood dust (6.3, 25.2) are read in a handbook of air pollution
  // control, 2004.
  const struct {
    const char* id;
    double se, k2, w, v, inches;
  } rows[] = {{"L1", 0.10, 6.3, 0.02, 3, 0.678},
              {"L2", 0.20, 6.3, 0.05, 5, 2.575},
              {"L3", 0.05, 25.2, 0.02, 3, 1.662}};
  for (const auto& row : rows) {
    const double area = 7;  // must not matter at one face speed
    const double r =
        filterResistance(row.se * kMedium_pa_s_m, row.k2 * kDust_per_s, row.w * kPoundFoot2_kg_m2, area);
    const double rho = 1.2;
    EXPECT_NEAR(filterLoss(r, row.v * kFpm_m_s * area * rho, rho).dp_pa / kInch_pa, row.inches, 1e-9)
        << row.id;
  }
}

TEST(PublishedFilter, GasToClothAndPulseJet) {
  // L4, published in a worked calculation after an EPA cost manual: 4.689222 fpm; 10000 acfm need 2132.55
  // ft2.
  const auto kelvin = [](double f) { return (f + 459.67) / 1.8; };
  const GasToCloth l4 = gasToCloth(9, 0.8, kelvin(275), 4 * kGrain_kg_m3, 7e-6);
  EXPECT_NEAR(l4.speed_m_s / kFpm_m_s, 4.689222, 5.1e-7);
  EXPECT_TRUE(l4.in_range);
  const double area = filterAreaNeeded(10000 * kCfm_m3_s, l4.speed_m_s);
  EXPECT_NEAR(area / (kFoot_m * kFoot_m), 2132.55, 0.0051);
  // L5, computed (the worked calculation prints 0.026796 and 3.31366): 3.31453 in w.g.
  const double dp =
      pulseJetPressure(4.69 * kFpm_m_s, 100 * 6894.757293168, 15 * kDust_per_s, 4 * kGrain_kg_m3, 600);
  EXPECT_NEAR(dp / kInch_pa, 3.31453, 5.1e-6);
  EXPECT_NEAR(dp / kInch_pa, 3.31366, 1e-3);
  // L6, computed; material factor of sawdust from memory.
  const GasToCloth l6 = gasToCloth(15, 1.0, kelvin(70), 5 * kGrain_kg_m3, 20e-6);
  EXPECT_NEAR(l6.speed_m_s / kFpm_m_s, 14.5683, 5.1e-5);
}

TEST(PublishedFilter, FaceSpeedsAndAreas) {
  // L7, computed: 800 cfm through 30, 100, 200 ft2.
  const struct {
    double ft2, fpm;
  } rows[] = {{30, 26.667}, {100, 8.000}, {200, 4.000}};
  for (const auto& row : rows) {
    EXPECT_NEAR(filterFaceSpeed(800 * kCfm_m3_s, row.ft2 * kFoot_m * kFoot_m) / kFpm_m_s, row.fpm, 5.1e-4);
  }
  // Workshop row 10, computed from 150 m3/(m2 h) (DGUV Information 209-044, 2019, 5.4) [1 %].
  const double limit = 150.0 / 3600;
  const struct {
    double m3_h, m2;
  } areas[] = {{820, 5.5}, {1110, 7.4}, {1450, 9.7}, {6270, 41.8}};
  for (const auto& row : areas) {
    EXPECT_NEAR(filterAreaNeeded(row.m3_h / 3600, limit), row.m2, 0.01 * row.m2);
  }
  EXPECT_NEAR(filterAreaNeeded(800 * kCfm_m3_s, limit) / (kFoot_m * kFoot_m), 98, 0.98);
  EXPECT_NEAR(filterAreaNeeded(1200 * kCfm_m3_s, limit) / (kFoot_m * kFoot_m), 146, 1.46);
}

TEST(PublishedCyclone, InletHeadsFromProportions) {
  // Y1 to Y4, computed. Shapes read in an open process-simulation library (after the handbooks);
  // Shepherd-Lapple and Casal-Martinez read there, Ramachandran and Stairmand from memory.
  const struct {
    const char* id;
    CycloneShape shape;
    double shepherd, casal, ramachandran, stairmand;
  } rows[] = {{"Y1", {0.5, 0.25, 0.25, 2.0, 2.0, 0.5, 0.625}, 8.0, 6.155, 6.78604, 5.54312},
              {"Y2", {0.5, 0.2, 0.375, 1.5, 2.5, 0.5, 0.5}, 6.4, 5.138, 4.84565, 5.23203},
              {"Y3", {0.44, 0.21, 0.4, 1.4, 2.5, 0.4, 0.5}, 9.24, 7.09862, 7.06569, 7.22986},
              {"Y4", {0.5, 0.25, 0.4, 1.75, 2.0, 0.5, 0.6}, 8.0, 6.155, 6.11421, 5.61667}};
  for (const auto& row : rows) {
    ASSERT_TRUE(checkedCyclone(row.shape)) << row.id;
    EXPECT_NEAR(headsShepherdLapple(row.shape), row.shepherd, 1e-12) << row.id;
    EXPECT_NEAR(headsCasalMartinez(row.shape), row.casal, 5.1e-6) << row.id;
    EXPECT_NEAR(headsRamachandran(row.shape), row.ramachandran, 5.1e-6) << row.id;
    EXPECT_NEAR(headsStairmand(row.shape), row.stairmand, 5.1e-6) << row.id;
  }
}

TEST(PublishedCyclone, LossAtTwoInletSpeeds) {
  // Computed: Lapple 1080 Pa and Stairmand 864 Pa at 15 m/s and 1.2 kg/m3; 7.980 and 6.384 in w.g. at 4000
  // fpm in standard air with VP (V/4005)^2.
  const double area = 0.01;
  for (const auto& [heads, pa, inches] : {std::tuple{8.0, 1080.0, 7.980}, {6.4, 864.0, 6.384}}) {
    EXPECT_NEAR(localLoss(heads, heads, 15 * 1.2 * area, 1.2, area).dp_pa, pa, 1e-9);
    const double flow = 4000 * kFpm_m_s * kStandardDensity_kg_m3 * area;
    EXPECT_NEAR(localLoss(heads, heads, flow, kStandardDensity_kg_m3, area).dp_pa / 248.64, inches, 6e-4);
  }
}

TEST(PublishedCyclone, LappleCutSizes) {
  const CycloneShape lapple{0.5, 0.25, 0.25, 2.0, 2.0, 0.5, 0.625};
  EXPECT_NEAR(effectiveTurns(lapple), 6, 1e-12);
  // Y5, computed: D 0.5 m, 15 m/s, 600 kg/m3, 1.81e-5 Pa s; the row's air is 1.2 kg/m3.
  EXPECT_NEAR(lappleCutSize(0.25 * 0.5, 6, 15, 1.81e-5, 600, 1.2) * 1e6, 7.75467, 5.1e-6);
  // Y6, computed: D 12 in, 4000 fpm, 500 kg/m3.
  EXPECT_NEAR(lappleCutSize(0.25 * kFoot_m, 6, 4000 * kFpm_m_s, 1.81e-5, 500, 1.2) * 1e6, 5.69964, 5.1e-6);
  // Y7, computed (the question was read, its answer not): b 0.15 m, Ne 8, 20 m/s, 1000 kg/m3, air at 350 K.
  EXPECT_NEAR(airViscosity(350), 2.0736e-5, 5.1e-10);
  // The row leaves out the density of the air; with it the cut is 5.2796 um, 0.05 % coarser.
  EXPECT_NEAR(lappleCutSize(0.15, 8, 20, airViscosity(350), 1000, 0) * 1e6, 5.2769, 5.1e-5);
  EXPECT_NEAR(lappleCutSize(0.15, 8, 20, airViscosity(350), 1000, 101325 / (287.055 * 350)) * 1e6, 5.2796,
              5.1e-5);
  // Y8, computed from a lecture's data: d50 1.25 um needs D = 0.123518 m at 0.111 m3/s.
  EXPECT_NEAR(lappleGrade(2.5e-6, 1.25e-6), 0.8, 1e-12);
  const double d = 0.123518;
  const double inlet_m_s = 0.111 / (0.5 * d * 0.25 * d);
  EXPECT_NEAR(inlet_m_s, 58.2, 0.051);
  EXPECT_NEAR(lappleCutSize(0.25 * d, 6, inlet_m_s, 1.849e-5, 1500, 1.184) * 1e6, 1.25, 1.5e-5);
}

TEST(PublishedCyclone, GradeEfficiencies) {
  // Y9, computed.
  const struct {
    double ratio, share;
  } rows[] = {{0.2, 0.038462}, {0.4, 0.137931}, {1, 0.5}, {2, 0.8}, {4, 0.941176}};
  for (const auto& row : rows) {
    EXPECT_NEAR(lappleGrade(row.ratio * 5e-6, 5e-6), row.share, 5.1e-7);
  }
  // Y10, computed: Stairmand D 0.3 m, 0.15 m3/s, 600 kg/m3, 20 C, 1.81e-5 Pa s; G 551.3 and 402.9.
  EXPECT_NEAR(vortexExponent(0.3, 293.15), 0.561461, 5.1e-7);
  const struct {
    double size_um, stairmand, lapple;
  } leith[] = {
      {2, 0.495942, 0.461847}, {5, 0.708267, 0.671829}, {10, 0.853437, 0.823924}, {20, 0.949880, 0.933288}};
  for (const auto& row : leith) {
    const auto grade = [&](double g) {
      return leithLichtGrade(row.size_um * 1e-6, g, 0.3, 0.15, 600, 1.81e-5, 293.15);
    };
    EXPECT_NEAR(grade(551.3), row.stairmand, 5.1e-7);
    EXPECT_NEAR(grade(402.9), row.lapple, 5.1e-7);
  }
  // Y11, published in a student report as 0.535: D 0.225 m, 300 K.
  EXPECT_NEAR(vortexExponent(0.225, 300), 0.535671, 5.1e-7);
  EXPECT_NEAR(vortexExponent(0.225, 300), 0.535, 1e-3);
}

TEST(PublishedCyclone, BarthAndMuschelknautz) {
  // Y12, computed from an open optimization library's cyclone (after Breiderhoff and others 2013) at its
  // defaults.
  const CycloneBody body{.body_m = 1.26,
                         .height_m = 2.5,
                         .gas_outlet_m = 0.42,
                         .outlet_depth_m = 0.65,
                         .inlet_height_m = 0.6,
                         .inlet_width_m = 0.2};
  const CycloneDuty duty{.inlet_speed_m_s = 50.0 / 36 / 0.12,
                         .viscosity_pa_s = 1.85e-5,
                         .density_kg_m3 = 1.2,
                         .particle_kg_m3 = 2000,
                         .load_kg_m3 = 0.05,
                         .wall_friction = 0.005};
  const BarthCyclone out = barthCyclone(body, duty);
  EXPECT_NEAR(out.flow_m3_s, 1.388889, 5.1e-7);
  EXPECT_NEAR(out.inlet_ratio, 0.866149, 5.1e-7);
  EXPECT_NEAR(out.friction, 0.007041, 5.1e-7);
  EXPECT_NEAR(out.constriction, 0.752127, 5.1e-7);
  EXPECT_NEAR(out.outlet_speed_m_s, 10.02488, 5.1e-6);
  EXPECT_NEAR(out.swirl, 2.924423, 5.1e-7);
  EXPECT_NEAR(out.cut_m * 1e6, 4.81256, 5.1e-6);
  EXPECT_NEAR(out.body_heads, 3.776517, 5.1e-7);
  EXPECT_NEAR(out.outlet_heads, 23.098336, 5.1e-7);
  EXPECT_NEAR(out.dp_pa, 1620.524, 5.1e-4);
  // The library's dust: classes 0-2-4-6-8-10-15-20-30 um with 0, 2, 3, 5, 10, 30, 30, 20 %, taken at their
  // middles. The classes and the critical load are not in the row; with them its last three numbers come out.
  const std::vector<SizeClass> dust{{1e-6, 0},   {3e-6, 0.02},   {5e-6, 0.03},   {7e-6, 0.05},
                                    {9e-6, 0.1}, {12.5e-6, 0.3}, {17.5e-6, 0.3}, {25e-6, 0.2}};
  const auto collected = barthCollection(body, duty, dust);
  ASSERT_TRUE(collected) << collected.error().text();
  EXPECT_NEAR(collected->critical_load, 0.011674, 5.1e-7);
  EXPECT_NEAR(collected->vortex, 0.886241, 5.1e-7);
  EXPECT_NEAR(collected->total, 0.968128, 5.1e-7);
}

}  // namespace
}  // namespace kerfdraft::physics
