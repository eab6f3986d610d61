// Corners keep their ids, so that findings and readings stay with their pieces; what is put in is new.
#include "desk/models/reshape.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "desk/models/places.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Id;
using base::Result;
using shop::Corner;
using shop::Duct;
using shop::Point;
using shop::Project;

// All ours.
constexpr double kLevel_m = 1e-3;
constexpr double kUpright_m = 0.005;
constexpr double kStraight_rad = 0.02;
constexpr double kAcross = 0.2;  ///< least sine of the angle between a leg and its main
constexpr double kFromEnd_m = 0.02;

struct Vec {
  double x = 0;
  double y = 0;
  double z = 0;
};

Vec between(const Point& a, const Point& b) {
  return {static_cast<double>(b.x_um - a.x_um) * 1e-6, static_cast<double>(b.y_um - a.y_um) * 1e-6,
          static_cast<double>(b.z_um - a.z_um) * 1e-6};
}

Point shifted(const Point& p, const Vec& by) {
  return {p.x_um + std::llround(by.x * 1e6), p.y_um + std::llround(by.y * 1e6),
          p.z_um + std::llround(by.z * 1e6)};
}

bool upright(const Duct& duct, std::size_t leg) {
  const Vec v = between(duct.corners[leg].at, duct.corners[leg + 1].at);
  return std::hypot(v.x, v.y) < kUpright_m;
}

bool level(const Duct& duct, std::size_t leg) {
  return !upright(duct, leg) &&
         std::abs(between(duct.corners[leg].at, duct.corners[leg + 1].at).z) < kLevel_m;
}

/// An end that nothing holds.
bool isLoose(const shop::DuctEnd& end) {
  return std::holds_alternative<shop::OpenEnd>(end) || std::holds_alternative<shop::FreeAir>(end);
}

/// A new corner behind the one at `k`; what hung on that leg hangs on the new one's.
void putIn(Duct& duct, std::size_t k, Id id, const Point& at) {
  Corner corner;
  corner.id = id;
  corner.at = at;
  const Id old = duct.corners[k].id;
  duct.corners.insert(duct.corners.begin() + static_cast<std::ptrdiff_t>(k) + 1, corner);
  for (shop::Gate& gate : duct.gates) {
    gate.corner = gate.corner == old ? id : gate.corner;
  }
  for (auto* list : {&duct.taps, &duct.cleanouts}) {
    for (shop::Access& access : *list) {
      access.corner = access.corner == old ? id : access.corner;
    }
  }
}

Result<Change> gone() {
  return base::fail(ErrorCode::Reference, "this duct is gone");
}

/// The end of the duct that a place is at, where it enters a main; with the main's corner.
struct Entry {
  const Duct* main = nullptr;
  std::size_t at = 0;
};
std::optional<Entry> entryOf(const Project& project, const shop::DuctEnd& end) {
  const auto* on = std::get_if<shop::OnCorner>(&end);
  const Duct* main = on == nullptr ? nullptr : ductOf(project, on->duct);
  const auto at = main == nullptr ? std::nullopt : cornerIndex(*main, on->corner);
  if (!at || *at == 0 || *at + 1 >= main->corners.size()) {
    return std::nullopt;
  }
  return Entry{main, *at};
}

/// How far an entry slides along its main, so that it moves by d along n.
Result<Vec> slideOf(const Duct& duct, const Entry& entry, double n_x, double n_y, double d_m) {
  const Duct& main = *entry.main;
  const Point& before = main.corners[entry.at - 1].at;
  const Point& here = main.corners[entry.at].at;
  const Point& after = main.corners[entry.at + 1].at;
  if (shop::turn(before, here, after) > kStraight_rad) {
    return base::fail(
        ErrorCode::Conflict,
        fmt::format("{} enters {} at a bend of it; drag the bend, or another leg", duct.label, main.label));
  }
  const Vec v = between(before, after);
  const double whole_m = std::hypot(v.x, v.y, v.z);
  const double across = (v.x * n_x + v.y * n_y) / whole_m;
  if (std::abs(across) < kAcross) {
    return base::fail(ErrorCode::Conflict,
                      fmt::format("this leg of {} enters {} from straight ahead; it cannot slide along it",
                                  duct.label, main.label));
  }
  const double along_m = d_m / across;
  const double left_m = along_m < 0 ? shop::distance(before, here) : shop::distance(here, after);
  if (std::abs(along_m) > left_m - kFromEnd_m) {
    return base::fail(ErrorCode::Range,
                      fmt::format("the entry would leave its straight leg of {}", main.label));
  }
  return Vec{v.x / whole_m * along_m, v.y / whole_m * along_m, v.z / whole_m * along_m};
}

