// Any bytes as CSV: rows, or a sentence. What was read is written cell by cell and read back the same.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "base/csv.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace kerfdraft::base;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const Result<std::vector<CsvRow>> rows = parseCsv(text, "fuzz.csv");
  if (!rows) {
    if (rows.error().message.empty() || rows.error().where.empty()) {
      std::abort();
    }
    return 0;
  }
  // The comment keeps a cell that begins with the three bytes of a byte-order mark off the start of the text.
  std::string again = "#\n";
  for (const CsvRow& row : *rows) {
    if (row.cells.empty()) {
      std::abort();
    }
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      // A row of one empty cell would be a blank line, so it is quoted.
      again += (i > 0 ? "," : "") + (row.cells[i].empty() ? "\"\"" : csvCell(row.cells[i]));
    }
    again += '\n';
  }
  const Result<std::vector<CsvRow>> back = parseCsv(again, "again.csv");
  if (!back || back->size() != rows->size()) {
    std::abort();
  }
  for (std::size_t i = 0; i < rows->size(); ++i) {
    if ((*back)[i].cells != (*rows)[i].cells) {
      std::abort();
    }
  }
  return 0;
}
