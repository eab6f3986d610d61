// Follows the air from every open port downstream. Each place must have one way on, so what is found is a
// tree by construction.
#include "hand/tree.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "base/units.h"

namespace kerfdraft::hand {

namespace {

using base::ErrorCode;
using base::fail;
using pieces::NodeKind;

/// A run or a fan that leads on from a node.
struct Way {
  bool is_fan = false;
  std::size_t index = 0;
};

bool freeAir(NodeKind kind) {
  return kind == NodeKind::Outdoors || kind == NodeKind::Room;
}

/// Ways on from every node, in the order of the drawing. Dead ends carry no air.
std::vector<std::vector<Way>> waysOn(const pieces::Pieces& drawing) {
  std::vector<std::vector<Way>> ways(drawing.nodes.size());
  for (std::size_t i = 0; i < drawing.runs.size(); ++i) {
    const pieces::Run& run = drawing.runs[i];
    if (!run.closed && drawing.nodes[run.to].kind != NodeKind::Dead) {
      ways[run.from].push_back({false, i});
    }
  }
  for (std::size_t i = 0; i < drawing.fans.size(); ++i) {
    ways[drawing.fans[i].from].push_back({true, i});
  }
  return ways;
}

base::Result<void> checkStart(const pieces::Pieces& drawing, const DesignFlow& flow) {
  if (flow.run >= drawing.runs.size()) {
    return fail(ErrorCode::Reference, fmt::format("There is no run {} in this drawing.", flow.run));
  }
  const pieces::Run& run = drawing.runs[flow.run];
  if (!std::isfinite(flow.flow_m3_s) || flow.flow_m3_s <= 0) {
    return fail(ErrorCode::Range,
                fmt::format("The design flow is {} m³/s; it must be a number above zero.", flow.flow_m3_s),
                run.label);
  }
  if (run.closed) {
    return fail(ErrorCode::Conflict, "A design flow is given for a run whose start is closed.", run.label);
  }
  const pieces::Node& start = drawing.nodes[run.from];
  if (freeAir(start.kind)) {
    return {};
  }
  for (const pieces::Fan& fan : drawing.fans) {
    if (fan.to == run.from || fan.from == run.from) {
      return fail(ErrorCode::Unsupported,
                  fmt::format("{} blows into or draws from the start of this run; the hand method knows one "
                              "fan at the end of the ducts and no blower in a machine.",
                              fan.label),
                  run.label);
    }
  }
  if (start.kind != NodeKind::Body) {
    return fail(ErrorCode::Conflict,
                "A design flow belongs at a port or an open pipe end; this run begins inside the ducts.",
                run.label);
  }
  return {};
}

std::string nameOf(const pieces::Pieces& drawing, const Way& way) {
  return way.is_fan ? drawing.fans[way.index].label : drawing.runs[way.index].label;
}

/// The one way on from a node that is not free air.
base::Result<Way> onlyWay(const pieces::Pieces& drawing, const std::vector<Way>& ways, std::size_t node) {
  const std::string& label = drawing.nodes[node].label;
  if (drawing.nodes[node].kind == NodeKind::Body) {
    return fail(ErrorCode::Unsupported,
                "A duct leads into this machine; the hand method adds up from machines to the fan.", label);
  }
  if (ways.empty()) {
    return fail(ErrorCode::Conflict, "The air that arrives here has no way on.", label);
  }
  if (ways.size() > 1) {
    return fail(ErrorCode::Unsupported,
                fmt::format("Air can leave here by {} and by {}: a ring main, several outlets or several "
                            "fans. The hand method adds up one path from each port and cannot tell how the "
                            "air divides; solve the network instead.",
                            nameOf(drawing, ways[0]), nameOf(drawing, ways[1])),
                label);
  }
  return ways.front();
}

/// Duct nodes that air can pass between, as far as no gate shuts the way.
class Joined {
 public:
  explicit Joined(std::size_t nodes) : parent_(nodes) {
    for (std::size_t n = 0; n < nodes; ++n) {
      parent_[n] = n;
    }
  }
  std::size_t root(std::size_t node) const {
    while (parent_[node] != node) {
      node = parent_[node];
    }
    return node;
  }
  /// False where they were joined already: the new way closes a ring.
  bool join(std::size_t a, std::size_t b) {
    const std::size_t from = root(a);
    const std::size_t to = root(b);
    parent_[from] = to;
    return from != to;
  }

