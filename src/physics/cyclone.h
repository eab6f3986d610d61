// Cyclones: inlet velocity heads from proportions by four published models, and how much of the dust they
// keep.
#pragma once

#include <cmath>
#include <numbers>
#include <span>
#include <string>

#include "base/law.h"
#include "base/result.h"

namespace kerfdraft::physics {

/// Proportions as fractions of the body diameter. Named designs are rows of the catalogue.
struct CycloneShape {
  double inlet_height = 0;  ///< a
  double inlet_width = 0;   ///< b
  double dust_outlet = 0;   ///< B
  double cylinder = 0;      ///< h
  double cone = 0;          ///< z
  double gas_outlet = 0;    ///< De, diameter of the outlet tube
  double outlet_depth = 0;  ///< S, how far the tube reaches in
};

/// Refuses what cannot be built: a proportion not above zero, an outlet or dust outlet as wide as the body,
/// an inlet that is wider than the ring beside the outlet tube, a tube that reaches past the cone.
base::Result<CycloneShape> checkedCyclone(const CycloneShape& shape, std::string where = {});

inline constexpr base::Law kShepherdLapple{"cyclone-heads-shepherd-lapple",
                                           "Inlet velocity heads of a cyclone, Shepherd and Lapple",
                                           "N_H",
                                           base::Kind::Ratio,
                                           "N_H = 16 a b / De^2",
                                           "ShepherdLapple1939",
                                           base::SourceStatus::Published,
                                           "filters"};
inline constexpr base::Law kCasalMartinez{"cyclone-heads-casal-martinez",
                                          "Inlet velocity heads of a cyclone, Casal and Martinez",
                                          "N_H",
                                          base::Kind::Ratio,
                                          "N_H = 11.3 (a b / De^2)^2 + 3.33",
                                          "CasalMartinez1983",
                                          base::SourceStatus::Published,
                                          "filters"};
inline constexpr base::Law kRamachandran{"cyclone-heads-ramachandran",
                                         "Inlet velocity heads of a cyclone, Ramachandran and others",
                                         "N_H",
                                         base::Kind::Ratio,
                                         "N_H = 20 (a b / De^2) [S / ((h + z) h B)]^(1/3)",
                                         "Ramachandran1991",
                                         base::SourceStatus::FromMemory,
                                         "filters"};
inline constexpr base::Law kStairmandHeads{
    "cyclone-heads-stairmand",
    "Inlet velocity heads of a cyclone, Stairmand",
    "N_H",
    base::Kind::Ratio,
    "N_H = 1 + 2 phi^2 (2 (1 - b)/De - 1) + 2 (4 a b/(pi De^2))^2, phi = (sqrt(x + 2 y) - sqrt(x))/y, "
    "x = De/(2 (1 - b)), y = 0.01 A_w/(a b)",
    "Stairmand1949",
    base::SourceStatus::FromMemory,
    "filters"};
inline constexpr base::Law kEffectiveTurns{"cyclone-effective-turns",
                                           "Effective turns in a cyclone",
                                           "N_e",
                                           base::Kind::Ratio,
                                           "N_e = (h + z/2) / a",
                                           "Lapple1951",
                                           base::SourceStatus::FromMemory,
                                           "filters"};
inline constexpr base::Law kLappleCut{"cyclone-cut-lapple",
                                      "Size of which a cyclone keeps half, Lapple",
                                      "d50",
                                      base::Kind::Bore,
                                      "d50 = sqrt(9 mu b / (2 pi N_e V_i (rho_p - rho)))",
                                      "Lapple1951",
                                      base::SourceStatus::Published,
                                      "filters"};
inline constexpr base::Law kLappleGrade{"cyclone-grade-lapple",
                                        "Share of a size that a cyclone keeps, Lapple",
                                        "eta",
                                        base::Kind::Ratio,
                                        "eta = 1 / (1 + (d50/d)^2)",
                                        "Lapple1951",
                                        base::SourceStatus::Published,
                                        "filters"};
inline constexpr base::Law kVortexExponent{"cyclone-vortex-exponent",
                                           "Vortex exponent of a cyclone",
                                           "n",
                                           base::Kind::Ratio,
                                           "n = 1 - (1 - 0.67 D^0.14) (T/283)^0.3",
                                           "LeithLicht1972",
                                           base::SourceStatus::Published,
                                           "filters"};
inline constexpr base::Law kLeithLicht{
    "cyclone-grade-leith-licht",
    "Share of a size that a cyclone keeps, Leith and Licht",
    "eta",
    base::Kind::Ratio,
    "eta = 1 - exp(-2 [G tau Q (n + 1)/D^3]^(0.5/(n + 1))), tau = rho_p d^2/(18 mu)",
    "LeithLicht1972",
    base::SourceStatus::Published,
    "filters"};
inline constexpr base::Law kBarthLoss{"cyclone-loss-barth",
                                      "Loss of a cyclone, Barth and Muschelknautz",
                                      "dp",
                                      base::Kind::Pressure,
                                      "dp = rho v_i^2/2 (xi2 + xi3)",
                                      "Breiderhoff2013",
                                      base::SourceStatus::Published,
                                      "filters"};
inline constexpr base::Law kBarthCut{"cyclone-cut-barth",
                                     "Cut size of a cyclone, Barth and Muschelknautz",
                                     "d*",
                                     base::Kind::Bore,
                                     "d* = sqrt(18 mu v_r r_i / ((rho_p - rho) (U v_i)^2))",
                                     "Breiderhoff2013",
                                     base::SourceStatus::Published,
                                     "filters"};
inline constexpr base::Law kBarthGrade{"cyclone-grade-barth",
                                       "Share of a size that the vortex keeps, Barth and Muschelknautz",
                                       "T",
                                       base::Kind::Ratio,
                                       "T = (1 + 2 / (d/d*)^3.564)^-1.235",
                                       "Breiderhoff2013",
                                       base::SourceStatus::Published,
                                       "filters"};
inline constexpr base::Law kCriticalLoad{
    "cyclone-critical-load",
    "Dust load above which the rest drops out at the inlet",
    "B_c",
    base::Kind::Ratio,
    "B_c = lambda mu sqrt(r_a r_i) / ((1 - r_i/r_a) rho_p d_m^2 sqrt(v_a U v_i)), v_a = V_i r_e/(alpha r_a)",
    "VdiWarmeatlas",
    base::SourceStatus::FromMemory,
    "filters"};

/// Shepherd and Lapple 1939. Rows Y1 to Y4. The highest of the four models for the known designs (they spread
/// 13 to 18 % about their middle); the one used when proportions are given.
template <class Note = base::Silent>
double headsShepherdLapple(const CycloneShape& s, Note&& note = {}) {
  const double heads = 16 * s.inlet_height * s.inlet_width / (s.gas_outlet * s.gas_outlet);
  if constexpr (base::kNoted<Note>) {
    note.step(kShepherdLapple, heads,
              {{"a", s.inlet_height, base::Kind::Ratio},
               {"b", s.inlet_width, base::Kind::Ratio},
               {"De", s.gas_outlet, base::Kind::Ratio}});
  }
  return heads;
}

/// Casal and Martinez 1983 (their De, which one reprint writes as S). Rows Y1 to Y4.
template <class Note = base::Silent>
double headsCasalMartinez(const CycloneShape& s, Note&& note = {}) {
  const double ratio = s.inlet_height * s.inlet_width / (s.gas_outlet * s.gas_outlet);
  const double heads = 11.3 * ratio * ratio + 3.33;
  if constexpr (base::kNoted<Note>) {
    note.step(kCasalMartinez, heads,
              {{"a", s.inlet_height, base::Kind::Ratio},
               {"b", s.inlet_width, base::Kind::Ratio},
               {"De", s.gas_outlet, base::Kind::Ratio}});
  }
  return heads;
}

/// Ramachandran and others 1991. Rows Y1 to Y4.
template <class Note = base::Silent>
double headsRamachandran(const CycloneShape& s, Note&& note = {}) {
  const double ratio = s.inlet_height * s.inlet_width / (s.gas_outlet * s.gas_outlet);
  const double heads =
      20 * ratio * std::cbrt(s.outlet_depth / ((s.cylinder + s.cone) * s.cylinder * s.dust_outlet));
  if constexpr (base::kNoted<Note>) {
    note.step(kRamachandran, heads,
              {{"a", s.inlet_height, base::Kind::Ratio},
               {"b", s.inlet_width, base::Kind::Ratio},
               {"De", s.gas_outlet, base::Kind::Ratio},
               {"S", s.outlet_depth, base::Kind::Ratio},
               {"h", s.cylinder, base::Kind::Ratio},
               {"z", s.cone, base::Kind::Ratio},
               {"B", s.dust_outlet, base::Kind::Ratio}});
  }
  return heads;
}

/// Wetted inner area over the square of the body diameter: roof annulus, cylinder, cone, outside of the
/// outlet tube.
inline double cycloneWettedArea(const CycloneShape& s) {
  using std::numbers::pi;
  const double roof = pi / 4 * (1 - s.gas_outlet * s.gas_outlet);
  const double slant = std::hypot(s.cone, 0.5 * (1 - s.dust_outlet));
  return roof + pi * s.cylinder + 0.5 * pi * (1 + s.dust_outlet) * slant + pi * s.gas_outlet * s.outlet_depth;
}

/// Stairmand 1949 with a wall friction of 0.005. Rows Y1 to Y4.
template <class Note = base::Silent>
double headsStairmand(const CycloneShape& s, Note&& note = {}) {
  const double inlet = s.inlet_height * s.inlet_width;
  const double wetted = cycloneWettedArea(s);
  const double x = s.gas_outlet / (2 * (1 - s.inlet_width));
  const double y = 2 * 0.005 * wetted / inlet;
  const double phi = (std::sqrt(x + 2 * y) - std::sqrt(x)) / y;
  const double axial = 4 * inlet / (std::numbers::pi * s.gas_outlet * s.gas_outlet);
  const double heads = 1 + 2 * phi * phi * (1 / x - 1) + 2 * axial * axial;
  if constexpr (base::kNoted<Note>) {
    note.step(kStairmandHeads, heads,
              {{"a", s.inlet_height, base::Kind::Ratio},
               {"b", s.inlet_width, base::Kind::Ratio},
               {"De", s.gas_outlet, base::Kind::Ratio},
               {"A_w", wetted, base::Kind::Ratio}});
  }
  return heads;
}

/// Turns that the air makes before it reverses. 6 for Lapple's standard cyclone.
template <class Note = base::Silent>
double effectiveTurns(const CycloneShape& s, Note&& note = {}) {
  const double turns = (s.cylinder + 0.5 * s.cone) / s.inlet_height;
  if constexpr (base::kNoted<Note>) {
    note.step(kEffectiveTurns, turns,
              {{"h", s.cylinder, base::Kind::Ratio},
               {"z", s.cone, base::Kind::Ratio},
               {"a", s.inlet_height, base::Kind::Ratio}});
  }
  return turns;
}

/// Size [m] of which half is kept: inlet width [m], inlet speed, viscosity, densities of particle and air
/// (the particle heavier). For spheres; wood flakes are kept worse. Rows Y5 to Y8.
template <class Note = base::Silent>
double lappleCutSize(double inlet_width_m, double turns, double inlet_speed_m_s, double viscosity_pa_s,
                     double particle_kg_m3, double density_kg_m3, Note&& note = {}) {
  const double d_m =
      std::sqrt(9 * viscosity_pa_s * inlet_width_m /
                (2 * std::numbers::pi * turns * inlet_speed_m_s * (particle_kg_m3 - density_kg_m3)));
  if constexpr (base::kNoted<Note>) {
    note.step(kLappleCut, d_m,
              {{"mu", viscosity_pa_s, base::Kind::Viscosity},
               {"b", inlet_width_m, base::Kind::Bore},
               {"N_e", turns, base::Kind::Ratio},
               {"V_i", inlet_speed_m_s, base::Kind::Speed},
               {"rho_p", particle_kg_m3, base::Kind::Density},
               {"rho", density_kg_m3, base::Kind::Density}});
  }
  return d_m;
}

/// Share of a size kept, 0 to 1. Row Y9.
template <class Note = base::Silent>
double lappleGrade(double size_m, double cut_m, Note&& note = {}) {
  const double square = size_m * size_m;
  const double share = square / (square + cut_m * cut_m);
  if constexpr (base::kNoted<Note>) {
    note.step(kLappleGrade, share, {{"d50", cut_m, base::Kind::Bore}, {"d", size_m, base::Kind::Bore}});
  }
  return share;
}

/// Exponent n of the free vortex, w r^n constant, from body diameter [m] and temperature [K]. Row Y11, with
/// the printed 283 K; the form in inches on 530 R found elsewhere is another fit.
template <class Note = base::Silent>
double vortexExponent(double body_m, double temperature_k, Note&& note = {}) {
  const double n = 1 - (1 - 0.67 * std::pow(body_m, 0.14)) * std::pow(temperature_k / 283, 0.3);
  if constexpr (base::kNoted<Note>) {
    note.step(kVortexExponent, n,
              {{"D", body_m, base::Kind::Length}, {"T", temperature_k, base::Kind::Temperature}});
  }
  return n;
}

/// Share of a size kept. `configuration` is the design's number G (catalogue). Row Y10.
template <class Note = base::Silent>
double leithLichtGrade(double size_m, double configuration, double body_m, double flow_m3_s,
                       double particle_kg_m3, double viscosity_pa_s, double temperature_k, Note&& note = {}) {
  const double n = vortexExponent(body_m, temperature_k, note);
  const double tau_s = particle_kg_m3 * size_m * size_m / (18 * viscosity_pa_s);
  const double group = configuration * tau_s * flow_m3_s * (n + 1) / (body_m * body_m * body_m);
  const double share = -std::expm1(-2 * std::pow(group, 0.5 / (n + 1)));
  if constexpr (base::kNoted<Note>) {
    note.step(kLeithLicht, share,
              {{"G", configuration, base::Kind::Ratio},
               {"tau", tau_s, base::Kind::Time},
               {"Q", flow_m3_s, base::Kind::VolumeFlow},
               {"n", n, base::Kind::Ratio},
               {"D", body_m, base::Kind::Length}});
  }
  return share;
}

/// A cyclone with its dimensions [m], as the Barth and Muschelknautz method takes it.
struct CycloneBody {
  double body_m = 0;          ///< diameter
  double height_m = 0;        ///< cylinder and cone
  double gas_outlet_m = 0;    ///< diameter of the outlet tube
  double outlet_depth_m = 0;  ///< how far it reaches in
  double inlet_height_m = 0;
  double inlet_width_m = 0;
};

/// Air and dust of the Barth and Muschelknautz method.
struct CycloneDuty {
  double inlet_speed_m_s = 0;
  double viscosity_pa_s = 0;
  double density_kg_m3 = 0;
  double particle_kg_m3 = 0;
  double load_kg_m3 = 0;         ///< dust per volume of air
  double wall_friction = 0.005;  ///< of clean air
};

struct BarthCyclone {
  double flow_m3_s = 0;
  double inlet_ratio = 0;       ///< F
  double friction = 0;          ///< lambda, with dust
  double constriction = 0;      ///< alpha
  double outlet_speed_m_s = 0;  ///< v_i
  double swirl = 0;             ///< U = tangential over outlet speed at the outlet's radius
  double cut_m = 0;             ///< d*
  double body_heads = 0;        ///< xi2, on the outlet's velocity pressure
  double outlet_heads = 0;      ///< xi3
  double dp_pa = 0;
};

/// Loss and cut size by Barth and Muschelknautz as coded in an open optimization library after Breiderhoff
/// and others 2013. Row Y12. Dimensions from a shape that checkedCyclone() took.
template <class Note = base::Silent>
BarthCyclone barthCyclone(const CycloneBody& body, const CycloneDuty& duty, Note&& note = {}) {
  using std::numbers::pi;
  const double ra = 0.5 * body.body_m;
  const double ri = 0.5 * body.gas_outlet_m;
  const double re = ra - 0.5 * body.inlet_width_m;
  const double inlet_m2 = body.inlet_height_m * body.inlet_width_m;
  BarthCyclone out;
  out.flow_m3_s = duty.inlet_speed_m_s * inlet_m2;
  out.inlet_ratio = inlet_m2 / (pi * ri * ri);
  out.friction = duty.wall_friction * (1 + 2 * std::sqrt(duty.load_kg_m3 / duty.density_kg_m3));
  out.constriction = 1 - (0.54 - 0.153 / out.inlet_ratio) * std::cbrt(body.inlet_width_m / ra);
  out.swirl = 1 / (out.inlet_ratio * out.constriction * ri / re + out.friction * body.height_m / ri);
  out.outlet_speed_m_s = out.flow_m3_s / (pi * ri * ri);
  const double radial_m_s = out.flow_m3_s / (2 * pi * ri * (body.height_m - body.outlet_depth_m));
  const double tangential_m_s = out.swirl * out.outlet_speed_m_s;
  out.cut_m = std::sqrt(18 * duty.viscosity_pa_s * radial_m_s * ri /
                        ((duty.particle_kg_m3 - duty.density_kg_m3) * tangential_m_s * tangential_m_s));
  const double u = out.swirl;
  out.body_heads = u * u * (ri / ra) / (1 - out.friction * (body.height_m / ri) * u);
  out.outlet_heads = 2 + 3 * u * std::cbrt(u) + u * u;
  const double vp_pa = 0.5 * duty.density_kg_m3 * out.outlet_speed_m_s * out.outlet_speed_m_s;
  out.dp_pa = vp_pa * (out.body_heads + out.outlet_heads);
  if constexpr (base::kNoted<Note>) {
    note.step(kBarthCut, out.cut_m,
              {{"mu", duty.viscosity_pa_s, base::Kind::Viscosity},
               {"v_r", radial_m_s, base::Kind::Speed},
               {"r_i", ri, base::Kind::Length},
               {"rho_p", duty.particle_kg_m3, base::Kind::Density},
               {"rho", duty.density_kg_m3, base::Kind::Density},
               {"U v_i", tangential_m_s, base::Kind::Speed}});
    note.step(kBarthLoss, out.dp_pa,
              {{"rho", duty.density_kg_m3, base::Kind::Density},
               {"v_i", out.outlet_speed_m_s, base::Kind::Speed},
               {"xi2", out.body_heads, base::Kind::Ratio},
               {"xi3", out.outlet_heads, base::Kind::Ratio}});
  }
  return out;
}

/// Share of a size that the inner vortex keeps.
template <class Note = base::Silent>
double barthGrade(double size_m, double cut_m, Note&& note = {}) {
  const double share = size_m > 0 ? std::pow(1 + 2 / std::pow(size_m / cut_m, 3.564), -1.235) : 0.0;
  if constexpr (base::kNoted<Note>) {
    note.step(kBarthGrade, share, {{"d", size_m, base::Kind::Bore}, {"d*", cut_m, base::Kind::Bore}});
  }
  return share;
}

/// Dust per air [kg/kg] above which the surplus drops out at the inlet, whatever its size. `median_m` is the
/// size that halves the dust's mass. From memory of the handbook method; row Y12's value, computed by the
/// library named there, comes out to five digits with the middle of the class that holds the median.
template <class Note = base::Silent>
double criticalLoad(const CycloneBody& body, const CycloneDuty& duty, const BarthCyclone& barth,
                    double median_m, Note&& note = {}) {
  const double ra = 0.5 * body.body_m;
  const double ri = 0.5 * body.gas_outlet_m;
  const double re = ra - 0.5 * body.inlet_width_m;
  const double wall_m_s = duty.inlet_speed_m_s * re / (ra * barth.constriction);
  const double inner_m_s = barth.swirl * barth.outlet_speed_m_s;
  const double load =
      barth.friction * duty.viscosity_pa_s * std::sqrt(ra * ri) /
      ((1 - ri / ra) * duty.particle_kg_m3 * median_m * median_m * std::sqrt(wall_m_s * inner_m_s));
  if constexpr (base::kNoted<Note>) {
    note.step(kCriticalLoad, load,
              {{"lambda", barth.friction, base::Kind::Ratio},
               {"mu", duty.viscosity_pa_s, base::Kind::Viscosity},
               {"r_a", ra, base::Kind::Length},
               {"r_i", ri, base::Kind::Length},
               {"rho_p", duty.particle_kg_m3, base::Kind::Density},
               {"d_m", median_m, base::Kind::Bore},
               {"v_a", wall_m_s, base::Kind::Speed},
               {"U v_i", inner_m_s, base::Kind::Speed}});
  }
  return load;
}

/// A class of sizes with its share of the mass; shares add up to 1.
struct SizeClass {
  double size_m = 0;
  double share = 0;
};

struct BarthCollection {
  double critical_load = 0;  ///< kg/kg
  double vortex = 0;         ///< share kept by the vortex alone
  double total = 0;          ///< with what drops out at the inlet
};

/// Share of a dust that is kept. The median is the size of the class in which the shares, added from the
/// finest on, reach one half. Refused: no classes, sizes not above zero or not increasing, shares that do not
/// add up to 1 within 1e-6.
base::Result<BarthCollection> barthCollection(const CycloneBody& body, const CycloneDuty& duty,
                                              std::span<const SizeClass> dust);

}  // namespace kerfdraft::physics
