// Everything is read from margins and chances; nothing is computed here but which is the worst.
#include "desk/models/states_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "desk/models/comparison.h"
#include "judge/number_key.h"

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

bool sharesNeed(const judge::StateMargins& margins, base::Id machine) {
  return std::any_of(margins.machines.begin(), margins.machines.end(),
                     [&](const judge::FlowMargin& each) { return each.ref.machine == machine; });
}

template <class List>
auto find(const List& list, const shop::PortRef& ref) -> decltype(&list.front()) {
  const auto at = std::find_if(list.begin(), list.end(), [&](const auto& each) {
    return each.ref.machine == ref.machine && (!ref.port.valid() || each.ref.port == ref.port);
  });
  return at == list.end() ? nullptr : &*at;
}

const judge::FlowMargin* marginOf(const judge::StateMargins& margins, const shop::PortRef& ref) {
  return ref.port.valid() ? find(margins.ports, ref) : find(margins.machines, ref);
}

/// " (was short)" where the verdict of a state was another.
std::string wasText(const Solved* kept, std::optional<std::size_t> before, bool served) {
  if (!before) {
    return {};
  }
  const judge::StateMargins& was = kept->margins[*before];
  return !was.solved            ? " (was no solution)"
         : was.served == served ? ""
         : was.served           ? " (was served)"
                                : " (was short)";
}

/// The same run in a state of another result, where chips went there too.
const judge::RunMargin* sameRun(const Solved& solved, const judge::RunMargin& run, const Solved& other,
                                std::size_t state) {
  const pieces::PieceKey& key = solved.assessment->pieces->runs[run.run].key;
  const std::vector<judge::RunMargin>& runs = other.margins[state].runs;
  const auto at = std::find_if(runs.begin(), runs.end(), [&](const judge::RunMargin& each) {
    return other.assessment->pieces->runs[each.run].key == key;
  });
  return at == runs.end() ? nullptr : &*at;
}

std::string whyKey(const Solved& solved, std::size_t state, const shop::PortRef& ref) {
  const std::vector<pieces::PortPlace>& ports = solved.assessment->pieces->ports;
  for (std::size_t p = 0; p < ports.size(); ++p) {
    if (ports[p].ref.machine == ref.machine && (!ref.port.valid() || ports[p].ref.port == ref.port)) {
      return judge::NumberKey{judge::Element::Port, state, p, 0, "flow"}.text();
    }
  }
  return {};
}

StateCell cellOf(const Solved& solved, std::size_t state, const shop::PortRef& ref, base::UnitSystem units,
                 const judge::FlowMargin* before) {
  StateCell cell;
  const judge::FlowMargin* margin = marginOf(solved.margins[state], ref);
  if (margin == nullptr || !margin->open) {
    cell.text = "−";
    return cell;
  }
  cell.open = true;
  cell.good = margin->served != judge::Served::Short;
  cell.text = base::formatNumber(Kind::VolumeFlow, margin->flow_m3_s, units);
  if (before != nullptr && before->open) {
    const std::string was = base::formatNumber(Kind::VolumeFlow, before->flow_m3_s, units);
    if (was != cell.text) {
      cell.text += fmt::format(" (was {})", was);
    }
  } else if (before != nullptr) {
    cell.text += " (was shut)";
  }
  cell.tip = fmt::format("{}: {}", margin->label, judge::toText(margin->served));
  if (margin->floor_m3_s) {
    cell.tip +=
        fmt::format(", chips need {}", base::formatQuantity(Kind::VolumeFlow, *margin->floor_m3_s, units));
  }
  if (margin->target_m3_s) {
    cell.tip +=
        fmt::format(", dust wants {}", base::formatQuantity(Kind::VolumeFlow, *margin->target_m3_s, units));
  }
  if (state < solved.chances.size()) {
    const doubt::StateChances& chances = solved.chances[state];
    const doubt::FlowChance* chance =
        ref.port.valid() ? find(chances.ports, ref) : find(chances.machines, ref);
    if (chance != nullptr && chance->verdict()) {
      const std::string_view word = doubt::toText(doubt::chanceInWords(*chance->verdict()));
      cell.text += fmt::format(" {}", word);
      cell.tip +=
          fmt::format(". Will it get that? {}: between {} and {} at two standard deviations", word,
                      base::formatNumber(Kind::VolumeFlow, chance->flow.at(-doubt::kBandDeviations), units),
                      base::formatQuantity(Kind::VolumeFlow, chance->flow.at(doubt::kBandDeviations), units));
    }
  }
  cell.why = whyKey(solved, state, ref);
  return cell;
}

}  // namespace

