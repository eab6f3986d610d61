// Walls, openings and obstacles: what the ducts must live with.
#include <fmt/format.h>

#include <limits>

#include "drawing/plan_parts.h"
#include "drawing/text_measure.h"
#include "drawing/units_text.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kWall_m = 0.12;      // drawn, not known
constexpr double kOnWall_m = 0.08;    // an opening farther from every wall stands free
constexpr double kTwoLeaves_m = 1.4;  // a wider door has two leaves
constexpr double kOverhead_m = 2.3;   // a still wider one runs overhead

std::vector<At> outlineOf(const PlanDraft& draft, const std::vector<shop::PlanPoint>& points) {
  std::vector<At> out;
  out.reserve(points.size());
  for (const shop::PlanPoint& p : points) {
    out.push_back(draft.frame.at(p));
  }
  return out;
}

/// Unit vector out of the room at an opening: across the wall on which it lies.
At outOf(const std::vector<At>& outline, At middle, At along, double near_mm) {
  double least = std::numeric_limits<double>::infinity();
  At across = leftOf(along);
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const At a = outline[k];
    const At b = outline[(k + 1) % outline.size()];
    const double apart = distanceToLine(middle, a, b);
    if (apart < least) {
      least = apart;
      if (apart <= near_mm) {
        across = leftOf(unit(b - a));
      }
    }
  }
  return insidePolygon(outline, middle + across * 0.5) ? across * -1 : across;
}

struct Hole {
  At from;
  At to;
  At along;
  At out;       // across the wall, away from the room
  double wall;  // its thickness
  double width() const { return length(to - from); }
};

std::vector<Shape> leaf(At hinge, At toward, At into, double width) {
  std::vector<Shape> shapes;
  const double from = std::atan2(-toward.y, toward.x);
  double to = std::atan2(-into.y, into.x);
  while (to - from > std::numbers::pi) {
    to -= 2 * std::numbers::pi;
  }
  while (to - from < -std::numbers::pi) {
    to += 2 * std::numbers::pi;
  }
  shapes.push_back({Arc{hinge, width, std::min(from, to), std::max(from, to), stroke(kHair_mm, kFaint)}});
  shapes.push_back(line(hinge, hinge + into * width, stroke(kMiddle_mm)));
  return shapes;
}

std::vector<Shape> doorSign(const Hole& hole, double width_m) {
  std::vector<Shape> shapes;
  const At into = hole.out * -1;
  const double width = hole.width();
  if (width_m > kOverhead_m) {
    // The door under the ceiling, and its closed leaf in the wall.
    const At depth = into * std::min(width * 0.35, 12.0);
    shapes.push_back(polyline({hole.from, hole.from + depth, hole.to + depth, hole.to},
                              stroke(kHair_mm, kFaint, {1.4, 0.9})));
    shapes.push_back(line(hole.from + hole.out * (hole.wall / 2), hole.to + hole.out * (hole.wall / 2),
                          stroke(kMiddle_mm)));
  } else if (width_m > kTwoLeaves_m) {
    append(shapes, leaf(hole.from, hole.along, into, width / 2));
    append(shapes, leaf(hole.to, hole.along * -1, into, width / 2));
  } else {
    append(shapes, leaf(hole.from, hole.along, into, width));
  }
  return shapes;
}

std::vector<Shape> windowSign(const Hole& hole) {
  std::vector<Shape> shapes;
  for (const double share : {0.0, 0.35, 0.65, 1.0}) {
    const At off = hole.out * (hole.wall * share);
    shapes.push_back(line(hole.from + off, hole.to + off, stroke(kThin_mm)));
  }
  return shapes;
}

std::vector<Shape> grilleSign(const Hole& hole) {
  std::vector<Shape> shapes;
  const int bars = std::max(3, static_cast<int>(hole.width() / 1.2));
  for (int k = 0; k <= bars; ++k) {
    const At at = between(hole.from, hole.to, static_cast<double>(k) / bars);
    shapes.push_back(line(at, at + hole.out * hole.wall, stroke(kThin_mm)));
  }
  shapes.push_back(line(hole.from, hole.to, stroke(kThin_mm)));
  return shapes;
}

