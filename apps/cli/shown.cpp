// The digits of each kind in a table; base/units.h keeps the units and the rounding of a signless zero.
#include "cli/shown.h"

#include <fmt/format.h>

#include <cmath>

namespace kerfdraft::cli {

using base::Kind;

std::string Shown::number(Kind kind, double si) const {
  // Three digits of an inch of water and tenths of a pascal are more than a model with 10 % spread can say.
  if (kind == Kind::Pressure || kind == Kind::Bore || kind == Kind::Length) {
    const bool us = system_ == base::UnitSystem::Us;
    const int digits = kind == Kind::Pressure ? (us ? 2 : 0)
                       : kind == Kind::Bore   ? (us ? 2 : 0)
                                              : (us ? 1 : 2);
    std::string text = fmt::format("{:.{}f}", base::inUnit(kind, si, system_), digits);
    if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos) {
      text.erase(0, 1);
    }
    // A bore is a name as well as a number: "6 in", not "6.00 in".
    if (kind == Kind::Bore && us) {
      text.erase(text.find_last_not_of('0') + 1);
      if (text.ends_with('.')) {
        text.pop_back();
      }
    }
    return text;
  }
  return base::formatNumber(kind, si, system_);
}

std::string Shown::operator()(Kind kind, double si) const {
  const std::string name = unit(kind);
  return name.empty() ? number(kind, si) : number(kind, si) + (name == "°" ? "" : " ") + name;
}

std::string_view toText(base::UnitSystem system) {
  return system == base::UnitSystem::Us ? "us" : "metric";
}

}  // namespace kerfdraft::cli
