// Rows of sound levels and their limits as plain structs.
#include "catalogue/noise.h"

#include <algorithm>

#include "catalogue/countries.h"

namespace kerfdraft::catalogue {
namespace {

using base::Result;

const Table& tableOf(const Catalogue& catalogue, std::string_view name) {
  const Result<const Table*> table = catalogue.table(name);
  base::check(table.has_value(), "a table of noise is missing");
  return **table;
}

std::optional<MachineNoise> levelsOf(const Catalogue& catalogue, std::string_view machine) {
  const Table& table = tableOf(catalogue, "noise");
  for (const Row& r : table.rows()) {
    const RowView row(table, r);
    if (row.text("machine") == machine) {
      return MachineNoise{
          row.key(),   row.name(), row.text("machine"), row.maybe("level_from"), row.number("level_to"),
          row.origin()};
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<MachineNoise> machineNoise(const Catalogue& catalogue, std::string_view machine_kind) {
  return machine_kind.empty() ? std::nullopt : levelsOf(catalogue, machine_kind);
}

std::optional<MachineNoise> collectorNoise(const Catalogue& catalogue) {
  return levelsOf(catalogue, {});
}

std::vector<NoiseLimit> noiseLimitsFor(const Catalogue& catalogue, std::string_view iso) {
  const std::vector<std::string> names = countryNames(catalogue, iso);
  const Table& table = tableOf(catalogue, "noise_limits");
  std::vector<NoiseLimit> list;
  for (const Row& r : table.rows()) {
    const RowView row(table, r);
    if (std::find(names.begin(), names.end(), row.text("country")) == names.end()) {
      continue;
    }
    list.push_back({row.key(), row.name(), row.text("body"), row.text("country"), row.text("level"),
                    row.number("level_db"), row.number("exchange_db"), row.text("force"), row.origin()});
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const NoiseLimit& a, const NoiseLimit& b) { return a.level_db < b.level_db; });
  return list;
}

}  // namespace kerfdraft::catalogue
