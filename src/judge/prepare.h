// The steps that assess() is made of, for whoever shows the first state before the last is solved.
#pragma once

#include <cstddef>

#include "judge/assessment.h"

namespace kerfdraft::judge {

/// Everything but the solutions: built and compiled, every state there and none solved. Errors and the state
/// of a project without states are those of assess().
base::Result<Assessment> prepare(const shop::Project& project, const catalogue::Catalogue& catalogue);

/// Solves one state of a prepared assessment (index in `states`). The numbers do not depend on which other
/// states were solved, nor on the order.
void solveState(Assessment& assessment, std::size_t state);

}  // namespace kerfdraft::judge
