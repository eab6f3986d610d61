// What must be said beside numbers even where nobody asked for a verdict: the gravest of what the rules about
// rooms and people find, in the owner's words.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/units.h"
#include "catalogue/catalogue.h"
#include "judge/assessment.h"

namespace kerfdraft::judge {

/// Short lines, the gravest first; none where nothing applies. What is severe or serious is told whatever
/// states are shown, the rest of these subjects for `states` (indices in Assessment::states): flue gas, a
/// room drawn down, sanding dust, returned air, others at work. Solves nothing. Errors: those of
/// TransportNeeds::of().
base::Result<std::vector<std::string>> cautionLines(const Assessment& assessment,
                                                    const catalogue::Catalogue& catalogue,
                                                    const std::vector<std::size_t>& states,
                                                    base::UnitSystem units);

}  // namespace kerfdraft::judge
