// A result of somebody else is told apart by the mistake that makes it.
#include "field/claim.h"

#include <gtest/gtest.h>

#include <cmath>

#include "field/reading.h"
#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

using testing::kCfm_m3_s;
using testing::kFpm_m_s;
using testing::kInch_m;

Reading reading() {
  Reading r;
  r.instrument = testing::pitotWith(ColumnGauge{});
  r.legs = Legs::Summed;
  r.place = Place::Centre;
  r.repeats = {{0.9 * kInch_m, 0, 1}, {1.6 * kInch_m, 0, 1}, {2.4 * kInch_m, 0, 1}};
  r.section = testing::roundSection(4 * kInch_m);
  AirEntry day;
  day.temperature_k = 293.15;
  day.altitude_m = 1900;
  r.air = testing::airFrom(day);
  return r;
}

std::string verdictOn(double speed_m_s) {
  Reading r = reading();
  r.claim.speed_m_s = speed_m_s;
  return measureReading(r)->notices.back().key;
}

TEST(Claim, EachMistakeIsRecognized) {
  const Measured m = measureReading(reading()).value();
  const double v = m.speed_m_s;
  EXPECT_EQ(verdictOn(v), "claim-agrees");
  EXPECT_EQ(verdictOn(1.001 * v), "claim-agrees");
  EXPECT_EQ(verdictOn(v / std::sqrt(2.0)), "claim-one-leg");
  EXPECT_EQ(verdictOn(m.rms_speed_m_s), "claim-pressures-averaged");
  EXPECT_EQ(verdictOn(v / 0.9), "claim-centre");
  EXPECT_EQ(verdictOn(v * std::sqrt(m.density_kg_m3 / physics::kStandardDensity_kg_m3)),
            "claim-standard-air");
  EXPECT_EQ(verdictOn(1.5 * v), "claim-differs");
}

TEST(Claim, AFlowIsComparedThroughTheSection) {
  Reading r;
  r = reading();
  const Measured right = measureReading(r).value();
  r.claim.flow_m3_s = right.flow_m3_s / std::sqrt(2.0);
  EXPECT_EQ(measureReading(r)->notices.back().key, "claim-one-leg");
}

TEST(Claim, OneLegInStandardAir) {
  // Reading one leg of a 1.6 in difference: 3582.2 fpm, 312.6 cfm in 4 in (computed, airflow.md 2.2).
  Reading r = reading();
  r.repeats = {{1.6 * kInch_m, 0, 1}};
  r.place = Place::Mean;
  r.air = testing::airOfDensity(physics::kStandardDensity_kg_m3);
  r.claim.speed_m_s = 3582.2 * kFpm_m_s;
  EXPECT_EQ(measureReading(r)->notices.back().key, "claim-one-leg");
  r.claim = {std::nullopt, 312.6 * kCfm_m3_s};
  EXPECT_EQ(measureReading(r)->notices.back().key, "claim-one-leg");
  // Standard air on a standard day is no mistake.
  r.claim = {5066 * kFpm_m_s, std::nullopt};
  EXPECT_EQ(measureReading(r)->notices.back().key, "claim-agrees");
}

TEST(Claim, NothingIsSaidWithoutAClaim) {
  Reading r = reading();
  const Measured silent = measureReading(r).value();
  for (const Notice& n : silent.notices) {
    EXPECT_FALSE(n.key.starts_with("claim-")) << n.key;
  }
  r.section.reset();
  r.claim.flow_m3_s = 0.2;
  const Measured speed_only = measureReading(r).value();
  for (const Notice& n : speed_only.notices) {
    EXPECT_FALSE(n.key.starts_with("claim-")) << n.key;
  }
}

}  // namespace
}  // namespace kerfdraft::field
