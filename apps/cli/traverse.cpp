// Options to a plan or a traverse, and its result as text or JSON.
#include "cli/traverse.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <system_error>

#include "base/csv.h"
#include "cli/exit_codes.h"
#include "cli/measured_text.h"
#include "cli/shown.h"
#include "cli/text_table.h"
#include "field/traverse.h"
#include "files/save.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;
using base::UnitSystem;
using nlohmann::json;

constexpr std::size_t kMostBytes = 1U << 20U;  // no traverse is longer

Result<field::PointRule> readRule(const std::string& text, bool round) {
  if (text.empty()) {
    return round ? field::PointRule::LogLinear : field::PointRule::LogTchebycheff;
  }
  if (text == "log-linear") {
    return field::PointRule::LogLinear;
  }
  if (text == "log-tchebycheff") {
    return field::PointRule::LogTchebycheff;
  }
  if (text == "equal-area") {
    return field::PointRule::EqualArea;
  }
  return fail(ErrorCode::Parse,
              fmt::format("\"{}\" is none of log-linear, log-tchebycheff, equal-area.", text), "--rule");
}

Result<std::optional<double>> readRun(const std::string& text, std::string_view option) {
  if (text.empty()) {
    return std::optional<double>();
  }
  return base::parseQuantity(Kind::Length, text, option).map([](double m) { return std::optional(m); });
}

Result<field::PlanRequest> readRequest(const TraverseOptions& o) {
  const auto section = readSection(o.duct);
  if (!section) {
    return Failure(section.error());
  }
  if (!*section) {
    return fail(ErrorCode::Parse, "A traverse needs the duct: its bore, or its width and height.", "--bore");
  }
  field::PlanRequest r;
  r.section = **section;
  const Result<field::PointRule> rule =
      readRule(o.rule, std::holds_alternative<field::RoundSection>(r.section.shape));
  const auto upstream = readRun(o.upstream, "--upstream");
  const auto downstream = readRun(o.downstream, "--downstream");
  const auto stub = readRun(o.stub, "--stub");
  const auto probe = readRun(o.instrument.probe_diameter, "--probe-diameter");
  if (!rule) {
    return Failure(rule.error());
  }
  for (const auto* length : {&upstream, &downstream, &stub, &probe}) {
    if (!*length) {
      return Failure(length->error());
    }
  }
  for (const auto& [count, option] : {std::pair{o.points, "--points"}, std::pair{o.lines, "--lines"}}) {
    if (count < 0 || count > 48) {
      return fail(ErrorCode::Range, fmt::format("{} is not a number from 1 to 48.", count), option);
    }
  }
  r.rule = *rule;
  r.points = o.points;
  r.lines = o.lines;
  r.upstream_m = *upstream;
  r.downstream_m = *downstream;
  r.nipple_m = stub->value_or(0);
  r.probe_diameter_m = probe->value_or(0);
  return r;
}

/// One line of readings as typed, split: tokens and the unit behind them.
struct TypedLine {
  std::vector<std::string> tokens;
  std::string unit;
  std::string where;
};

bool isNumber(std::string_view token) {
  double value = 0;
  const auto [end, problem] = std::from_chars(token.data(), token.data() + token.size(), value);
  return problem == std::errc{} && end == token.data() + token.size();
}

TypedLine splitLine(std::string_view text, std::string where) {
  TypedLine line;
  line.where = std::move(where);
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t start = text.find_first_not_of(" ,;\t", at);
    if (start == std::string_view::npos) {
      break;
    }
    const std::size_t end = std::min(text.find_first_of(" ,;\t", start), text.size());
    const std::string_view token = text.substr(start, end - start);
    if (token != "-" && !isNumber(token)) {
      line.unit = std::string(text.substr(start, text.find_last_not_of(" ,;\t") + 1 - start));
      break;
    }
    line.tokens.emplace_back(token);
    at = end;
  }
  return line;
}

