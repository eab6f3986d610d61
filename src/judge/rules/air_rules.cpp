// The list.
#include "judge/rules/air_rules.h"

namespace kerfdraft::judge {

std::span<const Rule* const> airRules() {
  return {};
}

}  // namespace kerfdraft::judge
