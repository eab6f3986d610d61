// Chooses state, path and sheet, and hands plain values to the drawing room.
#include "cli/draw.h"

#include <fmt/format.h>

#include <filesystem>
#include <numeric>

#include "catalogue/catalogue.h"
#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "drawing/isometric.h"
#include "drawing/plan.h"
#include "drawing/svg.h"
#include "papers/draw_charts.h"
#include "papers/draw_overlay.h"
#include "papers/worst_path.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

struct Shop {
  const DrawOptions& options;
  judge::Assessment assessment;
  std::vector<judge::StateMargins> margins;
  base::UnitSystem units;
};

/// The state that is meant: by name, else the one where a port is shortest of air, else the first.
Result<std::size_t> stateOf(const Shop& shop) {
  if (!shop.options.state.empty()) {
    return stateByName(shop.assessment, shop.options.state);
  }
  const auto worst = papers::worstPath(shop.assessment, shop.margins, std::nullopt, std::nullopt);
  return worst ? worst->state : 0;
}

Result<std::optional<drawing::Paper>> paperOf(const DrawOptions& options) {
  if (options.paper.empty()) {
    return std::optional<drawing::Paper>();
  }
  const std::optional<drawing::Paper> paper = drawing::paperNamed(options.paper);
  if (!paper) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" is no paper; there are letter, tabloid, a4, a3, a2 and a1, each also with "
                    "\"-upright\" behind it",
                    options.paper.substr(0, 40)),
        "--paper");
  }
  return paper;
}

drawing::TitleBlock titleOf(const Shop& shop, std::size_t state) {
  const judge::StateResult& of = shop.assessment.states[state];
  drawing::TitleBlock title;
  title.shop = shop.assessment.project->setting.name;
  title.note = shop.assessment.project->setting.note;
  title.drawing = "Plan";
  title.date = shop.options.common.date;
  title.caution = std::string(drawing::kCaution);
  if (!shop.options.plain) {
    title.state = of.name;
    title.filter = "filter " + std::string(toText(of.situation.filter));
    title.standing = of.solution.solved() ? "predicted" : "no solution in this state";
  }
  return title;
}

Result<drawing::Picture> plan(const Shop& shop, std::size_t state) {
  const auto paper = paperOf(shop.options);
  if (!paper) {
    return Failure(paper.error());
  }
  drawing::PlanOptions options;
  options.units = shop.units;
  options.paper = *paper;
  options.title = titleOf(shop, state);
  const drawing::Overlay overlay =
      shop.options.plain ? drawing::Overlay{}
                         : papers::overlayOf(shop.assessment, state, shop.margins[state], shop.units);
  return drawing::drawPlan(*shop.assessment.project, *shop.assessment.pieces, overlay, options);
}

Result<drawing::Picture> isometric(const Shop& shop, std::size_t state) {
  const auto paper = paperOf(shop.options);
  if (!paper) {
    return Failure(paper.error());
  }
  drawing::IsometricOptions options;
  options.units = shop.units;
  options.paper = *paper;
  options.title = titleOf(shop, state);
  options.title.drawing = "Isometric sketch";
  options.title.state.clear();
  options.title.filter.clear();
  options.title.standing.clear();
  options.title.caution = "To hang the ducts by: check every length on site before you cut.";
  return drawing::drawIsometric(*shop.assessment.project,
                                papers::overlayOf(shop.assessment, state, shop.margins[state], shop.units),
                                options);
}

Result<std::size_t> fanOf(const Shop& shop) {
  const pieces::Pieces& pieces = *shop.assessment.pieces;
  std::vector<std::string> labels;
  // A collector is meant before the blower of a machine.
  for (const bool collector : {true, false}) {
    for (std::size_t f = 0; f < pieces.fans.size(); ++f) {
      if ((pieces.fans[f].key.role == pieces::Role::Fan) != collector) {
        continue;
      }
      if (lowered(pieces.fans[f].label).find(lowered(shop.options.fan)) != std::string::npos) {
        return f;
      }
      labels.push_back(pieces.fans[f].label);
    }
  }
  if (labels.empty()) {
    return fail(ErrorCode::Reference, "this shop has no collector", shop.options.project);
  }
  return fail(
      ErrorCode::Reference,
      fmt::format("no collector is called \"{}\"; there are: {}", shop.options.fan, fmt::join(labels, ", ")),
      "--collector");
}

Result<drawing::Picture> fanPicture(const Shop& shop) {
  const Result<std::size_t> fan = fanOf(shop);
  if (!fan) {
    return Failure(fan.error());
  }
  std::vector<std::size_t> states(shop.assessment.states.size());
  std::iota(states.begin(), states.end(), std::size_t{0});
  if (!shop.options.state.empty()) {
    const Result<std::size_t> state = stateByName(shop.assessment, shop.options.state);
    if (!state) {
      return Failure(state.error());
    }
    states = {*state};
  }
  drawing::FanChartInput input = papers::fanChartInput(shop.assessment, states, *fan);
  input.standing += shop.options.common.date.empty() ? "" : ", " + shop.options.common.date;
  return drawing::drawChart(drawing::fanChart(input, shop.units), shop.units);
}

