// Every number that a solution shows, each by one template on a note: the solver's last step calls them in
// silence, an explanation calls the same ones with a recorder and the same inputs. So there is no second
// arithmetic, and a replay repeats a number to its last bit.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "base/law.h"
#include "network/network.h"
#include "network/solution.h"
#include "physics/conveying.h"
#include "physics/fan.h"
#include "physics/friction.h"
#include "physics/gate.h"
#include "physics/junction.h"
#include "physics/leak.h"
#include "physics/opening.h"
#include "physics/stretch.h"

namespace kerfdraft::network {

inline constexpr base::Law kPieceCoefficient{
    "piece-coefficient",
    "Velocity pressures that a piece takes",
    "C",
    base::Kind::Ratio,
    "C = F (M (1 + 0.5 mu) f L/D + K) + 1.6 mu [first duct behind a hood, drawn direction]",
    "AshraeF2009, ch. 21",
    base::SourceStatus::Published,
    ""};
inline constexpr base::Law kMeanDensity{"mean-density",
                                        "Mean density of the two ends of a piece",
                                        "rho",
                                        base::Kind::Density,
                                        "rho = (rho1 + rho2)/2",
                                        "",
                                        base::SourceStatus::Ours,
                                        "density"};
inline constexpr base::Law kDensityBefore{"density-before",
                                          "Density in a bore, from its total pressure",
                                          "rho1",
                                          base::Kind::Density,
                                          "rho1 = (b + sqrt(b^2 - 2 (m/A)^2/a))/2, b = (P1 + p_bar)/a, "
                                          "a = p_bar/rho_room; with one density rho1 = rho_room",
                                          "",
                                          base::SourceStatus::Ours,
                                          "density"};
inline constexpr base::Law kDensityBehind{"density-behind",
                                          "Density behind a piece",
                                          "rho2",
                                          base::Kind::Density,
                                          "a (rho1^2 - rho2^2)/2 - (G^2/2) ln(rho1/rho2) = C G|G|/2 + R m, "
                                          "G = m/A; with one density rho2 = rho1",
                                          "docs/decisions/0010",
                                          base::SourceStatus::Ours,
                                          "density"};
inline constexpr base::Law kStaticFromTotal{"static-from-total",
                                            "Static pressure in a bore",
                                            "p",
                                            base::Kind::Pressure,
                                            "p = P - (m/A)^2 / (2 rho), rho at that static pressure",
                                            "",
                                            base::SourceStatus::Ours,
                                            "density"};
inline constexpr base::Law kPressureBehind{"pressure-behind",
                                           "Total pressure behind a piece",
                                           "P2",
                                           base::Kind::Pressure,
                                           "P2 = P1 - dP",
                                           "",
                                           base::SourceStatus::Ours,
                                           ""};
inline constexpr base::Law kFlowBehindLeak{"flow-behind-leak",
                                           "Flow behind leaking joints",
                                           "m2",
                                           base::Kind::MassFlow,
                                           "m2 = m1 + rho_room Q_leak",
                                           "",
                                           base::SourceStatus::Ours,
                                           "gates-and-leaks"};
inline constexpr base::Law kJunctionEnd{"junction-end",
                                        "Total pressure at a run's end in a junction",
                                        "P",
                                        base::Kind::Pressure,
                                        "P = p_in + rise of that leg",
                                        "",
                                        base::SourceStatus::Ours,
                                        "junction"};
inline constexpr base::Law kFlowAtRoomDensity{"flow-at-room-density",
                                              "Volume flow at room density",
                                              "Q",
                                              base::Kind::VolumeFlow,
                                              "Q = m / rho_room",
                                              "",
                                              base::SourceStatus::Ours,
                                              ""};
inline constexpr base::Law kActualFlow{
    "actual-flow", "Actual volume flow at the fan's inlet", "Q",   base::Kind::VolumeFlow, "Q = m / rho_in",
    "Amca210",     base::SourceStatus::FromMemory,          "fans"};
inline constexpr base::Law kHoodStatic{"hood-static",
                                       "Static pressure behind the hood, relative to the room",
                                       "SP_h",
                                       base::Kind::Pressure,
                                       "SP_h = p - p_room",
                                       "AcgihIv, ch. 3",
                                       base::SourceStatus::FromMemory,
                                       ""};
inline constexpr base::Law kPassedOn{
    "passed-on", "The same pressure, handed on", "P", base::Kind::Pressure, "P = P",
    "",          base::SourceStatus::Ours,       ""};
inline constexpr base::Law kSlowest{"slowest-duct",
                                    "Slowest air in the run's ducts and hoses",
                                    "V",
                                    base::Kind::Speed,
                                    "V = least |V| of its straight and hose pieces",
                                    "",
                                    base::SourceStatus::Ours,
                                    "conveying"};

/// Factor of an element group and of a run on what a piece loses.
inline double shownFactor(const Situation& situation, const pieces::Piece& piece, std::size_t run) {
  const double own = situation.run_factor.empty() ? 1.0 : situation.run_factor[run];
  return own * situation.group_factor[static_cast<std::size_t>(piece.group)];
}

/// Whether dust is accelerated in this piece: the first duct or hose behind a hood.
inline bool acceleratesDust(const pieces::Run& run, std::size_t piece) {
  if (run.pieces.empty() || run.pieces.front().key.role != pieces::Role::Entry) {
    return false;
  }
  for (std::size_t i = 0; i < piece; ++i) {
    if (run.pieces[i].length_m > 0) {
      return false;
    }
  }
  return run.pieces[piece].length_m > 0;
}

/// One piece as a situation makes it: what it takes at a flow, before the flow is known.
struct PieceLaw {
  double bore_m = 0;
  double length_m = 0;
  double relative_roughness = 0;
  double multiplier = 1;  ///< on friction
  double k_forward = 0;   ///< a gate's included
  double k_reverse = 0;
  double factor = 1;
  double solids_ratio = 0;
  bool accelerates = false;
  double linear_pa_s_m3 = 0;
};

/// The piece with its gate's travel, its filter's state and its factors.
template <class Note = base::Silent>
PieceLaw pieceLaw(const pieces::Pieces& drawing, const Situation& situation, std::size_t run,
                  std::size_t index, double solids_ratio, Note&& note = {}) {
  const pieces::Piece& piece = drawing.runs[run].pieces[index];
  PieceLaw law;
  law.bore_m = piece.bore_m;
  law.length_m = piece.length_m;
  law.relative_roughness = piece.roughness_m / piece.bore_m;
  law.multiplier = piece.multiplier;
  law.k_forward = piece.k_forward;
  law.k_reverse = piece.k_reverse;
  if (piece.gate >= 0) {
    const auto gate = static_cast<std::size_t>(piece.gate);
    const double k = physics::gate(situation.gate_travel[gate], drawing.gates[gate].leak_fraction, note).k;
    law.k_forward += k;
    law.k_reverse += k;
  }
  law.factor = shownFactor(situation, piece, run);
  law.solids_ratio = solids_ratio;
  law.accelerates = acceleratesDust(drawing.runs[run], index);
  law.linear_pa_s_m3 =
      law.factor * (piece.filter >= 0 ? drawing.filters[static_cast<std::size_t>(piece.filter)]
                                            .linear_pa_s_m3[static_cast<std::size_t>(situation.filter)]
                                      : piece.linear_pa_s_m3);
  return law;
}

/// Notes the density that a total pressure leaves in a bore.
template <class Note>
void noteDensityBefore(const physics::DuctAir& air, double total_pa, double flow_kg_s, double bore_m,
                       Note&& note) {
  const double flux = bore_m > 0 ? flow_kg_s / physics::roundArea(bore_m) : 0.0;
  note.step(kDensityBefore, physics::densityFromTotal(air, total_pa, flux).rho,
            {{"P1", total_pa, base::Kind::Pressure},
             {"m", flow_kg_s, base::Kind::MassFlow},
             {"D", bore_m, base::Kind::Bore},
             {"rho_room", air.room_density_kg_m3, base::Kind::Density},
             {"p_bar", air.barometric_pa, base::Kind::AbsolutePressure}});
}

/// Velocity pressures by friction alone, without the factor of the situation.
template <class Note = base::Silent>
double shownFriction(const PieceLaw& law, double friction_factor, Note&& note = {}) {
  return law.multiplier * physics::dustFrictionFactor(law.solids_ratio, note) * friction_factor *
         law.length_m / law.bore_m;
}

/// Everything about one piece from the flow through it and the total pressure before it, both in the drawn
/// direction.
template <class Note = base::Silent>
PieceResult shownPiece(const physics::DuctAir& air, const PieceLaw& law, double total_in_pa, double flow_kg_s,
                       Note&& note = {}) {
  PieceResult r;
  r.flow_kg_s = flow_kg_s;
  r.total_in_pa = total_in_pa;
  r.reynolds = physics::reynolds(flow_kg_s, law.bore_m, air.viscosity_pa_s, note);
  double friction = 0;
  if (law.length_m > 0) {
    r.friction_factor = physics::frictionFactor(r.reynolds, law.relative_roughness, note).f;
    friction = shownFriction(law, r.friction_factor, note);
  }
  const double k = flow_kg_s >= 0 ? law.k_forward : law.k_reverse;
  const double acceleration =
      law.accelerates && flow_kg_s >= 0 ? 2 * physics::kDustAccelerationShare * law.solids_ratio : 0.0;
  r.coefficient = law.factor * (friction + k) + acceleration;
  if constexpr (base::kNoted<Note>) {
    note.step(kPieceCoefficient, r.coefficient,
              {{"F", law.factor, base::Kind::Ratio},
               {"M", law.multiplier, base::Kind::Ratio},
               {"mu", law.solids_ratio, base::Kind::Ratio},
               {"f", r.friction_factor, base::Kind::Ratio},
               {"L", law.length_m, base::Kind::Length},
               {"D", law.bore_m, base::Kind::Bore},
               {"K", k, base::Kind::Ratio}});
  }
  const physics::PieceFlow flow =
      physics::pieceFlow(air, law.bore_m, total_in_pa, flow_kg_s, r.coefficient, law.linear_pa_s_m3, note);
  r.density_kg_m3 = flow.mean_density;
  r.velocity_pressure_pa = flow.velocity_pressure_pa;
  r.loss_pa = flow.loss_pa;
  r.total_out_pa = flow.total_out_pa;
  r.static_in_pa = flow.static_in_pa;
  r.static_out_pa = flow.static_out_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kMeanDensity, r.density_kg_m3,
              {{"rho1", flow.rho_in, base::Kind::Density}, {"rho2", flow.rho_out, base::Kind::Density}});
    note.step(kPressureBehind, r.total_out_pa,
              {{"P1", total_in_pa, base::Kind::Pressure}, {"dP", r.loss_pa, base::Kind::Pressure}});
    note.step(kStaticFromTotal, r.static_in_pa,
              {{"P", total_in_pa, base::Kind::Pressure},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"D", law.bore_m, base::Kind::Bore},
               {"rho", flow.rho_in, base::Kind::Density}});
    note.step(kStaticFromTotal, r.static_out_pa,
              {{"P", r.total_out_pa, base::Kind::Pressure},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"D", law.bore_m, base::Kind::Bore},
               {"rho", flow.rho_out, base::Kind::Density}});
  }
  const double area_m2 = physics::roundArea(law.bore_m, note);
  r.speed_m_s = physics::meanSpeed(flow_kg_s, r.density_kg_m3, area_m2, note);
  return r;
}

