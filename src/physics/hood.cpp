// Makers' pairs turned into entry coefficients, and the refusals.
#include "physics/hood.h"

#include <fmt/format.h>

#include <cmath>

namespace kerfdraft::physics {

using base::ErrorCode;
using base::fail;

base::Result<std::vector<PairEntry>> entriesFromPairs(std::span<const MakerPair> pairs, double openings_m2,
                                                      double density_kg_m3) {
  if (!(std::isfinite(density_kg_m3) && density_kg_m3 > 0)) {
    return fail(ErrorCode::Range,
                fmt::format("an air density must be above zero, not {:.6g} kg/m3", density_kg_m3));
  }
  if (!(std::isfinite(openings_m2) && openings_m2 >= 0)) {
    return fail(ErrorCode::Range,
                fmt::format("the openings of a machine's body must have an area from zero up, not {:.6g} m2",
                            openings_m2));
  }
  double sum_m3_s = 0;
  for (const MakerPair& pair : pairs) {
    const struct {
      const char* name;
      double value;
      const char* unit;
    } entries[] = {
        {"flow", pair.flow_m3_s, "m3/s"}, {"suction", pair.suction_pa, "Pa"}, {"bore", pair.bore_m, "m"}};
    for (const auto& entry : entries) {
      if (!(std::isfinite(entry.value) && entry.value > 0)) {
        return fail(ErrorCode::Range,
                    fmt::format("the maker's {} for a port must be above zero, not {:.6g} {}", entry.name,
                                entry.value, entry.unit),
                    pair.where);
      }
    }
    sum_m3_s += pair.flow_m3_s;
  }
  const double openings_pa =
      openings_m2 > 0 ? opening(sum_m3_s * density_kg_m3, density_kg_m3, openings_m2).dp_pa : 0.0;
  std::vector<PairEntry> out;
  for (const MakerPair& pair : pairs) {
    const double speed_m_s = pair.flow_m3_s / roundArea(pair.bore_m);
    PairEntry entry;
    entry.vp_pa = velocityPressure(density_kg_m3, speed_m_s);
    entry.openings_pa = openings_pa;
    if (pair.suction_pa < entry.vp_pa) {
      return fail(
          ErrorCode::Conflict,
          fmt::format("the maker's static suction of {:.4g} Pa is less than the velocity pressure of his own "
                      "flow, {:.4g} Pa ({:.4g} m3/s through {:.4g} mm is {:.3g} m/s); the bore, the flow or "
                      "the kind of pressure must be another",
                      pair.suction_pa, entry.vp_pa, pair.flow_m3_s, 1000 * pair.bore_m, speed_m_s),
          pair.where);
    }
    entry.entry = entryFromPair(pair.suction_pa, openings_pa, entry.vp_pa);
    entry.at_floor = pair.suction_pa - openings_pa < entry.vp_pa;
    out.push_back(entry);
  }
  return out;
}

}  // namespace kerfdraft::physics
