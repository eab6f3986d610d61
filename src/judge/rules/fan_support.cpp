// Ways from fans, filters and ports to what was drawn and back.
#include "judge/rules/fan_support.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace kerfdraft::judge {

namespace {

/// Below this a port's air stands: its flow cannot be scaled to what it needs [m3/s], 0.2 cfm (ours).
constexpr double kStill_m3_s = 1e-4;
constexpr double kMostBadness = 10;

std::optional<double> neededBy(const FlowMargin& margin) {
  if (!margin.open || margin.flow_m3_s < kStill_m3_s) {
    return std::nullopt;
  }
  if (margin.floor_m3_s && margin.flow_m3_s < *margin.floor_m3_s) {
    return *margin.floor_m3_s;
  }
  if (margin.target_m3_s && margin.flow_m3_s < kTargetShare * *margin.target_m3_s) {
    return kTargetShare * *margin.target_m3_s;
  }
  return std::nullopt;
}

bool missesFloor(const FlowMargin& margin) {
  return margin.floor_m3_s ? margin.flow_m3_s < *margin.floor_m3_s : margin.served == Served::Short;
}

}  // namespace

std::optional<FanEntry> enteredFan(const Evidence& evidence, std::size_t fan) {
  const base::Id id = evidence.pieces().fans[fan].id;
  if (const shop::Collector* collector = evidence.collector(id)) {
    return FanEntry{&collector->rating, &collector->motor, collector};
  }
  for (const shop::Machine& machine : evidence.project().machines) {
    if (machine.blower && machine.blower->id == id) {
      return FanEntry{&machine.blower->rating, &machine.blower->motor, nullptr};
    }
  }
  return std::nullopt;
}

double inletDensity(const Evidence& evidence, const network::FanResult& result) {
  return result.inlet_flow_m3_s != 0 ? result.flow_kg_s / result.inlet_flow_m3_s
                                     : evidence.pieces().air.density_kg_m3;
}

std::optional<std::size_t> collectorFan(const Evidence& evidence, std::size_t state, std::size_t port) {
  const std::optional<Sheet>& sheet = evidence.sheets[state][port];
  if (!sheet) {
    return std::nullopt;
  }
  for (const SheetFan& fan : sheet->fans) {
    if (evidence.pieces().fans[fan.fan].key.role == pieces::Role::Fan) {
      return fan.fan;
    }
  }
  return std::nullopt;
}

std::vector<std::size_t> portsOn(const Evidence& evidence, std::size_t state, std::size_t fan) {
  std::vector<std::size_t> ports;
  for (std::size_t p = 0; p < evidence.sheets[state].size(); ++p) {
    if (collectorFan(evidence, state, p) == fan) {
      ports.push_back(p);
    }
  }
  return ports;
}

std::vector<Lack> lacks(const Evidence& evidence, std::size_t state) {
  const StateMargins& margins = evidence.margins[state];
  std::vector<std::optional<Lack>> by_port(evidence.pieces().ports.size());
  for (const FlowMargin& margin : margins.ports) {
    const std::optional<double> needed = neededBy(margin);
    if (needed && margin.port) {
      const double high = evidence.flowBand(state, *margin.port).high;
      by_port[*margin.port] = Lack{*margin.port, margin.flow_m3_s, *needed, missesFloor(margin),
                                   margin.flow_m3_s * high < *needed};
    }
  }
  // A machine's one requirement is shared as its ports share the air now.
  for (const FlowMargin& machine : margins.machines) {
    const std::optional<double> needed = neededBy(machine);
    if (!needed) {
      continue;
    }
    for (const FlowMargin& port : margins.ports) {
      if (port.ref.machine != machine.ref.machine || !port.open || !port.port ||
          port.flow_m3_s < kStill_m3_s) {
        continue;
      }
      const double share_m3_s = port.flow_m3_s * *needed / machine.flow_m3_s;
      std::optional<Lack>& lack = by_port[*port.port];
      if (!lack || lack->needed_m3_s < share_m3_s) {
        const double high = evidence.flowBand(state, *port.port).high;
        lack = Lack{*port.port, port.flow_m3_s, share_m3_s, missesFloor(machine),
                    port.flow_m3_s * high < share_m3_s};
      }
    }
  }
  std::vector<Lack> out;
  for (const std::optional<Lack>& lack : by_port) {
    if (lack) {
      out.push_back(*lack);
    }
  }
  return out;
}

std::optional<double> servedFrom(const FlowMargin& margin) {
  if (margin.floor_m3_s) {
    return margin.floor_m3_s;
  }
  return margin.target_m3_s ? std::optional(kTargetShare * *margin.target_m3_s) : std::nullopt;
}

