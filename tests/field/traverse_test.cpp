// Traverses: the mean of the speeds, bad points, scatter, and the classic mistakes.
#include "field/traverse.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "field/sampling.h"

namespace kerfdraft::field {
namespace {

using testing::kInch_m;
using testing::kInchWater_pa;

using Line = std::vector<std::optional<double>>;

Traverse traverseOf(std::vector<Line> lines_inwg, PointRule rule = PointRule::LogLinear) {
  Traverse t;
  t.request.section = testing::roundSection(6 * kInch_m);
  t.request.rule = rule;
  t.request.upstream_m = 1.5;
  t.request.downstream_m = 0.4;
  t.instrument = testing::pitotWith(DigitalGauge{});
  t.lines = std::move(lines_inwg);
  for (Line& line : t.lines) {
    for (auto& raw : line) {
      if (raw) {
        *raw *= kInchWater_pa;
      }
    }
  }
  t.air = testing::airOfDensity(physics::kStandardDensity_kg_m3);
  return t;
}

bool has(const TraverseResult& r, std::string_view key) {
  return std::ranges::find(r.measured.notices, key, &Notice::key) != r.measured.notices.end();
}

const Line kLineA = {0.62, 0.80, 0.95, 0.97, 0.83, 0.60};
const Line kLineB = {0.58, 0.78, 0.93, 0.96, 0.82, 0.63};

TEST(Traverse, MeanIsThatOfTheSpeeds) {
  const TraverseResult r = measureTraverse(traverseOf({kLineA, kLineB})).value();
  double roots = 0;
  for (const Line& line : {kLineA, kLineB}) {
    for (const auto& p : line) {
      roots += std::sqrt(2 * *p * kInchWater_pa / physics::kStandardDensity_kg_m3);
    }
  }
  EXPECT_NEAR(r.measured.speed_m_s, roots / 12, 1e-9);
  EXPECT_TRUE(has(r, "pressures-averaged"));
  EXPECT_GT(r.measured.rms_speed_m_s, r.measured.speed_m_s);
  EXPECT_EQ(r.speeds_m_s.size(), 2U);
}

TEST(Traverse, AProfileWithoutScatterHasNone) {
  // The same symmetric profile on both diameters: what the profile explains is not scatter.
  const Line profile = {0.6, 0.8, 0.95, 0.95, 0.8, 0.6};
  EXPECT_NEAR(measureTraverse(traverseOf({profile, profile}))->scatter_relative, 0, 1e-12);
  EXPECT_GT(measureTraverse(traverseOf({kLineA, kLineB}))->scatter_relative, 0.005);
}

TEST(Traverse, ScatterIsRecoveredFromNoise) {
  // Speeds with 3 % of normal noise about a profile; the pooled deviation over many traverses comes back.
  std::mt19937 engine(5);
  std::normal_distribution<double> noise(0, 0.03);
  const double shape[] = {0.85, 0.95, 1.05, 1.05, 0.95, 0.85};
  double squares = 0;
  constexpr int kTraverses = 400;
  for (int k = 0; k < kTraverses; ++k) {
    std::vector<Line> lines(2);
    for (Line& line : lines) {
      for (const double s : shape) {
        const double v = s + noise(engine);
        line.emplace_back(v * v);
      }
    }
    const double u = measureTraverse(traverseOf(lines))->scatter_relative;
    squares += u * u;
  }
  EXPECT_NEAR(std::sqrt(squares / kTraverses), 0.03 / 0.95, 0.0015);
}

TEST(Traverse, AMissingPointIsStoodInForByItsRing) {
  Line with = kLineB;
  with[0].reset();
  const TraverseResult r = measureTraverse(traverseOf({kLineA, with})).value();
  EXPECT_TRUE(has(r, "missing-filled"));
  EXPECT_FALSE(r.speeds_m_s[1][0]);
  // By hand: the missing speed is the mean of the other three of its ring.
  double roots = (std::sqrt(0.62) + std::sqrt(0.60) + std::sqrt(0.63)) / 3;
  for (const Line& line : {kLineA, with}) {
    for (const auto& p : line) {
      roots += p ? std::sqrt(*p) : 0;
    }
  }
  EXPECT_NEAR(r.measured.speed_m_s,
              roots / 12 * std::sqrt(2 * kInchWater_pa / physics::kStandardDensity_kg_m3), 1e-9);
}

TEST(Traverse, AMissingRingOrTooManyMissingAreRefused) {
  Line a = kLineA;
  Line b = kLineB;
  a[0].reset();
  a[5].reset();
  b[0].reset();
  b[5].reset();
  EXPECT_FALSE(measureTraverse(traverseOf({a, b})));
  a = kLineA;
  b = kLineB;
  a[0].reset();
  a[1].reset();
  a[2].reset();
  b[3].reset();
  const auto refused = measureTraverse(traverseOf({a, b}), "--readings");
  ASSERT_FALSE(refused);
  EXPECT_NE(refused.error().message.find("quarter"), std::string::npos);
}

TEST(Traverse, NegativePointsCountAsNoSpeed) {
  Line with = kLineA;
  with[0] = -0.05;
  const TraverseResult r = measureTraverse(traverseOf({with, kLineB})).value();
  EXPECT_TRUE(has(r, "negative-as-zero"));
  EXPECT_EQ(r.speeds_m_s[0][0], 0);
  EXPECT_LT(r.measured.speed_m_s, measureTraverse(traverseOf({kLineA, kLineB}))->measured.speed_m_s);
  EXPECT_TRUE(std::isfinite(r.measured.flow.expanded));
}

TEST(Traverse, AllNegativeMeansSwappedHoses) {
  Line a = kLineA;
  Line b = kLineB;
  for (Line* line : {&a, &b}) {
    for (auto& p : *line) {
      p = -*p;
    }
  }
  const TraverseResult r = measureTraverse(traverseOf({a, b})).value();
  EXPECT_TRUE(has(r, "hoses-swapped"));
  EXPECT_NEAR(r.measured.speed_m_s, measureTraverse(traverseOf({kLineA, kLineB}))->measured.speed_m_s, 1e-12);
}

TEST(Traverse, AnUnevenProfileIsCautioned) {
  const Line poor = {0.05, 0.04, 0.9, 1.0, 0.05, 0.03};
  EXPECT_TRUE(has(measureTraverse(traverseOf({poor, poor})).value(), "poor-profile"));
  EXPECT_FALSE(has(measureTraverse(traverseOf({kLineA, kLineB})).value(), "poor-profile"));
}

TEST(Traverse, OneDiameterIsSaid) {
  EXPECT_TRUE(has(measureTraverse(traverseOf({kLineA})).value(), "one-diameter"));
}

TEST(Traverse, AClaimFromAveragedPressuresIsRecognized) {
  const Line ragged = {0.04, 0.16, 0.36, 0.64, 1.00, 0.5};
  Traverse t = traverseOf({ragged, ragged});
  t.claim.speed_m_s = measureTraverse(t)->measured.rms_speed_m_s;
  EXPECT_TRUE(has(measureTraverse(t).value(), "claim-pressures-averaged"));
}

TEST(Traverse, AShorterStraightRunIsLessCertain) {
  Traverse t = traverseOf({kLineA, kLineB});
  const double good = measureTraverse(t)->measured.speed.combined;
  t.request.upstream_m = 0.2;
  const TraverseResult r = measureTraverse(t).value();
  EXPECT_GT(r.measured.speed.combined, good);
  EXPECT_TRUE(has(r, "straight-run-short"));
}

TEST(Traverse, RectanglesSeparateProfileFromScatter) {
  Traverse t = traverseOf({});
  t.request.section.shape = RectangularSection{0.4, 0.3};
  t.request.rule = PointRule::LogTchebycheff;
  const double along[] = {0.8, 0.95, 1.0, 0.96, 0.82};
  const double across[] = {0.05, 0.1, 0.0, -0.05, -0.1};
  for (const double a : across) {
    Line line;
    for (const double v : along) {
      line.emplace_back(300 * (v + a) * (v + a));
    }
    t.lines.push_back(line);
  }
  EXPECT_NEAR(measureTraverse(t)->scatter_relative, 0, 1e-9);
  const double whole = measureTraverse(t)->measured.speed_m_s;
  t.lines[2][2].reset();
  // Neighbours are 0.95 and 0.96 in the line, 1.10 and 0.95 across: their mean is 0.99 where 1.00 was.
  const TraverseResult r = measureTraverse(t).value();
  EXPECT_TRUE(has(r, "missing-filled"));
  EXPECT_NEAR(r.measured.speed_m_s / whole, 1 - 0.01 / 25 / 0.906, 1e-5);
}

TEST(Traverse, BudgetAgreesWithMonteCarlo) {
  const Traverse t = traverseOf({kLineA, kLineB});
  const TraverseModel model = traverseModel(t).value();
  const TraverseResult r = measureTraverse(t).value();
  const testing::Sampled s = testing::sample(model.model, 30000, 3);
  EXPECT_NEAR(s.flow_deviation, r.measured.flow.combined, 0.02 * r.measured.flow.combined);
  EXPECT_NEAR(s.speed_deviation, r.measured.speed.combined, 0.02 * r.measured.speed.combined);
}

TEST(Traverse, RefusesGridsThatDoNotFit) {
  EXPECT_FALSE(measureTraverse(traverseOf({})));
  EXPECT_FALSE(measureTraverse(traverseOf({{}})));
  EXPECT_FALSE(measureTraverse(traverseOf({kLineA, {0.5, 0.6}})));
  EXPECT_FALSE(measureTraverse(traverseOf({{0.5, 0.6, 0.7, 0.8, 0.9}})));
  Traverse t = traverseOf({kLineA, kLineB});
  t.request.points = 10;
  const auto refused = measureTraverse(t);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, base::ErrorCode::Conflict);
  t = traverseOf({kLineA});
  t.lines[0][1] = std::nan("");
  EXPECT_FALSE(measureTraverse(t));
}

}  // namespace
}  // namespace kerfdraft::field