/// Static pressure (gauge) in a bore where the total is known.
template <class Note = base::Silent>
double shownStatic(const physics::DuctAir& air, double total_pa, double flow_kg_s, double bore_m,
                   Note&& note = {}) {
  const double flux = bore_m > 0 ? flow_kg_s / physics::roundArea(bore_m) : 0.0;
  const double rho = physics::densityFromTotal(air, total_pa, flux).rho;
  const double static_pa = total_pa - 0.5 * flux * flux / rho;
  if constexpr (base::kNoted<Note>) {
    noteDensityBefore(air, total_pa, flow_kg_s, bore_m, note);
    note.step(kStaticFromTotal, static_pa,
              {{"P", total_pa, base::Kind::Pressure},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"D", bore_m, base::Kind::Bore},
               {"rho", rho, base::Kind::Density}});
  }
  return static_pa;
}

/// Flow [kg/s] behind a leak station where `total_pa` and `flow_kg_s` arrive. `coefficient` has its factor.
template <class Note = base::Silent>
double shownFlowBehindLeak(const physics::DuctAir& air, double coefficient, double bore_m, double total_pa,
                           double flow_kg_s, double room_pa, Note&& note = {}) {
  const double static_pa = shownStatic(air, total_pa, flow_kg_s, bore_m, note);
  const physics::LeakFlow leak = physics::leakFlow(coefficient, room_pa - static_pa, note);
  const double behind_kg_s = flow_kg_s + leak.flow_m3_s * air.room_density_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowBehindLeak, behind_kg_s,
              {{"m1", flow_kg_s, base::Kind::MassFlow},
               {"rho_room", air.room_density_kg_m3, base::Kind::Density},
               {"Q_leak", leak.flow_m3_s, base::Kind::VolumeFlow}});
  }
  return behind_kg_s;
}

