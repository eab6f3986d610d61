// Helpers of the field tests: a seeded Monte Carlo over the inputs of a measurement, and usual measurements.
#pragma once

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "field/measurement.h"

namespace kerfdraft::field::testing {

struct Sampled {
  double speed_mean = 0, speed_deviation = 0;
  double flow_mean = 0, flow_deviation = 0;
  double speed_low = 0, speed_high = 0;  ///< 2.5 % and 97.5 % points
};

/// Draws every input from its own distribution (not from the budget's linear form) and evaluates the model.
inline Sampled sample(const MeasurementModel& model, int draws, unsigned seed) {
  const std::vector<Uncertain> inputs = inputsOf(model);
  std::mt19937_64 engine(seed);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> flat(-1, 1);
  std::vector<double> x(inputs.size());
  std::vector<double> speeds;
  double s = 0, ss = 0, q = 0, qq = 0;
  for (int d = 0; d < draws; ++d) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      const Uncertain& u = inputs[i];
      x[i] = u.value +
             u.standard * (u.spread == Spread::Normal ? normal(engine) : std::sqrt(3.0) * flat(engine));
    }
    const SpeedAndFlow v = evaluateAt(model, x);
    speeds.push_back(v.speed_m_s);
    s += v.speed_m_s;
    ss += v.speed_m_s * v.speed_m_s;
    q += v.flow_m3_s;
    qq += v.flow_m3_s * v.flow_m3_s;
  }
  const double n = draws;
  std::sort(speeds.begin(), speeds.end());
  return {s / n,
          std::sqrt(ss / n - s / n * s / n),
          q / n,
          std::sqrt(qq / n - q / n * q / n),
          speeds[static_cast<std::size_t>(0.025 * n)],
          speeds[static_cast<std::size_t>(0.975 * n)]};
}

inline constexpr double kInch_m = 0.0254;
inline constexpr double kInchWater_pa = 249.08891;
inline constexpr double kFpm_m_s = 0.00508;
inline constexpr double kCfm_m3_s = 0.3048 * 0.3048 * 0.3048 / 60;

inline AirOfDay airFrom(const AirEntry& entry) {
  return airOfDay(entry).value();
}

/// Room air of exactly this density, no static pressure in the duct.
inline AirOfDay airOfDensity(double density_kg_m3) {
  AirEntry entry;
  entry.density_kg_m3 = density_kg_m3;
  entry.static_pa = 0;
  return airFrom(entry);
}

inline Section roundSection(double bore_m) {
  Section s;
  s.shape = RoundSection{bore_m};
  return s;
}

inline Instrument pitotWith(Gauge gauge) {
  return PressureInstrument{gauge, usualProbe(Probe::Form::PitotStatic)};
}

/// A U-tube read 1.6 in (difference) with a pitot tube in a 4 in duct of standard air.
inline MeasurementModel uTubeModel(double difference_in = 1.6) {
  MeasurementModel m;
  m.instrument = pitotWith(ColumnGauge{});
  m.samples = {{difference_in * kInch_m, 0, 1}};
  m.section = roundSection(4 * kInch_m);
  m.air = airOfDensity(physics::kStandardDensity_kg_m3);
  return m;
}

/// Whether a reading was given a notice of this key.
inline bool has(const Measured& m, std::string_view key) {
  return std::any_of(m.notices.begin(), m.notices.end(),
                     [key](const Notice& each) { return each.key == key; });
}

}  // namespace kerfdraft::field::testing
