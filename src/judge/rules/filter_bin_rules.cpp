// The list.
#include "judge/rules/filter_bin_rules.h"

#include <array>

namespace kerfdraft::judge {

std::span<const Rule* const> filterBinRules() {
  static constexpr auto kRules = std::to_array<const Rule*>(
      {&kFilterLoaded, &kFilterDue, &kFilterAreaUnknown, &kBinFills, &kBinUnknown, &kNoGauge, &kNoTap});
  return kRules;
}

}  // namespace kerfdraft::judge
