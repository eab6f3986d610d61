// Undo keeps whole projects: they are values, and what did not change in them costs a copy once.
#include "desk/document.h"

#include <QRandomGenerator>
#include <QTimer>
#include <QUndoCommand>
#include <algorithm>
#include <string>
#include <string_view>

#include "files/project_file.h"
#include "files/save.h"

namespace kerfdraft::desk {

using base::Result;

namespace {

constexpr int kLookSoon_ms = 250;

std::filesystem::path folderOf(const std::filesystem::path& file) {
  std::error_code error;
  const std::filesystem::path whole = std::filesystem::absolute(file, error);
  return (error ? file : whole).parent_path().lexically_normal();
}

/// Shortly where it lies in the folder or below it, else with its whole path.
std::string nameFrom(const std::filesystem::path& folder, const std::filesystem::path& file) {
  std::error_code error;
  const std::filesystem::path whole = std::filesystem::absolute(file, error).lexically_normal();
  const std::filesystem::path near = whole.lexically_relative(folder);
  const bool below = !error && !folder.empty() && !near.empty() && *near.begin() != "..";
  return (below ? near : whole).generic_string();
}

}  // namespace

class Document::Step : public QUndoCommand {
 public:
  Step(Document& document, std::shared_ptr<const shop::Project> after, const QString& words, int gesture)
      : QUndoCommand(words),
        document_(document),
        before_(document.project_),
        after_(std::move(after)),
        gesture_(gesture) {}

  void undo() override { document_.set(before_); }
  void redo() override { document_.set(after_); }
  int id() const override { return gesture_ == 0 ? -1 : gesture_; }
  bool mergeWith(const QUndoCommand* later) override {
    after_ = static_cast<const Step*>(later)->after_;
    setObsolete(*before_ == *after_);
    return true;
  }

