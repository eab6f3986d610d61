// Every number that a solution shows, each by one template on a note: the solver's last step calls them in
// silence, an explanation calls the same ones with a recorder and the same inputs. So there is no second
// arithmetic, and a replay repeats a number to its last bit.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

#include "base/law.h"
#include "network/factors.h"
#include "network/network.h"
#include "network/piece_terms.h"
#include "network/shown_laws.h"
#include "network/solution.h"
#include "physics/fan.h"
#include "physics/gate.h"
#include "physics/junction.h"
#include "physics/leak.h"
#include "physics/stretch.h"

namespace kerfdraft::network {

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

/// Everything about one piece from the flow through it and the total pressure before it, both in the drawn
/// direction.
template <class Note = base::Silent>
PieceResult shownPiece(const pieces::Pieces& drawing, const Situation& situation, std::size_t run,
                       std::size_t index, double solids_ratio, double total_in_pa, double flow_kg_s,
                       Note&& note = {}) {
  const physics::DuctAir air = ductAir(drawing);
  const double bore_m = drawing.runs[run].pieces[index].bore_m * boreFactor(situation, run);
  const bool accelerates = acceleratingPiece(drawing.runs[run]) == static_cast<int>(index);
  const PieceTerms terms =
      pieceTerms(drawing, situation, run, index, flow_kg_s, solids_ratio, accelerates, note);
  if constexpr (base::kNoted<Note>) {
    const double flux = flow_kg_s / physics::roundArea(bore_m);
    const double weight = 0.5 * terms.coefficient * flux * std::abs(flux) + terms.linear_pa_s_m3 * flow_kg_s;
    noteDensityBefore(air, total_in_pa, flow_kg_s, bore_m, note);
    const double rho_in = physics::densityFromTotal(air, total_in_pa, flux).rho;
    note.step(kDensityBehind, air.local ? physics::densityAfter(air, rho_in, flux, weight).rho : rho_in,
              {{"rho1", rho_in, base::Kind::Density},
               {"C", terms.coefficient, base::Kind::Ratio},
               {"R", terms.linear_pa_s_m3, base::Kind::Ratio},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"D", bore_m, base::Kind::Bore}});
  }
  const physics::PieceFlow flow =
      physics::pieceFlow(air, bore_m, total_in_pa, flow_kg_s, terms.coefficient, terms.linear_pa_s_m3, note);
  PieceResult r;
  r.flow_kg_s = flow_kg_s;
  r.density_kg_m3 = flow.mean_density;
  r.velocity_pressure_pa = flow.velocity_pressure_pa;
  r.reynolds = terms.reynolds;
  r.friction_factor = terms.friction_factor;
  r.coefficient = terms.coefficient;
  r.loss_pa = flow.loss_pa;
  r.total_in_pa = total_in_pa;
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
               {"D", bore_m, base::Kind::Bore},
               {"rho", flow.rho_in, base::Kind::Density}});
    note.step(kStaticFromTotal, r.static_out_pa,
              {{"P", r.total_out_pa, base::Kind::Pressure},
               {"m", flow_kg_s, base::Kind::MassFlow},
               {"D", bore_m, base::Kind::Bore},
               {"rho", flow.rho_out, base::Kind::Density}});
  }
  const double area_m2 = physics::roundArea(bore_m, note);
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

/// The difference of two pressures.
template <class Note = base::Silent>
double shownDifference(double high_pa, double low_pa, Note&& note = {}) {
  const double difference_pa = high_pa - low_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kPressureDifference, difference_pa,
              {{"P1", high_pa, base::Kind::Pressure}, {"P2", low_pa, base::Kind::Pressure}});
  }
  return difference_pa;
}

/// Flow [kg/s] behind a leak station where `total_pa` and `flow_kg_s` arrive. `coefficient` has its factor.
template <class Note = base::Silent>
double shownFlowBehindLeak(const physics::DuctAir& air, double coefficient, double bore_m, double total_pa,
                           double flow_kg_s, double room_pa, Note&& note = {}) {
  const double static_pa = shownStatic(air, total_pa, flow_kg_s, bore_m, note);
  const double drive_pa = room_pa - static_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kLeakDrive, drive_pa,
              {{"P1", room_pa, base::Kind::Pressure}, {"P2", static_pa, base::Kind::Pressure}});
  }
  const physics::LeakFlow leak = physics::leakFlow(coefficient, drive_pa, note);
  const double behind_kg_s = flow_kg_s + leak.flow_m3_s * air.room_density_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowBehindLeak, behind_kg_s,
              {{"m1", flow_kg_s, base::Kind::MassFlow},
               {"rho_room", air.room_density_kg_m3, base::Kind::Density},
               {"Q", leak.flow_m3_s, base::Kind::VolumeFlow}});
  }
  return behind_kg_s;
}

