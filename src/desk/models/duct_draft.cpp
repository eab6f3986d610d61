// From a sketch to a duct with the air: order the ends, lay the path in space, meet the main, then dress it
// with hose, reducers and a gate.
#include "desk/models/duct_draft.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "desk/models/gate_states.h"
#include "desk/models/places.h"
#include "desk/models/reshape.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Given;
using base::Id;
using base::Length;
using base::Result;
using shop::Point;

// All ours: lengths that a fitting wants round a branch entry, and what is too short to be drawn.
constexpr double kTakeoff_bores = 3;  ///< from the bend before an entry to the main, across it
constexpr double kLeastTakeoff_m = 0.2;
constexpr double kEndRoom_bores = 1;  ///< between an entry and the end of the main's leg
constexpr double kShortest_m = 0.01;
constexpr double kGateFromMain_bores = 2;
constexpr double kGateFromPort_m = 0.3;
constexpr double kUnderCeiling_m = 0.3;

struct Vec {
  double x = 0;
  double y = 0;
  double z = 0;
};
Vec operator+(Vec a, Vec b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
Vec operator-(Vec a, Vec b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
Vec operator*(Vec a, double f) {
  return {a.x * f, a.y * f, a.z * f};
}
double dot(Vec a, Vec b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
double length(Vec a) {
  return std::sqrt(dot(a, a));
}

Vec metres(const Point& p) {
  return {static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6,
          static_cast<double>(p.z_um) * 1e-6};
}
Point point(Vec v) {
  return {std::llround(v.x * 1e6), std::llround(v.y * 1e6), std::llround(v.z * 1e6)};
}
Point point(const shop::PlanPoint& p, std::int64_t z_um) {
  return {p.x_um, p.y_um, z_um};
}

Given<Length> lengthOf(double m) {
  return *Given<Length>::parse(fmt::format("{:.1f} mm", m * 1e3));
}

enum class Role { Free, Gives, Takes };

/// A stretch of the path: where it begins and what it is.
struct Stretch {
  Point at;
  Given<Length> bore;
  bool hose = false;
};

class Planner {
 public:
  Planner(const shop::Project& project, const DuctSketch& sketch, base::IdSource& ids)
      : project_(project), sketch_(sketch), habits_(sketch.habits), ids_(ids) {}

  Result<DuctPlan> run() {
    if (sketch_.points.size() < 2) {
      return base::fail(ErrorCode::Range, "a duct needs two places at least: where it begins and ends");
    }
    if (auto ordered = order(); !ordered) {
      return base::Failure(ordered.error());
    }
    if (auto laid = lay(); !laid) {
      return base::Failure(laid.error());
    }
    if (path_.size() < 2) {
      return base::fail(ErrorCode::Range, "the duct has no length; click a place further on");
    }
    if (auto hung = tail(); !hung) {
      return base::Failure(hung.error());
    }
    return dress();
  }

 private:
  Role roleOf(const SketchPoint& point) const {
    const Snapped& place = point.place;
    if (point.outlet) {
      return Role::Gives;
    }
    if (point.loose) {
      return point.loose->mouth ? Role::Gives : Role::Takes;
    }
    switch (place.to) {
      case SnapTo::Port:
        return Role::Gives;
      case SnapTo::Inlet:
      case SnapTo::Corner:
      case SnapTo::Duct:
        return Role::Takes;
      case SnapTo::OpenEnd:
        return place.start ? Role::Takes : Role::Gives;
      default:
        return Role::Free;
    }
  }

  /// Puts the places in the order of the air.
  Result<void> order() {
    points_ = sketch_.points;
    const Role first = roleOf(points_.front());
    const Role last = roleOf(points_.back());
    for (const SketchPoint* end : {&points_.front(), &points_.back()}) {
      if (auto open = end->outlet ? outletIsFree(end->place.collector) : isFree(project_, end->place);
          !open) {
        return open;
      }
    }
    if (first == Role::Gives && last == Role::Gives) {
      return base::fail(ErrorCode::Conflict,
                        "both ends give air; a duct leads from a port to an inlet, or to another duct");
    }
    if (first == Role::Takes && last == Role::Takes) {
      return base::fail(ErrorCode::Conflict,
                        "both ends take air; a duct begins at a port, at an open end, or freely");
    }
    for (const SketchPoint& each : points_) {
      bores_.push_back(each.bore.si() > 0 ? each.bore : habits_.bore);
      heights_.push_back(each.z_um);
    }
    bores_.pop_back();  // nothing leads on from the last place
    heights_.pop_back();
    reversed_ = first == Role::Takes || last == Role::Gives;
    if (reversed_) {
      std::reverse(points_.begin(), points_.end());
      std::reverse(bores_.begin(), bores_.end());
      std::reverse(heights_.begin(), heights_.end());
    }
    return {};
  }

  Result<void> outletIsFree(Id collector) const {
    for (const shop::Duct& duct : project_.ducts) {
      const auto* from = std::get_if<shop::CollectorOutlet>(&duct.from);
      if (from != nullptr && from->collector == collector) {
        return base::fail(ErrorCode::Conflict,
                          fmt::format("this outlet has duct {} already; draw on from its end", duct.label));
      }
    }
    return {};
  }

  /// The last point of the path stands on its leg's height; a stretch of no length is left out.
  void push(const Point& at, const Given<Length>& bore) {
    if (!path_.empty() && shop::distance(path_.back().at, at) < 1e-6) {
      path_.back().bore = bore;
      return;
    }
    if (!path_.empty()) {
      path_.back().bore = bore;
    }
    path_.push_back({at, bore, false});
  }

  bool takesHeight(const Snapped& place) const {
    return place.z_um && place.to != SnapTo::Duct && place.to != SnapTo::Line && place.to != SnapTo::Grid;
  }

  Result<void> lay() {
    const Snapped& start = points_.front().place;
    std::int64_t z = heights_.front();
    push(point(start.at, takesHeight(start) ? *start.z_um : z), bores_.front());
    for (std::size_t k = 0; k + 1 < points_.size(); ++k) {
      const Snapped& to = points_[k + 1].place;
      z = heights_[k];
      // A rise or drop where the run's height changes: straight from the port, before the leg.
      push(point(points_[k].place.at, z), bores_[k]);
      const bool last = k + 2 == points_.size();
      if (last && (to.to == SnapTo::Duct || to.to == SnapTo::Corner)) {
        return meet(to, bores_[k]);
      }
      push(point(to.at, z), bores_[k]);
      if (last && takesHeight(to)) {
        push(point(to.at, *to.z_um), bores_[k]);
      }
    }
    return {};
  }

  /// The branch entry: into the leg of the main, or at the corner that is there.
  Result<void> meet(const Snapped& to, const Given<Length>& bore) {
    const shop::Duct* main = ductOf(project_, to.duct);
    const auto corner = main == nullptr ? std::nullopt : cornerIndex(*main, to.corner);
    if (!corner) {
      return base::fail(ErrorCode::Reference, "the duct that this one should meet is gone");
    }
    std::size_t leg = *corner;
    const bool at_corner = to.to == SnapTo::Corner && leg > 0 && leg + 1 < main->corners.size();
    if (leg + 1 >= main->corners.size()) {
      leg = main->corners.size() - 2;
    }
    const Vec a = metres(main->corners[leg].at);
    const Vec b = metres(main->corners[leg + 1].at);
    const double leg_m = length(b - a);
    const Vec u = (b - a) * (1 / leg_m);
    const bool upright = std::hypot(b.x - a.x, b.y - a.y) < 0.005;
    // A run at another height first comes to the height of a level main, before it turns to it.
    if (!upright && std::abs(u.z) < 0.02) {
      Point here = path_.back().at;
      here.z_um = main->corners[leg].at.z_um;
      push(here, bore);
    }
    const Vec q = metres(path_.back().at);
    Vec p;
    if (at_corner) {
      p = a;
    } else if (upright) {
      p = a + u * std::clamp(dot(q - a, u), 0.0, leg_m);
    } else {
      const Vec clicked = metres(point(to.at, 0));
      const double plan2 = u.x * u.x + u.y * u.y;
      p = a + u * std::clamp(((clicked.x - a.x) * u.x + (clicked.y - a.y) * u.y) / plan2, 0.0, leg_m);
    }
    const double angle = habits_.entry.si();
    const double bore_m = bore.si();
    const double main_bore_m = boreOfLeg(*main, leg);
    const double room_m = std::min(kEndRoom_bores * std::max(main_bore_m, bore_m), leg_m / 4);
    // How far q lies beside the main, and on which side.
    const Vec beside = (q - a) - u * dot(q - a, u);
    const double off_m = length(beside);
    if (off_m < kShortest_m) {
      return base::fail(ErrorCode::Conflict,
                        fmt::format("the branch would run inside duct {}; begin beside it", main->label));
    }
    const Vec n = beside * (-1 / off_m);  // from q to the main
    const double q_along = dot(q - a, u);
    const double p_along = dot(p - a, u);
    const double asked_back = angle < std::numbers::pi / 2 - 1e-6 ? 1 / std::tan(angle) : 0.0;
    const double drawn = std::atan2(off_m, p_along - q_along);  // angle at which the last click comes in
    double entry_along = 0;
    std::optional<Vec> bend;
    if (at_corner) {
      entry_along = 0;
      const double takeoff_m = std::min(std::max(kTakeoff_bores * bore_m, kLeastTakeoff_m), off_m);
      const Vec k = a - u * (takeoff_m * asked_back) - n * takeoff_m;
      if (std::abs(drawn - angle) > 0.02 && length(k - q) > kShortest_m) {
        bend = k;
      }
    } else if (drawn <= angle + 0.02 && drawn >= angle / 2) {
      entry_along = p_along;  // it comes in with the air already
    } else {
      const double takeoff_m = std::max(kTakeoff_bores * bore_m, kLeastTakeoff_m);
      const bool straight = off_m <= takeoff_m * 1.05;
      const double across_m = straight ? off_m : takeoff_m;
      const double back_m = across_m * asked_back;
      // Where the last leg as drawn is so near to the main: there it bends into the direction of the air.
      const double bend_along = straight ? q_along : q_along + (p_along - q_along) * (1 - across_m / off_m);
      entry_along = bend_along + back_m;
      const double last_m = leg_m - room_m;
      if (entry_along > last_m || entry_along < room_m) {
        entry_along = std::clamp(entry_along, room_m, last_m);
        if (entry_along - back_m < -leg_m) {
          return noRoom(*main);
        }
        notes_.push_back("the entry was moved along the main, to stay on its straight leg");
      }
      const Vec k = a + u * (entry_along - back_m) - n * across_m;
      if (length(k - q) > kShortest_m) {
        bend = k;
      }
    }
    if (!at_corner && (entry_along < kShortest_m || entry_along > leg_m - kShortest_m)) {
      return noRoom(*main);
    }
    if (bend) {
      push(point(*bend), bore);
    }
    const Point entry = at_corner ? main->corners[leg].at : point(a + u * entry_along);
    const Vec came = metres(entry) - metres(path_.back().at);
    const double real = std::atan2(length(came - u * dot(came, u)), dot(came, u));
    constexpr double kSteep = 60 * std::numbers::pi / 180;
    if (real > std::max(angle, kSteep) + 0.02) {
      notes_.push_back(fmt::format("it enters {} at {:.0f}°, against or across the air", main->label,
                                   real * 180 / std::numbers::pi));
    }
    push(entry, bore);
    if (main_bore_m > 0 && bore_m > main_bore_m * 1.001) {
      notes_.push_back(fmt::format("the branch is wider than {} is there", main->label));
    }
    end_ = shop::OnCorner{main->id, at_corner ? main->corners[leg].id : ids_.next(), false};
    if (!at_corner) {
      before_.emplace_back(
          shop::InsertCorner{main->id, main->corners[leg].id, std::get<shop::OnCorner>(*end_).corner, entry});
    }
    return {};
  }

  static Result<void> noRoom(const shop::Duct& main) {
    return base::fail(
        ErrorCode::Conflict,
        fmt::format("there is no room for an entry here on duct {}; click further from its end", main.label));
  }

  /// Hose from the port on, for its length.
  Result<void> tail() {
    if (!habits_.tail || points_.front().place.to != SnapTo::Port) {
      return {};
    }
    const shop::Port* port = portOf(project_, points_.front().place.port);
    double left_m = habits_.tail->length.si();
    double whole_m = 0;
    for (std::size_t k = 0; k + 1 < path_.size(); ++k) {
      whole_m += shop::distance(path_[k].at, path_[k + 1].at);
    }
    if (left_m >= whole_m - kShortest_m) {
      return base::fail(ErrorCode::Range,
                        fmt::format("the hose of {} is as long as the whole duct ({}); make it shorter",
                                    habits_.tail->length.text(), lengthOf(whole_m).text()));
    }
    const Given<Length> bore = port != nullptr && port->bore.si() > 0 ? port->bore : path_.front().bore;
    for (std::size_t k = 0; k + 1 < path_.size(); ++k) {
      const double leg_m = shop::distance(path_[k].at, path_[k + 1].at);
      const Given<Length> rigid = path_[k].bore;
      path_[k].hose = true;
      path_[k].bore = bore;
      if (left_m < leg_m - kShortest_m) {
        const Vec a = metres(path_[k].at);
        const Vec b = metres(path_[k + 1].at);
        path_.insert(path_.begin() + static_cast<std::ptrdiff_t>(k) + 1,
                     {point(a + (b - a) * (left_m / leg_m)), rigid, false});
        return {};
      }
      left_m -= leg_m;
      if (left_m < kShortest_m) {
        return {};
      }
    }
    return {};
  }

  shop::Leg legOf(const Stretch& stretch, double bore_before_m) const {
    shop::Leg leg;
    leg.bore = stretch.bore;
    if (stretch.hose) {
      leg.hose = shop::Hose{habits_.tail->inside, habits_.tail->hung, {}, {}};
    } else {
      leg.construction = habits_.construction;
    }
    if (bore_before_m > 0 && std::abs(bore_before_m - stretch.bore.si()) > kSameBore_m) {
      leg.taper = usualReducer();
    }
    return leg;
  }

  /// One gate: on the last straight stretch before the main, else near the port.
  void hangGate(shop::Duct& duct) {
    if (!habits_.gate || points_.front().place.to != SnapTo::Port) {
      return;
    }
    const bool branch = end_ && std::holds_alternative<shop::OnCorner>(*end_);
    std::optional<std::size_t> on;
    for (std::size_t k = 0; k + 1 < path_.size(); ++k) {
      const double leg_m = shop::distance(path_[k].at, path_[k + 1].at);
      if (!path_[k].hose && leg_m > path_[k].bore.si() && (branch || !on)) {
        on = k;
      }
    }
    if (!on) {
      notes_.push_back("no stretch is long enough for a gate; none was put");
      return;
    }
    const double leg_m = shop::distance(path_[*on].at, path_[*on + 1].at);
    const double far_m = branch ? leg_m - std::min(kGateFromMain_bores * path_[*on].bore.si(), leg_m / 2)
                                : std::min(kGateFromPort_m, leg_m / 2);
    shop::Gate gate;
    gate.id = ids_.next();
    gate.label = freeLabel(project_, "G");
    gate.corner = duct.corners[*on].id;
    gate.distance = lengthOf(far_m);
    duct.gates.push_back(gate);
    after_ = openWhereNothingIsShut(project_, gate.id);
  }

  Result<DuctPlan> dress() {
    const Snapped& start = points_.front().place;
    const Snapped& to = points_.back().place;
    if (points_.back().loose) {
      end_ = points_.back().loose->air;
    } else if (to.to == SnapTo::Inlet) {
      end_ = shop::CollectorInlet{to.collector};
    }
    shop::Duct duct;
    duct.id = ids_.next();
    duct.label = freeLabel(project_, "D");
    duct.to = end_.value_or(shop::OpenEnd{});
    double before_m = 0;
    if (points_.front().loose) {
      duct.from = points_.front().loose->air;
    } else if (points_.front().outlet) {
      duct.from = shop::CollectorOutlet{start.collector};
      giveOutlet(start.collector);
    } else if (start.to == SnapTo::Port) {
      duct.from = start.port;
      const shop::Port* port = portOf(project_, start.port);
      before_m = port == nullptr ? 0 : port->bore.si();
      const shop::Machine* machine = machineOf(project_, start.port.machine);
      if (port != nullptr && machine != nullptr) {
        duct.name = machine->name.empty() ? machine->label : machine->name;
        if (machine->ports.size() > 1 && !port->name.empty()) {
          duct.name += ", " + port->name;
        }
      }
    }
    for (std::size_t k = 0; k < path_.size(); ++k) {
      shop::Corner corner;
      corner.id = ids_.next();
      corner.at = path_[k].at;
      if (k + 1 < path_.size()) {
        if (k == 0 || path_[k].hose != path_[k - 1].hose ||
            std::abs(path_[k].bore.si() - path_[k - 1].bore.si()) > kSameBore_m) {
          corner.leg = legOf(path_[k], before_m);
        }
        before_m = path_[k].bore.si();
      }
      duct.corners.push_back(corner);
    }
    hangGate(duct);

    DuctPlan plan;
    plan.reversed = reversed_;
    for (std::size_t k = 0; k < path_.size(); ++k) {
      plan.path.push_back(path_[k].at);
      if (k + 1 < path_.size()) {
        plan.bores_m.push_back(path_[k].bore.si());
      }
    }
    plan.words = "Draw duct " + duct.label;
    if (auto joined = onto(duct, start, to); !joined) {
      return base::Failure(joined.error());
    } else if (*joined) {
      plan.words = "Lengthen duct " + duct.label;
    }
    plan.duct = duct.id;
    plan.edits = std::move(before_);
    if (joined_) {
      plan.words = joined_->words;
      plan.edits.insert(plan.edits.end(), joined_->edits.begin(), joined_->edits.end());
    } else {
      plan.edits.emplace_back(shop::PutDuct{std::move(duct)});
    }
    plan.edits.insert(plan.edits.end(), after_.begin(), after_.end());
    plan.notes = std::move(notes_);
    return plan;
  }

  /// A collector from whose outlet a duct leads has one.
  void giveOutlet(Id id) {
    const shop::Collector* there = collectorOf(project_, id);
    if (there != nullptr && !there->outlet_bore) {
      shop::Collector with = *there;
      with.outlet_bore = path_.front().bore;
      notes_.push_back(fmt::format("the outlet of {} is now {} wide, as this duct", with.label,
                                   path_.front().bore.text()));
      before_.emplace_back(shop::PutCollector{with});
    }
  }

  /// A duct drawn on from an open end becomes one with the duct that is there. True where it does.
  Result<bool> onto(shop::Duct& duct, const Snapped& start, const Snapped& to) {
    const bool behind = start.to == SnapTo::OpenEnd;
    const bool ahead = to.to == SnapTo::OpenEnd;
    if (!behind && !ahead) {
      return false;
    }
    const shop::Duct* there = ductOf(project_, behind ? start.duct : to.duct);
    if (there == nullptr) {
      return base::fail(ErrorCode::Reference, "the duct that should be lengthened is gone");
    }
    const auto* main = std::get_if<shop::OnCorner>(&duct.to);
    if (behind && main != nullptr && main->duct == there->id) {
      return base::fail(ErrorCode::Conflict, "a duct cannot enter itself");
    }
    shop::Duct whole = *there;
    if (behind) {
      // The joint keeps its id; what comes after it is made as drawn.
      const shop::Leg* last = legInForce(*there, there->corners.size() - 2);
      shop::Leg leg = *duct.corners.front().leg;
      if (last != nullptr && (last->hose || std::abs(last->bore.si() - leg.bore.si()) > kSameBore_m ||
                              last->construction != leg.construction)) {
        if (std::abs(last->bore.si() - leg.bore.si()) > kSameBore_m) {
          leg.taper = usualReducer();
        }
        whole.corners.back().leg = leg;
      }
      if (const shop::Duct* second = ahead ? ductOf(project_, to.duct) : nullptr) {
        auto one = joinDucts(project_, whole, {duct.corners.begin() + 1, duct.corners.end()}, *second);
        if (!one) {
          return base::Failure(one.error());
        }
        joined_ = std::move(*one);
        duct = std::move(whole);
        return true;
      }
      whole.corners.insert(whole.corners.end(), duct.corners.begin() + 1, duct.corners.end());
      whole.to = duct.to;
    } else {
      whole.corners.insert(whole.corners.begin(), duct.corners.begin(), duct.corners.end() - 1);
      whole.from = duct.from;
      whole.gates.insert(whole.gates.end(), duct.gates.begin(), duct.gates.end());
    }
    duct = std::move(whole);
    return true;
  }

  const shop::Project& project_;
  const DuctSketch& sketch_;
  const DuctHabits& habits_;
  base::IdSource& ids_;
  std::vector<SketchPoint> points_;   ///< with the air
  std::vector<Given<Length>> bores_;  ///< of each leg between them
  std::vector<std::int64_t> heights_;
  bool reversed_ = false;
  std::vector<Stretch> path_;
  std::optional<shop::DuctEnd> end_;
  std::vector<shop::Edit> before_;
  std::vector<shop::Edit> after_;
  std::optional<Change> joined_;  ///< two open ends became one duct
  std::vector<std::string> notes_;
};

}  // namespace

base::Given<base::Angle> usualReducer() {
  return *Given<base::Angle>::parse("15 deg");
}

DuctHabits usualHabits(const shop::Project& project, base::UnitSystem units) {
  DuctHabits habits;
  const bool us = units == base::UnitSystem::Us;
  habits.bore = *Given<Length>::parse(us ? "4 in" : "100 mm");
  habits.entry = *Given<base::Angle>::parse("45 deg");
  // The height at which most of the level duct hangs.
  std::map<std::int64_t, double> level_m;
  for (const shop::Duct& duct : project.ducts) {
    for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
      const Point& a = duct.corners[k].at;
      const Point& b = duct.corners[k + 1].at;
      if (a.z_um == b.z_um) {
        level_m[a.z_um] += shop::distance(a, b);
      }
    }
  }
  if (!level_m.empty()) {
    habits.run_z_um = std::max_element(level_m.begin(), level_m.end(), [](const auto& a, const auto& b) {
                        return a.second < b.second;
                      })->first;
    return habits;
  }
  double ceiling_m = us ? 8 * 0.3048 : 2.5;
  for (const shop::Room& room : project.rooms) {
    if (room.height.si() > 0) {
      ceiling_m = room.height.si();
      break;
    }
  }
  const double run_m = std::max(ceiling_m - kUnderCeiling_m, ceiling_m / 2);
  habits.run_z_um = std::llround(run_m * 1e6);
  return habits;
}

Result<void> isFree(const shop::Project& project, const Snapped& place) {
  if (place.to == SnapTo::Port) {
    for (const shop::Duct& duct : project.ducts) {
      const auto* there = std::get_if<shop::PortRef>(&duct.from);
      const auto* moved = std::get_if<shop::MovedEnd>(&duct.from);
      if ((there != nullptr && *there == place.port) ||
          (moved != nullptr &&
           std::find(moved->places.begin(), moved->places.end(), place.port) != moved->places.end())) {
        return base::fail(
            ErrorCode::Conflict,
            fmt::format("this port has duct {} already; begin on that duct, or at another port", duct.label));
      }
    }
  }
  if (place.to == SnapTo::Inlet) {
    for (const shop::Duct& duct : project.ducts) {
      const auto* there = std::get_if<shop::CollectorInlet>(&duct.to);
      if (there != nullptr && there->collector == place.collector) {
        return base::fail(ErrorCode::Conflict,
                          fmt::format("this inlet has duct {} already; end on that duct instead, and the "
                                      "entry is made for you",
                                      duct.label));
      }
    }
  }
  return {};
}

bool endsThere(const Snapped& place) {
  return place.to == SnapTo::Port || place.to == SnapTo::Inlet || place.to == SnapTo::OpenEnd ||
         place.to == SnapTo::Corner || place.to == SnapTo::Duct;
}

Result<DuctPlan> planDuct(const shop::Project& project, const DuctSketch& sketch, base::IdSource& ids) {
  return Planner(project, sketch, ids).run();
}

}  // namespace kerfdraft::desk
