// The list of all rules, and how sentences show numbers: rounded as a prediction deserves.
#include "judge/rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "judge/given_text.h"
#include "judge/rules/air_rules.h"
#include "judge/rules/collector_rules.h"
#include "judge/rules/conveying_rules.h"
#include "judge/rules/filter_bin_rules.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/pressure_rules.h"

namespace kerfdraft::judge {

namespace {

using base::Kind;
using base::UnitSystem;

/// A unit that reads better than the usual one while the value is small.
struct Fine {
  Kind kind;
  UnitSystem units;
  double below_si;
  double factor;  ///< shown value for one SI
  std::string_view unit;
};

constexpr std::string_view kNoNumber = "(not computed)";
constexpr double kInch = 0.0254;
constexpr double kPoundPerHour = 0.45359237 / 3600;

constexpr auto kFine = std::to_array<Fine>({
    {Kind::Length, UnitSystem::Us, 0.9, 1 / kInch, "in"},
    {Kind::Length, UnitSystem::Metric, 1, 1e3, "mm"},
    {Kind::Area, UnitSystem::Us, 0.0929, 1 / (kInch * kInch), "in²"},
    {Kind::Area, UnitSystem::Metric, 0.1, 1e4, "cm²"},
    {Kind::Power, UnitSystem::Metric, 1e3, 1, "W"},
    {Kind::Volume, UnitSystem::Metric, 1, 1e3, "l"},
    {Kind::MassFlow, UnitSystem::Us, 0.00378, 1 / kPoundPerHour, "lb/h"},
    {Kind::MassFlow, UnitSystem::Metric, 0.3, 3600, "kg/h"},
    {Kind::Mass, UnitSystem::Metric, 1, 1e3, "g"},
});

std::string time(double s) {
  struct Step {
    double below_s;
    double unit_s;
    const char* unit;
  };
  constexpr auto kSteps = std::to_array<Step>({{120, 1, "s"}, {7200, 60, "min"}, {172800, 3600, "h"}});
  for (const Step& step : kSteps) {
    if (std::abs(s) < step.below_s) {
      return fmt::format("{:.0f} {}", s / step.unit_s, step.unit);
    }
  }
  return fmt::format("{:.0f} days", s / 86400);
}

/// At most three significant digits and no trailing zeros behind the point.
std::string threeDigits(double value) {
  if (value == 0) {
    return "0";
  }
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  const double step = std::pow(10.0, magnitude - 2);
  const double rounded = std::round(value / step) * step;
  const std::string text = decimals(rounded, std::clamp(2 - magnitude, 0, 9));
  return text == "-0" ? "0" : text;
}

}  // namespace

std::string_view toText(Topic topic) {
  switch (topic) {
    case Topic::Air:
      return "Air at the machines";
    case Topic::Conveying:
      return "Chips on their way";
    case Topic::Pressure:
      return "Where the pressure goes";
    case Topic::Collector:
      return "Collector and fan";
    case Topic::FilterAndBin:
      return "Filter and bin";
    case Topic::People:
      return "Room and people";
  }
  return "";
}

std::string Voice::show(double si, Kind kind) const {
  if (!std::isfinite(si)) {
    return std::string(kNoNumber);
  }
  if (kind == Kind::Time) {
    return time(si);
  }
  if (kind == Kind::Angle) {
    return fmt::format("{:.0f}°", si * 180 / std::numbers::pi);
  }
  for (const Fine& fine : kFine) {
    if (fine.kind == kind && fine.units == units_ && std::abs(si) < fine.below_si) {
      return fmt::format("{} {}", threeDigits(si * fine.factor), fine.unit);
    }
  }
  const double value = base::inUnit(kind, si, units_);
  const std::string_view unit = base::unitName(kind, units_);
  return unit.empty() ? threeDigits(value) : fmt::format("{} {}", threeDigits(value), unit);
}

std::string Voice::percent(double ratio) const {
  if (!std::isfinite(ratio)) {
    return std::string(kNoNumber);
  }
  const double value = 100 * ratio;
  return std::abs(value) < 10 && value != 0 ? fmt::format("{} %", threeDigits(std::round(value * 10) / 10))
                                            : fmt::format("{:.0f} %", value);
}

std::span<const Rule* const> allRules() {
  static const std::vector<const Rule*> kRules = [] {
    std::vector<const Rule*> rules;
    for (const auto list :
         {airRules(), conveyingRules(), pressureRules(), collectorRules(), filterBinRules(), peopleRules()}) {
      rules.insert(rules.end(), list.begin(), list.end());
    }
    return rules;
  }();
  return kRules;
}

const Rule* findRule(std::string_view key) {
  const auto rules = allRules();
  const auto found =
      std::find_if(rules.begin(), rules.end(), [&](const Rule* rule) { return rule->key == key; });
  return found == rules.end() ? nullptr : *found;
}

}  // namespace kerfdraft::judge
