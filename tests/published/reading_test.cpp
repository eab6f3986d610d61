// Single readings and averages against the trade's rows: velocity pressure, U-tubes, means, hood taps.
// Each row names its source and standing; the trade's inch of water is 248.64 Pa (68 F) where 4005 is used.
#include "field/reading.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "field/instrument_laws.h"

namespace kerfdraft::field {
namespace {

constexpr double kInch_m = 0.0254;
constexpr double kFpm_m_s = 0.00508;
constexpr double kCfm_m3_s = 0.3048 * 0.3048 * 0.3048 / 60;
constexpr double kTradeInchWater_pa = 248.64;  // water at 68 F: what the constant 4005 implies
constexpr double kStandard_kg_m3 = physics::kStandardDensity_kg_m3;

AirOfDay standardAir() {
  AirEntry entry;
  entry.density_kg_m3 = kStandard_kg_m3;
  entry.static_pa = 0;
  return airOfDay(entry).value();
}

/// A digital gauge that shows these pressures [in w.g. of 68 F water] on a pitot tube of coefficient `c`.
MeasurementModel gaugeModel(const std::vector<double>& inwg, double bore_in, double c = 1.0) {
  MeasurementModel m;
  DigitalGauge gauge;
  gauge.range_pa = 5000;
  Probe probe = usualProbe(Probe::Form::PitotStatic);
  probe.coefficient = c;
  m.instrument = PressureInstrument{gauge, probe};
  for (const double p : inwg) {
    m.samples.push_back({p * kTradeInchWater_pa, 0, 1});
  }
  m.section = Section{};
  m.section->shape = RoundSection{bore_in * kInch_m};
  m.air = standardAir();
  return m;
}

Reading uTube(double difference_in, double bore_in, Place place = Place::Mean) {
  Reading r;
  r.instrument = PressureInstrument{ColumnGauge{}, usualProbe(Probe::Form::PitotStatic)};
  r.legs = Legs::Summed;
  r.place = place;
  r.repeats = {{difference_in * kInch_m, 0, 1}};
  r.section = Section{};
  r.section->shape = RoundSection{bore_in * kInch_m};
  r.air = standardAir();
  return r;
}

TEST(PublishedReading, B1ToB6VelocityPressure) {
  // Computed from V = 4005 sqrt(VP) of the trade's exam sheets; B6's 8010 fpm published there. 4005 is
  // 4004.94 in exact terms, hence 2e-5.
  struct Row {
    const char* id;
    double vp_inwg, fpm, cfm_4in, cfm_6in;
  };
  const Row rows[] = {{"B1", 0.10, 1266.492, 110.522, 248.68}, {"B2", 0.40, 2532.984, 221.045, 497.35},
                      {"B3", 0.50, 2831.963, 247.135, 556.05}, {"B4", 1.00, 4005.000, 349.502, 786.38},
                      {"B5", 1.60, 5065.969, 442.089, 994.70}, {"B6", 4.00, 8010.000, 699.004, 1572.76}};
  for (const Row& row : rows) {
    const Measured four = measure(gaugeModel({row.vp_inwg}, 4)).value();
    EXPECT_NEAR(four.speed_m_s / kFpm_m_s, row.fpm, 2e-5 * row.fpm) << row.id;
    EXPECT_NEAR(four.flow_m3_s / kCfm_m3_s, row.cfm_4in, 2e-5 * row.cfm_4in) << row.id;
    EXPECT_NEAR(measure(gaugeModel({row.vp_inwg}, 6))->flow_m3_s / kCfm_m3_s, row.cfm_6in,
                2e-5 * row.cfm_6in + 0.005)
        << row.id;
  }
}

TEST(PublishedReading, B12DensityFactor) {
  // Computed: VP 1.0 at df 0.83529 is 4382.1 fpm.
  MeasurementModel m = gaugeModel({1.0}, 4);
  AirEntry entry;
  entry.density_kg_m3 = 0.83529 * kStandard_kg_m3;
  entry.static_pa = 0;
  m.air = airOfDay(entry).value();
  EXPECT_NEAR(measure(m)->speed_m_s / kFpm_m_s, 4382.1, 0.15);
}

TEST(PublishedReading, UTubeInAFourInchDuct) {
  // Common practice, no source: mean pitot reading 1.6 in ⇒ 5065 fpm, 440 cfm; 0.4 in ⇒ 2533 fpm, 220 cfm,
  // within 0.6 %.
  const Measured high = measureReading(uTube(1.6, 4)).value();
  EXPECT_NEAR(high.speed_m_s / kFpm_m_s, 5065, 0.006 * 5065);
  EXPECT_NEAR(high.flow_m3_s / kCfm_m3_s, 440, 0.006 * 440);
  const Measured low = measureReading(uTube(0.4, 4)).value();
  EXPECT_NEAR(low.speed_m_s / kFpm_m_s, 2533, 0.006 * 2533);
  EXPECT_NEAR(low.flow_m3_s / kCfm_m3_s, 220, 0.006 * 220);
  // Water at 20 °C in the tube is the trade's own inch, so the computed 5065.97 fpm and 442.09 cfm come
  // closer.
  EXPECT_NEAR(high.speed_m_s / kFpm_m_s, 5065.97, 0.2);
  EXPECT_NEAR(high.flow_m3_s / kCfm_m3_s, 442.09, 0.02);
}

TEST(PublishedReading, UTubeReadingIsTheSumOfBothLegs) {
  // Common practice: 1.6 in is 0.8 in up and 0.8 in down.
  Reading each = uTube(0, 4);
  each.legs = Legs::Each;
  each.repeats = {{0.8 * kInch_m, 0.8 * kInch_m, 1}};
  EXPECT_NEAR(measureReading(each)->speed_m_s, measureReading(uTube(1.6, 4))->speed_m_s, 1e-12);
  // Computed: one leg taken for both makes V low by 29.29 %: 3582.2 fpm, 312.6 cfm.
  const Measured one_leg = measureReading(uTube(0.8, 4)).value();
  EXPECT_NEAR(one_leg.speed_m_s / kFpm_m_s, 3582.2, 0.15);
  EXPECT_NEAR(one_leg.flow_m3_s / kCfm_m3_s, 312.6, 0.05);
  EXPECT_NEAR(one_leg.speed_m_s / measureReading(uTube(1.6, 4))->speed_m_s, 1 - 0.2929, 5e-5);
}

TEST(PublishedReading, CentreReadingWantsNineTenths) {
  // Common practice: × 0.9 on velocity.
  EXPECT_NEAR(measureReading(uTube(1.6, 4, Place::Centre))->speed_m_s,
              0.9 * measureReading(uTube(1.6, 4))->speed_m_s, 1e-12);
}

TEST(PublishedReading, TwiceTheBoreCarriesFourTimesTheAir) {
  // Common practice: at the same speed.
  EXPECT_NEAR(measureReading(uTube(1.6, 8))->flow_m3_s, 4 * measureReading(uTube(1.6, 4))->flow_m3_s, 1e-12);
}

TEST(PublishedReading, InclinedGaugeScale) {
  // Computed: a 1:10 leg (5.739°) shows 1.000 in per 0.1 in w.g., a 1:20 leg (2.866°) 2.000 in.
  for (const auto& [slope, degrees, shown_in] : {std::tuple{0.1, 5.739, 1.0}, std::tuple{0.05, 2.866, 2.0}}) {
    EXPECT_NEAR(std::sin(degrees * std::numbers::pi / 180), slope, 1e-5);
    EXPECT_NEAR(columnPressure(1.0, inclinedHeight(shown_in * kInch_m, slope, 0.0)), 0.1 * 249.08891, 1e-6);
  }
}

TEST(PublishedReading, UTubesAreUselessBelowAFifthOfAnInch) {
  // Computed: plain vertical U-tubes are useless under about 0.2 in w.g. (1800 fpm).
  const Measured m = measureReading(uTube(1.6, 4)).value();
  EXPECT_NEAR(m.smallest_useful_pa / kTradeInchWater_pa, 0.2, 0.01);
  EXPECT_NEAR(m.smallest_useful_m_s / kFpm_m_s, 1800, 40);
}

TEST(PublishedReading, B16B17AverageTheRoots) {
  // Computed: mean of roots, root of mean, flow in 6 in.
  struct Row {
    const char* id;
    std::vector<double> inwg;
    double mean_root, fpm, wrong_fpm, error_percent, cfm_6in;
  };
  const Row rows[] = {{"B16",
                       {0.42, 0.55, 0.63, 0.70, 0.74, 0.73, 0.68, 0.60, 0.52, 0.38},
                       0.7671482,
                       3072.43,
                       3089.31,
                       0.549,
                       603.27},
                      {"B17", {0.04, 0.16, 0.36, 0.64, 1.00}, 0.6, 2403.00, 2656.62, 10.554, 471.83}};
  for (const Row& row : rows) {
    const Measured m = measure(gaugeModel(row.inwg, 6)).value();
    EXPECT_NEAR(m.speed_m_s / kFpm_m_s / 4004.94, row.mean_root, 2e-6) << row.id;
    EXPECT_NEAR(m.speed_m_s / kFpm_m_s, row.fpm, 2e-5 * row.fpm) << row.id;
    EXPECT_NEAR(m.rms_speed_m_s / kFpm_m_s, row.wrong_fpm, 2e-5 * row.wrong_fpm) << row.id;
    EXPECT_NEAR(100 * (m.rms_speed_m_s / m.speed_m_s - 1), row.error_percent, 6e-4) << row.id;
    EXPECT_NEAR(m.flow_m3_s / kCfm_m3_s, row.cfm_6in, 3e-5 * row.cfm_6in) << row.id;
  }
}

/// Density from temperature [°R], pressure [inHg] and molar mass, as Method 2 takes it.
double methodTwoDensity(double rankine, double inhg, double molar_g) {
  return inhg * 3386.389 * molar_g * 1e-3 / (8.31446 * rankine / 1.8);
}

TEST(PublishedReading, B18B19MethodTwo) {
  // 40 CFR 60 Method 2, equation with Kp 85.49 (its constants read in an observation sheet): computed rows,
  // 83.9016 ft/s and 4011.66 fpm. Ours has no unit constant but the ideal gas at the same inputs; from first
  // principles Kp is 85.524 with conventional inches of water and mercury, 0.04 % above the printed 85.49.
  const auto method2 = [](double cp, double dp, double rankine, double inhg, double molar) {
    return 85.49 * cp * std::sqrt(dp) * std::sqrt(rankine / (inhg * molar));
  };
  const double kp = std::sqrt(2 * 249.08891 / methodTwoDensity(1, 1, 1)) / 0.3048;
  EXPECT_NEAR(kp, 85.5243, 5e-4);
  EXPECT_NEAR(method2(0.99, 1.6, 530, 29.92, 28.84), 83.9016, 5.1e-5);
  const double b18 = tubeSpeed(0.99, 1.6 * 249.08891, methodTwoDensity(530, 29.92, 28.84)) / 0.3048;
  EXPECT_NEAR(b18 * 85.49 / kp, 83.9016, 5.1e-5);
  EXPECT_NEAR(60 * b18 * 85.49 / kp, 5034.09, 6e-3);
  EXPECT_NEAR(b18, 83.9016, 4.5e-4 * 83.9016);
  const double b19 = tubeSpeed(1.0, 1.0 * 249.08891, methodTwoDensity(530, 29.92, 28.96)) / kFpm_m_s;
  EXPECT_NEAR(b19 * 85.49 / kp, 4011.66, 6e-3);
  EXPECT_NEAR(b19, 4011.66, 4.5e-4 * 4011.66);
}

TEST(PublishedReading, HoodTap) {
  // E1 computed: Fh to Ce. E4 published (exam sheet prints 1539 cfm): Ce 0.98, SPh 4 in, 0.196 ft2 at
  // standard air. woodshop row 4 computed, 0.5 %: 6 in, SPh 2.0: Ce 0.82 912 cfm, Ce 0.72 801 cfm.
  for (const auto& [fh, ce] : {std::pair{0.93, 0.71982}, {0.49, 0.81923}, {0.04, 0.98058}, {0.65, 0.77850}}) {
    EXPECT_NEAR(entryCoefficient(fh), ce, 5.1e-6);
  }
  const auto cfm = [](double ce, double sph, double area_ft2, double density) {
    return flowThrough(area_ft2 * 0.3048 * 0.3048, hoodSpeed(ce, sph * kTradeInchWater_pa, density)) /
           kCfm_m3_s;
  };
  EXPECT_NEAR(cfm(0.98, 4, 0.196, kStandard_kg_m3), 1538.56, 0.05);
  // E5 computed (published option 820): SPh 1.69, 6 in, Ce 0.78, df 0.95.
  EXPECT_NEAR(cfm(0.78, 1.69, 0.196350, 0.95 * kStandard_kg_m3), 818.10, 0.05);
  EXPECT_NEAR(cfm(0.82, 2.0, 0.196350, kStandard_kg_m3), 912, 0.005 * 912);
  EXPECT_NEAR(cfm(0.72, 2.0, 0.196350, kStandard_kg_m3), 801, 0.005 * 801);
}

}  // namespace
}  // namespace kerfdraft::field
