// Shares of variance, weighted by how open the verdicts are.
#include "doubt/matters.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "network/sensitivity.h"

namespace kerfdraft::doubt {
namespace {

using network::Output;
using network::Parameter;

constexpr double kDecidedWeight = 0.02;

const FlowChance& flowAt(std::span<const StateChances> chances, const FlowPlace& at) {
  const StateChances& state = chances[at.state];
  return at.machine ? state.machines[at.index] : state.ports[at.index];
}

/// Every open flow, ports before machines.
std::vector<FlowPlace> openFlows(std::span<const StateChances> chances) {
  std::vector<FlowPlace> out;
  for (std::size_t s = 0; s < chances.size(); ++s) {
    for (std::size_t p = 0; p < chances[s].ports.size(); ++p) {
      if (chances[s].ports[p].open) {
        out.push_back({s, false, p});
      }
    }
    for (std::size_t m = 0; m < chances[s].machines.size(); ++m) {
      if (chances[s].machines[m].open) {
        out.push_back({s, true, m});
      }
    }
  }
  return out;
}

bool undecided(double probability) {
  const Chance chance = chanceInWords(probability);
  return chance == Chance::Likely || chance == Chance::Unlikely;
}

struct Weighted {
  FlowPlace place;
  double weight = 0;
};

std::vector<Weighted> verdicts(std::span<const StateChances> chances) {
  std::vector<Weighted> out;
  for (const FlowPlace& place : openFlows(chances)) {
    if (const auto p = flowAt(chances, place).verdict()) {
      out.push_back({place, 4 * *p * (1 - *p) + kDecidedWeight});
    }
  }
  if (out.empty()) {
    for (const FlowPlace& place : openFlows(chances)) {
      out.push_back({place, 1});
    }
  }
  return out;
}

/// The port whose flow stands for a place: itself, or the machine's largest.
std::size_t portOf(std::span<const StateChances> chances, const FlowPlace& at) {
  if (!at.machine) {
    return at.index;
  }
  const StateChances& state = chances[at.state];
  const base::Id machine = state.machines[at.index].ref.machine;
  std::size_t best = 0;
  double most = -1;
  for (std::size_t p = 0; p < state.ports.size(); ++p) {
    const FlowChance& port = state.ports[p];
    if (port.ref.machine == machine && port.open && port.flow.value > most) {
      most = port.flow.value;
      best = p;
    }
  }
  return best;
}

/// Name of the member of an input that does most to a flow.
class Places {
 public:
  Places(const judge::Assessment& assessment, std::size_t state, std::size_t port)
      : drawing_(*assessment.pieces),
        solution_(assessment.states[state].solution),
        solver_(*assessment.network),
        run_(drawing_.ports[port].run) {
    stands_ = solver_.stand(assessment.states[state].situation, solution_);
  }

