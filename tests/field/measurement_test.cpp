// Properties of the evaluation: the square-root law, density, averaging, liquids, slopes, limits of a gauge.
#include "field/measurement.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "field/instrument_laws.h"
#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

using testing::airFrom;
using testing::airOfDensity;
using testing::has;
using testing::kInch_m;
using testing::kInchWater_pa;
using testing::pitotWith;
using testing::uTubeModel;

TEST(Measurement, FlowScalesWithTheRootOfPressure) {
  const double one = measure(uTubeModel(0.4))->flow_m3_s;
  for (const double factor : {2.0, 4.0, 10.0}) {
    EXPECT_NEAR(measure(uTubeModel(0.4 * factor))->flow_m3_s, one * std::sqrt(factor), 1e-12);
  }
}

TEST(Measurement, SpeedGoesWithTheInverseRootOfDensity) {
  MeasurementModel m = uTubeModel();
  const double standard = measure(m)->speed_m_s;
  for (const double rho : {0.8, 1.0, 1.3}) {
    m.air = airOfDensity(rho);
    EXPECT_NEAR(measure(m)->speed_m_s, standard * std::sqrt(physics::kStandardDensity_kg_m3 / rho), 1e-9);
  }
}

TEST(Measurement, HotWireShowsMassFlow) {
  MeasurementModel m = uTubeModel();
  m.instrument = usualSpeedMeter(SpeedMeter::Form::HotWire);
  m.samples = {{20, 0, 1}};
  m.air = airOfDensity(0.95);
  const Measured thin = measure(m).value();
  EXPECT_NEAR(thin.speed_m_s, 20 * physics::kStandardDensity_kg_m3 / 0.95, 1e-12);
  EXPECT_NEAR(thin.mass_flow_kg_s, 20 * physics::kStandardDensity_kg_m3 * sectionArea(*m.section), 1e-12);
  m.instrument = usualSpeedMeter(SpeedMeter::Form::Vane);
  EXPECT_NEAR(measure(m)->speed_m_s, 20, 1e-12);
}

TEST(Measurement, SpeedsAreAveragedNotPressures) {
  // Jensen: the mean of the roots is never above the root of the mean, whatever the readings.
  std::mt19937 engine(11);
  std::uniform_real_distribution<double> any(0.05, 3);
  for (int i = 0; i < 200; ++i) {
    MeasurementModel m = uTubeModel();
    m.samples.clear();
    for (int j = 0; j < 8; ++j) {
      m.samples.push_back({any(engine) * kInch_m, 0, 1});
    }
    const Measured r = measure(m).value();
    EXPECT_LE(r.speed_m_s, r.rms_speed_m_s * (1 + 1e-14));
    EXPECT_NEAR(r.rms_speed_m_s, std::sqrt(2 * r.pressure_pa / r.density_kg_m3), 1e-9 * r.rms_speed_m_s);
  }
}

TEST(Measurement, BothLegsSumAndOneLegDoubles) {
  MeasurementModel m = uTubeModel();
  const double summed = measure(m)->pressure_pa;
  m.legs = Legs::Each;
  m.samples = {{0.9 * kInch_m, 0.7 * kInch_m, 1}};
  EXPECT_NEAR(measure(m)->pressure_pa, summed, 1e-9);
  m.legs = Legs::OneDoubled;
  m.samples = {{0.8 * kInch_m, 0, 1}};
  const Measured doubled = measure(m).value();
  EXPECT_NEAR(doubled.pressure_pa, summed, 1e-9);
  // One meniscus read and doubled is less sure than two read and added.
  EXPECT_GT(doubled.speed.combined, measure(uTubeModel())->speed.combined);
}

TEST(Measurement, InclinedLegAndWellChangeTheScaleNotThePressure) {
  ColumnGauge g;
  g.form = ColumnGauge::Form::Inclined;
  g.rise = 0.1;
  g.specific_gravity = 0.826;
  MeasurementModel m = uTubeModel();
  m.instrument = pitotWith(g);
  m.samples = {{0.3, 0, 1}};
  EXPECT_NEAR(measure(m)->pressure_pa, 0.826 * kConventionalWater_pa_m * 0.03, 1e-9);
  g.well_ratio = 0.02;
  g.scale_allows_for_well = false;
  m.instrument = pitotWith(g);
  EXPECT_NEAR(measure(m)->pressure_pa, 0.826 * kConventionalWater_pa_m * 0.3 * 0.12, 1e-9);
  // An upright well gauge whose scale was shortened by 1/(1 + a/Aw) reads the same pressure.
  ColumnGauge raw;
  raw.form = ColumnGauge::Form::Reservoir;
  raw.well_ratio = 0.05;
  raw.scale_allows_for_well = false;
  ColumnGauge shortened = raw;
  shortened.scale_allows_for_well = true;
  m.instrument = pitotWith(raw);
  m.samples = {{0.04, 0, 1}};
  const double pressure = measure(m)->pressure_pa;
  m.instrument = pitotWith(shortened);
  m.samples = {{0.04 * 1.05, 0, 1}};
  EXPECT_NEAR(measure(m)->pressure_pa, pressure, 1e-9);
}

