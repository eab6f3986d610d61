// Finds the state and the port that are meant, or the worst ones, and prints their sheet.
#include "cli/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "catalogue/catalogue.h"
#include "cli/exit_codes.h"
#include "cli/hand_text.h"
#include "cli/sheet_rows.h"
#include "cli/shop_open.h"
#include "cli/shown.h"
#include "cli/text_table.h"
#include "judge/margins.h"
#include "judge/sheet.h"
#include "papers/worst_path.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

constexpr std::size_t kWidth = 100;

Result<papers::WorstPath> chosenPath(const SheetOptions& options, const judge::Assessment& assessment,
                                     const catalogue::Catalogue& catalogue) {
  std::optional<std::size_t> state;
  std::optional<std::size_t> port;
  if (!options.state.empty()) {
    const Result<std::size_t> found = stateByName(assessment, options.state);
    if (!found) {
      return Failure(found.error());
    }
    state = *found;
  }
  if (!options.port.empty()) {
    const Result<std::size_t> found = portByName(assessment, options.port);
    if (!found) {
      return Failure(found.error());
    }
    port = *found;
  }
  if (state && port) {
    return papers::WorstPath{*state, *port};
  }
  const Result<std::vector<judge::StateMargins>> margins = judge::margins(assessment, catalogue);
  if (!margins) {
    return Failure(margins.error());
  }
  if (const std::optional<papers::WorstPath> worst = papers::worstPath(assessment, *margins, state, port)) {
    return *worst;
  }
  return fail(ErrorCode::Reference,
              port ? "this port is open in no state; name one with --state" : "no port is open in it",
              port    ? "--port"
              : state ? "--state"
                      : options.project);
}

std::string fanLines(const judge::Sheet& sheet, const Shown& shown) {
  std::string out;
  for (const judge::SheetFan& fan : sheet.fans) {
    out += stopped(fmt::format(
               "\n  {}: {} at {} static and {} total at its inlet; it raises the total pressure by {}",
               fan.label, shown.flow(fan.inlet_flow_m3_s), shown.pressure(fan.inlet_static_pa),
               shown.pressure(fan.inlet_total_pa), shown.pressure(fan.rise_pa))) +
           '\n';
  }
  return out;
}

/// The greatest load of chips on the path, which its losses count.
std::string dustLine(const judge::Assessment& assessment, const judge::Sheet& sheet) {
  const network::Solution& solution = assessment.states[sheet.state].solution;
  double most = 0;
  for (std::size_t r = 0; r < solution.runs.size() && solution.outcome == network::Outcome::Solved; ++r) {
    const std::string& label = assessment.pieces->runs[r].label;
    if (std::any_of(sheet.rows.begin(), sheet.rows.end(),
                    [&](const judge::SheetRow& row) { return row.run == label; })) {
      most = std::max(most, solution.runs[r].solids_ratio);
    }
  }
  return most > 0 ? fmt::format("  The losses count up to {:.2g} kg of chips in each kg of air.\n", most)
                  : std::string();
}

std::string modelText(const judge::Assessment& assessment, const judge::Sheet& sheet,
                      const SheetOptions& options, const Shown& shown) {
  std::string out =
      fmt::format("{}, filter {}, predicted, nothing measured: {}\n", options.common.date,
                  toText(assessment.states[sheet.state].situation.filter), assessment.project->setting.name);
  out += fmt::format("Calculation sheet by the model, state \"{}\", from {} to {}{}\n\n", sheet.state_name,
                     sheet.from, sheet.to, sheet.open ? "" : " (shut in this state: what flows is leakage)");
  out += sheetTable(sheet.rows, shown) + fanLines(sheet, shown);
  out += dustLine(assessment, sheet);
  for (const std::string& remark : sheet.remarks) {
    // The load of each run is said once for all of them, unless sources are asked for.
    if (options.sources || !remark.ends_with("in each kg of air")) {
      out += "  " + wrapped(remark, kWidth, 2) + '\n';
    }
  }
  if (options.sources) {
    out += '\n' + sheetSources(sheet.rows);
  }
  return out;
}

}  // namespace

int runSheet(const SheetOptions& options, std::ostream& out, std::ostream& err) {
  const std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  const judge::Assessment& assessment = shop->assessment;
  const Result<papers::WorstPath> path = chosenPath(options, assessment, shop->catalogue);
  if (!path) {
    return refuse(path.error(), err);
  }
  const judge::StateResult& state = assessment.states[path->state];
  if (!state.solution.solved()) {
    err << fmt::format("kerfdraft: state \"{}\" has no solution. {}: {}\n", state.name, state.solution.place,
                       state.solution.why);
    return kNoSolution;
  }
  const Shown shown(shop->unitsFor(options.common));
  if (options.hand) {
    const Result<std::string> text =
        handText(options, assessment, path->state, path->port, shop->catalogue, shown);
    return text ? deliver(*text, options.common, kAllServed, out, err) : refuse(text.error(), err);
  }
  const Result<judge::Sheet> sheet = judge::modelSheet(assessment, path->state, path->port);
  if (!sheet) {
    return refuse(sheet.error(), err);
  }
  const std::string text =
      options.csv ? fmt::format("# {}, filter {}, predicted, nothing measured: {}\n", options.common.date,
                                toText(state.situation.filter), assessment.project->setting.name) +
                        sheetCsvTitle(shown) +
                        sheetCsv(sheet->rows, shown, fmt::format("{}: {}", sheet->state_name, sheet->from))
                  : modelText(assessment, *sheet, options, shown);
  return deliver(text, options.common, kAllServed, out, err);
}

void declareOptions(OptionList& list, SheetOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  list.option("--state", "NAME", &o.state,
              "State, by its name; the one where a port is shortest of air where not given");
  list.option("--port", "NAME", &o.port,
              "Port, by label or machine name; the worst of the state where not given");
  list.flag("--hand", o.hand, "By the trade's hand method, from the flows that are asked for");
  list.flag("--power-law", o.power_law, "By hand: friction by the trade's power law");
  list.needs("--power-law", "--hand");
  list.flag("--by-gates", o.by_gates, "By hand: branches are balanced by gates, not by design");
  list.needs("--by-gates", "--hand");
  list.flag("--sources", o.sources, "Where every coefficient comes from, too");
  list.flag("--csv", o.csv, "As comma-separated values, with sources");
  list.common(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft sheet examples/two-car-garage.json\n"
      "  kerfdraft sheet my-shop.json --state planer --port T2 --sources\n"
      "  kerfdraft sheet my-shop.json --state planer --hand\n"
      "  kerfdraft sheet my-shop.json --csv -o sheet.csv");
}

}  // namespace kerfdraft::cli
