// Comma-separated text (RFC 4180: quotes, doubled quotes, CRLF), with '#' comment lines.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace kerfdraft::base {

struct CsvRow {
  std::vector<std::string> cells;
  int line = 0;  ///< first line of the row, from 1
};

/// Rows of `text`; blank and comment lines are left out. `name` is the file named in errors ("bores.csv:12").
/// Refused: an unclosed quote, text after a closing quote, a NUL byte, a row over 4096 cells.
Result<std::vector<CsvRow>> parseCsv(std::string_view text, std::string_view name);

/// One cell as written into a CSV file: quoted where it must be.
std::string csvCell(std::string_view text);

}  // namespace kerfdraft::base
