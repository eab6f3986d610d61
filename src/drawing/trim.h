// Empty paper above and below a picture taken away, for a page that has none to spare.
#pragma once

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

/// Cuts the picture's height to what is drawn, with a rim; its width and its scale stay. The paper itself, a
/// filled sheet as large as the picture, counts for nothing. A picture without shapes stays as it is.
void trimHeight(Picture& picture, double rim_mm);

}  // namespace kerfdraft::drawing
