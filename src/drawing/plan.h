// The plan of a shop, true to scale, with what a state of use does to the air in it.
#pragma once

#include <optional>
#include <string>

#include "base/units.h"
#include "drawing/display_list.h"
#include "drawing/overlay.h"
#include "drawing/page.h"
#include "pieces/pieces.h"
#include "shop/project.h"

namespace kerfdraft::drawing {

struct PlanOptions {
  base::UnitSystem units = base::UnitSystem::Us;
  std::optional<Paper> paper;  ///< chosen by scale and room for labels where not given
  TitleBlock title;
  bool furniture = true;  ///< frame, title strip, scale bar; false inside a page that has them itself
  bool legend = true;
  std::optional<Window> window;  ///< a view of it instead of a sheet: then no furniture and no legend
  bool measuring_points = true;  ///< taps and cleanouts
};

/// The plan as a picture. What the paper has no room to label is said in the legend.
Picture drawPlan(const shop::Project& project, const pieces::Pieces& pieces, const Overlay& overlay,
                 const PlanOptions& options);

}  // namespace kerfdraft::drawing
