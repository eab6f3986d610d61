// The signs of the plan. Each is drawn from what the thing is: a blade that slides out of a duct, ribs of a
// hose, a pipe seen from above and half in shade on the side to which it goes on.
#include <numbers>

#include "drawing/plan_parts.h"

namespace kerfdraft::drawing {
namespace {

bool isDark(Grade grade) {
  return grade == Grade::FarBelow || grade == Grade::Below;
}

Colour markOn(Grade grade) {
  if (grade == Grade::Still || grade == Grade::NotJudged) {
    return kInk;
  }
  return isDark(grade) ? kOnDark : kOnLight;
}

/// Half a disc, the flat side level.
Shape halfDisc(At centre, double radius, bool lower, Colour fill) {
  constexpr int kSteps = 16;
  std::vector<At> points;
  for (int k = 0; k <= kSteps; ++k) {
    const double angle = std::numbers::pi * k / kSteps;
    points.push_back(centre + At{radius * std::cos(angle), (lower ? 1 : -1) * radius * std::sin(angle)});
  }
  return polygon(std::move(points), fill);
}

}  // namespace

std::vector<Shape> gradePattern(At from, At to, double width_mm, Grade grade) {
  std::vector<Shape> out;
  const double l = length(to - from);
  if (l < 0.2) {
    return out;
  }
  const At d = unit(to - from);
  const At n = leftOf(d);
  switch (grade) {
    case Grade::FarBelow:
    case Grade::Below: {
      // Slanted stripes, close together where the need is missed by far. They are cut off at both ends, so
      // that the pattern goes on from one leg to the next.
      const double apart = grade == Grade::FarBelow ? 1.3 : 2.6;
      const double slant = width_mm * 0.7;
      const int count = static_cast<int>(std::ceil((l - apart / 2 + slant) / apart));
      for (int k = 0; k < count; ++k) {
        const double s = apart / 2 - slant + k * apart;
        const double begin = std::max(0.0, -s / slant);
        const double end = std::min(1.0, (l - s) / slant);
        if (begin >= end) {
          continue;
        }
        const auto on = [&](double share) {
          return from + d * (s + slant * share) + n * (width_mm * (0.5 - share));
        };
        out.push_back(line(on(begin), on(end), stroke(grade == Grade::FarBelow ? 0.28 : 0.2, kOnDark)));
      }
      break;
    }
    case Grade::Just:
      out.push_back(line(from, to, roundStroke(0.34, kOnLight, {0.01, 1.7})));
      break;
    case Grade::Plenty:
      out.push_back(line(from, to, stroke(kHair_mm, kOnLight)));
      break;
    case Grade::Still:
      out.push_back(line(from, to, stroke(kHair_mm, kFaint, {1.6, 1.0})));
      break;
    case Grade::Ample:
    case Grade::NotJudged:
      break;
  }
  return out;
}

std::vector<Shape> hoseRibs(At from, At to, double width_mm, Grade grade) {
  std::vector<Shape> out;
  const double l = length(to - from);
  const At d = unit(to - from);
  const At n = leftOf(d) * (width_mm / 2);
  constexpr double kApart = 0.85;
  const int count = static_cast<int>(l / kApart);
  for (int k = 0; k < count; ++k) {
    const At at = from + d * ((k + 0.5) * l / count);
    out.push_back(line(at + n, at - n, stroke(kHair_mm, grade == Grade::Still ? kFaint : markOn(grade))));
  }
  return out;
}

std::vector<Shape> ductPiece(At from, At to, double width_mm, Grade grade) {
  std::vector<Shape> out;
  out.push_back(line(from, to, stroke(width_mm + 2 * kThin_mm, grade == Grade::Still ? kFaint : kInk)));
  out.push_back(line(from, to, stroke(width_mm, fillOf(grade))));
  append(out, gradePattern(from, to, width_mm, grade));
  return out;
}

Shape flowArrow(At at, At direction, double width_mm, Grade grade) {
  const At d = unit(direction);
  const At n = leftOf(d);
  const double half = std::clamp(width_mm * 0.36, 0.55, 1.5);
  const double l = half * 2.1;
  const At tip = at + d * (l / 2);
  const At back = at - d * (l / 2);
  // A rim of the other tone keeps it readable across stripes.
  return polygon({tip, back + n * half, back + d * (l * 0.22), back - n * half}, markOn(grade),
                 stroke(kHair_mm, isDark(grade)                                        ? fillOf(grade)
                                  : grade == Grade::Still || grade == Grade::NotJudged ? kWhite
                                                                                       : kOnDark));
}

std::vector<Shape> gateSign(At at, At along, double width_mm, double travel) {
  std::vector<Shape> out;
  const At d = unit(along);
  const At n = leftOf(d);
  const double half = width_mm / 2;
  const double t = std::clamp(travel, 0.0, 1.0);
  // Two cheeks that hold the blade; the blade stands out by as much as the gate is open.
  const double cheek = 0.62;
  const double over = 0.7;
  const double handle = 0.9;
  const double blade = 0.36;
  const double in = -half + t * width_mm;
  const double out_to = half + t * width_mm + handle;
  out.push_back(polygon({at - d * cheek - n * (half + over), at + d * cheek - n * (half + over),
                         at + d * cheek + n * (half + over), at - d * cheek + n * (half + over)},
                        kWhite, stroke(kThin_mm)));
  out.push_back(polygon({at - d * blade + n * in, at + d * blade + n * in, at + d * blade + n * out_to,
                         at - d * blade + n * out_to},
                        t > 0.5 ? kWhite : kInk, stroke(kMiddle_mm)));
  return out;
}

std::vector<Shape> tapSign(At on_edge, At outward) {
  const At o = unit(outward);
  const At n = leftOf(o);
  return {polygon({on_edge - o * 0.2, on_edge + o * 1.5 + n * 0.85, on_edge + o * 1.5 - n * 0.85}, kWhite,
                  stroke(kThin_mm))};
}

std::vector<Shape> cleanoutSign(At on_edge, At outward) {
  const At o = unit(outward);
  const At n = leftOf(o);
  std::vector<Shape> out;
  out.push_back(polygon(
      {on_edge - n * 1.1, on_edge + n * 1.1, on_edge + n * 1.1 + o * 0.75, on_edge - n * 1.1 + o * 0.75},
      kInk, stroke(kHair_mm)));
  out.push_back(line(on_edge + o * 0.7, on_edge + o * 1.6, stroke(kMiddle_mm)));
  return out;
}

std::vector<Shape> verticalSign(At at, double width_mm, bool down, Grade grade) {
  std::vector<Shape> out;
  const double r = width_mm / 2;
  out.push_back(circle(at, r + kThin_mm, grade == Grade::Still ? kFaint : kInk));
  out.push_back(circle(at, r, fillOf(grade)));
  // The shaded half: below for a pipe that goes down, above for one that goes up.
  out.push_back(halfDisc(at, r * 0.72, down, markOn(grade)));
  out.push_back(circle(at, r * 0.72, std::nullopt, stroke(kHair_mm, markOn(grade))));
  return out;
}

std::vector<Shape> collectorSign(At centre, double radius_mm, bool running) {
  std::vector<Shape> out;
  out.push_back(circle(centre, radius_mm, kBody, stroke(kMiddle_mm, kInk, {1.6, 0.8})));
  // A wheel with five blades; a standing one is empty.
  const double hub = radius_mm * 0.16;
  const double rim = radius_mm * 0.72;
  out.push_back(circle(centre, rim, std::nullopt, stroke(kThin_mm)));
  out.push_back(circle(centre, hub, running ? kInk : kWhite, stroke(kThin_mm)));
  constexpr int kBlades = 5;
  for (int k = 0; k < kBlades; ++k) {
    const double a = 2 * std::numbers::pi * k / kBlades + 0.3;
    std::vector<At> blade;
    for (int s = 0; s <= 6; ++s) {
      const double share = s / 6.0;
      const double r = hub + (rim - hub) * share;
      const double turn = a + 0.55 * share * share;
      blade.push_back(centre + At{r * std::cos(turn), -r * std::sin(turn)});
    }
    out.push_back(polyline(std::move(blade), roundStroke(running ? kMiddle_mm : kHair_mm)));
  }
  return out;
}

std::vector<Shape> portSign(At at, double width_mm) {
  const double r = std::max(width_mm / 2, 0.7);
  return {circle(at, r + 0.45, kWhite, stroke(kThin_mm)), circle(at, r, kWhite, stroke(kMiddle_mm))};
}

}  // namespace kerfdraft::drawing
