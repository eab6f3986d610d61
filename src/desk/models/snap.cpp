// Things come before lines, two lines before one, and one before the grid.
#include "desk/models/snap.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "desk/models/places.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
/// Directions that fittings are made for, in each quarter.
constexpr std::array kUseful_deg{0, 30, 45, 60};
constexpr double kParallel = 0.02;

struct Vec {
  double x = 0;
  double y = 0;
};
Vec operator+(Vec a, Vec b) {
  return {a.x + b.x, a.y + b.y};
}
Vec operator-(Vec a, Vec b) {
  return {a.x - b.x, a.y - b.y};
}
Vec operator*(Vec a, double f) {
  return {a.x * f, a.y * f};
}
double dot(Vec a, Vec b) {
  return a.x * b.x + a.y * b.y;
}
double cross(Vec a, Vec b) {
  return a.x * b.y - a.y * b.x;
}
double length(Vec a) {
  return std::hypot(a.x, a.y);
}

Vec metres(const shop::PlanPoint& p) {
  return {static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6};
}
Vec metres(const shop::Point& p) {
  return metres(shop::PlanPoint{p.x_um, p.y_um});
}
shop::PlanPoint plan(Vec v) {
  return {std::llround(v.x * 1e6), std::llround(v.y * 1e6)};
}
shop::PlanPoint plan(const shop::Point& p) {
  return {p.x_um, p.y_um};
}

struct Line {
  Vec at;
  Vec along;  ///< of length 1
  std::string says;
  bool ray = false;  ///< only ahead of `at`
};

double beside(const Line& line, Vec p) {
  const Vec to = p - line.at;
  return line.ray && dot(to, line.along) < 0 ? length(to) : std::abs(cross(line.along, to));
}

Vec foot(const Line& line, Vec p) {
  return line.at + line.along * dot(p - line.at, line.along);
}

std::optional<Vec> crossing(const Line& a, const Line& b) {
  const double sine = cross(a.along, b.along);
  if (std::abs(sine) < kParallel) {
    return std::nullopt;
  }
  return a.at + a.along * (cross(b.at - a.at, b.along) / sine);
}

class Snapper {
 public:
  Snapper(const shop::Project& project, const SnapRequest& request)
      : project_(project), request_(request), here_(metres(request.pointer)) {}

  Snapped run() {
    if (request_.things) {
      if (auto thing = point()) {
        return *thing;
      }
    }
    std::optional<Line> ray;
    if (request_.lines) {
      ray = usefulRay();
    }
    if (request_.things) {
      if (auto leg = onDuct(ray)) {
        return *leg;
      }
    }
    if (request_.lines) {
      if (auto found = onLines(ray)) {
        return *found;
      }
    }
    return onGrid();
  }

 private:
  void offer(std::vector<std::pair<double, Snapped>>& all, const shop::Point& at, Snapped found) {
    const double far = length(metres(at) - here_);
    if (far <= request_.reach_m) {
      found.at = plan(at);
      found.z_um = at.z_um;
      all.emplace_back(far, std::move(found));
    }
  }