Result<std::vector<TypedLine>> typedLines(const TraverseOptions& o) {
  std::vector<TypedLine> lines;
  if (!o.readings_file.empty()) {
    if (!o.readings.empty()) {
      return fail(ErrorCode::Conflict, "Readings come from a file or from the command line, not both.",
                  "--readings-file");
    }
    const Result<std::string> text = files::readFile(o.readings_file, kMostBytes);
    if (!text) {
      return Failure(text.error());
    }
    const auto rows = base::parseCsv(*text, o.readings_file);
    if (!rows) {
      return Failure(rows.error());
    }
    for (const base::CsvRow& row : *rows) {
      std::string joined;
      for (const std::string& cell : row.cells) {
        // An empty cell is a point that was not read.
        joined += (cell.find_first_not_of(" \t") == std::string::npos ? "-" : cell) + ' ';
      }
      lines.push_back(splitLine(joined, fmt::format("{}:{}", o.readings_file, row.line)));
    }
    if (lines.empty()) {
      return fail(ErrorCode::Parse, "holds no readings", o.readings_file);
    }
    return lines;
  }
  for (std::size_t i = 0; i < o.readings.size(); ++i) {
    lines.push_back(splitLine(o.readings[i], fmt::format("readings, line {}", i + 1)));
  }
  return lines;
}

/// Fills in the unit; refuses a line without one.
Result<void> completeUnits(std::vector<TypedLine>& lines, const std::string& unit) {
  for (TypedLine& line : lines) {
    if (line.unit.empty()) {
      line.unit = unit;
    }
    if (line.unit.empty()) {
      return fail(ErrorCode::Parse,
                  "These readings have no unit; write it last (\"0.62 0.80 in w.g.\") or give "
                  "--reading-unit.",
                  line.where);
    }
    if (line.tokens.empty()) {
      return fail(ErrorCode::Parse,
                  fmt::format("\"{}\" does not begin with a number or \"-\".", line.unit.substr(0, 40)),
                  line.where);
    }
  }
  return {};
}

Result<field::Traverse> readTraverse(const TraverseOptions& o, const field::PlanRequest& request,
                                     const std::vector<TypedLine>& lines) {
  const Result<ReadInstrument> instrument = readInstrument(o.instrument, "1 " + lines.front().unit);
  if (!instrument) {
    return Failure(instrument.error());
  }
  const Result<field::Legs> legs = readLegs(o.legs, false);
  if (!legs) {
    return Failure(legs.error());
  }
  if (!o.legs.empty() && !field::isUTube(instrument->instrument)) {
    return fail(ErrorCode::Conflict, "Only a U-tube has two legs to read; this instrument has one scale.",
                "--legs");
  }
  Result<field::AirOfDay> air = readAir(o.air);
  if (!air) {
    return Failure(air.error());
  }
  const Result<field::Claim> claim = readClaim(o.claimed);
  if (!claim) {
    return Failure(claim.error());
  }
  field::Traverse t{request, instrument->instrument, *legs, {}, std::move(*air), *claim};
  for (const TypedLine& line : lines) {
    auto& readings = t.lines.emplace_back();
    for (const std::string& token : line.tokens) {
      if (token == "-") {
        readings.emplace_back();
        continue;
      }
      const Result<double> raw = readRaw(*instrument, token + ' ' + line.unit, line.where);
      if (!raw) {
        return Failure(raw.error());
      }
      readings.emplace_back(*raw);
    }
  }
  return t;
}

std::string markText(double si_m, UnitSystem units, int fraction) {
  return units == UnitSystem::Us ? field::inchMark(si_m, fraction) : field::millimetreMark(si_m);
}

std::string decimalText(double si_m, UnitSystem units) {
  return units == UnitSystem::Us ? fmt::format("{:.2f} in", si_m / 0.0254)
                                 : fmt::format("{:.1f} mm", 1000 * si_m);
}

bool sameMarks(const field::TraversePlan& plan) {
  return std::holds_alternative<field::RoundSection>(plan.section.shape);
}

std::string marksText(const field::TraversePlan& plan, UnitSystem units, int fraction) {
  TextTable table({{"point", Align::Right},
                   {"of the bore or height", Align::Right},
                   {"from the wall", Align::Right},
                   {"mark on the tube", Align::Right},
                   {""}});
  const auto& marks = plan.lines.front().marks;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const field::Mark& mark = marks[i];
    table.row({std::to_string(i + 1), fmt::format("{:.1f} %", 100 * mark.fraction),
               decimalText(mark.from_wall_m, units), markText(mark.on_tube_m, units, fraction),
               mark.moved ? "kept off the wall" : ""});
  }
  std::string text = table.text();
  if (!sameMarks(plan)) {
    text += "  Lines across the width, from the side wall: ";
    for (const field::PlanLine& line : plan.lines) {
      text += (&line == plan.lines.data() ? "" : ", ") + markText(line.across_m, units, fraction);
    }
    text += '\n';
  }
  return text;
}

