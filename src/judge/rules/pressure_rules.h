// Rules about where the pressure goes.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kPathLoss;
extern const Rule kSmallDuct;
extern const Rule kReducerBackwards;
extern const Rule kHoseHeavy;
extern const Rule kHoseSlack;
extern const Rule kCrowdedInlet;
extern const Rule kCloseElbows;
extern const Rule kSteepEntry;
extern const Rule kOpposedEntries;

/// In the order in which papers list them.
std::span<const Rule* const> pressureRules();

}  // namespace kerfdraft::judge
