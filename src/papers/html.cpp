// The one place that knows HTML.
#include "papers/html.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "drawing/svg.h"
#include "drawing/utf8.h"
#include "papers/html_style.h"

namespace kerfdraft::papers {
namespace {

/// Text that a page can hold: its own signs escaped, what is forbidden replaced.
std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t place = 0; place < text.size();) {
    const std::size_t start = place;
    const char32_t code = drawing::nextCharacter(text, place);
    if (code == '&') {
      out += "&amp;";
    } else if (code == '<') {
      out += "&lt;";
    } else if (code == '>') {
      out += "&gt;";
    } else if (code == '"') {
      out += "&quot;";
    } else if (code < 0x20 || (code >= 0x7F && code < 0xA0)) {
      out += ' ';
    } else if (code == drawing::kNoCharacter || code == 0xFFFE || code == 0xFFFF) {
      out += "\xEF\xBF\xBD";
    } else {
      out += text.substr(start, place - start);
    }
  }
  return out;
}

std::string html(const Line& line) {
  std::string out;
  for (const Words& words : line) {
    out += words.strong ? "<strong>" + escaped(words.text) + "</strong>" : escaped(words.text);
  }
  return out;
}

std::string paragraph(const std::string& text, std::string_view kind = {}) {
  if (text.empty()) {
    return {};
  }
  return kind.empty() ? fmt::format("<p>{}</p>\n", escaped(text))
                      : fmt::format("<p class=\"{}\">{}</p>\n", kind, escaped(text));
}

/// A swatch with the pattern of its step, for eyes that see no colour; the words stand beside it.
std::string swatch(drawing::Grade grade) {
  const std::string fill = toText(drawing::fillOf(grade));
  std::string pattern;
  switch (grade) {
    case drawing::Grade::FarBelow:
      pattern = fmt::format("repeating-linear-gradient(45deg,{0} 0 2px,#fff 2px 3px)", fill);
      break;
    case drawing::Grade::Below:
      pattern = fmt::format("repeating-linear-gradient(45deg,{0} 0 5px,#fff 5px 6px)", fill);
      break;
    case drawing::Grade::Just:
      pattern = fmt::format("radial-gradient(#fff 0 20%,{0} 21%)", fill);
      break;
    default:
      pattern = fill;
      break;
  }
  return fmt::format("<i class=\"g\" style=\"background:{}\"></i>", pattern);
}

class Writer {
 public:
  explicit Writer(const Document& document) : document_(document) {}

  std::string write() {
    for (const Block& block : document_.blocks) {
      std::visit([&](const auto& what) { put(what); }, block);
    }
    return std::move(out_);
  }

  std::vector<std::string> chapters() const { return chapters_; }

 private:
  void put(const Heading& heading) {
    if (heading.level <= 2) {
      chapters_.push_back(heading.text);
      out_ += fmt::format("<h2 id=\"s{}\">{}</h2>\n", chapters_.size(), escaped(heading.text));
    } else {
      out_ += fmt::format("<h3>{}</h3>\n", escaped(heading.text));
    }
  }

  void put(const Text& text) {
    out_ += text.lead ? "<p class=\"lead\">" : text.small ? "<p class=\"small\">" : "<p>";
    out_ += html(text.line) + "</p>\n";
  }

  void put(const List& list) {
    if (list.items.empty()) {
      return;
    }
    out_ += list.numbered ? "<ol class=\"steps\">\n" : "<ul class=\"plain\">\n";
    for (const Item& item : list.items) {
      out_ += "<li>" + html(item.line);
      for (const Line& line : item.below) {
        out_ += "<span class=\"below\">" + html(line) + "</span>";
      }
      out_ += "</li>\n";
    }
    out_ += list.numbered ? "</ol>\n" : "</ul>\n";
  }

  static std::string_view side(const Column& column) {
    return column.align == Align::Right ? " class=\"r\"" : "";
  }

