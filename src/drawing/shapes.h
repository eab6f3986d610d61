// Short words for building shapes.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "drawing/display_list.h"
#include "drawing/geometry.h"
#include "drawing/style.h"

namespace kerfdraft::drawing {

inline Stroke stroke(double width_mm, Colour colour = kInk, std::vector<double> dashes_mm = {}) {
  return {colour, width_mm, std::move(dashes_mm), Ends::Butt};
}
inline Stroke roundStroke(double width_mm, Colour colour = kInk, std::vector<double> dashes_mm = {}) {
  return {colour, width_mm, std::move(dashes_mm), Ends::Round};
}

inline Shape line(At a, At b, Stroke with) {
  return {Path{{a, b}, false, std::move(with), {}}};
}
inline Shape polyline(std::vector<At> points, Stroke with) {
  return {Path{std::move(points), false, std::move(with), {}}};
}
inline Shape polygon(std::vector<At> points, std::optional<Colour> fill,
                     std::optional<Stroke> with = std::nullopt) {
  return {Path{std::move(points), true, std::move(with), fill}};
}
inline std::vector<At> cornersOf(const Box& b) {
  return {{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}};
}
inline Shape rectangle(const Box& box, std::optional<Colour> fill,
                       std::optional<Stroke> with = std::nullopt) {
  return polygon(cornersOf(box), fill, std::move(with));
}
inline Shape circle(At centre, double radius_mm, std::optional<Colour> fill,
                    std::optional<Stroke> with = std::nullopt) {
  return {Circle{centre, radius_mm, std::move(with), fill}};
}

struct TextLook {
  double size_mm = kText_mm;
  Anchor anchor = Anchor::Start;
  bool bold = false;
  Colour colour = kInk;
  bool halo = false;
  double turned_rad = 0;
};

inline Shape text(At at, std::string words, const TextLook& look = {}) {
  return {Text{at, std::move(words), look.size_mm, look.anchor, look.bold, look.colour, look.turned_rad,
               look.halo ? std::optional(kWhite) : std::nullopt}};
}

/// Appends shapes to shapes.
inline void append(std::vector<Shape>& to, std::vector<Shape> more) {
  for (Shape& shape : more) {
    to.push_back(std::move(shape));
  }
}

}  // namespace kerfdraft::drawing
