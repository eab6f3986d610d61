// The table of units, each with its exact factor where there is one.
#include "base/units.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>

namespace kerfdraft::base {
namespace {

constexpr double kInch = 0.0254;                     // exact
constexpr double kFoot = 0.3048;                     // exact
constexpr double kPound = 0.45359237;                // exact
constexpr double kGravity = 9.80665;                 // exact, standard
constexpr double kInchWater = 249.08891;             // conventional water, 4 °C [NIST SP 811, from memory]
constexpr double kInchMercury = 3386.389;            // conventional mercury, 0 °C [NIST SP 811, from memory]
constexpr double kCfm = kFoot * kFoot * kFoot / 60;  // exact
constexpr double kHorsepower = 550 * kFoot * kPound * kGravity;  // mechanical
constexpr double kGallon = 231 * kInch * kInch * kInch;          // US liquid, exact

struct Unit {
  Kind kind;
  std::string_view text;
  double factor;      // SI = (value + offset) * factor
  double offset = 0;  // only temperatures
};

// The first text of a kind in each system is the one offered; the others are accepted spellings.
constexpr auto kUnits = std::to_array<Unit>({
    {Kind::Length, "ft", kFoot},
    {Kind::Length, "in", kInch},
    {Kind::Length, "m", 1},
    {Kind::Length, "mm", 1e-3},
    {Kind::Length, "cm", 1e-2},
    {Kind::Length, "km", 1e3},
    {Kind::Length, "um", 1e-6},
    {Kind::Length, "µm", 1e-6},
    {Kind::Length, "'", kFoot},
    {Kind::Length, "\"", kInch},
    {Kind::Length, "inch", kInch},
    {Kind::Length, "inches", kInch},
    {Kind::Length, "feet", kFoot},
    {Kind::Length, "foot", kFoot},
    {Kind::Area, "ft2", kFoot* kFoot},
    {Kind::Area, "in2", kInch* kInch},
    {Kind::Area, "m2", 1},
    {Kind::Area, "cm2", 1e-4},
    {Kind::Area, "mm2", 1e-6},
    {Kind::Area, "ft²", kFoot* kFoot},
    {Kind::Area, "in²", kInch* kInch},
    {Kind::Area, "m²", 1},
    {Kind::Area, "cm²", 1e-4},
    {Kind::Area, "mm²", 1e-6},
    {Kind::Area, "sq ft", kFoot* kFoot},
    {Kind::Area, "sq in", kInch* kInch},
    {Kind::Volume, "ft3", kFoot* kFoot* kFoot},
    {Kind::Volume, "gal", kGallon},
    {Kind::Volume, "m3", 1},
    {Kind::Volume, "l", 1e-3},
    {Kind::Volume, "L", 1e-3},
    {Kind::Volume, "ft³", kFoot* kFoot* kFoot},
    {Kind::Volume, "m³", 1},
    {Kind::Volume, "litre", 1e-3},
    {Kind::Angle, "deg", std::numbers::pi / 180},
    {Kind::Angle, "°", std::numbers::pi / 180},
    {Kind::Angle, "rad", 1},
    {Kind::Speed, "fpm", kFoot / 60},
    {Kind::Speed, "m/s", 1},
    {Kind::Speed, "ft/min", kFoot / 60},
    {Kind::Speed, "ft/s", kFoot},
    {Kind::Speed, "m/min", 1.0 / 60},
    {Kind::Speed, "km/h", 1.0 / 3.6},
    {Kind::MassFlow, "lb/min", kPound / 60},
    {Kind::MassFlow, "kg/s", 1},
    {Kind::MassFlow, "kg/h", 1.0 / 3600},
    {Kind::MassFlow, "kg/min", 1.0 / 60},
    {Kind::MassFlow, "g/s", 1e-3},
    {Kind::MassFlow, "g/min", 1e-3 / 60},
    {Kind::MassFlow, "lb/h", kPound / 3600},
    {Kind::VolumeFlow, "cfm", kCfm},
    {Kind::VolumeFlow, "m3/h", 1.0 / 3600},
    {Kind::VolumeFlow, "m³/h", 1.0 / 3600},
    {Kind::VolumeFlow, "m3/s", 1},
    {Kind::VolumeFlow, "m³/s", 1},
    {Kind::VolumeFlow, "m3/min", 1.0 / 60},
    {Kind::VolumeFlow, "l/s", 1e-3},
    {Kind::VolumeFlow, "L/s", 1e-3},
    {Kind::VolumeFlow, "l/min", 1e-3 / 60},
    {Kind::VolumeFlow, "ft3/min", kCfm},
    {Kind::VolumeFlow, "ft³/min", kCfm},
    {Kind::Pressure, "in w.g.", kInchWater},
    {Kind::Pressure, "Pa", 1},
    {Kind::Pressure, "in wg", kInchWater},
    {Kind::Pressure, "inwg", kInchWater},
    {Kind::Pressure, "in H2O", kInchWater},
    {Kind::Pressure, "kPa", 1e3},
    {Kind::Pressure, "hPa", 1e2},
    {Kind::Pressure, "mbar", 1e2},
    {Kind::Pressure, "mm H2O", kInchWater / 25.4},
    {Kind::Pressure, "psi", kPound* kGravity / (kInch * kInch)},
    {Kind::AbsolutePressure, "in Hg", kInchMercury},
    {Kind::AbsolutePressure, "hPa", 1e2},
    {Kind::AbsolutePressure, "Pa", 1},
    {Kind::AbsolutePressure, "kPa", 1e3},
    {Kind::AbsolutePressure, "mbar", 1e2},
    {Kind::AbsolutePressure, "bar", 1e5},
    {Kind::AbsolutePressure, "mm Hg", 133.322},
    {Kind::AbsolutePressure, "inHg", kInchMercury},
    {Kind::AbsolutePressure, "mmHg", 133.322},
    {Kind::AbsolutePressure, "psi", kPound* kGravity / (kInch * kInch)},
    {Kind::Temperature, "°F", 5.0 / 9, 459.67},
    {Kind::Temperature, "°C", 1, 273.15},
    {Kind::Temperature, "F", 5.0 / 9, 459.67},
    {Kind::Temperature, "C", 1, 273.15},
    {Kind::Temperature, "K", 1},
    {Kind::TemperatureDifference, "°F", 5.0 / 9},
    {Kind::TemperatureDifference, "K", 1},
    {Kind::TemperatureDifference, "F", 5.0 / 9},
    {Kind::TemperatureDifference, "C", 1},
    {Kind::TemperatureDifference, "°C", 1},
    {Kind::Density, "lb/ft3", kPound / (kFoot * kFoot * kFoot)},
    {Kind::Density, "kg/m3", 1},
    {Kind::Density, "lb/ft³", kPound / (kFoot * kFoot * kFoot)},
    {Kind::Density, "kg/m³", 1},
    {Kind::Density, "g/cm3", 1e3},
    {Kind::Viscosity, "Pa s", 1},
    {Kind::Viscosity, "lb/(ft s)", kPound / kFoot},
    {Kind::Power, "hp", kHorsepower},
    {Kind::Power, "W", 1},
    {Kind::Power, "kW", 1e3},
    {Kind::Time, "s", 1},
    {Kind::Time, "min", 60},
    {Kind::Time, "h", 3600},
    {Kind::Time, "day", 86400},
    {Kind::Time, "days", 86400},
    {Kind::Mass, "lb", kPound},
    {Kind::Mass, "kg", 1},
    {Kind::Mass, "g", 1e-3},
    {Kind::Mass, "t", 1e3},
    {Kind::RotationalSpeed, "rpm", 2 * std::numbers::pi / 60},
    {Kind::RotationalSpeed, "1/min", 2 * std::numbers::pi / 60},
    {Kind::RotationalSpeed, "rad/s", 1},
    {Kind::Voltage, "V", 1},
    {Kind::Voltage, "kV", 1e3},
    {Kind::Current, "A", 1},
    {Kind::Ratio, "", 1},
    {Kind::Ratio, "%", 0.01},
});

struct ShownUnit {
  Kind kind;
  std::string_view us;
  std::string_view metric;
  int us_digits;  // digits after the point
  int metric_digits;
};

constexpr auto kShown = std::to_array<ShownUnit>({
    {Kind::Length, "ft", "m", 2, 3},
    {Kind::Bore, "in", "mm", 2, 1},
    {Kind::Area, "ft²", "m²", 4, 5},
    {Kind::Volume, "ft³", "m³", 2, 3},
    {Kind::Angle, "°", "°", 1, 1},
    {Kind::Speed, "fpm", "m/s", 0, 2},
    {Kind::MassFlow, "lb/min", "kg/s", 2, 4},
    {Kind::VolumeFlow, "cfm", "m³/h", 0, 0},
    {Kind::Pressure, "in w.g.", "Pa", 3, 1},
    {Kind::AbsolutePressure, "in Hg", "hPa", 2, 1},
    {Kind::Temperature, "°F", "°C", 1, 1},
    {Kind::TemperatureDifference, "°F", "K", 1, 1},
    {Kind::Density, "lb/ft³", "kg/m³", 5, 4},
    {Kind::Viscosity, "lb/(ft s)", "Pa s", 8, 8},
    {Kind::Power, "hp", "kW", 2, 2},
    {Kind::Time, "min", "min", 1, 1},
    {Kind::Mass, "lb", "kg", 2, 2},
    {Kind::RotationalSpeed, "rpm", "rpm", 0, 0},
    {Kind::Voltage, "V", "V", 0, 0},
    {Kind::Current, "A", "A", 1, 1},
    {Kind::Ratio, "", "", 4, 4},
});

Kind unitKind(Kind kind) {
  return kind == Kind::Bore ? Kind::Length : kind;
}

const ShownUnit& shown(Kind kind) {
  for (const ShownUnit& s : kShown) {
    if (s.kind == kind) {
      return s;
    }
  }
  throw InternalError("a kind without a shown unit");
}

const Unit* findUnit(Kind kind, std::string_view text) {
  for (const Unit& u : kUnits) {
    if (u.kind == unitKind(kind) && u.text == text) {
      return &u;
    }
  }
  return nullptr;
}

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) {
    s.remove_prefix(1);
  }
  while (!s.empty() && (s.back() == ' ' || s.back() == '\t')) {
    s.remove_suffix(1);
  }
  return s;
}

