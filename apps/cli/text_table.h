// A table as aligned text, without colour. Widths are counted in characters as a terminal shows them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kerfdraft::cli {

enum class Align { Left, Right };

class TextTable {
 public:
  struct Column {
    std::string title;
    Align align = Align::Left;
  };

  explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

  /// A row; missing cells are blank.
  void row(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }
  bool empty() const { return rows_.empty(); }

  /// Lines with `indent` blanks before each and none behind; columns without any text are left out.
  std::string text(std::size_t indent = 2) const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

/// Number of characters of UTF-8 text.
std::size_t shownWidth(std::string_view utf8);

/// The text broken at blanks into lines of at most `width` characters; later lines begin with `indent`
/// blanks.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent = 0);

/// The sentence with its full stop; one that ends in "w.g." has it already.
std::string stopped(std::string text);

}  // namespace kerfdraft::cli
