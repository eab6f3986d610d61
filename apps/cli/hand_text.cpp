// From the open ports' wishes to the pencil sheet, and from it to text.
#include "cli/hand_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "cli/sheet_rows.h"
#include "cli/shop_open.h"
#include "cli/text_table.h"
#include "hand/hand_sheet.h"
#include "judge/margins.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using base::Result;

constexpr std::size_t kWidth = 100;

struct Wish {
  hand::DesignFlow flow;
  std::string label;
  std::string from;  ///< "target", "floor", "as the model finds"
};

/// A port's own figure; else its machine's, shared by the open ports in proportion to their areas; else what
/// the model finds.
std::vector<Wish> wishes(const judge::Assessment& assessment, const judge::StateMargins& margins) {
  const auto area = [&](const judge::FlowMargin& port) {
    const double bore_m = assessment.pieces->ports[*port.port].bore_m;
    return bore_m * bore_m;
  };
  std::vector<Wish> list;
  for (const judge::FlowMargin& port : margins.ports) {
    if (!port.open) {
      continue;
    }
    const judge::FlowMargin* asked = &port;
    double share = 1;
    for (const judge::FlowMargin& machine : margins.machines) {
      if (!port.target_m3_s && !port.floor_m3_s && machine.ref.machine == port.ref.machine) {
        double all = 0;
        for (const judge::FlowMargin& other : margins.ports) {
          all += other.open && other.ref.machine == port.ref.machine ? area(other) : 0;
        }
        asked = &machine;
        share = area(port) / all;
      }
    }
    const std::optional<double> figure = asked->target_m3_s ? asked->target_m3_s : asked->floor_m3_s;
    list.push_back({{assessment.pieces->ports[*port.port].run, figure ? share * *figure : port.flow_m3_s},
                    port.label,
                    asked->target_m3_s  ? "target"
                    : asked->floor_m3_s ? "floor"
                                        : "as the model finds"});
  }
  return list;
}

/// The runs on the way from a port's run to the fan, by following each run's end.
std::vector<std::size_t> wayOf(const pieces::Pieces& pieces, const hand::HandSheet& sheet,
                               std::size_t first) {
  std::vector<std::size_t> way{first};
  for (bool found = true; found;) {
    found = false;
    const std::size_t node = pieces.runs[way.back()].to;
    for (const auto* part : {&sheet.suction, &sheet.discharge}) {
      for (const hand::HandRun& run : *part) {
        if (pieces.runs[run.run].from == node && std::find(way.begin(), way.end(), run.run) == way.end()) {
          way.push_back(run.run);
          found = true;
          break;
        }
      }
    }
  }
  return way;
}

std::string_view inWords(hand::Verdict verdict) {
  switch (verdict) {
    case hand::Verdict::Balanced:
      return "balanced";
    case hand::Verdict::CorrectFlow:
      return "given more air";
    case hand::Verdict::Redesign:
      return "design again";
  }
  return "";
}

std::string balances(const hand::HandSheet& sheet, const Shown& shown) {
  using enum Align;
  TextTable table({{"junction"},
                   {"branch"},
                   {"suction, " + shown.unit(Kind::Pressure), Right},
                   {"ratio", Right},
                   {shown.unit(Kind::VolumeFlow), Right},
                   {"corrected", Right},
                   {"verdict"}});
  for (const hand::JunctionBalance& junction : sheet.junctions) {
    for (const hand::BalanceLeg& leg : junction.legs) {
      if (junction.legs.size() < 2) {
        continue;
      }
      table.row({&leg == junction.legs.data() ? junction.label : std::string(), leg.label,
                 shown.number(Kind::Pressure, leg.suction_pa), fmt::format("{:.2f}", leg.ratio),
                 shown.number(Kind::VolumeFlow, leg.flow_m3_s),
                 shown.number(Kind::VolumeFlow, leg.corrected_flow_m3_s), std::string(inWords(leg.verdict))});
    }
  }
  return table.empty() ? std::string() : "\n" + table.text();
}

std::string fanText(const hand::HandSheet& sheet, const Shown& shown) {
  const hand::FanDemand& fan = sheet.fan;
  const double lacking_pa = fan.required_total_pa - fan.available_total_pa;
  return fmt::format(
      "\n  {} must raise the total pressure by {} at {}; by its curve it has {}{}: {}.\n", fan.label,
      shown.pressure(fan.required_total_pa), shown.flow(fan.flow_m3_s),
      shown.pressure(fan.available_total_pa), fan.beyond_data ? " (beyond the data of its curve)" : "",
      lacking_pa > 0 ? shown.pressure(lacking_pa) + " too little, so the air will be less than asked"
                     : shown.pressure(-lacking_pa) + " to spare, so the air will be more than asked");
}

}  // namespace

Result<std::string> handText(const SheetOptions& options, const judge::Assessment& assessment,
                             std::size_t state, std::size_t port, const catalogue::Catalogue& catalogue,
                             const Shown& shown) {
  const Result<std::vector<judge::StateMargins>> margins = judge::margins(assessment, catalogue);
  if (!margins) {
    return base::Failure(margins.error());
  }
  const std::vector<Wish> asked = wishes(assessment, (*margins)[state]);
  std::vector<hand::DesignFlow> flows;
  for (const Wish& wish : asked) {
    flows.push_back(wish.flow);
  }
  hand::Method method;
  method.friction = options.power_law ? hand::FrictionRule::PowerLaw : hand::FrictionRule::Darcy;
  method.balancing = options.by_gates ? hand::Balancing::ByGates : hand::Balancing::ByDesign;
  method.filter = assessment.states[state].situation.filter;
  const Result<hand::HandSheet> sheet = hand::handSheet(*assessment.pieces, catalogue, flows, method);
  if (!sheet) {
    return base::Failure(sheet.error());
  }

  const std::string head =
      fmt::format("{}, filter {}, predicted, nothing measured: {}\n", options.common.date,
                  toText(method.filter), assessment.project->setting.name);
  if (options.csv) {
    std::string out = "# " + head + sheetCsvTitle(shown);
    for (const auto* part : {&sheet->suction, &sheet->discharge}) {
      for (const hand::HandRun& run : *part) {
        out += sheetCsv(run.rows, shown, assessment.states[state].name + ", by hand");
      }
    }
    return out;
  }
  std::string out = head + fmt::format("Calculation sheet by the hand method, state \"{}\", way of {}\n",
                                       assessment.states[state].name, assessment.pieces->ports[port].label);
  for (const Wish& wish : asked) {
    out += fmt::format("  {} asks for {} ({})\n", wish.label, shown.flow(wish.flow.flow_m3_s), wish.from);
  }
  std::vector<hand::SheetRow> rows;
  for (const std::size_t run : wayOf(*assessment.pieces, *sheet, assessment.pieces->ports[port].run)) {
    for (const auto* part : {&sheet->suction, &sheet->discharge}) {
      for (const hand::HandRun& each : *part) {
        if (each.run == run) {
          rows.insert(rows.end(), each.rows.begin(), each.rows.end());
        }
      }
    }
  }
  out += '\n' + sheetTable(rows, shown) + balances(*sheet, shown) + fanText(*sheet, shown);
  for (const std::string& remark : sheet->remarks) {
    out += "  " + wrapped(remark, kWidth, 2) + '\n';
  }
  if (options.sources) {
    out += '\n' + sheetSources(rows);
  }
  return out;
}

}  // namespace kerfdraft::cli
