// Margins with their spreads.
#include "doubt/chances.h"

#include <utility>

namespace kerfdraft::doubt {
namespace {

FlowChance chanceOf(const judge::FlowMargin& margin, Spread flow) {
  FlowChance out;
  out.ref = margin.ref;
  out.port = margin.port;
  out.label = margin.label;
  out.open = margin.open;
  out.floor_m3_s = margin.floor_m3_s;
  out.target_m3_s = margin.target_m3_s;
  out.flow = std::move(flow);
  if (out.open && out.floor_m3_s) {
    out.reaches_floor = out.flow.chanceOfAtLeast(*out.floor_m3_s);
  }
  if (out.open && out.target_m3_s) {
    out.reaches_target = out.flow.chanceOfAtLeast(judge::kTargetShare * *out.target_m3_s);
  }
  return out;
}

Spread machineFlow(const judge::StateMargins& margins, const StateDoubt& doubt, base::Id machine) {
  Spread sum;
  for (std::size_t p = 0; p < margins.ports.size(); ++p) {
    if (margins.ports[p].ref.machine == machine && margins.ports[p].open) {
      sum = sum + doubt.ports[p];
    }
  }
  return sum;
}

StateChances chancesOf(const judge::StateMargins& margins, const StateDoubt& doubt) {
  StateChances out;
  out.state = margins.state;
  out.defined = doubt.defined && margins.solved;
  if (!out.defined) {
    return out;
  }
  for (std::size_t p = 0; p < margins.ports.size(); ++p) {
    out.ports.push_back(chanceOf(margins.ports[p], doubt.ports[p]));
  }
  for (const judge::FlowMargin& machine : margins.machines) {
    out.machines.push_back(chanceOf(machine, machineFlow(margins, doubt, machine.ref.machine)));
  }
  for (const judge::RunMargin& run : margins.runs) {
    RunChance chance;
    chance.run = run.run;
    chance.label = run.label;
    chance.speed = doubt.speeds[run.run];
    chance.minimum_m_s = run.minimum_m_s;
    chance.fast_enough = chance.speed.chanceOfAtLeast(run.minimum_m_s);
    chance.fails = chance.speed.at(kBandDeviations) < run.minimum_m_s;
    out.runs.push_back(std::move(chance));
  }
  return out;
}

}  // namespace

base::Result<std::vector<StateChances>> chances(const judge::Assessment& assessment,
                                                const catalogue::Catalogue& catalogue,
                                                std::span<const StateDoubt> doubts) {
  base::check(doubts.size() == assessment.states.size(), "doubts of another assessment");
  const auto margins = judge::margins(assessment, catalogue);
  if (!margins) {
    return base::Failure(margins.error());
  }
  std::vector<StateChances> out;
  for (std::size_t s = 0; s < margins->size(); ++s) {
    out.push_back(chancesOf((*margins)[s], doubts[s]));
  }
  return out;
}

}  // namespace kerfdraft::doubt
