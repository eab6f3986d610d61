// Sentences from findings.
#pragma once

#include <string>
#include <vector>

#include "judge/rule.h"

namespace kerfdraft::judge {

struct Said {
  std::string title;  ///< "Too little air at T2 planer": what and where
  std::string what;   ///< what is wrong, with its numbers
  std::string limit;  ///< "Held against 20 m/s: HSG258 (from memory); policy …"; may be empty
  std::vector<std::string> remedies;  ///< what to do, best first, each with gain and price where known
  std::string defer;                  ///< "Ask …", where the finding defers; else empty
};

/// The one way to words, for every reader and both unit systems.
Said say(const Finding& finding, const Voice& voice);

/// What to do, as one sentence in the imperative.
std::string sayRemedy(const Remedy& remedy, const Voice& voice);

}  // namespace kerfdraft::judge
