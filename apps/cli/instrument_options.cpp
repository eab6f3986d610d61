// Text to instruments, ducts and air. Every refusal names its option.
#include "cli/instrument_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "field/instrument_laws.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;
using field::ColumnGauge;

/// Sets `target` where the text is not empty.
template <class Target>
Result<void> take(Kind kind, const std::string& text, std::string_view option, Target& target) {
  if (text.empty()) {
    return {};
  }
  const Result<double> value = base::parseQuantity(kind, text, option);
  if (!value) {
    return Failure(value.error());
  }
  target = *value;
  return {};
}

struct Taken {
  const std::string* text;
  std::string_view option;
};

/// Refuses options that were typed but mean nothing for this instrument.
Result<void> refuseOthers(std::initializer_list<Taken> others, std::string_view instrument) {
  for (const Taken& other : others) {
    if (!other.text->empty()) {
      return fail(ErrorCode::Conflict, fmt::format("A {} does not have this.", instrument),
                  std::string(other.option));
    }
  }
  return {};
}

Result<double> readSlope(const std::string& text) {
  const std::string_view where = "--slope";
  if (const auto colon = text.find(':'); colon != std::string::npos) {
    const Result<double> rise = base::parseQuantity(Kind::Ratio, text.substr(0, colon), where);
    const Result<double> length = base::parseQuantity(Kind::Ratio, text.substr(colon + 1), where);
    if (!rise || !length || *length <= 0) {
      return fail(ErrorCode::Parse,
                  fmt::format("\"{}\" is not a slope; write \"1:10\", \"0.1\" or \"5.74 deg\".", text),
                  std::string(where));
    }
    return *rise / *length;
  }
  if (text.find("deg") != std::string::npos || text.find("°") != std::string::npos) {
    return base::parseQuantity(Kind::Angle, text, where).map([](double angle_rad) {
      return std::sin(angle_rad);
    });
  }
  return base::parseQuantity(Kind::Ratio, text, where);
}

Result<field::Probe> readProbe(const InstrumentOptions& o) {
  using Form = field::Probe::Form;
  Form form = Form::PitotStatic;
  if (o.probe == "type-s") {
    form = Form::TypeS;
  } else if (o.probe == "hood") {
    form = Form::HoodTap;
  } else if (!o.probe.empty() && o.probe != "pitot") {
    return fail(ErrorCode::Parse, fmt::format("\"{}\" is none of pitot, type-s, hood.", o.probe), "--probe");
  }
  field::Probe probe = field::usualProbe(form);
  const bool hood = form == Form::HoodTap;
  if (!o.entry_loss.empty()) {
    if (!hood || !o.coefficient.empty()) {
      return fail(ErrorCode::Conflict,
                  "An entry loss goes with a hood tap, in place of its coefficient of entry.",
                  "--entry-loss");
    }
    const Result<double> loss = base::parseQuantity(Kind::Ratio, o.entry_loss, "--entry-loss");
    if (!loss) {
      return Failure(loss.error());
    }
    if (!(*loss >= 0 && *loss <= 20)) {
      return fail(ErrorCode::Range,
                  fmt::format("An entry loss of {:g} velocity pressures is outside 0 to 20.", *loss),
                  "--entry-loss");
    }
    probe.coefficient = field::entryCoefficient(*loss);
  } else if (hood && o.coefficient.empty()) {
    return fail(ErrorCode::Parse,
                "A hood tap needs the hood's coefficient of entry, or its entry loss (--entry-loss).",
                "--coefficient");
  }
  const Result<void> ok =
      take(Kind::Ratio, o.coefficient, "--coefficient", probe.coefficient)
          .and_then([&] {
            return take(Kind::Ratio, o.coefficient_within, "--coefficient-within",
                        probe.coefficient_half_width);
          })
          .and_then(
              [&] { return take(Kind::Length, o.probe_diameter, "--probe-diameter", probe.diameter_m); });
  return ok ? Result<field::Probe>(probe) : Failure(ok.error());
}