 private:
  Document& document_;
  std::shared_ptr<const shop::Project> before_;
  std::shared_ptr<const shop::Project> after_;
  int gesture_;
};

Document::Document(QObject* parent) : QObject(parent), project_(std::make_shared<const shop::Project>()) {
  connect(&undo_, &QUndoStack::cleanChanged, this, [this](bool clean) {
    if (clean) {
      forgetAutosave();
    }
    emit fileChanged();
  });
  // A program that writes makes several events of it, and the file is whole only after the last.
  const auto look_soon = [this] { QTimer::singleShot(kLookSoon_ms, this, &Document::lookOnDisk); };
  connect(&watcher_, &QFileSystemWatcher::fileChanged, this, look_soon);
  connect(&watcher_, &QFileSystemWatcher::directoryChanged, this, look_soon);
}

Document::~Document() {
  undo_.disconnect(this);
}

void Document::set(std::shared_ptr<const shop::Project> project) {
  project_ = std::move(project);
  emit projectChanged();
}

Result<void> Document::make(const QString& words, std::span<const shop::Edit> edits, int gesture) {
  if (read_only_) {
    return base::fail(base::ErrorCode::Conflict,
                      "this project is open for reading only; save it under another name to change it",
                      path_.filename().string());
  }
  Result<shop::Project> edited = shop::applyEdits(*project_, edits);
  if (!edited) {
    return base::Failure(edited.error());
  }
  if (*edited != *project_) {
    undo_.push(new Step(*this, std::make_shared<const shop::Project>(std::move(*edited)), words, gesture));
  }
  return {};
}

Result<void> Document::make(const QString& words, const shop::Edit& edit, int gesture) {
  return make(words, std::span<const shop::Edit>(&edit, 1), gesture);
}

void Document::replace(const QString& words, const shop::Project& project) {
  undo_.push(new Step(*this, std::make_shared<const shop::Project>(project), words, 0));
}

base::Id Document::newId() {
  std::uint64_t bits = 0;
  while (bits == 0) {
    bits = QRandomGenerator::global()->generate64();
  }
  return base::Id(bits);
}

void Document::startNew(const shop::Project& project) {
  // While the old name still holds: what is given up here is that of the old project.
  forgetAutosave();
  undo_.clear();
  lock_.reset();
  path_.clear();
  folders_.clear();
  unnamed_.clear();
  on_disk_.reset();
  read_only_ = false;
  set(std::make_shared<const shop::Project>(project));
  watch();
  emit fileChanged();
}

tl::expected<void, std::vector<base::Error>> Document::open(const std::filesystem::path& path) {
  files::ReadProject read = files::loadProject(path);
  if (!read) {
    return tl::unexpected(std::move(read.error()));
  }
  // While the old name still holds: what is given up here is that of the old project.
  forgetAutosave();
  undo_.clear();
  lock_.reset();
  if (Result<files::ProjectLock> lock = files::ProjectLock::take(path)) {
    lock_.emplace(std::move(*lock));
  }
  read_only_ = !lock_.has_value();
  path_ = path;
  folders_ = {folderOf(path)};
  unnamed_.clear();
  set(std::make_shared<const shop::Project>(std::move(*read)));
  on_disk_ = project_;
  watch();
  emit fileChanged();
  return {};
}

Result<void> Document::save() {
  if (path_.empty()) {
    return base::fail(base::ErrorCode::Io, "the project has no file name yet");
  }
  if (read_only_) {
    return base::fail(base::ErrorCode::Io, "another window has this project; save it under another name",
                      path_.filename().string());
  }
  nameUnderlayFrom(path_);
  if (Result<void> saved = files::saveProject(*project_, path_); !saved) {
    return saved;
  }
  on_disk_ = project_;
  forgetAutosave();
  undo_.setClean();
  watch();
  emit fileChanged();
  return {};
}

Result<void> Document::saveAs(const std::filesystem::path& path) {
  const bool same = !path_.empty() && !read_only_ && path == path_;
  if (same) {
    return save();
  }
  Result<files::ProjectLock> lock = files::ProjectLock::take(path);
  if (!lock) {
    return base::Failure(lock.error());
  }
  nameUnderlayFrom(path);
  if (Result<void> saved = files::saveProject(*project_, path); !saved) {
    return saved;
  }
  // What was saved by itself under the name before is here now.
  forgetAutosave();
  lock_.emplace(std::move(*lock));
  path_ = path;
  folders_.push_back(folderOf(path));
  unnamed_.clear();
  on_disk_ = project_;
  read_only_ = false;
  // And what lay beside the file that was replaced is older than it.
  forgetAutosave();
  undo_.setClean();
  watch();
  emit fileChanged();
  return {};
}

std::filesystem::path Document::besideProject(const std::string& file) const {
  std::filesystem::path named(file);
  if (file.empty() || named.is_absolute()) {
    return named;
  }
  std::error_code ignored;
  for (auto folder = folders_.rbegin(); folder != folders_.rend(); ++folder) {
    if (std::filesystem::exists(*folder / named, ignored)) {
      return *folder / named;
    }
  }
  return folders_.empty() ? named : folders_.back() / named;
}

std::string Document::nameOf(const std::filesystem::path& file) const {
  return path_.empty() ? nameFrom({}, file) : nameFrom(folderOf(path_), file);
}

void Document::nameUnderlayFrom(const std::filesystem::path& path) {
  if (!project_->underlay) {
    return;
  }
  std::string name = nameFrom(folderOf(path), besideProject(project_->underlay->file));
  if (name != project_->underlay->file) {
    // No step of undo: the same file is meant, only from another folder.
    shop::Project renamed = *project_;
    renamed.underlay->file = std::move(name);
    set(std::make_shared<const shop::Project>(std::move(renamed)));
  }
}

void Document::autosave() {
  if (!isUnsaved() || read_only_) {
    return;
  }
  if (path_.empty() && unnamed_.empty()) {
    if (unnamed_folder_.empty()) {
      return;
    }
    std::error_code ignored;
    std::filesystem::create_directories(unnamed_folder_, ignored);
    constexpr int kMostUnnamed = 100;
    for (int n = 1; n <= kMostUnnamed && unnamed_.empty(); ++n) {
      const std::filesystem::path candidate = unnamed_folder_ / ("unnamed-" + std::to_string(n) + ".json");
      // Another one's work is never written over.
      if (std::filesystem::exists(files::autosavePath(candidate), ignored)) {
        continue;
      }
      if (Result<files::ProjectLock> lock = files::ProjectLock::take(candidate)) {
        lock_.emplace(std::move(*lock));
        unnamed_ = candidate;
      }
    }
    if (unnamed_.empty()) {
      return;
    }
  }
  // Nothing can be done here about a full disk; the save that a person asks for says it.
  static_cast<void>(files::saveAutomatically(*project_, path_.empty() ? unnamed_ : path_));
}

void Document::forgetAutosave() {
  const std::filesystem::path& file = path_.empty() ? unnamed_ : path_;
  if (file.empty() || read_only_) {
    return;
  }
  std::error_code ignored;
  std::filesystem::remove(files::autosavePath(file), ignored);
  if (path_.empty()) {
    lock_.reset();
    unnamed_.clear();
  }
}

tl::expected<void, std::vector<base::Error>> Document::readAnew() {
  files::ReadProject read = files::loadProject(path_);
  if (!read) {
    return tl::unexpected(std::move(read.error()));
  }
  forgetAutosave();
  undo_.clear();
  set(std::make_shared<const shop::Project>(std::move(*read)));
  on_disk_ = project_;
  watch();
  emit fileChanged();
  return {};
}

void Document::keepMine() {
  files::ReadProject read = files::loadProject(path_);
  // Nothing to compare with where it is gone or broken: the next save puts it there again.
  on_disk_ = read ? std::make_shared<const shop::Project>(std::move(*read)) : nullptr;
  undo_.resetClean();
  emit fileChanged();
}

void Document::watch() {
  if (!watcher_.files().isEmpty()) {
    watcher_.removePaths(watcher_.files());
  }
  if (!watcher_.directories().isEmpty()) {
    watcher_.removePaths(watcher_.directories());
  }
  std::error_code error;
  const std::filesystem::path file = std::filesystem::absolute(path_, error);
  if (path_.empty() || error) {
    return;
  }
  // Most programs replace a file rather than write into it; only its folder tells of that for sure.
  watcher_.addPath(QString::fromStdString(file.parent_path().string()));
  if (std::filesystem::exists(file, error)) {
    watcher_.addPath(QString::fromStdString(file.string()));
  }
}

void Document::lookOnDisk() {
  if (path_.empty() || !on_disk_) {
    return;
  }
  watch();
  const files::ReadProject read = files::loadProject(path_);
  if (!read || *read != *on_disk_) {
    emit changedOnDisk();
  }
}

std::optional<shop::Project> Document::recoverable(const std::filesystem::path& path) {
  const std::filesystem::path beside = files::autosavePath(path);
  std::error_code error;
  const auto written = std::filesystem::last_write_time(beside, error);
  if (error) {
    return std::nullopt;
  }
  const auto saved = std::filesystem::last_write_time(path, error);
  if (!error && saved > written) {
    return std::nullopt;
  }
  files::ReadProject read = files::loadProject(beside);
  return read ? std::optional(std::move(*read)) : std::nullopt;
}

std::vector<std::filesystem::path> Document::forsaken(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> out;
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder, error)) {
    const std::string name = entry.path().filename().string();
    constexpr std::string_view kEnd = ".json.autosave";
    if (!name.starts_with("unnamed-") || !name.ends_with(kEnd)) {
      continue;
    }
    const std::filesystem::path file =
        folder / name.substr(0, name.size() - std::string_view(".autosave").size());
    if (files::ProjectLock::take(file)) {
      out.push_back(file);
    }
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace kerfdraft::desk
