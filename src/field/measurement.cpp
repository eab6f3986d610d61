// The instances of the evaluation, the checks before it and the notices that every measurement shares.
// The arithmetic itself is in evaluation.h.
#include "field/measurement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "field/evaluation.h"
#include "field/instrument_laws.h"

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;
using evaluation::blindPressure;
using evaluation::evaluate;

constexpr double kFastest_m_s = 100;        // no duct or vacuum line is faster: a slip of the unit
constexpr double kIncompressible_m_s = 60;  // beyond, compression changes dp by more than 0.8 %
constexpr double kUsefulRelative = 0.2;     // u(dp)/dp that leaves ±20 % of speed at k = 2
constexpr double kHeadShare = 0.05;         // of the duct's area, ours
constexpr double kProbeShare = 1.0 / 30;    // of the bore, common practice

std::string bothUnits(Kind kind, double si) {
  return base::formatQuantity(kind, si, base::UnitSystem::Us) + " (" +
         base::formatQuantity(kind, si, base::UnitSystem::Metric) + ")";
}

Result<void> checkSample(const MeasurementModel& m, std::size_t i, const std::string& where) {
  const Sample& s = m.samples[i];
  const Kind kind = rawKind(m.instrument);
  const std::string number = m.samples.size() > 1 ? fmt::format("Reading {} of ", i + 1) : "A reading of ";
  if (!std::isfinite(s.raw) || !std::isfinite(s.other_leg)) {
    return base::fail(ErrorCode::Parse, number + "something that is not a finite number.", where);
  }
  const double lowest = std::min(s.raw, s.other_leg);
  if (lowest < 0) {
    return base::fail(
        ErrorCode::Range,
        number + bothUnits(kind, lowest) +
            (kind == Kind::Speed ? " is negative. Turn the instrument to face the flow."
             : isHoodTap(m.instrument)
                 ? " is negative. Give the suction as a magnitude."
                 : " is negative, and a velocity pressure never is: the two hoses are swapped, the "
                   "tube points downstream, or the flow turns back there."),
        where);
  }
  if (const auto* instrument = std::get_if<PressureInstrument>(&m.instrument)) {
    const auto* digital = std::get_if<DigitalGauge>(&instrument->gauge);
    if (digital != nullptr && s.raw > digital->range_pa) {
      return base::fail(ErrorCode::Range,
                        number + bothUnits(kind, s.raw) + " is beyond the gauge's range of " +
                            bothUnits(kind, digital->range_pa) + ".",
                        where);
    }
  }
  return {};
}

Notice notice(std::string key, Notice::Level level, std::vector<Said> quantities, std::string source) {
  return {std::move(key), level, std::move(quantities), {}, std::move(source)};
}

void addResolution(const MeasurementModel& m, Measured& out) {
  const auto* instrument = std::get_if<PressureInstrument>(&m.instrument);
  if (instrument == nullptr) {
    return;
  }
  out.smallest_useful_pa = blindPressure(*instrument, m.legs) / kUsefulRelative;
  out.smallest_useful_m_s =
      instrument->probe.coefficient * std::sqrt(2 * out.smallest_useful_pa / out.density_kg_m3);
  const auto low =
      std::ranges::count_if(out.sample_pressures_pa, [&](double p) { return p < out.smallest_useful_pa; });
  if (low > 0) {
    out.notices.push_back(notice(out.pressure_pa > 0 ? "below-resolution" : "zero-reading",
                                 Notice::Level::Caution,
                                 {{"pressure", Kind::Pressure, std::ranges::min(out.sample_pressures_pa)},
                                  {"smallest-pressure", Kind::Pressure, out.smallest_useful_pa},
                                  {"smallest-speed", Kind::Speed, out.smallest_useful_m_s},
                                  {"count", Kind::Ratio, static_cast<double>(low)},
                                  {"of", Kind::Ratio, static_cast<double>(m.samples.size())}},
                                 "Gum2008, budget of the gauge alone"));
  }
}

void addSize(const MeasurementModel& m, const Measured&, std::vector<Notice>& notices) {
  if (!m.section) {
    return;
  }
  const auto* meter = std::get_if<SpeedMeter>(&m.instrument);
  const double diameter_m =
      meter != nullptr ? meter->diameter_m : std::get<PressureInstrument>(m.instrument).probe.diameter_m;
  const auto* round = std::get_if<RoundSection>(&m.section->shape);
  const auto* box = std::get_if<RectangularSection>(&m.section->shape);
  const double bore_m = round != nullptr ? round->bore_m : std::min(box->width_m, box->height_m);
  if (meter != nullptr) {
    const double share = roundArea(diameter_m) / sectionArea(*m.section);
    if (share > kHeadShare) {
      notices.push_back(notice("head-large", Notice::Level::Caution,
                               {{"diameter", Kind::Bore, diameter_m}, {"share", Kind::Ratio, share}},
                               "ours"));
    }
  } else if (diameter_m > kProbeShare * bore_m) {
    notices.push_back(notice("probe-large", Notice::Level::Caution,
                             {{"diameter", Kind::Bore, diameter_m}, {"bore", Kind::Bore, bore_m}},
                             "common practice: at most 1/30 of the bore"));
  }
}

