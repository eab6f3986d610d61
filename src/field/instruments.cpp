// Range checks and usual values of instruments.
// The ranges refuse slips of the pen, not unusual instruments.
#include "field/instruments.h"

#include <fmt/format.h>

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Result;

Result<void> within(double value, double low, double high, std::string_view what, std::string_view where) {
  if (value >= low && value <= high) {
    return {};
  }
  return base::fail(ErrorCode::Range,
                    fmt::format("{} of {:.6g} is outside {:g} to {:g}.", what, value, low, high),
                    std::string(where));
}

Result<void> checkGauge(const ColumnGauge& g, std::string_view where) {
  const bool length = g.scale == ColumnGauge::Scale::Length;
  return within(g.graduation, length ? 1e-6 : 1e-3, length ? 0.05 : 500,
                length ? "A scale division [m]" : "A scale division [Pa]", where)
      .and_then([&] { return within(g.rise, 0.005, 1, "A slope (rise per length)", where); })
      .and_then([&] { return within(g.rise_half_width, 0, g.rise / 2, "An uncertainty of slope", where); })
      .and_then([&] { return within(g.well_ratio, 0, 1, "A ratio of leg area to reservoir area", where); })
      .and_then([&] { return within(g.specific_gravity, 0.3, 14, "A specific gravity", where); })
      .and_then([&] {
        return within(g.specific_gravity_half_width, 0, g.specific_gravity / 2,
                      "An uncertainty of specific gravity", where);
      })
      .and_then([&] {
        return within(g.scale_gravity.value_or(1), 0.3, 14, "A specific gravity of the scale", where);
      });
}

Result<void> checkGauge(const DigitalGauge& g, std::string_view where) {
  return within(g.resolution_pa, 1e-4, 1000, "A resolution [Pa]", where)
      .and_then([&] { return within(g.accuracy_of_reading, 0, 0.5, "An accuracy of reading", where); })
      .and_then([&] { return within(g.accuracy_of_range, 0, 0.5, "An accuracy of range", where); })
      .and_then([&] { return within(g.range_pa, 1, 1e5, "A range [Pa]", where); });
}

Result<void> checkProbe(const Probe& p, std::string_view where) {
  const bool hood = p.form == Probe::Form::HoodTap;
  return within(p.coefficient, 0.2, hood ? 1.0 : 1.2, hood ? "A coefficient of entry" : "A tube coefficient",
                where)
      .and_then([&] {
        return within(p.coefficient_half_width, 0, 0.5, "An uncertainty of the coefficient", where);
      })
      .and_then([&] { return within(p.alignment_half_width, 0, 0.5, "An uncertainty of alignment", where); })
      .and_then([&] { return within(p.diameter_m, 0, 0.1, "A probe diameter [m]", where); });
}

Result<void> checkMeter(const SpeedMeter& m, std::string_view where) {
  return within(m.resolution_m_s, 1e-4, 5, "A resolution [m/s]", where)
      .and_then([&] { return within(m.accuracy_of_reading, 0, 0.5, "An accuracy of reading", where); })
      .and_then([&] { return within(m.accuracy_of_range, 0, 0.5, "An accuracy of range", where); })
      .and_then([&] { return within(m.range_m_s, 0.1, 200, "A range [m/s]", where); })
      .and_then([&] { return within(m.calibration_kg_m3, 0.5, 2, "A calibration density [kg/m3]", where); })
      .and_then([&] { return within(m.diameter_m, 0, 0.5, "A head diameter [m]", where); });
}

}  // namespace

Probe usualProbe(Probe::Form form) {
  Probe p;
  p.form = form;
  if (form == Probe::Form::TypeS) {
    p.coefficient = 0.84;
    p.coefficient_half_width = 0.03;
    p.alignment_half_width = 0.02;
  }
  if (form == Probe::Form::HoodTap) {
    p.coefficient_half_width = 0.05;
    p.alignment_half_width = 0;
  }
  return p;
}

SpeedMeter usualSpeedMeter(SpeedMeter::Form form) {
  SpeedMeter m;
  m.form = form;
  if (form == SpeedMeter::Form::HotWire) {
    m.accuracy_of_reading = 0.05;
  }
  return m;
}

base::Kind rawKind(const Instrument& instrument) {
  const auto* pressure = std::get_if<PressureInstrument>(&instrument);
  if (pressure == nullptr) {
    return base::Kind::Speed;
  }
  const auto* column = std::get_if<ColumnGauge>(&pressure->gauge);
  return column != nullptr && column->scale == ColumnGauge::Scale::Length ? base::Kind::Bore
                                                                          : base::Kind::Pressure;
}

bool isUTube(const Instrument& instrument) {
  const auto* pressure = std::get_if<PressureInstrument>(&instrument);
  const auto* column = pressure == nullptr ? nullptr : std::get_if<ColumnGauge>(&pressure->gauge);
  return column != nullptr && column->form == ColumnGauge::Form::UTube;
}

bool isHoodTap(const Instrument& instrument) {
  const auto* pressure = std::get_if<PressureInstrument>(&instrument);
  return pressure != nullptr && pressure->probe.form == Probe::Form::HoodTap;
}

Result<void> checkInstrument(const Instrument& instrument, std::string_view where) {
  if (const auto* meter = std::get_if<SpeedMeter>(&instrument)) {
    return checkMeter(*meter, where);
  }
  const auto& pressure = std::get<PressureInstrument>(instrument);
  return std::visit([&](const auto& gauge) { return checkGauge(gauge, where); }, pressure.gauge)
      .and_then([&] { return checkProbe(pressure.probe, where); });
}

}  // namespace kerfdraft::field
