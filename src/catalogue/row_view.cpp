// Reading of one row.
#include "catalogue/row_view.h"

namespace kerfdraft::catalogue {

base::Result<RowView> RowView::find(const Catalogue& catalogue, std::string_view table,
                                    std::string_view key) {
  const base::Result<const Table*> found = catalogue.table(table);
  if (!found) {
    return base::Failure(found.error());
  }
  return (*found)->row(key).map([&](const Row* row) { return RowView(**found, *row); });
}

Origin RowView::origin() const {
  return {rowRef(*table_, *row_), row_->source, row_->status, row_->note, row_->layer};
}

double RowView::number(std::string_view column) const {
  const std::optional<double> si = maybe(column);
  base::check(si.has_value(), "a catalogue cell was read as a number that its form does not require");
  return *si;
}

}  // namespace kerfdraft::catalogue
