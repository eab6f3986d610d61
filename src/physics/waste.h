// What a cut makes and where it goes: solid volume, mass and loose volume, when a bin is full, layers of
// dust, and the dust in a room's air.
#pragma once

#include <cmath>

#include "base/law.h"

namespace kerfdraft::physics {

inline constexpr base::Law kSolidRemoved{
    "solid-removed",
    "Wood removed by a cut, solid",
    "V_s",
    base::Kind::VolumeFlow,
    "V_s = w h f: width (or kerf, or cutter) x depth (or thickness) x feed",
    "",
    base::SourceStatus::CommonPractice,
    "conveying"};
inline constexpr base::Law kMassRemoved{"mass-removed",
                                        "Wood removed by a cut, mass",
                                        "m_s",
                                        base::Kind::MassFlow,
                                        "m_s = rho_w V_s",
                                        "",
                                        base::SourceStatus::CommonPractice,
                                        "conveying"};
inline constexpr base::Law kLooseVolume{"loose-volume",
                                        "Waste as it lies in the bin",
                                        "V_l",
                                        base::Kind::VolumeFlow,
                                        "V_l = b V_s, b loose per solid volume",
                                        "Briggs1994, table 7-1",
                                        base::SourceStatus::Published,
                                        "conveying"};
inline constexpr base::Law kBinFillTime{"bin-fill-time",
                                        "Time until a bin is full",
                                        "t",
                                        base::Kind::Time,
                                        "t = V_bin s / (V_l duty)",
                                        "",
                                        base::SourceStatus::CommonPractice,
                                        "conveying"};
inline constexpr base::Law kDustLayer{"dust-layer",
                                      "Depth of dust that calls for cleaning, by its bulk density",
                                      "h",
                                      base::Kind::Bore,
                                      "h = 1/32 in x 75 lb/ft3 / rho_bulk",
                                      "OshaDustMemo2015",
                                      base::SourceStatus::FromMemory,
                                      "conveying"};
inline constexpr base::Law kRoomLoss{"room-clearing-rate",
                                     "Rate at which a room's air is cleared",
                                     "k",
                                     base::Kind::Ratio,
                                     "k = (Q_v + eta Q_ac + k_dep V) / V, per second",
                                     "",
                                     base::SourceStatus::CommonPractice,
                                     "conveying"};
inline constexpr base::Law kRoomSteady{"room-steady",
                                       "Dust in a room's air in the long run",
                                       "C",
                                       base::Kind::Density,
                                       "C = G / (k V)",
                                       "",
                                       base::SourceStatus::CommonPractice,
                                       "conveying"};
inline constexpr base::Law kRoomAfter{"room-after",
                                      "Dust in a room's air after a time",
                                      "C",
                                      base::Kind::Density,
                                      "C = C_s + (C_0 - C_s) exp(-k t)",
                                      "",
                                      base::SourceStatus::CommonPractice,
                                      "conveying"};
inline constexpr base::Law kRoomDecayTime{"room-decay-time",
                                          "Time for a room's air to fall to a share of its dust",
                                          "t",
                                          base::Kind::Time,
                                          "t = ln(1/share) / k",
                                          "",
                                          base::SourceStatus::CommonPractice,
                                          "conveying"};
inline constexpr base::Law kRoomReturn{"room-return",
                                       "Dust that returned air brings back",
                                       "G_r",
                                       base::Kind::MassFlow,
                                       "G_r = Q_r (1 - E) C_in",
                                       "",
                                       base::SourceStatus::CommonPractice,
                                       "conveying"};

/// Solid volume per time [m3/s]: planer, jointer, sander: width x depth x feed; saw: kerf x thickness x feed;
/// router: cutter x depth x feed. Woodshop rows 6, 7 and the table of typical cuts.
template <class Note = base::Silent>
double solidRemoved(double width_m, double depth_m, double feed_m_s, Note&& note = {}) {
  const double flow_m3_s = width_m * depth_m * feed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kSolidRemoved, flow_m3_s,
              {{"w", width_m, base::Kind::Bore},
               {"h", depth_m, base::Kind::Bore},
               {"f", feed_m_s, base::Kind::Speed}});
  }
  return flow_m3_s;
}

/// Mass per time [kg/s] from the density of the wood as it is cut.
template <class Note = base::Silent>
double massRemoved(double solid_m3_s, double wood_kg_m3, Note&& note = {}) {
  const double mass_kg_s = solid_m3_s * wood_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kMassRemoved, mass_kg_s,
              {{"V_s", solid_m3_s, base::Kind::VolumeFlow}, {"rho_w", wood_kg_m3, base::Kind::Density}});
  }
  return mass_kg_s;
}

/// Loose volume per time [m3/s]; factor 2.5 for sawdust, 4 for planer shavings, 5 to 10 for curls (common
/// practice).
template <class Note = base::Silent>
double looseVolume(double solid_m3_s, double bulking, Note&& note = {}) {
  const double loose_m3_s = solid_m3_s * bulking;
  if constexpr (base::kNoted<Note>) {
    note.step(kLooseVolume, loose_m3_s,
              {{"b", bulking, base::Kind::Ratio}, {"V_s", solid_m3_s, base::Kind::VolumeFlow}});
  }
  return loose_m3_s;
}