Result<ReadInstrument> readColumn(const InstrumentOptions& o, ColumnGauge::Form form,
                                  const field::Probe& probe, std::string_view first_reading) {
  const std::string_view name = form == ColumnGauge::Form::UTube      ? "U-tube"
                                : form == ColumnGauge::Form::Inclined ? "inclined gauge"
                                                                      : "reservoir gauge";
  ColumnGauge g;
  g.form = form;
  // The unit of the first reading says what the scale is marked in.
  const bool length = base::parseQuantity(Kind::Length, first_reading).has_value();
  g.scale = length ? ColumnGauge::Scale::Length : ColumnGauge::Scale::Pressure;
  const bool inclined = form == ColumnGauge::Form::Inclined;
  const double division_in = form == ColumnGauge::Form::UTube ? 0.1 : length ? 0.05 : inclined ? 0.02 : 0.1;
  g.graduation = division_in * (length ? 0.0254 : 0.0254 * field::kConventionalWater_pa_m);
  Result<void> ok = refuseOthers({{&o.resolution, "--resolution"},
                                  {&o.accuracy, "--accuracy"},
                                  {&o.range_accuracy, "--range-accuracy"},
                                  {&o.range, "--range"},
                                  {&o.calibration, "--calibration"}},
                                 name);
  if (ok && !inclined) {
    ok = refuseOthers({{&o.slope, "--slope"}}, name);
  }
  if (ok && (form == ColumnGauge::Form::UTube || !length)) {
    ok = refuseOthers({{&o.well_ratio, "--well-ratio"}},
                      form == ColumnGauge::Form::UTube ? name : "pressure scale");
  }
  if (ok && length) {
    ok = refuseOthers({{&o.scale_liquid, "--scale-liquid"}}, "scale marked in length");
  }
  if (!ok) {
    return Failure(ok.error());
  }
  if (inclined && length) {
    if (o.slope.empty()) {
      return fail(ErrorCode::Parse,
                  "An inclined gauge that is read as a length needs its slope, like \"1:10\".", "--slope");
    }
    const Result<double> slope = readSlope(o.slope);
    if (!slope) {
      return Failure(slope.error());
    }
    g.rise = *slope;
    g.rise_half_width = 0.01 * g.rise;
  }
  g.scale_allows_for_well = o.well_ratio.empty();
  ok = take(length ? Kind::Length : Kind::Pressure, o.graduation, "--graduation", g.graduation)
           .and_then([&] { return take(Kind::Ratio, o.well_ratio, "--well-ratio", g.well_ratio); })
           .and_then([&] { return take(Kind::Ratio, o.liquid, "--liquid", g.specific_gravity); })
           .and_then([&] { return take(Kind::Ratio, o.scale_liquid, "--scale-liquid", g.scale_gravity); });
  if (!ok) {
    return Failure(ok.error());
  }
  if (!o.liquid.empty()) {
    g.specific_gravity_half_width = 0.005 * g.specific_gravity;
  }
  return ReadInstrument{field::PressureInstrument{g, probe}, length};
}

Result<ReadInstrument> readDigital(const InstrumentOptions& o, const field::Probe& probe) {
  field::DigitalGauge g;
  const Result<void> ok =
      refuseOthers({{&o.graduation, "--graduation"},
                    {&o.slope, "--slope"},
                    {&o.well_ratio, "--well-ratio"},
                    {&o.liquid, "--liquid"},
                    {&o.scale_liquid, "--scale-liquid"},
                    {&o.calibration, "--calibration"}},
                   "digital gauge")
          .and_then([&] { return take(Kind::Pressure, o.resolution, "--resolution", g.resolution_pa); })
          .and_then([&] { return take(Kind::Ratio, o.accuracy, "--accuracy", g.accuracy_of_reading); })
          .and_then(
              [&] { return take(Kind::Ratio, o.range_accuracy, "--range-accuracy", g.accuracy_of_range); })
          .and_then([&] { return take(Kind::Pressure, o.range, "--range", g.range_pa); });
  return ok ? Result<ReadInstrument>(ReadInstrument{field::PressureInstrument{g, probe}, false})
            : Failure(ok.error());
}

