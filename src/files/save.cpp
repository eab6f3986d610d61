// Whole files in and out, by the calls of POSIX: the standard streams can neither flush to disk nor tell why
// they failed.
#include "files/save.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>
#include <utility>

#include "files/json.h"

namespace kerfdraft::files {
namespace {

using base::ErrorCode;
using base::Result;
using std::filesystem::path;

base::Failure ioFailure(std::string_view doing, const path& file, int error) {
  return base::fail(ErrorCode::Io,
                    fmt::format("{} failed: {}", doing, std::generic_category().message(error)),
                    file.string());
}

/// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) {
      ::close(fd_);
    }
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }
  /// Closes now; false with errno where the last bytes did not get out.
  bool close() { return ::close(std::exchange(fd_, -1)) == 0; }

 private:
  int fd_;
};

/// A temporary file, removed unless it was renamed.
class Temporary {
 public:
  explicit Temporary(path file) : file_(std::move(file)) {}
  ~Temporary() {
    if (!kept_) {
      ::unlink(file_.c_str());
    }
  }
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;
  const path& file() const { return file_; }
  void keep() { kept_ = true; }

 private:
  path file_;
  bool kept_ = false;
};

bool writeAll(int fd, std::string_view text) {
  while (!text.empty()) {
    const ssize_t done = ::write(fd, text.data(), text.size());
    if (done < 0) {
      if (errno == EINTR) {
        continue;
      }
      return false;
    }
    text.remove_prefix(static_cast<std::size_t>(done));
  }
  return true;
}

/// The file behind a symbolic link, so that saving does not replace the link.
path resolved(const path& file) {
  std::error_code error;
  const path real = std::filesystem::canonical(file, error);
  return error ? file : real;
}

path folderOf(const path& file) {
  return file.has_parent_path() ? file.parent_path() : path(".");
}

path beside(const path& file, std::string_view ending) {
  path other = file;
  other += ending;
  return other;
}

/// Makes the renames last. Some file systems cannot flush a folder; the files are whole all the same.
void flushFolder(const path& folder) {
  const Descriptor fd(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (fd.get() >= 0) {
    ::fsync(fd.get());
  }
}

/// The old file under its second name, by a link renamed over the backup before. Copies where links are not
/// to be had.
Result<void> keepBackup(const path& file) {
  Temporary second(beside(file, fmt::format(".bak-{}", ::getpid())));
  ::unlink(second.file().c_str());
  if (::link(file.c_str(), second.file().c_str()) != 0) {
    std::error_code error;
    if (!std::filesystem::copy_file(file, second.file(), error)) {
      return ioFailure("keeping the previous file", file, error.value());
    }
  }
  const path backup = backupPath(file);
  if (::rename(second.file().c_str(), backup.c_str()) != 0) {
    return ioFailure("keeping the previous file", backup, errno);
  }
  // rename() does nothing where both names are already one file; the second name is then still there.
  return {};
}

}  // namespace

path backupPath(const path& file) {
  return beside(file, ".bak");
}
path autosavePath(const path& file) {
  return beside(file, ".autosave");
}
path lockPath(const path& file) {
  return beside(file, ".lock");
}

Result<std::string> readFile(const path& file, std::size_t most) {
  const Descriptor fd(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (fd.get() < 0) {
    return ioFailure("opening the file", file, errno);
  }
  std::string text;
  std::string block(std::size_t{1} << 16U, '\0');
  for (;;) {
    const ssize_t got = ::read(fd.get(), block.data(), block.size());
    if (got < 0) {
      if (errno == EINTR) {
        continue;
      }
      return ioFailure("reading the file", file, errno);
    }
    if (got == 0) {
      return text;
    }
    text.append(block, 0, static_cast<std::size_t>(got));
    if (text.size() > most) {
      return base::fail(ErrorCode::Range,
                        fmt::format("the file has over {} bytes, the most that is read", most),
                        file.string());
    }
  }
}

Result<void> replaceFile(const path& named, std::string_view text, Backup backup) {
  const path file = resolved(named);
  struct stat old {};
  const bool there = ::stat(file.c_str(), &old) == 0;
  if (there && !S_ISREG(old.st_mode)) {
    return base::fail(ErrorCode::Io, "this is not an ordinary file, so nothing is written over it",
                      named.string());
  }
  if (there && ::access(file.c_str(), W_OK) != 0) {
    return ioFailure("writing the file", named, errno);
  }
  Temporary fresh(beside(file, fmt::format(".new-{}", ::getpid())));
  ::unlink(fresh.file().c_str());  // of a process with our number that was killed
  Descriptor fd(::open(fresh.file().c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (fd.get() < 0) {
    fresh.keep();  // not ours
    return ioFailure("writing in that folder", named, errno);
  }
  if (there && ::fchmod(fd.get(), old.st_mode & 07777U) != 0) {
    return ioFailure("keeping the access rights", named, errno);
  }
  if (!writeAll(fd.get(), text) || ::fsync(fd.get()) != 0 || !fd.close()) {
    return ioFailure("writing the file", named, errno);
  }
  if (there && backup == Backup::Keep) {
    if (Result<void> kept = keepBackup(file); !kept) {
      return kept;
    }
  }
  if (::rename(fresh.file().c_str(), file.c_str()) != 0) {
    return ioFailure("putting the new file in place", named, errno);
  }
  fresh.keep();
  flushFolder(folderOf(file));
  return {};
}

ReadProject loadProject(const path& file) {
  const Result<std::string> text = readFile(file, JsonLimits{}.bytes);
  if (!text) {
    return tl::unexpected(std::vector{text.error()});
  }
  return readProject(*text, file.string());
}

Result<void> saveProject(const shop::Project& project, const path& file) {
  const std::string text = writeProject(project);
  const ReadProject back = readProject(text, file.string());
  if (!back) {
    return base::Failure(back.error().front());
  }
  base::check(*back == project, "a project's text does not read back to the same project");
  return replaceFile(file, text, Backup::Keep);
}

Result<void> saveAutomatically(const shop::Project& project, const path& file) {
  return replaceFile(autosavePath(file), writeProject(project), Backup::None);
}

}  // namespace kerfdraft::files
