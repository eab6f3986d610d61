// From the grid of readings to a measurement model.
// A round section's partners are its ring (same distance from the wall); a rectangle's are its neighbours.
#include "field/traverse.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace kerfdraft::field {
namespace {

using base::ErrorCode;
using base::Kind;
using base::Result;

constexpr double kMostMissing = 0.25;  // ours
constexpr double kLowPoint = 0.1;      // of the greatest velocity pressure [Amca203, from memory]
constexpr double kMostLow = 0.25;      // share of low points [Amca203, from memory]

struct Place {
  std::size_t line = 0;
  std::size_t point = 0;
};

std::vector<Place> partners(const Traverse& t, Place of, bool round) {
  std::vector<Place> out;
  const std::size_t count = t.lines[of.line].size();
  for (std::size_t line = 0; line < t.lines.size(); ++line) {
    for (std::size_t point = 0; point < count; ++point) {
      const bool itself = line == of.line && point == of.point;
      const auto apart = [](std::size_t a, std::size_t b) { return a > b ? a - b : b - a; };
      const bool ring = std::min(point, count - 1 - point) == std::min(of.point, count - 1 - of.point);
      const bool beside = apart(line, of.line) + apart(point, of.point) == 1;
      if (!itself && (round ? ring : beside) && t.lines[line][point]) {
        out.push_back({line, point});
      }
    }
  }
  return out;
}

Result<void> checkGrid(const Traverse& t, std::string_view where) {
  if (t.lines.empty() || t.lines.front().empty()) {
    return base::fail(ErrorCode::Range, "There is no reading.", std::string(where));
  }
  for (std::size_t i = 0; i < t.lines.size(); ++i) {
    for (std::size_t j = 0; j < t.lines[i].size(); ++j) {
      if (t.lines[i][j] && !std::isfinite(*t.lines[i][j])) {
        return base::fail(ErrorCode::Parse,
                          fmt::format("Reading {} of line {} is not a finite number.", j + 1, i + 1),
                          std::string(where));
      }
    }
    if (t.lines[i].size() != t.lines.front().size()) {
      return base::fail(
          ErrorCode::Conflict,
          fmt::format("Line {} has {} points and line 1 has {}; write \"-\" for a point that was not "
                      "read.",
                      i + 1, t.lines[i].size(), t.lines.front().size()),
          std::string(where));
    }
  }
  const auto disagrees = [](int asked, std::size_t have) {
    return asked > 0 && static_cast<std::size_t>(asked) != have;
  };
  if (disagrees(t.request.points, t.lines.front().size()) || disagrees(t.request.lines, t.lines.size())) {
    return base::fail(
        ErrorCode::Conflict,
        fmt::format("There are {} lines of {} readings, but {} lines of {} points were asked for.",
                    t.lines.size(), t.lines.front().size(), t.request.lines, t.request.points),
        std::string(where));
  }
  if (t.legs == Legs::Each) {
    return base::fail(ErrorCode::Unsupported,
                      "A traverse takes one number a point: the difference of the levels, or one leg.",
                      std::string(where));
  }
  return {};
}

void addSamples(const Traverse& t, TraverseModel& out) {
  std::size_t negative = 0;
  std::size_t read = 0;
  for (const auto& line : t.lines) {
    for (const auto& raw : line) {
      read += raw ? 1U : 0U;
      negative += raw && *raw < 0 ? 1U : 0U;
    }
  }
  const bool swapped = read > 0 && negative == read;
  for (const auto& line : t.lines) {
    auto& row = out.sample_at.emplace_back();
    for (const auto& raw : line) {
      if (!raw) {
        row.emplace_back();
        continue;
      }
      row.emplace_back(out.model.samples.size());
      out.model.samples.push_back({swapped ? -*raw : std::max(0.0, *raw), 0, 1});
    }
  }
  const std::vector<Said> counts = {{"count", Kind::Ratio, static_cast<double>(negative)},
                                    {"of", Kind::Ratio, static_cast<double>(read)}};
  if (swapped) {
    out.notices.push_back({"hoses-swapped", Notice::Level::Caution, counts, {}, "common practice"});
  } else if (negative > 0) {
    out.notices.push_back({"negative-as-zero", Notice::Level::Caution, counts, {}, "Amca203, from memory"});
  }
}

Result<void> shareMissing(const Traverse& t, TraverseModel& out, bool round, std::string_view where) {
  std::size_t missing = 0;
  std::string names;
  for (std::size_t i = 0; i < t.lines.size(); ++i) {
    for (std::size_t j = 0; j < t.lines[i].size(); ++j) {
      if (t.lines[i][j]) {
        continue;
      }
      ++missing;
      const std::string name = fmt::format("{} point {}", out.plan.lines[i].name, j + 1);
      names += (names.empty() ? "" : ", ") + name;
      const std::vector<Place> with = partners(t, {i, j}, round);
      if (with.empty()) {
        return base::fail(
            ErrorCode::Range,
            fmt::format(
                "{} is missing, and so {}: that part of the section is not measured. Read it, "
                "or take a plan with fewer points.",
                name,
                round ? "is every other point at its distance from the wall" : "are all its neighbours"),
            std::string(where));
      }
      for (const Place& p : with) {
        out.model.samples[*out.sample_at[p.line][p.point]].weight += 1.0 / static_cast<double>(with.size());
      }
    }
  }
  const double total = static_cast<double>(missing + out.model.samples.size());
  if (static_cast<double>(missing) > kMostMissing * total) {
    return base::fail(ErrorCode::Range,
                      fmt::format("{} of {:.0f} points are missing; more than a quarter leaves no traverse.",
                                  missing, total),
                      std::string(where));
  }
  if (missing > 0) {
    out.notices.push_back({"missing-filled",
                           Notice::Level::Caution,
                           {{"count", Kind::Ratio, static_cast<double>(missing)}, {"of", Kind::Ratio, total}},
                           names,
                           round ? "ours: the ring's other points" : "ours: the neighbours"});
  }
  return {};
}

/// Standard deviation of the speeds about the means of their rings, or about row and column, and its degrees
/// of freedom. What the shape of the profile explains is left out; what it cannot explain is scatter.
struct Scatter {
  double standard = 0;
  double freedom = 0;
};

Scatter ringScatter(const TraverseModel& m, const std::vector<double>& v) {
  const std::size_t count = m.sample_at.front().size();
  double squares = 0;
  double freedom = 0;
  for (std::size_t ring = 0; ring < (count + 1) / 2; ++ring) {
    std::vector<double> members;
    for (const auto& line : m.sample_at) {
      for (std::size_t j = 0; j < count; ++j) {
        if (std::min(j, count - 1 - j) == ring && line[j]) {
          members.push_back(v[*line[j]]);
        }
      }
    }
    double mean = 0;
    for (const double x : members) {
      mean += x / static_cast<double>(members.size());
    }
    for (const double x : members) {
      squares += (x - mean) * (x - mean);
    }
    freedom += members.empty() ? 0 : static_cast<double>(members.size()) - 1;
  }
  return {freedom > 0 ? std::sqrt(squares / freedom) : 0, freedom};
}

Scatter gridScatter(const TraverseModel& m, const std::vector<double>& v) {
  const std::size_t rows = m.sample_at.size();
  const std::size_t columns = m.sample_at.front().size();
  std::vector<double> row_sum(rows), row_n(rows), column_sum(columns), column_n(columns);
  double sum = 0;
  double n = 0;
  const auto each = [&](auto&& f) {
    for (std::size_t i = 0; i < rows; ++i) {
      for (std::size_t j = 0; j < columns; ++j) {
        if (m.sample_at[i][j]) {
          f(i, j, v[*m.sample_at[i][j]]);
        }
      }
    }
  };
  each([&](std::size_t i, std::size_t j, double x) {
    row_sum[i] += x;
    row_n[i] += 1;
    column_sum[j] += x;
    column_n[j] += 1;
    sum += x;
    n += 1;
  });
  double squares = 0;
  each([&](std::size_t i, std::size_t j, double x) {
    const double fit = row_sum[i] / row_n[i] + column_sum[j] / column_n[j] - sum / n;
    squares += (x - fit) * (x - fit);
  });
  const double freedom = n - static_cast<double>(rows + columns) + 1;
  return {freedom > 0 ? std::sqrt(squares / freedom) : 0, std::max(0.0, freedom)};
}

Uncertain factor(std::string key, std::string name, double standard, std::string source) {
  Uncertain u;
  u.key = std::move(key);
  u.name = std::move(name);
  u.value = 1;
  u.standard = standard;
  u.source = std::move(source);
  return u;
}

void addFactors(TraverseModel& out, const Measured& bare, bool round) {
  const std::vector<double>& v = bare.sample_speeds_m_s;
  const double n = static_cast<double>(v.size());
  double mean = 0;
  for (const double x : v) {
    mean += x / n;
  }
  const Scatter scatter = round ? ringScatter(out, v) : gridScatter(out, v);
  if (scatter.freedom > 0 && mean > 0) {
    out.scatter_relative = scatter.standard / mean;
    Uncertain u = factor("scatter", "Scatter of the points", out.scatter_relative / std::sqrt(n),
                         round ? "points about the mean of their ring, Gum2008 4.2.3"
                               : "points about row and column, GUM 4.2.3");
    u.freedom = scatter.freedom;
    out.model.factors.push_back(std::move(u));
  }
  out.model.factors.push_back(
      rectangular(factor("integration", "Mean of the points for the mean of the section", 0,
                         std::string(toText(out.plan.rule)) + " on power-law profiles of exponent 6 to 10"),
                  out.plan.integration_bias));
  out.model.factors.push_back(
      factor("straight-run", "Profile left by the straight run",
             straightStandard(out.plan.upstream_diameters, out.plan.downstream_diameters),
             "ours, by the straight-run rules"));
}

void addProfileNotices(const Traverse& t, TraverseModel& out, const Measured& bare, bool round) {
  if (std::holds_alternative<PressureInstrument>(t.instrument) && bare.pressure_pa > 0) {
    const auto& p = bare.sample_pressures_pa;
    const double greatest = std::ranges::max(p);
    const auto low = std::ranges::count_if(p, [&](double x) { return x < kLowPoint * greatest; });
    if (static_cast<double>(low) > kMostLow * static_cast<double>(p.size())) {
      out.notices.push_back({"poor-profile",
                             Notice::Level::Caution,
                             {{"count", Kind::Ratio, static_cast<double>(low)},
                              {"of", Kind::Ratio, static_cast<double>(p.size())}},
                             {},
                             "Amca203, from memory"});
    }
  }
  if (round && t.lines.size() == 1) {
    out.notices.push_back({"one-diameter", Notice::Level::Note, {}, {}, "AcgihIv, from memory"});
  }
}

}  // namespace

