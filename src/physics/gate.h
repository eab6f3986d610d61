// Blast gate: one formula at every travel, from open to the slot beside a shut blade.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "base/law.h"
#include "base/quantity.h"
#include "base/result.h"

namespace kerfdraft::physics {

/// Width of the slot around a shut blade, as bought and worn (ours: 6 and 19 cfm at 4 in and 8 in w.g.,
/// where the trade finds 2 to 10 and 20 or more).
inline constexpr double kGateSlot_m = 0.25e-3;
inline constexpr double kWornGateSlot_m = 0.75e-3;

inline constexpr base::Law kGateLeak{"gate-leak",
                                     "Slot beside a shut gate over the bore's area",
                                     "leak",
                                     base::Kind::Ratio,
                                     "leak = slot pi D / (pi D^2/4) = 4 slot / D",
                                     "",
                                     base::SourceStatus::Ours,
                                     "gates-and-leaks"};
inline constexpr base::Law kGateOpening{
    "gate-opening",
    "Effective opening of a straight-edged gate",
    "sigma_e",
    base::Kind::Ratio,
    "sigma = (t - sin t cos t)/pi, t = arccos(1 - 2 x); sigma_e = leak + (1 - leak) sigma",
    "",
    base::SourceStatus::Ours,
    "gates-and-leaks"};
inline constexpr base::Law kGate{"gate",
                                 "Blast gate",
                                 "K",
                                 base::Kind::Ratio,
                                 "K = [1/(Cc sigma_e) - 1]^2 + 0.10, Cc = 0.63 + 0.37 sigma_e^3",
                                 "Weisbach, vena contracta",
                                 base::SourceStatus::FromMemory,
                                 "gates-and-leaks"};

/// A gate's coefficient on the VP of the full bore, and its slope by travel (0 to 1 of the bore).
/// `closed`: nothing passes; k is infinite and no run is left to compute.
struct GateLoss {
  double k = 0;
  double dk_dx = 0;
  bool closed = false;
};

/// Share of the bore's area that a slot around its perimeter has. Not above 1.
template <class Note = base::Silent>
double gateLeak(double slot_m, double bore_m, Note&& note = {}) {
  const double leak = std::min(1.0, 4 * slot_m / bore_m);
  if constexpr (base::kNoted<Note>) {
    note.step(kGateLeak, leak, {{"slot", slot_m, base::Kind::Bore}, {"D", bore_m, base::Kind::Bore}});
  }
  return leak;
}

/// Open share of the area behind a straight blade drawn by `travel` of the bore.
inline double gateOpening(double travel) {
  const double x = std::clamp(travel, 0.0, 1.0);
  const double t = std::acos(1 - 2 * x);
  return (t - 2 * std::sqrt(x * (1 - x)) * (1 - 2 * x)) / std::numbers::pi;
}

/// Blast gate at `travel` 0 (shut) to 1 (open), held at those ends, with leak share 0 to 1. K falls strictly
/// with travel; its slope is exact (Gate.SlopeIsExact) and finite wherever the gate is not closed.
/// Rows D1 to D5 without their 0.10 (tests/published/gate_test.cpp).
template <class Note = base::Silent>
GateLoss gate(double travel, double leak, Note&& note = {}) {
  const double x = std::clamp(travel, 0.0, 1.0);
  const double sigma = gateOpening(x);
  const double opening = leak + (1 - leak) * sigma;
  if (!(opening > 0)) {
    return {std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(), true};
  }
  const double d_opening = (1 - leak) * 8 / std::numbers::pi * std::sqrt(x * (1 - x));
  const double cubed = opening * opening * opening;
  const double contracted = (0.63 + 0.37 * cubed) * opening;
  const double d_contracted = 0.63 + 4 * 0.37 * cubed;
  const double excess = 1 / contracted - 1;
  const GateLoss loss{excess * excess + 0.10,
                      -2 * excess / (contracted * contracted) * d_contracted * d_opening, false};
  if constexpr (base::kNoted<Note>) {
    note.step(kGateOpening, opening, {{"x", travel, base::Kind::Ratio}, {"leak", leak, base::Kind::Ratio}});
    note.step(kGate, loss.k, {{"sigma_e", opening, base::Kind::Ratio}});
  }
  return loss;
}

/// Refuses a travel outside 0 to 1 of the bore and a slot outside 0 to a tenth of the bore.
base::Result<void> checkGate(double travel, base::Length slot, base::Length bore, std::string where = {});

}  // namespace kerfdraft::physics
