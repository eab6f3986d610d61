// Everything here is the command line's, asked in another way: `kerfdraft line`, and the margins of
// `kerfdraft solve`.
#include "desk/models/line_answer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "catalogue/materials.h"
#include "doubt/chances.h"
#include "doubt/matters.h"
#include "doubt/propagate.h"
#include "files/limits.h"
#include "files/project_file.h"
#include "files/quantity_text.h"
#include "judge/assessment.h"
#include "judge/margins.h"
#include "pieces/line_project.h"

namespace kerfdraft::desk {
namespace {

using base::Given;
using base::Kind;
using base::Result;

tl::unexpected<Refused> refused(std::string_view question, const base::Error& error) {
  // A place that says no more than the field beside which the sentence stands is left out.
  const bool told = error.where.empty() || error.where == question;
  return tl::unexpected(Refused{std::string(question), told ? error.message : error.text()});
}

/// US where a length was typed in inches or feet, metric otherwise.
base::UnitSystem typedUnits(const std::string& pieces) {
  return pieces.find(" in") != std::string::npos || pieces.find(" ft") != std::string::npos ||
                 pieces.find('"') != std::string::npos
             ? base::UnitSystem::Us
             : base::UnitSystem::Metric;
}

tl::expected<pieces::LineRequest, Refused> readRequest(const LineTyped& typed,
                                                       const catalogue::Catalogue& catalogue) {
  pieces::LineRequest request;
  std::string text = typed.pieces;
  std::replace(text.begin(), text.end(), '\n', ';');
  auto read = pieces::readLine(text, catalogue);
  if (!read) {
    return refused("pieces", read.error());
  }
  request.pieces = std::move(*read);
  request.units = typedUnits(text);
  request.air.temperature =
      *Given<base::Temperature>::parse(request.units == base::UnitSystem::Us ? "70 °F" : "20 °C");
  if (typed.fan.empty() == typed.label.empty()) {
    return tl::unexpected(
        Refused{typed.fan.empty() ? "label" : "fan",
                typed.fan.empty()
                    ? "say either points of the fan's curve or what stands on its label"
                    : "here are points of a curve and a label too: empty the one that is not to count"});
  }
  if (!typed.label.empty()) {
    auto label = pieces::readLabel(typed.label, "label");
    if (!label) {
      return refused("label", label.error());
    }
    request.rating.free_air_flow = std::move(label->flow);
    request.rating.greatest_suction = std::move(label->suction);
  } else {
    auto points = pieces::readCurve(typed.fan, "fan");
    if (!points) {
      return refused("fan", points.error());
    }
    request.rating.points = std::move(*points);
  }
  if (!typed.need.empty()) {
    if (const auto flow = files::parseWithin(Kind::VolumeFlow, typed.need, files::kFlowAboveZero, "need");
        !flow) {
      return refused("need", flow.error());
    }
    request.need = *Given<base::VolumeFlow>::parse(typed.need, base::Standing::Assumed);
  }
  return request;
}

/// One thing asked of the line, and what is there.
struct Against {
  std::string what;      ///< "the air at the machine"
  double ratio = 1;      ///< what is there over what is asked
  std::string short_of;  ///< by how much, with the unit, either way
};

std::string percent(double share) {
  const double shown = 100 * std::abs(share);
  return shown > 0 && shown < 1 ? "less than 1 %" : fmt::format("{:.0f} %", shown);
}

/// "46 cfm (13 %) too little".
std::string gap(const Against& each, std::string_view below, std::string_view above) {
  return fmt::format("{} ({}) {}", each.short_of, percent(each.ratio - 1), each.ratio < 1 ? below : above);
}

class Answer {
 public:
  Answer(const judge::Assessment& assessment, const catalogue::Catalogue& catalogue,
         const pieces::LineRequest& request)
      : assessment_(assessment),
        catalogue_(catalogue),
        request_(request),
        solution_(assessment.states.front().solution) {}

  Result<LineAnswer> make() {
    const pieces::PortPlace& port = assessment_.pieces->ports.front();
    out_.flow = fmt::format("{} through {}", shown(Kind::VolumeFlow, flow()), shown(Kind::Bore, port.bore_m));
    if (const Result<void> fine = speed(); !fine) {
      return base::Failure(fine.error());
    }
    air();
    out_.limit = limit();
    doubts();
    const network::RunResult& run = solution_.runs[port.run];
    out_.lines.push_back(fmt::format("Hood static {}, static where the line ends {}.",
                                     shown(Kind::Pressure, solution_.ports.front().hood_static_pa),
                                     shown(Kind::Pressure, run.static_end_pa)));
    return std::move(out_);
  }

 private:
  std::string shown(Kind kind, double si) const { return base::formatQuantity(kind, si, request_.units); }
  double flow() const { return solution_.ports.front().flow_m3_s; }

  /// The slowest air on the chips' way against what they need.
  Result<void> speed() {
    const auto margins = judge::margins(assessment_, catalogue_);
    if (!margins) {
      return base::Failure(margins.error());
    }
    const judge::RunMargin* worst = nullptr;
    for (const judge::RunMargin& run : margins->front().runs) {
      if (run.minimum_m_s > 0 && (worst == nullptr || run.ratio < worst->ratio)) {
        worst = &run;
      }
    }
    if (worst == nullptr) {
      out_.lines.emplace_back("No chips travel in it: no air goes from the machine to the collector.");
      return {};
    }
    const auto rule = catalogue::transportRule(catalogue_, worst->material);
    if (!rule) {
      return base::Failure(rule.error());
    }
    Against speed{"the slow run", worst->ratio,
                  shown(Kind::Speed, std::abs(worst->minimum_m_s - worst->slowest_m_s))};
    out_.lines.push_back(fmt::format("The chips ({}) need {}; the slowest air on their way is {}{}: {}.",
                                     rule->name, shown(Kind::Speed, worst->minimum_m_s),
                                     shown(Kind::Speed, worst->slowest_m_s), slowPlace(worst->run),
                                     gap(speed, "too slow, so they settle there", "more than they need")));
    asked_.push_back(std::move(speed));
    return {};
  }

