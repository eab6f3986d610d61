// Pictures as SVG: one self-contained file with real text, the same bytes for the same picture.
#pragma once

#include <string>

#include "drawing/display_list.h"

namespace kerfdraft::drawing {

struct SvgOptions {
  bool embed_font =
      true;  ///< the font goes into the file; a page with several pictures carries it once itself
  bool fixed_size = true;       ///< paper size in millimetres; false: as wide as its place in a page
  std::string id_prefix = "k";  ///< of ids in the file, where several pictures share a page
};

/// The whole file, or an <svg> element for a page: both begin with "<svg".
std::string toSvg(const Picture& picture, const SvgOptions& options = {});

/// The style sheet rules (@font-face) that carry the shipped font, for pages that hold pictures.
std::string fontFaceRules();

}  // namespace kerfdraft::drawing
