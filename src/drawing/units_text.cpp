// Rounding for paper: three figures of a flow, eighths of an inch, centimetres.
#include "drawing/units_text.h"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

namespace kerfdraft::drawing {

using base::Kind;
using base::UnitSystem;

namespace {

std::string withoutTail(std::string text) {
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) {
      text.pop_back();
    }
  }
  return text == "-0" ? "0" : text;
}

}  // namespace

std::string lengthText(double m, UnitSystem system) {
  if (!std::isfinite(m)) {
    return "–";
  }
  if (system == UnitSystem::Metric) {
    return fmt::format("{:.2f} m", m);
  }
  constexpr double kEighth = 0.0254 / 8;
  constexpr long kPerFoot = 96;
  const long eighths = std::lround(std::abs(m) / kEighth);
  const long feet = eighths / kPerFoot;
  const long inches = eighths % kPerFoot / 8;
  const long rest = eighths % 8;
  std::string text = m < 0 && eighths > 0 ? "−" : "";
  if (feet > 0) {
    text += fmt::format("{} ft", feet);
  }
  if (inches > 0 || rest > 0 || feet == 0) {
    text += feet > 0 ? " " : "";
    if (inches > 0 || rest == 0) {
      text += fmt::format("{}", inches);
    }
    if (rest > 0) {
      const long common = std::gcd(rest, 8L);
      text += fmt::format("{}{}/{}", inches > 0 ? " " : "", rest / common, 8 / common);
    }
    text += " in";
  }
  return text;
}

std::string boreText(double m, UnitSystem system) {
  return "Ø " + shortText(Kind::Bore, m, system);
}

std::string shortText(Kind kind, double si, UnitSystem system) {
  if (!std::isfinite(si)) {
    return "–";
  }
  const double value = base::inUnit(kind, si, system);
  const bool us = system == UnitSystem::Us;
  int digits = 0;
  switch (kind) {
    case Kind::Pressure:
      digits = us ? (std::abs(value) < 9.995 ? 2 : 1) : 0;
      break;
    case Kind::Bore:
      digits = us ? 2 : 0;
      break;
    case Kind::Speed:
      digits = us ? 0 : 1;
      break;
    case Kind::Length:
      digits = us ? 1 : 2;
      break;
    case Kind::VolumeFlow:
      digits = 0;
      break;
    default:
      digits = 2;
      break;
  }
  std::string number;
  const bool thousands =
      std::abs(value) >= 1000 && (kind == Kind::VolumeFlow || (kind == Kind::Pressure && !us));
  if (thousands || (kind == Kind::Speed && us)) {
    // A prediction within 10 % does not know the last figure of 4073 fpm.
    number = fmt::format("{:.0f}", std::round(value / 10) * 10);
  } else {
    number = fmt::format("{:.{}f}", value, digits);
  }
  if (kind == Kind::Bore) {
    number = withoutTail(number);
  }
  if (number.starts_with('-')) {
    const bool nothing = number.find_first_not_of("-0.") == std::string::npos;
    number = nothing ? number.substr(1) : "−" + number.substr(1);
  }
  const std::string_view unit = base::unitName(kind, system);
  return unit.empty() ? number : fmt::format("{} {}", number, unit);
}

}  // namespace kerfdraft::drawing
