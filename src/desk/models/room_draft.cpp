// Outlines are handed on as they were drawn: whether they cross themselves is decided where projects are
// checked, so that there is one rule.
#include "desk/models/room_draft.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/trim.h"
#include "desk/models/duct_draft.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Result;
using base::trimmed;
using base::UnitSystem;
using shop::OpeningKind;
using shop::PlanPoint;

constexpr double kLongest_m = 200;

Result<double> lengthIn(std::string_view text) {
  const Result<double> length = parseLength(text);
  if (!length) {
    return fail(length.error().code,
                fmt::format("{}. Type a length like 3.2 m or 10 ft 6, a size like 20 ft x 24 ft, or height "
                            "and a length",
                            length.error().message));
  }
  if (!(*length > 0) || *length > kLongest_m) {
    return fail(ErrorCode::Range, fmt::format("{} is not between 0 and {} m", trimmed(text), kLongest_m));
  }
  return *length;
}

/// A length as typed where it has one unit, else in inches.
std::string oneUnit(std::string_view text, double length_m) {
  return base::parseQuantity(base::Kind::Length, text) ? std::string(text)
                                                       : fmt::format("{:.4g} in", length_m / 0.0254);
}

/// The unit that a size ends with, for a width without one: "6 x 8 m".
std::string_view unitAtEnd(std::string_view text) {
  const std::size_t digit = text.find_last_of("0123456789.");
  return digit == std::string_view::npos ? std::string_view() : trimmed(text.substr(digit + 1));
}

template <class List>
std::string freeName(const List& taken, std::string_view prefix) {
  for (std::size_t n = 1;; ++n) {
    std::string label = fmt::format("{}{}", prefix, n);
    if (!taken.contains(label)) {
      return label;
    }
  }
}

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

}  // namespace

Result<OutlineTyped> parseOutlineTyped(std::string_view raw) {
  std::string_view text = trimmed(raw);
  OutlineTyped typed;
  for (const auto& [word, what] :
       {std::pair<std::string_view, OutlineTyped::What>{"height ", OutlineTyped::What::Height},
        {"bottom ", OutlineTyped::What::Bottom}}) {
    if (!text.starts_with(word)) {
      continue;
    }
    typed.what = what;
    text = trimmed(text.substr(word.size()));
    const Result<double> length = parseLength(text);
    if (!length) {
      return Failure(length.error());
    }
    const bool may_be_zero = what == OutlineTyped::What::Bottom;
    if (*length < 0 || (*length == 0 && !may_be_zero) || *length > kLongest_m) {
      return fail(ErrorCode::Range, fmt::format("{}{} is not between 0 and {} m", word, text, kLongest_m));
    }
    typed.a_m = *length;
    typed.text = oneUnit(text, *length);
    return typed;
  }
  const std::size_t by = text.find_first_of("xX");
  if (by == std::string_view::npos) {
    const Result<double> length = lengthIn(text);
    if (!length) {
      return Failure(length.error());
    }
    typed.a_m = *length;
    return typed;
  }
  std::string width(trimmed(text.substr(0, by)));
  const std::string_view depth = trimmed(text.substr(by + 1));
  if (unitAtEnd(width).empty()) {
    width += fmt::format(" {}", unitAtEnd(depth));
  }
  const Result<double> a = lengthIn(width);
  const Result<double> b = lengthIn(depth);
  if (!a || !b) {
    return Failure(!a ? a.error() : b.error());
  }
  typed.what = OutlineTyped::What::Size;
  typed.a_m = *a;
  typed.b_m = *b;
  return typed;
}

std::vector<PlanPoint> rectangle(const PlanPoint& a, const PlanPoint& b) {
  const auto [left, right] = std::minmax(a.x_um, b.x_um);
  const auto [low, high] = std::minmax(a.y_um, b.y_um);
  return {{left, low}, {right, low}, {right, high}, {left, high}};
}

const shop::Room* roomAt(const shop::Project& project, const PlanPoint& at) {
  for (const shop::Room& room : project.rooms) {
    bool inside = false;
    const std::size_t n = room.outline.size();
    for (std::size_t i = 0, k = n - 1; i < n; k = i++) {
      const double ax = metres(room.outline[i].x_um);
      const double ay = metres(room.outline[i].y_um);
      const double bx = metres(room.outline[k].x_um);
      const double by = metres(room.outline[k].y_um);
      const double x = metres(at.x_um);
      const double y = metres(at.y_um);
      const double length = std::hypot(bx - ax, by - ay);
      const double along = length > 0 ? ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length : 0;
      const double beside = length > 0 ? std::abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length : 1;
      constexpr double kOnEdge_m = 1e-4;
      if (beside < kOnEdge_m && along > -kOnEdge_m && along < length + kOnEdge_m) {
        return &room;
      }
      if ((ay > y) != (by > y) && x < (bx - ax) * (y - ay) / (by - ay) + ax) {
        inside = !inside;
      }
    }
    if (inside) {
      return &room;
    }
  }
  return nullptr;
}

