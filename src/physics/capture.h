// Capture by open hoods: the flow that gives a wanted air speed at a distance. A speed that arrives is not
// dust that is held: saws and cutters throw faster than an open hood can pull (docs/theory/hoods.md).
#pragma once

#include <cmath>
#include <numbers>

#include "base/law.h"

namespace kerfdraft::physics {

/// A flow or speed by a capture law, and whether the law was measured there.
struct Capture {
  double value = 0;  ///< [m3/s] or [m/s]
  bool in_range = true;
};

enum class OpeningEdge { Plain, Flanged };
enum class SlotEdge { Plain, Flanged, OnSurface };

/// Share of the plain hood's flow that a flange (about as wide as the root of the face) leaves.
inline constexpr double kFlangeShare = 0.75;
/// Distance over opening diameter up to which Dalla Valle's law was measured.
inline constexpr double kCaptureReach = 1.5;
/// Width over length up to which an opening is a slot.
inline constexpr double kSlotAspect = 0.2;

inline constexpr base::Law kDallaValle{
    "capture-dalla-valle",
    "Flow of an open hood for a capture speed",
    "Q",
    base::Kind::VolumeFlow,
    "Q = s V (10 X^2 + A), s = 1 plain, 0.75 flanged; X up to 1.5 diameters",
    "DallaValle1952",
    base::SourceStatus::FromMemory,
    "hoods"};
inline constexpr base::Law kDallaValleSpeed{"capture-speed-dalla-valle",
                                            "Air speed before an open hood",
                                            "V",
                                            base::Kind::Speed,
                                            "V = Q / (s (10 X^2 + A))",
                                            "DallaValle1952",
                                            base::SourceStatus::FromMemory,
                                            "hoods"};
inline constexpr base::Law kSlotCapture{
    "capture-slot",
    "Flow of a slot for a capture speed",
    "Q",
    base::Kind::VolumeFlow,
    "Q = c L V X, c = 3.7 plain, 2.6 flanged, 2.8 on a surface; W/L up to 0.2",
    "AcgihIv, ch. 3",
    base::SourceStatus::FromMemory,
    "hoods"};
inline constexpr base::Law kCanopy{
    "capture-canopy",
    "Flow of a canopy",
    "Q",
    base::Kind::VolumeFlow,
    "Q = 1.4 P X V, P the work's perimeter, X the height of the canopy above it",
    "AcgihIv, ch. 3",
    base::SourceStatus::FromMemory,
    "hoods"};
inline constexpr base::Law kFaceFlow{"capture-face",
                                     "Flow of a booth or downdraft by its open face",
                                     "Q",
                                     base::Kind::VolumeFlow,
                                     "Q = V A_open",
                                     "AcgihIv, ch. 3",
                                     base::SourceStatus::FromMemory,
                                     "hoods"};
inline constexpr base::Law kDowndraft{"capture-downdraft",
                                      "Flow of a downdraft bench",
                                      "Q",
                                      base::Kind::VolumeFlow,
                                      "Q = max(V_grille A_grille, V_plan A_plan)",
                                      "HygieneHandbook, p. 1595",
                                      base::SourceStatus::Published,
                                      "hoods"};
inline constexpr base::Law kWiderWheel{"wider-wheel",
                                       "Flow for a wheel, belt or disc wider than its row",
                                       "Q",
                                       base::Kind::VolumeFlow,
                                       "Q = Q_row w / w_row, never below Q_row",
                                       "Cfr1910-94, (b)(3)(ii)",
                                       base::SourceStatus::Published,
                                       "hoods"};

/// Share of the plain flow by the edge of the opening.
constexpr double edgeShare(OpeningEdge edge) {
  return edge == OpeningEdge::Flanged ? kFlangeShare : 1.0;
}

/// Flow [m3/s] of an opening of area `face_m2` for the speed at `distance_m` along its axis. In range up
/// to 1.5 diameters (of the circle of equal area). Woodshop row 3.
template <class Note = base::Silent>
Capture captureFlow(OpeningEdge edge, double speed_m_s, double distance_m, double face_m2, Note&& note = {}) {
  const double share = edgeShare(edge);
  const Capture out{share * speed_m_s * (10 * distance_m * distance_m + face_m2),
                    distance_m <= kCaptureReach * std::sqrt(4 * face_m2 / std::numbers::pi)};
  if constexpr (base::kNoted<Note>) {
    note.step(kDallaValle, out.value,
              {{"s", share, base::Kind::Ratio},
               {"V", speed_m_s, base::Kind::Speed},
               {"X", distance_m, base::Kind::Length},
               {"A", face_m2, base::Kind::Area}});
  }
  return out;
}

/// The same law turned round: speed [m/s] at a distance for a flow.
template <class Note = base::Silent>
Capture captureSpeed(OpeningEdge edge, double flow_m3_s, double distance_m, double face_m2,
                     Note&& note = {}) {
  const double share = edgeShare(edge);
  const Capture out{flow_m3_s / (share * (10 * distance_m * distance_m + face_m2)),
                    distance_m <= kCaptureReach * std::sqrt(4 * face_m2 / std::numbers::pi)};
  if constexpr (base::kNoted<Note>) {
    note.step(kDallaValleSpeed, out.value,
              {{"Q", flow_m3_s, base::Kind::VolumeFlow},
               {"s", share, base::Kind::Ratio},
               {"X", distance_m, base::Kind::Length},
               {"A", face_m2, base::Kind::Area}});
  }
  return out;
}

/// Flow [m3/s] of a slot. In range while it is a slot and the distance lies between its width and its length
/// (ours: nearer than its width, or farther than its length, it acts as an opening).
template <class Note = base::Silent>
Capture slotCaptureFlow(SlotEdge edge, double length_m, double width_m, double speed_m_s, double distance_m,
                        Note&& note = {}) {
  const double c = edge == SlotEdge::Plain ? 3.7 : (edge == SlotEdge::Flanged ? 2.6 : 2.8);
  const Capture out{c * length_m * speed_m_s * distance_m,
                    width_m <= kSlotAspect * length_m && distance_m >= width_m && distance_m <= length_m};
  if constexpr (base::kNoted<Note>) {
    note.step(kSlotCapture, out.value,
              {{"c", c, base::Kind::Ratio},
               {"L", length_m, base::Kind::Length},
               {"V", speed_m_s, base::Kind::Speed},
               {"X", distance_m, base::Kind::Length}});
  }
  return out;
}

/// Flow [m3/s] of a canopy over work of this perimeter. Draws the dust past the face of whoever leans over
/// the work: not for woodworking benches.
template <class Note = base::Silent>
double canopyFlow(double perimeter_m, double height_m, double speed_m_s, Note&& note = {}) {
  const double flow_m3_s = 1.4 * perimeter_m * height_m * speed_m_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kCanopy, flow_m3_s,
              {{"P", perimeter_m, base::Kind::Length},
               {"X", height_m, base::Kind::Length},
               {"V", speed_m_s, base::Kind::Speed}});
  }
  return flow_m3_s;
}