Result<ReadInstrument> readMeter(const InstrumentOptions& o, field::SpeedMeter::Form form) {
  field::SpeedMeter m = field::usualSpeedMeter(form);
  const bool vane = form == field::SpeedMeter::Form::Vane;
  Result<void> ok = refuseOthers({{&o.probe, "--probe"},
                                  {&o.coefficient, "--coefficient"},
                                  {&o.coefficient_within, "--coefficient-within"},
                                  {&o.entry_loss, "--entry-loss"},
                                  {&o.graduation, "--graduation"},
                                  {&o.slope, "--slope"},
                                  {&o.well_ratio, "--well-ratio"},
                                  {&o.liquid, "--liquid"},
                                  {&o.scale_liquid, "--scale-liquid"}},
                                 vane ? "vane anemometer" : "hot wire");
  if (ok && vane) {
    ok = refuseOthers({{&o.calibration, "--calibration"}}, "vane anemometer");
  }
  ok = ok.and_then([&] { return take(Kind::Speed, o.resolution, "--resolution", m.resolution_m_s); })
           .and_then([&] { return take(Kind::Ratio, o.accuracy, "--accuracy", m.accuracy_of_reading); })
           .and_then(
               [&] { return take(Kind::Ratio, o.range_accuracy, "--range-accuracy", m.accuracy_of_range); })
           .and_then([&] { return take(Kind::Speed, o.range, "--range", m.range_m_s); })
           .and_then([&] { return take(Kind::Density, o.calibration, "--calibration", m.calibration_kg_m3); })
           .and_then([&] { return take(Kind::Length, o.probe_diameter, "--probe-diameter", m.diameter_m); });
  return ok ? Result<ReadInstrument>(ReadInstrument{m, false}) : Failure(ok.error());
}

}  // namespace

Result<ReadInstrument> readInstrument(const InstrumentOptions& o, std::string_view first_reading) {
  Result<ReadInstrument> read = fail(ErrorCode::Parse, "");
  if (o.instrument == "vane" || o.instrument == "hot-wire") {
    read = readMeter(
        o, o.instrument == "vane" ? field::SpeedMeter::Form::Vane : field::SpeedMeter::Form::HotWire);
  } else {
    const Result<field::Probe> probe = readProbe(o);
    if (!probe) {
      return Failure(probe.error());
    }
    if (o.instrument.empty() || o.instrument == "u-tube") {
      read = readColumn(o, ColumnGauge::Form::UTube, *probe, first_reading);
    } else if (o.instrument == "inclined") {
      read = readColumn(o, ColumnGauge::Form::Inclined, *probe, first_reading);
    } else if (o.instrument == "reservoir") {
      read = readColumn(o, ColumnGauge::Form::Reservoir, *probe, first_reading);
    } else if (o.instrument == "digital") {
      read = readDigital(o, *probe);
    } else {
      return fail(ErrorCode::Parse,
                  fmt::format("\"{}\" is none of u-tube, inclined, reservoir, digital, vane, hot-wire.",
                              o.instrument),
                  "--instrument");
    }
  }
  if (read) {
    if (const Result<void> ok = field::checkInstrument(read->instrument, "instrument"); !ok) {
      return Failure(ok.error());
    }
  }
  return read;
}

