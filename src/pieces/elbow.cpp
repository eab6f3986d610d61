// Elbow coefficients: the columns of the catalogue handed to the laws of physics/fittings.h.
#include "pieces/elbow.h"

#include <fmt/format.h>

#include "catalogue/ducts.h"
#include "physics/fittings.h"
#include "pieces/draft.h"

namespace kerfdraft::pieces {

using base::Failure;
using base::Result;

Result<physics::Column> mitreColumn(const catalogue::Catalogue& catalogue) {
  return catalogue.curve("mitre_k", "mitre").map([](const catalogue::Curve& curve) {
    return physics::Column{curve.x, curve.y};
  });
}

Result<ElbowLoss> elbowLoss(const catalogue::Catalogue& catalogue, std::string_view form,
                            std::optional<double> radius_ratio, double bore_m, double angle_rad,
                            const std::string& where) {
  auto row = catalogue::elbow(catalogue, form);
  if (!row) {
    row.error().where = where;
    return Failure(row.error());
  }
  ElbowLoss out;
  out.name = row->name;
  out.radius_ratio = radius_ratio.value_or(row->usual_radius_ratio);
  const auto checked = physics::checkElbow(base::Angle(angle_rad), out.radius_ratio, row->is_mitre, where);
  if (!checked) {
    return Failure(checked.error());
  }
  if (row->is_mitre) {
    const auto by_angle = mitreColumn(catalogue);
    if (!by_angle) {
      return Failure(by_angle.error());
    }
    const physics::FittingK loss = physics::mitre(*by_angle, angle_rad);
    out.k = loss.k;
    out.clamped = loss.clamped;
    out.source = sourceOf(row->origin, std::string(physics::kMitre.formula));
    return out;
  }
  if (row->fixed_k) {
    const physics::FittingK loss = physics::elbowOfFixedK(*row->fixed_k, row->angle_factor, angle_rad);
    out.k = loss.k;
    out.clamped = loss.clamped;
    out.source = sourceOf(row->origin, fmt::format("K = {} w(angle)", *row->fixed_k));
    return out;
  }
  base::check(row->tables.has_value(), "an elbow's row has neither tables nor a fixed coefficient");
  const physics::FittingK loss = physics::elbow(*row->tables, bore_m, out.radius_ratio, angle_rad);
  out.k = loss.k;
  out.clamped = loss.clamped;
  out.source =
      sourceOf(row->origin, fmt::format("{}, R/D {:.3g}", physics::kElbow.formula, out.radius_ratio));
  return out;
}

}  // namespace kerfdraft::pieces
