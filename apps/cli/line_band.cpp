// Linear propagation by differences, in logarithms: most of the spreads are factors.
#include "cli/line_band.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <variant>

#include "judge/assessment.h"

namespace kerfdraft::cli {
namespace {

using base::Result;
using pieces::Group;

/// Effects on ln(flow) below this are not worth a line.
constexpr double kNegligible = 5e-4;

// Spreads of model section 9: factors at one standard deviation.
constexpr double kFriction = 1.08;
constexpr double kHose = 1.6;
constexpr double kFitting = 1.20;
constexpr double kUnknownHood = 1.7;
constexpr double kMakersPair = 1.15;
constexpr double kKnownHood = 1.20;  // a form or an entered coefficient: as a fitting (ours)
constexpr double kBore = 1.03;
constexpr double kCurve = 1.12;
constexpr double kLabel = 1.30;
constexpr double kFilter = 1.6;
constexpr double kSeparator = 1.5;  // cyclone 3 ± 1.5 velocity heads; others taken alike (ours)
constexpr double kLeakage = 2.0;
constexpr double kThrottledGate = 2.0;
constexpr double kThrottledBelow = 0.30;

/// Flow of the line's one port, with the factors of one group.
class Solver {
 public:
  Solver(const LineRequest& request, const catalogue::Catalogue& catalogue)
      : request_(request), catalogue_(catalogue) {}

  Result<double> flow(const LineTweak& tweak, std::optional<Group> group = {}, double factor = 1) const {
    const Result<shop::Project> project = lineProject(request_, tweak);
    if (!project) {
      return base::Failure(project.error());
    }
    const Result<judge::Assessment> assessment = judge::assess(*project, catalogue_);
    if (!assessment) {
      return base::Failure(assessment.error());
    }
    network::Situation situation = assessment->states.front().situation;
    if (group) {
      situation.group_factor[static_cast<std::size_t>(*group)] = factor;
    }
    const network::Solution solution = network::solveFully(*assessment->network, situation);
    return solution.solved() ? solution.ports.front().flow_m3_s : 0.0;
  }

 private:
  const LineRequest& request_;
  const catalogue::Catalogue& catalogue_;
};

template <class T>
bool has(
    const LineRequest& request, const std::function<bool(const T&)>& with = [](const T&) { return true; }) {
  return std::any_of(request.pieces.begin(), request.pieces.end(), [&](const LinePiece& piece) {
    const T* const found = std::get_if<T>(&piece.what);
    return found != nullptr && with(*found);
  });
}

struct Trial {
  std::string what;
  std::string known_as;
  std::string how;
  double factor = 1;
  std::optional<Group> group;
  double LineTweak::*tweak = nullptr;
};

Trial hoodTrial(const LineRequest& request) {
  if (has<HoodWord>(request, [](const HoodWord& hood) { return hood.maker.has_value(); })) {
    return {"entry into the machine",
            "maker's pair, 15 %",
            "measure the hood static",
            kMakersPair,
            Group::Hood,
            nullptr};
  }
  if (has<HoodWord>(request, [](const HoodWord& hood) { return hood.entry || !hood.form.empty(); })) {
    return {"entry into the hood",
            "by its form, 20 %",
            "measure the hood static",
            kKnownHood,
            Group::Hood,
            nullptr};
  }
  return {"entry into the machine",
          "nothing is known, factor 1.7",
          "measure the hood static",
          kUnknownHood,
          Group::Hood,
          nullptr};
}

std::vector<Trial> trials(const LineRequest& request) {
  std::vector<Trial> list;
  list.push_back(hoodTrial(request));
  list.push_back({"hose friction", "common practice, factor 1.6",
                  "measure the pressure drop along the hose, or pull it tight", kHose, Group::Hose, nullptr});
  list.push_back({"duct friction", "8 %", "", kFriction, Group::Friction, nullptr});
  const bool throttled =
      has<GateWord>(request, [](const GateWord& g) { return g.travel.si() < kThrottledBelow; });
  list.push_back({"gate", throttled ? "open less than 30 %, factor 2" : "20 %",
                  "open it, or measure across it", throttled ? kThrottledGate : kFitting, Group::Gate,
                  nullptr});
  list.push_back({"elbows and changes of bore", "20 %", "", kFitting, Group::Fitting, nullptr});
  list.push_back({"elbow at the fan", "20 %", "", kFitting, Group::SystemEffect, nullptr});
  list.push_back(
      {"separator", "factor 1.5", "measure the pressure across it", kSeparator, Group::Separator, nullptr});
  list.push_back({"filter", "factor 1.6", "read the gauge across it", kFilter, Group::Filter, nullptr});
  list.push_back({"leakage", "factor 2", "smoke or soap at the joints", kLeakage, Group::Leakage, nullptr});
  list.push_back(
      {"bores", "typed as nominal, 3 %", "measure the true inside", kBore, std::nullopt, &LineTweak::bore});
  const bool label = request.rating.points.empty();
  list.push_back({label ? "the fan, known by its label" : "the fan's curve",
                  label ? "label, 30 %" : "maker's curve, 12 %", "measure flow and static at the collector",
                  label ? kLabel : kCurve, std::nullopt, &LineTweak::fan_pressure});
  return list;
}

/// Half the difference of ln(flow) between the two sides.
Result<double> effectOf(const Solver& solver, const Trial& trial) {
  double logs[2] = {};
  for (const bool up : {false, true}) {
    const double factor = up ? trial.factor : 1 / trial.factor;
    LineTweak tweak;
    if (trial.tweak != nullptr) {
      tweak.*trial.tweak = factor;
    }
    const Result<double> flow = solver.flow(tweak, trial.group, factor);
    if (!flow) {
      return base::Failure(flow.error());
    }
    if (!(*flow > 0)) {
      return base::fail(
          base::ErrorCode::Range,
          fmt::format("with {} moved by its own spread no air flows any more; the band has no lower end",
                      trial.what),
          "band");
    }
    logs[up ? 1 : 0] = std::log(*flow);
  }
  return std::abs(logs[1] - logs[0]) / 2;
}

}  // namespace

double LineBand::at(double deviations) const {
  return flow_m3_s * std::exp(sigma * deviations);
}

double LineBand::chanceOf(double flow) const {
  if (!(sigma > 0)) {
    return flow_m3_s >= flow ? 1 : 0;
  }
  const double deviations = std::log(flow_m3_s / flow) / sigma;
  return 0.5 * std::erfc(-deviations / std::numbers::sqrt2);
}

std::string_view chanceInWords(double chance) {
  return chance > 0.95 ? "yes" : chance > 0.66 ? "likely" : chance > 0.05 ? "unlikely" : "no";
}

Result<LineBand> lineBand(const LineRequest& request, const catalogue::Catalogue& catalogue,
                          double flow_m3_s) {
  LineBand band;
  band.flow_m3_s = flow_m3_s;
  const Solver solver(request, catalogue);
  double squares = 0;
  for (const Trial& trial : trials(request)) {
    const Result<double> effect = effectOf(solver, trial);
    if (!effect) {
      return base::Failure(effect.error());
    }
    if (*effect > kNegligible) {
      band.spreads.push_back({trial.what, trial.known_as, trial.how, *effect});
      squares += *effect * *effect;
    }
  }
  band.sigma = std::sqrt(squares);
  std::stable_sort(band.spreads.begin(), band.spreads.end(),
                   [](const Spread& a, const Spread& b) { return a.effect > b.effect; });
  return band;
}

}  // namespace kerfdraft::cli
