// The list.
#include "judge/rules/conveying_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> conveyingRules() {
  static constexpr auto kRules =
      std::to_array<const Rule*>({&kChipsSettle, &kPartOpenGate, &kScreenedRun, &kStringyHose, &kFlatSack,
                                  &kDeadLeg, &kBranchFromBelow, &kAirTooFast});
  return kRules;
}

}  // namespace kerfdraft::judge
