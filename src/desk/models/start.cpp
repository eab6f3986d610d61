// Everything here is the command line's, asked in another way: `kerfdraft new` and `kerfdraft line`.
#include "desk/models/start.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/models/duct_draft.h"
#include "desk/models/embedded_texts.h"
#include "doubt/chances.h"
#include "doubt/matters.h"
#include "doubt/propagate.h"
#include "files/fields_setting.h"
#include "files/project_file.h"
#include "files/quantity_text.h"
#include "files/text_rule.h"
#include "judge/assessment.h"
#include "pieces/line_project.h"
#include "pieces/starter.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Kind;
using base::Result;

constexpr double kLongest_m = 200;

Result<double> side(const std::string& text, const std::string& usual, std::string_view question) {
  const Result<double> length = parseLength(text.empty() ? usual : text);
  if (!length) {
    return fail(length.error().code, length.error().message, std::string(question));
  }
  if (!(*length > 0) || *length > kLongest_m) {
    return fail(ErrorCode::Range, fmt::format("{} is not between 0 and {} m", text, kLongest_m),
                std::string(question));
  }
  return *length;
}

/// What a project file may hold is what a made one may hold.
Result<shop::Project> sound(const shop::Project& project) {
  return files::firstProblemOnly(files::readProject(files::writeProject(project), "shop"));
}

}  // namespace

std::vector<ExampleRow> examples() {
  std::vector<ExampleRow> out;
  for (const EmbeddedFile& file : embeddedFiles().subspan(1)) {
    if (const auto project = files::readProject(file.text, file.name)) {
      out.push_back({std::string(file.name), project->setting.name, project->setting.note});
    }
  }
  return out;
}

Result<shop::Project> openExample(std::string_view name) {
  for (const EmbeddedFile& file : embeddedFiles().subspan(1)) {
    if (file.name == name) {
      return files::firstProblemOnly(files::readProject(file.text, file.name));
    }
  }
  return fail(ErrorCode::Reference, fmt::format("there is no example {}", name));
}

StartAnswers usualAnswers(base::UnitSystem units) {
  StartAnswers out;
  const bool us = units == base::UnitSystem::Us;
  out.units = units;
  out.name = "My shop";
  out.width = us ? "24 ft" : "8 m";
  out.depth = us ? "20 ft" : "6 m";
  out.height = us ? "9 ft" : "2.8 m";
  out.altitude = us ? "0 ft" : "0 m";
  out.temperature = us ? "70 °F" : "20 °C";
  out.fan = "t2";
  out.label_flow = us ? "1200 cfm" : "2000 m3/h";
  out.label_suction = us ? "10 in w.g." : "2500 Pa";
  out.inlet = us ? "6 in" : "150 mm";
  return out;
}

