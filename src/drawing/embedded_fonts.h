// The shipped font's files, compiled into the program by cmake/EmbedData.cmake.
#pragma once

#include <span>
#include <string_view>

namespace kerfdraft::drawing {

/// One file of data/fonts.
struct EmbeddedFile {
  std::string_view name;  ///< "kerfdraft-sans-regular.ttf"
  std::string_view text;  ///< its bytes
};

/// Regular, then bold.
std::span<const EmbeddedFile> embeddedFiles();

}  // namespace kerfdraft::drawing