Given<base::Length> usualRoomHeight(UnitSystem units) {
  return *Given<base::Length>::parse(units == UnitSystem::Us ? "8 ft" : "2.4 m");
}

Result<Change> newRoom(const shop::Project& project, std::vector<PlanPoint> outline,
                       const Given<base::Length>& height, base::IdSource& ids) {
  if (outline.size() < 3) {
    return fail(ErrorCode::Range, "a room needs at least three corners; click them one after the other");
  }
  std::set<std::string> taken;
  for (const shop::Room& room : project.rooms) {
    taken.insert(room.label);
  }
  shop::Room room;
  room.id = ids.next();
  room.label = project.rooms.empty() ? "Shop" : freeName(taken, "Room ");
  room.outline = std::move(outline);
  room.height = height;
  Change change;
  change.words = "Room " + room.label;
  change.edits.emplace_back(shop::PutRoom{room});
  shop::Project with = project;
  with.rooms = {room};
  const auto lies_in = [&](const shop::Point& at) { return roomAt(with, {at.x_um, at.y_um}) != nullptr; };
  for (const shop::Machine& machine : project.machines) {
    if (!machine.room.valid() && lies_in(machine.at)) {
      shop::Machine moved = machine;
      moved.room = room.id;
      change.edits.emplace_back(shop::PutMachine{moved});
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    if (!collector.room.valid() && lies_in(collector.at)) {
      shop::Collector moved = collector;
      moved.room = room.id;
      change.edits.emplace_back(shop::PutCollector{moved});
    }
  }
  return change;
}

Result<Change> newObstacle(const shop::Project& project, std::vector<PlanPoint> outline,
                           const Given<base::Length>& bottom, const Given<base::Length>& top,
                           base::IdSource& ids) {
  if (outline.size() < 3) {
    return fail(ErrorCode::Range, "an obstacle needs at least three corners, or two opposite ones");
  }
  if (!(top.si() > bottom.si())) {
    return fail(ErrorCode::Range,
                fmt::format("the top, {}, must be above the bottom, {}", top.text(), bottom.text()));
  }
  const shop::Room* room = roomAt(project, outline.front());
  if (room == nullptr) {
    return fail(ErrorCode::Reference, "an obstacle stands in a room; draw the room first");
  }
  std::set<std::string> taken;
  for (const shop::Room& each : project.rooms) {
    for (const shop::Obstacle& obstacle : each.obstacles) {
      taken.insert(obstacle.label);
    }
  }
  shop::Room with = *room;
  with.obstacles.push_back({ids.next(), freeName(taken, "Obstacle "), std::move(outline), bottom, top});
  return Change{"Put in " + with.obstacles.back().label, {shop::PutRoom{with}}};
}

// ------------------------------------------------------------------------------------------------ openings

std::string_view wordOf(OpeningKind kind) {
  switch (kind) {
    case OpeningKind::Door:
      return "door";
    case OpeningKind::Window:
      return "window";
    case OpeningKind::Grille:
      return "grille";
    case OpeningKind::Crack:
      return "crack";
    case OpeningKind::Exhaust:
      return "exhaust fan";
  }
  return "";
}

OpeningHabits usualOpening(UnitSystem units) {
  OpeningHabits habits;
  habits.width = *Given<base::Length>::parse(units == UnitSystem::Us ? "3 ft" : "0.9 m");
  return habits;
}

Result<OpeningHabits> openingTyped(OpeningHabits habits, std::string_view raw) {
  const std::string_view text = trimmed(raw);
  for (const OpeningKind kind : {OpeningKind::Door, OpeningKind::Window, OpeningKind::Grille,
                                 OpeningKind::Crack, OpeningKind::Exhaust}) {
    if (text == wordOf(kind) || (kind == OpeningKind::Exhaust && text == "exhaust")) {
      habits.kind = kind;
      return habits;
    }
  }
  if (text == "open" || text == "shut") {
    habits.usually_open = text == "open";
    return habits;
  }
  if (text.starts_with("area ")) {
    auto area = Given<base::Area>::parse(trimmed(text.substr(5)));
    if (!area) {
      return Failure(area.error());
    }
    if (!(area->si() > 0)) {
      return fail(ErrorCode::Range, fmt::format("a free area of {} is not above zero", area->text()));
    }
    habits.area = *area;
    return habits;
  }
  if (text.starts_with("flow ")) {
    auto flow = Given<base::VolumeFlow>::parse(trimmed(text.substr(5)));
    if (!flow) {
      return Failure(flow.error());
    }
    if (!(flow->si() > 0)) {
      return fail(ErrorCode::Range, fmt::format("a flow of {} is not above zero", flow->text()));
    }
    habits.flow = *flow;
    return habits;
  }
  const std::string_view width = text.starts_with("wide ") ? trimmed(text.substr(5)) : text;
  const Result<double> length = parseLength(width);
  if (!length) {
    return fail(length.error().code,
                fmt::format("{}. Type a width like 0.9 m, or door, window, grille, crack, exhaust, open, "
                            "shut, area and an area, flow and a flow",
                            length.error().message));
  }
  if (!(*length > 0) || *length > kLongest_m) {
    return fail(ErrorCode::Range, fmt::format("a width of {} is not between 0 and {} m", width, kLongest_m));
  }
  habits.width = *Given<base::Length>::parse(oneUnit(width, *length));
  return habits;
}

std::optional<OnWall> onWall(const shop::Project& project, const PlanPoint& at, double width_m,
                             double reach_m) {
  std::optional<OnWall> best;
  const double x = metres(at.x_um);
  const double y = metres(at.y_um);
  for (const shop::Room& room : project.rooms) {
    for (std::size_t i = 0; i < room.outline.size(); ++i) {
      const PlanPoint& a = room.outline[i];
      const PlanPoint& b = room.outline[(i + 1) % room.outline.size()];
      const double dx = metres(b.x_um - a.x_um);
      const double dy = metres(b.y_um - a.y_um);
      const double length = std::hypot(dx, dy);
      constexpr double kHair_m = 1e-6;
      if (length + kHair_m < width_m || length <= 0) {
        continue;
      }
      const double along = ((x - metres(a.x_um)) * dx + (y - metres(a.y_um)) * dy) / length;
      const double middle = std::clamp(along, width_m / 2, std::max(width_m / 2, length - width_m / 2));
      const double beside = std::hypot(x - metres(a.x_um) - dx / length * std::clamp(along, 0.0, length),
                                       y - metres(a.y_um) - dy / length * std::clamp(along, 0.0, length));
      if (beside > reach_m || (best && beside >= best->beside_m)) {
        // A second room with the same wall is what lies beyond it.
        if (best && beside <= reach_m && room.id != best->room) {
          best->beyond = room.id;
        }
        continue;
      }
      const auto place = [&](double m) {
        return PlanPoint{a.x_um + std::llround(m * dx / length * 1e6),
                         a.y_um + std::llround(m * dy / length * 1e6)};
      };
      const base::Id beyond = best && best->room != room.id ? best->room : base::Id();
      best =
          OnWall{room.id, place(middle - width_m / 2), place(std::min(middle + width_m / 2, length)), beside,
                 beyond,  middle - width_m / 2};
    }
  }
  return best;
}

Result<Change> newOpening(const shop::Project& project, const PlanPoint& at, const OpeningHabits& habits,
                          double reach_m, base::IdSource& ids) {
  const auto wall = onWall(project, at, habits.width.si(), reach_m);
  if (!wall) {
    const bool any = onWall(project, at, 0, reach_m).has_value();
    return fail(ErrorCode::Range, any ? fmt::format("no wall here is {} long", habits.width.text())
                                      : std::string("no wall lies here; click on one"));
  }
  const std::string word(wordOf(habits.kind));
  if ((habits.kind == OpeningKind::Grille || habits.kind == OpeningKind::Crack) && !habits.area) {
    return fail(ErrorCode::Conflict,
                fmt::format("a {} needs its free area: type area and a figure, like area 0.05 m2", word));
  }
  if (habits.kind == OpeningKind::Exhaust && !habits.flow) {
    return fail(ErrorCode::Conflict,
                "an exhaust fan needs the flow that it takes out of the room: type flow and a figure");
  }
  const auto room = std::find_if(project.rooms.begin(), project.rooms.end(),
                                 [&](const shop::Room& each) { return each.id == wall->room; });
  std::set<std::string> taken;
  for (const shop::Room& each : project.rooms) {
    for (const shop::Opening& opening : each.openings) {
      taken.insert(opening.label);
    }
  }
  constexpr std::array<std::string_view, 5> kPrefixes{"DR", "W", "GR", "CK", "EX"};
  shop::Opening opening;
  opening.id = ids.next();
  opening.label = freeName(taken, kPrefixes.at(static_cast<std::size_t>(habits.kind)));
  opening.kind = habits.kind;
  opening.from = wall->from;
  opening.to = wall->to;
  if (habits.kind == OpeningKind::Exhaust) {
    opening.flow = habits.flow;
  } else {
    opening.area =
        habits.kind == OpeningKind::Grille || habits.kind == OpeningKind::Crack ? habits.area : std::nullopt;
    opening.leads_to = wall->beyond;
    const bool shuts = habits.kind == OpeningKind::Door || habits.kind == OpeningKind::Window;
    opening.usually_open = shuts && habits.usually_open;
  }
  shop::Room with = *room;
  with.openings.push_back(std::move(opening));
  return Change{fmt::format("Put in {} {}", word, with.openings.back().label), {shop::PutRoom{with}}};
}

}  // namespace kerfdraft::desk
