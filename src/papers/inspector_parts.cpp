// Fills the forms of an examination with what is intended and predicted; readings are left to a pen.
#include "papers/inspector_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>

#include "catalogue/countries.h"
#include "judge/speech.h"
#include "papers/parts.h"

namespace kerfdraft::papers {
namespace {

using base::Kind;

/// "measured: label on the machine".
template <class Q>
std::string standingOf(const base::Given<Q>& given) {
  return given.source().empty() ? std::string(base::toText(given.standing()))
                                : fmt::format("{}: {}", base::toText(given.standing()), given.source());
}

/// Where the intended flow of a hood comes from.
std::string intendedSource(const PaperInput& input, const judge::FlowMargin& margin) {
  const shop::Machine* machine = input.evidence.machine(margin.ref.machine);
  if (machine == nullptr) {
    return {};
  }
  const std::optional<base::Given<base::VolumeFlow>>*target = &machine->target, *floor = &machine->floor;
  for (const shop::Port& port : machine->ports) {
    if (margin.port && port.id == margin.ref.port) {
      target = &port.target;
      floor = &port.floor;
    }
  }
  return *target ? standingOf(**target) : *floor ? standingOf(**floor) : "catalogue, by kind of machine";
}

std::optional<double> intended(const judge::FlowMargin& margin) {
  return margin.target_m3_s ? margin.target_m3_s : margin.floor_m3_s;
}

/// Every hood that is open in a usual state: the one of its states that `better` likes best, the first of
/// equals.
template <class Better>
std::vector<Got> eachHood(const PaperInput& input, const Better& better) {
  std::vector<Got> out;
  for (const std::size_t s : usualStates(input)) {
    for (const Got& got : gotIn(input, s)) {
      const auto same = std::find_if(out.begin(), out.end(),
                                     [&](const Got& w) { return w.margin->ref == got.margin->ref; });
      if (same == out.end()) {
        out.push_back(got);
      } else if (better(got, *same)) {
        *same = got;
      }
    }
  }
  return out;
}

/// Each in the state in which fewest hoods are open.
std::vector<Got> hoodsAlone(const PaperInput& input) {
  std::vector<std::size_t> open(input.assessment.states.size(), 0);
  for (const std::size_t s : usualStates(input)) {
    open[s] = gotIn(input, s).size();
  }
  return eachHood(input, [&](const Got& a, const Got& b) { return open[a.state] < open[b.state]; });
}

std::string_view urgency(judge::Severity severity) {
  switch (severity) {
    case judge::Severity::Severe:
      return "at once";
    case judge::Severity::Serious:
      return "before long";
    case judge::Severity::Caution:
      return "at the next service";
    case judge::Severity::Note:
      return "to be noted";
  }
  return "";
}

}  // namespace

Table limitsTable(const PaperInput& input) {
  Table table;
  table.columns = {
      {"limit", Align::Left, {}, 0.3},  {"mg/m³", Align::Right}, {"fraction"}, {"force"}, {"date"},
      {"source", Align::Left, {}, 0.28}};
  const shop::Setting& setting = input.evidence.project().setting;
  std::vector<std::string> woods = setting.woods;
  if (woods.empty()) {
    woods.emplace_back();
  }
  std::vector<std::string> told;
  for (const std::string& wood : woods) {
    for (const catalogue::ExposureLimit& limit :
         catalogue::exposureLimitsFor(input.catalogue, setting.country, wood)) {
      if (std::find(told.begin(), told.end(), limit.key) != told.end()) {
        continue;
      }
      told.push_back(limit.key);
      table.rows.push_back(
          {{limit.name},
           {fmt::format("{:g}", std::round(1e8 * limit.limit_kg_m3) / 100)},
           {limit.fraction},
           {limit.force},
           {limit.date.empty() ? "not known" : limit.date},
           {fmt::format("{} ({})", limit.origin.source, base::toText(limit.origin.status))}});
    }
  }
  table.note = "Over 8 hours. Limits change: the local authority says what holds today.";
  return table;
}

Table hoodsTable(const PaperInput& input) {
  Table table;
  table.small = true;
  table.to_fill_in = true;
  table.columns = {{"no."},
                   {"hood", Align::Left, {}, 0.14},
                   {"state", Align::Left, {}, 0.12},
                   {"intended", Align::Right, Kind::VolumeFlow},
                   {"source of it", Align::Left, {}, 0.12},
                   {"predicted", Align::Right, Kind::VolumeFlow},
                   {"from", Align::Right, Kind::VolumeFlow},
                   {"to", Align::Right, Kind::VolumeFlow},
                   {"conclusion"},
                   {"reading today", Align::Left, {}, 0.09},
                   {"instrument, calibrated on", Align::Left, {}, 0.13}};
  const std::vector<Got> hoods = hoodsAlone(input);
  for (std::size_t h = 0; h < hoods.size(); ++h) {
    const Got& got = hoods[h];
    const std::string result = conclusion(got);
    const std::optional<drawing::Grade> grade = result == "met" ? std::optional(drawing::Grade::Ample)
                                                : result == "not met"
                                                    ? std::optional(drawing::Grade::FarBelow)
                                                    : std::nullopt;
    table.rows.push_back({{fmt::format("{}", h + 1)},
                          {got.name},
                          {input.assessment.states[got.state].name},
                          {{}, intended(*got.margin)},
                          {intended(*got.margin) ? intendedSource(input, *got.margin) : std::string("-")},
                          {{}, got.margin->flow_m3_s},
                          {{}, got.low()},
                          {{}, got.high()},
                          {result, {}, grade},
                          {},
                          {}});
  }
  table.note =
      "Each hood in the state in which least is open beside it. From and to: two standard "
      "deviations. Met: "
      "the lower end reaches 90 % of the target, or the floor where there is no target; not met: the upper "
      "end does "
      "not.";
  return table;
}

Table sharedAirTable(const PaperInput& input) {
  Table table;
  table.caption = "Hoods that get less in another state";
  table.columns = {{"hood", Align::Left, {}, 0.3},
                   {"state", Align::Left, {}, 0.3},
                   {"predicted", Align::Right, Kind::VolumeFlow},
                   {"share of intended", Align::Right},
                   {"conclusion"}};
  const std::vector<Got> alone = hoodsAlone(input);
  for (const Got& got : eachHood(input, [](const Got& a, const Got& b) { return shareOf(a) < shareOf(b); })) {
    const auto in = std::find_if(alone.begin(), alone.end(),
                                 [&](const Got& other) { return other.margin->ref == got.margin->ref; });
    if (in == alone.end() || in->state == got.state || !intended(*got.margin)) {
      continue;
    }
    const std::string result = conclusion(got);
    table.rows.push_back({{got.name},
                          {input.assessment.states[got.state].name},
                          {{}, got.margin->flow_m3_s},
                          {fmt::format("{:.0f} %", 100 * shareOf(got))},
                          {result}});
  }
  return table;
}

Table tapsTable(const PaperInput& input) {
  Table table;
  table.small = true;
  table.to_fill_in = true;
  table.columns = {{"tap"},
                   {"in", Align::Left, {}, 0.2},
                   {"state", Align::Left, {}, 0.18},
                   {"static expected", Align::Right, Kind::Pressure},
                   {"speed expected", Align::Right, Kind::Speed},
                   {"static today", Align::Left, {}, 0.11},
                   {"velocity pressure today", Align::Left, {}, 0.13},
                   {"instrument, calibrated on", Align::Left, {}, 0.15}};
  const pieces::Pieces& pieces = input.evidence.pieces();
  for (const pieces::TapPlace& tap : pieces.taps) {
    std::optional<std::size_t> best;
    double most = 0;
    for (const std::size_t s : usualStates(input)) {
      const double speed =
          std::abs(input.assessment.states[s].solution.runs[tap.run].pieces[tap.piece].speed_m_s);
      if (speed > most) {
        most = speed;
        best = s;
      }
    }
    std::vector<Cell> row{{tap.label}, {shortLabel(pieces.runs[tap.run].label)}};
    if (best) {
      const network::PieceResult& result =
          input.assessment.states[*best].solution.runs[tap.run].pieces[tap.piece];
      const double length_m = pieces.runs[tap.run].pieces[tap.piece].length_m;
      // Between the ends of a straight piece the pressure falls evenly.
      const double share = length_m > 0 ? std::clamp(tap.along_m / length_m, 0.0, 1.0) : 0;
      row.push_back({input.assessment.states[*best].name});
      row.push_back({{}, result.static_in_pa + share * (result.static_out_pa - result.static_in_pa)});
      row.push_back({{}, most});
    }
    table.rows.push_back(std::move(row));
  }
  table.note = "Each tap in the state in which its air is fastest. Suction against outdoors is negative.";
  return table;
}

Table defectsTable(const PaperInput& input) {
  Table table;
  table.columns = {{"urgency", Align::Left, {}, 0.13},
                   {"what was found", Align::Left, {}, 0.5},
                   {"what to do", Align::Left, {}, 0.37}};
  const judge::Voice voice(judge::Reader::Inspector, input.units);
  for (const judge::Severity severity :
       {judge::Severity::Severe, judge::Severity::Serious, judge::Severity::Caution, judge::Severity::Note}) {
    bool first = true;
    for (const judge::Group& group : input.verdict.groups) {
      const judge::Finding& lead = input.verdict.findings[group.lead];
      if (lead.severity != severity) {
        continue;
      }
      const judge::Said said = judge::say(lead, voice);
      if (first) {
        table.starts.push_back(table.rows.size());
      }
      std::string what = said.what;
      if (!said.limit.empty()) {
        what += " " + said.limit;
      }
      table.rows.push_back({{first ? std::string(urgency(severity)) : std::string(), {}, {}, true},
                            {what},
                            {said.remedies.empty() ? std::string() : said.remedies.front()}});
      first = false;
    }
  }
  return table;
}

std::string monthsLater(std::string_view date, int months) {
  const auto digits = [&](std::size_t at, std::size_t count) {
    int value = 0;
    for (std::size_t i = at; i < at + count; ++i) {
      if (i >= date.size() || date[i] < '0' || date[i] > '9') {
        return -1;
      }
      value = 10 * value + (date[i] - '0');
    }
    return value;
  };
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') {
    return {};
  }
  namespace chr = std::chrono;
  const int year = digits(0, 4);
  const int month = digits(5, 2);
  const int day = digits(8, 2);
  if (year < 0 || month < 0 || day < 0) {
    return {};
  }
  const chr::year_month_day from{chr::year(year), chr::month(static_cast<unsigned>(month)),
                                 chr::day(static_cast<unsigned>(day))};
  if (!from.ok()) {
    return {};
  }
  chr::year_month_day then = from + chr::months(months);
  if (!then.ok()) {
    then = then.year() / then.month() / chr::last;
  }
  return fmt::format("{:04d}-{:02d}-{:02d}", static_cast<int>(then.year()),
                     static_cast<unsigned>(then.month()), static_cast<unsigned>(then.day()));
}

}  // namespace kerfdraft::papers
