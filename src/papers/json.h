// A judgement for other programs: docs/schema/check-1.schema.json.
#pragma once

#include <string>

#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// Findings with their figures, sentences and remedies, groups, and what every open machine gets in every
/// state. SI units, named in the keys; the kind stands beside numbers that have many.
std::string checkJson(const PaperInput& input);

}  // namespace kerfdraft::papers
