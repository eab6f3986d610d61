// Where a number comes from, in words: what the panel "why" shows. Without Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/units.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

/// One thing that a number is made from.
struct WhyInput {
  std::string symbol;  ///< as in the formula
  std::string words;   ///< "bore of D3", "mass flow at the start of D1"
  std::string value;
  std::string origin;  ///< "entered as 6 in; measured; source: …", "another number"
  std::string link;    ///< key of the number that it is; empty where it is none
  base::Id place;      ///< the thing where it was entered; not valid where there is none
};

/// One law on the way.
struct WhyStep {
  std::string name;     ///< "Velocity pressure"
  std::string formula;  ///< in plain text
  std::string with;     ///< "V = 3510 fpm, rho = …"
  std::string result;   ///< "VP = 0.77 in w.g."
  std::string source;   ///< the published source in words and its status
};

struct Explanation {
  std::string problem;  ///< why there is none; then all else but the key is empty
  std::string key;
  std::string name;            ///< "flow at room density into T8 box behind the saw"
  std::string value;           ///< in the reader's units
  std::string state;           ///< of use; empty for the air of the room
  std::vector<WhyStep> steps;  ///< the law that made the number first, then what led to it
  std::vector<WhyInput> inputs;
  std::string doubt;  ///< how sure it is and which assumption moves it most; empty where that is not known
  base::Id place;     ///< the thing that it is a number of; not valid where there is none
};

/// Explains the number of a key (judge::NumberKey::text()).
Explanation explainNumber(const Solved& solved, std::string_view key, base::UnitSystem units);

/// The same number in another state of use; a key that names no state, or cannot be read, stays as it is.
std::string inState(std::string_view key, std::size_t state);

/// The state of use that a key names; nothing for the air, and for what is no key.
std::optional<std::size_t> stateOfNumber(std::string_view key);

/// The same number in a shop that was solved anew: keys count what is drawn, so an edit can move them. Where
/// its state is gone, a trial that was dropped, it is that of the state that is shown instead. Nothing where
/// what it belonged to is gone.
std::optional<std::string> followNumber(const Solved& before, const Solved& after, std::size_t shown,
                                        std::string_view key);

/// A number to choose from.
struct NumberRow {
  std::string key;
  std::string name;
  std::string value;
};

struct NumberList {
  std::vector<NumberRow> rows;
  std::size_t left_out = 0;  ///< more than kMostNumbers were found
};
inline constexpr std::size_t kMostNumbers = 200;

/// Numbers of a state that belong to these things (machines, ports, ducts, gates, collectors, rooms …) and
/// hold the searched words; of the whole shop where no things are given. What is asked for most stands first:
/// ports, fans, slowest air, then the rest.
NumberList numbersOf(const Solved& solved, std::size_t state, const std::set<base::Id>& things,
                     std::string_view search, base::UnitSystem units);

/// The key that asks for a thing's chief number in a state: flow of a port or machine, slowest air of a duct,
/// flow through a collector. Empty where it has none.
std::string chiefNumber(const Solved& solved, std::size_t state, base::Id thing);

}  // namespace kerfdraft::desk
