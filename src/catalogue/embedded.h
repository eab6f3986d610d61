// The shipped CSV files, compiled into the program by cmake/EmbedData.cmake.
#pragma once

#include <span>
#include <string_view>

namespace kerfdraft::catalogue {

/// One file of the data folder.
struct EmbeddedFile {
  std::string_view name;  ///< "bores.csv"
  std::string_view text;
};

/// All shipped files, in the order of the build list.
std::span<const EmbeddedFile> embeddedFiles();

}  // namespace kerfdraft::catalogue
