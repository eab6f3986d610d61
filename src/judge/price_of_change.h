// Roughly what the material of a change costs, from the catalogue's recalled prices. Private to this room.
#pragma once

#include <optional>

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// Material of what differs between the two drawings: duct, hose, gates, elbows and branch fittings that got
/// another size or form. Zero for what is done by hand; nothing where the catalogue has no price for a part.
/// Reducers, cuffs and labour are not counted.
std::optional<PriceBand> priceOfChange(const Evidence& evidence, const Change& change,
                                       const Assessment& changed);

}  // namespace kerfdraft::judge
