// Place factor, repeatability and the notices of a single reading.
#include "field/reading.h"

#include <algorithm>
#include <cmath>

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;

// Speeds that ducts of the trade are built for: outside, one leg read for both is the likelier story.
constexpr double kSlowDuct_m_s = 2500 * 0.00508;
constexpr double kFastDuct_m_s = 6000 * 0.00508;

Uncertain factor(std::string key, std::string name, double value, double half_width, std::string source) {
  Uncertain u;
  u.key = std::move(key);
  u.name = std::move(name);
  u.value = value;
  u.source = std::move(source);
  return rectangular(std::move(u), half_width);
}

Uncertain placeFactor(const Reading& r) {
  if (isHoodTap(r.instrument)) {
    return factor("place", "Tap reading for the hood's loss", 1, 0.02,
                  "straight duct of the tap, common practice");
  }
  switch (r.place) {
    case Place::Centre:
      return factor("place", "Mean over centre speed", kCentreFactor, kCentreHalfWidth,
                    "common practice; spread from profiles 0.81 to 0.99");
    case Place::Mean:
      return factor("place", "Reading for the mean of the section", 1, 0.05, "±5 % ours");
    case Place::Unstated:
      break;
  }
  return factor("place", "Reading for the mean of the section", 1, 0.15, "place not stated; ±15 % ours");
}

/// Scatter of repeats: standard deviation of their mean, as a factor of 1 (GUM 4.2.3).
std::optional<Uncertain> repeatability(const MeasurementModel& bare) {
  if (bare.samples.size() < 2) {
    return std::nullopt;
  }
  const Result<Measured> first = measure(bare);
  if (!first || !(first->speed_m_s > 0)) {
    return std::nullopt;
  }
  const auto& v = first->sample_speeds_m_s;
  const double n = static_cast<double>(v.size());
  double mean = 0;
  for (const double x : v) {
    mean += x / n;
  }
  double squares = 0;
  for (const double x : v) {
    squares += (x - mean) * (x - mean);
  }
  Uncertain u;
  u.key = "repeats";
  u.name = "Scatter of the repeats";
  u.value = 1;
  u.standard = std::sqrt(squares / (n - 1) / n) / mean;
  u.freedom = n - 1;
  u.source = "scatter of the readings, Gum2008 4.2.3";
  return u;
}

void addLegs(const Reading& r, Measured& m) {
  if (!isUTube(r.instrument)) {
    return;
  }
  const double v = m.speed_m_s;
  if (r.legs == Legs::OneDoubled) {
    m.notices.push_back({"one-leg-doubled",
                         Notice::Level::Note,
                         {{"leg", Kind::Pressure, m.pressure_pa / 2},
                          {"pressure", Kind::Pressure, m.pressure_pa},
                          {"half-speed", Kind::Speed, v / std::sqrt(2.0)}},
                         {},
                         "common practice"});
  }
  if (r.legs == Legs::Unstated && v > 0) {
    const double doubled = v * std::sqrt(2.0);
    const bool likely =
        !isHoodTap(r.instrument) && v < kSlowDuct_m_s && doubled >= kSlowDuct_m_s && doubled <= kFastDuct_m_s;
    m.notices.push_back({likely ? "one-leg-likely" : "one-leg-unclear",
                         likely ? Notice::Level::Caution : Notice::Level::Note,
                         {{"pressure", Kind::Pressure, m.pressure_pa},
                          {"doubled-pressure", Kind::Pressure, 2 * m.pressure_pa},
                          {"speed", Kind::Speed, v},
                          {"doubled-speed", Kind::Speed, doubled},
                          {"doubled-flow", Kind::VolumeFlow, m.flow_m3_s * std::sqrt(2.0)}},
                         {},
                         "common practice"});
  }
  if (r.legs == Legs::Each) {
    for (const Sample& s : r.repeats) {
      const double larger = std::max(s.raw, s.other_leg);
      if (larger > 0 && std::abs(s.raw - s.other_leg) > 0.1 * larger) {
        m.notices.push_back(
            {"legs-unequal",
             Notice::Level::Note,
             {{"leg-1", rawKind(r.instrument), s.raw}, {"leg-2", rawKind(r.instrument), s.other_leg}},
             {},
             "common practice"});
        break;
      }
    }
  }
}

