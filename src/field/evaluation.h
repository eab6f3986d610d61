// The evaluation of a measurement, written once as a template: on the inputs (as entered, listed with
// derivatives, or replayed with other values) and on the note. Included by measurement.cpp alone.
// Order of inputs: gauge, readings, air, coefficient, alignment, factors, section.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "field/instrument_laws.h"
#include "field/measurement.h"

namespace kerfdraft::field::evaluation {

inline Uncertain uncertain(std::string key, std::string name, base::Kind kind, double value, double standard,
                           std::string source) {
  Uncertain u;
  u.key = std::move(key);
  u.name = std::move(name);
  u.kind = kind;
  u.value = value;
  u.standard = standard;
  u.source = std::move(source);
  return u;
}

inline Uncertain numbered(Uncertain u, std::size_t sample) {
  u.group = u.key;
  u.key += "-" + std::to_string(sample + 1);
  return u;
}

// Half a division is what an eye can be wrong by at one level of liquid (common practice).
inline double levelStandard(const ColumnGauge& g) {
  return g.graduation / 2 / std::numbers::sqrt3;
}

/// What the readings of one gauge share.
template <class Real>
struct Shared {
  Real gravity = 1;
  Real rise = 1;
  Real well = 0;
  Real legs = 2;
  Real gain = 1;
  Real offset = 0;
};

template <class Inputs>
Shared<typename Inputs::Real> sharedOf(const ColumnGauge& g, Legs legs, Inputs& in) {
  Shared<typename Inputs::Real> s;
  s.gravity =
      in(rectangular(uncertain("specific-gravity", "Specific gravity of the liquid", base::Kind::Ratio,
                               g.specific_gravity, 0, "water tables or entered; spread common practice"),
                     g.specific_gravity_half_width));
  if (g.scale == ColumnGauge::Scale::Length && g.form != ColumnGauge::Form::UTube) {
    s.rise = in(rectangular(uncertain("slope", "Rise per length of the leg", base::Kind::Ratio, g.rise, 0,
                                      "entered; levelling common practice"),
                            g.rise_half_width));
    s.well = typename Inputs::Real(g.scale_allows_for_well ? 0.0 : g.well_ratio);
  }
  if (g.form == ColumnGauge::Form::UTube && legs == Legs::OneDoubled &&
      g.scale == ColumnGauge::Scale::Length) {
    s.legs = in(rectangular(uncertain("equal-legs", "Both legs' movement over one leg's", base::Kind::Ratio,
                                      2, 0, "legs of equal bore; ±2 % common practice"),
                            0.04));
  }
  return s;
}

template <class Inputs>
Shared<typename Inputs::Real> sharedOf(const DigitalGauge& g, Legs, Inputs& in) {
  Shared<typename Inputs::Real> s;
  s.gain = in(rectangular(uncertain("gauge-of-reading", "Gauge, accuracy of reading", base::Kind::Ratio, 1, 0,
                                    "maker's limit or common practice"),
                          g.accuracy_of_reading));
  s.offset = in(rectangular(uncertain("gauge-of-range", "Gauge, accuracy of range", base::Kind::Pressure, 0,
                                      0, "maker's limit or common practice"),
                            g.accuracy_of_range * g.range_pa));
  return s;
}

template <class Inputs>
Shared<typename Inputs::Real> sharedOf(const SpeedMeter& m, Inputs& in) {
  Shared<typename Inputs::Real> s;
  s.gain = in(rectangular(uncertain("meter-of-reading", "Meter, accuracy of reading", base::Kind::Ratio, 1, 0,
                                    "maker's limit or common practice"),
                          m.accuracy_of_reading));
  s.offset = in(rectangular(uncertain("meter-of-range", "Meter, accuracy of range", base::Kind::Speed, 0, 0,
                                      "maker's limit or common practice"),
                            m.accuracy_of_range * m.range_m_s));
  return s;
}

template <class Inputs>
typename Inputs::Real level(const char* key, const char* name, const ColumnGauge& g, double value,
                            double levels, std::size_t i, Inputs& in) {
  const base::Kind kind = g.scale == ColumnGauge::Scale::Length ? base::Kind::Bore : base::Kind::Pressure;
  Uncertain u = uncertain(key, name, kind, value, std::sqrt(levels) * levelStandard(g),
                          "read; half a division at each level, common practice");
  if (levels == 1) {
    u.spread = Spread::Rectangular;
  }
  return in(numbered(std::move(u), i));
}

template <class Inputs, class Note>
typename Inputs::Real heightOf(const ColumnGauge& g, Legs legs, const Sample& s, std::size_t i,
                               const Shared<typename Inputs::Real>& shared, Inputs& in, Note& note) {
  if (g.form != ColumnGauge::Form::UTube) {
    const auto along = level("reading", "Reading of the scale, with its zero", g, s.raw, 2, i, in);
    return inclinedHeight(along, shared.rise, shared.well, note);
  }
  if (legs == Legs::Each) {
    const auto up = level("leg-up", "Movement of the one leg", g, s.raw, 1, i, in);
    const auto down = level("leg-down", "Movement of the other leg", g, s.other_leg, 1, i, in);
    return legsSummed(up, down, note);
  }
  if (legs == Legs::OneDoubled) {
    return oneLegDoubled(level("leg", "Movement of one leg", g, s.raw, 1, i, in), shared.legs, note);
  }
  return level("difference", "Difference of the two levels", g, s.raw, 2, i, in);
}

template <class Inputs, class Note>
typename Inputs::Real pressureOf(const ColumnGauge& g, Legs legs, const Sample& s, std::size_t i,
                                 const Shared<typename Inputs::Real>& shared, Inputs& in, Note& note) {
  if (g.scale == ColumnGauge::Scale::Length) {
    return columnPressure(shared.gravity, heightOf(g, legs, s, i, shared, in, note), note);
  }
  // A scale marked in pressure already sums the legs; one leg of a U-tube marked so still shows half.
  const bool doubled = g.form == ColumnGauge::Form::UTube && legs == Legs::OneDoubled;
  const bool each = g.form == ColumnGauge::Form::UTube && legs == Legs::Each;
  const double raw = doubled ? 2 * s.raw : each ? s.raw + s.other_leg : s.raw;
  const auto scale = level("reading", "Reading of the scale, with its zero", g, raw, doubled ? 4 : 2, i, in);
  return otherLiquid(scale, shared.gravity,
                     typename Inputs::Real(g.scale_gravity.value_or(g.specific_gravity)), note);
}

template <class Inputs, class Note>
typename Inputs::Real pressureOf(const DigitalGauge& g, Legs, const Sample& s, std::size_t i,
                                 const Shared<typename Inputs::Real>& shared, Inputs& in, Note&) {
  const auto shown =
      in(numbered(rectangular(uncertain("reading", "Reading of the display", base::Kind::Pressure, s.raw, 0,
                                        "read; half its last digit"),
                              g.resolution_pa / 2),
                  i));
  return shown * shared.gain + shared.offset;
}

/// Standard uncertainty of the gauge alone at a reading of 0 [Pa].
inline double blindPressure(const PressureInstrument& instrument, Legs legs) {
  Listing in;
  base::Silent note;
  const Graded p = std::visit(
      [&](const auto& gauge) {
        const auto shared = sharedOf(gauge, legs, in);
        return pressureOf(gauge, legs, Sample{}, 0, shared, in, note);
      },
      instrument.gauge);
  return makeBudget(in.list(), p, base::Kind::Pressure).combined;
}

template <class Real>
struct Evaluated {
  Real density = 0;
  Real speed = 0;
  Real flow = 0;
  std::vector<double> pressures_pa;
  std::vector<double> speeds_m_s;
};

template <class Inputs, class Note>
std::vector<typename Inputs::Real> pressuresOf(const PressureInstrument& instrument,
                                               const MeasurementModel& m, Inputs& in, Note& note) {
  return std::visit(
      [&](const auto& gauge) {
        std::vector<typename Inputs::Real> pressures;
        const auto shared = sharedOf(gauge, m.legs, in);
        for (std::size_t i = 0; i < m.samples.size(); ++i) {
          pressures.push_back(pressureOf(gauge, m.legs, m.samples[i], i, shared, in, note));
        }
        return pressures;
      },
      instrument.gauge);
}

template <class Inputs>
typename Inputs::Real coefficientOf(const Probe& probe, Inputs& in) {
  const bool hood = probe.form == Probe::Form::HoodTap;
  return in(rectangular(uncertain("coefficient", hood ? "Coefficient of entry" : "Coefficient of the tube",
                                  base::Kind::Ratio, probe.coefficient, 0,
                                  hood ? "entered; spread common practice"
                                       : "Iso3966 or Epa40Cfr60M2, from memory, or entered"),
                        probe.coefficient_half_width));
}

template <class Inputs>
typename Inputs::Real alignmentOf(double half_width, Inputs& in) {
  return in(rectangular(
      uncertain("alignment", "Alignment with the flow", base::Kind::Ratio, 1, 0, "Iso3966, from memory"),
      half_width));
}

template <class Inputs, class Note>
typename Inputs::Real speedOf(const Probe& probe, double blind_pa, std::size_t i,
                              const typename Inputs::Real& pressure, const typename Inputs::Real& coefficient,
                              const typename Inputs::Real& density, Inputs& in, Note& note) {
  // A root has no usable slope near zero, so a sample that the gauge does not see enters as a speed. Whether
  // it is seen is decided by the nominal pressure, never by drawn values: the order of inputs stays the same.
  if (blind_pa >= 0) {
    const double scale = probe.coefficient * std::sqrt(2 / valueOf(density));
    const double seen_pa = std::max(0.0, valueOf(pressure));
    return in(numbered(uncertain("unseen-speed", "Speed below what the gauge shows", base::Kind::Speed,
                                 scale * std::sqrt(seen_pa), scale * std::sqrt(blind_pa),
                                 "the gauge's own uncertainty at zero"),
                       i));
  }
  return probe.form == Probe::Form::HoodTap ? hoodSpeed(coefficient, pressure, density, note)
                                            : tubeSpeed(coefficient, pressure, density, note);
}

inline double nominalPressure(const PressureInstrument& instrument, Legs legs, const Sample& sample) {
  AsEntered in;
  base::Silent note;
  return std::visit(
      [&](const auto& gauge) {
        const auto shared = sharedOf(gauge, legs, in);
        return pressureOf(gauge, legs, sample, 0, shared, in, note);
      },
      instrument.gauge);
}

template <class Inputs, class Note>
typename Inputs::Real areaOf(const Section& section, Inputs& in, Note& note) {
  const auto side = [&](const char* key, const char* name, double value_m) {
    const double standard =
        section.absolute_standard_m > 0 ? section.absolute_standard_m : section.relative_standard * value_m;
    return in(uncertain(key, name, base::Kind::Bore, value_m, standard, section.source));
  };
  if (const auto* round = std::get_if<RoundSection>(&section.shape)) {
    return roundArea(side("bore", "Bore", round->bore_m), note);
  }
  const auto& box = std::get<RectangularSection>(section.shape);
  const auto width = side("width", "Width", box.width_m);
  const auto height = side("height", "Height", box.height_m);
  return rectangularArea(width, height, note);
}

inline double totalWeight(const MeasurementModel& m) {
  double sum = 0;
  for (const Sample& s : m.samples) {
    sum += s.weight;
  }
  return sum;
}

template <class Inputs, class Note>
Evaluated<typename Inputs::Real> evaluate(const MeasurementModel& m, Inputs& in, Note& note) {
  using Real = typename Inputs::Real;
  Evaluated<Real> out;
  const double n = totalWeight(m);
  Real sum = 0;
  if (const auto* instrument = std::get_if<PressureInstrument>(&m.instrument)) {
    const std::vector<Real> pressures = pressuresOf(*instrument, m, in, note);
    std::optional<Real> hood_static;
    if (instrument->probe.form == Probe::Form::HoodTap) {
      hood_static = Real(0);
      for (const Real& p : pressures) {
        hood_static = *hood_static - p / Real(static_cast<double>(pressures.size()));
      }
    }
    out.density = planeDensity(m.air, hood_static, in, note);
    const Real coefficient = coefficientOf(instrument->probe, in);
    const double blind_pa = blindPressure(*instrument, m.legs);
    for (std::size_t i = 0; i < pressures.size(); ++i) {
      const bool seen = nominalPressure(*instrument, m.legs, m.samples[i]) > blind_pa;
      const Real v = speedOf(instrument->probe, seen ? -1 : blind_pa, i, pressures[i], coefficient,
                             out.density, in, note);
      out.pressures_pa.push_back(valueOf(pressures[i]));
      out.speeds_m_s.push_back(valueOf(v));
      sum = sum + Real(m.samples[i].weight) * v;
    }
    out.speed = meanOfSpeeds(sum, n, note);
    if (instrument->probe.alignment_half_width > 0) {
      out.speed = factoredSpeed(alignmentOf(instrument->probe.alignment_half_width, in), out.speed, note);
    }
  } else {
    const auto& meter = std::get<SpeedMeter>(m.instrument);
    const auto shared = sharedOf(meter, in);
    out.density = planeDensity(m.air, std::optional<Real>(), in, note);
    for (std::size_t i = 0; i < m.samples.size(); ++i) {
      const Real shown =
          in(numbered(rectangular(uncertain("reading", "Reading of the display", base::Kind::Speed,
                                            m.samples[i].raw, 0, "read; half its last digit"),
                                  meter.resolution_m_s / 2),
                      i));
      const Real corrected = shown * shared.gain + shared.offset;
      const Real v = meter.form == SpeedMeter::Form::HotWire
                         ? thermalSpeed(corrected, Real(meter.calibration_kg_m3), out.density, note)
                         : corrected;
      out.speeds_m_s.push_back(valueOf(v));
      sum = sum + Real(m.samples[i].weight) * v;
    }
    out.speed = factoredSpeed(alignmentOf(meter.alignment_half_width, in), meanOfSpeeds(sum, n, note), note);
  }
  for (const Uncertain& factor : m.factors) {
    out.speed = factoredSpeed(in(factor), out.speed, note);
  }
  if (m.section) {
    out.flow = flowThrough(areaOf(*m.section, in, note), out.speed, note);
  }
  return out;
}

}  // namespace kerfdraft::field::evaluation