Result<std::optional<field::Section>> readSection(const DuctOptions& o) {
  const bool box = !o.width.empty() || !o.height.empty();
  if (o.bore.empty() && !box) {
    if (!o.bore_within.empty()) {
      return fail(ErrorCode::Conflict, "There is no duct whose size this could belong to.", "--bore-within");
    }
    return std::optional<field::Section>();
  }
  if (!o.bore.empty() && box) {
    return fail(ErrorCode::Conflict, "A duct has a bore, or a width and a height, not both.", "--bore");
  }
  if (box && (o.width.empty() || o.height.empty())) {
    return fail(ErrorCode::Parse, "A rectangular duct needs its width and its height.",
                o.width.empty() ? "--width" : "--height");
  }
  field::Section section;
  Result<void> ok;
  if (box) {
    field::RectangularSection shape;
    ok = take(Kind::Length, o.width, "--width", shape.width_m).and_then([&] {
      return take(Kind::Length, o.height, "--height", shape.height_m);
    });
    section.shape = shape;
  } else {
    field::RoundSection shape;
    ok = take(Kind::Length, o.bore, "--bore", shape.bore_m);
    section.shape = shape;
  }
  ok = ok.and_then(
      [&] { return take(Kind::Length, o.bore_within, "--bore-within", section.absolute_standard_m); });
  if (ok && !o.bore_within.empty()) {
    if (!(section.absolute_standard_m > 0 && section.absolute_standard_m < 0.1)) {
      return fail(ErrorCode::Range, fmt::format("\"{}\" cannot be the uncertainty of a bore.", o.bore_within),
                  "--bore-within");
    }
    section.source = "measured; its uncertainty entered";
  }
  ok = ok.and_then([&] { return field::checkSection(section, box ? "--width" : "--bore"); });
  return ok ? Result<std::optional<field::Section>>(section) : Failure(ok.error());
}

Result<field::AirOfDay> readAir(const AirOptions& o) {
  field::AirEntry e;
  const Result<void> ok =
      take(Kind::Temperature, o.temperature, "--temperature", e.temperature_k)
          .and_then([&] { return take(Kind::Length, o.altitude, "--altitude", e.altitude_m); })
          .and_then([&] { return take(Kind::AbsolutePressure, o.barometer, "--barometer", e.barometric_pa); })
          .and_then([&] { return take(Kind::Ratio, o.humidity, "--humidity", e.humidity); })
          .and_then([&] { return take(Kind::Density, o.density, "--density", e.density_kg_m3); })
          .and_then(
              [&] { return take(Kind::Pressure, o.static_pressure, "--static-pressure", e.static_pa); });
  if (!ok) {
    return Failure(ok.error());
  }
  return field::airOfDay(e, "air");
}

Result<field::Claim> readClaim(const std::string& text) {
  field::Claim claim;
  if (text.empty()) {
    return claim;
  }
  const Result<double> speed = base::parseQuantity(Kind::Speed, text, "--claimed");
  const Result<double> flow = base::parseQuantity(Kind::VolumeFlow, text, "--claimed");
  if (!speed && !flow) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" is neither a speed nor a flow; write it like \"5000 fpm\" or \"440 cfm\".", text),
        "--claimed");
  }
  if (!((speed ? *speed : *flow) > 0)) {
    return fail(ErrorCode::Range, fmt::format("\"{}\" is not above zero.", text), "--claimed");
  }
  if (speed) {
    claim.speed_m_s = *speed;
  } else {
    claim.flow_m3_s = *flow;
  }
  return claim;
}

Result<double> readRaw(const ReadInstrument& instrument, std::string_view text, std::string_view where) {
  const Kind kind = field::rawKind(instrument.instrument);
  return base::parseQuantity(kind, text, where);
}

base::UnitSystem unitsOf(std::optional<base::UnitSystem> asked, const std::string& bore,
                         std::string_view reading) {
  if (asked) {
    return *asked;
  }
  constexpr auto kMetric =
      std::to_array<std::string_view>({"mm", "cm", "m", "Pa", "kPa", "m/s", "mbar", "hPa"});
  const std::string_view text = bore.empty() ? reading : std::string_view(bore);
  const auto unit = text.find_last_of(" 0123456789");
  const std::string_view last = unit == std::string_view::npos ? text : text.substr(unit + 1);
  return std::ranges::find(kMetric, last) != kMetric.end() ? base::UnitSystem::Metric : base::UnitSystem::Us;
}

