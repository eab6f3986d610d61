// Options to a request, the request to an answer with its band, and the answer to text.
#include "cli/line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"
#include "catalogue/machines.h"
#include "cli/exit_codes.h"
#include "cli/sheet_rows.h"
#include "cli/shop_open.h"
#include "cli/shown.h"
#include "cli/solve_writers.h"
#include "cli/text_table.h"
#include "doubt/matters.h"
#include "doubt/propagate.h"
#include "files/save.h"
#include "judge/sheet.h"
#include "pieces/line_project.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Kind;
using base::Result;
using pieces::kConnector_m;
using pieces::LinePiece;
using pieces::lineProject;
using pieces::LineRequest;
using pieces::readCurve;
using pieces::readLabel;
using pieces::readLine;

constexpr std::size_t kWidth = 100;
/// Effects on the flow below this are named, not counted out.
constexpr double kShownSpread = 0.01;
/// Effects below this are not named at all.
constexpr double kNegligible = 5e-4;
/// Points by which an invented test fan is drawn.
constexpr int kTestFanPoints = 8;

template <class Enum>
struct Choice {
  std::string_view word;
  Enum value;
};

template <class Enum, std::size_t N>
Result<Enum> chosen(const std::string& text, const Choice<Enum> (&choices)[N], std::string_view option) {
  std::string known;
  for (const Choice<Enum>& choice : choices) {
    if (choice.word == text) {
      return choice.value;
    }
    known += (known.empty() ? "" : ", ") + std::string(choice.word);
  }
  return fail(ErrorCode::Parse, fmt::format("\"{}\" is none of: {}", text, known), std::string(option));
}

constexpr Choice<shop::RatingBasis> kBases[] = {{"", shop::RatingBasis::StaticAtInlet},
                                                {"static-at-inlet", shop::RatingBasis::StaticAtInlet},
                                                {"total-at-inlet", shop::RatingBasis::TotalAtInlet},
                                                {"fan-static", shop::RatingBasis::FanStatic},
                                                {"fan-total", shop::RatingBasis::FanTotal}};
constexpr Choice<shop::Fitted> kFitted[] = {{"", shop::Fitted::Unknown},
                                            {"unknown", shop::Fitted::Unknown},
                                            {"nothing", shop::Fitted::Nothing},
                                            {"bag", shop::Fitted::Bag},
                                            {"filter", shop::Fitted::Filter},
                                            {"cyclone", shop::Fitted::Cyclone},
                                            {"cyclone-and-filter", shop::Fitted::CycloneAndFilter}};
constexpr Choice<shop::FilterState> kFilters[] = {{"", shop::FilterState::Seasoned},
                                                  {"clean", shop::FilterState::Clean},
                                                  {"seasoned", shop::FilterState::Seasoned},
                                                  {"due", shop::FilterState::Due}};

/// Reads options one after the other and keeps the first problem.
class OptionReader {
 public:
  /// Leaves `target` as it is where the option was not given.
  template <class Q>
  void into(std::optional<Given<Q>>& target, const std::string& text, std::string_view option) {
    if (text.empty() || problem_) {
      return;
    }
    Result<Given<Q>> given = Given<Q>::parse(text, base::Standing::Assumed, {}, option);
    if (given) {
      target = std::move(*given);
    } else {
      problem_ = given.error();
    }
  }

  template <class Enum, std::size_t N>
  void into(Enum& target, const std::string& text, const Choice<Enum> (&choices)[N],
            std::string_view option) {
    const Result<Enum> found = chosen(text, choices, option);
    if (found) {
      target = *found;
    } else if (!problem_) {
      problem_ = found.error();
    }
  }

  Result<void> done() const { return problem_ ? Result<void>(Failure(*problem_)) : Result<void>(); }

 private:
  std::optional<base::Error> problem_;
};

/// Points of an invented fan of the catalogue, SP = SP0 (1 − (Q/Q0)²).
std::vector<shop::CurvePoint> testFanPoints(const catalogue::TestFan& fan) {
  std::vector<shop::CurvePoint> points;
  for (int i = 0; i <= kTestFanPoints; ++i) {
    const double share = static_cast<double>(i) / kTestFanPoints;
    shop::CurvePoint point;
    point.flow = *Given<base::VolumeFlow>::parse(fmt::format("{} m3/s", share * fan.free_flow_m3_s));
    point.pressure =
        *Given<base::Pressure>::parse(fmt::format("{} Pa", (1 - share * share) * fan.shutoff_pa));
    points.push_back(std::move(point));
  }
  return points;
}

