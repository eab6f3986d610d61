// The open project: edited through shop::Edit alone, undone step by step, saved without loss.
#pragma once

#include <QFileSystemWatcher>
#include <QObject>
#include <QString>
#include <QUndoStack>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "files/lock.h"
#include "shop/edit.h"
#include "shop/project.h"

namespace kerfdraft::desk {

class Document : public QObject {
  Q_OBJECT

 public:
  explicit Document(QObject* parent = nullptr);
  ~Document() override;

  const shop::Project& project() const { return *project_; }
  std::shared_ptr<const shop::Project> snapshot() const { return project_; }

  /// Makes a chain of edits as one step of undo, named in words ("Move T2"). Steps of one gesture, that is
  /// with the same gesture number other than 0, one after the other, become one. Refused as
  /// shop::applyEdits() does, and where the document is read-only; nothing changes then.
  base::Result<void> make(const QString& words, std::span<const shop::Edit> edits, int gesture = 0);
  base::Result<void> make(const QString& words, const shop::Edit& edit, int gesture = 0);
  /// The whole project replaced in one step of undo: a recovered one.
  void replace(const QString& words, const shop::Project& project);
  /// A number for a new gesture.
  int newGesture() { return ++gestures_; }
  /// A new id, random.
  base::Id newId();

  QUndoStack& undoStack() { return undo_; }

  // ---- on disk
  /// An empty, unnamed project of these units.
  void startNew(const shop::Project& project);
  /// Opens a file; takes its lock, or is read-only where another window has it. Errors: every problem of the
  /// file.
  tl::expected<void, std::vector<base::Error>> open(const std::filesystem::path& path);
  base::Result<void> save();
  base::Result<void> saveAs(const std::filesystem::path& path);
  /// Writes the autosave beside the file, where something is unsaved; of an unnamed project into the folder
  /// that setUnnamedFolder() named. Called by a timer and before a loss.
  void autosave();
  /// Removes the autosave of what is open: it was saved, undone or given up.
  void forgetAutosave();
  /// Reads the file again, as another program left it; undo ends there. Errors as open().
  tl::expected<void, std::vector<base::Error>> readAnew();
  /// The file on disk is from now on taken as it is: the next save goes over it.
  void keepMine();

  /// Where unnamed projects are saved by themselves.
  void setUnnamedFolder(const std::filesystem::path& folder) { unnamed_folder_ = folder; }
  /// Autosaves in a folder that no running program keeps: unnamed projects of one that ended.
  static std::vector<std::filesystem::path> forsaken(const std::filesystem::path& folder);
  /// An autosave beside `path` that is newer than the file, from a program that ended without closing it.
  static std::optional<shop::Project> recoverable(const std::filesystem::path& path);

  /// The whole path of a file that the project names: beside it, else beside a place where it was before.
  std::filesystem::path besideProject(const std::string& file) const;
  /// How a project names a file: shortly where it lies in the project's folder or below it.
  std::string nameOf(const std::filesystem::path& file) const;

  const std::filesystem::path& path() const { return path_; }  ///< empty while unnamed
  bool isReadOnly() const { return read_only_; }
  bool isUnsaved() const { return !undo_.isClean(); }

 signals:
  void projectChanged();
  void fileChanged();    ///< path, unsaved mark or read-only mark
  void changedOnDisk();  ///< another program wrote the file

 private:
  class Step;
  void watch();
  void lookOnDisk();
  void set(std::shared_ptr<const shop::Project> project);
  void nameUnderlayFrom(const std::filesystem::path& path);

  std::shared_ptr<const shop::Project> project_;
  QUndoStack undo_;
  std::filesystem::path path_;
  std::optional<files::ProjectLock> lock_;
  std::filesystem::path unnamed_folder_;
  std::filesystem::path unnamed_;  ///< where the unnamed project is saved by itself; empty before that
  std::shared_ptr<const shop::Project> on_disk_;  ///< as it was last read or written
  std::vector<std::filesystem::path> folders_;    ///< where the project lay in this run, newest last
  QFileSystemWatcher watcher_;
  bool read_only_ = false;
  int gestures_ = 0;
};

}  // namespace kerfdraft::desk
