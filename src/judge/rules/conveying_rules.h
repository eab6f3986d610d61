// Rules about chips on their way.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kChipsSettle;
extern const Rule kPartOpenGate;
extern const Rule kScreenedRun;
extern const Rule kStringyHose;
extern const Rule kFlatSack;
extern const Rule kDeadLeg;
extern const Rule kBranchFromBelow;
extern const Rule kAirTooFast;

/// In the order in which papers list them.
std::span<const Rule* const> conveyingRules();

}  // namespace kerfdraft::judge
