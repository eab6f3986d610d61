// Rules about the room and the people in it.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

/// In the order in which papers list them.
std::span<const Rule* const> peopleRules();

}  // namespace kerfdraft::judge
