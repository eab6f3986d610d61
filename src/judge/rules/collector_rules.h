// Rules about collectors and their fans.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kWeakFan;
extern const Rule kLabelOnly;
extern const Rule kImpossibleLabel;
extern const Rule kBeyondCurve;
extern const Rule kUnstablePart;
extern const Rule kFansHunt;
extern const Rule kMotorOverloaded;
extern const Rule kBlowsBack;
extern const Rule kSuctionTooGreat;
extern const Rule kLooseCollector;

/// In the order in which papers list them.
std::span<const Rule* const> collectorRules();

}  // namespace kerfdraft::judge