std::string rulesText(const field::TraversePlan& plan) {
  TextTable table({{"rule"}, {"verdict"}, {"source"}});
  for (const field::StraightVerdict& v : plan.straight) {
    table.row({std::string(v.rule->text),
               !v.applies ? "not made for so small a duct"
               : v.met    ? "met"
                          : "not met",
               std::string(v.rule->source) + ", " + std::string(base::toText(v.rule->status))});
  }
  for (const field::CountVerdict& v : plan.counts) {
    table.row({fmt::format("at least {} {}", v.needed, v.rule), v.met ? "met" : "not met", v.source});
  }
  return table.text();
}

std::string planText(const field::TraversePlan& plan, UnitSystem units, int fraction, bool with_notices) {
  const auto& shape = plan.section.shape;
  const Shown shown(units);
  const std::string duct = sameMarks(plan)
                               ? shown.bore(std::get<field::RoundSection>(shape).bore_m) + " bore"
                               : shown.bore(std::get<field::RectangularSection>(shape).width_m) + " × " +
                                     shown.bore(std::get<field::RectangularSection>(shape).height_m);
  std::string text = fmt::format(
      "Traverse: {} points in a duct of {}: {} {} of {} points, {} rule\n", plan.pointCount(), duct,
      plan.lines.size(), sameMarks(plan) ? (plan.lines.size() == 1 ? "diameter" : "diameters") : "lines",
      plan.lines.front().marks.size(), field::toText(plan.rule));
  text += marksText(plan, units, fraction);
  text += fmt::format("  On profiles of ducts the rule itself errs by at most {:.1f} %.\n",
                      100 * plan.integration_bias);
  if (plan.upstream_diameters && plan.downstream_diameters) {
    text += fmt::format("  Straight duct: {:.1f} diameters before, {:.1f} after.\n", *plan.upstream_diameters,
                        *plan.downstream_diameters);
  }
  text += '\n' + rulesText(plan);
  if (with_notices && !plan.notices.empty()) {
    text += '\n' + noticesText(plan.notices, units);
  }
  return text;
}

std::string speedsText(const field::TraverseResult& r, UnitSystem units) {
  std::vector<TextTable::Column> columns = {{"speeds in " + std::string(base::unitName(Kind::Speed, units))}};
  for (std::size_t j = 0; j < r.speeds_m_s.front().size(); ++j) {
    columns.push_back({std::to_string(j + 1), Align::Right});
  }
  TextTable table(std::move(columns));
  for (std::size_t i = 0; i < r.speeds_m_s.size(); ++i) {
    std::vector<std::string> cells = {r.plan.lines[i].name};
    for (const auto& v : r.speeds_m_s[i]) {
      cells.push_back(v ? base::formatNumber(Kind::Speed, *v, units) : "-");
    }
    table.row(std::move(cells));
  }
  return table.text();
}

json planJson(const field::TraversePlan& plan, UnitSystem units) {
  json lines = json::array();
  for (const field::PlanLine& line : plan.lines) {
    json marks = json::array();
    for (const field::Mark& m : line.marks) {
      marks.push_back({{"fraction", m.fraction},
                       {"from_wall_m", m.from_wall_m},
                       {"on_tube_m", m.on_tube_m},
                       {"moved", m.moved}});
    }
    lines.push_back({{"name", line.name}, {"across_m", line.across_m}, {"marks", std::move(marks)}});
  }
  json straight = json::array();
  for (const field::StraightVerdict& v : plan.straight) {
    straight.push_back({{"key", v.rule->key},
                        {"upstream", v.rule->upstream},
                        {"downstream", v.rule->downstream},
                        {"applies", v.applies},
                        {"met", v.met},
                        {"source", v.rule->source}});
  }
  json counts = json::array();
  for (const field::CountVerdict& v : plan.counts) {
    counts.push_back({{"rule", v.rule}, {"needed", v.needed}, {"met", v.met}, {"source", v.source}});
  }
  return {{"rule", field::toText(plan.rule)},
          {"diameter_m", plan.diameter_m},
          {"least_from_wall_m", plan.least_from_wall_m},
          {"integration_bias", plan.integration_bias},
          {"lines", std::move(lines)},
          {"straight_rules", std::move(straight)},
          {"point_rules", std::move(counts)},
          {"notices", noticesJson(plan.notices, units)}};
}

