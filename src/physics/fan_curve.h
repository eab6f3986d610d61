// A fan's pressure against flow: shape-preserving cubic through a person's points, or an exact quadratic
// where only a label is known, continued past the data and through reversed flow so that a solver never falls
// off it.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "base/law.h"
#include "base/result.h"

namespace kerfdraft::physics {

/// One point of a rated curve. Pressure in whatever basis the rating uses (physics/fan.h).
struct FanPoint {
  double flow_m3_s = 0;
  double p_pa = 0;
};

/// A curve at one flow. The derivative is exact.
struct CurveValue {
  double p_pa = 0;
  double dp_d_q = 0;         ///< [Pa s/m3]
  bool beyond_data = false;  ///< outside the first and last point given
  bool rising = false;       ///< pressure rises with flow here: a real point, but fans may hunt on it
};

/// Where a curve's pressure is greatest, or equals a given pressure.
struct CurvePoint {
  double flow_m3_s = 0;
  double p_pa = 0;
};

/// Piecewise cubic, once differentiable, immutable. Evaluation allocates nothing and never throws.
class PiecewiseCubic {
 public:
  /// p = p0 + t (c1 + t (c2 + t c3)) with t = x - start; valid until the next piece's start.
  struct Piece {
    double p0 = 0;
    double c1 = 0;
    double c2 = 0;
    double c3 = 0;
    bool beyond = false;
  };

  void add(double start, const Piece& piece) {
    starts_.push_back(start);
    pieces_.push_back(piece);
  }

  /// Value and slope at `x`; left of the first start the first piece goes on. NaN in gives NaN out.
  CurveValue value(double x) const {
    std::size_t k = 0;
    while (k + 1 < starts_.size() && x >= starts_[k + 1]) {
      ++k;
    }
    const Piece& piece = pieces_[k];
    const double t = x - starts_[k];
    CurveValue out;
    out.p_pa = piece.p0 + t * (piece.c1 + t * (piece.c2 + t * piece.c3));
    out.dp_d_q = piece.c1 + t * (2 * piece.c2 + t * 3 * piece.c3);
    out.beyond_data = piece.beyond;
    out.rising = out.dp_d_q > 0;
    return out;
  }

  const std::vector<double>& starts() const { return starts_; }
  const std::vector<Piece>& pieces() const { return pieces_; }

 private:
  std::vector<double> starts_;
  std::vector<Piece> pieces_;
};

/// Slopes of the shape-preserving cubic at its knots: Fritsch-Butland weighted harmonic means inside,
/// three-point shape-preserving ones at the ends, the secant with two points. Writes into `slopes`, same
/// length as `x`. Source: FritschButland1984, Moler2004 section 3.4; equal to scipy's PchipInterpolator
/// (test: FanCurve.AgreesWithScipy, 1e-12 relative). Precondition: at least two points, x strictly
/// increasing.
void pchipSlopes(std::span<const double> x, std::span<const double> y, std::span<double> slopes);

/// The cubic over a step of `h` that has these values and slopes at its ends.
PiecewiseCubic::Piece cubicBetween(double h, double p0, double p1, double slope0, double slope1);

/// A fan curve over all flows, forward and reversed.
///
/// Inside the data PCHIP; below the first point the first slope goes on to zero flow; beyond the last point
/// p_n + s (Q^2 - Q_n^2)/(2 Q_n) with s = min(end slope, -0.1 p_max/Q_last); for reversed flow the slope is
/// min(first slope, -0.1 p_max/Q_last). Where such a limit bites, the slope is brought over linearly within
/// kSlopeBand of Q_last, so that the curve is C1 everywhere; this moves the continuation by at most 0.1 % of
/// the peak for a falling end. The curve has no upper end in flow and falls without bound.
class FanCurve {
 public:
  /// The slope limit of both continuations, as a share of p_max/Q_last (ours).
  static constexpr double kLeastFall = 0.1;
  /// The flow over which a continuation takes up its slope, as a share of Q_last (ours).
  static constexpr double kSlopeBand = 0.02;

  /// Pressure [Pa] and slope at a flow [m3/s] of any sign.
  CurveValue value(double flow_m3_s) const { return cubic_.value(flow_m3_s); }

  /// Flow of the first and last point given (for a law curve: zero, and where its pressure is zero).
  double firstFlow() const { return first_flow_m3_s_; }
  double lastFlow() const { return last_flow_m3_s_; }
  /// The greatest pressure among the points given, and its flow.
  CurvePoint peak() const { return peak_; }
  /// Pressure at zero flow.
  double shutoff() const { return shutoff_pa_; }
  /// True where the pressure rises with flow somewhere between zero flow and the last point.
  bool hasRisingPart() const { return has_rising_part_; }

  /// The largest flow at which the pressure equals `p_pa`; negative where that needs reversed flow. Every
  /// finite pressure has one. Accuracy: 1e-12 of Q_last.
  double largestFlowAt(double p_pa) const;

 private:
  friend base::Result<FanCurve> makeFanCurve(std::span<const FanPoint> points);
  friend base::Result<FanCurve> makeLawCurve(double shutoff_pa, double free_flow_m3_s);
  FanCurve() = default;
  void addReversed(double slope_at_zero);
  void addBeyond(double end_p_pa, double end_slope);

  PiecewiseCubic cubic_;
  double first_flow_m3_s_ = 0;
  double last_flow_m3_s_ = 0;
  CurvePoint peak_;
  double shutoff_pa_ = 0;
  bool has_rising_part_ = false;
};

/// Builds a curve from points. Refused with a sentence (Error::where = "point 3", counted from 1): fewer than
/// two points; a flow or pressure that is negative or not a number; flows that do not increase; a first
/// pressure of zero; a last pressure not below the peak (a wholly rising or flat curve); a rise so steep that
/// its continuation to zero flow would not be positive. A rising part is accepted; see hasRisingPart().
base::Result<FanCurve> makeFanCurve(std::span<const FanPoint> points);

/// The exact quadratic p = p_s (1 - (Q/Q_0)^2), continued like any other curve; beyond Q_0 the continuation
/// is the same quadratic. Both must be positive and finite, else an Error.
base::Result<FanCurve> makeLawCurve(double shutoff_pa, double zero_pressure_flow_m3_s);

inline constexpr base::Law kFanCurvePoint{
    .key = "fan-curve-point",
    .name = "Pressure of the fan from its curve",
    .symbol = "p_f",
    .kind = base::Kind::Pressure,
    .formula = "p_f = curve(Q), shape-preserving cubic through the points",
    .source = "FritschButland1984",
    .status = base::SourceStatus::Published,
    .page = "fans"};

/// The curve with a note. Same arithmetic as FanCurve::value.
template <class Note = base::Silent>
CurveValue fanCurvePoint(const FanCurve& curve, double flow_m3_s, Note&& note = {}) {
  const CurveValue out = curve.value(flow_m3_s);
  if constexpr (base::kNoted<Note>) {
    note.step(kFanCurvePoint, out.p_pa, {{"Q", flow_m3_s, base::Kind::VolumeFlow}});
  }
  return out;
}

}  // namespace kerfdraft::physics
