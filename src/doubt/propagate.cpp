// Sensitivities times standard deviations.
#include "doubt/propagate.h"

#include <algorithm>
#include <utility>

#include "base/parallel.h"

namespace kerfdraft::doubt {
namespace {

using network::Output;

/// What is asked of the network, and the factor that turns it into what is shown.
class Asked {
 public:
  void add(Output output, double value, double scale, std::vector<Spread>& to) {
    outputs_.push_back(output);
    places_.push_back({value, scale, &to});
  }

  void fill(network::SensitivitySolver& solver, const std::vector<Input>& inputs) const {
    std::vector<network::Parameter> parameters;
    parameters.reserve(inputs.size());
    for (const Input& input : inputs) {
      parameters.push_back(input.parameter);
    }
    const network::Sensitivities d = solver.byTangent(parameters, outputs_);
    for (std::size_t o = 0; o < outputs_.size(); ++o) {
      std::vector<double> effects;
      effects.reserve(inputs.size());
      for (std::size_t i = 0; i < inputs.size(); ++i) {
        effects.push_back(places_[o].scale * d.at(o, i) * inputs[i].prior->sigma());
      }
      places_[o].to->push_back(spreadOf(places_[o].value, std::move(effects)));
    }
  }

 private:
  struct Place {
    double value;
    double scale;
    std::vector<Spread>* to;
  };
  std::vector<Output> outputs_;
  std::vector<Place> places_;
};

}  // namespace

StateDoubt propagate(const judge::Assessment& assessment, std::size_t state,
                     network::SensitivitySolver& solver) {
  StateDoubt out;
  out.state = state;
  const judge::StateResult& result = assessment.states[state];
  const network::Solution& solution = result.solution;
  out.inputs = inputsOf(assessment, state);
  out.defined = !out.inputs.empty() && solver.stand(result.situation, solution);
  if (!out.defined) {
    out.inputs.clear();
    return out;
  }
  const pieces::Pieces& drawing = *assessment.pieces;
  const double per_density = 1 / drawing.air.density_kg_m3;
  Asked asked;
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    asked.add({Output::What::RunFlow, drawing.ports[p].run}, solution.ports[p].flow_m3_s, per_density,
              out.ports);
  }
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    asked.add({Output::What::RunFlow, r}, solution.runs[r].flow_start_kg_s * per_density, per_density,
              out.runs);
    asked.add({Output::What::RunSpeed, r}, solution.runs[r].slowest_m_s, 1, out.speeds);
  }
  for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
    const network::FanResult& fan = solution.fans[f];
    const double per_flow = fan.flow_kg_s != 0 ? fan.inlet_flow_m3_s / fan.flow_kg_s : per_density;
    asked.add({Output::What::FanFlow, f}, fan.inlet_flow_m3_s, per_flow, out.fans);
    asked.add({Output::What::FanRise, f}, fan.rise_pa, 1, out.fan_rises);
  }
  for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
    asked.add({Output::What::OpeningFlow, o}, solution.openings[o].speed_m_s,
              per_density / drawing.openings[o].area_m2, out.openings);
  }
  asked.fill(solver, out.inputs);
  return out;
}

std::vector<StateDoubt> assessDoubt(const judge::Assessment& assessment, unsigned threads) {
  const std::size_t states = assessment.states.size();
  const auto workers =
      static_cast<unsigned>(std::min<std::size_t>(threads == 0 ? base::coreCount() : threads, states));
  std::vector<network::SensitivitySolver> solvers;
  for (unsigned t = 0; t < workers; ++t) {
    solvers.emplace_back(*assessment.network);
  }
  std::vector<StateDoubt> out(states);
  base::orderedParallelFor(
      states, workers,
      [&](std::size_t state, unsigned thread) { out[state] = propagate(assessment, state, solvers[thread]); },
      [](std::size_t) {});
  return out;
}

}  // namespace kerfdraft::doubt
