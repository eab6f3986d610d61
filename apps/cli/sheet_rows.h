// The lines of a calculation sheet as a table of text or as CSV; the model's sheet and the hand method print
// the same.
#pragma once

#include <span>
#include <string>

#include "cli/shown.h"
#include "hand/sheet_row.h"

namespace kerfdraft::cli {

/// Columns: piece, air, bore, length, speed, velocity pressure, coefficient, loss, running total, static
/// behind it.
std::string sheetTable(std::span<const hand::SheetRow> rows, const Shown& shown);

/// One line for each row: where its coefficient comes from.
std::string sheetSources(std::span<const hand::SheetRow> rows);

/// Title line of the CSV form, and the rows; `state` and `path` stand in each.
std::string sheetCsvTitle(const Shown& shown);
std::string sheetCsv(std::span<const hand::SheetRow> rows, const Shown& shown, const std::string& path);

}  // namespace kerfdraft::cli
