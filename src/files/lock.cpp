// The lock file: flock() decides on one computer, the name of the host in it between computers.
#include "files/lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <system_error>
#include <utility>

#include "files/json.h"
#include "files/save.h"

namespace kerfdraft::files {
namespace {

using base::ErrorCode;
using std::filesystem::path;

/// Of a lock file's text; a longer one is not ours.
constexpr std::size_t kMostText = 512;

struct Holder {
  std::string host;
  std::string process;
};

std::string hostName() {
  std::array<char, 256> name{};
  return ::gethostname(name.data(), name.size() - 1) == 0 ? std::string(name.data()) : std::string("unknown");
}

Holder holderOf(int fd) {
  std::array<char, kMostText> text{};
  const ssize_t got = ::pread(fd, text.data(), text.size(), 0);
  const std::string_view line(text.data(), got > 0 ? static_cast<std::size_t>(got) : 0);
  const std::size_t space = line.find(' ');
  if (space == std::string_view::npos) {
    return {};
  }
  return {std::string(line.substr(0, space)),
          std::string(line.substr(space + 1, line.find('\n') - space - 1))};
}

/// The name still stands for the file that is open: the holder before us may have removed it meanwhile.
bool stillNamed(int fd, const path& file) {
  struct stat opened {};
  struct stat named {};
  return ::fstat(fd, &opened) == 0 && ::stat(file.c_str(), &named) == 0 && opened.st_ino == named.st_ino &&
         opened.st_dev == named.st_dev;
}

}  // namespace

base::Result<ProjectLock> ProjectLock::take(const path& project) {
  const path file = lockPath(project);
  const auto failed = [&](int error) {
    return base::fail(ErrorCode::Io,
                      fmt::format("the lock file cannot be made: {}", std::generic_category().message(error)),
                      file.string());
  };
  // Each turn is lost only to a holder who let go at this very moment.
  for (int turn = 0; turn < 8; ++turn) {
    const int fd = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (fd < 0) {
      return failed(errno);
    }
    ProjectLock lock(fd, {}, false);  // closes the file, but does not remove it
    const bool free = ::flock(fd, LOCK_EX | LOCK_NB) == 0;
    const int problem = free ? 0 : errno;
    const Holder holder = holderOf(fd);
    if (problem == EWOULDBLOCK) {
      return base::fail(ErrorCode::Conflict,
                        fmt::format("the project is open already, in process {} on {}",
                                    asQuoted(holder.process), asQuoted(holder.host)),
                        project.string());
    }
    if (!free) {
      return failed(problem);
    }
    if (!stillNamed(fd, file)) {
      continue;
    }
    const std::string host = hostName();
    if (!holder.host.empty() && holder.host != host) {
      return base::fail(
          ErrorCode::Conflict,
          fmt::format("the project is open on the computer {} (process {}); if it is not, remove {}",
                      asQuoted(holder.host), asQuoted(holder.process), file.string()),
          project.string());
    }
    const std::string text = fmt::format("{} {}\n", host, ::getpid());
    if (::ftruncate(fd, 0) != 0 ||
        ::pwrite(fd, text.data(), text.size(), 0) != static_cast<ssize_t>(text.size())) {
      return failed(errno);
    }
    lock.file_ = file;
    lock.took_over_ = !holder.host.empty();
    return lock;
  }
  return base::fail(ErrorCode::Conflict, "the project is being opened and closed by others again and again",
                    project.string());
}

ProjectLock::ProjectLock(int fd, path file, bool took_over)
    : fd_(fd), file_(std::move(file)), took_over_(took_over) {}

ProjectLock::ProjectLock(ProjectLock&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)), file_(std::move(other.file_)), took_over_(other.took_over_) {}

ProjectLock& ProjectLock::operator=(ProjectLock&& other) noexcept {
  if (this != &other) {
    release();
    fd_ = std::exchange(other.fd_, -1);
    file_ = std::move(other.file_);
    took_over_ = other.took_over_;
  }
  return *this;
}

ProjectLock::~ProjectLock() {
  release();
}

void ProjectLock::release() noexcept {
  if (fd_ < 0) {
    return;
  }
  if (!file_.empty()) {
    ::unlink(file_.c_str());  // first the name, then the lock: nobody takes a file that is about to go
  }
  ::close(std::exchange(fd_, -1));
}

}  // namespace kerfdraft::files