/// Areas and cosines of a junction, as its law takes them.
inline physics::JunctionGeometry shownJunctionGeometry(const pieces::Pieces& drawing,
                                                       const pieces::Junction& junction) {
  physics::JunctionGeometry geometry;
  const std::size_t n = junction.legs.size();
  geometry.legs = n;
  geometry.nominal_outlet = junction.nominal_outlet;
  for (std::size_t i = 0; i < n; ++i) {
    const pieces::Run& run = drawing.runs[junction.legs[i].run];
    geometry.area_m2[i] = physics::roundArea(junction.legs[i].at_end ? run.end_bore_m : run.start_bore_m);
    for (std::size_t o = 0; o < n; ++o) {
      geometry.cosine[i][o] = junction.cosine[i * n + o];
    }
  }
  return geometry;
}

/// Density of a junction's law: that of its inlet plane.
inline double junctionDensity(const physics::DuctAir& air, double p_in_pa) {
  return air.local ? std::max(0.05 * air.room_density_kg_m3, (p_in_pa + air.barometric_pa) / air.stiffness())
                   : air.room_density_kg_m3;
}

/// Notes what a junction's law is evaluated with: its density, and the speed and momentum at one leg.
template <class Note>
void noteJunction(const physics::DuctAir& air, const physics::JunctionGeometry& geometry,
                  std::span<const double> inflow_kg_s, double p_in_pa, std::size_t leg, Note&& note) {
  const double rho = junctionDensity(air, p_in_pa);
  const double specific = 1 / rho;
  const double area_m2 = geometry.area_m2[leg];
  const double flow_kg_s = inflow_kg_s[leg];
  const double size_kg_s = std::abs(flow_kg_s);
  note.step(kJunctionDensity, rho,
            {{"p_in", p_in_pa, base::Kind::Pressure},
             {"rho_room", air.room_density_kg_m3, base::Kind::Density},
             {"p_bar", air.barometric_pa, base::Kind::AbsolutePressure}});
  note.step(physics::kMeanSpeed, size_kg_s * specific / area_m2,
            {{"m", flow_kg_s, base::Kind::MassFlow},
             {"rho", rho, base::Kind::Density},
             {"A", area_m2, base::Kind::Area}});
  if (flow_kg_s >= 0) {
    return;
  }
  // As the law adds it up (physics/junction.h), leg by leg, so that the sum is its to the bit.
  double momentum = 0;
  for (std::size_t j = 0; j < geometry.legs; ++j) {
    const double in = inflow_kg_s[j];
    if (in > 0) {
      momentum += in * in / geometry.area_m2[j] * geometry.cosine[j][leg];
      note.step(kLegMomentum, momentum,
                {{"m_j", in, base::Kind::MassFlow},
                 {"A_j", geometry.area_m2[j], base::Kind::Area},
                 {"c_j", geometry.cosine[j][leg], base::Kind::Ratio}});
    }
  }
  const double leaving_kg_s = physics::leavingFlow(inflow_kg_s).flow_kg_s;
  const double share = specific / (area_m2 * leaving_kg_s);
  note.step(kMixedSpeed, share * momentum * area_m2,
            {{"sum", momentum, base::Kind::Ratio},
             {"rho", rho, base::Kind::Density},
             {"m_leaving", leaving_kg_s, base::Kind::MassFlow}});
}

/// Total pressure at a run's end in a junction. `inflow_kg_s` by leg, positive into the junction.
template <class Note = base::Silent>
double shownJunctionEnd(const physics::DuctAir& air, const physics::JunctionGeometry& geometry,
                        std::span<const double> inflow_kg_s, double p_in_pa, std::size_t leg,
                        Note&& note = {}) {
  if constexpr (base::kNoted<Note>) {
    noteJunction(air, geometry, inflow_kg_s, p_in_pa, leg, note);
  }
  const double rise_pa = physics::junctionRise(geometry, inflow_kg_s, physics::leavingFlow(inflow_kg_s),
                                               junctionDensity(air, p_in_pa), leg, nullptr, note);
  const double total_pa = p_in_pa + rise_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kJunctionEnd, total_pa,
              {{"p_in", p_in_pa, base::Kind::Pressure}, {"P - p_in", rise_pa, base::Kind::Pressure}});
  }
  return total_pa;
}