Result<void> readFan(const LineOptions& options, const catalogue::Catalogue& catalogue,
                     LineRequest& request) {
  if (options.fan.empty() == options.label.empty()) {
    return fail(ErrorCode::Conflict,
                "say either the points of the fan's curve (--fan) or what stands on its label (--label)",
                "--fan");
  }
  OptionReader read;
  read.into(request.rating.basis, options.basis, kBases, "--basis");
  read.into(request.rating.fitted, options.fitted, kFitted, "--fitted");
  read.into(request.rating.test_bore, options.test_bore, "--test-bore");
  if (Result<void> fine = read.done(); !fine) {
    return fine;
  }
  if (!options.label.empty()) {
    Result<shop::RatedPoint> label = readLabel(options.label, "--label");
    if (!label) {
      return Failure(label.error());
    }
    request.rating.free_air_flow = std::move(label->flow);
    request.rating.greatest_suction = std::move(label->suction);
    return {};
  }
  if (options.fan.find(' ') == std::string::npos) {
    const Result<catalogue::TestFan> fan = catalogue::testFan(catalogue, options.fan);
    if (!fan) {
      return Failure(fan.error());
    }
    request.rating.points = testFanPoints(*fan);
    return {};
  }
  Result<std::vector<shop::CurvePoint>> points = readCurve(options.fan, "--fan");
  if (!points) {
    return Failure(points.error());
  }
  request.rating.points = std::move(*points);
  return {};
}

Result<void> readRest(const LineOptions& options, LineRequest& request) {
  OptionReader read;
  read.into(request.fan_inlet, options.inlet, "--inlet");
  read.into(request.motor.power, options.motor, "--motor");
  read.into(request.motor.wheel, options.wheel, "--wheel");
  read.into(request.motor.speed, options.speed, "--speed");
  read.into(request.need, options.need, "--need");
  read.into(request.air.altitude, options.altitude, "--altitude");
  std::optional<Given<base::Temperature>> temperature;
  read.into(temperature, options.temperature.empty() ? "70 °F" : options.temperature, "--temperature");
  read.into(request.filter, options.filter, kFilters, "--filter");
  if (temperature) {
    request.air.temperature = std::move(*temperature);
  }
  return read.done();
}

/// US where a length was typed in inches or feet, metric otherwise.
base::UnitSystem typedUnits(const std::string& pieces) {
  return pieces.find(" in") != std::string::npos || pieces.find(" ft") != std::string::npos ||
                 pieces.find('"') != std::string::npos
             ? base::UnitSystem::Us
             : base::UnitSystem::Metric;
}

Result<LineRequest> readRequest(const LineOptions& options, const catalogue::Catalogue& catalogue) {
  LineRequest request;
  Result<std::vector<LinePiece>> pieces = readLine(options.pieces, catalogue);
  if (!pieces) {
    return Failure(pieces.error());
  }
  request.pieces = std::move(*pieces);
  request.units = options.common.units.value_or(typedUnits(options.pieces));
  if (const Result<void> fine = readFan(options, catalogue, request); !fine) {
    return Failure(fine.error());
  }
  if (const Result<void> fine = readRest(options, request); !fine) {
    return Failure(fine.error());
  }
  return request;
}

std::string percent(double effect) {
  return fmt::format("{:.0f} %", 100 * std::expm1(effect));
}

