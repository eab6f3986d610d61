// Hoods and machine ports: entry coefficients on the port's velocity pressure, what a maker's pair says, hood
// static pressure and the flow that it shows.
#pragma once

#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "base/law.h"
#include "base/result.h"
#include "physics/opening.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

/// Entry from a machine's body into a port of which nothing is known; internal passages are added by machine
/// kind (common practice; the catalogue has 1 for planer, jointer, band saw, 2.5 for a cluttered cabinet).
inline constexpr double kUnknownEntry = 0.5;

inline constexpr base::Law kEntryFromPair{"entry-from-pair",
                                          "Entry coefficient from a maker's flow and static suction",
                                          "F",
                                          base::Kind::Ratio,
                                          "F = max(0, (SP - dp_openings)/VP - 1)",
                                          "",
                                          base::SourceStatus::Ours,
                                          "hoods"};
inline constexpr base::Law kEntryUnknown{"entry-unknown",
                                         "Entry coefficient of a port without data",
                                         "F",
                                         base::Kind::Ratio,
                                         "F = 0.5 + internals",
                                         "",
                                         base::SourceStatus::CommonPractice,
                                         "hoods"};
inline constexpr base::Law kCoefficientOfEntry{
    "coefficient-of-entry", "Coefficient of entry",        "Ce",   base::Kind::Ratio, "Ce = 1/sqrt(1 + F)",
    "AcgihIv, ch. 3",       base::SourceStatus::Published, "hoods"};
inline constexpr base::Law kHoodStatic{"hood-static",
                                       "Hood static pressure",
                                       "SP_h",
                                       base::Kind::Pressure,
                                       "SP_h = (1 + F) VP, as suction",
                                       "AcgihIv, ch. 3",
                                       base::SourceStatus::Published,
                                       "hoods"};
inline constexpr base::Law kFlowFromHoodStatic{"flow-from-hood-static",
                                               "Flow shown by hood static pressure",
                                               "Q",
                                               base::Kind::VolumeFlow,
                                               "Q = A Ce sqrt(2 SP_h/rho)",
                                               "AcgihIv, ch. 3",
                                               base::SourceStatus::Published,
                                               "hoods"};
inline constexpr base::Law kTradeHoodFlow{"trade-hood-flow",
                                          "Flow shown by hood static pressure, the trade's form",
                                          "Q",
                                          base::Kind::Ratio,
                                          "Q[cfm] = 4005 A[ft2] Ce sqrt(SP_h[in w.g.]/df)",
                                          "AcgihIv, ch. 3",
                                          base::SourceStatus::Published,
                                          "hoods"};
inline constexpr base::Law kCompoundHoodStatic{"compound-hood-static",
                                               "Static pressure of a slot with a plenum",
                                               "SP_h",
                                               base::Kind::Pressure,
                                               "SP_h = F_slot VP_slot + F VP + max(VP_slot, VP)",
                                               "AcgihIv, ch. 3",
                                               base::SourceStatus::Published,
                                               "hoods"};

/// F of the maker's pair: suction and opening loss [Pa], velocity pressure [Pa] above zero. Never below 0.
template <class Note = base::Silent>
double entryFromPair(double suction_pa, double openings_pa, double vp_pa, Note&& note = {}) {
  const double f = (suction_pa - openings_pa) / vp_pa - 1;
  const double entry = f > 0 ? f : 0.0;
  if constexpr (base::kNoted<Note>) {
    note.step(kEntryFromPair, entry,
              {{"SP", suction_pa, base::Kind::Pressure},
               {"dp_openings", openings_pa, base::Kind::Pressure},
               {"VP", vp_pa, base::Kind::Pressure}});
  }
  return entry;
}

/// F where nothing is known of the port but the kind of machine.
template <class Note = base::Silent>
double entryUnknown(double internals, Note&& note = {}) {
  const double f = kUnknownEntry + internals;
  if constexpr (base::kNoted<Note>) {
    note.step(kEntryUnknown, f, {{"internals", internals, base::Kind::Ratio}});
  }
  return f;
}

/// Ce from F (above -1). Rows E1, E2.
template <class Note = base::Silent>
double coefficientOfEntry(double entry, Note&& note = {}) {
  const double ce = 1 / std::sqrt(1 + entry);
  if constexpr (base::kNoted<Note>) {
    note.step(kCoefficientOfEntry, ce, {{"F", entry, base::Kind::Ratio}});
  }
  return ce;
}

