// Rows of the duct tables as plain structs.
#include "catalogue/ducts.h"

#include <algorithm>

namespace kerfdraft::catalogue {
namespace {

using base::Failure;
using base::Result;

Bore boreOf(const RowView& row) {
  return {row.key(),          row.name(),           row.text("system"), row.number("nominal"),
          row.number("bore"), row.maybe("outside"), row.maybe("wall"),  row.origin()};
}

/// The curve that a cell of `row` names; an unknown name is an error at that row.
Result<Curve> namedCurve(const Catalogue& catalogue, std::string_view table, const RowView& row,
                         std::string_view cell) {
  Result<Curve> found = catalogue.curve(table, row.text(cell));
  if (!found) {
    return base::fail(found.error().code, found.error().message,
                      row.origin().ref + ", column " + std::string(cell));
  }
  return found;
}

// The bore columns are measured on elbows of this R/D (except those that apply no ratio).
constexpr double kMeasuredRatio = 1.5;

Result<physics::ElbowTables> tablesOf(const Catalogue& catalogue, const RowView& row,
                                      const Curve& angle_factor) {
  const Result<Curve> by_bore = namedCurve(catalogue, "elbow_k_by_bore", row, "bore_column");
  if (!by_bore) {
    return Failure(by_bore.error());
  }
  const Result<Curve> by_ratio = namedCurve(catalogue, "elbow_k_by_ratio", row, "ratio_column");
  if (!by_ratio) {
    return Failure(by_ratio.error());
  }
  const Result<Curve> base_curve = namedCurve(catalogue, "elbow_k_by_ratio", row, "base_column");
  if (!base_curve) {
    return Failure(base_curve.error());
  }
  const double ratio_at_15 = physics::readColumn(*base_curve, kMeasuredRatio).value;
  if (!(ratio_at_15 > 0)) {
    return base::fail(base::ErrorCode::Range, "the loss at R/D 1.5 is 0, so nothing can be compared with it",
                      row.origin().ref + ", column base_column");
  }
  return physics::ElbowTables{
      .k_at_15 = *by_bore, .by_ratio = *by_ratio, .ratio_at_15 = ratio_at_15, .angle_factor = angle_factor};
}

}  // namespace

Result<Construction> construction(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "constructions", key).map([](const RowView& row) {
    return Construction{row.key(),
                        row.name(),
                        row.number("roughness"),
                        row.number("leakage_class"),
                        row.yes("plastic"),
                        row.text("gauge_note"),
                        row.origin()};
  });
}

Result<Hose> hose(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "hoses", key).map([](const RowView& row) {
    return Hose{row.key(),
                row.name(),
                row.text("inside"),
                row.text("lay"),
                row.number("friction_factor"),
                row.number("reference_roughness"),
                row.number("cuff_leakage_class"),
                row.origin()};
  });
}

Result<Bore> bore(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "bores", key).map(boreOf);
}

std::vector<Bore> boresOf(const Catalogue& catalogue, std::string_view system) {
  std::vector<Bore> list;
  const Result<const Table*> table = catalogue.table("bores");
  base::check(table.has_value(), "the table of bores is missing");
  for (const Row& row : (*table)->rows()) {
    const RowView view(**table, row);
    if (view.text("system") == system) {
      list.push_back(boreOf(view));
    }
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Bore& a, const Bore& b) { return a.bore_m < b.bore_m; });
  return list;
}

Result<Elbow> elbow(const Catalogue& catalogue, std::string_view key) {
  const Result<RowView> row = RowView::find(catalogue, "elbows", key);
  if (!row) {
    return Failure(row.error());
  }
  const Result<Curve> angle_factor = catalogue.curve("elbow_angle_factor", "smacna");
  if (!angle_factor) {
    return Failure(angle_factor.error());
  }
  Elbow e{.key = row->key(),
          .name = row->name(),
          .tables = {},
          .fixed_k = row->maybe("fixed_k"),
          .is_mitre = row->key() == "mitre",
          .usual_radius_ratio = row->number("usual_radius_ratio"),
          .angle_factor = *angle_factor,
          .origin = row->origin()};
  if (e.is_mitre) {
    return e;
  }
  if (e.fixed_k.has_value() != row->text("bore_column").empty()) {
    return base::fail(base::ErrorCode::Conflict,
                      "an elbow has either a bore_column or a fixed_k, one of the two", e.origin.ref);
  }
  if (e.fixed_k) {
    return e;
  }
  const Result<physics::ElbowTables> tables = tablesOf(catalogue, *row, *angle_factor);
  if (!tables) {
    return Failure(tables.error());
  }
  e.tables = *tables;
  return e;
}

Result<Fitting> fitting(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "fittings", key).map([](const RowView& row) {
    return Fitting{row.key(), row.name(), row.number("k"), row.text("reference"), row.origin()};
  });
}

}  // namespace kerfdraft::catalogue