  /// Ports, inlets and corners: places that are points.
  std::optional<Snapped> point() {
    std::vector<std::pair<double, Snapped>> all;
    const auto height = [&](std::int64_t z_um) {
      return base::formatQuantity(base::Kind::Length, static_cast<double>(z_um) * 1e-6, request_.units);
    };
    for (const shop::Machine& machine : project_.machines) {
      for (const shop::Port& port : machine.ports) {
        Snapped found;
        found.to = SnapTo::Port;
        found.port = {machine.id, port.id};
        found.says = fmt::format("port {} of {}{}, {} up", port.label, machine.label,
                                 port.name.empty() ? "" : ", " + port.name, height(port.at.z_um));
        offer(all, port.at, found);
      }
    }
    for (const shop::Collector& collector : project_.collectors) {
      Snapped found;
      found.to = SnapTo::Inlet;
      found.collector = collector.id;
      found.says = fmt::format("inlet of {}, {} up", collector.label, height(collector.at.z_um));
      offer(all, collector.at, found);
    }
    for (const shop::Duct& duct : project_.ducts) {
      if (duct.id == request_.leave_out) {
        continue;
      }
      for (std::size_t k = 0; k < duct.corners.size(); ++k) {
        const bool first = k == 0;
        const bool last = k + 1 == duct.corners.size();
        const bool open = (first && std::holds_alternative<shop::OpenEnd>(duct.from)) ||
                          (last && std::holds_alternative<shop::OpenEnd>(duct.to));
        if ((first || last) && !open) {
          continue;  // what it is joined to is offered itself
        }
        Snapped found;
        found.to = open ? SnapTo::OpenEnd : SnapTo::Corner;
        found.duct = duct.id;
        found.corner = duct.corners[k].id;
        found.start = first;
        found.says = fmt::format("{} of {}, {} up", open ? "open end" : "corner", duct.label,
                                 height(duct.corners[k].at.z_um));
        offer(all, duct.corners[k].at, found);
      }
    }
    if (all.empty()) {
      return std::nullopt;
    }
    // What a duct begins or ends at comes before corners of ducts at the same place.
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
      constexpr double kAlike_m = 1e-3;
      return std::abs(a.first - b.first) > kAlike_m ? a.first < b.first : a.second.to < b.second.to;
    });
    Snapped found = all[request_.turn % all.size()].second;
    found.choices = all.size();
    return found;
  }

  std::optional<Line> usefulRay() const {
    if (!request_.from) {
      return std::nullopt;
    }
    const Vec from = metres(*request_.from);
    if (length(here_ - from) < 1e-6) {
      return std::nullopt;
    }
    std::optional<Line> best;
    double best_m = request_.reach_m;
    const auto look = [&](double turned_rad, bool of_leg) {
      for (int quarter = 0; quarter < 4; ++quarter) {
        for (const int deg : kUseful_deg) {
          const double a = turned_rad + (90 * quarter + deg) * kDegree;
          const Line line{from, {std::cos(a), std::sin(a)}, {}, true};
          const double off = beside(line, here_);
          // Strictly nearer: the room's own directions are named before the leg's.
          if (off < best_m - 1e-9) {
            best_m = off;
            best = line;
            const int whole = 90 * quarter + deg;
            const int bend = whole > 180 ? 360 - whole : whole;
            best->says = of_leg ? (bend == 0 ? "straight on" : fmt::format("{}° from the leg before", bend))
                                : fmt::format("at {}°", whole);
          }
        }
      }
    };
    look(0, false);
    if (request_.direction_rad) {
      look(*request_.direction_rad, true);
    }
    return best;
  }

  std::optional<Snapped> onDuct(const std::optional<Line>& ray) const {
    for (const LegPlace& place : legsNear(project_, request_.pointer, request_.reach_m)) {
      if (place.duct == request_.leave_out) {
        continue;
      }
      const shop::Duct& duct = *ductOf(project_, place.duct);
      Snapped found;
      found.to = SnapTo::Duct;
      found.duct = place.duct;
      found.corner = place.corner;
      found.at = plan(place.at);
      found.says = fmt::format("on duct {}", duct.label);
      if (!place.upright) {
        found.z_um = place.at.z_um;
        const Vec a = metres(duct.corners[place.leg].at);
        const Vec b = metres(duct.corners[place.leg + 1].at);
        const Line leg{a, (b - a) * (1 / length(b - a)), {}, false};
        const std::optional<Vec> meets = ray ? crossing(*ray, leg) : std::nullopt;
        const double along = meets ? dot(*meets - a, leg.along) : -1;
        if (along >= 0 && along <= length(b - a) &&
            length(*meets - here_) <= request_.reach_m + place.bore_m / 2) {
          found.at = plan(*meets);
          found.says += ", " + ray->says;
          found.guides.push_back({*request_.from, found.at});
        }
      }
      return found;
    }
    return std::nullopt;
  }

  void walls(std::vector<Line>& out) const {
    for (const shop::Room& room : project_.rooms) {
      double area = 0;
      const std::size_t n = room.outline.size();
      for (std::size_t i = 0; i < n; ++i) {
        area += cross(metres(room.outline[i]), metres(room.outline[(i + 1) % n]));
      }
      for (std::size_t i = 0; i < n; ++i) {
        const Vec a = metres(room.outline[i]);
        const Vec b = metres(room.outline[(i + 1) % n]);
        const double l = length(b - a);
        if (l <= 0) {
          continue;
        }
        const Vec along = (b - a) * (1 / l);
        const double inward = area > 0 ? 1 : -1;
        const Vec in{-along.y * inward, along.x * inward};
        const double t = dot(here_ - a, along);
        if (t > -request_.reach_m && t < l + request_.reach_m) {
          out.push_back(
              {a + in * request_.wall_gap_m, along,
               fmt::format("{} from the wall",
                           base::formatQuantity(base::Kind::Bore, request_.wall_gap_m, request_.units)),
               false});
        }
      }
    }
  }

  void inLine(std::vector<Line>& out) const {
    const auto both = [&](const shop::Point& p, const std::string& what) {
      out.push_back({metres(p), {1, 0}, "in line with " + what, false});
      out.push_back({metres(p), {0, 1}, "in line with " + what, false});
    };
    for (const shop::Machine& machine : project_.machines) {
      for (const shop::Port& port : machine.ports) {
        both(port.at, fmt::format("{} of {}", port.label, machine.label));
      }
    }
    for (const shop::Collector& collector : project_.collectors) {
      both(collector.at, fmt::format("the inlet of {}", collector.label));
    }
  }

  std::optional<Snapped> onLines(const std::optional<Line>& ray) const {
    std::vector<Line> others;
    walls(others);
    inLine(others);
    const Line* first = ray ? &*ray : nullptr;
    if (first == nullptr) {
      double best_m = request_.reach_m;
      for (const Line& line : others) {
        if (const double off = beside(line, here_); off < best_m - 1e-9) {
          best_m = off;
          first = &line;
        }
      }
    }
    if (first == nullptr) {
      return std::nullopt;
    }
    Snapped found;
    found.to = SnapTo::Line;
    found.says = first->says;
    const Line* second = nullptr;
    double best_m = request_.reach_m;
    Vec at = foot(*first, here_);
    const Vec on_first = at;
    for (const Line& line : others) {
      const auto meets = &line == first ? std::nullopt : crossing(*first, line);
      if (meets && length(*meets - on_first) < best_m - 1e-9 &&
          (!first->ray || dot(*meets - first->at, first->along) > 1e-3)) {
        best_m = length(*meets - on_first);
        second = &line;
        at = *meets;
      }
    }
    if (second != nullptr) {
      found.says += ", " + second->says;
      found.guides.push_back({plan(second->at), plan(at)});
    } else if (request_.grid) {
      const double step = gridStep(request_.reach_m, request_.units);
      const double along = dot(at - first->at, first->along);
      at = first->at + first->along * (std::round(along / step) * step);
    }
    found.at = plan(at);
    found.guides.push_back({plan(first->at), found.at});
    return found;
  }

  Snapped onGrid() const {
    Snapped found;
    found.at = request_.pointer;
    if (!request_.grid) {
      return found;
    }
    const double step = gridStep(request_.reach_m, request_.units);
    found.to = SnapTo::Grid;
    found.at = plan(Vec{std::round(here_.x / step) * step, std::round(here_.y / step) * step});
    return found;
  }

  const shop::Project& project_;
  const SnapRequest& request_;
  Vec here_;
};

}  // namespace

double gridStep(double reach_m, base::UnitSystem units) {
  constexpr double kInch_m = 0.0254;
  constexpr std::array kUs_in{0.125, 0.25, 0.5, 1.0, 3.0, 6.0, 12.0, 36.0};
  constexpr std::array kMetric_mm{1.0, 2.0, 5.0, 10.0, 50.0, 100.0, 500.0, 1000.0};
  const double least_m = reach_m / 4;
  for (std::size_t k = 0; k < kUs_in.size(); ++k) {
    const double step_m = units == base::UnitSystem::Us ? kUs_in[k] * kInch_m : kMetric_mm[k] * 1e-3;
    if (step_m >= least_m) {
      return step_m;
    }
  }
  return units == base::UnitSystem::Us ? kUs_in.back() * kInch_m : kMetric_mm.back() * 1e-3;
}

Snapped snap(const shop::Project& project, const SnapRequest& request) {
  return Snapper(project, request).run();
}

}  // namespace kerfdraft::desk