/// Suction [Pa] that a wall tap reads behind a hood, leaving out friction up to the tap. Rows E3, E7.
template <class Note = base::Silent>
double hoodStatic(double entry, double vp_pa, Note&& note = {}) {
  const double sp_pa = (1 + entry) * vp_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kHoodStatic, sp_pa, {{"F", entry, base::Kind::Ratio}, {"VP", vp_pa, base::Kind::Pressure}});
  }
  return sp_pa;
}

/// Flow [m3/s] from the suction [Pa, not negative] behind a hood: section [m2], Ce, density in the duct.
template <class Note = base::Silent>
double flowFromHoodStatic(double suction_pa, double area_m2, double ce, double density_kg_m3,
                          Note&& note = {}) {
  const double flow_m3_s = area_m2 * ce * std::sqrt(2 * suction_pa / density_kg_m3);
  if constexpr (base::kNoted<Note>) {
    note.step(kFlowFromHoodStatic, flow_m3_s,
              {{"A", area_m2, base::Kind::Area},
               {"Ce", ce, base::Kind::Ratio},
               {"SP_h", suction_pa, base::Kind::Pressure},
               {"rho", density_kg_m3, base::Kind::Density}});
  }
  return flow_m3_s;
}

/// The trade's form, for the hand method and for checks: cfm from square feet and inches of water. Rows E4 to
/// E6.
template <class Note = base::Silent>
double tradeHoodFlow(double suction_inches, double area_ft2, double ce, double density_factor,
                     Note&& note = {}) {
  const double flow_cfm = area_ft2 * ce * tradeSpeed(suction_inches, density_factor);
  if constexpr (base::kNoted<Note>) {
    note.step(kTradeHoodFlow, flow_cfm,
              {{"A", area_ft2, base::Kind::Ratio},
               {"Ce", ce, base::Kind::Ratio},
               {"SP_h", suction_inches, base::Kind::Ratio},
               {"df", density_factor, base::Kind::Ratio}});
  }
  return flow_cfm;
}

/// Entry coefficient of a sharp slot on its own velocity pressure (industrial ventilation manual, as read).
inline constexpr double kSlotEntry = 1.78;

/// Suction behind a slot with a plenum. The air is brought to speed once, to the greater of the two. Rows E8,
/// E9.
template <class Note = base::Silent>
double compoundHoodStatic(double slot_entry, double slot_vp_pa, double duct_entry, double duct_vp_pa,
                          Note&& note = {}) {
  const double greater_pa = slot_vp_pa > duct_vp_pa ? slot_vp_pa : duct_vp_pa;
  const double sp_pa = slot_entry * slot_vp_pa + duct_entry * duct_vp_pa + greater_pa;
  if constexpr (base::kNoted<Note>) {
    note.step(kCompoundHoodStatic, sp_pa,
              {{"F_slot", slot_entry, base::Kind::Ratio},
               {"VP_slot", slot_vp_pa, base::Kind::Pressure},
               {"F", duct_entry, base::Kind::Ratio},
               {"VP", duct_vp_pa, base::Kind::Pressure}});
  }
  return sp_pa;
}

/// A maker's figures for one port: flow and static suction in the connection, and the connection's inside
/// bore.
struct MakerPair {
  double flow_m3_s = 0;
  double suction_pa = 0;
  double bore_m = 0;
  std::string where;  ///< place said in errors
};

/// What a pair gives: F on the port's velocity pressure, and the parts it was made of.
struct PairEntry {
  double entry = 0;
  double vp_pa = 0;
  double openings_pa = 0;  ///< loss of the body's openings at the rated flow, which the maker measured too
  bool at_floor = false;   ///< the openings ask for all of the suction or more: their area is doubtful
};

/// Entry coefficients of all ports of one body that have a maker's pair, in the order given. The openings
/// (`openings_m2`, 0: none known, nothing is taken out) pass the sum of the rated flows. Refused with a
/// sentence: a flow, suction or bore that is not above zero; a static suction below the velocity pressure of
/// its own flow, which cannot be (the air has to be brought to speed); a negative opening.
base::Result<std::vector<PairEntry>> entriesFromPairs(std::span<const MakerPair> pairs, double openings_m2,
                                                      double density_kg_m3);

}  // namespace kerfdraft::physics
