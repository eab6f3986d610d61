// Numbers in a finding's sentence that can say where they come from. Without Qt.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "desk/models/finding_list.h"
#include "desk/solved.h"
#include "judge/finding.h"
#include "judge/rule.h"

namespace kerfdraft::desk {

/// A sentence cut at its numbers. A number gets a key only where a number of the solution is the finding's
/// figure to 1e-9 of it; limits and what people entered get none.
std::vector<TextPart> askable(const Solved& solved, const judge::Finding& finding, std::string_view sentence,
                              const judge::Voice& voice);

}  // namespace kerfdraft::desk