/// Density of a junction's law: that of its inlet plane.
inline double junctionDensity(const physics::DuctAir& air, double p_in_pa) {
  return air.local ? std::max(0.05 * air.room_density_kg_m3, (p_in_pa + air.barometric_pa) / air.stiffness())
                   : air.room_density_kg_m3;
}

/// Total pressure at a run's end in a junction. `inflow_kg_s` by leg, positive into the junction.
template <class Note = base::Silent>
double shownJunctionEnd(const physics::DuctAir& air, const physics::JunctionGeometry& geometry,
                        std::span<const double> inflow_kg_s, double p_in_pa, std::size_t leg,
                        Note&& note = {}) {
  const double rise_pa = physics::junctionRise(geometry, inflow_kg_s, physics::leavingFlow(inflow_kg_s),
                                               junctionDensity(air, p_in_pa), leg, nullptr, note);
  const double total_pa = p_in_pa + rise_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kJunctionEnd, total_pa,
              {{"p_in", p_in_pa, base::Kind::Pressure}, {"rise", rise_pa, base::Kind::Pressure}});
  }
  return total_pa;
}

/// A fan that runs or stands, from its flow and the total pressures at its ends.
template <class Note = base::Silent>
FanResult shownFan(const physics::DuctAir& air, const pieces::Fan& fan, bool running, double flow_kg_s,
                   double inlet_total_pa, double outlet_total_pa, Note&& note = {}) {
  FanResult r;
  r.running = running;
  r.flow_kg_s = flow_kg_s;
  r.inlet_total_pa = inlet_total_pa;
  r.outlet_total_pa = outlet_total_pa;
  const double flux = fan.inlet_bore_m > 0 ? flow_kg_s / physics::roundArea(fan.inlet_bore_m) : 0.0;
  const double rho = physics::densityFromTotal(air, inlet_total_pa, flux).rho;
  r.inlet_flow_m3_s = flow_kg_s / rho;
  if constexpr (base::kNoted<Note>) {
    noteDensityBefore(air, inlet_total_pa, flow_kg_s, fan.inlet_bore_m, note);
    note.step(kActualFlow, r.inlet_flow_m3_s,
              {{"m", flow_kg_s, base::Kind::MassFlow}, {"rho_in", rho, base::Kind::Density}});
  }
  r.backward = flow_kg_s < 0;
  if (running) {
    const physics::CurveValue rise =
        physics::fanRise(*fan.rating, r.inlet_flow_m3_s, air.room_density_kg_m3, rho, note);
    r.rise_pa = rise.p_pa;
    r.beyond_data = rise.beyond_data;
    r.rising_part = rise.rising;
  } else if (!fan.non_return && fan.stopped_bore_m > 0) {
    r.rise_pa = -physics::localLoss(fan.stopped_k, fan.stopped_k, flow_kg_s, air.room_density_kg_m3,
                                    physics::roundArea(fan.stopped_bore_m), note)
                     .dp_pa;
  }
  return r;
}