Result<drawing::Picture> pressurePicture(const Shop& shop, std::size_t state) {
  std::optional<std::size_t> port;
  if (!shop.options.port.empty()) {
    const Result<std::size_t> found = portByName(shop.assessment, shop.options.port);
    if (!found) {
      return Failure(found.error());
    }
    port = *found;
  } else if (const auto worst = papers::worstPath(shop.assessment, shop.margins, state, std::nullopt)) {
    port = worst->port;
  }
  if (!port) {
    return fail(ErrorCode::Reference, "no port is open in this state; name one with --port", "--state");
  }
  Result<drawing::PressureChartInput> input = papers::pressureChartInput(shop.assessment, state, *port);
  if (!input) {
    return Failure(input.error());
  }
  const judge::StateResult& of = shop.assessment.states[state];
  input->standing =
      fmt::format("State \"{}\", {}", of.name, papers::standingOf(of, shop.options.common.date));
  return drawing::drawChart(drawing::pressureChart(*input, shop.units), shop.units);
}

drawing::Picture speedPicture(const Shop& shop, std::size_t state) {
  drawing::SpeedChartInput input = papers::speedChartInput(shop.assessment, shop.margins[state]);
  input.standing += ", " + papers::standingOf(shop.assessment.states[state], shop.options.common.date);
  return drawing::speedChart(input, shop.units);
}

Result<drawing::Picture> pictureOf(const Shop& shop, std::size_t state) {
  switch (shop.options.what) {
    case DrawWhat::Plan:
      return plan(shop, state);
    case DrawWhat::Isometric:
      return isometric(shop, state);
    case DrawWhat::Fan:
      return fanPicture(shop);
    case DrawWhat::Pressure:
      return pressurePicture(shop, state);
    case DrawWhat::Speed:
      return speedPicture(shop, state);
  }
  throw base::InternalError("a picture without a way to draw it");
}

}  // namespace

int runDraw(const DrawOptions& options, std::ostream& out, std::ostream& err) {
  // A file that is called otherwise would hold what its name does not say.
  if (const std::filesystem::path file(options.common.output);
      file.has_extension() && file.extension() != ".svg") {
    return refuse(
        base::Error{ErrorCode::Unsupported,
                    fmt::format("a picture is written as SVG, so its file is called .svg, not {}; the window "
                                "also saves PDF and PNG",
                                file.extension().string()),
                    "--output"},
        err);
  }
  std::optional<OpenShop> open = openOrRefuse(options.project, err);
  if (!open) {
    return kBadInput;
  }
  Result<std::vector<judge::StateMargins>> margins = judge::margins(open->assessment, open->catalogue);
  if (!margins) {
    return refuse(margins.error(), err);
  }
  const base::UnitSystem units = open->unitsFor(options.common);
  const Shop shop{options, std::move(open->assessment), std::move(*margins), units};
  const Result<std::size_t> state = stateOf(shop);
  if (!state) {
    return refuse(state.error(), err);
  }
  const Result<drawing::Picture> picture = pictureOf(shop, *state);
  if (!picture) {
    return refuse(picture.error(), err);
  }
  const bool needs_air = !options.plain && options.what != DrawWhat::Isometric;
  const int code = needs_air && !shop.assessment.states[*state].solution.solved() ? kNoSolution : kAllServed;
  return deliver(drawing::toSvg(*picture), options.common, code, out, err);
}

void declareOptions(OptionList& list, DrawOptions& o) {
  list.required("project", "FILE", &o.project, "Project file of the shop");
  list.word<DrawWhat, DrawWhat>(
      "--what", "WORD", o.what,
      {{"plan", DrawWhat::Plan},
       {"isometric", DrawWhat::Isometric},
       {"fan", DrawWhat::Fan},
       {"pressure", DrawWhat::Pressure},
       {"speed", DrawWhat::Speed}},
      "plan (taken where not given), isometric (a sketch to hang the ducts by), fan, "
      "pressure (along a path), speed (in every run)");
  list.option("--state", "NAME", &o.state,
              "State, by its name; the one where a port is shortest of air where not given, for fan all");
  list.option("--port", "NAME", &o.port,
              "For pressure: where the path begins; the worst port where not given");
  list.option("--collector", "NAME", &o.fan, "For fan: label or name; the first one where not given");
  list.option("--paper", "NAME", &o.paper,
              "letter, tabloid, a4, a3, a2, a1, each also with -upright behind it; the smallest that leaves "
              "labels room where not given");
  list.flag("--plain", o.plain, "The plan without results");
  list.common(o.common);
  list.footer(
      "Exit code: 0, 2 bad input, 3 the state has no solution; what needs none is drawn all the same.\n\n"
      "Examples:\n"
      "  kerfdraft draw examples/two-car-garage.json -o plan.svg\n"
      "  kerfdraft draw my-shop.json --state planer --paper a3 -o planer.svg\n"
      "  kerfdraft draw my-shop.json --what fan --units metric -o fan.svg\n"
      "  kerfdraft draw my-shop.json --what pressure --port T2 -o path.svg");
}

}  // namespace kerfdraft::cli
