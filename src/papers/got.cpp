// Brings margins, chances and paths of one state together.
#include "papers/got.h"

#include <fmt/format.h>

#include <algorithm>

#include "papers/worst_path.h"

namespace kerfdraft::papers {
namespace {

using drawing::Grade;

/// Worst run on the way of some ports.
const judge::RunMargin* slowestOf(const PaperInput& input, std::size_t state,
                                  const std::vector<std::size_t>& ports) {
  const judge::RunMargin* worst = nullptr;
  for (const std::size_t port : ports) {
    for (const std::size_t run : input.evidence.path(state, port)) {
      for (const judge::RunMargin& margin : input.evidence.margins[state].runs) {
        if (margin.run == run && (worst == nullptr || margin.ratio < worst->ratio)) {
          worst = &margin;
        }
      }
    }
  }
  return worst;
}

void addWay(const PaperInput& input, const std::vector<std::size_t>& ports, Got& got) {
  got.slowest = slowestOf(input, got.state, ports);
  if (got.slowest == nullptr || got.state >= input.chances.size()) {
    return;
  }
  for (const doubt::RunChance& run : input.chances[got.state].runs) {
    if (run.run == got.slowest->run) {
      got.slowest_chance = &run;
    }
  }
}

const doubt::FlowChance* chanceOf(const PaperInput& input, std::size_t state,
                                  const judge::FlowMargin& margin) {
  if (state >= input.chances.size()) {
    return nullptr;
  }
  const auto& list = margin.port ? input.chances[state].ports : input.chances[state].machines;
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const doubt::FlowChance& c) { return c.ref == margin.ref; });
  return found == list.end() ? nullptr : &*found;
}

InWords words(doubt::Chance chance) {
  switch (chance) {
    case doubt::Chance::Yes:
      return {"yes", Grade::Ample};
    case doubt::Chance::Likely:
      return {"likely", Grade::Just};
    case doubt::Chance::Unlikely:
      return {"unlikely", Grade::Below};
    case doubt::Chance::No:
      return {"no", Grade::FarBelow};
  }
  return {};
}

/// From a probability where there is one, else from the number alone.
InWords words(const std::optional<double>& probability, bool reached) {
  return words(probability ? doubt::chanceInWords(*probability)
               : reached   ? doubt::Chance::Likely
                           : doubt::Chance::Unlikely);
}

}  // namespace

double shareOf(const Got& got) {
  const std::optional<double>& asked =
      got.margin->target_m3_s ? got.margin->target_m3_s : got.margin->floor_m3_s;
  return asked && *asked > 0 ? got.margin->flow_m3_s / *asked : 1e9;
}

std::optional<double> Got::low() const {
  return chance != nullptr ? std::optional(chance->flow.at(-doubt::kBandDeviations)) : std::nullopt;
}

std::optional<double> Got::high() const {
  return chance != nullptr ? std::optional(chance->flow.at(doubt::kBandDeviations)) : std::nullopt;
}

std::vector<Got> gotIn(const PaperInput& input, std::size_t state) {
  std::vector<Got> out;
  if (!input.evidence.solved(state)) {
    return out;
  }
  const judge::StateMargins& margins = input.evidence.margins[state];
  for (const shop::Machine& machine : input.evidence.project().machines) {
    std::vector<std::size_t> open;
    std::vector<const judge::FlowMargin*> ports;
    for (const judge::FlowMargin& margin : margins.ports) {
      if (margin.ref.machine == machine.id && margin.open && margin.port) {
        open.push_back(*margin.port);
        ports.push_back(&margin);
      }
    }
    const std::string name = input.evidence.machineName(machine.id);
    bool whole = false;
    for (const judge::FlowMargin& margin : margins.machines) {
      if (margin.ref.machine == machine.id && margin.open) {
        Got got{state, &margin, chanceOf(input, state, margin), nullptr, nullptr, name};
        addWay(input, open, got);
        out.push_back(got);
        whole = true;
      }
    }
    for (const judge::FlowMargin* margin : ports) {
      // A machine's common requirement stands for ports that ask nothing of their own.
      if (whole && margin->served == judge::Served::NothingAsked) {
        continue;
      }
      Got got{state,   margin,  chanceOf(input, state, *margin),
              nullptr, nullptr, machine.ports.size() == 1 ? name : margin->label};
      addWay(input, {*margin->port}, got);
      out.push_back(got);
    }
  }
  return out;
}

InWords chipsTaken(const Got& got) {
  if (!got.margin->floor_m3_s) {
    return {"-", std::nullopt};
  }
  return words(got.chance != nullptr ? got.chance->reaches_floor : std::nullopt,
               got.margin->flow_m3_s >= *got.margin->floor_m3_s);
}

