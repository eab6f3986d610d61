// Rows of the material tables as plain structs.
#include "catalogue/materials.h"

namespace kerfdraft::catalogue {
namespace {

using base::Failure;
using base::Result;

constexpr double kMilligram = 1e-6;  // kg

}  // namespace

Result<TransportRule> transportRule(const Catalogue& catalogue, std::string_view material) {
  const Result<RowView> row = RowView::find(catalogue, "transport_rules", material);
  if (!row) {
    return Failure(row.error());
  }
  TransportRule rule{.key = row->key(),
                     .name = row->name(),
                     .advised_branch_m_s = row->number("advised_branch"),
                     .advised_main_m_s = row->number("advised_main"),
                     .note_below_m_s = row->number("note_below"),
                     .caution_below_m_s = row->number("caution_below"),
                     .not_carried_below_m_s = row->number("not_carried_below"),
                     .high_above_m_s = row->number("high_above"),
                     .damp = row->yes("damp"),
                     .origin = row->origin()};
  if (!(rule.not_carried_below_m_s <= rule.caution_below_m_s &&
        rule.caution_below_m_s <= rule.note_below_m_s && rule.note_below_m_s <= rule.high_above_m_s)) {
    return base::fail(base::ErrorCode::Conflict,
                      "the steps must rise: not_carried_below, caution_below, note_below, high_above",
                      rule.origin.ref);
  }
  return rule;
}

Result<std::vector<TransportVelocity>> transportVelocities(const Catalogue& catalogue,
                                                           std::string_view material) {
  if (const auto known = catalogue.row("transport_rules", material); !known) {
    return Failure(known.error());
  }
  return catalogue.table("transport_velocities").map([&](const Table* table) {
    std::vector<TransportVelocity> list;
    for (const Row& r : table->rows()) {
      const RowView row(*table, r);
      if (row.text("material") == material) {
        list.push_back({row.key(), row.name(), row.text("material"), row.text("authority"), row.text("place"),
                        row.number("speed"), row.maybe("speed_to"), row.origin()});
      }
    }
    return list;
  });
}

Result<Wood> wood(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "woods", key).map([](const RowView& row) {
    return Wood{row.key(),
                row.name(),
                row.text("group"),
                row.maybe("density"),
                row.maybe("density_to"),
                row.yes("sensitizer"),
                row.origin()};
  });
}

Result<Bulking> bulking(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "bulking", key).map([](const RowView& row) {
    return Bulking{row.key(), row.name(), row.number("factor"), row.maybe("factor_to"), row.origin()};
  });
}

Result<CaptureVelocity> captureVelocity(const Catalogue& catalogue, std::string_view key) {
  return RowView::find(catalogue, "capture_velocities", key).map([](const RowView& row) {
    const double low_m_s = row.number("speed");
    return CaptureVelocity{row.key(), row.name(), low_m_s, row.maybe("speed_to").value_or(low_m_s),
                           row.origin()};
  });
}

std::vector<ExposureLimit> exposureLimits(const Catalogue& catalogue, std::string_view country) {
  std::vector<ExposureLimit> list;
  const Result<const Table*> table = catalogue.table("limits");
  base::check(table.has_value(), "the table of limits is missing");
  for (const Row& r : (*table)->rows()) {
    const RowView row(**table, r);
    if (!country.empty() && row.text("country") != country) {
      continue;
    }
    ExposureLimit limit{.key = row.key(),
                        .name = row.name(),
                        .body = row.text("body"),
                        .country = row.text("country"),
                        .wood = row.text("wood"),
                        .limit_kg_m3 = row.number("limit_mg_m3") * kMilligram,
                        .short_term_kg_m3 = {},
                        .fraction = row.text("fraction"),
                        .date = row.text("date"),
                        .force = row.text("force"),
                        .origin = row.origin()};
    if (const auto short_term = row.maybe("short_term_mg_m3")) {
      limit.short_term_kg_m3 = *short_term * kMilligram;
    }
    list.push_back(std::move(limit));
  }
  return list;
}

}  // namespace kerfdraft::catalogue
