// Tables and JSON of a measurement. Numbers carry the digits that their uncertainty deserves.
#include "cli/measured_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/text_table.h"
#include "field/budget.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using base::UnitSystem;
using nlohmann::json;

constexpr std::size_t kWidth = 100;

/// Factor from SI to the reader's unit, for differences of a kind.
double scaleOf(Kind kind, UnitSystem units) {
  return base::inUnit(kind, 1, units) - base::inUnit(kind, 0, units);
}

std::string withUnit(std::string number, Kind kind, UnitSystem units) {
  const std::string_view unit = base::unitName(kind, units);
  return unit.empty() ? number : number + ' ' + std::string(unit);
}

/// "5066 ± 380 fpm": the uncertainty rounded up to two digits.
std::string plusMinus(Kind kind, double si, double expanded, UnitSystem units) {
  const double half = expanded * scaleOf(kind, units);
  if (!(half > 0)) {
    return base::formatQuantity(kind, si, units);
  }
  const int place = static_cast<int>(std::floor(std::log10(half))) - 1;
  const double unit = std::pow(10.0, place);
  return withUnit(fmt::format("{} ± {:.{}f}", base::formatNumber(kind, si, units),
                              std::ceil(half / unit - 1e-9) * unit, std::max(0, -place)),
                  kind, units);
}

std::string share(const field::Budget& budget) {
  return budget.value > 0 ? fmt::format(" ({:.1f} %)", 100 * budget.expanded / budget.value) : "";
}

std::string budgetText(const field::Budget& budget, UnitSystem units) {
  TextTable table({{"input"},
                   {"value", Align::Right},
                   {"standard unc.", Align::Right},
                   {"form"},
                   {"sensitivity", Align::Right},
                   {"contribution", Align::Right},
                   {"share", Align::Right},
                   {"source"}});
  const double out = scaleOf(budget.kind, units);
  for (const field::BudgetLine& line : field::groupedLines(budget)) {
    const Kind kind = line.input.kind;
    const double variance = budget.combined > 0 ? std::pow(line.contribution / budget.combined, 2) : 0;
    table.row({line.input.name + (line.inputs > 1 ? fmt::format(" ({}×)", line.inputs) : ""),
               withUnit(fmt::format("{:.5g}", base::inUnit(kind, line.input.value, units)), kind, units),
               fmt::format("{:.2g}", line.input.standard * scaleOf(kind, units)),
               std::string(field::toText(line.input.spread)),
               fmt::format("{:.4g}", line.sensitivity * out / scaleOf(kind, units)),
               fmt::format("{:.2g}", line.contribution * out), fmt::format("{:.0f} %", 100 * variance),
               line.input.source});
  }
  std::string text = table.text();
  text +=
      fmt::format("  Combined standard uncertainty {}; × {:g} for about 95 %: {}",
                  withUnit(fmt::format("{:.3g}", budget.combined * out), budget.kind, units), budget.coverage,
                  withUnit(fmt::format("{:.3g}", budget.expanded * out), budget.kind, units));
  if (std::isfinite(budget.freedom) && budget.freedom < 30) {
    text +=
        fmt::format(" (effective degrees of freedom {:.0f}: few readings, so rather more)", budget.freedom);
  }
  return text + '\n';
}

std::string stepsText(const std::vector<base::Step>& steps, UnitSystem units) {
  TextTable table({{"step"}, {"formula"}, {"with"}, {"result", Align::Right}, {"source"}});
  for (const base::Step& step : steps) {
    std::string with;
    for (const base::Input& input : step.inputs) {
      with += fmt::format(
          "{}{} = {}", with.empty() ? "" : ", ", input.symbol,
          withUnit(fmt::format("{:.5g}", base::inUnit(input.kind, input.value, units)), input.kind, units));
    }
    table.row({std::string(step.law->name), std::string(step.law->formula), with,
               withUnit(fmt::format("{:.5g}", base::inUnit(step.law->kind, step.result, units)),
                        step.law->kind, units),
               step.law->source.empty() ? std::string(base::toText(step.law->status))
                                        : std::string(step.law->source)});
  }
  return "\nSteps (formulas in SI units)\n" + table.text();
}

std::string densityText(const field::Measured& m, const field::AirOfDay& air, UnitSystem units) {
  std::string text = base::formatQuantity(Kind::Density, m.density_kg_m3, units);
  switch (air.basis) {
    case field::AirOfDay::Basis::StandardAssumed:
      return text + " (standard air assumed)";
    case field::AirOfDay::Basis::Entered:
      return text + " (from the density given)";
    case field::AirOfDay::Basis::Computed:
      break;
  }
  return text + fmt::format(" (at {}, {}, {:.0f} % humidity)",
                            base::formatQuantity(Kind::Temperature, air.temperature.value, units),
                            base::formatQuantity(Kind::AbsolutePressure, air.barometric_pa, units),
                            100 * air.humidity.value);
}

