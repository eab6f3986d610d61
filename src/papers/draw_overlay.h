// From a solved and judged state to what a picture shows of it.
#pragma once

#include <cstddef>

#include "base/units.h"
#include "drawing/overlay.h"
#include "judge/assessment.h"
#include "judge/bands.h"
#include "judge/margins.h"

namespace kerfdraft::papers {

/// Colours, flows and words of a state. A state without a solution gives only what is open and where hoses
/// are. With the state's bands, labels of machines and collectors say how far the prediction may be off.
drawing::Overlay overlayOf(const judge::Assessment& assessment, std::size_t state,
                           const judge::StateMargins& margins, base::UnitSystem units,
                           const judge::StateBands* bands = nullptr);

}  // namespace kerfdraft::papers