 private:
  std::vector<std::size_t> parent_;
};

/// Walks from every open port, one step of one front at a time, so that the order is upstream to downstream.
class Walk {
 public:
  explicit Walk(const pieces::Pieces& drawing)
      : drawing_(drawing),
        ways_(waysOn(drawing)),
        feeds_(drawing.runs.size(), 0),
        fed_(drawing.nodes.size(), 0),
        open_(drawing.runs.size(), 0) {
    tree_.flow_m3_s.assign(drawing.runs.size(), 0.0);
  }

  base::Result<Tree> run(std::span<const DesignFlow> flows) {
    for (const DesignFlow& flow : flows) {
      if (auto traced = trace(flow); !traced) {
        return tl::unexpected(traced.error());
      }
    }
    if (auto gathered = checkGathering(); !gathered) {
      return tl::unexpected(gathered.error());
    }
    if (auto tree = checkRings(); !tree) {
      return tl::unexpected(tree.error());
    }
    order(flows);
    return std::move(tree_);
  }

 private:
  /// Adds one port's flow to every run behind it.
  base::Result<void> trace(const DesignFlow& flow) {
    if (auto ok = checkStart(drawing_, flow); !ok) {
      return ok;
    }
    if (open_[flow.run] != 0) {
      return fail(ErrorCode::Conflict, "Two design flows are given for this run.",
                  drawing_.runs[flow.run].label);
    }
    bool behind_fan = false;
    std::size_t steps = 0;
    Way way{false, flow.run};
    while (true) {
      if (++steps > drawing_.runs.size() + drawing_.fans.size()) {
        return fail(ErrorCode::Unsupported,
                    "The air that is followed from here comes round to where it has been; the hand method "
                    "cannot add up a ring.",
                    drawing_.runs[flow.run].label);
      }
      std::size_t node = 0;
      if (way.is_fan) {
        if (auto ok = passFan(way.index, behind_fan); !ok) {
          return ok;
        }
        behind_fan = true;
        node = drawing_.fans[way.index].to;
      } else {
        tree_.flow_m3_s[way.index] += flow.flow_m3_s;
        open_[way.index] = behind_fan ? 2 : 1;
        node = drawing_.runs[way.index].to;
      }
      if (freeAir(drawing_.nodes[node].kind)) {
        break;
      }
      auto next = onlyWay(drawing_, ways_[node], node);
      if (!next) {
        return tl::unexpected(next.error());
      }
      way = *next;
    }
    if (!behind_fan) {
      return fail(ErrorCode::Conflict, "The air from here reaches free air without passing a fan.",
                  drawing_.runs[flow.run].label);
    }
    return {};
  }

  base::Result<void> passFan(std::size_t fan, bool behind_fan) {
    if (behind_fan) {
      return fail(ErrorCode::Unsupported,
                  "This fan stands behind another one; the hand method knows no booster.",
                  drawing_.fans[fan].label);
    }
    if (fan_ && *fan_ != fan) {
      return fail(ErrorCode::Unsupported,
                  fmt::format("The open ports reach this fan and {}; the hand method adds up to one fan. Ask "
                              "for the ports of one of them.",
                              drawing_.fans[*fan_].label),
                  drawing_.fans[fan].label);
    }
    fan_ = fan;
    tree_.fan = fan;
    return {};
  }

