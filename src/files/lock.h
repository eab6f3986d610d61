// One writer a project: a lock file beside it that says who has it.
#pragma once

#include <filesystem>
#include <string>

#include "base/result.h"

namespace kerfdraft::files {

/// Held for as long as the object lives; the lock file is then removed. The operating system lets go of it
/// when the process ends, however it ends.
class ProjectLock {
 public:
  /// Takes the lock of the project at `path`, or says who has it. A lock that a crashed process of this
  /// computer left behind is taken over; one of another computer is not, since nothing tells whether it is
  /// still used.
  static base::Result<ProjectLock> take(const std::filesystem::path& path);

  ProjectLock(ProjectLock&& other) noexcept;
  ProjectLock& operator=(ProjectLock&& other) noexcept;
  ProjectLock(const ProjectLock&) = delete;
  ProjectLock& operator=(const ProjectLock&) = delete;
  ~ProjectLock();

  /// A process before this one ended without closing the project; its autosave may hold more than the file.
  bool tookOver() const { return took_over_; }

 private:
  ProjectLock(int fd, std::filesystem::path file, bool took_over);
  void release() noexcept;

  int fd_ = -1;
  std::filesystem::path file_;
  bool took_over_ = false;
};

}  // namespace kerfdraft::files
