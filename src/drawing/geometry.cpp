// Clipping, hatching and bounds for pictures.
#include "drawing/geometry.h"

#include <numbers>

#include "drawing/text_measure.h"

namespace kerfdraft::drawing {

std::optional<LinePart> clipped(const Box& box, At a, At b) {
  if (box.empty()) {
    return std::nullopt;
  }
  // Liang-Barsky: the share of the line that is behind each of the four sides.
  double from = 0;
  double to = 1;
  const At d = b - a;
  const auto clip = [&](double along, double room) {
    if (along == 0) {
      return room >= 0;
    }
    const double t = room / along;
    if (along < 0) {
      from = std::max(from, t);
    } else {
      to = std::min(to, t);
    }
    return from <= to;
  };
  const bool meets = clip(-d.x, a.x - box.left) && clip(d.x, box.right - a.x) && clip(-d.y, a.y - box.top) &&
                     clip(d.y, box.bottom - a.y);
  return meets ? std::optional(LinePart{a + d * from, a + d * to}) : std::nullopt;
}

double lengthInside(const Box& box, At a, At b) {
  const std::optional<LinePart> part = clipped(box, a, b);
  return part ? length(part->to - part->from) : 0;
}

double distanceToLine(At p, At a, At b) {
  const At d = b - a;
  const double squared = dot(d, d);
  const double share = squared > 0 ? std::clamp(dot(p - a, d) / squared, 0.0, 1.0) : 0;
  return length(p - (a + d * share));
}

bool linesCross(At a, At b, At c, At d) {
  const auto side = [](At p, At q, At r) { return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x); };
  const double s1 = side(a, b, c);
  const double s2 = side(a, b, d);
  const double s3 = side(c, d, a);
  const double s4 = side(c, d, b);
  return ((s1 <= 0 && s2 >= 0) || (s1 >= 0 && s2 <= 0)) && ((s3 <= 0 && s4 >= 0) || (s3 >= 0 && s4 <= 0)) &&
         !(s1 == 0 && s2 == 0 && s3 == 0 && s4 == 0);
}

bool insidePolygon(const std::vector<At>& polygon, At p) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const At a = polygon[i];
    const At b = polygon[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x) {
      inside = !inside;
    }
  }
  return inside;
}

double signedArea(const std::vector<At>& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const At a = polygon[i];
    const At b = polygon[(i + 1) % polygon.size()];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

std::vector<LinePart> hatch(const std::vector<At>& polygon, double apart, bool rising) {
  std::vector<LinePart> parts;
  if (polygon.size() < 3 || apart <= 0) {
    return parts;
  }
  // Along u the lines lie apart; along v they run.
  const double r = std::numbers::sqrt2 / 2;
  const At v = rising ? At{r, -r} : At{r, r};
  const At u = rising ? At{r, r} : At{-r, r};
  double low = 1e30;
  double high = -1e30;
  for (const At p : polygon) {
    low = std::min(low, dot(p, u));
    high = std::max(high, dot(p, u));
  }
  constexpr double kMostLines = 4000;
  if ((high - low) / apart > kMostLines) {
    return parts;
  }
  for (double k = std::ceil(low / apart); k * apart < high; ++k) {
    const double at = k * apart;
    std::vector<double> cuts;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const At a = polygon[i];
      const At b = polygon[(i + 1) % polygon.size()];
      const double ua = dot(a, u) - at;
      const double ub = dot(b, u) - at;
      if ((ua <= 0) != (ub <= 0)) {
        cuts.push_back(dot(between(a, b, ua / (ua - ub)), v));
      }
    }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t c = 0; c + 1 < cuts.size(); c += 2) {
      parts.push_back({u * at + v * cuts[c], u * at + v * cuts[c + 1]});
    }
  }
  return parts;
}

namespace {

Box boundsOfText(const Text& text) {
  const double width = textWidth(text.text, text.size_mm, text.bold);
  const double left = text.anchor == Anchor::Start ? 0 : text.anchor == Anchor::Middle ? -width / 2 : -width;
  const double up = ascent(text.size_mm);
  const double down = descent(text.size_mm);
  const double c = std::cos(text.turned_rad);
  const double s = std::sin(text.turned_rad);
  Box box;
  for (const At p : {At{left, -up}, At{left + width, -up}, At{left, down}, At{left + width, down}}) {
    box.add(text.at + At{p.x * c + p.y * s, -p.x * s + p.y * c});
  }
  return box;
}

struct Bounds {
  static double half(const std::optional<Stroke>& stroke) { return stroke ? stroke->width_mm / 2 : 0; }

  Box operator()(const Path& path) const {
    Box box;
    for (const At p : path.points) {
      box.add(p);
    }
    return box.empty() ? box : box.grown(half(path.stroke));
  }
  Box operator()(const Circle& circle) const {
    return Box{circle.centre.x, circle.centre.y, circle.centre.x, circle.centre.y}.grown(circle.radius_mm +
                                                                                         half(circle.stroke));
  }
  Box operator()(const Arc& arc) const {
    return Box{arc.centre.x, arc.centre.y, arc.centre.x, arc.centre.y}.grown(arc.radius_mm +
                                                                             arc.stroke.width_mm / 2);
  }
  Box operator()(const Text& text) const { return boundsOfText(text); }
  Box operator()(const Group& group) const {
    Box box;
    for (const Shape& shape : group.shapes) {
      box.add(boundsOf(shape));
    }
    return box;
  }
};

}  // namespace

Box boundsOf(const Shape& shape) {
  return std::visit(Bounds{}, shape.what);
}

}  // namespace kerfdraft::drawing
