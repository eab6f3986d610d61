// The example projects of the source tree, for tests that look at all of them.
#pragma once

#include <algorithm>
#include <filesystem>
#include <vector>

namespace kerfdraft::support {

/// Their files in the order of their names.
inline std::vector<std::filesystem::path> exampleFiles() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(KERFDRAFT_SOURCE_DIR) / "examples")) {
    if (entry.path().extension() == ".json") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace kerfdraft::support
