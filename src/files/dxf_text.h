// A DXF text looked through before anything is made of it: every pair of lines is checked, and only what an
// underlay needs is handed on, in a form that cannot upset the reading library.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>

#include "base/result.h"

namespace kerfdraft::files {

struct DxfText {
  std::string clean;                           ///< DXF again: header units, layers, blocks, lines and curves
  std::map<std::string, std::size_t> skipped;  ///< kinds of entity that are not read, with their number
  std::size_t on_paper = 0;                    ///< entities of the printed sheet, not of the drawing itself
};

/// Errors name the line of `text`. `place` is the file's name for them.
base::Result<DxfText> checkDxfText(std::string_view text, const std::string& place);

}  // namespace kerfdraft::files