Result<field::Legs> readLegs(const std::string& text, bool with_each) {
  if (text.empty()) {
    return field::Legs::Unstated;
  }
  if (text == "both") {
    return field::Legs::Summed;
  }
  if (text == "one") {
    return field::Legs::OneDoubled;
  }
  if (text == "each" && with_each) {
    return field::Legs::Each;
  }
  return fail(ErrorCode::Parse,
              fmt::format("\"{}\" is none of both (the readings are differences), one (one leg was read){}.",
                          text, with_each ? ", each (both movements are given)" : ""),
              "--legs");
}

void declareOptions(OptionList& list, InstrumentOptions& o) {
  list.heading("Instrument");
  list.option("--instrument", "TEXT", &o.instrument,
              "u-tube (taken where not given), inclined, reservoir, digital, vane, hot-wire");
  list.option("--probe", "TEXT", &o.probe,
              "What the gauge is connected to: pitot (taken where not given), type-s, hood");
  list.option("--coefficient", "TEXT", &o.coefficient, "Of the tube, or Ce of the hood");
  list.option("--coefficient-within", "TEXT", &o.coefficient_within, "Half width of it");
  list.option("--entry-loss", "TEXT", &o.entry_loss, "Of the hood, on velocity pressure, in place of Ce");
  list.option("--probe-diameter", "TEXT", &o.probe_diameter, "Of tube or head, \"5/16 in\"");
  list.option("--graduation", "TEXT", &o.graduation, "One division of the scale, \"0.1 in\"");
  list.option("--slope", "TEXT", &o.slope, "Of an inclined leg: \"1:10\", or an angle");
  list.option("--well-ratio", "TEXT", &o.well_ratio,
              "Leg area over reservoir area, where the scale does not allow for it");
  list.option("--liquid", "TEXT", &o.liquid, "Specific gravity of the liquid in the tube");
  list.option("--scale-liquid", "TEXT", &o.scale_liquid, "Specific gravity that the scale was made for");
  list.option("--resolution", "TEXT", &o.resolution, "Last digit of a display, \"1 Pa\"");
  list.option("--accuracy", "TEXT", &o.accuracy, "Maker's limit, of the reading");
  list.option("--range-accuracy", "TEXT", &o.range_accuracy, "Maker's limit, of the range");
  list.option("--range", "TEXT", &o.range, "Greatest reading");
  list.option("--calibration", "TEXT", &o.calibration, "Density that a hot wire was calibrated for");
  list.heading(nullptr);
}

void declareOptions(OptionList& list, DuctOptions& o) {
  list.heading("Duct");
  list.option("--bore", "LENGTH", &o.bore, "Of a round duct, \"4 in\"");
  list.option("--width", "LENGTH", &o.width, "Of a rectangular duct");
  list.option("--height", "LENGTH", &o.height, "Of a rectangular duct");
  list.option("--bore-within", "LENGTH", &o.bore_within,
              "Standard uncertainty of bore or sides, where measured");
  list.heading(nullptr);
}

void declareOptions(OptionList& list, AirOptions& o) {
  list.heading("Air");
  list.option("--temperature", "TEXT", &o.temperature, "Of the air, \"70 °F\"");
  list.option("--altitude", "TEXT", &o.altitude, "Above the sea");
  list.option("--barometer", "TEXT", &o.barometer, "Pressure read at the place");
  list.option("--humidity", "TEXT", &o.humidity, "Relative");
  list.option("--density", "TEXT", &o.density, "Of the room's air; stands above the others");
  list.option("--static-pressure", "TEXT", &o.static_pressure, "In the duct at the plane, \"-3 in w.g.\"");
  list.heading(nullptr);
}

}  // namespace kerfdraft::cli
