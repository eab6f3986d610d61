// Rooms: outlines that do not cross themselves, openings that say what they must.
#include <fmt/format.h>

#include <algorithm>

#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

using base::ErrorCode;
__extension__ typedef __int128 Wide;  // products of coordinates without overflow

/// Twice the signed area of the triangle a, b, c: its sign says on which side of a→b the point c lies.
int side(const PlanPoint& a, const PlanPoint& b, const PlanPoint& c) {
  const Wide cross = (static_cast<Wide>(b.x_um) - a.x_um) * (static_cast<Wide>(c.y_um) - a.y_um) -
                     (static_cast<Wide>(b.y_um) - a.y_um) * (static_cast<Wide>(c.x_um) - a.x_um);
  return cross > 0 ? 1 : (cross < 0 ? -1 : 0);
}

/// c lies within the box around a and b; with side() zero that means on the segment.
bool within(const PlanPoint& a, const PlanPoint& b, const PlanPoint& c) {
  return std::min(a.x_um, b.x_um) <= c.x_um && c.x_um <= std::max(a.x_um, b.x_um) &&
         std::min(a.y_um, b.y_um) <= c.y_um && c.y_um <= std::max(a.y_um, b.y_um);
}

/// Two segments have a point in common.
bool touch(const PlanPoint& a, const PlanPoint& b, const PlanPoint& c, const PlanPoint& d) {
  const int ab_c = side(a, b, c);
  const int ab_d = side(a, b, d);
  const int cd_a = side(c, d, a);
  const int cd_b = side(c, d, b);
  if (ab_c * ab_d < 0 && cd_a * cd_b < 0) {
    return true;
  }
  return (ab_c == 0 && within(a, b, c)) || (ab_d == 0 && within(a, b, d)) || (cd_a == 0 && within(c, d, a)) ||
         (cd_b == 0 && within(c, d, b));
}

/// An outline longer than this is not a shop's, and would cost quadratic time.
constexpr std::size_t kMostOutline = 500;

void checkOutline(Survey& survey, const std::vector<PlanPoint>& outline) {
  Survey::Place place(survey, "outline");
  const std::size_t n = outline.size();
  if (n < 3) {
    survey.problem(ErrorCode::Range, fmt::format("the outline has {} points; it needs at least 3", n));
    return;
  }
  if (n > kMostOutline) {
    survey.problem(ErrorCode::Range,
                   fmt::format("the outline has {} points; the most is {}", n, kMostOutline));
    return;
  }
  for (std::size_t i = 0; i < n; ++i) {
    const PlanPoint& next = outline[(i + 1) % n];
    if (outline[i] == next) {
      survey.problem(ErrorCode::Conflict,
                     fmt::format("points {} and {} of the outline are the same", i + 1, (i + 1) % n + 1));
      return;
    }
    // A spike runs back over the edge before it.
    const PlanPoint& after = outline[(i + 2) % n];
    if (side(outline[i], next, after) == 0 &&
        (within(outline[i], next, after) || within(next, after, outline[i]))) {
      survey.problem(ErrorCode::Conflict,
                     fmt::format("the outline runs back on itself at point {}", (i + 1) % n + 1));
      return;
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = i + 2; k < n; ++k) {
      if (i == 0 && k == n - 1) {
        continue;  // neighbours around the end
      }
      if (touch(outline[i], outline[i + 1], outline[k], outline[(k + 1) % n])) {
        survey.problem(
            ErrorCode::Conflict,
            fmt::format("the outline crosses itself: the edge after point {} meets the edge after point "
                        "{}",
                        i + 1, k + 1));
        return;
      }
    }
  }
}

void checkOpening(Survey& survey, const Room& room, const Opening& opening) {
  survey.expect(opening.leads_to, Thing::Room, "leads-to", true);
  if (opening.leads_to.valid() && opening.leads_to == room.id) {
    Survey::Place place(survey, "leads-to");
    survey.problem(ErrorCode::Conflict, "the opening leads into its own room");
  }
  const bool exhaust = opening.kind == OpeningKind::Exhaust;
  if (exhaust && !opening.flow) {
    survey.problem(ErrorCode::Conflict, "an exhaust needs its \"flow\": what it takes out of the room");
  }
  if (exhaust && opening.area) {
    Survey::Place place(survey, "area");
    survey.problem(ErrorCode::Conflict,
                   fmt::format("an exhaust has a flow, not an area (\"{}\")", opening.area->text()));
  }
  if (!exhaust && opening.flow) {
    Survey::Place place(survey, "flow");
    survey.problem(ErrorCode::Conflict,
                   fmt::format("only an exhaust has a flow (\"{}\"); other openings have an area",
                               opening.flow->text()));
  }
}

}  // namespace

void checkRooms(Survey& survey) {
  const std::vector<Room>& rooms = survey.project().rooms;
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    const Room& room = rooms[i];
    Survey::Place place(survey, "rooms", i, named("room", room.label));
    checkOutline(survey, room.outline);
    for (std::size_t k = 0; k < room.openings.size(); ++k) {
      Survey::Place inner(survey, "openings", k, named("opening", room.openings[k].label));
      checkOpening(survey, room, room.openings[k]);
    }
    for (std::size_t k = 0; k < room.obstacles.size(); ++k) {
      const Obstacle& obstacle = room.obstacles[k];
      Survey::Place inner(survey, "obstacles", k, named("obstacle", obstacle.label));
      checkOutline(survey, obstacle.outline);
      if (!(obstacle.top.si() > obstacle.bottom.si())) {
        Survey::Place top(survey, "top");
        survey.problem(ErrorCode::Conflict, fmt::format("the top \"{}\" is not above the bottom \"{}\"",
                                                        obstacle.top.text(), obstacle.bottom.text()));
      }
    }
  }
}

}  // namespace kerfdraft::shop