/// Air that another fan takes out: an arrow through the wall.
std::vector<Shape> exhaustSign(const Hole& hole) {
  const At middle = between(hole.from, hole.to, 0.5);
  const At tip = middle + hole.out * (hole.wall + 4.5);
  std::vector<Shape> shapes;
  shapes.push_back(line(middle - hole.out * 1.5, tip, stroke(kMiddle_mm)));
  shapes.push_back(
      polygon({tip, tip - hole.out * 2 + hole.along * 0.9, tip - hole.out * 2 - hole.along * 0.9}, kInk));
  return shapes;
}

/// A crack: two short strokes that do not meet.
std::vector<Shape> crackSign(const Hole& hole) {
  const At middle = between(hole.from, hole.to, 0.5) + hole.out * (hole.wall / 2);
  std::vector<Shape> shapes;
  for (const double side : {-1.0, 1.0}) {
    const At at = middle + hole.along * (0.5 * side);
    shapes.push_back(line(at - hole.out * (hole.wall / 2),
                          at + hole.out * (hole.wall / 2) + hole.along * (0.4 * side), stroke(kHair_mm)));
  }
  return shapes;
}

bool isOpen(const PlanDraft& draft, const shop::Opening& opening) {
  const auto found = draft.overlay.openings_open.find(opening.id);
  return found != draft.overlay.openings_open.end() ? found->second : opening.usually_open;
}

void drawOpening(PlanDraft& draft, const std::vector<At>& outline, const shop::Opening& opening) {
  Hole hole;
  hole.from = draft.frame.at(opening.from);
  hole.to = draft.frame.at(opening.to);
  hole.along = unit(hole.to - hole.from);
  hole.wall = kWall_m * draft.frame.mm_per_m;
  const At middle = between(hole.from, hole.to, 0.5);
  hole.out = outOf(outline, middle, hole.along, kOnWall_m * draft.frame.mm_per_m);
  Group group{"opening", opening.id.text(), opening.label, {}};
  const bool cut = opening.kind == shop::OpeningKind::Door || opening.kind == shop::OpeningKind::Window ||
                   opening.kind == shop::OpeningKind::Grille;
  if (cut && hole.width() > 0) {
    const At off = hole.out * (hole.wall + kThin_mm);
    const At in = hole.out * -kThin_mm;
    group.shapes.push_back(polygon({hole.from + in, hole.to + in, hole.to + off, hole.from + off}, kWhite));
    // The reveals.
    for (const At end : {hole.from, hole.to}) {
      group.shapes.push_back(line(end, end + hole.out * hole.wall, stroke(kMiddle_mm)));
    }
  }
  std::string words = opening.label;
  switch (opening.kind) {
    case shop::OpeningKind::Door:
      append(group.shapes, doorSign(hole, hole.width() / draft.frame.mm_per_m));
      words += isOpen(draft, opening) ? " open" : "";
      break;
    case shop::OpeningKind::Window:
      append(group.shapes, windowSign(hole));
      words += isOpen(draft, opening) ? " open" : "";
      break;
    case shop::OpeningKind::Grille:
      append(group.shapes, grilleSign(hole));
      break;
    case shop::OpeningKind::Exhaust:
      append(group.shapes, exhaustSign(hole));
      if (opening.flow) {
        words += ", takes " + shortText(base::Kind::VolumeFlow, opening.flow->si(), draft.options.units);
      }
      break;
    case shop::OpeningKind::Crack:
      append(group.shapes, crackSign(hole));
      break;
  }
  for (const Shape& shape : group.shapes) {
    draft.keep_clear.addBox(boundsOf(shape), 0.12);
  }
  draft.floor.push_back({std::move(group)});
  if (!words.empty()) {
    Label label{"opening-label", opening.id.text(), {{words, false, true}}, kSmall_mm, {}};
    label.anchors = {middle + hole.out * hole.wall, middle};
    label.clear_mm = 1.0;
    label.rank = kRankOpening;
    label.may_be_left_out = opening.kind == shop::OpeningKind::Crack;
    label.reach_mm = 25;
    draft.labels.push_back(std::move(label));
  }
}