/// Takes a decimal number off the front of `s`; nothing where there is none, or where it is not finite.
std::optional<double> takeNumber(std::string_view& s) {
  double value = 0;
  std::string_view body = s;
  if (!body.empty() && body.front() == '+') {
    body.remove_prefix(1);
  }
  const auto [end, problem] = std::from_chars(body.data(), body.data() + body.size(), value);
  if (problem != std::errc{} || !std::isfinite(value)) {
    return std::nullopt;
  }
  s = body.substr(static_cast<std::size_t>(end - body.data()));
  return value;
}

/// "1 1/2", "3/4", "0.75": the trade writes fractions of an inch.
std::optional<double> takeMixedNumber(std::string_view& s) {
  const std::optional<double> first = takeNumber(s);
  if (!first) {
    return std::nullopt;
  }
  std::string_view rest = s;
  if (!rest.empty() && rest.front() == '/') {
    rest.remove_prefix(1);
    const std::optional<double> below = takeNumber(rest);
    if (below && *below > 0) {
      s = rest;
      return *first / *below;
    }
    return first;
  }
  rest = trimmed(rest);
  const std::optional<double> above = takeNumber(rest);
  if (above && *above > 0 && !rest.empty() && rest.front() == '/') {
    rest.remove_prefix(1);
    const std::optional<double> below = takeNumber(rest);
    if (below && *below > 0) {
      s = rest;
      return *first < 0 ? *first - *above / *below : *first + *above / *below;
    }
  }
  return first;
}