Result<TraverseModel> traverseModel(const Traverse& t, std::string_view where) {
  if (const Result<void> ok = checkGrid(t, where); !ok) {
    return tl::unexpected(ok.error());
  }
  PlanRequest request = t.request;
  request.points = static_cast<int>(t.lines.front().size());
  request.lines = static_cast<int>(t.lines.size());
  Result<TraversePlan> plan = planTraverse(request, where);
  if (!plan) {
    return tl::unexpected(plan.error());
  }
  const bool round = std::holds_alternative<RoundSection>(t.request.section.shape);
  TraverseModel out;
  out.plan = std::move(*plan);
  out.model.instrument = t.instrument;
  out.model.legs = t.legs == Legs::Unstated ? Legs::Summed : t.legs;
  out.model.section = t.request.section;
  out.model.air = t.air;
  addSamples(t, out);
  if (const Result<void> ok = shareMissing(t, out, round, where); !ok) {
    return tl::unexpected(ok.error());
  }
  const Result<Measured> bare = measure(out.model, where);
  if (!bare) {
    return tl::unexpected(bare.error());
  }
  addFactors(out, *bare, round);
  addProfileNotices(t, out, *bare, round);
  return out;
}

Result<TraverseResult> measureTraverse(const Traverse& t, std::string_view where) {
  Result<TraverseModel> m = traverseModel(t, where);
  if (!m) {
    return tl::unexpected(m.error());
  }
  Result<Measured> measured = measure(m->model, where);
  if (!measured) {
    return tl::unexpected(measured.error());
  }
  TraverseResult out;
  out.scatter_relative = m->scatter_relative;
  for (const auto& row : m->sample_at) {
    auto& speeds = out.speeds_m_s.emplace_back();
    for (const auto& index : row) {
      speeds.push_back(index ? std::optional(measured->sample_speeds_m_s[*index]) : std::nullopt);
    }
  }
  out.measured = std::move(*measured);
  auto& notices = out.measured.notices;
  notices.insert(notices.end(), m->notices.begin(), m->notices.end());
  notices.insert(notices.end(), m->plan.notices.begin(), m->plan.notices.end());
  const double v = out.measured.speed_m_s;
  if (v > 0 && std::holds_alternative<PressureInstrument>(t.instrument)) {
    notices.push_back({"pressures-averaged",
                       Notice::Level::Note,
                       {{"over", Kind::Ratio, out.measured.rms_speed_m_s / v - 1},
                        {"wrong-speed", Kind::Speed, out.measured.rms_speed_m_s},
                        {"speed", Kind::Speed, v}},
                       {},
                       "Epa40Cfr60M2"});
  }
  if (isUTube(t.instrument) && t.legs == Legs::Unstated) {
    notices.push_back({"one-leg-unclear",
                       Notice::Level::Note,
                       {{"pressure", Kind::Pressure, out.measured.pressure_pa},
                        {"doubled-pressure", Kind::Pressure, 2 * out.measured.pressure_pa},
                        {"speed", Kind::Speed, v},
                        {"doubled-speed", Kind::Speed, v * std::sqrt(2.0)},
                        {"doubled-flow", Kind::VolumeFlow, out.measured.flow_m3_s * std::sqrt(2.0)}},
                       {},
                       "common practice"});
  }
  if (auto verdict = explainClaim(t.claim, m->model, out.measured, usualSuspects(m->model, out.measured))) {
    notices.push_back(std::move(*verdict));
  }
  out.plan = std::move(m->plan);
  return out;
}

}  // namespace kerfdraft::field