double meanOf(const std::vector<double>& x) {
  double sum = 0;
  for (const double v : x) {
    sum += v;
  }
  return x.empty() ? 0 : sum / static_cast<double>(x.size());
}

/// What averaging the pressures (squares of speeds) would give, over the true mean of the speeds.
double rootOfMeanRatio(const std::vector<double>& speeds) {
  double squares = 0;
  for (const double v : speeds) {
    squares += v * v;
  }
  const double mean = meanOf(speeds);
  return mean > 0 ? std::sqrt(squares / static_cast<double>(speeds.size())) / mean : 1;
}

}  // namespace

Result<void> checkSection(const Section& section, std::string_view where) {
  const auto side = [&](const char* what, double value_m) -> Result<void> {
    if (value_m >= 0.01 && value_m <= 3.0) {
      return {};
    }
    return base::fail(ErrorCode::Range,
                      fmt::format("{} of {} is outside 10 mm to 3 m.", what, bothUnits(Kind::Bore, value_m)),
                      std::string(where));
  };
  if (const auto* round = std::get_if<RoundSection>(&section.shape)) {
    return side("A bore", round->bore_m);
  }
  const auto& box = std::get<RectangularSection>(section.shape);
  return side("A width", box.width_m).and_then([&] { return side("A height", box.height_m); });
}

double sectionArea(const Section& section) {
  AsEntered in;
  base::Silent note;
  return evaluation::areaOf(section, in, note);
}

std::vector<Uncertain> inputsOf(const MeasurementModel& model) {
  Listing in;
  base::Silent note;
  evaluate(model, in, note);
  return in.list();
}

SpeedAndFlow evaluateAt(const MeasurementModel& model, std::span<const double> inputs) {
  Replay in(inputs);
  base::Silent note;
  const auto e = evaluate(model, in, note);
  return {e.speed, e.flow};
}

Result<Measured> measure(const MeasurementModel& model, std::string_view where_view) {
  const std::string where(where_view);
  if (model.samples.empty()) {
    return base::fail(ErrorCode::Range, "There is no reading.", where);
  }
  if (const Result<void> ok = checkInstrument(model.instrument, where); !ok) {
    return tl::unexpected(ok.error());
  }
  if (model.section) {
    if (const Result<void> ok = checkSection(*model.section, where); !ok) {
      return tl::unexpected(ok.error());
    }
  }
  for (std::size_t i = 0; i < model.samples.size(); ++i) {
    if (const Result<void> ok = checkSample(model, i, where); !ok) {
      return tl::unexpected(ok.error());
    }
  }

  Measured out;
  AsEntered as_entered;
  base::Recorder recorder;
  const auto plain = evaluate(model, as_entered, recorder);
  const double fastest = std::ranges::max(plain.speeds_m_s);
  if (!(fastest <= kFastest_m_s) || !std::isfinite(plain.speed)) {
    return base::fail(
        ErrorCode::Range,
        fmt::format("These readings make a speed of {}, which no duct carries: check the unit, the "
                    "liquid and the slope.",
                    bothUnits(Kind::Speed, fastest)),
        where);
  }
  out.steps = recorder.steps();
  out.density_kg_m3 = plain.density;
  out.speed_m_s = plain.speed;
  out.flow_m3_s = plain.flow;
  out.mass_flow_kg_s = plain.flow * plain.density;
  out.room_flow_m3_s = out.mass_flow_kg_s / model.air.room_density_kg_m3;
  out.sample_pressures_pa = plain.pressures_pa;
  out.sample_speeds_m_s = plain.speeds_m_s;
  out.pressure_pa = meanOf(plain.pressures_pa);
  out.rms_speed_m_s = plain.speed * rootOfMeanRatio(plain.speeds_m_s);

  Listing listing;
  base::Silent silent;
  const auto graded = evaluate(model, listing, silent);
  out.speed = makeBudget(listing.list(), graded.speed, Kind::Speed);
  if (model.section) {
    out.flow = makeBudget(listing.list(), graded.flow, Kind::VolumeFlow);
  }

  out.notices = model.air.notices;
  addResolution(model, out);
  addSize(model, out, out.notices);
  if (fastest > kIncompressible_m_s) {
    out.notices.push_back(
        notice("fast-air", Notice::Level::Note, {{"speed", Kind::Speed, fastest}}, "from memory"));
  }
  return out;
}

}  // namespace kerfdraft::field
