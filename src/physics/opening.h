// Openings to the room: gaps of a machine's body, doors, make-up grilles; and duct ends used the wrong way.
#pragma once

#include <cmath>

#include "base/law.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

/// Discharge coefficient of a sharp opening.
inline constexpr double kDischarge = 0.61;
/// A hood that blows out loses its whole velocity pressure.
inline constexpr double kHoodBlowingOut = 1.0;
/// An outlet that sucks in is a plain duct end.
inline constexpr double kOutletSuckingIn = 0.93;

inline constexpr base::Law kOpening{"opening",
                                    "Opening to the room",
                                    "dp",
                                    base::Kind::Pressure,
                                    "dp = m|m| / (2 rho (Cd A)^2), Cd = 0.61",
                                    "AshraeF2009, ch. 16",
                                    base::SourceStatus::FromMemory,
                                    ""};

/// Pressure difference that drives a mass flow through a sharp opening [m2], the same both ways; flat where
/// the flow turns. Density is that of the air upstream (room air: gaps see little pressure).
template <class Note = base::Silent>
Loss opening(double flow_kg_s, double density_kg_m3, double area_m2, Note&& note = {}) {
  const double effective = kDischarge * area_m2;
  const double slope = std::abs(flow_kg_s) / (density_kg_m3 * effective * effective);
  const Loss loss{0.5 * slope * flow_kg_s, slope};
  if constexpr (base::kNoted<Note>) {
    note.step(kOpening, loss.dp_pa,
              {{"m", flow_kg_s, base::Kind::MassFlow},
               {"rho", density_kg_m3, base::Kind::Density},
               {"Cd", kDischarge, base::Kind::Ratio},
               {"A", area_m2, base::Kind::Area}});
  }
  return loss;
}

}  // namespace kerfdraft::physics
