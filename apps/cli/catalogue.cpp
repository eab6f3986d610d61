// Every figure is shown with its source and how sure it is; empty columns are left out.
#include "cli/catalogue.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv.h"
#include "base/law.h"
#include "catalogue/catalogue.h"
#include "cli/exit_codes.h"
#include "cli/text_table.h"

namespace kerfdraft::cli {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;
using catalogue::Catalogue;
using catalogue::Row;
using catalogue::Table;

constexpr std::size_t kWidth = 100;

std::string words(std::string_view column) {
  std::string text(column);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::string csvLine(const std::vector<std::string>& cells) {
  std::string line;
  for (const std::string& cell : cells) {
    line += (&cell == cells.data() ? "" : ",") + base::csvCell(cell);
  }
  return line + '\n';
}

std::string allTables(const Catalogue& catalogue, bool csv) {
  if (csv) {
    std::string text = "table,title,rows\n";
    for (const auto& table : catalogue.tables()) {
      text += csvLine({std::string(table->form().name), std::string(table->form().title),
                       std::to_string(table->rows().size())});
    }
    return text;
  }
  TextTable list({{"table"}, {"rows", Align::Right}, {"what it holds"}});
  for (const auto& table : catalogue.tables()) {
    list.row({std::string(table->form().name), std::to_string(table->rows().size()),
              std::string(table->form().title)});
  }
  return "Tables of the program\n\n" + list.text() +
         "\nShow one: kerfdraft catalogue hoods; one row: kerfdraft catalogue hoods bellmouth; "
         "search: kerfdraft catalogue --search planer\n";
}

std::string wholeTable(const Table& table, bool csv) {
  if (csv) {
    std::string text = csvLine(columnTitles(table));
    for (const Row& row : table.rows()) {
      text += csvLine(rowTexts(row));
    }
    return text;
  }
  std::vector<TextTable::Column> columns = {{"key"}, {"name"}};
  for (const auto& column : table.form().columns) {
    columns.push_back(
        {words(column.name), column.type == catalogue::CellType::Number ? Align::Right : Align::Left});
  }
  columns.push_back({"how known"});
  columns.push_back({"source"});
  TextTable list(std::move(columns));
  for (const Row& row : table.rows()) {
    std::vector<std::string> cells = {row.key, row.name};
    for (const auto& cell : row.cells) {
      cells.push_back(cell.text);
    }
    cells.emplace_back(base::toText(row.status));
    cells.push_back(row.source);
    list.row(std::move(cells));
  }
  return fmt::format("{}: {}\n\n", table.form().name, table.form().title) + list.text() +
         fmt::format("\nNotes and limits of a row: kerfdraft catalogue {} {}\n", table.form().name,
                     table.rows().empty() ? "KEY" : table.rows()[0].key);
}

std::string oneRow(const Table& table, const Row& row) {
  TextTable list({{""}, {""}});
  const auto line = [&](std::string_view what, std::string_view text) {
    if (!text.empty()) {
      list.row({std::string(what), wrapped(text, kWidth - 24)});
    }
  };
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    line(words(table.form().columns[i].name), row.cells[i].text);
  }
  line("how known", base::toText(row.status));
  line("source", row.source);
  line("layer", catalogue::toText(row.layer));
  std::string text = fmt::format("{}: {}\n\n", rowRef(table, row), row.name) + list.text();
  if (!row.note.empty()) {
    text += "\n  Note: " + wrapped(row.note, kWidth, 2) + '\n';
  }
  return text;
}

std::string hits(const Catalogue& catalogue, const std::string& asked) {
  TextTable list({{"row"}, {"name"}, {"figures"}, {"how known"}, {"source"}});
  for (const catalogue::Hit& hit : catalogue.search(asked)) {
    std::string figures;
    for (std::size_t i = 0; i < hit.row->cells.size(); ++i) {
      const auto& column = hit.table->form().columns[i];
      if (column.type == catalogue::CellType::Number && !hit.row->cells[i].text.empty()) {
        figures += (figures.empty() ? "" : ", ") + words(column.name) + ' ' + hit.row->cells[i].text;
      }
    }
    list.row({rowRef(*hit.table, *hit.row), hit.row->name, figures,
              std::string(base::toText(hit.row->status)), hit.row->source});
  }
  return list.empty() ? std::string() : fmt::format("Rows that hold \"{}\"\n\n", asked) + list.text();
}

Result<std::string> answer(const CatalogueOptions& options) {
  const Result<Catalogue> catalogue = Catalogue::shipped();
  if (!catalogue) {
    return Failure(catalogue.error());
  }
  if (!options.search.empty()) {
    std::string found = hits(*catalogue, options.search);
    if (found.empty()) {
      return fail(ErrorCode::Reference, fmt::format("no row holds all the words of \"{}\"", options.search),
                  "--search");
    }
    return found;
  }
  if (options.table.empty()) {
    return allTables(*catalogue, options.csv);
  }
  const Result<const Table*> table = catalogue->table(options.table);
  if (!table) {
    return Failure(table.error());
  }
  if (options.key.empty()) {
    return wholeTable(**table, options.csv);
  }
  const Result<const Row*> row = (*table)->row(options.key);
  if (!row) {
    return Failure(row.error());
  }
  return oneRow(**table, **row);
}

}  // namespace

int runCatalogue(const CatalogueOptions& options, std::ostream& out, std::ostream& err) {
  const Result<std::string> text = answer(options);
  if (!text) {
    return refuse(text.error(), err);
  }
  return deliver(*text, options.common, kAllServed, out, err);
}

void declareOptions(OptionList& list, CatalogueOptions& o) {
  list.option("table", "TABLE", &o.table, "Table to show; all are listed where not given");
  list.option("key", "ROW", &o.key, "One row of the table, with its note");
  list.option("--search", "WORDS", &o.search, "Rows of any table that hold these words");
  list.flag("--csv", o.csv, "As comma-separated values");
  list.output(o.common);
  list.footer(
      "Examples:\n"
      "  kerfdraft catalogue\n"
      "  kerfdraft catalogue hoods\n"
      "  kerfdraft catalogue constructions snap-lock\n"
      "  kerfdraft catalogue --search \"ribbed slack\"");
}

}  // namespace kerfdraft::cli