/// Where an entry comes to lie, so that the leg that leads into it keeps its angle to the main after its
/// other corner moved; nothing where it would leave its straight leg: then it stays.
std::optional<Point> entryKept(const Entry& entry, const Point& from, const Vec& moved) {
  const Point& before = entry.main->corners[entry.at - 1].at;
  const Point& here = entry.main->corners[entry.at].at;
  const Point& after = entry.main->corners[entry.at + 1].at;
  const Vec v = between(before, after);
  const Vec w = between(from, here);
  const double whole_m = std::hypot(v.x, v.y, v.z);
  const double across = (v.x * w.y - v.y * w.x) / whole_m;
  if (shop::turn(before, here, after) > kStraight_rad || std::abs(across) < kAcross * std::hypot(w.x, w.y)) {
    return std::nullopt;
  }
  const double along_m = (moved.x * w.y - moved.y * w.x) / across;
  const double left_m = along_m < 0 ? shop::distance(before, here) : shop::distance(here, after);
  if (std::abs(along_m) > left_m - kFromEnd_m) {
    return std::nullopt;
  }
  return shifted(here, {v.x / whole_m * along_m, v.y / whole_m * along_m, v.z / whole_m * along_m});
}

}  // namespace

Result<Change> moveLeg(const Project& before, Id id, Id corner, std::int64_t x_um, std::int64_t y_um,
                       const std::array<Id, 2>& ids) {
  const Duct* there = ductOf(before, id);
  const auto leg = there == nullptr ? std::nullopt : cornerIndex(*there, corner);
  if (!leg || *leg + 1 >= there->corners.size()) {
    return gone();
  }
  if (upright(*there, *leg)) {
    return base::fail(
        ErrorCode::Unsupported,
        fmt::format("this leg of {} stands upright; drag the level leg, or a corner", there->label));
  }
  const std::size_t last = there->corners.size() - 1;
  const Vec along = between(there->corners[*leg].at, there->corners[*leg + 1].at);
  const double plan_m = std::hypot(along.x, along.y);
  const double n_x = -along.y / plan_m;
  const double n_y = along.x / plan_m;
  const double d_m = (static_cast<double>(x_um) * n_x + static_cast<double>(y_um) * n_y) * 1e-6;
  Vec by{n_x * d_m, n_y * d_m, 0};
  Change change;
  change.words = fmt::format("Move a leg of duct {}", there->label);
  // An entry decides along which line everything moves.
  std::vector<shop::Edit> slides;
  for (const bool start : {true, false}) {
    if (start ? *leg != 0 : *leg + 1 != last) {
      continue;
    }
    if (const auto entry = entryOf(before, start ? there->from : there->to)) {
      const Result<Vec> slide = slideOf(*there, *entry, n_x, n_y, d_m);
      if (!slide) {
        return base::Failure(slide.error());
      }
      by = *slide;
      const Corner& at = entry->main->corners[entry->at];
      slides.emplace_back(shop::MoveCorner{entry->main->id, at.id, shifted(at.at, by)});
    }
  }
  Duct duct = *there;
  std::vector<Id> moved;
  std::optional<std::size_t> put_start;  // behind which corner a new one comes
  bool put_end = false;
  const auto on_corner = [](const shop::DuctEnd& end) { return std::holds_alternative<shop::OnCorner>(end); };
  // Towards the start: the leg's own corner and what stands upright on it.
  std::size_t k = *leg;
  while (k > 0 && upright(*there, k - 1)) {
    --k;
  }
  if (k == 0 && !isLoose(there->from) && !(on_corner(there->from) && *leg == 0)) {
    put_start = *leg;
  } else {
    for (std::size_t m = k; m <= *leg; ++m) {
      if (!(m == 0 && on_corner(there->from))) {
        moved.push_back(there->corners[m].id);
      }
    }
  }
  std::size_t e = *leg + 1;
  while (e < last && upright(*there, e)) {
    ++e;
  }
  if (e == last && !isLoose(there->to) && !(on_corner(there->to) && *leg + 1 == last)) {
    put_end = true;
  } else {
    for (std::size_t m = *leg + 1; m <= e; ++m) {
      if (!(m == last && on_corner(there->to))) {
        moved.push_back(there->corners[m].id);
      }
    }
  }
  if (!put_end && *leg + 2 == last && e == *leg + 1) {
    if (const auto entry = entryOf(before, there->to)) {
      const Corner& at = entry->main->corners[entry->at];
      // Made each time, also where it stays: a drag may come back.
      slides.emplace_back(shop::MoveCorner{
          entry->main->id, at.id, entryKept(*entry, there->corners[*leg + 1].at, by).value_or(at.at)});
    }
  }
  // From behind, so that the places before stay what they are.
  const Point end_at = there->corners[*leg + 1].at;
  if (put_end) {
    Corner added;
    added.id = ids[1];
    added.at = end_at;
    duct.corners.insert(duct.corners.begin() + static_cast<std::ptrdiff_t>(*leg) + 1, added);
    moved.push_back(ids[1]);
  }
  if (put_start) {
    putIn(duct, *put_start, ids[0], there->corners[*put_start].at);
    moved.push_back(ids[0]);
  }
  std::map<Id, Point> places;
  for (const Corner& each : duct.corners) {
    places[each.id] = each.at;
  }
  // First as it was before the drag, then every corner to its place: made twice, it is the same.
  change.edits.emplace_back(shop::PutDuct{duct});
  for (const Id each : moved) {
    change.edits.emplace_back(shop::MoveCorner{duct.id, each, shifted(places.at(each), by)});
  }
  change.edits.insert(change.edits.end(), slides.begin(), slides.end());
  return change;
}

