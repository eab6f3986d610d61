// A starter shop on disk, in a folder of its own that goes with the test.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "files/save.h"
#include "support/shipped.h"

namespace kerfdraft::cli {

using support::shipped;
using support::starter;
using support::starterRequest;

class StarterOnDisk {
 public:
  explicit StarterOnDisk(std::vector<std::string> machines) {
    std::string pattern = (std::filesystem::temp_directory_path() / "kerfdraft-XXXXXX").string();
    EXPECT_NE(::mkdtemp(pattern.data()), nullptr);
    folder_ = pattern;
    const auto saved = files::saveProject(*starter(std::move(machines)).project, path());
    EXPECT_TRUE(saved) << saved.error().text();
  }
  ~StarterOnDisk() { std::filesystem::remove_all(folder_); }
  StarterOnDisk(const StarterOnDisk&) = delete;
  StarterOnDisk& operator=(const StarterOnDisk&) = delete;

  std::filesystem::path folder() const { return folder_; }
  std::string path() const { return (folder_ / "shop.json").string(); }
  shop::Project project() const { return *files::loadProject(path()); }

 private:
  std::filesystem::path folder_;
};

}  // namespace kerfdraft::cli
