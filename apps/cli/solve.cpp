// Chooses the states, has them solved and judged, and hands them to a writer.
#include "cli/solve.h"

#include <fmt/format.h>

#include "cli/exit_codes.h"
#include "cli/gate_sets.h"
#include "cli/shop_open.h"
#include "cli/solve_writers.h"
#include "doubt/bands.h"
#include "judge/caution_lines.h"
#include "network/solve.h"

namespace kerfdraft::cli {
namespace {

using base::Result;

/// In place of the project's states: each gate alone, and each place of each moved hose with no gate open.
void takeEachGate(judge::Assessment& assessment) {
  const pieces::Pieces& pieces = *assessment.pieces;
  // A state that opens nothing, with what each machine throws while it cuts.
  const Result<network::Situation> rest = network::situationOf(pieces, *assessment.project, shop::State{});
  base::check(rest.has_value(), "a state without entries was refused");
  assessment.states.clear();
  const auto add = [&](std::string name, network::Situation situation) {
    judge::StateResult state;
    state.name = std::move(name);
    state.declared = false;
    state.solution = network::solveFully(*assessment.network, situation);
    state.situation = std::move(situation);
    assessment.states.push_back(std::move(state));
  };
  for (std::size_t g = 0; g < pieces.gates.size(); ++g) {
    network::Situation situation = *rest;
    situation.gate_travel[g] = 1;
    add(fmt::format("{} alone", pieces.gates[g].label), std::move(situation));
  }
  for (std::size_t m = 0; m < pieces.moved.size(); ++m) {
    for (std::size_t p = 0; p < pieces.moved[m].places.size(); ++p) {
      network::Situation situation = *rest;
      situation.hose_place[m] = static_cast<int>(p);
      const pieces::Run& run = pieces.runs[pieces.moved[m].places[p].run];
      add(fmt::format("{} at {}", pieces.moved[m].label, run.label), std::move(situation));
    }
  }
}

int exitCode(const Solved& solved) {
  bool served = true;
  for (const std::size_t s : solved.states) {
    if (!solved.margins[s].solved) {
      return kNoSolution;
    }
    served = served && solved.margins[s].served;
  }
  return served ? kAllServed : kNotServed;
}

}  // namespace

int runSolve(const SolveOptions& options, std::ostream& out, std::ostream& err) {
  std::optional<OpenShop> shop = openOrRefuse(options.project, err);
  if (!shop) {
    return kBadInput;
  }
  judge::Assessment& assessment = shop->assessment;
  if (options.gate_sets) {
    return runGateSets(options, assessment, out, err);
  }
  if (options.each_gate) {
    takeEachGate(assessment);
    if (assessment.states.empty()) {
      return refuse({base::ErrorCode::Conflict, "this shop has no gate and no moved hose", options.project},
                    err);
    }
  }
  const Result<std::vector<std::size_t>> states = statesByName(assessment, options.states);
  if (!states) {
    return refuse(states.error(), err);
  }
  const Result<std::vector<judge::StateMargins>> margins = judge::margins(assessment, shop->catalogue);
  if (!margins) {
    return refuse(margins.error(), err);
  }
  const std::vector<judge::StateBands> bands = doubt::assessBands(assessment, shop->catalogue);
  const Shown shown(shop->unitsFor(options.common));
  Result<std::vector<std::string>> cautions =
      judge::cautionLines(assessment, shop->catalogue, *states, shown.system());
  if (!cautions) {
    return refuse(cautions.error(), err);
  }
  const Solved solved{assessment,          *margins, bands,        *states,        std::move(*cautions),
                      options.common.date, shown,    options.full, options.summary};
  const std::string text = options.format == Format::Csv    ? solvedCsv(solved)
                           : options.format == Format::Json ? solvedJson(solved)
                                                            : solvedText(solved);
  return deliver(text, options.common, exitCode(solved), out, err);
}

void declareOptions(OptionList& list, SolveOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  list.option("--state", "NAME", &o.states, "Only this state, by its name; may be given again");
  list.flag("--each-gate", o.each_gate, "Each gate alone in place of the project's states");
  list.flag("--gate-sets", o.gate_sets,
            "Every set of gates, summed up; Ctrl-C stops and sums up what was seen");
  list.notTogether("--gate-sets", "--each-gate");
  list.flag("--summary", o.summary, "Only the first table: each state with what is open");
  list.flag("--full", o.full, "Shut ports and still runs too");
  list.flag(
      "--csv", [&o] { o.format = Format::Csv; }, "As comma-separated values, in the units shown");
  list.flag(
      "--json", [&o] { o.format = Format::Json; }, "As JSON, in SI units (docs/schema/solve-1.schema.json)");
  list.notTogether("--json", "--csv");
  list.option("--threads", "N", &o.threads, "Threads for --gate-sets; all cores where not given");
  list.common(o.common);
  list.footer(
      "Exit code: 0 every open port and machine reaches its floor, 1 one does not, 2 bad input,\n"
      "3 a state has no solution.\n\n"
      "Examples:\n"
      "  kerfdraft solve examples/two-car-garage.json\n"
      "  kerfdraft solve my-shop.json --state planer --units metric\n"
      "  kerfdraft solve my-shop.json --each-gate\n"
      "  kerfdraft solve my-shop.json --gate-sets\n"
      "  kerfdraft solve my-shop.json --json -o solved.json");
}

}  // namespace kerfdraft::cli