/// A fan that runs or stands, from its flow and the total pressures at its ends. `least_kg_s`: a flow against
/// the fan below this is rounding; `curve_factor`: on the pressure of its curve.
template <class Note = base::Silent>
FanResult shownFan(const physics::DuctAir& air, const pieces::Fan& fan, bool running, double flow_kg_s,
                   double inlet_total_pa, double outlet_total_pa, double least_kg_s, Note&& note = {},
                   double curve_factor = 1) {
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
              {{"m", flow_kg_s, base::Kind::MassFlow}, {"rho1", rho, base::Kind::Density}});
  }
  r.backward = running && flow_kg_s < -least_kg_s;
  if (running) {
    const physics::CurveValue rise =
        fanRiseTimes(*fan.rating, curve_factor, r.inlet_flow_m3_s, air.room_density_kg_m3, rho, note);
    r.rise_pa = rise.p_pa;
    r.beyond_data = rise.beyond_data;
    r.rising_part = rise.rising;
  } else {
    r.rise_pa = shownDifference(outlet_total_pa, inlet_total_pa, note);
  }
  return r;
}

/// An opening from its flow and the pressures on its two sides.
template <class Note = base::Silent>
OpeningResult shownOpening(const physics::DuctAir& air, const pieces::Opening& opening, double flow_kg_s,
                           double from_pa, double to_pa, Note&& note = {}) {
  OpeningResult r;
  r.flow_kg_s = flow_kg_s;
  r.speed_m_s = physics::meanSpeed(flow_kg_s, air.room_density_kg_m3, opening.area_m2, note);
  r.drop_pa = shownDifference(from_pa, to_pa, note);
  return r;
}

/// What a person measures at a port, from the first piece of its run (nothing where it has none). `entry`:
/// that piece is the hood; else the port's bore begins with a duct.
template <class Note = base::Silent>
PortResult shownPort(const physics::DuctAir& air, const RunResult& run, bool entry, double bore_m,
                     double room_pa, Note&& note = {}) {
  PortResult r;
  r.flow_m3_s = run.flow_start_kg_s / air.room_density_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowAtRoomDensity, r.flow_m3_s,
              {{"m", run.flow_start_kg_s, base::Kind::MassFlow},
               {"rho_room", air.room_density_kg_m3, base::Kind::Density}});
  }
  if (run.pieces.empty()) {
    return r;
  }
  const PieceResult& first = run.pieces.front();
  const double area_m2 = physics::roundArea(bore_m, note);
  r.speed_m_s = physics::meanSpeed(first.flow_kg_s, first.density_kg_m3, area_m2, note);
  const double static_pa = entry ? first.static_out_pa : first.static_in_pa;
  r.hood_static_pa = static_pa - room_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kHoodStatic, r.hood_static_pa,
              {{"p", static_pa, base::Kind::Pressure}, {"p_room", room_pa, base::Kind::Pressure}});
  }
  return r;
}

/// What is known of a run before its pieces are shown.
struct RunEnds {
  double flow_start_kg_s = 0;
  double total_start_pa = 0;
  double total_end_pa = 0;
  double room_pa = 0;  ///< around it, where its leaks come from
  double solids_kg_s = 0;
  double clean_air_kg_s = 0;
};

/// Leaks behind piece `after` (-1: before the first): the flow behind them.
template <class Note = base::Silent>
double shownLeaks(const pieces::Pieces& drawing, const Situation& situation, std::size_t run, int after,
                  double total_pa, double flow_kg_s, double room_pa, Note&& note = {}) {
  double coefficient = 0;
  double bore_m = 0;
  for (const pieces::LeakStation& leak : drawing.runs[run].leaks) {
    if (leak.after == after) {
      coefficient += leak.coefficient;
      bore_m = leak.bore_m * boreFactor(situation, run);
    }
  }
  if (!(coefficient > 0)) {
    return flow_kg_s;
  }
  const double factor = situation.group_factor[static_cast<std::size_t>(pieces::Group::Leakage)];
  return shownFlowBehindLeak(ductAir(drawing), factor * coefficient, bore_m, total_pa, flow_kg_s, room_pa,
                             note);
}

