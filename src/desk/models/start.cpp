// What `kerfdraft new` makes, asked in another way. All answers are read before any is refused, so that a
// person mends them in one go.
#include "desk/models/start.h"

#include <fmt/format.h>

#include <utility>

#include "desk/models/duct_draft.h"
#include "desk/models/embedded_texts.h"
#include "files/fields_setting.h"
#include "files/project_file.h"
#include "files/quantity_text.h"
#include "files/text_rule.h"
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

/// Reads the answers one after the other and keeps every refusal.
class Asked {
 public:
  void refuse(std::string_view question, std::string sentence) {
    refusals.push_back({std::string(question), std::move(sentence)});
  }

  double side(std::string_view question, const std::string& text, const std::string& usual) {
    const Result<double> length = parseLength(text.empty() ? usual : text);
    if (!length) {
      refuse(question, length.error().message);
      return 0;
    }
    if (!(*length > 0) || *length > kLongest_m) {
      refuse(question, fmt::format("{} is not between 0 and {} m", text, kLongest_m));
    }
    return *length;
  }

  /// Leaves `target` as it is where nothing was answered.
  template <class Q>
  void into(std::optional<Given<Q>>& target, std::string_view question, Kind kind, const std::string& text,
            const files::Range& range) {
    if (!text.empty()) {
      must(target, question, kind, text, range);
    }
  }
  template <class Q>
  void into(Given<Q>& target, std::string_view question, Kind kind, const std::string& text,
            const files::Range& range) {
    std::optional<Given<Q>> read;
    into(read, question, kind, text, range);
    if (read) {
      target = std::move(*read);
    }
  }
  template <class Q>
  void must(std::optional<Given<Q>>& target, std::string_view question, Kind kind, const std::string& text,
            const files::Range& range) {
    if (const auto read = files::parseWithin(kind, text, range, question); !read) {
      refuse(question, read.error().message);
      return;
    }
    const bool label = question.substr(0, 5) == "label";
    target = label ? *Given<Q>::parse(text, base::Standing::Maker, "label") : *Given<Q>::parse(text);
  }

  Refusals refusals;
};

/// The question beside which a refusal of the starter belongs.
std::string blamed(const base::Error& error, const pieces::StarterRequest& request) {
  if (error.where == "--machine") {
    return "machines";
  }
  if (error.where == "--collector") {
    return "fan";
  }
  const pieces::StarterRoom least = pieces::leastStarterRoom(request.units);
  return request.width_m < least.width_m     ? "width"
         : request.depth_m < least.depth_m   ? "depth"
         : request.height_m < least.height_m ? "height"
                                             : "machines";
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

tl::expected<shop::Project, Refusals> shopFromAnswers(const StartAnswers& answers,
                                                      const catalogue::Catalogue& catalogue,
                                                      base::IdSource& ids) {
  const StartAnswers usual = usualAnswers(answers.units);
  Asked asked;
  pieces::StarterRequest request;
  request.name = answers.name.empty() ? usual.name : answers.name;
  request.units = answers.units;
  request.who = answers.who;
  request.country = answers.country;
  if (!answers.country.empty()) {
    if (const std::string wrong = files::textProblem(answers.country, files::TextRule::Country);
        !wrong.empty()) {
      asked.refuse("country", wrong);
    }
  }
  request.width_m = asked.side("width", answers.width, usual.width);
  request.depth_m = asked.side("depth", answers.depth, usual.depth);
  request.height_m = asked.side("height", answers.height, usual.height);
  shop::Air air;
  asked.into(air.altitude, "altitude", Kind::Length, answers.altitude, {"-430 m", "6000 m"});
  asked.into(air.temperature, "temperature", Kind::Temperature, answers.temperature, {"-40 °C", "60 °C"});
  for (const auto& [kind, count] : answers.machines) {
    for (int k = 0; k < count; ++k) {
      request.machines.push_back(kind);
    }
  }
  if (request.machines.empty()) {
    asked.refuse("machines", "say which machines stand there, one at least");
  }
  const bool by_label = answers.fan.empty();
  request.fan = by_label ? usual.fan : answers.fan;
  std::optional<Given<base::VolumeFlow>> flow;
  std::optional<Given<base::Pressure>> suction;
  if (by_label) {
    asked.must(flow, "label-flow", Kind::VolumeFlow, answers.label_flow, files::kFlowAboveZero);
    asked.must(suction, "label-suction", Kind::Pressure, answers.label_suction, files::kPressureAboveZero);
  }
  asked.into(request.main, "inlet", Kind::Length, answers.inlet, files::kBore);
  if (!asked.refusals.empty()) {
    return tl::unexpected(std::move(asked.refusals));
  }
  Result<shop::Project> project = pieces::starterProject(request, catalogue, ids);
  if (!project) {
    return tl::unexpected(Refusals{{blamed(project.error(), request), project.error().message}});
  }
  project->setting.note =
      "Begun from a few answers: machines, places and ducts are assumed. Put in what you know.";
  if (air.altitude) {
    project->air.altitude = air.altitude;
  }
  if (!answers.temperature.empty()) {
    project->air.temperature = air.temperature;
  }
  if (by_label) {
    shop::Collector& unit = project->collectors.front();
    unit.name = "Collector";
    unit.rating = {};
    unit.rating.free_air_flow = std::move(flow);
    unit.rating.greatest_suction = std::move(suction);
  }
  Result<shop::Project> checked =
      files::firstProblemOnly(files::readProject(files::writeProject(*project), "shop"));
  if (!checked) {
    return tl::unexpected(Refusals{{{}, checked.error().text()}});
  }
  return std::move(*checked);
}

}  // namespace kerfdraft::desk