void addPlace(const Reading& r, Measured& m) {
  if (isHoodTap(r.instrument)) {
    return;
  }
  if (r.place == Place::Centre) {
    m.notices.push_back({"centre-reading",
                         Notice::Level::Caution,
                         {{"factor", Kind::Ratio, kCentreFactor},
                          {"centre-speed", Kind::Speed, m.speed_m_s / kCentreFactor},
                          {"centre-flow", Kind::VolumeFlow, m.flow_m3_s / kCentreFactor}},
                         {},
                         "common practice"});
  }
  if (r.place == Place::Unstated && m.speed_m_s > 0) {
    m.notices.push_back({"place-unstated",
                         Notice::Level::Note,
                         {{"factor", Kind::Ratio, kCentreFactor},
                          {"if-centre-speed", Kind::Speed, m.speed_m_s * kCentreFactor},
                          {"if-centre-flow", Kind::VolumeFlow, m.flow_m3_s * kCentreFactor}},
                         {},
                         "common practice"});
  }
}

void addAveraging(const Reading& r, Measured& m) {
  if (r.mean_of_pressures) {
    m.notices.push_back({"mean-of-pressures", Notice::Level::Caution, {}, {}, "Epa40Cfr60M2"});
  }
  const double over = m.speed_m_s > 0 ? m.rms_speed_m_s / m.speed_m_s - 1 : 0;
  if (over > 0.001 && std::holds_alternative<PressureInstrument>(r.instrument)) {
    m.notices.push_back({"pressures-averaged",
                         Notice::Level::Note,
                         {{"over", Kind::Ratio, over},
                          {"wrong-speed", Kind::Speed, m.rms_speed_m_s},
                          {"speed", Kind::Speed, m.speed_m_s}},
                         {},
                         "Epa40Cfr60M2"});
  }
}

}  // namespace

MeasurementModel readingModel(const Reading& r) {
  MeasurementModel model;
  model.instrument = r.instrument;
  model.legs = r.legs == Legs::Unstated ? Legs::Summed : r.legs;
  model.samples = r.repeats;
  model.section = r.section;
  model.air = r.air;
  if (std::optional<Uncertain> scatter = repeatability(model)) {
    model.factors.push_back(std::move(*scatter));
  }
  model.factors.push_back(placeFactor(r));
  if (r.mean_of_pressures) {
    model.factors.push_back(
        factor("mean-of-pressures", "Speed from a mean of pressures", 1, 0.025, "reads high; ±2.5 % ours"));
  }
  return model;
}

Result<Measured> measureReading(const Reading& r, std::string_view where) {
  if (!isUTube(r.instrument) && (r.legs == Legs::Each || r.legs == Legs::OneDoubled)) {
    return base::fail(ErrorCode::Conflict,
                      "Only a U-tube has two legs to read; this instrument has one scale.",
                      std::string(where));
  }
  const MeasurementModel model = readingModel(r);
  Result<Measured> m = measure(model, where);
  if (!m) {
    return m;
  }
  addLegs(r, *m);
  addPlace(r, *m);
  addAveraging(r, *m);
  std::vector<Suspect> suspects = usualSuspects(model, *m);
  if (r.place == Place::Centre) {
    suspects.push_back({"claim-centre", m->speed_m_s / kCentreFactor});
  }
  if (std::optional<Notice> verdict = explainClaim(r.claim, model, *m, std::move(suspects))) {
    m->notices.push_back(std::move(*verdict));
  }
  return m;
}

}  // namespace kerfdraft::field
