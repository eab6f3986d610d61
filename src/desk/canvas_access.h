// The canvas for screen readers: the plan with its things as a list of names and states.
#pragma once

#include "base/id.h"

namespace kerfdraft::desk {

class Canvas;

/// Makes the way known to the toolkit; more than once is as good as once.
void installCanvasAccess();

/// Which child of the canvas a thing is, in reading order; -1 where it is none.
int accessibleChildOf(const Canvas& canvas, base::Id id);

}  // namespace kerfdraft::desk
