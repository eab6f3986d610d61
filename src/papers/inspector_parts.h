// Tables of the inspector's paper. Private to this room.
#pragma once

#include <string>
#include <string_view>

#include "papers/document.h"
#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// Limits for dust in the air where the shop is, with their dates.
Table limitsTable(const PaperInput& input);

/// Each hood once, in the state in which least is open beside it: intended, predicted, conclusion, places for
/// a pen.
Table hoodsTable(const PaperInput& input);

/// Hoods that get less in another declared state; without rows where there are none.
Table sharedAirTable(const PaperInput& input);

/// Each tap with the pressure and speed to expect there, and places for a pen.
Table tapsTable(const PaperInput& input);

/// Findings by how soon they must be seen to.
Table defectsTable(const PaperInput& input);

/// The day `months` later, the last of a month where that has no such day; empty where `date` is none.
std::string monthsLater(std::string_view date, int months);

}  // namespace kerfdraft::papers