InWords dustTaken(const Got& got) {
  if (!got.margin->target_m3_s) {
    return {"-", std::nullopt};
  }
  return words(got.chance != nullptr ? got.chance->reaches_target : std::nullopt,
               got.margin->flow_m3_s >= judge::kTargetShare * *got.margin->target_m3_s);
}

InWords chipsCarried(const Got& got) {
  if (got.slowest == nullptr) {
    return {"-", std::nullopt};
  }
  return words(got.slowest_chance != nullptr ? std::optional(got.slowest_chance->fast_enough) : std::nullopt,
               got.slowest->ratio >= 1);
}

std::string conclusion(const Got& got) {
  const std::optional<double> asked = got.margin->target_m3_s
                                          ? std::optional(judge::kTargetShare * *got.margin->target_m3_s)
                                          : got.margin->floor_m3_s;
  if (!asked) {
    return "nothing intended";
  }
  if (!got.low() || !got.high()) {
    return "cannot conclude";
  }
  return *got.low() >= *asked ? "met" : *got.high() < *asked ? "not met" : "cannot conclude";
}

bool used(const judge::Assessment& assessment, std::size_t state) {
  const std::vector<shop::State>& drawn = assessment.project->states;
  const auto at = std::find_if(drawn.begin(), drawn.end(), [&](const shop::State& each) {
    return each.id == assessment.states[state].id;
  });
  return at == drawn.end() || !at->unused;
}

std::vector<std::size_t> movingStates(const PaperInput& input) {
  std::vector<std::size_t> all;
  std::vector<std::size_t> out;
  for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
    if (input.assessment.states[s].solution.outcome == network::Outcome::Solved) {
      all.push_back(s);
      if (used(input.assessment, s)) {
        out.push_back(s);
      }
    }
  }
  return out.empty() ? all : out;
}

std::vector<std::size_t> usualStates(const PaperInput& input) {
  const std::vector<std::size_t> moving = movingStates(input);
  std::vector<std::size_t> out;
  for (const std::size_t s : moving) {
    if (input.assessment.states[s].situation.filter == shop::FilterState::Seasoned) {
      out.push_back(s);
    }
  }
  return out.empty() ? moving : out;
}

std::size_t shownState(const PaperInput& input) {
  for (const judge::Group& group : input.verdict.groups) {
    const judge::Finding& lead = input.verdict.findings[group.lead];
    if (lead.state && input.assessment.states[*lead.state].solution.outcome == network::Outcome::Solved) {
      return *lead.state;
    }
  }
  // Of what is used: the state whose worst port is shortest of air.
  std::size_t worst = 0;
  double least = 2e9;
  for (const std::size_t s : movingStates(input)) {
    for (const Got& got : gotIn(input, s)) {
      if (const double share = shareOf(got); share < least) {
        least = share;
        worst = s;
      }
    }
  }
  return worst;
}

std::optional<std::size_t> shownPort(const PaperInput& input) {
  const std::size_t state = shownState(input);
  if (state >= input.evidence.sheets.size()) {
    return std::nullopt;
  }
  for (const judge::Group& group : input.verdict.groups) {
    const judge::Finding& lead = input.verdict.findings[group.lead];
    if (!lead.state || *lead.state != state) {
      continue;
    }
    for (const std::size_t port : lead.ports) {
      if (input.evidence.sheets[state][port]) {
        return port;
      }
    }
  }
  const auto worst = worstPath(input.assessment, input.evidence.margins, state, std::nullopt);
  return worst ? std::optional(worst->port) : std::nullopt;
}

std::string shortLabel(const std::string& label) {
  return label.substr(0, label.find(": "));
}

std::string openGates(const PaperInput& input, std::size_t state) {
  const pieces::Pieces& drawing = input.evidence.pieces();
  const network::Situation& situation = input.assessment.states[state].situation;
  std::vector<std::string> open;
  for (std::size_t g = 0; g < drawing.gates.size(); ++g) {
    const double travel = situation.gate_travel[g];
    if (travel >= 1) {
      open.push_back(drawing.gates[g].label);
    } else if (travel > 0) {
      open.push_back(fmt::format("{} ({:.0f} %)", drawing.gates[g].label, 100 * travel));
    }
  }
  if (open.size() == drawing.gates.size() && open.size() > 3) {
    return "every gate";
  }
  return listed(open);
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += i == 0 ? "" : i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

}  // namespace kerfdraft::papers