json resultJson(const field::TraverseResult& r, UnitSystem units) {
  json out = measuredJson(r.measured, units);
  json lines = json::array();
  for (const auto& line : r.speeds_m_s) {
    json speeds = json::array();
    for (const auto& v : line) {
      speeds.push_back(v ? json(*v) : json(nullptr));
    }
    lines.push_back(std::move(speeds));
  }
  out["speeds_m_s"] = std::move(lines);
  out["scatter_relative"] = r.scatter_relative;
  return out;
}

Result<std::string> answer(const TraverseOptions& o) {
  constexpr int kFractions[] = {1, 2, 4, 8, 16, 32, 64};
  if (std::ranges::find(kFractions, o.fraction) == std::end(kFractions)) {
    return fail(ErrorCode::Range,
                fmt::format("{} is none of 1, 2, 4, 8, 16, 32, 64 parts of an inch.", o.fraction),
                "--fraction");
  }
  const Result<field::PlanRequest> request = readRequest(o);
  if (!request) {
    return Failure(request.error());
  }
  Result<std::vector<TypedLine>> lines = typedLines(o);
  if (!lines) {
    return Failure(lines.error());
  }
  const UnitSystem units = unitsOf(o.common.units, o.duct.bore.empty() ? o.duct.width : o.duct.bore, "");
  json document = {{"kind", "traverse"}, {"format", 1}, {"date", o.common.date}, {"units", toText(units)}};
  if (lines->empty()) {
    const Result<field::TraversePlan> plan = field::planTraverse(*request, "traverse");
    if (!plan) {
      return Failure(plan.error());
    }
    document["plan"] = planJson(*plan, units);
    return o.json ? document.dump(2) + '\n' : planText(*plan, units, o.fraction, true);
  }
  if (const Result<void> ok = completeUnits(*lines, o.reading_unit); !ok) {
    return Failure(ok.error());
  }
  const Result<field::Traverse> traverse = readTraverse(o, *request, *lines);
  if (!traverse) {
    return Failure(traverse.error());
  }
  const Result<field::TraverseResult> result = field::measureTraverse(*traverse, "traverse");
  if (!result) {
    return Failure(result.error());
  }
  if (o.json) {
    document["plan"] = planJson(result->plan, units);
    document["result"] = resultJson(*result, units);
    return document.dump(2) + '\n';
  }
  return measuredText(result->measured, traverse->air, units, o.steps) + '\n' + speedsText(*result, units) +
         '\n' + planText(result->plan, units, o.fraction, false);
}

}  // namespace

int runTraverse(const TraverseOptions& options, std::ostream& out, std::ostream& err) {
  const Result<std::string> text = answer(options);
  return text ? deliver(options.json ? *text : dayLine(options.common) + *text, options.common, kAllServed,
                        out, err)
              : refuse(text.error(), err);
}

void declareOptions(OptionList& list, TraverseOptions& o) {
  list.option("readings", "TEXT", &o.readings,
              "One text for each line of points, unit last; none: only the marks");
  list.option("--readings-file", "FILE", &o.readings_file, "The readings as rows of a CSV file");
  list.option("--reading-unit", "UNIT", &o.reading_unit, "Of readings without one");
  list.option("--rule", "WORD", &o.rule, "log-linear, log-tchebycheff or equal-area");
  list.option("--points", "N", &o.points, "On a diameter, or on each line of a rectangle");
  list.option("--lines", "N", &o.lines, "Diameters, or lines across the width");
  list.option("--upstream", "LENGTH", &o.upstream, "Straight duct before the plane");
  list.option("--downstream", "LENGTH", &o.downstream, "Straight duct after it");
  list.option("--stub", "LENGTH", &o.stub, "From where the marks are seen to the inner wall");
  list.option("--fraction", "N", &o.fraction, "Marks to this part of an inch: 16 for 1/16");
  list.option("--legs", "WORD", &o.legs, "U-tube: both or one");
  list.option("--claimed", "TEXT", &o.claimed, "A speed or flow that somebody made of it");
  declareMeasuring(list, o);
  list.common(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft traverse --bore \"6 in\"\n"
      "  kerfdraft traverse --width \"300 mm\" --height \"200 mm\" --upstream \"2 m\"\n"
      "  kerfdraft traverse --bore \"6 in\" --legs both \\\n"
      "    \"0.62 0.80 0.97 0.96 0.83 0.60 in w.g.\" \"0.60 0.82 0.95 0.98 0.80 0.64 in w.g.\"");
}

}  // namespace kerfdraft::cli
