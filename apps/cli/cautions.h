// Cautions about carbon monoxide, fire and fine dust, said at the place where they matter. A caution is no
// judgement of what is allowed: it sends the reader to local rules and licensed trades.
#pragma once

#include <string>
#include <vector>

#include "judge/assessment.h"

namespace kerfdraft::cli {

/// Short lines for the states that are shown, the gravest first; none where nothing applies.
std::vector<std::string> cautions(const judge::Assessment& assessment,
                                  const std::vector<std::size_t>& states);

}  // namespace kerfdraft::cli