namespace {

/// Hangs stretches at another height, one after the other, with the branches that enter them.
class Hanger {
 public:
  Hanger(const Project& project, std::int64_t z_um, base::IdSource& ids)
      : project_(project), z_um_(z_um), ids_(ids) {}

  /// `with_main`: its end goes up with the main that it enters.
  Result<void> stretch(const Duct& there, std::size_t leg, bool with_main) {
    std::size_t first = leg;
    while (first > 0 && level(there, first - 1)) {
      --first;
    }
    std::size_t end = leg + 1;
    const std::size_t last = there.corners.size() - 1;
    while (end < last && level(there, end)) {
      ++end;
    }
    if (there.corners[first].at.z_um == z_um_ || !done_.insert(there.corners[first].id).second) {
      return {};
    }
    Duct duct = there;
    std::vector<Id> moved;
    std::size_t upto = end;
    if (end == last && !isLoose(there.to) && !with_main) {
      if (std::holds_alternative<shop::OnCorner>(there.to)) {
        // Its last leg stays with the main; the drop comes before it.
        if (end - 1 == first) {
          return base::fail(
              ErrorCode::Conflict,
              fmt::format("this stretch of {} is nothing but its entry into a main; hang the main "
                          "higher, or draw it anew",
                          there.label));
        }
        upto = end - 2;
        putIn(duct, end - 1, ids_.next(), there.corners[end - 1].at);
        moved.push_back(there.corners[end - 1].id);
      } else {
        Corner added;
        added.id = ids_.next();
        added.at = there.corners[last].at;
        duct.corners.insert(duct.corners.end() - 1, added);
        moved.push_back(added.id);
        upto = end - 1;
      }
    } else if (with_main) {
      upto = end - 1;  // the entry itself follows its main
    }
    std::size_t from = first;
    if (first == 0 && !isLoose(there.from)) {
      const Id added = ids_.next();
      putIn(duct, 0, added, there.corners[0].at);
      moved.push_back(added);
      from = 1;
    }
    for (std::size_t k = from; k <= upto && k < there.corners.size(); ++k) {
      moved.push_back(there.corners[k].id);
    }
    edits_.emplace_back(shop::PutDuct{duct});
    for (const Id each : moved) {
      const auto at = std::find_if(duct.corners.begin(), duct.corners.end(),
                                   [each](const Corner& corner) { return corner.id == each; });
      Point to = at->at;
      to.z_um = z_um_;
      edits_.emplace_back(shop::MoveCorner{duct.id, each, to});
    }
    const std::set<Id> went(moved.begin(), moved.end());
    for (const Duct& branch : project_.ducts) {
      const auto* on = std::get_if<shop::OnCorner>(&branch.to);
      const std::size_t legs = branch.corners.size() - 1;
      if (on != nullptr && on->duct == there.id && went.contains(on->corner) && level(branch, legs - 1)) {
        if (Result<void> hung = stretch(branch, legs - 1, true); !hung) {
          return hung;
        }
      }
    }
    return {};
  }

  std::vector<shop::Edit> takeEdits() { return std::move(edits_); }

 private:
  const Project& project_;
  std::int64_t z_um_;
  base::IdSource& ids_;
  std::set<Id> done_;
  std::vector<shop::Edit> edits_;
};

/// The level leg of the longest level stretch.
std::optional<std::size_t> longestLevel(const Duct& duct) {
  std::optional<std::size_t> best;
  double best_m = 0;
  double here_m = 0;
  for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
    here_m = level(duct, k) ? here_m + shop::distance(duct.corners[k].at, duct.corners[k + 1].at) : 0;
    if (here_m > best_m) {
      best_m = here_m;
      best = k;
    }
  }
  return best;
}

}  // namespace

Result<Change> hangAt(const Project& project, Id id, Id corner, std::int64_t z_um, base::IdSource& ids) {
  const Duct* duct = ductOf(project, id);
  if (duct == nullptr || duct->corners.size() < 2) {
    return gone();
  }
  std::optional<std::size_t> leg = corner.valid() ? cornerIndex(*duct, corner) : longestLevel(*duct);
  if (!leg || *leg + 1 >= duct->corners.size() || !level(*duct, *leg)) {
    return base::fail(
        ErrorCode::Unsupported,
        fmt::format("nothing of {} is level here; its corners have heights of their own", duct->label));
  }
  if (z_um < 0) {
    return base::fail(ErrorCode::Range, "that is below the floor");
  }
  Hanger hanger(project, z_um, ids);
  if (const Result<void> hung = hanger.stretch(*duct, *leg, false); !hung) {
    return base::Failure(hung.error());
  }
  return Change{fmt::format("Hang duct {} at another height", duct->label), hanger.takeEdits()};
}

}  // namespace kerfdraft::desk
