// What became of a shop since a result that was kept: air, chips, fans and states, each before and after.
// Without Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "desk/solved.h"
#include "drawing/overlay.h"

namespace kerfdraft::desk {

/// A smaller change, as a share of the need (of a fan: of what it moved), would not be seen in the figures.
inline constexpr double kSeenChange = 0.005;

/// The air of a port, or of a machine whose ports share a need. One without a need has no better and worse.
struct FlowChange {
  shop::PortRef ref;  ///< the port is not valid for a whole machine
  std::string label;
  double share = 0;  ///< now less then, of the need
  drawing::Change change;
};

/// The slowest air of a run with chips.
struct RunChange {
  pieces::PieceKey key;
  std::string label;  ///< "D1"
  double share = 0;   ///< now less then, of the minimum
  drawing::Change change;
};

/// The point at which a fan works. To work at another point is neither better nor worse in itself.
struct FanChange {
  base::Id id;
  std::string label;
  double share = 0;  ///< now less then, of what it moved then
  std::string now;   ///< "780 cfm at 7.4 in w.g.", "standing"
  drawing::Change change;
};

/// One state in both results. Only what changed is in it.
struct StateComparison {
  bool added = false;      ///< it was not there
  std::string solution{};  ///< "has no solution any more", "had no solution"; then the lists are empty
  std::vector<FlowChange> flows{};
  std::vector<RunChange> runs{};
  std::vector<FanChange> fans{};
};

/// The same state in another result: by its id, a trial by being one.
std::optional<std::size_t> sameState(const Solved& solved, std::size_t state, const Solved& other);

StateComparison compareState(const Solved& now, std::size_t state, const Solved& kept,
                             base::UnitSystem units);

/// Every change of a state as a line: "T2: less, was 900 cfm". Empty where nothing changed.
std::vector<std::string> changeLines(const StateComparison& compared);

/// What changed in all states, in a few sentences. Empty where nothing was kept.
std::string comparisonText(const Solved& solved, const Solved* kept, base::UnitSystem units);

/// Puts the changes of a state to what a picture shows of it. Does nothing where nothing was kept.
void markChanges(drawing::Overlay& overlay, const Solved& now, std::size_t state, const Solved* kept,
                 base::UnitSystem units);

}  // namespace kerfdraft::desk
