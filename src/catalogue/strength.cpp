// Rows of strengths and containers as plain structs.
#include "catalogue/strength.h"

namespace kerfdraft::catalogue {
namespace {

using base::Result;

/// The first row of this thing whose construction or container, and bore, fit.
std::optional<Strength> findStrength(const Catalogue& catalogue, std::string_view thing,
                                     std::string_view column, std::string_view key,
                                     std::optional<double> bore_m) {
  const Result<const Table*> table = catalogue.table("suction_strength");
  base::check(table.has_value(), "the table of strengths is missing");
  for (const Row& r : (*table)->rows()) {
    const RowView row(**table, r);
    const std::optional<double> from_m = row.maybe("bore_from");
    const std::optional<double> to_m = row.maybe("bore_to");
    if (row.text("thing") != thing || (!column.empty() && row.text(column) != key) ||
        (bore_m && ((from_m && *bore_m < *from_m) || (to_m && !(*bore_m < *to_m))))) {
      continue;
    }
    return Strength{.key = row.key(),
                    .name = row.name(),
                    .thing = row.text("thing"),
                    .construction = row.text("construction"),
                    .container = row.text("container"),
                    .bore_from_m = from_m,
                    .bore_to_m = to_m,
                    .low_pa = row.number("suction"),
                    .high_pa = row.number("suction_to"),
                    .origin = row.origin()};
  }
  return std::nullopt;
}

}  // namespace

Result<Container> container(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "containers", key).map([](const RowView& row) {
    return Container{row.key(), row.name(), row.maybe("usual_volume"), row.origin()};
  });
}

std::optional<Strength> ductStrength(const Catalogue& catalogue, std::string_view construction,
                                     double bore_m) {
  return findStrength(catalogue, "duct", "construction", construction, bore_m);
}

std::optional<Strength> hoseStrength(const Catalogue& catalogue, double bore_m) {
  return findStrength(catalogue, "hose", {}, {}, bore_m);
}

std::optional<Strength> containerStrength(const Catalogue& catalogue, std::string_view container) {
  return findStrength(catalogue, "container", "container", container, std::nullopt);
}

}  // namespace kerfdraft::catalogue
