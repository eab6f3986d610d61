// Rows of the hood, gate, separator and filter tables as plain structs.
#include "catalogue/collectors.h"

#include <algorithm>

namespace kerfdraft::catalogue {

using base::Failure;
using base::Result;

Result<HoodForm> hoodForm(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "hoods", key).map([](const RowView& row) {
    return HoodForm{row.key(), row.name(), row.number("entry_loss"), row.text("valid"), row.origin()};
  });
}

Result<Gate> gate(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "gates", key).map([](const RowView& row) {
    return Gate{row.key(), row.name(), row.number("leak_slot"), row.text("blade"), row.origin()};
  });
}

Result<Separator> separator(const Catalogue& catalogue, std::string_view key) {
  const Result<RowView> row = RowView::find(catalogue, "separators", key);
  if (!row) {
    return Failure(row.error());
  }
  Separator s{row->key(),
              row->name(),
              row->maybe("heads"),
              row->maybe("heads_band"),
              row->maybe("loss_at_rated_flow"),
              row->origin()};
  if (s.heads.has_value() == s.loss_at_rated_flow_pa.has_value()) {
    return base::fail(base::ErrorCode::Conflict,
                      "a separator has either heads or a loss at its rated flow, one of the two",
                      s.origin.ref);
  }
  return s;
}

Result<CycloneShape> cycloneShape(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "cyclone_shapes", key).map([](const RowView& row) {
    return CycloneShape{.key = row.key(),
                        .name = row.name(),
                        .inlet_height = row.number("inlet_height"),
                        .inlet_width = row.number("inlet_width"),
                        .dust_outlet = row.number("dust_outlet"),
                        .cylinder = row.number("cylinder"),
                        .cone = row.number("cone"),
                        .gas_outlet = row.number("gas_outlet"),
                        .outlet_depth = row.number("outlet_depth"),
                        .inlet_heads = row.number("inlet_heads"),
                        .configuration = row.maybe("configuration"),
                        .origin = row.origin()};
  });
}

Result<FilterDefaults> filterDefaults(const Catalogue& catalogue) {
  const Result<RowView> row = RowView::find(catalogue, "filters", "unknown");
  if (!row) {
    return Failure(row.error());
  }
  for (const char* column : {"clean", "seasoned_over_clean", "due", "due_over_seasoned", "face_speed"}) {
    if (!row->maybe(column)) {
      return base::fail(base::ErrorCode::Parse,
                        std::string("the filter of which nothing is known needs a value for ") + column,
                        row->origin().ref);
    }
  }
  FilterDefaults f;
  f.clean_pa = row->number("clean");
  f.seasoned_pa = f.clean_pa * row->number("seasoned_over_clean");
  f.due_over_seasoned = row->number("due_over_seasoned");
  f.due_pa = std::max(row->number("due"), f.due_over_seasoned * f.seasoned_pa);
  f.face_speed_m_s = row->number("face_speed");
  f.origin = row->origin();
  return f;
}

}  // namespace kerfdraft::catalogue