std::string offeredUnits(Kind kind) {
  std::string list;
  for (const std::string& text : unitTexts(kind)) {
    list += (list.empty() ? "" : ", ") + (text.empty() ? std::string("no unit") : text);
  }
  return list;
}

}  // namespace

std::vector<std::string> unitTexts(Kind kind) {
  std::vector<std::string> texts;
  for (const Unit& u : kUnits) {
    if (u.kind == unitKind(kind)) {
      texts.emplace_back(u.text);
    }
  }
  return texts;
}

Result<double> parseQuantity(Kind kind, std::string_view text, std::string_view where) {
  std::string_view rest = trimmed(text);
  const std::optional<double> number = takeMixedNumber(rest);
  if (!number) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" does not begin with a finite number; a {} is written like \"{}{}{}\"",
                    text.substr(0, 60), kindName(kind), 10, kind == Kind::Ratio ? "" : " ", shown(kind).us),
        std::string(where));
  }
  rest = trimmed(rest);
  const Unit* unit = findUnit(kind, rest);
  if (unit == nullptr) {
    const std::string problem = rest.empty()
                                    ? fmt::format("\"{}\" has no unit", text.substr(0, 60))
                                    : fmt::format("\"{}\" is not a unit of {} (in \"{}\")",
                                                  rest.substr(0, 40), kindName(kind), text.substr(0, 60));
    return fail(ErrorCode::Parse, fmt::format("{}; it takes one of: {}", problem, offeredUnits(kind)),
                std::string(where));
  }
  const double si = (*number + unit->offset) * unit->factor;
  if (!std::isfinite(si)) {
    return fail(ErrorCode::Range, fmt::format("\"{}\" is too large a number", text.substr(0, 60)),
                std::string(where));
  }
  return si;
}

