// Column widths first, then the lines.
#include "cli/text_table.h"

#include <algorithm>

namespace kerfdraft::cli {

std::size_t shownWidth(std::string_view utf8) {
  // Continuation bytes 10xxxxxx add no character.
  return static_cast<std::size_t>(std::count_if(
      utf8.begin(), utf8.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string TextTable::text(std::size_t indent) const {
  std::vector<std::size_t> widths(columns_.size(), 0);
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    for (const auto& row : rows_) {
      if (i < row.size()) {
        widths[i] = std::max(widths[i], shownWidth(row[i]));
      }
    }
    if (widths[i] > 0) {
      widths[i] = std::max(widths[i], shownWidth(columns_[i].title));
    }
  }
  std::string out;
  const auto line = [&](const auto& cell) {
    std::string text(indent, ' ');
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (widths[i] == 0) {
        continue;
      }
      const std::string& shown = cell(i);
      const std::string blanks(widths[i] - shownWidth(shown), ' ');
      text += columns_[i].align == Align::Right ? blanks + shown : shown + blanks;
      text += "  ";
    }
    text.erase(text.find_last_not_of(' ') + 1);
    out += text + '\n';
  };
  const std::string blank;
  if (std::any_of(columns_.begin(), columns_.end(), [](const Column& c) { return !c.title.empty(); })) {
    line([&](std::size_t i) -> const std::string& { return columns_[i].title; });
  }
  for (const auto& row : rows_) {
    line([&](std::size_t i) -> const std::string& { return i < row.size() ? row[i] : blank; });
  }
  return out;
}

std::string wrapped(std::string_view text, std::size_t width, std::size_t indent) {
  std::string out;
  std::size_t used = indent;
  bool begins = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) {
      continue;
    }
    const std::size_t wide = shownWidth(word);
    if (!begins && used + 1 + wide > width) {
      out += '\n' + std::string(indent, ' ');
      used = indent;
      begins = true;
    }
    if (!begins) {
      out += ' ';
      ++used;
    }
    out += word;
    used += wide;
    begins = false;
  }
  return out;
}

std::string stopped(std::string text) {
  if (!text.ends_with('.')) {
    text += '.';
  }
  return text;
}

}  // namespace kerfdraft::cli