Result<shop::Project> shopFromAnswers(const StartAnswers& answers, const catalogue::Catalogue& catalogue,
                                      base::IdSource& ids) {
  const StartAnswers usual = usualAnswers(answers.units);
  pieces::StarterRequest request;
  request.name = answers.name.empty() ? usual.name : answers.name;
  request.units = answers.units;
  request.who = answers.who;
  request.country = answers.country;
  if (!answers.country.empty()) {
    if (const std::string wrong = files::textProblem(answers.country, files::TextRule::Country);
        !wrong.empty()) {
      return fail(ErrorCode::Parse, wrong, "country");
    }
  }
  for (const auto& [target, text, of_usual, question] :
       {std::tuple<double*, const std::string*, const std::string*, std::string_view>{
            &request.width_m, &answers.width, &usual.width, "width"},
        {&request.depth_m, &answers.depth, &usual.depth, "depth"},
        {&request.height_m, &answers.height, &usual.height, "height"}}) {
    const Result<double> length = side(*text, *of_usual, question);
    if (!length) {
      return Failure(length.error());
    }
    *target = *length;
  }
  for (const auto& [kind, count] : answers.machines) {
    for (int k = 0; k < count; ++k) {
      request.machines.push_back(kind);
    }
  }
  if (request.machines.empty()) {
    return fail(ErrorCode::Parse, "say which machines stand there, one at least", "machines");
  }
  request.fan = answers.fan.empty() ? usual.fan : answers.fan;
  if (!answers.inlet.empty()) {
    const auto bore = files::parseWithin(Kind::Length, answers.inlet, files::kBore, "inlet");
    if (!bore) {
      return Failure(bore.error());
    }
    request.main = *Given<base::Length>::parse(answers.inlet);
  }
  Result<shop::Project> project = pieces::starterProject(request, catalogue, ids);
  if (!project) {
    return project;
  }
  project->setting.note =
      "Begun from a few answers: machines, places and ducts are assumed. Put in what you know.";
  if (!answers.altitude.empty()) {
    const auto read = files::parseWithin(Kind::Length, answers.altitude, {"-430 m", "6000 m"}, "altitude");
    if (!read) {
      return Failure(read.error());
    }
    project->air.altitude = *Given<base::Length>::parse(answers.altitude);
  }
  if (!answers.temperature.empty()) {
    const auto read =
        files::parseWithin(Kind::Temperature, answers.temperature, {"-40 °C", "60 °C"}, "temperature");
    if (!read) {
      return Failure(read.error());
    }
    project->air.temperature = *Given<base::Temperature>::parse(answers.temperature);
  }
  if (answers.fan.empty()) {
    const auto flow =
        files::parseWithin(Kind::VolumeFlow, answers.label_flow, files::kFlowAboveZero, "flow on the label");
    const auto suction = files::parseWithin(Kind::Pressure, answers.label_suction, files::kPressureAboveZero,
                                            "suction on the label");
    if (!flow || !suction) {
      return Failure(flow ? suction.error() : flow.error());
    }
    shop::Collector& unit = project->collectors.front();
    unit.name = "Collector";
    unit.rating = {};
    unit.rating.free_air_flow =
        *Given<base::VolumeFlow>::parse(answers.label_flow, base::Standing::Maker, "label");
    unit.rating.greatest_suction =
        *Given<base::Pressure>::parse(answers.label_suction, base::Standing::Maker, "label");
  }
  return sound(*project);
}

// ------------------------------------------------------------------------------------- without drawing

std::vector<std::string> pieceExamples(base::UnitSystem units) {
  return units == base::UnitSystem::Us ? std::vector<std::string>{"hood 0.5",
                                                                  "machine planer",
                                                                  "hose 4 in 10 ft ribbed slack",
                                                                  "duct 6 in 12 ft spiral",
                                                                  "elbow 4 in",
                                                                  "2 elbows 6 in radius 1.5",
                                                                  "taper 30 deg",
                                                                  "gate 4 in",
                                                                  "separator cyclone",
                                                                  "filter"}
                                       : std::vector<std::string>{"hood 0.5",
                                                                  "machine planer",
                                                                  "hose 100 mm 3 m ribbed slack",
                                                                  "duct 150 mm 4 m spiral",
                                                                  "elbow 100 mm",
                                                                  "2 elbows 150 mm radius 1.5",
                                                                  "taper 30 deg",
                                                                  "gate 100 mm",
                                                                  "separator cyclone",
                                                                  "filter"};
}

