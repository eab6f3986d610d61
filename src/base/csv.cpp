// The CSV tokenizer.
#include "base/csv.h"

#include <fmt/format.h>

namespace kerfdraft::base {
namespace {

constexpr std::size_t kMostCells = 4096;

class CsvReader {
 public:
  CsvReader(std::string_view text, std::string_view name) : text_(text), name_(name) {
    if (text_.starts_with("\xEF\xBB\xBF")) {
      at_ = 3;  // a byte-order mark is not part of the first cell
    }
  }

  Result<std::vector<CsvRow>> read() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      if (skipLine()) {
        continue;
      }
      CsvRow row{{}, line_};
      for (;;) {
        Result<std::string> cell = readCell();
        if (!cell) {
          return Failure(cell.error());
        }
        if (row.cells.size() == kMostCells) {
          return problem(fmt::format("a row has over {} cells", kMostCells));
        }
        row.cells.push_back(std::move(*cell));
        if (at_ < text_.size() && text_[at_] == ',') {
          ++at_;
          continue;
        }
        break;
      }
      endLine();
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  Failure problem(std::string message) const {
    return fail(ErrorCode::Parse, std::move(message), fmt::format("{}:{}", name_, line_));
  }

  void endLine() {
    if (at_ < text_.size() && text_[at_] == '\r') {
      ++at_;
    }
    if (at_ < text_.size() && text_[at_] == '\n') {
      ++at_;
      ++line_;
    }
  }

  /// Blank lines and comments are passed over.
  bool skipLine() {
    const char c = text_[at_];
    if (c == '\n' || c == '\r') {
      if (c == '\r' && (at_ + 1 == text_.size() || text_[at_ + 1] != '\n')) {
        ++line_;
        ++at_;
        return true;
      }
      endLine();
      return true;
    }
    if (c != '#') {
      return false;
    }
    const std::size_t end = text_.find('\n', at_);
    at_ = end == std::string_view::npos ? text_.size() : end + 1;
    ++line_;
    return true;
  }

  Result<std::string> readCell() {
    std::string cell;
    if (at_ < text_.size() && text_[at_] == '"') {
      return readQuoted();
    }
    while (at_ < text_.size() && text_[at_] != ',' && text_[at_] != '\n' && text_[at_] != '\r') {
      if (text_[at_] == '\0') {
        return problem("the file holds a NUL byte, so it is not text");
      }
      cell += text_[at_++];
    }
    return cell;
  }

  Result<std::string> readQuoted() {
    std::string cell;
    const int first_line = line_;
    ++at_;
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '\0') {
        return problem("the file holds a NUL byte, so it is not text");
      }
      if (c == '\n') {
        ++line_;
      }
      if (c != '"') {
        cell += c;
        continue;
      }
      if (at_ < text_.size() && text_[at_] == '"') {
        cell += '"';
        ++at_;
        continue;
      }
      if (at_ < text_.size() && text_[at_] != ',' && text_[at_] != '\n' && text_[at_] != '\r') {
        return problem("text follows a closing quote; a quote inside a cell is written twice");
      }
      return cell;
    }
    return problem(fmt::format("the quote opened on line {} is never closed", first_line));
  }

  std::string_view text_;
  std::string_view name_;
  std::size_t at_ = 0;
  int line_ = 1;
};

}  // namespace

Result<std::vector<CsvRow>> parseCsv(std::string_view text, std::string_view name) {
  return CsvReader(text, name).read();
}

std::string csvCell(std::string_view text) {
  const bool plain = text.find_first_of(",\"\r\n") == std::string_view::npos && !text.starts_with('#');
  if (plain) {
    return std::string(text);
  }
  std::string quoted = "\"";
  for (const char c : text) {
    quoted += c;
    if (c == '"') {
      quoted += '"';
    }
  }
  return quoted + '"';
}

}  // namespace kerfdraft::base
