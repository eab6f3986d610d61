// Flexible hose: how much more it loses than smooth metal duct of the same bore, from two questions that a
// person can answer, or from a known compression.
#pragma once

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"

namespace kerfdraft::physics {

/// Roughness of the metal duct that a hose is compared with.
inline constexpr double kHoseReferenceRoughness_m = 0.09e-3;

enum class HoseInside { Smooth, Ribbed };  ///< what a finger feels inside
enum class HosePull {
  Tight,
  Hung,
  Slack
};  ///< pulled tight, hung in an easy curve, slack or pushed together

inline constexpr base::Law kHoseMultiplier{
    "hose-multiplier",
    "Friction of hose over that of duct",
    "Mh",
    base::Kind::Ratio,
    "smooth inside: tight 1.25, hung 1.75, slack 4; ribbed: 2.0, 2.5, 6",
    "",
    base::SourceStatus::CommonPractice,
    "friction"};
inline constexpr base::Law kCompressionFactor{
    "hose-compression",
    "Correction for compressed hose",
    "PDCF",
    base::Kind::Ratio,
    "PDCF = min(10, 1 + 0.58 rc exp(-0.00496 D[mm])), rc = 100 (1 - L/L_full)",
    "AshraeF2009, ch. 21",
    base::SourceStatus::FromMemory,
    "friction"};
inline constexpr base::Law kHoseBend{
    "hose-bend",
    "Bend of hose, beside its own length",
    "K",
    base::Kind::Ratio,
    "per 90 degrees 0.35 at R/D 2 and over, 0.6 at 1.5, 1.0 at 1 and under, linear between and in angle",
    "",
    base::SourceStatus::CommonPractice,
    "friction"};

/// Multiplier on the friction of the reference duct, on the length as installed. `extrapolated` where the
/// bore or the compression lay outside what was measured (100 to 400 mm, 0 to 45 %) and was held at the end.
struct HoseMultiplier {
  double value = 1;
  bool extrapolated = false;
};

/// The multiplier of a hose of which only its looks are known. Common practice, no source: bounds from
/// published compression tests and a maker's factor of 2.25 (docs/theory/friction.md).
template <class Note = base::Silent>
double hoseMultiplier(HoseInside inside, HosePull pull, Note&& note = {}) {
  const bool smooth = inside == HoseInside::Smooth;
  double value = 0;
  switch (pull) {
    case HosePull::Tight:
      value = smooth ? 1.25 : 2.0;
      break;
    case HosePull::Hung:
      value = smooth ? 1.75 : 2.5;
      break;
    case HosePull::Slack:
      value = smooth ? 4.0 : 6.0;
      break;
  }
  if constexpr (base::kNoted<Note>) {
    note.step(kHoseMultiplier, value, {});
  }
  return value;
}

/// Correction for a hose pushed together to `1 - compression` of its full length; 0 is fully stretched.
/// At most 10. Its coefficients belong to non-metallic flexible duct of 6 to 16 in.
template <class Note = base::Silent>
HoseMultiplier compressionFactor(double compression, double bore_m, Note&& note = {}) {
  const double rc = 100 * std::clamp(compression, 0.0, 0.45);
  const double bore_mm = std::clamp(1000 * bore_m, 100.0, 400.0);
  const HoseMultiplier factor{
      std::min(10.0, 1 + 0.58 * rc * std::exp(-0.00496 * bore_mm)),
      compression < 0 || compression > 0.45 || 1000 * bore_m < 100 || 1000 * bore_m > 400};
  if constexpr (base::kNoted<Note>) {
    note.step(kCompressionFactor, factor.value,
              {{"rc", rc, base::Kind::Ratio}, {"D", bore_mm / 1000, base::Kind::Bore}});
  }
  return factor;
}

/// The multiplier of a hose of known compression: the tight value times the correction.
template <class Note = base::Silent>
HoseMultiplier compressedHoseMultiplier(HoseInside inside, double compression, double bore_m,
                                        Note&& note = {}) {
  const double tight = hoseMultiplier(inside, HosePull::Tight, note);
  const HoseMultiplier factor = compressionFactor(compression, bore_m, note);
  return {tight * factor.value, factor.extrapolated};
}

/// Loss coefficient of a bend of hose of centre-line radius R/D over `angle_rad`, beside the friction of the
/// hose's own length. Linear in angle without limit: a coil of hose is many bends.
template <class Note = base::Silent>
double hoseBend(double radius_over_bore, double angle_rad, Note&& note = {}) {
  const double r = std::clamp(radius_over_bore, 1.0, 2.0);
  const double per_right_angle = r < 1.5 ? 1.0 - 0.8 * (r - 1.0) : 0.6 - 0.5 * (r - 1.5);
  const double k = per_right_angle * angle_rad / (std::numbers::pi / 2);
  if constexpr (base::kNoted<Note>) {
    note.step(kHoseBend, k,
              {{"R/D", radius_over_bore, base::Kind::Ratio}, {"alpha", angle_rad, base::Kind::Angle}});
  }
  return k;
}

/// Compression 1 - installed/stretched length, refused where the hose would be longer than stretched, or
/// pushed to less than a tenth, or a length is not positive.
base::Result<double> hoseCompression(base::Length installed, base::Length stretched, std::string where = {});

}  // namespace kerfdraft::physics
