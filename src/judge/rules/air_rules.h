// Rules about the air at the machines.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kNoSolution;
extern const Rule kOpenEnd;
extern const Rule kPortShort;
extern const Rule kWeakIndraught;
extern const Rule kSealedBody;
extern const Rule kSmallPort;
extern const Rule kBranchRivalry;
extern const Rule kNotTogether;

/// In the order in which papers list them.
std::span<const Rule* const> airRules();

}  // namespace kerfdraft::judge
