// A table of points from a file or the clipboard. A number without a unit is never guessed at.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <optional>

#include "base/csv.h"
#include "base/units.h"
#include "desk/models/fan_entry.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;

constexpr std::array kKinds{base::Kind::VolumeFlow, base::Kind::Pressure, base::Kind::Power};
constexpr std::array kWords{"flow", "pressure", "power"};

struct Column {
  std::size_t cell = 0;
  std::string unit;  ///< from the head; empty: each cell has its own
};

std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
  while (!text.empty() && blank(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && blank(text.back())) {
    text.remove_suffix(1);
  }
  return std::string(text);
}

bool beginsAsNumber(const std::string& cell) {
  return !cell.empty() && std::string_view("0123456789+-.").find(cell.front()) != std::string_view::npos;
}

std::optional<std::size_t> kindOfHead(std::string head) {
  std::transform(head.begin(), head.end(), head.begin(),
                 [](char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); });
  const auto holds = [&](std::string_view word) { return head.find(word) != std::string::npos; };
  if (holds("pressure") || holds("suction") || holds("static")) {
    return 1;
  }
  if (holds("power")) {
    return 2;
  }
  if (holds("flow") || holds("volume") || holds("air")) {
    return 0;
  }
  return std::nullopt;
}

std::string unitOfHead(const std::string& head) {
  const std::size_t open = head.find_first_of("([");
  const std::size_t shut = head.find_last_of(")]");
  return open == std::string::npos || shut == std::string::npos || shut < open
             ? std::string()
             : trimmed(std::string_view(head).substr(open + 1, shut - open - 1));
}

/// Where flow, pressure and power stand.
base::Result<std::array<std::optional<Column>, 3>> columnsOf(const base::CsvRow& head,
                                                             const std::string& where) {
  std::array<std::optional<Column>, 3> out;
  for (std::size_t i = 0; i < head.cells.size(); ++i) {
    const auto kind = kindOfHead(head.cells[i]);
    if (!kind) {
      continue;
    }
    if (out[*kind]) {
      return fail(ErrorCode::Conflict,
                  fmt::format("two columns are headed as {}: keep the one of this fan", kWords[*kind]),
                  where);
    }
    out[*kind] = Column{i, unitOfHead(head.cells[i])};
  }
  if (!out[0] || !out[1]) {
    return fail(ErrorCode::Parse,
                "the head must name the columns \"flow\" and \"pressure\", as in: flow (cfm), pressure (in "
                "w.g.)",
                where);
  }
  return out;
}

/// Commas between cells, whatever stood there.
base::Result<std::string> withCommas(std::string_view text, std::string_view name) {
  const bool tabs = text.find('\t') != std::string_view::npos;
  const bool semicolons = text.find(';') != std::string_view::npos;
  std::string out(text);
  if (!tabs && !semicolons) {
    return out;
  }
  const char between = tabs ? '\t' : ';';
  if (text.find(',') != std::string_view::npos) {
    return fail(ErrorCode::Parse,
                "the table has commas inside its cells; write decimals with a point (1.5), and thousands "
                "without a sign (1200)",
                std::string(name));
  }
  std::replace(out.begin(), out.end(), between, ',');
  return out;
}

}  // namespace

base::Result<std::vector<TypedPoint>> pointsFromTable(std::string_view text, std::string_view name) {
  const auto commas = withCommas(text, name);
  if (!commas) {
    return base::Failure(commas.error());
  }
  const auto rows = base::parseCsv(*commas, name);
  if (!rows) {
    return base::Failure(rows.error());
  }
  const auto line = [&](const base::CsvRow& row) { return fmt::format("{}:{}", name, row.line); };
  std::array<std::optional<Column>, 3> columns{Column{0, {}}, Column{1, {}}, Column{2, {}}};
  std::size_t first = 0;
  if (!rows->empty() && !beginsAsNumber(trimmed(rows->front().cells.front()))) {
    auto headed = columnsOf(rows->front(), line(rows->front()));
    if (!headed) {
      return base::Failure(headed.error());
    }
    columns = *headed;
    first = 1;
  }
  std::vector<TypedPoint> out;
  out.reserve(rows->size());
  for (std::size_t r = first; r < rows->size(); ++r) {
    const base::CsvRow& row = (*rows)[r];
    TypedPoint point;
    for (std::size_t k = 0; k < point.size(); ++k) {
      std::string cell = columns[k] && columns[k]->cell < row.cells.size()
                             ? trimmed(row.cells[columns[k]->cell])
                             : std::string();
      if (cell.empty()) {
        if (k < 2) {
          return fail(ErrorCode::Parse, fmt::format("the {} is missing", kWords[k]), line(row));
        }
        continue;
      }
      if (!columns[k]->unit.empty()) {
        cell += " " + columns[k]->unit;
      }
      if (const auto value = base::parseQuantity(kKinds[k], cell, line(row)); !value) {
        return base::Failure(value.error());
      }
      point[k] = std::move(cell);
    }
    out.push_back(std::move(point));
  }
  if (out.size() < 2) {
    return fail(
        ErrorCode::Parse,
        fmt::format("a curve needs at least two points; this table has {}", out.empty() ? "none" : "one"),
        std::string(name));
  }
  return out;
}

}  // namespace kerfdraft::desk
