// Numbers of points by size, near-wall distances, marks.
// Where published rules differ each is listed with its verdict; the plan does not pick silently.
#include "field/traverse_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/units.h"

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;

constexpr double kInch_m = 0.0254;
constexpr double kSlack_m = 1e-6;  // rounding of inches is not a smaller duct

bool atLeast(double value_m, double limit_in) {
  return value_m >= limit_in * kInch_m - kSlack_m;
}

double equivalentDiameter(const Section& s) {
  if (const auto* round = std::get_if<RoundSection>(&s.shape)) {
    return round->bore_m;
  }
  const auto& box = std::get<RectangularSection>(s.shape);
  return 2 * box.width_m * box.height_m / (box.width_m + box.height_m);
}

// Points on a diameter by size: 6 up to 6 in, 10 above [AcgihIv, from memory] for equal areas; 6 up to 10 in,
// 10 above for the logarithmic rules (common practice).
int usualPoints(PointRule rule, double bore_m) {
  return bore_m <= (rule == PointRule::EqualArea ? 6 : 10) * kInch_m + kSlack_m ? 6 : 10;
}

// Along a side: 5 below 30 in, 6 to 36 in, 7 above [Ashrae111, from memory]; equal areas no wider than 6 in
// and at least 4 [AcgihIv, from memory].
int usualSidePoints(PointRule rule, double side_m) {
  if (rule == PointRule::EqualArea) {
    return std::clamp(static_cast<int>(std::ceil((side_m - kSlack_m) / (6 * kInch_m))), 4, 48);
  }
  return side_m < 30 * kInch_m - kSlack_m ? 5 : side_m <= 36 * kInch_m + kSlack_m ? 6 : 7;
}

struct Limit {
  double least_m = 0;
  std::string source;
};

Limit nearWall(const PlanRequest& r, double diameter_m) {
  Limit limit;
  if (r.rule == PointRule::EqualArea && std::holds_alternative<RoundSection>(r.section.shape) &&
      atLeast(diameter_m, 12)) {
    limit = {(diameter_m > 24 * kInch_m + kSlack_m ? 1.0 : 0.5) * kInch_m,
             "Epa40Cfr60M1, sec. 11.3, from memory"};
  }
  if (r.probe_diameter_m > limit.least_m) {
    limit = {r.probe_diameter_m, "Iso3966, one diameter of the tube, from memory"};
  }
  return limit;
}

std::vector<Mark> marksOf(const std::vector<double>& fractions, double side_m, const Limit& limit,
                          double nipple_m) {
  std::vector<Mark> marks;
  for (const double fraction : fractions) {
    Mark mark;
    mark.fraction = fraction;
    mark.from_wall_m = std::clamp(fraction * side_m, limit.least_m, side_m - limit.least_m);
    mark.moved = std::abs(mark.from_wall_m - fraction * side_m) > 1e-9;
    mark.on_tube_m = mark.from_wall_m + nipple_m;
    marks.push_back(mark);
  }
  return marks;
}

void addCounts(TraversePlan& plan, bool round, int per_line) {
  const int total = plan.pointCount();
  const bool straight =
      plan.upstream_diameters.value_or(0) >= 8 && plan.downstream_diameters.value_or(0) >= 2;
  const auto add = [&](std::string rule, std::string source, int needed, int have) {
    plan.counts.push_back({std::move(rule), std::move(source), needed, have >= needed});
  };
  if (atLeast(plan.diameter_m, 12)) {
    const bool large = plan.diameter_m > 24 * kInch_m + kSlack_m;
    const int with_run = round ? (large ? 12 : 8) : 9;
    add(straight ? "points in all, with 8 D before and 2 D after"
                 : "points in all, with a shorter straight run",
        "Epa40Cfr60M1, sec. 11.2, from memory", straight ? with_run : 16, total);
  }
  if (round) {
    add("points on a diameter", "AcgihIv, from memory", plan.diameter_m <= 6 * kInch_m + kSlack_m ? 6 : 10,
        per_line);
    add("diameters at right angles", "AcgihIv, from memory", 2, static_cast<int>(plan.lines.size()));
  } else {
    add("points in all", "AcgihIv, from memory", 16, total);
  }
}

void addNotices(TraversePlan& plan, double probe_diameter_m) {
  int moved = 0;
  int doubled = 0;
  for (const PlanLine& line : plan.lines) {
    for (std::size_t i = 0; i < line.marks.size(); ++i) {
      moved += line.marks[i].moved ? 1 : 0;
      doubled += i > 0 && line.marks[i].from_wall_m - line.marks[i - 1].from_wall_m < 1e-9 ? 1 : 0;
    }
  }
  if (moved > 0) {
    plan.notices.push_back({"near-wall-moved",
                            Notice::Level::Note,
                            {{"moved", Kind::Ratio, static_cast<double>(moved)},
                             {"doubled", Kind::Ratio, static_cast<double>(doubled)},
                             {"least", Kind::Bore, plan.least_from_wall_m}},
                            {},
                            plan.least_from_wall_source});
  }
  if (probe_diameter_m > plan.diameter_m / 30) {
    plan.notices.push_back(
        {"probe-large",
         Notice::Level::Caution,
         {{"diameter", Kind::Bore, probe_diameter_m}, {"bore", Kind::Bore, plan.diameter_m}},
         {},
         "common practice: at most 1/30 of the bore"});
  }
  if (plan.rule == PointRule::EqualArea && !atLeast(plan.diameter_m, 12)) {
    plan.notices.push_back({"small-for-epa",
                            Notice::Level::Note,
                            {{"bore", Kind::Bore, plan.diameter_m}},
                            {},
                            "Epa40Cfr60M1, sec. 1.2"});
  }
  if (!plan.upstream_diameters || !plan.downstream_diameters) {
    plan.notices.push_back({"straight-run-unstated", Notice::Level::Note, {}, {}, "ours"});
    return;
  }
  if (std::ranges::none_of(plan.straight, [](const StraightVerdict& v) { return v.met && v.applies; })) {
    plan.notices.push_back({"straight-run-short",
                            Notice::Level::Caution,
                            {{"upstream", Kind::Ratio, *plan.upstream_diameters},
                             {"downstream", Kind::Ratio, *plan.downstream_diameters}},
                            {},
                            "Epa40Cfr60M1, AcgihIv, Iso3966"});
  }
}

