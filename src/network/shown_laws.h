// The laws by which a solution's numbers follow from what the solver found; the templates that evaluate them
// are in shown.h.
#pragma once

#include "base/law.h"
#include "base/quantity.h"

namespace kerfdraft::network {

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
                                           "m2 = m1 + rho_room Q",
                                           "",
                                           base::SourceStatus::Ours,
                                           "gates-and-leaks"};
inline constexpr base::Law kJunctionDensity{"junction-density",
                                            "Density in the inlet plane of a junction",
                                            "rho",
                                            base::Kind::Density,
                                            "rho = rho_room (p_in + p_bar)/p_bar; with one density rho_room",
                                            "",
                                            base::SourceStatus::Ours,
                                            "junction"};
inline constexpr base::Law kLegMomentum{"leg-momentum",
                                        "Momentum brought along, summed leg by leg",
                                        "sum",
                                        base::Kind::Ratio,
                                        "sum = sum + m_j^2 c_j / A_j",
                                        "Idelchik, p. 417 eq. 7-1",
                                        base::SourceStatus::Published,
                                        "junction"};
inline constexpr base::Law kMixedSpeed{"mixed-speed",
                                       "Speed of the mixed streams along the outlet",
                                       "sum",
                                       base::Kind::Speed,
                                       "sum_j (Q_j/Q_leaving) V_j c_j = sum / (rho m_leaving)",
                                       "Idelchik, p. 417 eq. 7-1",
                                       base::SourceStatus::Published,
                                       "junction"};
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
inline constexpr base::Law kPressureDifference{"pressure-difference",
                                               "Difference of two total pressures",
                                               "dP",
                                               base::Kind::Pressure,
                                               "dP = P1 - P2",
                                               "",
                                               base::SourceStatus::Ours,
                                               ""};
inline constexpr base::Law kLeakDrive{"leak-drive",
                                      "Pressure that drives air through leaking joints",
                                      "p",
                                      base::Kind::Pressure,
                                      "p = P1 - P2, room less the static pressure in the bore",
                                      "",
                                      base::SourceStatus::Ours,
                                      "gates-and-leaks"};
inline constexpr base::Law kSlowest{"slowest-duct",
                                    "Slowest air in the run's ducts and hoses",
                                    "V",
                                    base::Kind::Speed,
                                    "V = least |V| of its straight and hose pieces",
                                    "",
                                    base::SourceStatus::Ours,
                                    "conveying"};

}  // namespace kerfdraft::network
