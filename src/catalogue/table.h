// One table of the catalogue as a value: its form (columns, kinds, bounds), its rows as given with their SI
// numbers, and the curves that its rows make. Reading and merging of CSV text is here, meaning is not.
#pragma once

#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"
#include "physics/column.h"

namespace kerfdraft::catalogue {

/// Where a row comes from. A later layer's row replaces an earlier one of the same key.
enum class Layer { Shipped, Personal, Project };

/// "shipped", "personal", "project".
std::string_view toText(Layer layer);

enum class CellType { Text, YesNo, Number };

/// One column between name and source. Bounds are in SI; a cell outside them is refused.
struct Column {
  std::string_view name;
  CellType type = CellType::Text;
  base::Kind kind = base::Kind::Ratio;
  bool required = false;
  double least = 0;
  double most = std::numeric_limits<double>::infinity();
  std::string_view refers_to = {};  ///< table whose keys this cell names, "" for free text
  std::string_view one_of = {};     ///< the words that this cell takes, "smooth|ribbed"; "" for free text
};

/// The columns of a table beside key, name, source, status and note, which every table has.
struct TableForm {
  std::string_view name;   ///< file name without suffix
  std::string_view title;  ///< for people
  std::span<const Column> columns;
  std::string_view curve_x;  ///< columns that make curves, "" where there are none; the rows of a curve share
  std::string_view curve_y;  ///< the text of their cell "column"
};

/// A cell as given, and its SI value where it is a number.
struct Cell {
  std::string text;
  std::optional<double> si;
};

struct Row {
  std::string key;
  std::string name;
  std::vector<Cell> cells;  ///< one for each column of the form
  std::string source;       ///< "BibKey: place", or "no source"
  base::SourceStatus status = base::SourceStatus::CommonPractice;
  std::string note;
  Layer layer = Layer::Shipped;
  std::string where;  ///< "bores.csv:12"
};

/// Points with rising x, as the laws read them. The spans live as long as the table.
using Curve = physics::Column;

/// Immutable. Rows keep the order of the files; a replaced row keeps its place, new rows follow.
class Table {
 public:
  /// Reads `text` of `layer` over `below` (nullptr for none). An error names file, line, column and value.
  static base::Result<std::shared_ptr<const Table>> read(const TableForm& form, const Table* below,
                                                         Layer layer, std::string_view text,
                                                         std::string_view file);

  const TableForm& form() const { return *form_; }
  std::span<const Row> rows() const { return rows_; }

  /// The row, or nullptr.
  const Row* find(std::string_view key) const;
  /// The row; a miss is an error that offers near keys.
  base::Result<const Row*> row(std::string_view key) const;

  /// The curve of the rows whose cell "column" holds this name; a miss offers near names.
  base::Result<Curve> curve(std::string_view column) const;
  /// Names of all curves, in alphabetical order.
  std::vector<std::string> curveNames() const;

  /// The cell of a column of the form; InternalError for a column that the form does not have.
  const Cell& cell(const Row& row, std::string_view column) const;

 private:
  struct Points {
    std::vector<double> x;
    std::vector<double> y;
  };

  base::Result<void> makeCurves();

  const TableForm* form_ = nullptr;
  std::vector<Row> rows_;
  std::map<std::string, std::size_t, std::less<>> index_;
  std::map<std::string, Points, std::less<>> curves_;
};

/// Index of a column of the form, or nothing.
std::optional<std::size_t> columnIndex(const TableForm& form, std::string_view column);

}  // namespace kerfdraft::catalogue