/// What makes a flow unsure, the most first; effects are on ln(flow).
std::string doubtTable(const doubt::StateDoubt& doubt, const doubt::Spread& flow) {
  std::vector<std::pair<double, const doubt::Input*>> inputs;
  for (std::size_t i = 0; i < doubt.inputs.size(); ++i) {
    inputs.emplace_back(std::abs(flow.effects[i] / flow.value), &doubt.inputs[i]);
  }
  std::stable_sort(inputs.begin(), inputs.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  TextTable table({{"what makes it unsure"}, {"flow", Align::Right}, {"known as"}, {"what would tell"}});
  std::string small;
  for (const auto& [effect, input] : inputs) {
    if (effect >= kShownSpread) {
      table.row({std::string(input->prior->what), "± " + percent(effect), std::string(input->prior->known_as),
                 std::string(doubt::howTo(input->prior->measure))});
    } else if (effect >= kNegligible) {
      small += (small.empty() ? "" : ", ") + std::string(input->prior->what);
    }
  }
  return table.text() + (small.empty() ? small : "  Below 1 %: " + wrapped(small, kWidth, 2) + ".\n");
}

std::string bandText(const doubt::StateDoubt& doubt, const LineRequest& request, const Shown& shown) {
  const doubt::Spread& flow = doubt.ports.front();
  std::string out = fmt::format(
      "  {} to {} at one standard deviation, {} to {} at two, if everything below is known no better.\n",
      shown.number(Kind::VolumeFlow, flow.at(-1)), shown.flow(flow.at(1)),
      shown.number(Kind::VolumeFlow, flow.at(-2)), shown.flow(flow.at(2)));
  if (request.need) {
    out += fmt::format("  Will it get {}? {}.\n", request.need->text(),
                       doubt::toText(doubt::chanceInWords(flow.chanceOfAtLeast(request.need->si()))));
  }
  return out + '\n' + doubtTable(doubt, flow);
}

std::string duct(const judge::Assessment& assessment, const Shown& shown) {
  const network::Solution& solution = assessment.states.front().solution;
  const network::FanResult& fan = solution.fans.front();
  const pieces::Run& run = assessment.pieces->runs[assessment.pieces->ports.front().run];
  const network::RunResult& result = solution.runs[assessment.pieces->ports.front().run];
  double fastest = 0;
  for (std::size_t p = 0; p < run.pieces.size(); ++p) {
    const pieces::Role role = run.pieces[p].key.role;
    if (role == pieces::Role::Straight || role == pieces::Role::Hose) {
      fastest = std::max(fastest, std::abs(result.pieces[p].speed_m_s));
    }
  }
  return stopped(fmt::format("  Speed in the ducts {} to {}; hood static {}; static where the line ends {}; "
                             "the fan raises {}",
                             shown.number(Kind::Speed, result.slowest_m_s), shown.speed(fastest),
                             shown.pressure(solution.ports.front().hood_static_pa),
                             shown.pressure(result.static_end_pa), shown.pressure(fan.rise_pa))) +
         '\n';
}

Result<std::string> answer(const LineOptions& options, const LineRequest& request,
                           const judge::Assessment& assessment) {
  const Shown shown(request.units);
  const double flow_m3_s = assessment.states.front().solution.ports.front().flow_m3_s;
  std::string out = fmt::format("{}, filter {}, predicted, nothing measured\n\n{} through {}\n",
                                options.common.date, toText(request.filter), shown.flow(flow_m3_s),
                                shown.bore(assessment.pieces->ports.front().bore_m));
  if (flow_m3_s > 0) {
    const doubt::StateDoubt doubt = doubt::assessDoubt(assessment, 1).front();
    out += doubt.defined ? bandText(doubt, request, shown) + '\n'
                         : "  No band: at this point the flow jumps from one value to another.\n\n";
  }
  out += duct(assessment, shown);
  const std::string remark =
      fanRemark(assessment.pieces->fans.front(), assessment.states.front().solution.fans.front());
  if (!remark.empty()) {
    out += "  The fan: " + remark + ".\n";
  }
  for (const pieces::Note& note : assessment.pieces->notes) {
    // How far apart elbows are was not typed; the builder sees only the connectors.
    if (note.text.find("behind the elbow before it") == std::string::npos) {
      out += "  " + wrapped(note.text, kWidth, 2) + '\n';
    }
  }
  if (options.sheet) {
    const Result<judge::Sheet> sheet = judge::modelSheet(assessment, 0, 0);
    if (!sheet) {
      return Failure(sheet.error());
    }
    std::vector<hand::SheetRow> rows = sheet->rows;
    std::erase_if(rows, [](const hand::SheetRow& row) {
      return row.key.role == pieces::Role::Straight && row.length_m < 1.5 * kConnector_m;
    });
    out += '\n' + sheetTable(rows, shown);
  }
  return out;
}

}  // namespace

int runLine(const LineOptions& options, std::ostream& out, std::ostream& err) {
  const Result<catalogue::Catalogue> catalogue = catalogue::Catalogue::shipped();
  if (!catalogue) {
    return refuse(catalogue.error(), err);
  }
  const Result<LineRequest> request = readRequest(options, *catalogue);
  if (!request) {
    return refuse(request.error(), err);
  }
  const Result<shop::Project> project = lineProject(*request);
  if (!project) {
    return refuse(project.error(), err);
  }
  // What a project file may hold is what a line may hold.
  if (const Result<shop::Project> sound =
          files::firstProblemOnly(files::readProject(files::writeProject(*project), "line"));
      !sound) {
    return refuse(sound.error(), err);
  }
  const Result<judge::Assessment> assessment = judge::assess(*project, *catalogue);
  if (!assessment) {
    return refuse(assessment.error(), err);
  }
  const network::Solution& solution = assessment->states.front().solution;
  if (!solution.solved()) {
    err << fmt::format("kerfdraft: this line has no solution. {}: {}\n", solution.place, solution.why);
    return kNoSolution;
  }
  const Result<std::string> text = answer(options, *request, *assessment);
  if (!text) {
    return refuse(text.error(), err);
  }
  if (!options.save.empty()) {
    if (const Result<void> saved = files::saveProject(*project, options.save); !saved) {
      return refuse(saved.error(), err);
    }
  }
  const bool served = !request->need || solution.ports.front().flow_m3_s >= request->need->si();
  return deliver(*text, options.common, served ? kAllServed : kNotServed, out, err);
}