std::string_view unitName(Kind kind, UnitSystem system) {
  return system == UnitSystem::Us ? shown(kind).us : shown(kind).metric;
}

double inUnit(Kind kind, double si, UnitSystem system) {
  const Unit* unit = findUnit(kind, unitName(kind, system));
  check(unit != nullptr, "a shown unit without a factor");
  return si / unit->factor - unit->offset;
}

std::string formatNumber(Kind kind, double si, UnitSystem system) {
  const ShownUnit& s = shown(kind);
  const int digits = system == UnitSystem::Us ? s.us_digits : s.metric_digits;
  std::string text = fmt::format("{:.{}f}", inUnit(kind, si, system), digits);
  // "-0.000" is a sign without a number.
  if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos) {
    text.erase(0, 1);
  }
  return text;
}

std::string formatQuantity(Kind kind, double si, UnitSystem system) {
  const std::string_view unit = unitName(kind, system);
  std::string text = formatNumber(kind, si, system);
  if (!unit.empty()) {
    text += (unit == "°" ? "" : " ");
    text += unit;
  }
  return text;
}

std::string_view kindName(Kind kind) {
  switch (kind) {
    case Kind::Length:
    case Kind::Bore:
      return "length";
    case Kind::Area:
      return "area";
    case Kind::Volume:
      return "volume";
    case Kind::Angle:
      return "angle";
    case Kind::Speed:
      return "speed";
    case Kind::MassFlow:
      return "mass flow";
    case Kind::VolumeFlow:
      return "volume flow";
    case Kind::Pressure:
      return "pressure";
    case Kind::AbsolutePressure:
      return "absolute pressure";
    case Kind::Temperature:
      return "temperature";
    case Kind::TemperatureDifference:
      return "temperature difference";
    case Kind::Density:
      return "density";
    case Kind::Viscosity:
      return "viscosity";
    case Kind::Power:
      return "power";
    case Kind::Time:
      return "time";
    case Kind::Mass:
      return "mass";
    case Kind::RotationalSpeed:
      return "rotational speed";
    case Kind::Voltage:
      return "voltage";
    case Kind::Current:
      return "current";
    case Kind::Ratio:
      return "plain number";
  }
  return "";
}

}  // namespace kerfdraft::base