  /// Counts the open runs that feed each open run; several may meet at a junction only.
  base::Result<void> checkGathering() {
    for (std::size_t i = 0; i < drawing_.runs.size(); ++i) {
      if (open_[i] == 0) {
        continue;
      }
      const std::size_t node = drawing_.runs[i].to;
      if (freeAir(drawing_.nodes[node].kind)) {
        continue;
      }
      if (++fed_[node] > 1 && drawing_.nodes[node].kind != NodeKind::Junction) {
        return fail(ErrorCode::Conflict,
                    "More than one open run arrives here and there is no branch entry: a moved hose can be "
                    "at one place at a time.",
                    drawing_.nodes[node].label);
      }
      if (!ways_[node].front().is_fan) {
        ++feeds_[ways_[node].front().index];
      }
    }
    return {};
  }

  /// Air does not keep to the drawn direction: where duct leads round to a place of the tree, it comes both
  /// ways. A gate on a run without design flow is shut and parts the ring.
  base::Result<void> checkRings() const {
    const auto inDucts = [&](std::size_t node) {
      return drawing_.nodes[node].kind == NodeKind::Junction || drawing_.nodes[node].kind == NodeKind::Joint;
    };
    Joined joined(drawing_.nodes.size());
    std::vector<std::size_t> closing;
    for (std::size_t i = 0; i < drawing_.runs.size(); ++i) {
      const pieces::Run& run = drawing_.runs[i];
      const bool shut = run.closed || (open_[i] == 0 && hasGate(run));
      if (!shut && inDucts(run.from) && inDucts(run.to) && !joined.join(run.from, run.to)) {
        closing.push_back(i);
      }
    }
    for (const std::size_t ring : closing) {
      for (std::size_t i = 0; i < drawing_.runs.size(); ++i) {
        if (open_[i] != 0 && joined.root(drawing_.runs[i].to) == joined.root(drawing_.runs[ring].to)) {
          return fail(
              ErrorCode::Unsupported,
              "This run closes a ring main: air reaches the fan both ways round. The hand method adds "
              "up one path from each port and cannot tell how the air divides; solve the network "
              "instead.",
              drawing_.runs[ring].label);
        }
      }
    }
    return {};
  }

  static bool hasGate(const pieces::Run& run) {
    return std::any_of(run.pieces.begin(), run.pieces.end(),
                       [](const pieces::Piece& piece) { return piece.gate >= 0; });
  }

  /// Upstream before downstream: a run is listed when all that feed it are.
  void order(std::span<const DesignFlow> flows) {
    std::vector<std::size_t> ready;
    for (const DesignFlow& flow : flows) {
      ready.push_back(flow.run);
    }
    for (std::size_t i = 0; i < ready.size(); ++i) {
      const std::size_t run = ready[i];
      (open_[run] == 2 ? tree_.discharge : tree_.suction).push_back(run);
      std::size_t node = drawing_.runs[run].to;
      if (freeAir(drawing_.nodes[node].kind)) {
        continue;
      }
      Way way = ways_[node].front();
      if (way.is_fan) {
        node = drawing_.fans[way.index].to;
        if (freeAir(drawing_.nodes[node].kind)) {
          continue;
        }
        way = ways_[node].front();
      }
      if (feeds_[way.index] == 0 || --feeds_[way.index] == 0) {
        ready.push_back(way.index);
      }
    }
  }

  const pieces::Pieces& drawing_;
  std::vector<std::vector<Way>> ways_;
  std::vector<int> feeds_;  ///< open runs that lead into each run
  std::vector<int> fed_;    ///< open runs that arrive at each node
  std::vector<char> open_;  ///< 1 before the fan, 2 behind it
  std::optional<std::size_t> fan_;
  Tree tree_;
};

}  // namespace

base::Result<Tree> openTree(const pieces::Pieces& drawing, std::span<const DesignFlow> flows) {
  if (flows.empty()) {
    return fail(ErrorCode::Range, "No port is open: the hand method needs a design flow to start from.");
  }
  return Walk(drawing).run(flows);
}

}  // namespace kerfdraft::hand