/// Time [s] until a bin is full: `full_share` of its volume counts as full (0.75 to 0.8), `duty` is the share
/// of the time in which the machine cuts. Infinite where nothing is cut.
template <class Note = base::Silent>
double binFillTime(double bin_m3, double full_share, double loose_m3_s, double duty, Note&& note = {}) {
  const double rate = loose_m3_s * duty;
  const double time_s = rate > 0 ? bin_m3 * full_share / rate : HUGE_VAL;
  if constexpr (base::kNoted<Note>) {
    note.step(kBinFillTime, time_s,
              {{"V_bin", bin_m3, base::Kind::Volume},
               {"s", full_share, base::Kind::Ratio},
               {"V_l", loose_m3_s, base::Kind::VolumeFlow},
               {"duty", duty, base::Kind::Ratio}});
  }
  return time_s;
}

/// Depth [m] of settled dust equal to 1/32 in of dust of 75 lb/ft3, by the dust's bulk density [kg/m3]. Read
/// second hand. Woodshop row 11.
template <class Note = base::Silent>
double dustLayer(double bulk_kg_m3, Note&& note = {}) {
  constexpr double kReferenceDepth_m = 0.0254 / 32;
  constexpr double kReference_kg_m3 = 75 * 0.45359237 / (0.3048 * 0.3048 * 0.3048);
  const double depth_m = kReferenceDepth_m * kReference_kg_m3 / bulk_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kDustLayer, depth_m, {{"rho_bulk", bulk_kg_m3, base::Kind::Density}});
  }
  return depth_m;
}

/// A room as one well-mixed volume. Near a machine the air holds 2 to 10 times the room's mean.
struct RoomAir {
  double volume_m3 = 0;
  double ventilation_m3_s = 0;  ///< outdoor air
  double cleaner_m3_s = 0;      ///< through an air cleaner
  double cleaner_share = 0;     ///< kept by it in one pass
  double settling_per_s = 0;    ///< by deposition
};

/// Clearing rate [1/s] of a room; air changes per hour are 3600 times it.
template <class Note = base::Silent>
double roomClearingRate(const RoomAir& room, Note&& note = {}) {
  const double rate_per_s =
      (room.ventilation_m3_s + room.cleaner_share * room.cleaner_m3_s) / room.volume_m3 + room.settling_per_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kRoomLoss, rate_per_s,
              {{"Q_v", room.ventilation_m3_s, base::Kind::VolumeFlow},
               {"eta", room.cleaner_share, base::Kind::Ratio},
               {"Q_ac", room.cleaner_m3_s, base::Kind::VolumeFlow},
               {"k_dep", room.settling_per_s, base::Kind::Ratio},
               {"V", room.volume_m3, base::Kind::Volume}});
  }
  return rate_per_s;
}

/// Dust in the air [kg/m3] in the long run, from what is released [kg/s]; infinite without any clearing.
template <class Note = base::Silent>
double roomSteady(double release_kg_s, double clearing_per_s, double volume_m3, Note&& note = {}) {
  const double c_kg_m3 = release_kg_s == 0 ? 0.0 : release_kg_s / (clearing_per_s * volume_m3);
  if constexpr (base::kNoted<Note>) {
    note.step(kRoomSteady, c_kg_m3,
              {{"G", release_kg_s, base::Kind::MassFlow},
               {"k", clearing_per_s, base::Kind::Ratio},
               {"V", volume_m3, base::Kind::Volume}});
  }
  return c_kg_m3;
}

/// Dust in the air [kg/m3] after `time_s`, from `start_kg_m3` toward `steady_kg_m3`.
template <class Note = base::Silent>
double roomAfter(double start_kg_m3, double steady_kg_m3, double clearing_per_s, double time_s,
                 Note&& note = {}) {
  const double c_kg_m3 = steady_kg_m3 + (start_kg_m3 - steady_kg_m3) * std::exp(-clearing_per_s * time_s);
  if constexpr (base::kNoted<Note>) {
    note.step(kRoomAfter, c_kg_m3,
              {{"C_s", steady_kg_m3, base::Kind::Density},
               {"C_0", start_kg_m3, base::Kind::Density},
               {"k", clearing_per_s, base::Kind::Ratio},
               {"t", time_s, base::Kind::Time}});
  }
  return c_kg_m3;
}

/// Time [s] until a share (0 to 1, without 0) of the dust is left when nothing more is released. Woodshop
/// row 12.
template <class Note = base::Silent>
double roomDecayTime(double share, double clearing_per_s, Note&& note = {}) {
  const double time_s = -std::log(share) / clearing_per_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kRoomDecayTime, time_s,
              {{"share", share, base::Kind::Ratio}, {"k", clearing_per_s, base::Kind::Ratio}});
  }
  return time_s;
}

/// Dust [kg/s] that air returned through a filter brings back: flow, the filter's efficiency, dust before it
/// [kg/m3].
template <class Note = base::Silent>
double roomReturn(double flow_m3_s, double efficiency, double before_kg_m3, Note&& note = {}) {
  const double release_kg_s = flow_m3_s * (1 - efficiency) * before_kg_m3;
  if constexpr (base::kNoted<Note>) {
    note.step(kRoomReturn, release_kg_s,
              {{"Q_r", flow_m3_s, base::Kind::VolumeFlow},
               {"E", efficiency, base::Kind::Ratio},
               {"C_in", before_kg_m3, base::Kind::Density}});
  }
  return release_kg_s;
}

}  // namespace kerfdraft::physics
