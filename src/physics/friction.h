// Wall friction of straight duct: Colebrook-White joined smoothly to the laminar law, at the price of one
// logarithm, in a form that needs no division by the flow.
#pragma once

#include <bit>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"
#include "physics/velocity_pressure.h"

namespace kerfdraft::physics {

inline constexpr double kLaminarEnd = 2000;      ///< Re below which f = 64/Re
inline constexpr double kTurbulentStart = 4000;  ///< Re above which f is Colebrook-White
inline constexpr double kMaxRelativeRoughness = 0.05;

/// Darcy friction factor and d f / d Re, where d f / d Re has the sign of Re (f is even in Re).
struct FrictionFactor {
  double f = 0;
  double df_d_re = 0;
};

/// f |Re| and its slope by |Re|. At rest f |Re| = 64, so a loss written as (f |Re|) times something linear
/// in the flow is defined everywhere and has its laminar slope at zero.
struct FrictionTerm {
  double f_re = 64;
  double slope = 0;
};

inline constexpr base::Law kReynolds{"reynolds",
                                     "Reynolds number",
                                     "Re",
                                     base::Kind::Ratio,
                                     "Re = 4 |m| / (pi D mu)",
                                     "AshraeF2009, ch. 21",
                                     base::SourceStatus::Published,
                                     "friction"};
inline constexpr base::Law kFrictionFactor{
    "friction-factor",
    "Darcy friction factor",
    "f",
    base::Kind::Ratio,
    "1/sqrt f = -2 log10[e/3.7 + 2.51/(Re sqrt f)] from Re 4000; 64/Re to Re 2000; between "
    "(1 - w) 64/Re + w f, w = t^2 (3 - 2 t), t = (Re - 2000)/2000",
    "Colebrook1939, eq. 16",
    base::SourceStatus::Published,
    "friction"};
inline constexpr base::Law kFrictionLoss{"friction-loss",
                                         "Friction of a straight run",
                                         "dp",
                                         base::Kind::Pressure,
                                         "dp = f (L/D) VP",
                                         "AshraeF2009, ch. 21 (Darcy-Weisbach)",
                                         base::SourceStatus::Published,
                                         "friction"};

namespace detail {

/// ln v to 0.005, from the exponent's bits and a parabola through the mantissa: the start of a solution
/// that is then corrected to 1e-11. v must be a positive normal number.
inline double roughLog(double v) {
  const auto bits = std::bit_cast<std::uint64_t>(v);
  const double exponent = static_cast<double>(static_cast<int>(bits >> 52U)) - 1023.0;
  const double mantissa = std::bit_cast<double>((bits & 0x000F'FFFF'FFFF'FFFFULL) | 0x3FF0'0000'0000'0000ULL);
  return std::numbers::ln2 * (exponent + (2.0 - mantissa / 3.0) * mantissa - 5.0 / 3.0);
}

/// f Re by Colebrook-White, re > 0. With x = 1/sqrt f and y = x + e Re/(3.7 2.51) the law reads
/// x + c ln(2.51 y / Re) = 0, c = 2/ln 10. Two rough logarithms give x within 1 %; one exact logarithm
/// gives the residual there; the series of the inverse to fourth order gives the rest.
inline FrictionTerm colebrookTimesRe(double re, double relative_roughness) {
  constexpr double c = 2 / std::numbers::ln10;
  const double b = 2.51 / re;
  const double a = relative_roughness / 3.7;
  const double rough_x = -c * roughLog(a + 4.8 * b);
  const double x0 = -c * roughLog(a + rough_x * b);
  const double y0 = x0 + relative_roughness * re * (1 / (3.7 * 2.51));
  const double inverse = 1 / (y0 + c);
  const double k0 = c * inverse;
  const double g = -(x0 + c * std::log(b * y0)) * inverse;
  const double u =
      g * (1 + g * k0 * (0.5 + g * ((0.5 * k0 - 1.0 / 3) + g * (0.25 - k0 * (5.0 / 6 - 0.625 * k0)))));
  const double x = x0 + u * y0;
  const double y = y0 + u * y0;
  const double f = 1 / (x * x);
  // d ln f / d ln Re = -2 c/(y + c), from the law itself.
  return {f * re, f * (1 - 2 * c / (y + c))};
}

}  // namespace detail

/// f |Re| and its slope by |Re|. Re any finite number up to 1e12 (its sign does not matter), relative
/// roughness 0 to 0.05. Continuous with its slope at Re 2000 and 4000; f |Re| Re rises strictly with Re.
/// Accuracy: 1e-11 relative against Newton in long double (Friction.ColebrookToItsLastDigits); the
/// slope is that of the exact solution.
/// Source: Colebrook 1939 and 64/Re; the blend between Re 2000 and 4000 is ours (docs/theory/friction.md).
inline FrictionTerm frictionTimesRe(double re, double relative_roughness) {
  const double magnitude = std::abs(re);
  if (!(magnitude > kLaminarEnd)) {
    return {64, 0};
  }
  const FrictionTerm rough = detail::colebrookTimesRe(magnitude, relative_roughness);
  if (magnitude >= kTurbulentStart) {
    return rough;
  }
  const double t = (magnitude - kLaminarEnd) / (kTurbulentStart - kLaminarEnd);
  const double w = t * t * (3 - 2 * t);
  const double dw = 6 * t * (1 - t) / (kTurbulentStart - kLaminarEnd);
  return {64 + w * (rough.f_re - 64), w * rough.slope + dw * (rough.f_re - 64)};
}

/// Darcy friction factor, even in Re. f grows without bound as Re goes to 0, so below |Re| = 1 (no flow that
/// anyone could measure) it stays at its value there, 64; losses use frictionTimesRe(), which is exact.
/// Rows F1 to F11 (tests/published/friction_test.cpp).
template <class Note = base::Silent>
FrictionFactor frictionFactor(double re, double relative_roughness, Note&& note = {}) {
  const FrictionTerm term = frictionTimesRe(re, relative_roughness);
  FrictionFactor factor{64, 0};
  if (const double magnitude = std::abs(re); magnitude > 1) {
    factor.f = term.f_re / magnitude;
    factor.df_d_re = (term.slope - factor.f) / re;
  }
  if constexpr (base::kNoted<Note>) {
    note.step(kFrictionFactor, factor.f,
              {{"Re", std::abs(re), base::Kind::Ratio}, {"e", relative_roughness, base::Kind::Ratio}});
  }
  return factor;
}

/// Reynolds number of a mass flow in a round bore, with the sign of the flow. Density does not enter.
template <class Note = base::Silent>
double reynolds(double flow_kg_s, double bore_m, double viscosity_pa_s, Note&& note = {}) {
  const double re = 4 * flow_kg_s / (std::numbers::pi * bore_m * viscosity_pa_s);
  if constexpr (base::kNoted<Note>) {
    note.step(kReynolds, re,
              {{"m", flow_kg_s, base::Kind::MassFlow},
               {"D", bore_m, base::Kind::Bore},
               {"mu", viscosity_pa_s, base::Kind::Viscosity}});
  }
  return re;
}

/// Friction loss of a straight run of round duct, with the sign of the flow, and its slope by mass flow.
/// Inputs in SI; `relative_roughness` at most 0.05 (relativeRoughness() checks). Rises strictly with flow.
/// At fixed mass flow the loss goes as 1/rho.
/// Derivative against central differences: Friction.SlopeOfTheLossIsExact.
template <class Note = base::Silent>
Loss frictionLoss(double flow_kg_s, double density_kg_m3, double viscosity_pa_s, double bore_m,
                  double length_m, double relative_roughness, Note&& note = {}) {
  const double re = reynolds(flow_kg_s, bore_m, viscosity_pa_s, note);
  const FrictionTerm term = frictionTimesRe(re, relative_roughness);
  const double area_m2 = roundArea(bore_m);
  const double linear = viscosity_pa_s * length_m / (2 * bore_m * bore_m * density_kg_m3 * area_m2);
  const Loss loss{term.f_re * linear * flow_kg_s, linear * (term.f_re + std::abs(re) * term.slope)};
  if constexpr (base::kNoted<Note>) {
    const FrictionFactor factor = frictionFactor(re, relative_roughness, note);
    const double speed_m_s = meanSpeed(flow_kg_s, density_kg_m3, area_m2, note);
    const double vp_pa = velocityPressure(density_kg_m3, speed_m_s, note);
    note.step(kFrictionLoss, loss.dp_pa,
              {{"f", factor.f, base::Kind::Ratio},
               {"L", length_m, base::Kind::Length},
               {"D", bore_m, base::Kind::Bore},
               {"VP", vp_pa, base::Kind::Pressure}});
  }
  return loss;
}

/// Roughness over bore, refused above 0.05 (Colebrook-White is not measured there), below 0, or for a bore
/// that is not positive. `where` is the place said in the error.
base::Result<double> relativeRoughness(base::Length roughness, base::Length bore, std::string where = {});

}  // namespace kerfdraft::physics