/// Flow [m3/s] of a booth, an enclosure or a grille by its open area: only what no work covers counts.
template <class Note = base::Silent>
double faceFlow(double speed_m_s, double open_m2, Note&& note = {}) {
  const double flow_m3_s = speed_m_s * open_m2;
  if constexpr (base::kNoted<Note>) {
    note.step(kFaceFlow, flow_m3_s,
              {{"V", speed_m_s, base::Kind::Speed}, {"A_open", open_m2, base::Kind::Area}});
  }
  return flow_m3_s;
}

/// Flow [m3/s] of a downdraft bench: so much per open grille and not less than so much per plan of the
/// working area.
template <class Note = base::Silent>
double downdraftFlow(double grille_speed_m_s, double grille_m2, double plan_speed_m_s, double plan_m2,
                     Note&& note = {}) {
  const double by_grille = grille_speed_m_s * grille_m2;
  const double by_plan = plan_speed_m_s * plan_m2;
  const double flow_m3_s = by_grille > by_plan ? by_grille : by_plan;
  if constexpr (base::kNoted<Note>) {
    note.step(kDowndraft, flow_m3_s,
              {{"V_grille", grille_speed_m_s, base::Kind::Speed},
               {"A_grille", grille_m2, base::Kind::Area},
               {"V_plan", plan_speed_m_s, base::Kind::Speed},
               {"A_plan", plan_m2, base::Kind::Area}});
  }
  return flow_m3_s;
}

/// Flow [m3/s] for a wheel, disc or belt of another width than the row of the rule. Woodshop row 5.
template <class Note = base::Silent>
double widerWheelFlow(double row_flow_m3_s, double row_width_m, double width_m, Note&& note = {}) {
  const double ratio = width_m / row_width_m;
  const double flow_m3_s = ratio > 1 ? row_flow_m3_s * ratio : row_flow_m3_s;
  if constexpr (base::kNoted<Note>) {
    note.step(kWiderWheel, flow_m3_s,
              {{"Q_row", row_flow_m3_s, base::Kind::VolumeFlow},
               {"w", width_m, base::Kind::Bore},
               {"w_row", row_width_m, base::Kind::Bore}});
  }
  return flow_m3_s;
}

}  // namespace kerfdraft::physics
