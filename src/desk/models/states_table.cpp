// Everything is read from the margins; nothing is computed here but which is the worst.
#include "desk/models/states_table.h"

#include <fmt/format.h>

#include <algorithm>

namespace kerfdraft::desk {
namespace {

using base::Kind;

std::string against(double have, double need, Kind kind, base::UnitSystem units) {
  return fmt::format("{} of {}", base::formatNumber(kind, have, units),
                     base::formatQuantity(kind, need, units));
}

/// What a port is held against: its floor, else its target.
double needOf(const judge::FlowMargin& margin) {
  return margin.floor_m3_s ? *margin.floor_m3_s : margin.target_m3_s.value_or(0);
}

const judge::FlowMargin* worstPort(const judge::StateMargins& margins) {
  const judge::FlowMargin* worst = nullptr;
  const auto look = [&](const std::vector<judge::FlowMargin>& list) {
    for (const judge::FlowMargin& each : list) {
      if (each.open && needOf(each) > 0 &&
          (worst == nullptr || each.flow_m3_s / needOf(each) < worst->flow_m3_s / needOf(*worst))) {
        worst = &each;
      }
    }
  };
  look(margins.ports);
  look(margins.machines);
  return worst;
}

}  // namespace

std::vector<StateRow> stateRows(const Solved& solved, base::UnitSystem units) {
  std::vector<StateRow> rows;
  for (std::size_t s = 0; s < solved.states(); ++s) {
    const judge::StateResult& state = solved.assessment->states[s];
    const judge::StateMargins& margins = solved.margins[s];
    StateRow row;
    row.name = state.name;
    row.filter = state.situation.filter == shop::FilterState::Clean      ? "clean"
                 : state.situation.filter == shop::FilterState::Seasoned ? "seasoned"
                                                                         : "due";
    row.tried = solved.tried && s + 1 == solved.states();
    row.unused = s < solved.project->states.size() && solved.project->states[s].unused;
    row.good = margins.served;
    if (!margins.solved) {
      row.verdict = "no solution";
      row.worst = state.solution.why;
      rows.push_back(std::move(row));
      continue;
    }
    const judge::FlowMargin* worst = worstPort(margins);
    row.verdict = margins.served ? "served" : "short";
    if (worst != nullptr) {
      row.worst = worst->label + " " + against(worst->flow_m3_s, needOf(*worst), Kind::VolumeFlow, units);
    }
    const auto slow = std::min_element(
        margins.runs.begin(), margins.runs.end(),
        [](const judge::RunMargin& a, const judge::RunMargin& b) { return a.ratio < b.ratio; });
    if (slow != margins.runs.end()) {
      row.slowest = slow->label.substr(0, slow->label.find(':')) + " " +
                    against(slow->slowest_m_s, slow->minimum_m_s, Kind::Speed, units);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace kerfdraft::desk