/// An opening with its discharge; `factor` is that of its group.
template <class Note = base::Silent>
OpeningResult shownOpening(const physics::DuctAir& air, const pieces::Opening& opening, double factor,
                           double flow_kg_s, Note&& note = {}) {
  OpeningResult r;
  r.flow_kg_s = flow_kg_s;
  r.speed_m_s = physics::meanSpeed(flow_kg_s, air.room_density_kg_m3, opening.area_m2, note);
  const double effective_m2 = opening.area_m2 * opening.discharge / physics::kDischarge;
  r.drop_pa = factor * physics::opening(flow_kg_s, air.room_density_kg_m3, effective_m2, note).dp_pa;
  return r;
}

/// What a person measures at a port, from the first piece of its run.
template <class Note = base::Silent>
PortResult shownPort(const physics::DuctAir& air, const PieceResult& entry, double flow_start_kg_s,
                     double bore_m, double room_pa, Note&& note = {}) {
  PortResult r;
  r.flow_m3_s = flow_start_kg_s / air.room_density_kg_m3;
  const double area_m2 = physics::roundArea(bore_m, note);
  r.speed_m_s = physics::meanSpeed(entry.flow_kg_s, entry.density_kg_m3, area_m2, note);
  r.hood_static_pa = entry.static_out_pa - room_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowAtRoomDensity, r.flow_m3_s,
              {{"m", flow_start_kg_s, base::Kind::MassFlow},
               {"rho_room", air.room_density_kg_m3, base::Kind::Density}});
    note.step(kHoodStatic, r.hood_static_pa,
              {{"p", entry.static_out_pa, base::Kind::Pressure}, {"p_room", room_pa, base::Kind::Pressure}});
  }
  return r;
}

