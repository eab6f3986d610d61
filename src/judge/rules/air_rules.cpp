// The list.
#include "judge/rules/air_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> airRules() {
  static constexpr auto kRules =
      std::to_array<const Rule*>({&kNoSolution, &kOpenEnd, &kPortShort, &kWeakIndraught, &kSealedBody,
                                  &kSmallPort, &kBranchRivalry, &kNotTogether});
  return kRules;
}

}  // namespace kerfdraft::judge
