// Rules about where the pressure goes.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> pressureRules();

}  // namespace kerfdraft::judge
