// Projects on disk. A save never leaves a half-written file: at every moment the old or the new file is there
// in full.
#pragma once

#include <filesystem>
#include <string_view>

#include "base/result.h"
#include "files/project_file.h"

namespace kerfdraft::files {

/// Reads a project from a file; a file that cannot be read is the one problem.
ReadProject loadProject(const std::filesystem::path& path);

/// Writes a project, after reading its own text back: what is saved can be opened. The file that was there is
/// kept as backupPath(path). Refused where the project breaks an invariant, and where the file system does.
base::Result<void> saveProject(const shop::Project& project, const std::filesystem::path& path);

/// Writes a project beside its file without any check, so that an unfinished drawing is not lost. Keeps no
/// backup.
base::Result<void> saveAutomatically(const shop::Project& project, const std::filesystem::path& path);

/// Replaces a file's text in one step: a temporary file in the same folder, flushed to disk, then renamed.
/// Access rights and a symbolic link are kept. With `keep`, the file that was there stays as
/// backupPath(path).
enum class Backup { None, Keep };
base::Result<void> replaceFile(const std::filesystem::path& path, std::string_view text, Backup backup);

/// The text of a file of at most `most` bytes.
base::Result<std::string> readFile(const std::filesystem::path& path, std::size_t most);

/// "shop.json.bak", "shop.json.autosave", "shop.json.lock", beside the file.
std::filesystem::path backupPath(const std::filesystem::path& path);
std::filesystem::path autosavePath(const std::filesystem::path& path);
std::filesystem::path lockPath(const std::filesystem::path& path);

}  // namespace kerfdraft::files
