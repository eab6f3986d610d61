// From a solved and judged state to what a picture shows of it.
#pragma once

#include <cstddef>

#include "base/units.h"
#include "drawing/overlay.h"
#include "judge/assessment.h"
#include "judge/margins.h"

namespace kerfdraft::cli {

/// Colours, flows and words of a state. A state without a solution gives only what is open and where hoses
/// are.
drawing::Overlay overlayOf(const judge::Assessment& assessment, std::size_t state,
                           const judge::StateMargins& margins, base::UnitSystem units);

}  // namespace kerfdraft::cli