  /// " in the 6 in duct".
  std::string slowPlace(std::size_t run) const {
    const std::vector<pieces::Piece>& all = assessment_.pieces->runs[run].pieces;
    std::string place;
    double slowest_m_s = 0;
    for (std::size_t p = 0; p < all.size(); ++p) {
      const double speed_m_s = std::abs(solution_.runs[run].pieces[p].speed_m_s);
      const bool hose = all[p].key.role == pieces::Role::Hose;
      if ((hose || all[p].key.role == pieces::Role::Straight) && (place.empty() || speed_m_s < slowest_m_s)) {
        slowest_m_s = speed_m_s;
        place = fmt::format(" in the {} {}", shown(Kind::Bore, all[p].bore_m), hose ? "hose" : "duct");
      }
    }
    return place;
  }

  void air() {
    if (!request_.need) {
      return;
    }
    const double need_m3_s = request_.need->si();
    Against air{"the air at the machine", flow() / need_m3_s,
                shown(Kind::VolumeFlow, std::abs(need_m3_s - flow()))};
    out_.lines.insert(out_.lines.begin(),
                      fmt::format("The machine asks for {} and gets {}: {}.", request_.need->text(),
                                  shown(Kind::VolumeFlow, flow()), gap(air, "too little", "to spare")));
    asked_.push_back(std::move(air));
  }

  /// The least of what is there over what is asked.
  std::string limit() const {
    if (asked_.empty()) {
      return {};
    }
    const auto least = std::min_element(asked_.begin(), asked_.end(),
                                        [](const Against& a, const Against& b) { return a.ratio < b.ratio; });
    if (least->ratio < 1) {
      const auto also =
          std::count_if(asked_.begin(), asked_.end(), [](const Against& each) { return each.ratio < 1; });
      return fmt::format("What limits it is {}: {} below what is asked{}.", least->what,
                         percent(least->ratio - 1), also > 1 ? ", more than anything else falls short" : "");
    }
    return fmt::format("Nothing falls short; nearest to it is {}, with {} to spare.", least->what,
                       percent(least->ratio - 1));
  }

  void doubts() {
    const std::vector<doubt::StateDoubt> all = doubt::assessDoubt(assessment_, 1);
    const doubt::StateDoubt& doubt = all.front();
    if (!doubt.defined || !(flow() > 0)) {
      return;
    }
    const doubt::Spread& spread = doubt.ports.front();
    out_.lines.push_back(
        fmt::format("Between {} and {} (two standard deviations), if nothing is known better.",
                    shown(Kind::VolumeFlow, spread.at(-doubt::kBandDeviations)),
                    shown(Kind::VolumeFlow, spread.at(doubt::kBandDeviations))));
    if (request_.need) {
      out_.lines.push_back(
          fmt::format("Will it get {}? {}.", request_.need->text(),
                      doubt::toText(doubt::chanceInWords(spread.chanceOfAtLeast(request_.need->si())))));
    }
    std::vector<std::pair<double, const doubt::Input*>> inputs;
    inputs.reserve(doubt.inputs.size());
    for (std::size_t i = 0; i < doubt.inputs.size(); ++i) {
      inputs.emplace_back(std::abs(spread.effects[i] / spread.value), &doubt.inputs[i]);
    }
    std::stable_sort(inputs.begin(), inputs.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    constexpr double kNamed = 0.01;
    constexpr std::size_t kMostNamed = 4;
    for (const auto& [effect, input] : inputs) {
      if (effect >= kNamed && out_.unsure.size() < kMostNamed) {
        out_.unsure.push_back(fmt::format("{}: {:.0f} % of the flow either way. {}.", input->prior->what,
                                          100 * std::expm1(effect), doubt::howTo(input->prior->measure)));
      }
    }
  }

  const judge::Assessment& assessment_;
  const catalogue::Catalogue& catalogue_;
  const pieces::LineRequest& request_;
  const network::Solution& solution_;
  std::vector<Against> asked_;
  LineAnswer out_;
};

}  // namespace

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

tl::expected<LineAnswer, Refused> answerLine(const LineTyped& typed, const catalogue::Catalogue& catalogue) {
  const auto request = readRequest(typed, catalogue);
  if (!request) {
    return tl::unexpected(request.error());
  }
  const auto project = pieces::lineProject(*request);
  if (!project) {
    return refused("pieces", project.error());
  }
  // What a project file may hold is what a line may hold.
  const auto checked = files::firstProblemOnly(files::readProject(files::writeProject(*project), "line"));
  if (!checked) {
    return refused("pieces", checked.error());
  }
  const auto assessment = judge::assess(*checked, catalogue);
  if (!assessment) {
    return refused("pieces", assessment.error());
  }
  if (!assessment->states.front().solution.solved()) {
    return tl::unexpected(Refused{"pieces", assessment->states.front().solution.why});
  }
  auto answer = Answer(*assessment, catalogue, *request).make();
  if (!answer) {
    return refused("pieces", answer.error());
  }
  answer->project = *checked;
  return std::move(*answer);
}

}  // namespace kerfdraft::desk
