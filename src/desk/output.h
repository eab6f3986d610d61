// What leaves the window: the picture that is seen, on paper or as a file, and the report.
#pragma once

#include <QPrinter>
#include <filesystem>

#include "base/result.h"
#include "desk/bench.h"
#include "drawing/display_list.h"

namespace kerfdraft::desk {

/// A sheet of what is seen: plan or isometric sketch, the shown state, the reader's units. Refused where
/// nothing is solved, or the newest result is of an older drawing.
base::Result<drawing::Picture> sheetOf(const Bench& bench);

/// As .svg, .pdf or .png by the ending. Errors: another ending, a file that cannot be written.
base::Result<void> savePicture(const drawing::Picture& picture, const std::filesystem::path& path);

/// On one page, as large as fits.
base::Result<void> printPicture(const drawing::Picture& picture, QPrinter& printer);

/// The paper for the reader that is looking, as one HTML page. `date` as printed: "2026-01-15".
base::Result<void> saveReport(const Bench& bench, const std::filesystem::path& path, const std::string& date);

}  // namespace kerfdraft::desk