TEST(Measurement, AnotherLiquidBehindAPressureScale) {
  ColumnGauge g;
  g.form = ColumnGauge::Form::Inclined;
  g.scale = ColumnGauge::Scale::Pressure;
  g.graduation = 5;
  g.specific_gravity = 0.9982;
  g.scale_gravity = 0.826;
  MeasurementModel m = uTubeModel();
  m.instrument = pitotWith(g);
  m.samples = {{200, 0, 1}};
  EXPECT_NEAR(measure(m)->pressure_pa, 200 * 0.9982 / 0.826, 1e-9);
  g.scale_gravity.reset();
  m.instrument = pitotWith(g);
  EXPECT_NEAR(measure(m)->pressure_pa, 200, 1e-9);
}

TEST(Measurement, TheHoodTapThinsItsOwnAir) {
  MeasurementModel m = uTubeModel();
  Probe hood = usualProbe(Probe::Form::HoodTap);
  hood.coefficient = 0.82;
  m.instrument = PressureInstrument{DigitalGauge{}, hood};
  m.samples = {{600, 0, 1}};
  const Measured r = measure(m).value();
  const double rho = physics::kStandardDensity_kg_m3 * (101325 - 600) / 101325;
  EXPECT_NEAR(r.density_kg_m3, rho, 1e-12);
  EXPECT_NEAR(r.speed_m_s, 0.82 * std::sqrt(2 * 600 / rho), 1e-9);
}

TEST(Measurement, BelowWhatTheGaugeResolvesIsSaid) {
  const Measured fine = measure(uTubeModel(1.6)).value();
  EXPECT_FALSE(has(fine, "below-resolution"));
  // Two levels, each within half of 0.1 in: u = 0.041 in of water at 20 °C, useful from 0.204 in.
  EXPECT_NEAR(fine.smallest_useful_pa,
              5 * std::sqrt(2.0) * 0.05 / std::sqrt(3.0) * kWaterAt20C * kInchWater_pa, 0.01);
  const Measured low = measure(uTubeModel(0.15)).value();
  EXPECT_TRUE(has(low, "below-resolution"));
  EXPECT_GT(low.speed.expanded, 0.2 * low.speed_m_s);
}

TEST(Measurement, AReadingOfZeroIsNotNoAir) {
  const Measured r = measure(uTubeModel(0)).value();
  EXPECT_EQ(r.speed_m_s, 0);
  EXPECT_TRUE(has(r, "zero-reading"));
  EXPECT_GT(r.speed.expanded, 2);
  EXPECT_LT(r.speed.expanded, 15);
  EXPECT_TRUE(std::isfinite(r.flow.expanded));
}

TEST(Measurement, AlmostNothingStaysFinite) {
  for (const double in : {1e-12, 1e-6, 1e-3, 0.04, 0.042}) {
    const Measured r = measure(uTubeModel(in)).value();
    EXPECT_TRUE(std::isfinite(r.speed.expanded)) << in;
    EXPECT_LT(r.speed.expanded, 20) << in;
  }
}

TEST(Measurement, WeightsMoveTheMean) {
  MeasurementModel m = uTubeModel();
  m.samples = {{1 * kInch_m, 0, 1}, {4 * kInch_m, 0, 1}};
  const double even = measure(m)->speed_m_s;
  m.samples[1].weight = 2;
  const Measured r = measure(m).value();
  EXPECT_NEAR(even, 1.5 * r.sample_speeds_m_s[0], 1e-9);
  EXPECT_NEAR(r.speed_m_s, 5.0 / 3 * r.sample_speeds_m_s[0], 1e-9);
}

TEST(Measurement, StepsExplainTheNumber) {
  const Measured r = measure(uTubeModel()).value();
  ASSERT_FALSE(r.steps.empty());
  EXPECT_EQ(r.steps.back().law->key, "flow-through-section");
  EXPECT_EQ(r.steps.back().result, r.flow_m3_s);
  const auto speed = std::ranges::find(r.steps, &kTubeSpeed, &base::Step::law);
  ASSERT_NE(speed, r.steps.end());
  // Replay from the inputs that the step wrote down.
  EXPECT_EQ(tubeSpeed(speed->inputs[0].value, speed->inputs[1].value, speed->inputs[2].value), speed->result);
}

TEST(Measurement, ThickTubesAndLargeHeadsAreSaid) {
  MeasurementModel m = uTubeModel();
  std::get<PressureInstrument>(m.instrument).probe.diameter_m = 0.008;
  EXPECT_TRUE(has(measure(m).value(), "probe-large"));
  SpeedMeter vane = usualSpeedMeter(SpeedMeter::Form::Vane);
  vane.diameter_m = 0.07;
  m.instrument = vane;
  m.samples = {{20, 0, 1}};
  EXPECT_TRUE(has(measure(m).value(), "head-large"));
}

TEST(Measurement, RefusesBadReadings) {
  const auto refused = [](const MeasurementModel& m, std::string_view word) {
    const auto r = measure(m, "--reading");
    ASSERT_FALSE(r);
    EXPECT_EQ(r.error().where, "--reading");
    EXPECT_NE(r.error().message.find(word), std::string::npos) << r.error().message;
  };
  MeasurementModel m = uTubeModel();
  m.samples.clear();
  refused(m, "no reading");
  refused(uTubeModel(-0.5), "swapped");
  refused(uTubeModel(std::numeric_limits<double>::quiet_NaN()), "finite");
  refused(uTubeModel(std::numeric_limits<double>::infinity()), "finite");
  refused(uTubeModel(400), "check the unit");
  m = uTubeModel();
  m.section = testing::roundSection(-0.1);
  refused(m, "bore");
  m = uTubeModel();
  m.instrument = pitotWith(DigitalGauge{});
  m.samples = {{3000, 0, 1}};
  refused(m, "range");
}

}  // namespace
}  // namespace kerfdraft::field
