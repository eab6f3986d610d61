// Rules about filters and bins.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> filterBinRules();

}  // namespace kerfdraft::judge