Result<void> checkRequest(const PlanRequest& r, double diameter_m, std::string_view where) {
  const auto refuse = [&](const char* what, double value_m) {
    return base::fail(ErrorCode::Range,
                      fmt::format("{} of {} ({}) cannot be.", what,
                                  base::formatQuantity(Kind::Bore, value_m, base::UnitSystem::Us),
                                  base::formatQuantity(Kind::Bore, value_m, base::UnitSystem::Metric)),
                      std::string(where));
  };
  if (!(r.probe_diameter_m >= 0 && r.probe_diameter_m < diameter_m / 4)) {
    return refuse("A tube diameter", r.probe_diameter_m);
  }
  if (!(r.nipple_m >= 0 && r.nipple_m <= 1)) {
    return refuse("A pipe stub", r.nipple_m);
  }
  for (const std::optional<double>& run : {r.upstream_m, r.downstream_m}) {
    if (run && !(*run >= 0 && *run <= 1000)) {
      return refuse("A straight run", *run);
    }
  }
  if (r.lines < 0 || r.lines > 48 || r.points < 0) {
    return base::fail(ErrorCode::Range,
                      fmt::format("{} lines of {} points cannot be planned.", r.lines, r.points),
                      std::string(where));
  }
  return {};
}

}  // namespace

int TraversePlan::pointCount() const {
  return std::accumulate(lines.begin(), lines.end(), 0,
                         [](int n, const PlanLine& line) { return n + static_cast<int>(line.marks.size()); });
}

Result<TraversePlan> planTraverse(const PlanRequest& r, std::string_view where) {
  if (const Result<void> ok = checkSection(r.section, where); !ok) {
    return tl::unexpected(ok.error());
  }
  TraversePlan plan;
  plan.section = r.section;
  plan.rule = r.rule;
  plan.diameter_m = equivalentDiameter(r.section);
  if (const Result<void> ok = checkRequest(r, plan.diameter_m, where); !ok) {
    return tl::unexpected(ok.error());
  }
  const Limit limit = nearWall(r, plan.diameter_m);
  plan.least_from_wall_m = limit.least_m;
  plan.least_from_wall_source = limit.source;

  const auto* round = std::get_if<RoundSection>(&r.section.shape);
  int per_line = 0;
  if (round != nullptr) {
    per_line = r.points > 0 ? r.points : usualPoints(r.rule, round->bore_m);
    const auto fractions = roundPositions(r.rule, per_line, where);
    if (!fractions) {
      return tl::unexpected(fractions.error());
    }
    for (int i = 0; i < (r.lines > 0 ? r.lines : 2); ++i) {
      plan.lines.push_back(
          {fmt::format("diameter {}", i + 1), 0, marksOf(*fractions, round->bore_m, limit, r.nipple_m)});
    }
    plan.integration_bias = largestBias(*fractions, roundBias);
  } else {
    const auto& box = std::get<RectangularSection>(r.section.shape);
    per_line = r.points > 0 ? r.points : usualSidePoints(r.rule, box.height_m);
    const int lines = r.lines > 0 ? r.lines : usualSidePoints(r.rule, box.width_m);
    const auto along = sidePositions(r.rule, per_line, where);
    if (!along) {
      return tl::unexpected(along.error());
    }
    const auto across = sidePositions(r.rule, lines, where);
    if (!across) {
      return tl::unexpected(across.error());
    }
    for (int i = 0; i < lines; ++i) {
      plan.lines.push_back({fmt::format("line {}", i + 1),
                            (*across)[static_cast<std::size_t>(i)] * box.width_m,
                            marksOf(*along, box.height_m, limit, r.nipple_m)});
    }
    plan.integration_bias = largestBias(*along, sideBias) + largestBias(*across, sideBias);
  }
  if (r.upstream_m) {
    plan.upstream_diameters = *r.upstream_m / plan.diameter_m;
  }
  if (r.downstream_m) {
    plan.downstream_diameters = *r.downstream_m / plan.diameter_m;
  }
  if (plan.upstream_diameters && plan.downstream_diameters) {
    plan.straight = judgeStraight(*plan.upstream_diameters, *plan.downstream_diameters, plan.diameter_m);
  }
  addCounts(plan, round != nullptr, per_line);
  addNotices(plan, r.probe_diameter_m);
  return plan;
}

std::string inchMark(double si_m, int denominator) {
  base::check(denominator > 0, "a fraction of an inch without denominator");
  const long parts = std::lround(si_m / kInch_m * denominator);
  const long whole = parts / denominator;
  const long rest = parts % denominator;
  if (rest == 0) {
    return fmt::format("{} in", whole);
  }
  const long common = std::gcd(rest, static_cast<long>(denominator));
  const std::string fraction = fmt::format("{}/{}", rest / common, denominator / common);
  return whole == 0 ? fraction + " in" : fmt::format("{} {} in", whole, fraction);
}

std::string millimetreMark(double si_m) {
  return fmt::format("{:.1f} mm", std::round(si_m * 2000) / 2);
}

}  // namespace kerfdraft::field
