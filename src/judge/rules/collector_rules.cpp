// The list.
#include "judge/rules/collector_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> collectorRules() {
  static constexpr auto kRules = std::to_array<const Rule*>(
      {&kWeakFan, &kLabelOnly, &kImpossibleLabel, &kBeyondCurve, &kUnstablePart, &kFansHunt,
       &kMotorOverloaded, &kBlowsBack, &kSuctionTooGreat, &kLooseCollector});
  return kRules;
}

}  // namespace kerfdraft::judge
