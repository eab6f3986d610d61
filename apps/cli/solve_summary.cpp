// The first table of kerfdraft solve: for a person who wants to know where to look.
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "cli/shop_open.h"
#include "cli/solve_writers.h"
#include "cli/text_table.h"

namespace kerfdraft::cli {
namespace {

using base::Kind;
using judge::FlowMargin;
using judge::Served;

constexpr std::size_t kCellWidth = 52;
/// "898 of 800": the target, or the floor where there is none.
std::string got(const FlowMargin& margin, const Shown& shown) {
  const std::optional<double> asked = margin.target_m3_s ? margin.target_m3_s : margin.floor_m3_s;
  return shown.number(Kind::VolumeFlow, margin.flow_m3_s) +
         (asked ? " of " + shown.number(Kind::VolumeFlow, *asked) : std::string());
}

/// What the open ports and machines get; a machine with one figure stands for its ports.
std::vector<std::string> openOnes(const Solved& solved, const judge::StateMargins& margins) {
  std::vector<std::string> list;
  for (const FlowMargin& port : margins.ports) {
    const bool shared =
        std::any_of(margins.machines.begin(), margins.machines.end(),
                    [&](const FlowMargin& machine) { return machine.ref.machine == port.ref.machine; });
    if (port.open && (!shared || port.floor_m3_s || port.target_m3_s)) {
      list.push_back(fmt::format("{} {}{}", port.label, got(port, solved.shown),
                                 port.served == Served::Short ? " (short)" : ""));
    }
  }
  for (const FlowMargin& machine : margins.machines) {
    if (machine.open) {
      list.push_back(fmt::format("{} {}{}", machineName(*solved.assessment.project, machine.ref.machine),
                                 got(machine, solved.shown),
                                 machine.served == Served::Short ? " (short)" : ""));
    }
  }
  return list;
}

std::string chips(const Solved& solved, std::size_t state) {
  const judge::StateMargins& margins = solved.margins[state];
  const judge::RunMargin* worst = nullptr;
  for (const judge::RunMargin& run : margins.runs) {
    if (worst == nullptr || run.ratio < worst->ratio) {
      worst = &run;
    }
  }
  if (worst == nullptr) {
    return {};
  }
  return fmt::format("{}, {} at the slowest", toText(carriedIn(*worst, solved.bands[state])),
                     solved.shown.speed(worst->slowest_m_s));
}

std::string collectors(const Solved& solved, const network::Solution& solution) {
  std::string text;
  for (const network::FanResult& fan : solution.fans) {
    text += (text.empty() ? "" : " + ") + solved.shown.number(Kind::VolumeFlow, fan.inlet_flow_m3_s);
  }
  return text;
}

/// The list broken into cells of a readable width.
std::vector<std::string> cells(const std::vector<std::string>& list) {
  std::vector<std::string> lines;
  for (const std::string& one : list) {
    if (!lines.empty() && shownWidth(lines.back()) + 2 + shownWidth(one) <= kCellWidth) {
      lines.back() += "; " + one;
    } else {
      lines.push_back(one);
    }
  }
  return lines;
}

}  // namespace

Carried carriedIn(const judge::RunMargin& margin, const judge::StateBands& bands) {
  const double upper = margin.run < bands.run_speed.size() ? bands.run_speed[margin.run].high : 1;
  if (upper * margin.slowest_m_s < margin.not_carried_below_m_s) {
    return Carried::LikelySettle;
  }
  if (margin.slowest_m_s < margin.caution_below_m_s) {
    return Carried::MaySettle;
  }
  return margin.ratio < 1 ? Carried::BelowMinimum : Carried::Yes;
}

std::string_view toText(Carried carried) {
  switch (carried) {
    case Carried::Yes:
      return "carried";
    case Carried::BelowMinimum:
      return "below the minimum";
    case Carried::MaySettle:
      return "may settle";
    case Carried::LikelySettle:
      return "likely settle";
  }
  return "";
}

std::string machineName(const shop::Project& project, base::Id machine) {
  for (const shop::Machine& m : project.machines) {
    if (m.id == machine) {
      return m.label.empty() || m.name.empty() ? m.label + m.name : m.label + ' ' + m.name;
    }
  }
  throw base::InternalError("a machine of the margins is not in the project");
}

std::string summaryTable(const Solved& solved) {
  const std::string flow = solved.shown.unit(Kind::VolumeFlow);
  TextTable table({{"state"},
                   {"filter"},
                   {"air at what is open, of what is wanted, " + flow},
                   {"chips"},
                   {"collector, " + flow, Align::Right}});
  bool same_filter = true;
  for (const std::size_t s : solved.states) {
    same_filter = same_filter && solved.assessment.states[s].situation.filter ==
                                     solved.assessment.states[solved.states.front()].situation.filter;
  }
  for (const std::size_t s : solved.states) {
    const judge::StateResult& state = solved.assessment.states[s];
    const std::string filter = same_filter ? std::string() : std::string(toText(state.situation.filter));
    if (!state.solution.solved()) {
      table.row({state.name, filter, "no solution: " + state.solution.why});
      continue;
    }
    if (state.solution.outcome == network::Outcome::Still) {
      table.row({state.name, filter, "no air moves"});
      continue;
    }
    std::vector<std::string> lines = cells(openOnes(solved, solved.margins[s]));
    if (lines.empty()) {
      lines.emplace_back("every port is shut");
    }
    table.row({state.name, filter, lines.front(), chips(solved, s), collectors(solved, state.solution)});
    for (std::size_t i = 1; i < lines.size(); ++i) {
      table.row({"", "", lines[i]});
    }
  }
  return table.text();
}

}  // namespace kerfdraft::cli
