// Things are found again by their keys and ids, never by their place in a list.
#include "desk/models/comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "drawing/units_text.h"

namespace kerfdraft::desk {
namespace {

using base::Kind;
using drawing::Turn;
using judge::FlowMargin;
using judge::Served;

/// What a port is held against: its floor, else its target.
double needOf(const FlowMargin& margin) {
  return margin.floor_m3_s ? *margin.floor_m3_s : margin.target_m3_s.value_or(0);
}

const FlowMargin* find(const std::vector<FlowMargin>& list, const shop::PortRef& ref) {
  const auto at =
      std::find_if(list.begin(), list.end(), [&](const FlowMargin& each) { return each.ref == ref; });
  return at == list.end() ? nullptr : &*at;
}

Turn turnOf(double share) {
  return share > kSeenChange ? Turn::Better : share < -kSeenChange ? Turn::Worse : Turn::Same;
}

void compareFlows(const std::vector<FlowMargin>& now, const std::vector<FlowMargin>& then,
                  base::UnitSystem units, std::vector<FlowChange>& out) {
  for (const FlowMargin& margin : now) {
    const FlowMargin* was = find(then, margin.ref);
    const double need = needOf(margin);
    if (need <= 0) {
      continue;
    }
    FlowChange change{margin.ref, margin.label, 0, {}};
    if (!margin.open) {
      if (was != nullptr && was->open) {
        change.change = {Turn::Other,
                         "shut now, was " + base::formatQuantity(Kind::VolumeFlow, was->flow_m3_s, units)};
        out.push_back(std::move(change));
      }
      continue;
    }
    if (was == nullptr || !was->open) {
      change.change = {Turn::New, was == nullptr ? "was not there" : "was shut"};
      out.push_back(std::move(change));
      continue;
    }
    change.share = (margin.flow_m3_s - was->flow_m3_s) / need;
    change.change.turn = turnOf(change.share);
    if (change.change.turn == Turn::Same) {
      continue;
    }
    const bool more = change.change.turn == Turn::Better;
    const bool turned = (margin.served == Served::Short) != (was->served == Served::Short);
    change.change.words = fmt::format(
        "{}, was {}",
        more ? (turned ? "more and now enough" : "more") : (turned ? "less and no longer enough" : "less"),
        base::formatQuantity(Kind::VolumeFlow, was->flow_m3_s, units));
    out.push_back(std::move(change));
  }
}

std::string firstWord(const std::string& label) {
  return label.substr(0, label.find(':'));
}

void compareRuns(const Solved& now, std::size_t s, const Solved& kept, std::size_t before,
                 base::UnitSystem units, std::vector<RunChange>& out) {
  const auto key_of = [](const Solved& solved, const judge::RunMargin& margin) {
    return solved.assessment->pieces->runs[margin.run].key;
  };
  for (const judge::RunMargin& margin : now.margins[s].runs) {
    const pieces::PieceKey key = key_of(now, margin);
    const std::vector<judge::RunMargin>& then = kept.margins[before].runs;
    const auto was = std::find_if(then.begin(), then.end(),
                                  [&](const judge::RunMargin& each) { return key_of(kept, each) == key; });
    if (was == then.end()) {
      continue;  // another way of the chips is told by the ports and states that changed
    }
    RunChange change{key, firstWord(margin.label), margin.ratio - was->ratio, {}};
    change.change.turn = turnOf(change.share);
    if (change.change.turn == Turn::Same) {
      continue;
    }
    const bool turned = (margin.ratio < 1) != (was->ratio < 1);
    const bool faster = change.change.turn == Turn::Better;
    change.change.words = fmt::format("{}, was {}",
                                      faster ? (turned ? "faster and now enough" : "faster")
                                             : (turned ? "slower and no longer enough" : "slower"),
                                      base::formatQuantity(Kind::Speed, was->slowest_m_s, units));
    // Other chips may ask for another speed while the air is as it was.
    if (std::abs(margin.slowest_m_s - was->slowest_m_s) < kSeenChange * was->slowest_m_s) {
      change.change.words =
          fmt::format("asks {}, asked {}", base::formatQuantity(Kind::Speed, margin.minimum_m_s, units),
                      base::formatQuantity(Kind::Speed, was->minimum_m_s, units));
    }
    out.push_back(std::move(change));
  }
}

std::string pointText(const network::FanResult& fan, base::UnitSystem units) {
  if (!fan.running) {
    return "standing";
  }
  return fmt::format(
      "{} at {}{}", base::formatQuantity(Kind::VolumeFlow, std::abs(fan.inlet_flow_m3_s), units),
      drawing::shortText(Kind::Pressure, fan.rise_pa, units), fan.backward ? ", backward" : "");
}

void compareFans(const Solved& now, std::size_t s, const Solved& kept, std::size_t before,
                 base::UnitSystem units, std::vector<FanChange>& out) {
  const std::vector<pieces::Fan>& fans = now.assessment->pieces->fans;
  const std::vector<pieces::Fan>& then = kept.assessment->pieces->fans;
  for (std::size_t f = 0; f < fans.size(); ++f) {
    const network::FanResult& is = now.assessment->states[s].solution.fans[f];
    const auto at = std::find_if(then.begin(), then.end(),
                                 [&](const pieces::Fan& each) { return each.id == fans[f].id; });
    FanChange change{fans[f].id, fans[f].label, 0, pointText(is, units), {}};
    if (at == then.end()) {
      change.change = {Turn::New, "was not there"};
      out.push_back(std::move(change));
      continue;
    }
    const network::FanResult& was =
        kept.assessment->states[before].solution.fans[static_cast<std::size_t>(at - then.begin())];
    const double moved = std::abs(was.inlet_flow_m3_s);
    change.share = moved > 0 ? (is.inlet_flow_m3_s - was.inlet_flow_m3_s) / moved : 0;
    const double raised = std::abs(was.rise_pa);
    const double rise = raised > 0 ? std::abs(is.rise_pa - was.rise_pa) / raised : 0;
    // What leaks through a standing fan is no point at which it works.
    if (is.running == was.running &&
        (!is.running ||
         (is.backward == was.backward && std::max(std::abs(change.share), rise) <= kSeenChange))) {
      continue;
    }
    change.change = {Turn::Other, "was " + pointText(was, units)};
    out.push_back(std::move(change));
  }
}

std::string counted(std::size_t n) {
  return fmt::format("{} state{}", n, n == 1 ? "" : "s");
}

std::string listed(const std::vector<std::string>& names) {
  return fmt::format("{}", fmt::join(names, ", "));
}

/// What was then holds together when a label is broken into narrower lines.
drawing::Change onLabel(const drawing::Change& change) {
  drawing::Change out = change;
  const std::size_t comma = change.words.find(", ");
  for (std::size_t at = out.words.find(' ', comma == std::string::npos ? 0 : comma + 2);
       at != std::string::npos; at = out.words.find(' ', at)) {
    out.words.replace(at, 1, "\u00A0");
  }
  return out;
}

/// How many states changed to either side, and the greatest change.
struct Tally {
  std::size_t up = 0;
  std::size_t down = 0;
  double greatest = 0;
  std::string example{};