json lineJson(const field::BudgetLine& line) {
  const field::Uncertain& u = line.input;
  json out = {{"key", u.key},
              {"name", u.name},
              {"kind", base::kindName(u.kind)},
              {"value", u.value},
              {"standard", u.standard},
              {"spread", field::toText(u.spread)},
              {"sensitivity", line.sensitivity},
              {"contribution", line.contribution},
              {"source", u.source}};
  out["freedom"] = std::isfinite(u.freedom) ? json(u.freedom) : json(nullptr);
  return out;
}

json budgetJson(const field::Budget& budget) {
  json lines = json::array();
  for (const field::BudgetLine& line : budget.lines) {
    lines.push_back(lineJson(line));
  }
  return lines;
}

}  // namespace

std::string noticesText(const std::vector<field::Notice>& notices, UnitSystem units) {
  std::string text;
  for (const auto level : {field::Notice::Level::Caution, field::Notice::Level::Note}) {
    for (const field::Notice& n : notices) {
      if (n.level == level) {
        const std::string_view word = level == field::Notice::Level::Caution ? "Caution: " : "Note: ";
        text += "  " +
                wrapped(std::string(word) + field::say(n, units) +
                            (n.source.empty() ? "" : " [" + n.source + "]"),
                        kWidth - 2, 4) +
                '\n';
      }
    }
  }
  return text;
}

std::string measuredText(const field::Measured& m, const field::AirOfDay& air, UnitSystem units, bool steps) {
  const bool flow = !m.flow.lines.empty();
  std::string text = "Measured: ";
  if (flow) {
    text += plusMinus(Kind::VolumeFlow, m.flow_m3_s, m.flow.expanded, units) + share(m.flow) + ", ";
  }
  text +=
      plusMinus(Kind::Speed, m.speed_m_s, m.speed.expanded, units) + share(m.speed) + "; about 95 %, k = 2\n";
  text += "Air at the plane: " + densityText(m, air, units) + '\n';
  if (m.pressure_pa > 0) {
    text += "Pressure read: " + base::formatQuantity(Kind::Pressure, m.pressure_pa, units) +
            (m.sample_pressures_pa.size() > 1
                 ? fmt::format(" (mean of {} readings)\n", m.sample_pressures_pa.size())
                 : "\n");
  }
  if (flow && std::abs(m.room_flow_m3_s - m.flow_m3_s) > 0.005 * m.flow_m3_s) {
    text +=
        "The same air in the room: " + base::formatQuantity(Kind::VolumeFlow, m.room_flow_m3_s, units) + '\n';
  }
  if (const std::string said = noticesText(m.notices, units); !said.empty()) {
    text += '\n' + said;
  }
  text += fmt::format("\nUncertainty budget of the {}\n", flow ? "flow" : "speed");
  text += budgetText(flow ? m.flow : m.speed, units);
  if (steps) {
    text += stepsText(m.steps, units);
  }
  return text;
}

json noticesJson(const std::vector<field::Notice>& notices, UnitSystem units) {
  json out = json::array();
  for (const field::Notice& n : notices) {
    json quantities = json::object();
    for (const field::Said& q : n.quantities) {
      quantities[q.name] = {{"kind", base::kindName(q.kind)}, {"value", q.value}};
    }
    out.push_back({{"key", n.key},
                   {"level", n.level == field::Notice::Level::Caution ? "caution" : "note"},
                   {"text", field::say(n, units)},
                   {"quantities", std::move(quantities)},
                   {"source", n.source}});
  }
  return out;
}

json measuredJson(const field::Measured& m, UnitSystem units) {
  json out = {{"speed_m_s", m.speed_m_s},
              {"speed_expanded_m_s", m.speed.expanded},
              {"coverage", m.speed.coverage},
              {"density_kg_m3", m.density_kg_m3},
              {"sample_speeds_m_s", m.sample_speeds_m_s},
              {"budget", {{"speed", budgetJson(m.speed)}}},
              {"notices", noticesJson(m.notices, units)}};
  if (!m.sample_pressures_pa.empty()) {
    out["pressure_pa"] = m.pressure_pa;
    out["sample_pressures_pa"] = m.sample_pressures_pa;
    out["smallest_useful_pa"] = m.smallest_useful_pa;
  }
  if (!m.flow.lines.empty()) {
    out["flow_m3_s"] = m.flow_m3_s;
    out["flow_expanded_m3_s"] = m.flow.expanded;
    out["mass_flow_kg_s"] = m.mass_flow_kg_s;
    out["room_flow_m3_s"] = m.room_flow_m3_s;
    out["budget"]["flow"] = budgetJson(m.flow);
  }
  json steps = json::array();
  for (const base::Step& step : m.steps) {
    json inputs = json::object();
    for (const base::Input& input : step.inputs) {
      inputs[std::string(input.symbol)] = input.value;
    }
    steps.push_back({{"law", step.law->key},
                     {"formula", step.law->formula},
                     {"source", step.law->source},
                     {"status", base::toText(step.law->status)},
                     {"inputs", std::move(inputs)},
                     {"result", step.result}});
  }
  out["steps"] = std::move(steps);
  return out;
}

}  // namespace kerfdraft::cli
