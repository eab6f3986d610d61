// An isometric sketch of the ducts to hang them by: lengths between corners, heights, gates and taps with
// their distances.
#pragma once

#include <optional>

#include "drawing/display_list.h"
#include "drawing/overlay.h"
#include "drawing/page.h"
#include "shop/project.h"

namespace kerfdraft::drawing {

struct IsometricOptions {
  base::UnitSystem units = base::UnitSystem::Us;
  std::optional<Paper> paper;  ///< chosen by scale and room for labels where not given
  TitleBlock title;
  bool furniture = true;
  bool legend = true;
  std::optional<Window> window;  ///< a view of it instead of a sheet: then no furniture and no legend
  double turned_rad = 0;         ///< of the shop, anticlockwise from above
  bool graded = false;           ///< ducts in the colours of the overlay
  bool lengths = true;           ///< lengths and heights are said
};

/// Seen from the south-east and above: east runs down to the right, north up to the right. Lengths are true
/// along the three axes. Of the overlay only where moved hoses lie is used, and the grades where asked for.
Picture drawIsometric(const shop::Project& project, const Overlay& overlay, const IsometricOptions& options);

}  // namespace kerfdraft::drawing
