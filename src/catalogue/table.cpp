// Reading of one table: header against form, cells against kinds and bounds, rows over rows, curves.
#include "catalogue/table.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/csv.h"
#include "base/units.h"
#include "catalogue/near_keys.h"

namespace kerfdraft::catalogue {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

constexpr std::string_view kNoSource = "no source";
constexpr std::size_t kLongestShown = 60;

/// Position of each known column in the file's header; nothing where the file leaves it out.
struct Header {
  std::optional<std::size_t> key, name, source, status, note;
  std::vector<std::optional<std::size_t>> cells;
  std::size_t width = 0;
};

std::string_view trimmed(std::string_view s) {
  constexpr std::string_view kBlank = " \t";
  const std::size_t first = s.find_first_not_of(kBlank);
  if (first == std::string_view::npos) {
    return {};
  }
  return s.substr(first, s.find_last_not_of(kBlank) - first + 1);
}

std::vector<std::string> columnNames(const TableForm& form) {
  std::vector<std::string> names = {"key", "name"};
  for (const Column& c : form.columns) {
    names.emplace_back(c.name);
  }
  for (const char* last : {"source", "status", "note"}) {
    names.emplace_back(last);
  }
  return names;
}

Result<Header> readHeader(const TableForm& form, const base::CsvRow& row, const std::string& where) {
  Header header;
  header.cells.resize(form.columns.size());
  header.width = row.cells.size();
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const std::string_view name = trimmed(row.cells[i]);
    std::optional<std::size_t>* place = nullptr;
    if (name == "key") {
      place = &header.key;
    } else if (name == "name") {
      place = &header.name;
    } else if (name == "source") {
      place = &header.source;
    } else if (name == "status") {
      place = &header.status;
    } else if (name == "note") {
      place = &header.note;
    } else if (const auto index = columnIndex(form, name)) {
      place = &header.cells[*index];
    } else {
      return fail(ErrorCode::Parse,
                  fmt::format("table \"{}\" has no column \"{}\"{}", form.name, name.substr(0, kLongestShown),
                              nearKeysSentence(name, columnNames(form))),
                  where);
    }
    if (place->has_value()) {
      return fail(ErrorCode::Parse, fmt::format("the column \"{}\" stands twice", name), where);
    }
    *place = i;
  }
  for (const auto& [place, name] : {std::pair{header.key, "key"}, std::pair{header.name, "name"},
                                    std::pair{header.source, "source"}, std::pair{header.status, "status"}}) {
    if (!place) {
      return fail(ErrorCode::Parse, fmt::format("the column \"{}\" is missing", name), where);
    }
  }
  for (std::size_t i = 0; i < form.columns.size(); ++i) {
    if (form.columns[i].required && !header.cells[i]) {
      return fail(ErrorCode::Parse, fmt::format("the column \"{}\" is missing", form.columns[i].name), where);
    }
  }
  return header;
}

std::optional<base::SourceStatus> statusOf(std::string_view text) {
  using base::SourceStatus;
  for (const SourceStatus s : {SourceStatus::Published, SourceStatus::FromMemory,
                               SourceStatus::CommonPractice, SourceStatus::Ours}) {
    if (text == base::toText(s)) {
      return s;
    }
  }
  if (text == "common practice") {
    return SourceStatus::CommonPractice;
  }
  return std::nullopt;
}

/// A key is what files and commands write: lower-case letters, digits, and . - between them.
bool isKey(std::string_view text) {
  constexpr std::size_t kLongestKey = 80;
  return !text.empty() && text.size() <= kLongestKey && text.front() != '-' && text.front() != '.' &&
         std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
         });
}

/// Whether `word` is one of "a|b|c".
bool isOneOf(std::string_view words, std::string_view word) {
  while (!words.empty()) {
    const std::size_t end = words.find('|');
    if (words.substr(0, end) == word) {
      return true;
    }
    words.remove_prefix(end == std::string_view::npos ? words.size() : end + 1);
  }
  return false;
}

std::string bound(base::Kind kind, double si) {
  return base::formatQuantity(kind, si, base::UnitSystem::Metric);
}

