// The list.
#include "judge/rules/filter_bin_rules.h"

namespace kerfdraft::judge {

std::span<const Rule* const> filterBinRules() {
  return {};
}

}  // namespace kerfdraft::judge