Result<LineAnswer> answerLine(const LineTyped& typed, const catalogue::Catalogue& catalogue) {
  pieces::LineRequest request;
  std::string text = typed.pieces;
  std::replace(text.begin(), text.end(), '\n', ';');
  auto read = pieces::readLine(text, catalogue);
  if (!read) {
    return Failure(read.error());
  }
  request.pieces = std::move(*read);
  const bool us = text.find(" in") != std::string::npos || text.find(" ft") != std::string::npos ||
                  text.find('"') != std::string::npos;
  request.units = us ? base::UnitSystem::Us : base::UnitSystem::Metric;
  request.air.temperature = *Given<base::Temperature>::parse(us ? "70 °F" : "20 °C");
  if (typed.fan.empty() == typed.label.empty()) {
    return fail(ErrorCode::Conflict, "say either points of the fan's curve or what stands on its label",
                "fan");
  }
  if (!typed.label.empty()) {
    auto label = pieces::readLabel(typed.label, "label");
    if (!label) {
      return Failure(label.error());
    }
    request.rating.free_air_flow = std::move(label->flow);
    request.rating.greatest_suction = std::move(label->suction);
  } else {
    auto points = pieces::readCurve(typed.fan, "fan");
    if (!points) {
      return Failure(points.error());
    }
    request.rating.points = std::move(*points);
  }
  if (!typed.need.empty()) {
    auto need = Given<base::VolumeFlow>::parse(typed.need, base::Standing::Assumed, {}, "need");
    if (!need) {
      return Failure(need.error());
    }
    request.need = std::move(*need);
  }
  const auto project = pieces::lineProject(request);
  if (!project) {
    return Failure(project.error());
  }
  const auto checked = sound(*project);
  if (!checked) {
    return Failure(checked.error());
  }
  const auto assessment = judge::assess(*checked, catalogue);
  if (!assessment) {
    return Failure(assessment.error());
  }
  const network::Solution& solution = assessment->states.front().solution;
  if (!solution.solved()) {
    return fail(ErrorCode::Conflict, solution.why);
  }
  const auto shown = [&](Kind kind, double si) { return base::formatQuantity(kind, si, request.units); };
  LineAnswer out;
  out.project = *checked;
  const pieces::PortPlace& port = assessment->pieces->ports.front();
  out.flow = fmt::format("{} through {}", shown(Kind::VolumeFlow, solution.ports.front().flow_m3_s),
                         shown(Kind::Bore, port.bore_m));
  const network::RunResult& run = solution.runs[port.run];
  const std::vector<doubt::StateDoubt> doubts = doubt::assessDoubt(*assessment, 1);
  const doubt::StateDoubt& doubt = doubts.front();
  if (doubt.defined && solution.ports.front().flow_m3_s > 0) {
    const doubt::Spread& flow = doubt.ports.front();
    out.lines.push_back(
        fmt::format("Between {} and {} (two standard deviations), if nothing is known better.",
                    shown(Kind::VolumeFlow, flow.at(-doubt::kBandDeviations)),
                    shown(Kind::VolumeFlow, flow.at(doubt::kBandDeviations))));
    if (request.need) {
      out.lines.push_back(
          fmt::format("Will it get {}? {}.", request.need->text(),
                      doubt::toText(doubt::chanceInWords(flow.chanceOfAtLeast(request.need->si())))));
    }
    std::vector<std::pair<double, const doubt::Input*>> inputs;
    inputs.reserve(doubt.inputs.size());
    for (std::size_t i = 0; i < doubt.inputs.size(); ++i) {
      inputs.emplace_back(std::abs(flow.effects[i] / flow.value), &doubt.inputs[i]);
    }
    std::stable_sort(inputs.begin(), inputs.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    constexpr double kNamed = 0.01;
    constexpr std::size_t kMostNamed = 4;
    for (const auto& [effect, input] : inputs) {
      if (effect >= kNamed && out.unsure.size() < kMostNamed) {
        out.unsure.push_back(fmt::format("{}: {:.0f} % of the flow either way. {}.", input->prior->what,
                                         100 * std::expm1(effect), doubt::howTo(input->prior->measure)));
      }
    }
  }
  out.lines.push_back(fmt::format(
      "Slowest air in the ducts {}, hood static {}, static where the line ends {}",
      shown(Kind::Speed, run.slowest_m_s), shown(Kind::Pressure, solution.ports.front().hood_static_pa),
      shown(Kind::Pressure, run.static_end_pa)));
  return out;
}

}  // namespace kerfdraft::desk
