// What a new gate does to the states that are there: it opens where the air went before. Without Qt.
#pragma once

#include <cstddef>
#include <vector>

#include "shop/edit.h"

namespace kerfdraft::desk {

/// Whether the drawing lets air through a leg in a state: no gate shut on the way, a port or open pipe on one
/// side, a running fan on the other.
bool airGoesThrough(const shop::Project& project, const shop::State& state, const shop::Duct& duct,
                    std::size_t leg);

/// A gate put into a leg that is there: open in every state in which air went through it.
std::vector<shop::Edit> openWhereAirWent(const shop::Project& project, const shop::Duct& duct,
                                         std::size_t leg, base::Id gate);

/// A gate of a duct that is new: open in every state that has no gate shut, so that it stays so. A state of
/// the only gate may be that machine's own, and is left alone.
std::vector<shop::Edit> openWhereNothingIsShut(const shop::Project& project, base::Id gate);

}  // namespace kerfdraft::desk