/// All numbers of one run from its start: flow and total pressure there, total pressure at its end node,
/// pressure of the room around it. `air` is that of the network.
template <class Note = base::Silent>
RunResult shownRun(const physics::DuctAir& air, const pieces::Pieces& drawing, const Situation& situation,
                   std::size_t index, double flow_start_kg_s, double total_start_pa, double total_end_pa,
                   double room_pa, double solids_ratio, Note&& note = {}) {
  const pieces::Run& run = drawing.runs[index];
  const double leak_factor = situation.group_factor[static_cast<std::size_t>(pieces::Group::Leakage)];
  RunResult r;
  r.flow_start_kg_s = flow_start_kg_s;
  r.total_start_pa = total_start_pa;
  r.total_end_pa = total_end_pa;
  r.solids_ratio = solids_ratio;
  r.static_start_pa = shownStatic(air, total_start_pa, flow_start_kg_s, run.start_bore_m, note);
  double flow_kg_s = flow_start_kg_s;
  double total_pa = total_start_pa;
  std::size_t leak = 0;
  const auto passLeaks = [&](int after) {
    for (; leak < run.leaks.size() && run.leaks[leak].after == after; ++leak) {
      flow_kg_s = shownFlowBehindLeak(air, leak_factor * run.leaks[leak].coefficient, run.leaks[leak].bore_m,
                                      total_pa, flow_kg_s, room_pa, note);
    }
  };
  passLeaks(-1);
  bool any_duct = false;
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const PieceLaw law = pieceLaw(drawing, situation, index, i, solids_ratio, note);
    const PieceResult piece = shownPiece(air, law, total_pa, flow_kg_s, note);
    total_pa = piece.total_out_pa;
    if (run.pieces[i].key.role == pieces::Role::Straight || run.pieces[i].key.role == pieces::Role::Hose) {
      const double speed_m_s = std::abs(piece.speed_m_s);
      r.slowest_m_s = any_duct ? std::min(r.slowest_m_s, speed_m_s) : speed_m_s;
      any_duct = true;
    }
    r.pieces.push_back(piece);
    passLeaks(static_cast<int>(i));
  }
  r.flow_end_kg_s = flow_kg_s;
  r.static_end_pa = shownStatic(air, total_end_pa, flow_kg_s, run.end_bore_m, note);
  return r;
}

/// One piece of a run through which nothing passes: at rest, or holding the difference where it closes it.
template <class Note = base::Silent>
PieceResult shownShutPiece(const physics::DuctAir& air, double total_in_pa, double total_out_pa,
                           Note&& note = {}) {
  PieceResult r;
  r.total_in_pa = total_in_pa;
  r.total_out_pa = total_out_pa;
  r.loss_pa = total_in_pa - total_out_pa;
  r.static_in_pa = shownStatic(air, total_in_pa, 0.0, 0.0, note);
  r.static_out_pa = shownStatic(air, total_out_pa, 0.0, 0.0, note);
  r.density_kg_m3 = 0.5 * (physics::densityFromTotal(air, total_in_pa, 0.0).rho +
                           physics::densityFromTotal(air, total_out_pa, 0.0).rho);
  return r;
}

/// A run that is shut at piece `closed_at` (-1: at its start): each dead end stands at the pressure of its
/// node. The flows at its ends are what its joints leak there.
template <class Note = base::Silent>
RunResult shownShutRun(const physics::DuctAir& air, const pieces::Run& run, int closed_at,
                       double flow_start_kg_s, double flow_end_kg_s, double total_start_pa,
                       double total_end_pa, double solids_ratio, Note&& note = {}) {
  RunResult r;
  r.flow_start_kg_s = flow_start_kg_s;
  r.flow_end_kg_s = flow_end_kg_s;
  r.total_start_pa = total_start_pa;
  r.total_end_pa = total_end_pa;
  r.solids_ratio = solids_ratio;
  r.static_start_pa = shownStatic(air, total_start_pa, flow_start_kg_s, run.start_bore_m, note);
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const int at = static_cast<int>(i);
    r.pieces.push_back(shownShutPiece(air, at <= closed_at ? total_start_pa : total_end_pa,
                                      at < closed_at ? total_start_pa : total_end_pa, note));
  }
  r.static_end_pa = shownStatic(air, total_end_pa, flow_end_kg_s, run.end_bore_m, note);
  return r;
}

}  // namespace kerfdraft::network
