// Files of the source tree and of the build, for tests.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace kerfdraft::files {

inline std::filesystem::path sourcePath(const std::string& below) {
  return std::filesystem::path(KERFDRAFT_SOURCE_DIR) / below;
}

inline std::string textOf(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A folder of this test program, empty at the start and removed at the end.
class Scratch {
 public:
  explicit Scratch(const std::string& name)
      : path_(std::filesystem::path(KERFDRAFT_BINARY_DIR) / ("scratch-" + name)) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace kerfdraft::files