void drawObstacle(PlanDraft& draft, const shop::Obstacle& obstacle) {
  const std::vector<At> outline = outlineOf(draft, obstacle.outline);
  Group group{
      "obstacle",
      obstacle.id.text(),
      fmt::format("{}, from {} to {}", obstacle.label, lengthText(obstacle.bottom.si(), draft.options.units),
                  lengthText(obstacle.top.si(), draft.options.units)),
      {}};
  group.shapes.push_back(polygon(outline, kWhite));
  for (const LinePart& part : hatch(outline, 1.6)) {
    group.shapes.push_back(line(part.from, part.to, stroke(kHair_mm, kPale)));
  }
  group.shapes.push_back(polygon(outline, std::nullopt, stroke(kThin_mm, kFaint)));
  Box box;
  for (const At p : outline) {
    box.add(p);
  }
  draft.keep_clear.addBox(box, 0.12);
  draft.signs.insert(Sign::Obstacle);
  draft.floor.push_back({std::move(group)});
  Label label{
      "obstacle-label", obstacle.id.text(), {{obstacle.label, false, true}}, kSmall_mm, {box.centre()}};
  label.inside = box.grown(-0.4);
  fitInside(label);
  label.rank = kRankOpening;
  label.reach_mm = 30;
  draft.labels.push_back(std::move(label));
}

}  // namespace

void drawRooms(PlanDraft& draft) {
  const double wall = kWall_m * draft.frame.mm_per_m;
  // All walls first, then all floors: rooms side by side share the line between them.
  for (const shop::Room& room : draft.project.rooms) {
    draft.floor.push_back(
        polygon(outlineOf(draft, room.outline), std::nullopt, stroke(2 * wall + 2 * kMiddle_mm)));
  }
  for (const shop::Room& room : draft.project.rooms) {
    draft.floor.push_back(polygon(outlineOf(draft, room.outline), std::nullopt, stroke(2 * wall, kWall)));
  }
  for (const shop::Room& room : draft.project.rooms) {
    const std::vector<At> outline = outlineOf(draft, room.outline);
    Group group{"room",
                room.id.text(),
                fmt::format("{}, {} high", room.label, lengthText(room.height.si(), draft.options.units)),
                {}};
    group.shapes.push_back(polygon(outline, kWhite, stroke(kMiddle_mm)));
    draft.floor.push_back({std::move(group)});
    for (std::size_t k = 0; k < outline.size(); ++k) {
      draft.keep_clear.addLine(outline[k], outline[(k + 1) % outline.size()], wall, 0.9);
    }
    Box box;
    for (const At p : outline) {
      box.add(p);
    }
    Label label{"room-label",
                room.id.text(),
                {{room.label, true, false},
                 {lengthText(room.height.si(), draft.options.units) + " high", false, true}},
                kText_mm,
                {}};
    if (room.natural_draft_appliance) {
      label.lines.push_back({"appliance with a natural draft in this room", false, false});
    }
    label.inside = box.grown(-2.5);
    label.anchors = {box.centre()};
    label.rank = kRankOpening;
    draft.labels.push_back(std::move(label));
  }
  for (const shop::Room& room : draft.project.rooms) {
    const std::vector<At> outline = outlineOf(draft, room.outline);
    for (const shop::Obstacle& obstacle : room.obstacles) {
      drawObstacle(draft, obstacle);
    }
    for (const shop::Opening& opening : room.openings) {
      drawOpening(draft, outline, opening);
    }
  }
}

}  // namespace kerfdraft::drawing
