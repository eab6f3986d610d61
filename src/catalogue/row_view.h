// What the typed views share: where a row comes from, and reading its cells.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/law.h"
#include "base/result.h"
#include "catalogue/catalogue.h"

namespace kerfdraft::catalogue {

/// Origin of the numbers of one row, carried along so that every answer can name it.
struct Origin {
  std::string ref;  ///< "constructions/snap-lock"
  std::string source;
  base::SourceStatus status = base::SourceStatus::CommonPractice;
  std::string note;
  Layer layer = Layer::Shipped;
};

/// Reads the cells of one row by the names of their columns.
class RowView {
 public:
  RowView(const Table& table, const Row& row) : table_(&table), row_(&row) {}

  /// The row of a table; a miss offers near keys.
  static base::Result<RowView> find(const Catalogue& catalogue, std::string_view table, std::string_view key);

  const std::string& key() const { return row_->key; }
  const std::string& name() const { return row_->name; }
  Origin origin() const;

  /// SI value of a cell that the form requires; InternalError where it does not.
  double number(std::string_view column) const;
  /// SI value, or nothing for an empty cell.
  std::optional<double> maybe(std::string_view column) const { return table_->cell(*row_, column).si; }
  /// The cell as given, "" for an empty one.
  const std::string& text(std::string_view column) const { return table_->cell(*row_, column).text; }
  bool yes(std::string_view column) const { return text(column) == "yes"; }

 private:
  const Table* table_;
  const Row* row_;
};

}  // namespace kerfdraft::catalogue