void declareOptions(OptionList& list, LineOptions& o) {
  list.required("pieces", "TEXT", &o.pieces, "The pieces from the machine to the fan, parted by semicolons");
  list.option("--fan", "POINTS", &o.fan,
              "Points of the fan's curve, parted by commas, or an invented fan of the catalogue");
  list.option("--label", "TEXT", &o.label, "Only the label is known: free-air flow and greatest suction");
  list.option("--basis", "WORD", &o.basis,
              "What was measured: static-at-inlet (taken where not given), total-at-inlet, "
              "fan-static, fan-total");
  list.option("--test-bore", "BORE", &o.test_bore, "Inlet pipe in which it was measured");
  list.option("--fitted", "WORD", &o.fitted,
              "What stood on it then: unknown, nothing, bag, filter, cyclone, "
              "cyclone-and-filter");
  list.option("--inlet", "BORE", &o.inlet, "Bore of the collector's inlet; the last bore where not given");
  list.option("--motor", "POWER", &o.motor, "Power on its plate, to check a label");
  list.option("--wheel", "LENGTH", &o.wheel, "Diameter of its wheel, to check a label");
  list.option("--speed", "RPM", &o.speed, "Speed of its motor");
  list.option("--filter", "WORD", &o.filter, "clean, seasoned (taken where not given), due");
  list.option("--temperature", "T", &o.temperature, "Of the shop; 70 °F where not given");
  list.option("--altitude", "LENGTH", &o.altitude, "Above the sea; none where not given");
  list.option("--need", "FLOW", &o.need, "Air that the machine should get");
  list.flag("--sheet", o.sheet, "The calculation sheet too");
  list.option("--save", "FILE", &o.save, "Write the line as a project file, to go on with");
  list.common(o.common);
  list.footer(
      "Pieces, in the order of the air:\n"
      "  hood 0.5                      entry coefficient; or \"hood bellmouth\" (kerfdraft catalogue "
      "hoods);\n"
      "                                or the maker's \"hood 400 cfm at 3 in w.g.\"; or \"machine planer\"\n"
      "  port 2.5 in                   bore of the machine's port, where it is not that of the first piece\n"
      "  hose 4 in 10 ft ribbed slack  smooth or ribbed; tight, hung or slack; \"3 bends\" where it turns\n"
      "  duct 6 in 12 ft spiral        bore, length, construction (kerfdraft catalogue constructions)\n"
      "  elbow 4 in 45°                or \"2 elbows 4 in\"; form (kerfdraft catalogue elbows), \"radius "
      "1.5\"\n"
      "  taper 30°                     the next change of bore is a cone; without it a stepped adaptor\n"
      "  loss 0.3                      any other fitting by its coefficient\n"
      "  gate 4 in 50 %                a blast gate and how far it is open\n"
      "  separator lid                 or cyclone, drop-box; \"heads 4\", \"2 in w.g. at 600 cfm\"\n"
      "  filter 35 ft2                 or \"filter 1 in w.g. at 350 cfm\" when seasoned; or nothing known\n\n"
      "Exit code: 0, 1 where the needed air is not reached, 2 bad input, 3 no solution.\n\n"
      "Examples:\n"
      "  kerfdraft line \"hood 0.5; hose 4 in 10 ft ribbed slack; elbow 4 in; duct 6 in 12 ft spiral; "
      "filter\" \\\n"
      "    --fan \"0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.\" --need \"350 cfm\"\n"
      "  kerfdraft line \"machine planer; port 4 in; hose 4 in 6 ft\" --label \"1100 cfm 8 in w.g.\"\n"
      "  kerfdraft line \"hood 0.65; duct 120 mm 6 m; filter 4 m2\" --fan t2 --filter due --sheet");
}

}  // namespace kerfdraft::cli
