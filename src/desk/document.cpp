// Undo keeps whole projects: they are values, and what did not change in them costs a copy once.
#include "desk/document.h"

#include <QRandomGenerator>
#include <QUndoCommand>

#include "files/project_file.h"
#include "files/save.h"

namespace kerfdraft::desk {

using base::Result;

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
  connect(&undo_, &QUndoStack::cleanChanged, this, [this] { emit fileChanged(); });
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
  lock_.reset();
  path_.clear();
  read_only_ = false;
  undo_.clear();
  set(std::make_shared<const shop::Project>(project));
  emit fileChanged();
}

tl::expected<void, std::vector<base::Error>> Document::open(const std::filesystem::path& path) {
  files::ReadProject read = files::loadProject(path);
  if (!read) {
    return tl::unexpected(std::move(read.error()));
  }
  lock_.reset();
  if (Result<files::ProjectLock> lock = files::ProjectLock::take(path)) {
    lock_.emplace(std::move(*lock));
  }
  read_only_ = !lock_.has_value();
  path_ = path;
  undo_.clear();
  set(std::make_shared<const shop::Project>(std::move(*read)));
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
  if (Result<void> saved = files::saveProject(*project_, path_); !saved) {
    return saved;
  }
  std::error_code ignored;
  std::filesystem::remove(files::autosavePath(path_), ignored);
  undo_.setClean();
  emit fileChanged();
  return {};
}

Result<void> Document::saveAs(const std::filesystem::path& path) {
  Result<files::ProjectLock> lock = files::ProjectLock::take(path);
  const bool same = !path_.empty() && !read_only_ && path == path_;
  if (!lock && !same) {
    return base::Failure(lock.error());
  }
  if (Result<void> saved = files::saveProject(*project_, path); !saved) {
    return saved;
  }
  if (!same) {
    lock_.emplace(std::move(*lock));
  }
  path_ = path;
  read_only_ = false;
  undo_.setClean();
  emit fileChanged();
  return {};
}

void Document::autosave() {
  if (isUnsaved() && !path_.empty() && !read_only_) {
    // Nothing can be done here about a full disk; the save that a person asks for says it.
    static_cast<void>(files::saveAutomatically(*project_, path_));
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

}  // namespace kerfdraft::desk
