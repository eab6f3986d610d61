// The coefficient of one piece in one situation: the same arithmetic for the shown result and for its
// explanation.
#pragma once

#include "base/law.h"
#include "network/factors.h"
#include "network/network.h"
#include "physics/conveying.h"
#include "physics/friction.h"
#include "physics/gate.h"
#include "physics/stretch.h"
#include "pieces/pieces.h"

namespace kerfdraft::network {

inline constexpr base::Law kPieceCoefficient{
    "piece-coefficient",
    "Velocity pressures lost in a piece",
    "C",
    base::Kind::Ratio,
    "C = F [k + multiplier f (L/D) (1 + 0.5 mu)] + 1.6 mu (mu: in the first duct behind an inlet, forward)",
    "AshraeF2009, ch. 21 (Darcy-Weisbach)",
    base::SourceStatus::Published,
    "friction"};

/// What a piece takes, from its flow.
struct PieceTerms {
  double reynolds = 0;
  double friction_factor = 0;
  double coefficient = 0;
  double linear_pa_s_m3 = 0;
};

/// @param run index in pieces.runs; @param piece index in its pieces
/// @param solids_ratio μ of the run [1]
/// @param accelerates the piece is the first duct behind an inlet
template <class Note = base::Silent>
PieceTerms pieceTerms(const pieces::Pieces& from, const Situation& situation, std::size_t run,
                      std::size_t piece, double flow_kg_s, double solids_ratio, bool accelerates,
                      Note&& note = {}) {
  const pieces::Piece& p = from.runs[run].pieces[piece];
  PieceTerms t;
  const double bore_m = p.bore_m * boreFactor(situation, run);
  t.reynolds = physics::reynolds(flow_kg_s, bore_m, from.air.viscosity_pa_s, note);
  const double group = situation.group_factor[static_cast<std::size_t>(p.group)];
  const double factor = group * (situation.run_factor.empty() ? 1.0 : situation.run_factor[run]) *
                        runGroupFactor(situation, run, p.group);
  double k = flow_kg_s >= 0 ? p.k_forward : p.k_reverse;
  double gate_k = 0;
  if (p.gate >= 0) {
    const auto g = static_cast<std::size_t>(p.gate);
    const physics::GateLoss loss = physics::gate(situation.gate_travel[g], from.gates[g].leak_fraction, note);
    gate_k = loss.closed ? 0 : loss.k;
  }
  double length_over_bore = 0;
  double dust = 1;
  if (p.length_m > 0) {
    t.friction_factor = physics::frictionFactor(t.reynolds, p.roughness_m / bore_m, note).f;
    length_over_bore = p.length_m / bore_m;
    dust = physics::dustFrictionFactor(solids_ratio, note);
  }
  const double acceleration =
      accelerates && flow_kg_s > 0 ? 2 * physics::kDustAccelerationShare * solids_ratio : 0;
  t.coefficient =
      factor * (k + p.multiplier * t.friction_factor * length_over_bore * dust + gate_k) + acceleration;
  t.linear_pa_s_m3 = factor * (p.filter >= 0 ? from.filters[static_cast<std::size_t>(p.filter)]
                                                   .linear_pa_s_m3[static_cast<std::size_t>(situation.filter)]
                                             : p.linear_pa_s_m3);
  if constexpr (base::kNoted<Note>) {
    using base::Kind;
    note.step(kPieceCoefficient, t.coefficient,
              {{"F", factor, Kind::Ratio},
               {"k", k + gate_k, Kind::Ratio},
               {"multiplier", p.multiplier, Kind::Ratio},
               {"f", t.friction_factor, Kind::Ratio},
               {"L", p.length_m, Kind::Length},
               {"D", bore_m, Kind::Bore},
               {"mu", solids_ratio, Kind::Ratio}});
  }
  return t;
}

/// The first duct or hose of a run that begins with a hood: where the dust is brought to speed. −1: none.
inline int acceleratingPiece(const pieces::Run& run) {
  if (run.pieces.empty() || run.pieces.front().key.role != pieces::Role::Entry) {
    return -1;
  }
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    if (run.pieces[i].length_m > 0) {
      return static_cast<int>(i);
    }
  }
  return -1;
}

/// The air of a network as the laws take it.
inline physics::DuctAir ductAir(const pieces::Pieces& from) {
  return {from.air.density_kg_m3, from.air.pressure_pa, from.air.viscosity_pa_s, from.local_density};
}

}  // namespace kerfdraft::network
