// Plain text: wrapped paragraphs, aligned tables, a rule under each chapter.
#include "papers/text.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv.h"
#include "drawing/utf8.h"

namespace kerfdraft::papers {
namespace {

std::size_t widthOf(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t place = 0; place < text.size(); ++count) {
    drawing::nextCharacter(text, place);
  }
  return count;
}

std::string wrapped(std::string_view text, std::size_t width, const std::string& first,
                    const std::string& rest) {
  std::string out = first;
  std::size_t used = widthOf(first);
  bool fresh = true;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    const std::size_t wide = widthOf(word);
    if (!fresh && used + 1 + wide > width) {
      out += "\n" + rest;
      used = widthOf(rest);
      fresh = true;
    }
    if (!word.empty()) {
      out += fresh ? "" : " ";
      out += word;
      used += wide + (fresh ? 0 : 1);
      fresh = false;
    }
    at = end + 1;
  }
  return out + "\n";
}

class Writer {
 public:
  Writer(const Document& document, const TextOptions& options) : document_(document), options_(options) {}

  std::string write() {
    if (options_.title_block) {
      line(document_.shop);
      line(document_.kind);
      std::string first;
      for (const std::string& part : document_.first_line) {
        first += part.empty() ? "" : (first.empty() ? "" : ", ") + part;
      }
      line(first);
      line(document_.note);
    }
    for (const Block& block : document_.blocks) {
      std::visit([&](const auto& what) { put(what); }, block);
    }
    return std::move(out_);
  }

 private:
  void line(const std::string& text, const std::string& first = {}, const std::string& rest = {}) {
    if (!text.empty()) {
      out_ += wrapped(text, options_.width, first, rest);
    }
  }

  void gap() {
    if (!out_.empty() && !out_.ends_with("\n\n")) {
      out_ += "\n";
    }
  }

  void put(const Heading& heading) {
    gap();
    line(heading.text);
    if (heading.level <= 2) {
      out_ += std::string(std::min(widthOf(heading.text), options_.width), '-') + "\n";
    }
  }

  void put(const Text& text) {
    gap();
    line(wordsOf(text.line));
  }

  void put(const List& list) {
    gap();
    for (std::size_t i = 0; i < list.items.size(); ++i) {
      const std::string sign = list.numbered ? fmt::format("{}. ", i + 1) : "- ";
      const std::string rest(sign.size(), ' ');
      line(wordsOf(list.items[i].line), sign, rest);
      for (const Line& below : list.items[i].below) {
        line(wordsOf(below), rest, rest);
      }
    }
  }

  void put(const Table& table) {
    gap();
    line(table.caption);
    const std::size_t n = table.columns.size();
    std::vector<std::vector<std::string>> lines;
    lines.emplace_back();
    for (const Column& column : table.columns) {
      lines.back().push_back(columnTitle(column, document_.units));
    }
    for (const auto& row : table.rows) {
      lines.emplace_back();
      for (std::size_t c = 0; c < n; ++c) {
        lines.back().push_back(c < row.size() ? cellText(row[c], table.columns[c], document_.units) : "");
      }
    }
    std::vector<std::size_t> wide(n, 0);
    for (const auto& cells : lines) {
      for (std::size_t c = 0; c < n; ++c) {
        wide[c] = std::max(wide[c], widthOf(cells[c]));
      }
    }
    for (std::size_t r = 0; r < lines.size(); ++r) {
      std::string text = " ";
      for (std::size_t c = 0; c < n; ++c) {
        const std::string space(wide[c] - widthOf(lines[r][c]), ' ');
        text +=
            table.columns[c].align == Align::Right ? " " + space + lines[r][c] : " " + lines[r][c] + space;
        text += c + 1 < n ? " " : "";
      }
      text.erase(text.find_last_not_of(' ') + 1);
      out_ += text + "\n";
    }
    line(table.note, "  ", "  ");
  }

  void put(const Figure& figure) {
    gap();
    const std::string what = figure.caption.empty() ? figure.picture.title : figure.caption;
    line("[Figure: " + what + "]");
  }

  void put(const FindingBox& box) {
    gap();
    line(box.title, fmt::format("[{}] ", judge::toText(box.severity)), "  ");
    line(box.what, "  ", "  ");
    for (const std::string& remedy : box.remedies) {
      line(remedy, "  - ", "    ");
    }
    line(box.limit, "  ", "  ");
    for (const std::string& also : box.also) {
      line(also, "  ", "  ");
    }
    line(box.defer, "  ", "  ");
  }

  void put(const KeyFigures& figures) {
    gap();
    for (const KeyFigure& figure : figures.figures) {
      line(figure.label + ": " + figure.value, "  ", "    ");
    }
  }

  void put(const Caution& caution) {
    gap();
    line("CAUTION: " + caution.title);
    for (const Line& text : caution.lines) {
      line(wordsOf(text), "  ", "  ");
    }
  }

  void put(const Sources& sources) {
    gap();
    for (const SourceLine& source : sources.lines) {
      line(source.key + ": " + source.text, "", "  ");
    }
  }

  void put(const SignatureBlock& block) {
    gap();
    for (const std::string& field : block.fields) {
      out_ += field + ": ______________________\n";
    }
  }

  void put(const PageBreak&) { gap(); }

  const Document& document_;
  const TextOptions& options_;
  std::string out_;
};

}  // namespace

std::string toPlainText(const Document& document, const TextOptions& options) {
  return Writer(document, options).write();
}

std::string toCsv(const Table& table, base::UnitSystem units) {
  std::string out;
  const auto row = [&](const std::vector<std::string>& cells) {
    for (std::size_t c = 0; c < cells.size(); ++c) {
      out += (c == 0 ? "" : ",") + base::csvCell(cells[c]);
    }
    out += "\n";
  };
  std::vector<std::string> cells;
  cells.reserve(table.columns.size());
  for (const Column& column : table.columns) {
    cells.push_back(columnTitle(column, units));
  }
  row(cells);
  for (const auto& line : table.rows) {
    cells.clear();
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      cells.push_back(c < line.size() ? cellText(line[c], table.columns[c], units) : "");
    }
    row(cells);
  }
  return out;
}

std::string toCsv(const Document& document) {
  std::string out;
  for (const Block& block : document.blocks) {
    if (const auto* table = std::get_if<Table>(&block)) {
      out += out.empty() ? "" : "\n";
      out += table->caption.empty() ? "" : base::csvCell(table->caption) + "\n";
      out += toCsv(*table, document.units);
    }
  }
  return out;
}

}  // namespace kerfdraft::papers