Result<Cell> readCell(const Column& column, std::string_view text, const std::string& where) {
  const std::string place = fmt::format("{}, column {}", where, column.name);
  Cell cell{std::string(text), std::nullopt};
  if (text.empty()) {
    if (column.required) {
      return fail(ErrorCode::Parse, "the cell is empty, but the table needs it", place);
    }
    return cell;
  }
  if (column.type == CellType::YesNo && text != "yes" && text != "no") {
    return fail(ErrorCode::Parse, fmt::format("\"{}\" is neither yes nor no", text.substr(0, kLongestShown)),
                place);
  }
  if (!column.one_of.empty() && !isOneOf(column.one_of, text)) {
    return fail(ErrorCode::Parse,
                fmt::format("\"{}\" is none of the words it may be: {}", text.substr(0, kLongestShown),
                            column.one_of),
                place);
  }
  if (column.type != CellType::Number) {
    return cell;
  }
  const Result<double> si = base::parseQuantity(column.kind, text, place);
  if (!si) {
    return Failure(si.error());
  }
  if (*si < column.least || *si > column.most) {
    const std::string limits = column.most == std::numeric_limits<double>::infinity()
                                   ? fmt::format("at least {}", bound(column.kind, column.least))
                                   : fmt::format("between {} and {}", bound(column.kind, column.least),
                                                 bound(column.kind, column.most));
    return fail(ErrorCode::Range,
                fmt::format("\"{}\" cannot be; it must be {}", text.substr(0, kLongestShown), limits), place);
  }
  cell.si = *si;
  return cell;
}

Result<Row> readRow(const TableForm& form, const Header& header, const base::CsvRow& csv, Layer layer,
                    const std::string& where) {
  if (csv.cells.size() != header.width) {
    return fail(ErrorCode::Parse,
                fmt::format("the row has {} cells, the header {}", csv.cells.size(), header.width), where);
  }
  const auto text = [&](const std::optional<std::size_t>& place) {
    return place ? trimmed(csv.cells[*place]) : std::string_view{};
  };
  Row row;
  row.key = text(header.key);
  row.name = text(header.name);
  row.source = text(header.source);
  row.note = text(header.note);
  row.layer = layer;
  row.where = where;
  if (!isKey(row.key)) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" is no key: a key has up to 80 lower-case letters, digits, points and hyphens",
                    row.key.substr(0, kLongestShown)),
        where + ", column key");
  }
  if (row.name.empty()) {
    return fail(ErrorCode::Parse, fmt::format("the row \"{}\" has no name", row.key),
                where + ", column name");
  }
  const auto status = statusOf(text(header.status));
  if (!status) {
    return fail(
        ErrorCode::Parse,
        fmt::format("\"{}\" is no status; it is one of: published, from memory, common practice, ours",
                    text(header.status).substr(0, kLongestShown)),
        where + ", column status");
  }
  row.status = *status;
  const bool may_lack_source =
      row.status == base::SourceStatus::CommonPractice || row.status == base::SourceStatus::Ours;
  if (row.source.empty() || (row.source == kNoSource && !may_lack_source)) {
    return fail(ErrorCode::Parse,
                fmt::format("the row \"{}\" names no source, and its status is \"{}\"", row.key,
                            base::toText(row.status)),
                where + ", column source");
  }
  for (std::size_t i = 0; i < form.columns.size(); ++i) {
    Result<Cell> cell = readCell(form.columns[i], text(header.cells[i]), where);
    if (!cell) {
      return Failure(cell.error());
    }
    row.cells.push_back(std::move(*cell));
  }
  return row;
}

}  // namespace

std::string_view toText(Layer layer) {
  switch (layer) {
    case Layer::Shipped:
      return "shipped";
    case Layer::Personal:
      return "personal";
    case Layer::Project:
      return "project";
  }
  return "";
}

std::optional<std::size_t> columnIndex(const TableForm& form, std::string_view column) {
  for (std::size_t i = 0; i < form.columns.size(); ++i) {
    if (form.columns[i].name == column) {
      return i;
    }
  }
  return std::nullopt;
}

