// The list.
#include "judge/rules/pressure_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> pressureRules() {
  static constexpr auto kRules =
      std::to_array<const Rule*>({&kPathLoss, &kSmallDuct, &kReducerBackwards, &kHoseHeavy, &kHoseSlack,
                                  &kCrowdedInlet, &kCloseElbows, &kSteepEntry, &kOpposedEntries});
  return kRules;
}

}  // namespace kerfdraft::judge
