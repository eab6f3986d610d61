// The bands that findings and drawings take along.
#pragma once

#include <span>
#include <vector>

#include "catalogue/catalogue.h"
#include "doubt/propagate.h"
#include "judge/assessment.h"
#include "judge/bands.h"

namespace kerfdraft::doubt {

/// A spread as factors on its number at kBandDeviations; below zero where its sign is not known, 1 where the
/// number or its spread is zero.
judge::Band bandOf(const Spread& spread);

/// Bands of every state, in their order; empty vectors where a state has none (StateDoubt::defined).
std::vector<judge::StateBands> bandsOf(std::span<const StateDoubt> doubts);

/// The same from an assessment alone, by linear propagation on all cores: 0.1 to 3 ms a state
/// (bench/doubt_bench.cpp). The catalogue is that of the assessment; spreads do not come from it yet.
std::vector<judge::StateBands> assessBands(const judge::Assessment& assessment,
                                           const catalogue::Catalogue& catalogue);

}  // namespace kerfdraft::doubt