Result<std::shared_ptr<const Table>> Table::read(const TableForm& form, const Table* below, Layer layer,
                                                 std::string_view text, std::string_view file) {
  const Result<std::vector<base::CsvRow>> csv = base::parseCsv(text, file);
  if (!csv) {
    return Failure(csv.error());
  }
  if (csv->empty()) {
    return fail(ErrorCode::Parse, "the file has no header line", std::string(file));
  }
  const auto place = [&](int line) { return fmt::format("{}:{}", file, line); };
  const Result<Header> header = readHeader(form, csv->front(), place(csv->front().line));
  if (!header) {
    return Failure(header.error());
  }
  auto table = below != nullptr ? std::make_shared<Table>(*below) : std::make_shared<Table>();
  table->form_ = &form;
  std::map<std::string, int, std::less<>> lines;  // of this file, to find keys that stand twice
  for (std::size_t i = 1; i < csv->size(); ++i) {
    const base::CsvRow& cells = (*csv)[i];
    Result<Row> row = readRow(form, *header, cells, layer, place(cells.line));
    if (!row) {
      return Failure(row.error());
    }
    if (const auto [seen, fresh] = lines.try_emplace(row->key, cells.line); !fresh) {
      return fail(ErrorCode::Reference,
                  fmt::format("the key \"{}\" stands already on line {}", row->key, seen->second),
                  place(cells.line) + ", column key");
    }
    const auto [found, added] = table->index_.try_emplace(row->key, table->rows_.size());
    if (added) {
      table->rows_.push_back(std::move(*row));
    } else {
      table->rows_[found->second] = std::move(*row);
    }
  }
  if (const Result<void> curves = table->makeCurves(); !curves) {
    return Failure(curves.error());
  }
  return std::shared_ptr<const Table>(std::move(table));
}

Result<void> Table::makeCurves() {
  curves_.clear();
  if (form_->curve_x.empty()) {
    return {};
  }
  std::map<std::string, std::vector<const Row*>, std::less<>> groups;
  for (const Row& row : rows_) {
    groups[cell(row, "column").text].push_back(&row);
  }
  for (auto& [name, rows] : groups) {
    const auto x = [&](const Row* row) { return cell(*row, form_->curve_x).si.value(); };
    std::stable_sort(rows.begin(), rows.end(), [&](const Row* a, const Row* b) { return x(a) < x(b); });
    Points points;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (i > 0 && x(rows[i]) == x(rows[i - 1])) {
        return fail(
            ErrorCode::Conflict,
            fmt::format("\"{}\" gives a second value at \"{}\" of the curve \"{}\"; the first stands at {}",
                        rows[i]->key, cell(*rows[i], form_->curve_x).text, name, rows[i - 1]->where),
            fmt::format("{}, column {}", rows[i]->where, form_->curve_x));
      }
      points.x.push_back(x(rows[i]));
      points.y.push_back(cell(*rows[i], form_->curve_y).si.value());
    }
    curves_.emplace(name, std::move(points));
  }
  return {};
}

const Row* Table::find(std::string_view key) const {
  const auto found = index_.find(key);
  return found == index_.end() ? nullptr : &rows_[found->second];
}

Result<const Row*> Table::row(std::string_view key) const {
  if (const Row* found = find(key)) {
    return found;
  }
  std::vector<std::string> keys;
  for (const Row& r : rows_) {
    keys.push_back(r.key);
  }
  return fail(ErrorCode::Reference, fmt::format("table \"{}\" has no row \"{}\"{}", form_->name,
                                                key.substr(0, kLongestShown), nearKeysSentence(key, keys)));
}

Result<Curve> Table::curve(std::string_view column) const {
  const auto found = curves_.find(column);
  if (found == curves_.end()) {
    return fail(ErrorCode::Reference,
                fmt::format("table \"{}\" has no curve \"{}\"{}", form_->name,
                            column.substr(0, kLongestShown), nearKeysSentence(column, curveNames())));
  }
  return Curve{found->second.x, found->second.y};
}

std::vector<std::string> Table::curveNames() const {
  std::vector<std::string> names;
  for (const auto& [name, points] : curves_) {
    names.push_back(name);
  }
  return names;
}

const Cell& Table::cell(const Row& row, std::string_view column) const {
  const auto index = columnIndex(*form_, column);
  base::check(index.has_value(), "a catalogue table was asked for a column that its form does not have");
  return row.cells[*index];
}

}  // namespace kerfdraft::catalogue
