// Any number of an assessment, explained: the laws that made it, replayed with a recorder, and where each of
// their inputs comes from. Inputs that are numbers themselves are named by their keys and expanded only when
// asked for.
#pragma once

#include <string_view>

#include "base/law.h"
#include "base/result.h"
#include "judge/assessment.h"
#include "judge/number_key.h"

namespace kerfdraft::judge {

/// Explains the number of a key ("state/2/run/4/piece/3/loss"). The derivation's value is the replayed one
/// and equals the solution's to the bit (Explain.ReplaysEveryNumber); its last step is the law that made it.
/// What a solver finds (flows, pressures at nodes) is explained by the conditions that it meets.
/// Errors: those of parseNumberKey() and numberOf().
base::Result<base::Derivation> explain(const Assessment& assessment, std::string_view key);

}  // namespace kerfdraft::judge