  void put(const Table& table) {
    std::string kind = table.to_fill_in ? "pen" : "";
    if (table.small) {
      kind += kind.empty() ? "dense" : " dense";
    }
    out_ += "<div class=\"scroll\"><table";
    out_ += kind.empty() ? ">\n" : " class=\"" + kind + "\">\n";
    if (!table.caption.empty()) {
      out_ += "<caption>" + escaped(table.caption) + "</caption>\n";
    }
    const bool widths = std::any_of(table.columns.begin(), table.columns.end(),
                                    [](const Column& column) { return column.share > 0; });
    if (widths) {
      out_ += "<colgroup>";
      for (const Column& column : table.columns) {
        out_ += column.share > 0 ? fmt::format("<col style=\"width:{:.0f}%\">", 100 * column.share) : "<col>";
      }
      out_ += "</colgroup>\n";
    }
    out_ += "<thead><tr>";
    for (const Column& column : table.columns) {
      out_ += fmt::format("<th scope=\"col\"{}>{}</th>", side(column),
                          escaped(columnTitle(column, document_.units)));
    }
    out_ += "</tr></thead>\n<tbody>\n";
    for (std::size_t r = 0; r < table.rows.size(); ++r) {
      const bool start = std::find(table.starts.begin(), table.starts.end(), r) != table.starts.end();
      out_ += start ? "<tr class=\"start\">" : "<tr>";
      for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const Cell cell = c < table.rows[r].size() ? table.rows[r][c] : Cell{};
        std::string text = escaped(cellText(cell, table.columns[c], document_.units));
        if (cell.strong && !text.empty()) {
          text.insert(0, "<strong>").append("</strong>");
        }
        if (cell.grade) {
          text.insert(0, swatch(*cell.grade));
        }
        // The first column names the row, where it does.
        const bool head = c == 0 && !text.empty();
        out_ += fmt::format("<{0}{1}>{2}</{3}>", head ? "th scope=\"row\"" : "td", side(table.columns[c]),
                            text, head ? "th" : "td");
      }
      out_ += "</tr>\n";
    }
    out_ += "</tbody>\n";
    if (!table.note.empty()) {
      out_ += fmt::format("<tfoot><tr><td colspan=\"{}\">{}</td></tr></tfoot>\n", table.columns.size(),
                          escaped(table.note));
    }
    out_ += "</table></div>\n";
  }

  void put(const Figure& figure) {
    drawing::SvgOptions options;
    options.embed_font = false;
    options.fixed_size = false;
    options.id_prefix = fmt::format("f{}-", ++figures_);
    const std::string alt =
        figure.picture.description.empty() ? figure.picture.title : figure.picture.description;
    out_ += figure.width_share < 1 ? fmt::format("<figure style=\"width:{:.0f}%\"", 100 * figure.width_share)
                                   : std::string("<figure");
    out_ += fmt::format(" role=\"group\" aria-label=\"{}\">\n", escaped(alt.empty() ? figure.caption : alt));
    out_ += drawing::toSvg(figure.picture, options);
    if (!figure.caption.empty()) {
      out_ += "<figcaption>" + escaped(figure.caption) + "</figcaption>\n";
    }
    out_ += "</figure>\n";
  }

  void put(const FindingBox& box) {
    out_ += fmt::format(
        "<section class=\"box s{}\">\n<p class=\"sev\"><b "
        "aria-hidden=\"true\"><i></i><i></i><i></i><i></i></b>"
        "{}</p>\n<h3>{}</h3>\n",
        static_cast<int>(box.severity), judge::toText(box.severity), escaped(box.title));
    out_ += paragraph(box.what);
    if (!box.remedies.empty()) {
      out_ += "<ul>\n";
      for (const std::string& remedy : box.remedies) {
        out_ += "<li>" + escaped(remedy) + "</li>\n";
      }
      out_ += "</ul>\n";
    }
    out_ += paragraph(box.limit, "limit");
    for (const std::string& also : box.also) {
      out_ += paragraph(also, "also");
    }
    out_ += paragraph(box.defer);
    out_ += "</section>\n";
  }

  void put(const KeyFigures& figures) {
    out_ += "<dl class=\"figures\">\n";
    for (const KeyFigure& figure : figures.figures) {
      out_ +=
          fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", escaped(figure.label), escaped(figure.value));
    }
    out_ += "</dl>\n";
  }

  void put(const Caution& caution) {
    out_ += fmt::format("<aside class=\"caution\">\n<h3>{}</h3>\n", escaped(caution.title));
    for (const Line& line : caution.lines) {
      out_ += "<p>" + html(line) + "</p>\n";
    }
    out_ += "</aside>\n";
  }

  void put(const Sources& sources) {
    if (sources.lines.empty()) {
      return;
    }
    out_ += "<dl class=\"sources\">\n";
    for (const SourceLine& source : sources.lines) {
      out_ += fmt::format("<dt>{}</dt><dd>{}</dd>\n", escaped(source.key), escaped(source.text));
    }
    out_ += "</dl>\n";
  }

  void put(const SignatureBlock& block) {
    out_ += "<dl class=\"pen\">\n";
    for (const std::string& field : block.fields) {
      out_ += fmt::format("<div><dt>{}</dt><dd>to be filled in</dd></div>\n", escaped(field));
    }
    out_ += "</dl>\n";
  }

  void put(const PageBreak&) { out_ += "<div class=\"break\"></div>\n"; }

  const Document& document_;
  std::string out_;
  std::vector<std::string> chapters_;
  int figures_ = 0;
};

std::string contents(const std::vector<std::string>& chapters) {
  std::string out = "<nav class=\"contents\" aria-label=\"Contents\">\n<ol>\n";
  for (std::size_t c = 0; c < chapters.size(); ++c) {
    out += fmt::format("<li><a href=\"#s{}\">{}</a></li>\n", c + 1, escaped(chapters[c]));
  }
  return out + "</ol>\n</nav>\n";
}

}  // namespace

std::string toHtml(const Document& document) {
  Writer writer(document);
  const std::string body = writer.write();
  std::string first;
  std::string foot = document.shop + ", " + document.kind;
  for (const std::string& part : document.first_line) {
    if (!part.empty()) {
      first += "<li>" + escaped(part) + "</li>";
      foot += first.find("</li>") + 5 == first.size() ? ", " + part : "";
    }
  }
  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  out += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  out += fmt::format("<title>{}: {}</title>\n", escaped(document.shop), escaped(document.kind));
  // Two sides of one sheet are all that an owner takes along.
  const bool brief = document.reader == judge::Reader::Owner;
  out +=
      "<style>\n" + drawing::fontFaceRules() + pageStyle(document.units, foot, brief) + "</style>\n</head>\n";
  out += brief ? "<body class=\"brief\">\n" : "<body>\n";
  out += fmt::format("<header class=\"top\">\n<p class=\"kind\">{}</p>\n<h1>{}</h1>\n",
                     escaped(document.kind), escaped(document.shop));
  out += first.empty() ? std::string() : "<ul class=\"first\">" + first + "</ul>\n";
  out += paragraph(document.note, "note");
  out += "</header>\n";
  if (document.contents && writer.chapters().size() > 2) {
    out += contents(writer.chapters());
  }
  out += "<main>\n" + body + "</main>\n";
  out +=
      "<footer class=\"end\">Made with kerfdraft. A prediction to plan by; what was not measured was not "
      "checked.</footer>\n</body>\n</html>\n";
  return out;
}

}  // namespace kerfdraft::papers