std::vector<PortColumn> portColumns(const Solved& solved, base::UnitSystem units) {
  std::vector<PortColumn> out;
  if (!solved.assessment || solved.margins.empty()) {
    return out;
  }
  const std::string unit(base::unitName(Kind::VolumeFlow, units));
  const judge::StateMargins& any = solved.margins.front();
  for (const pieces::PortPlace& port : solved.assessment->pieces->ports) {
    const bool shared = sharesNeed(any, port.ref.machine);
    const shop::PortRef ref{port.ref.machine, shared ? base::Id() : port.ref.port};
    const bool there =
        std::any_of(out.begin(), out.end(), [&](const PortColumn& each) { return each.ref == ref; });
    if (!there) {
      const judge::FlowMargin* margin = marginOf(any, ref);
      out.push_back({margin != nullptr ? margin->label : port.label, unit, ref});
    }
  }
  // In the order in which machines stand in the project.
  const auto place = [&](const PortColumn& column) {
    const std::vector<shop::Machine>& machines = solved.project->machines;
    return std::find_if(machines.begin(), machines.end(),
                        [&](const shop::Machine& each) { return each.id == column.ref.machine; }) -
           machines.begin();
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](const PortColumn& a, const PortColumn& b) { return place(a) < place(b); });
  return out;
}

std::vector<StateRow> stateRows(const Solved& solved, base::UnitSystem units, const Solved* kept) {
  std::vector<StateRow> rows;
  const std::vector<PortColumn> columns = portColumns(solved, units);
  for (std::size_t s = 0; s < solved.states(); ++s) {
    const judge::StateResult& state = solved.assessment->states[s];
    const judge::StateMargins& margins = solved.margins[s];
    StateRow row;
    row.name = state.name;
    row.declared = state.declared;
    row.filter = state.situation.filter == shop::FilterState::Clean      ? "clean"
                 : state.situation.filter == shop::FilterState::Seasoned ? "seasoned"
                                                                         : "due";
    row.tried = solved.tried && s + 1 == solved.states();
    row.unused = s < solved.project->states.size() && solved.project->states[s].unused;
    row.good = margins.served;
    const std::optional<std::size_t> before =
        kept != nullptr && kept->assessment ? sameState(solved, s, *kept) : std::nullopt;
    if (kept != nullptr && kept->assessment) {
      row.changed = fmt::format("{}", fmt::join(changeLines(compareState(solved, s, *kept, units)), "\n"));
    }
    if (!margins.solved) {
      row.verdict = before && kept->margins[*before].solved ? "no solution (was solved)" : "no solution";
      row.worst = state.solution.why;
      rows.push_back(std::move(row));
      continue;
    }
    const judge::FlowMargin* worst = worstPort(margins);
    row.verdict = (margins.served ? "served" : "short") + wasText(kept, before, margins.served);
    if (worst != nullptr) {
      row.worst = worst->label + " " + against(worst->flow_m3_s, needOf(*worst), Kind::VolumeFlow, units);
    }
    const auto slow = std::min_element(
        margins.runs.begin(), margins.runs.end(),
        [](const judge::RunMargin& a, const judge::RunMargin& b) { return a.ratio < b.ratio; });
    if (slow != margins.runs.end()) {
      row.slowest = slow->label.substr(0, slow->label.find(':')) + " " +
                    against(slow->slowest_m_s, slow->minimum_m_s, Kind::Speed, units);
      row.slowest_why = judge::NumberKey{judge::Element::Run, s, slow->run, 0, "slowest"}.text();
      if (const judge::RunMargin* was = before ? sameRun(solved, *slow, *kept, *before) : nullptr) {
        const std::string text = base::formatNumber(Kind::Speed, was->slowest_m_s, units);
        row.slowest += text == base::formatNumber(Kind::Speed, slow->slowest_m_s, units)
                           ? std::string()
                           : fmt::format(" (was {})", text);
      }
    }
    row.cells.reserve(columns.size());
    for (const PortColumn& column : columns) {
      row.cells.push_back(cellOf(solved, s, column.ref, units,
                                 before ? marginOf(kept->margins[*before], column.ref) : nullptr));
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace kerfdraft::desk