/// All numbers of one run through which air can pass, piece by piece from its start.
inline RunResult shownRun(const pieces::Pieces& drawing, const Situation& situation, std::size_t index,
                          const RunEnds& ends) {
  const physics::DuctAir air = ductAir(drawing);
  const pieces::Run& run = drawing.runs[index];
  RunResult r;
  r.flow_start_kg_s = ends.flow_start_kg_s;
  r.total_start_pa = ends.total_start_pa;
  r.total_end_pa = ends.total_end_pa;
  r.solids_kg_s = ends.solids_kg_s;
  r.clean_air_kg_s = ends.clean_air_kg_s;
  r.solids_ratio = physics::solidsRatio(ends.solids_kg_s, ends.clean_air_kg_s);
  double total_pa = ends.total_start_pa;
  double flow_kg_s = shownLeaks(drawing, situation, index, -1, total_pa, ends.flow_start_kg_s, ends.room_pa);
  bool any_duct = false;
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const PieceResult piece = shownPiece(drawing, situation, index, i, r.solids_ratio, total_pa, flow_kg_s);
    total_pa = piece.total_out_pa;
    if (run.pieces[i].length_m > 0) {
      const double speed_m_s = std::abs(piece.speed_m_s);
      r.slowest_m_s = any_duct ? std::min(r.slowest_m_s, speed_m_s) : speed_m_s;
      any_duct = true;
    }
    r.pieces.push_back(piece);
    flow_kg_s = shownLeaks(drawing, situation, index, static_cast<int>(i), total_pa, flow_kg_s, ends.room_pa);
  }
  r.flow_end_kg_s = flow_kg_s;
  const double bore = boreFactor(situation, index);
  r.static_start_pa = shownStatic(air, r.total_start_pa, r.flow_start_kg_s, run.start_bore_m * bore);
  r.static_end_pa = shownStatic(air, r.total_end_pa, r.flow_end_kg_s, run.end_bore_m * bore);
  return r;
}

/// Where a situation shuts a run: behind which piece nothing passes (-1: at its start), or kNotShut.
inline constexpr int kNotShut = -2;
inline int shownClosedAt(const pieces::Pieces& drawing, const Situation& situation, std::size_t run) {
  if (drawing.runs[run].closed) {
    return -1;
  }
  for (std::size_t h = 0; h < drawing.moved.size(); ++h) {
    for (std::size_t p = 0; p < drawing.moved[h].places.size(); ++p) {
      if (drawing.moved[h].places[p].run == run && situation.hose_place[h] != static_cast<int>(p)) {
        return -1;
      }
    }
  }
  for (std::size_t i = 0; i < drawing.runs[run].pieces.size(); ++i) {
    const int gate = drawing.runs[run].pieces[i].gate;
    if (gate >= 0) {
      const auto g = static_cast<std::size_t>(gate);
      if (physics::gate(situation.gate_travel[g], drawing.gates[g].leak_fraction).closed) {
        return static_cast<int>(i);
      }
    }
  }
  return kNotShut;
}

/// One piece of a run through which nothing passes: at rest, or holding the difference where it closes it.
template <class Note = base::Silent>
PieceResult shownShutPiece(const physics::DuctAir& air, double total_in_pa, double total_out_pa,
                           Note&& note = {}) {
  PieceResult r;
  r.total_in_pa = total_in_pa;
  r.total_out_pa = total_out_pa;
  r.static_in_pa = total_in_pa;
  r.static_out_pa = total_out_pa;
  r.loss_pa = shownDifference(total_in_pa, total_out_pa, note);
  const double rho_in = physics::densityFromTotal(air, total_in_pa, 0.0).rho;
  const double rho_out = physics::densityFromTotal(air, total_out_pa, 0.0).rho;
  r.density_kg_m3 = 0.5 * (rho_in + rho_out);
  if constexpr (base::kNoted<Note>) {
    noteDensityBefore(air, total_in_pa, 0.0, 0.0, note);
    noteDensityBefore(air, total_out_pa, 0.0, 0.0, note);
    note.step(kMeanDensity, r.density_kg_m3,
              {{"rho1", rho_in, base::Kind::Density}, {"rho2", rho_out, base::Kind::Density}});
  }
  return r;
}

/// A run that is shut at piece `closed_at` (-1: at its start): each dead end stands at the pressure of its
/// node. The flows at its ends are what its joints leak there.
inline RunResult shownShutRun(const pieces::Pieces& drawing, std::size_t index, int closed_at,
                              const RunEnds& ends, double flow_end_kg_s) {
  const physics::DuctAir air = ductAir(drawing);
  const pieces::Run& run = drawing.runs[index];
  RunResult r;
  r.flow_start_kg_s = ends.flow_start_kg_s;
  r.flow_end_kg_s = flow_end_kg_s;
  r.total_start_pa = ends.total_start_pa;
  r.total_end_pa = ends.total_end_pa;
  for (std::size_t i = 0; i < run.pieces.size(); ++i) {
    const int at = static_cast<int>(i);
    r.pieces.push_back(shownShutPiece(air, at <= closed_at ? ends.total_start_pa : ends.total_end_pa,
                                      at < closed_at ? ends.total_start_pa : ends.total_end_pa));
  }
  r.static_start_pa = shownStatic(air, r.total_start_pa, r.flow_start_kg_s, run.start_bore_m);
  r.static_end_pa = shownStatic(air, r.total_end_pa, r.flow_end_kg_s, run.end_bore_m);
  return r;
}

}  // namespace kerfdraft::network