  template <class List, class Say>
  void count(const List& list, const Say& say) {
    bool more = false;
    bool less = false;
    for (const auto& each : list) {
      more = more || each.change.turn == Turn::Better;
      less = less || each.change.turn == Turn::Worse;
      if (std::abs(each.share) > greatest) {
        greatest = std::abs(each.share);
        example = say(each);
      }
    }
    up += more ? 1 : 0;
    down += less ? 1 : 0;
  }
  bool any() const { return up > 0 || down > 0; }
};

}  // namespace

std::optional<std::size_t> sameState(const Solved& solved, std::size_t state, const Solved& other) {
  const bool tried = solved.tried && state + 1 == solved.states();
  if (tried) {
    return other.tried ? std::optional(other.states() - 1) : std::nullopt;
  }
  const base::Id id = solved.assessment->states[state].id;
  for (std::size_t s = 0; s + (other.tried ? 1 : 0) < other.states(); ++s) {
    if (other.assessment->states[s].id == id) {
      return s;
    }
  }
  return std::nullopt;
}

StateComparison compareState(const Solved& now, std::size_t state, const Solved& kept,
                             base::UnitSystem units) {
  StateComparison out;
  if (!now.has(state) || !kept.assessment) {
    return out;
  }
  const std::optional<std::size_t> before = sameState(now, state, kept);
  if (!before || !kept.has(*before)) {
    out.added = true;
    return out;
  }
  const bool solved = now.margins[state].solved;
  const bool was = kept.margins[*before].solved;
  if (!solved || !was) {
    out.solution = solved ? "had no solution" : was ? "has no solution any more" : "";
    return out;
  }
  compareFlows(now.margins[state].ports, kept.margins[*before].ports, units, out.flows);
  compareFlows(now.margins[state].machines, kept.margins[*before].machines, units, out.flows);
  compareRuns(now, state, kept, *before, units, out.runs);
  compareFans(now, state, kept, *before, units, out.fans);
  return out;
}

std::vector<std::string> changeLines(const StateComparison& compared) {
  if (compared.added) {
    return {"This state was not there."};
  }
  if (!compared.solution.empty()) {
    return {fmt::format("This state {}.", compared.solution)};
  }
  std::vector<std::string> out;
  out.reserve(compared.flows.size() + compared.runs.size() + compared.fans.size());
  for (const FlowChange& each : compared.flows) {
    out.push_back(each.label + ": " + each.change.words);
  }
  for (const RunChange& each : compared.runs) {
    out.push_back(each.label + ": " + each.change.words);
  }
  for (const FanChange& each : compared.fans) {
    out.push_back(each.label + ": " + each.now + ", " + each.change.words);
  }
  return out;
}

std::string comparisonText(const Solved& solved, const Solved* kept, base::UnitSystem units) {
  if (kept == nullptr || !kept->assessment || !solved.assessment) {
    return {};
  }
  Tally air;
  Tally chips;
  Tally fans;
  std::vector<std::string> added;
  std::vector<std::string> lost;
  std::vector<std::string> won;
  std::vector<std::string> opened;
  std::vector<std::string> shut;
  for (std::size_t s = 0; s < solved.states(); ++s) {
    const std::string& name = solved.assessment->states[s].name;
    const StateComparison compared = compareState(solved, s, *kept, units);
    if (compared.added) {
      added.push_back(name);
    }
    if (!compared.solution.empty()) {
      (solved.margins[s].solved ? won : lost).push_back(name);
    }
    const auto with = [&](const auto& each) {
      return fmt::format("{}, {}: {}", name, each.label, each.change.words);
    };
    air.count(compared.flows, with);
    chips.count(compared.runs, with);
    fans.count(compared.fans, [&](const FanChange& each) {
      return fmt::format("{} in {}: {}, {}", each.label, name, each.now, each.change.words);
    });
    const auto any = [&](Turn turn) {
      return std::any_of(compared.flows.begin(), compared.flows.end(),
                         [&](const FlowChange& each) { return each.change.turn == turn; });
    };
    if (any(Turn::New)) {
      opened.push_back(name);
    }
    if (any(Turn::Other)) {
      shut.push_back(name);
    }
  }
  std::vector<std::string> gone;
  for (std::size_t s = 0; s < kept->states(); ++s) {
    if (!sameState(*kept, s, solved)) {
      gone.push_back(kept->assessment->states[s].name);
    }
  }
  std::vector<std::string> out;
  if (air.any()) {
    out.push_back(fmt::format("Against what was kept: more air in {}, less in {}. The most: {}.",
                              counted(air.up), counted(air.down), air.example));
  } else {
    out.emplace_back("As it was kept: no open port gets more or less.");
  }
  if (chips.any()) {
    out.push_back(fmt::format("Chips travel better in {}, worse in {}; the most: {}.", counted(chips.up),
                              counted(chips.down), chips.example));
  }
  if (!fans.example.empty()) {
    out.push_back(fmt::format("Fan {}.", fans.example));
  }
  const auto name = [&](const char* words, const std::vector<std::string>& names) {
    if (!names.empty()) {
      out.push_back(fmt::format("{}: {}.", words, listed(names)));
    }
  };
  name("Ports that were shut or not there are open in", opened);
  name("Ports that were open are shut in", shut);
  name("No solution any more", lost);
  name("A solution now", won);
  name("New states", added);
  name("States no longer there", gone);
  // A unit may end with a stop of its own: "in w.g.".
  for (std::string& sentence : out) {
    if (sentence.ends_with("..")) {
      sentence.pop_back();
    }
  }
  return fmt::format("{}", fmt::join(out, " "));
}

void markChanges(drawing::Overlay& overlay, const Solved& now, std::size_t state, const Solved* kept,
                 base::UnitSystem units) {
  if (kept == nullptr || !kept->assessment || !now.has(state)) {
    return;
  }
  const StateComparison compared = compareState(now, state, *kept, units);
  overlay.compared = true;
  if (compared.added) {
    overlay.comparison = "this state was not there when the result was kept";
    return;
  }
  if (!compared.solution.empty()) {
    overlay.comparison = "this state " + compared.solution;
    return;
  }
  for (const RunChange& each : compared.runs) {
    if (const auto mark = overlay.runs.find(each.key); mark != overlay.runs.end()) {
      mark->second.change = onLabel(each.change);
    }
  }
  for (const FlowChange& each : compared.flows) {
    const shop::Project& project = *now.project;
    const auto machine = std::find_if(project.machines.begin(), project.machines.end(),
                                      [&](const shop::Machine& m) { return m.id == each.ref.machine; });
    // A machine with one port speaks for it.
    const bool whole =
        !each.ref.port.valid() || (machine != project.machines.end() && machine->ports.size() == 1);
    auto& marks = whole ? overlay.machines : overlay.ports;
    const auto mark = marks.find(whole ? each.ref.machine : each.ref.port);
    // What machine and port both ask is told by the machine's own need, which comes last.
    if (mark != marks.end()) {
      mark->second.change = onLabel(each.change);
    }
  }
  for (const FanChange& each : compared.fans) {
    if (const auto mark = overlay.fans.find(each.id); mark != overlay.fans.end()) {
      mark->second.change = onLabel(each.change);
    }
  }
}

}  // namespace kerfdraft::desk
