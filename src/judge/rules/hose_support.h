// What the two rules about hose share: the hose of a duct, how long it is, how short it could be. Private to
// judge/rules.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "judge/evidence.h"

namespace kerfdraft::judge {

/// One hose of a duct, from the corner where it is given to where another leg or the end comes.
struct DrawnHose {
  const shop::Duct* duct = nullptr;
  std::size_t corner = 0;
  const shop::Hose* hose = nullptr;
  double built_m = 0;  ///< as installed
  double reach_m = 0;  ///< straight from end to end
};
std::vector<DrawnHose> hosesOf(const shop::Duct& duct);

/// Half of it, or as short as it can be; nothing where it is hardly longer than that.
std::optional<Remedy> shorterHose(const DrawnHose& hose);

/// Tight and smooth instead; nothing where it is so.
std::optional<Remedy> tightHose(const shop::Duct& duct);

}  // namespace kerfdraft::judge
