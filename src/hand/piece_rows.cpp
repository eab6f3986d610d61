// Coefficient, velocity pressure and loss of each piece at a flow, in standard air corrected for density.
#include "hand/piece_rows.h"

#include "base/law.h"
#include "hand/laws.h"
#include "physics/air.h"
#include "physics/friction.h"
#include "physics/gate.h"
#include "physics/opening.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::hand {

namespace {

using pieces::Piece;
using pieces::Role;

/// Duct at least this smooth takes the power law's smooth row; halfway between welded and spiral duct.
constexpr double kSmoothUpTo_m = 0.07e-3;

/// Row of the power law that a piece takes. The trade has one row for hose, however it hangs.
const TradeFriction& tradeRow(const Piece& piece) {
  if (piece.key.role == Role::Hose) {
    return kFlexibleFriction;
  }
  return piece.roughness_m <= kSmoothUpTo_m ? kSmoothFriction : kGalvanizedFriction;
}

void addFriction(const SheetAir& air, const Piece& piece, SheetRow& row) {
  if (piece.length_m <= 0) {
    return;
  }
  if (air.friction == FrictionRule::PowerLaw) {
    row.friction_coefficient =
        tradeFrictionPerFoot(tradeRow(piece), row.speed_m_s, row.flow_m3_s) * piece.length_m / kFoot_m;
    row.source = {std::string(kTradeFriction.formula), std::string(kTradeFriction.source),
                  kTradeFriction.status};
    if (piece.key.role == Role::Hose && piece.multiplier != 1) {
      row.remark = "the trade's row for hose pulled tight, however this one hangs";
    }
    return;
  }
  const double flow_kg_s = physics::kStandardDensity_kg_m3 * row.flow_m3_s;
  const double re = physics::reynolds(flow_kg_s, piece.bore_m, physics::kStandardViscosity_pa_s);
  row.friction_factor = physics::frictionFactor(re, piece.roughness_m / piece.bore_m).f;
  row.friction_coefficient = row.friction_factor * piece.length_m / piece.bore_m * piece.multiplier;
}

}  // namespace

double velocityPressureOf(const SheetAir& air, double flow_m3_s, double bore_m) {
  const double speed_m_s = flow_m3_s / physics::roundArea(bore_m);
  return correctForDensity(physics::velocityPressure(physics::kStandardDensity_kg_m3, speed_m_s),
                           air.density_factor);
}

SheetRow rowOf(const SheetAir& air, const pieces::Pieces& drawing, const pieces::Run& run,
               const pieces::Piece& piece, double flow_m3_s) {
  SheetRow row;
  row.key = piece.key;
  row.run = run.label;
  row.label = piece.label;
  row.flow_m3_s = flow_m3_s;
  row.bore_m = piece.bore_m;
  row.length_m = piece.length_m;
  row.angle_rad = piece.angle_rad;
  row.speed_m_s = flow_m3_s / physics::roundArea(piece.bore_m);
  row.density_kg_m3 = air.density_factor * physics::kStandardDensity_kg_m3;
  row.velocity_pressure_pa = velocityPressureOf(air, flow_m3_s, piece.bore_m);
  row.source = piece.source;
  addFriction(air, piece, row);
  row.local_coefficient = piece.k_forward;
  if (piece.gate >= 0) {
    row.local_coefficient =
        physics::gate(1.0, drawing.gates[static_cast<std::size_t>(piece.gate)].leak_fraction).k;
  }
  row.coefficient = row.friction_coefficient + row.local_coefficient;
  const double linear_pa_s_m3 =
      piece.filter >= 0 ? drawing.filters[static_cast<std::size_t>(piece.filter)].linear_pa_s_m3[air.filter]
                        : piece.linear_pa_s_m3;
  row.loss_pa = row.coefficient * row.velocity_pressure_pa + linear_pa_s_m3 * flow_m3_s;
  return row;
}

SheetRow bodyRow(const SheetAir& air, const pieces::Pieces& drawing, std::size_t body, double flow_m3_s) {
  SheetRow row;
  row.key = drawing.nodes[body].key;
  row.label = "gaps of " + drawing.nodes[body].label;
  row.flow_m3_s = flow_m3_s;
  row.density_kg_m3 = air.density_factor * physics::kStandardDensity_kg_m3;
  double effective_m2 = 0;
  for (const pieces::Opening& opening : drawing.openings) {
    if (opening.to == body && opening.usually_open) {
      effective_m2 += opening.area_m2 * opening.discharge;
    }
  }
  if (effective_m2 <= 0) {
    return row;
  }
  const double area_m2 = effective_m2 / physics::kDischarge;
  row.speed_m_s = flow_m3_s / area_m2;
  row.velocity_pressure_pa = correctForDensity(
      physics::velocityPressure(physics::kStandardDensity_kg_m3, row.speed_m_s), air.density_factor);
  const double standard_pa =
      physics::opening(physics::kStandardDensity_kg_m3 * flow_m3_s, physics::kStandardDensity_kg_m3, area_m2)
          .dp_pa;
  row.loss_pa = correctForDensity(standard_pa, air.density_factor);
  row.local_coefficient = row.loss_pa / row.velocity_pressure_pa;
  row.coefficient = row.local_coefficient;
  row.source = {std::string(physics::kOpening.formula), std::string(physics::kOpening.source),
                physics::kOpening.status};
  return row;
}

}  // namespace kerfdraft::hand
