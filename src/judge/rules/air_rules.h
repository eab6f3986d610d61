// Rules about the air at the machines.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> airRules();

}  // namespace kerfdraft::judge
