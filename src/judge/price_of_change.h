// Roughly what the material of a change costs, from the catalogue's recalled prices. Private to this room.
#pragma once

#include <optional>

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// Zero for what is done by hand; nothing where the catalogue has no price for it.
std::optional<PriceBand> priceOfChange(const Evidence& evidence, const Change& change);

}  // namespace kerfdraft::judge
