// What a remedy would bring: the changed shop is solved again.
#pragma once

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// Fills in gain and price of every remedy that has a change, and puts the best first: those that cure, those
/// that cannot be tried, those that bring a tenth or more, then the rest; within these by gain over price.
/// What brings nothing is left out where there is another. A change that is refused or leaves no solution
/// keeps no gain.
void tryRemedies(const Evidence& evidence, Finding& finding);

/// What the number that a finding is about becomes with a change made, in its state (for a finding of the
/// drawing itself: in the state where that number is least): the slowest speed of its first run where it is
/// held against a speed or has no port, else the flow of its first port; of the gaps of a body the speed in
/// them, of a room the pressure in it.
/// Nothing where it has none of these, or the changed shop has no solution there.
std::optional<Gain> tryChange(const Evidence& evidence, const Finding& finding, const Change& change);

/// What that number was in one build of the shop and is in another, both read in the finding's state (by its
/// id). Never said to cure. Nothing where the state or the place is gone, or a state has no solution.
std::optional<Gain> gainBetween(const Assessment& before, const Finding& finding, const Assessment& after);

}  // namespace kerfdraft::judge
