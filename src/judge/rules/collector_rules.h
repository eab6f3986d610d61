// Rules about collectors and their fans.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> collectorRules();

}  // namespace kerfdraft::judge
