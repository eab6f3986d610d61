// Rules about filters and bins.
#pragma once

#include "judge/rule.h"

namespace kerfdraft::judge {

extern const Rule kFilterLoaded;
extern const Rule kFilterDue;
extern const Rule kFilterAreaUnknown;
extern const Rule kBinFills;
extern const Rule kBinUnknown;
extern const Rule kNoGauge;
extern const Rule kNoTap;

/// In the order in which papers list them.
std::span<const Rule* const> filterBinRules();

}  // namespace kerfdraft::judge
