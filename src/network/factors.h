// What a situation's factors on fans, junctions and bores do to a law. With factors of 1 and extras of 0
// every law is that of physics/, to the bit.
#pragma once

#include <cmath>
#include <cstddef>

#include "base/law.h"
#include "network/network.h"
#include "physics/fan.h"
#include "physics/junction.h"

namespace kerfdraft::network {

/// Factor on the bores of a run.
inline double boreFactor(const Situation& situation, std::size_t run) {
  return situation.bore_factor.empty() ? 1.0 : situation.bore_factor[run];
}

/// Factor on the losses of a group in a run, beside group_factor.
inline double runGroupFactor(const Situation& situation, std::size_t run, pieces::Group group) {
  return situation.run_group_factor.empty()
             ? 1.0
             : situation.run_group_factor[run][static_cast<std::size_t>(group)];
}

inline double openingFactor(const Situation& situation, std::size_t opening) {
  return situation.opening_factor.empty() ? 1.0 : situation.opening_factor[opening];
}

inline double fanFactor(const Situation& situation, std::size_t fan) {
  return situation.fan_factor.empty() ? 1.0 : situation.fan_factor[fan];
}

/// A junction of runs whose bores have factors.
inline void scaleLeg(physics::JunctionGeometry& geometry, std::size_t leg, double bore_factor) {
  geometry.area_m2[leg] *= bore_factor * bore_factor;
}

/// physics::fanRise() with a factor on the rated pressure. The velocity pressure between the rated and the
/// total pressure has no factor: it is not the curve's.
template <class Note = base::Silent>
physics::CurveValue fanRiseTimes(const physics::FanRating& rating, double factor, double flow_m3_s,
                                 double room_density_kg_m3, double inlet_density_kg_m3, Note&& note = {}) {
  physics::CurveValue out =
      physics::fanRise(rating, flow_m3_s, room_density_kg_m3, inlet_density_kg_m3, note);
  if (factor == 1) {
    return out;
  }
  double vp_pa = 0;
  double vp_slope = 0;
  if (rating.section_m2 > 0 && flow_m3_s > 0) {
    const double sign = rating.basis == physics::RatingBasis::StaticAtInlet ? -1 : 1;
    const double speed_m_s = flow_m3_s / rating.section_m2;
    vp_pa = sign * 0.5 * inlet_density_kg_m3 * speed_m_s * speed_m_s;
    vp_slope = sign * inlet_density_kg_m3 * speed_m_s / rating.section_m2;
  }
  out.p_pa = factor * (out.p_pa - vp_pa) + vp_pa;
  out.dp_d_q = factor * (out.dp_d_q - vp_slope) + vp_slope;
  return out;
}

/// What Situation::junction_extra adds to the rise of one leg's total pressure over the plenum: above where
/// air enters, below where it leaves, so that it is a loss either way.
struct JunctionExtra {
  double rise_pa = 0;
  double slope_pa_s_kg = 0;  ///< by the leg's inflow
};

/// @param extra velocity pressures of the leg; @param inflow_kg_s positive into the junction
inline JunctionExtra junctionExtra(double extra, double area_m2, double inflow_kg_s, double density_kg_m3) {
  const double per_flow = extra * std::abs(inflow_kg_s) / (density_kg_m3 * area_m2 * area_m2);
  return {0.5 * per_flow * inflow_kg_s, per_flow};
}

}  // namespace kerfdraft::network
