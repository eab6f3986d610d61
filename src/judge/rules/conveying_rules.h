// Rules about chips on their way.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> conveyingRules();

}  // namespace kerfdraft::judge