std::optional<FilterSpot> filterSpot(const pieces::Pieces& drawing, base::Id filter) {
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    for (std::size_t i = 0; i < drawing.runs[r].pieces.size(); ++i) {
      const pieces::PieceKey& key = drawing.runs[r].pieces[i].key;
      if (key.role == pieces::Role::Filter && key.a == filter) {
        return FilterSpot{r, i};
      }
    }
  }
  return std::nullopt;
}

std::optional<FilterAir> filterAir(const pieces::Pieces& drawing, const network::Solution& solution,
                                   base::Id filter) {
  const std::optional<FilterSpot> spot = filterSpot(drawing, filter);
  if (!spot || !solution.solved()) {
    return std::nullopt;
  }
  const network::PieceResult& piece = solution.runs[spot->run].pieces[spot->piece];
  if (!(piece.density_kg_m3 > 0)) {
    return std::nullopt;
  }
  const int place = drawing.runs[spot->run].pieces[spot->piece].filter;
  const double in_curve_pa_s_m3 =
      place >= 0 ? drawing.filters[static_cast<std::size_t>(place)].in_curve_pa_s_m3 : 0;
  const double flow_m3_s = std::abs(piece.flow_kg_s) / piece.density_kg_m3;
  return FilterAir{flow_m3_s, std::abs(piece.loss_pa) + in_curve_pa_s_m3 * flow_m3_s};
}

bool returnsToRoom(const pieces::Pieces& drawing, std::size_t fan) {
  std::vector<char> seen(drawing.nodes.size(), 0);
  std::vector<std::size_t> nodes{drawing.fans[fan].to};
  while (!nodes.empty()) {
    const std::size_t node = nodes.back();
    nodes.pop_back();
    if (seen[node] != 0) {
      continue;
    }
    seen[node] = 1;
    const pieces::NodeKind kind = drawing.nodes[node].kind;
    if (kind == pieces::NodeKind::Room) {
      return true;
    }
    if (kind == pieces::NodeKind::Outdoors) {
      continue;
    }
    for (const pieces::Run& run : drawing.runs) {
      if (run.from == node) {
        nodes.push_back(run.to);
      }
    }
    for (const pieces::Fan& next : drawing.fans) {
      if (next.from == node) {
        nodes.push_back(next.to);
      }
    }
  }
  return false;
}

std::optional<std::size_t> fanOf(const pieces::Pieces& drawing, base::Id collector) {
  for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
    if (drawing.fans[f].id == collector) {
      return f;
    }
  }
  return std::nullopt;
}

Limit limitOf(const catalogue::Origin& origin, double value, base::Kind kind, std::string policy) {
  return {value, kind, origin.source == "no source" ? std::string() : origin.source, origin.status,
          std::move(policy)};
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += i == 0 ? "" : (i + 1 == words.size() ? " and " : ", ");
    out += words[i];
  }
  return out;
}

std::string listedFrom(const Finding& finding, std::size_t first) {
  const std::size_t from = std::min(first, finding.words.size());
  return listed({finding.words.begin() + static_cast<std::ptrdiff_t>(from), finding.words.end()});
}

std::string oneStop(std::string text) {
  for (std::size_t at = text.find(".."); at != std::string::npos; at = text.find("..", at)) {
    text.erase(at, 1);
  }
  return text;
}

bool answersForOthers(const shop::Project& project) {
  return project.setting.who == shop::Who::Employer || project.setting.who == shop::Who::School;
}

std::string fanLabel(const Evidence& evidence, std::size_t fan) {
  const shop::Collector* collector = evidence.collector(evidence.pieces().fans[fan].id);
  if (collector == nullptr || (collector->label.empty() && collector->name.empty())) {
    return evidence.pieces().fans[fan].label;
  }
  return collector->label.empty() ? collector->name : collector->label;
}

Finding aboutFan(const Evidence& evidence, std::size_t fan) {
  Finding finding;
  finding.key = evidence.pieces().fans[fan].key;
  finding.label = fanLabel(evidence, fan);
  return finding;
}

double badnessOf(double ratio) {
  return std::clamp(ratio - 1, 0.0, kMostBadness);
}

void sortByLabel(std::vector<std::string>& names) {
  const auto parts = [](const std::string& name) {
    const std::size_t digit = name.find_first_of("0123456789");
    const std::size_t letters = std::min(digit, name.find(' '));
    const bool numbered = digit != std::string::npos && letters == digit;
    constexpr std::size_t kMostDigits = 9;
    const std::size_t end = numbered ? name.find_first_not_of("0123456789", digit) : digit;
    const std::string number = numbered ? name.substr(digit, std::min(end - digit, kMostDigits)) : "0";
    return std::tuple(name.substr(0, letters), std::stol(number), name);
  };
  std::sort(names.begin(), names.end(),
            [&](const std::string& a, const std::string& b) { return parts(a) < parts(b); });
}

}  // namespace kerfdraft::judge