  std::string of(const Input& input) {
    const Parameter& parameter = input.parameter;
    if (!stands_ || (parameter.what == Parameter::What::Group && parameter.group == pieces::Group::Leakage)) {
      return {};
    }
    const std::vector<double> d = solver_.byAdjoint(parameter, {Output::What::RunFlow, run_});
    const auto most =
        std::max_element(d.begin(), d.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
    const auto index = static_cast<std::size_t>(most - d.begin());
    const std::size_t at = parameter.where.empty() ? index : parameter.where[index];
    switch (parameter.what) {
      case Parameter::What::Group:
        return piece(at, parameter.group);
      case Parameter::What::Bore:
        return drawing_.runs[at].label;
      case Parameter::What::Opening:
        return drawing_.openings[at].label;
      case Parameter::What::Fan:
        return drawing_.fans[at].label;
      case Parameter::What::Junction:
        return drawing_.nodes[drawing_.junctions[at].node].label;
      case Parameter::What::Density:
        return {};
    }
    return {};
  }

 private:
  /// The piece of a group in a run that loses most; a hose before its bends.
  std::string piece(std::size_t run, pieces::Group group) const {
    const pieces::Piece* best = nullptr;
    double most = -1;
    for (std::size_t i = 0; i < drawing_.runs[run].pieces.size(); ++i) {
      const pieces::Piece& piece = drawing_.runs[run].pieces[i];
      const double loss_pa = std::abs(solution_.runs[run].pieces[i].loss_pa);
      const bool longer = best == nullptr || (piece.length_m > 0) > (best->length_m > 0);
      const bool alike = best != nullptr && (piece.length_m > 0) == (best->length_m > 0);
      if (piece.group == group && (longer || (alike && loss_pa > most))) {
        best = &piece;
        most = loss_pa;
      }
    }
    return best == nullptr ? std::string() : best->label;
  }

  const pieces::Pieces& drawing_;
  const network::Solution& solution_;
  network::SensitivitySolver solver_;
  std::size_t run_;
  bool stands_ = false;
};

/// The flow's deviation with one input as sure as measuring makes it.
double deviationThen(const Spread& flow, const Input& input, double effect) {
  if (input.prior->then.empty() || flow.value == 0) {
    return flow.relative();
  }
  const double narrowed = effect * prior(input.prior->then).sigma() / input.prior->sigma();
  const double squares = flow.sigma * flow.sigma - effect * effect + narrowed * narrowed;
  return std::sqrt(std::max(0.0, squares)) / std::abs(flow.value);
}

}  // namespace

std::optional<FlowPlace> worstFlow(std::span<const StateChances> chances) {
  std::optional<FlowPlace> best;
  bool best_open = false;
  double least = 2;
  for (const FlowPlace& place : openFlows(chances)) {
    const auto p = flowAt(chances, place).verdict();
    if (p && ((undecided(*p) && !best_open) || (undecided(*p) == best_open && *p < least))) {
      best = place;
      best_open = undecided(*p);
      least = *p;
    }
  }
  if (best) {
    return best;
  }
  double most = -1;
  for (const FlowPlace& place : openFlows(chances)) {
    if (const double relative = flowAt(chances, place).flow.relative(); relative > most) {
      most = relative;
      best = place;
    }
  }
  return best;
}

std::vector<Matter> whatMatters(const judge::Assessment& assessment, std::span<const StateDoubt> doubts,
                                std::span<const StateChances> chances, std::optional<FlowPlace> at,
                                std::size_t most) {
  const std::vector<Weighted> over = at ? std::vector<Weighted>{{*at, 1}} : verdicts(chances);
  struct Found {
    Matter matter;
    FlowPlace place;
    std::size_t input = 0;
    double counts = -1;
  };
  std::map<std::string, Found> by_key;
  double whole = 0;
  for (const auto& [place, weight] : over) {
    const Spread& flow = flowAt(chances, place).flow;
    if (!(flow.sigma > 0)) {
      continue;
    }
    whole += weight;
    const std::vector<Input>& inputs = doubts[place.state].inputs;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      const double ratio = flow.effects[i] / flow.sigma;
      const double counts = weight * ratio * ratio;
      Found& found = by_key[inputs[i].key];
      found.matter.key = inputs[i].key;
      found.matter.prior = inputs[i].prior;
      found.matter.label = inputs[i].label;
      found.matter.share += counts;
      if (counts > found.counts) {
        found.counts = counts;
        found.place = place;
        found.input = i;
      }
    }
  }
  std::vector<Found> sorted;
  sorted.reserve(by_key.size());
  for (auto& [key, found] : by_key) {
    sorted.push_back(std::move(found));
  }
  std::stable_sort(sorted.begin(), sorted.end(),
                   [](const Found& a, const Found& b) { return a.matter.share > b.matter.share; });
  sorted.resize(std::min(sorted.size(), most));
  std::vector<Matter> out;
  for (Found& found : sorted) {
    const FlowChance& flow = flowAt(chances, found.place);
    const Input& input = doubts[found.place.state].inputs[found.input];
    Matter& matter = found.matter;
    matter.share /= whole;
    matter.state = found.place.state;
    matter.port = flow.label;
    matter.deviation_now = flow.flow.relative();
    matter.deviation_then = deviationThen(flow.flow, input, flow.flow.effects[found.input]);
    matter.place = Places(assessment, found.place.state, portOf(chances, found.place)).of(input);
    out.push_back(std::move(matter));
  }
  return out;
}

std::string_view howTo(Measure measure) {
  switch (measure) {
    case Measure::Nothing:
      return {};
    case Measure::HosePressure:
      return "Measure the static pressure at both ends of the hose, and the flow";
    case Measure::HoodStatic:
      return "Measure the hood static, three bores behind the port, and the flow";
    case Measure::BodyGaps:
      return "Measure the free area of the gaps of the machine's body";
    case Measure::FilterGauge:
      return "Read a gauge across the filter, with the flow";
    case Measure::SeparatorPressure:
      return "Measure the pressure across the separator, and the flow";
    case Measure::InletStaticAndFlow:
      return "Measure static pressure and flow at the collector's inlet";
    case Measure::Bore:
      return "Measure the true inside with a calliper";
    case Measure::GateTravel:
      return "Open the gate all the way, or measure the pressure across it";
    case Measure::Joints:
      return "Shut every gate and measure the flow at the collector's inlet";
    case Measure::Branches:
      return "Measure the static pressure in the branch and in the main beside it";
    case Measure::Elbows:
      return "Measure the static pressure before and behind the fittings";
    case Measure::RoomPressure:
      return "Measure the pressure of the room against outdoors";
  }
  return {};
}

std::string sentence(const Matter& matter) {
  std::string out =
      fmt::format("{:.0f} % of the doubt: {}, {}.", 100 * matter.share, matter.label, matter.prior->known_as);
  const std::string_view how = howTo(matter.prior->measure);
  if (how.empty()) {
    return out;
  }
  out += fmt::format(" {}", how);
  if (!matter.place.empty()) {
    out += fmt::format(" (first at {})", matter.place);
  }
  const double now = 100 * matter.deviation_now;
  const double then = 100 * matter.deviation_then;
  if (now - then >= 0.5) {
    out += fmt::format(": then {} is known to {:.0f} % instead of {:.0f} %", matter.port, then, now);
  }
  return out + ".";
}

}  // namespace kerfdraft::doubt
