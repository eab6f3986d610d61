// The catalogue: all tables as one immutable value. The shipped layer is compiled in; a person's own rows and
// those of a project are laid over it. Tables that a layer does not touch are shared.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/table.h"

namespace kerfdraft::catalogue {

/// Text of one table, given at run time.
struct TableText {
  std::string table;  ///< name of the table: "hoses"
  std::string file;   ///< named in errors: "my/hoses.csv"
  std::string text;   ///< CSV
};

/// One row found by search.
struct Hit {
  const Table* table = nullptr;
  const Row* row = nullptr;
};

class Catalogue {
 public:
  /// The shipped tables alone.
  static base::Result<Catalogue> shipped();

  /// These tables with a later layer over them. An unknown table name is an error that offers near names.
  base::Result<Catalogue> with(Layer layer, std::span<const TableText> texts) const;

  /// All tables in their shown order.
  std::span<const std::shared_ptr<const Table>> tables() const { return tables_; }

  base::Result<const Table*> table(std::string_view name) const;
  base::Result<const Row*> row(std::string_view table, std::string_view key) const;
  base::Result<Curve> curve(std::string_view table, std::string_view column) const;

  /// Rows that hold every word of `text` (letter case aside) in any cell or in the table's name, in the order
  /// of the tables. Nothing for a blank text.
  std::vector<Hit> search(std::string_view text) const;

 private:
  base::Result<void> checkReferences() const;

  std::vector<std::shared_ptr<const Table>> tables_;
};

/// Names of all columns as they stand in the file: key, name, the table's own, source, status, note.
std::vector<std::string> columnTitles(const Table& table);

/// One row's cells in the order of columnTitles, as given.
std::vector<std::string> rowTexts(const Row& row);

/// "constructions/snap-lock": how derivations and messages name a row.
std::string rowRef(const Table& table, const Row& row);

}  // namespace kerfdraft::catalogue
