// What a change of the drawing brought, in a sentence: for a remedy that was tried. Without Qt.
#pragma once

#include <string>

#include "desk/solved.h"
#include "judge/finding.h"
#include "judge/rule.h"

namespace kerfdraft::desk {

/// "Settled: D1: air too slow for its chips; from 911 fpm to 3600 fpm at D1. Worse now: …". Both must be
/// judged; `finding` is one of `before`. Worse is what was not found before, or is graver, or a tenth more
/// so; notes do not count.
std::string outcomeOf(const Solved& before, std::size_t finding, const Solved& after,
                      const judge::Voice& voice);

}  // namespace kerfdraft::desk
