// The curve between and beyond a person's points: shape, smoothness, continuations, and the refusals.
#include "physics/fan_curve.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

using ::testing::HasSubstr;

std::vector<std::vector<FanPoint>> someCurves() {
  return {
      {{0, 10.8}, {400, 10.9}, {800, 9.8}, {1200, 7.2}, {1600, 3.0}},    // a small hump
      {{0, 2500}, {0.5, 0}},                                             // two points
      {{0, 2000}, {0.1, 2000}, {0.2, 1500}, {0.4, 1490}},                // flat start, flat end
      {{0.1, 2000}, {0.2, 1900}, {0.4, 500}},                            // first point above zero flow
      {{0, 1500}, {0.1, 2000}, {0.3, 1200}, {0.35, 1300}, {0.5, 1400}},  // rises again at its end
      {{0, 1500}, {0.3, 1499}, {0.31, 1200}, {0.32, 10}},                // steep end
  };
}

FanCurve curveOf(const std::vector<FanPoint>& points) {
  auto curve = makeFanCurve(points);
  EXPECT_TRUE(curve) << curve.error().text();
  return *curve;
}

TEST(FanCurve, GoesThroughItsPoints) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    for (const auto& point : points) {
      EXPECT_NEAR(curve.value(point.flow_m3_s).p_pa, point.p_pa, 1e-12 * curve.peak().p_pa);
    }
  }
}

TEST(FanCurve, StaysBetweenNeighbouringPoints) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      const double low = std::min(points[i].p_pa, points[i + 1].p_pa);
      const double high = std::max(points[i].p_pa, points[i + 1].p_pa);
      const double slack = 1e-12 * curve.peak().p_pa;
      for (int k = 0; k <= 100; ++k) {
        const double q = points[i].flow_m3_s + (points[i + 1].flow_m3_s - points[i].flow_m3_s) * k / 100.0;
        EXPECT_GE(curve.value(q).p_pa, low - slack);
        EXPECT_LE(curve.value(q).p_pa, high + slack);
      }
    }
  }
}

TEST(FanCurve, SlopeIsTheDerivativeOverAllFlows) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    const double last = curve.lastFlow();
    std::mt19937 random(7);
    std::uniform_real_distribution<double> flow(-1.5 * last, 3 * last);
    for (int k = 0; k < 500; ++k) {
      const double q = flow(random);
      const double numeric =
          tests::centralDifference([&](double x) { return curve.value(x).p_pa; }, q, last, 1e-7);
      EXPECT_NEAR(curve.value(q).dp_d_q, numeric, 2e-4 * curve.peak().p_pa / last) << q;
    }
  }
}

TEST(FanCurve, ValueAndSlopeNeverJump) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    const double last = curve.lastFlow();
    std::vector<double> joints{0, last, -FanCurve::kSlopeBand * last, (1 + FanCurve::kSlopeBand) * last};
    for (const auto& point : points) {
      joints.push_back(point.flow_m3_s);
    }
    for (const double q : joints) {
      const double e = 1e-11 * last;
      const CurveValue left = curve.value(q - e);
      const CurveValue right = curve.value(q + e);
      EXPECT_NEAR(left.p_pa, right.p_pa, 1e-8 * curve.peak().p_pa) << q;
      EXPECT_NEAR(left.dp_d_q, right.dp_d_q, 1e-6 * curve.peak().p_pa / last) << q;
    }
  }
}

TEST(FanCurve, BeyondItsLastPointItIsTheQuadraticOfItsEndSlope) {
  const FanCurve curve = curveOf({{0, 2500}, {0.2, 2200}, {0.5, 100}});
  const double s = curve.value(0.5 - 1e-13).dp_d_q;
  ASSERT_LT(s, -0.1 * 2500 / 0.5);
  for (const double q : {0.5001, 0.6, 1.0, 5.0}) {
    EXPECT_NEAR(curve.value(q).p_pa, 100 + s * (q * q - 0.25) / (2 * 0.5), 1e-8 * std::abs(s) * q * q);
    EXPECT_TRUE(curve.value(q).beyond_data);
  }
  EXPECT_FALSE(curve.value(0.49).beyond_data);
}

TEST(FanCurve, AFlatEndTakesTheLeastFallWithinItsBand) {
  // End slope of the data about zero, so the limit -0.1 p_max/Q_last holds from the band's end on.
  const FanCurve curve = curveOf({{0, 2000}, {0.1, 2000}, {0.2, 1500}, {0.4, 1490}});
  const double limit = -0.1 * 2000 / 0.4;
  for (const double q : {0.409, 0.5, 0.8}) {
    EXPECT_NEAR(curve.value(q).dp_d_q, limit * q / 0.4, 1e-9 * std::abs(limit));
    const double exact = 1490 + limit * (q * q - 0.16) / 0.8;
    EXPECT_GE(curve.value(q).p_pa, exact);
    EXPECT_LE(curve.value(q).p_pa, exact + 0.001 * 2000 + 1e-9);
  }
}

TEST(FanCurve, ReversedFlowMeetsMorePressure) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    const double last = curve.lastFlow();
    const double limit = std::min(curve.value(0).dp_d_q, -0.1 * curve.peak().p_pa / last);
    EXPECT_NEAR(curve.value(-0.5 * last).dp_d_q, limit, 1e-9 * std::abs(limit));
    EXPECT_NEAR(curve.value(-2 * last).p_pa - curve.value(-last).p_pa, -limit * last,
                1e-9 * std::abs(limit * last));
    EXPECT_TRUE(curve.value(-0.01 * last).beyond_data);
    EXPECT_GT(curve.value(-last).p_pa, curve.shutoff());
  }
}

TEST(FanCurve, BelowItsFirstPointItKeepsItsSlope) {
  const FanCurve curve = curveOf({{0.1, 2000}, {0.2, 1900}, {0.4, 500}});
  const double slope = curve.value(0.1).dp_d_q;
  EXPECT_NEAR(curve.value(0.04).p_pa, 2000 - slope * 0.06, 1e-9);
  EXPECT_NEAR(curve.shutoff(), curve.value(0).p_pa, 1e-12);
  EXPECT_TRUE(curve.value(0.05).beyond_data);
  EXPECT_DOUBLE_EQ(curve.firstFlow(), 0.1);
}

TEST(FanCurve, ARisingPartIsAcceptedAndFlagged) {
  const FanCurve hump = curveOf(someCurves()[0]);
  EXPECT_TRUE(hump.hasRisingPart());
  EXPECT_TRUE(hump.value(200).rising);
  EXPECT_FALSE(hump.value(600).rising);
  EXPECT_DOUBLE_EQ(hump.peak().flow_m3_s, 400);
  EXPECT_DOUBLE_EQ(hump.peak().p_pa, 10.9);
  EXPECT_FALSE(curveOf(someCurves()[5]).hasRisingPart());
}

TEST(FanCurve, LargestFlowAtAPressureIsTheLastCrossing) {
  for (const auto& points : someCurves()) {
    const FanCurve curve = curveOf(points);
    const double last = curve.lastFlow();
    const double peak = curve.peak().p_pa;
    for (const double share : {-2.0, 0.0, 0.3, 0.5, 0.7, 0.99, 1.0, 1.5}) {
      const double q = curve.largestFlowAt(share * peak);
      EXPECT_NEAR(curve.value(q).p_pa, share * peak, 1e-9 * peak) << share;
      for (int k = 1; k <= 200; ++k) {
        EXPECT_LT(curve.value(q + last * k / 50.0).p_pa, share * peak + 1e-9 * peak) << share << " " << k;
      }
    }
  }
}

TEST(FanCurve, TheLawCurveIsExactBeyondItsDataToo) {
  const auto made = makeLawCurve(1570, 0.33);
  ASSERT_TRUE(made);
  for (const double q : {0.0, 0.1, 0.2, 0.33, 0.5, 1.0}) {
    EXPECT_NEAR(made->value(q).p_pa, 1570 * (1 - q * q / (0.33 * 0.33)), 1e-11 * 1570 * (1 + q * q / 0.1));
  }
  EXPECT_FALSE(made->value(0.32).beyond_data);
  EXPECT_TRUE(made->value(0.34).beyond_data);
  EXPECT_FALSE(made->hasRisingPart());
  EXPECT_NEAR(made->value(-0.1).dp_d_q, -0.1 * 1570 / 0.33, 1e-9);
  EXPECT_NEAR(made->value(0).dp_d_q, 0, 1e-12);
  EXPECT_NEAR(made->largestFlowAt(1570 * 0.75), 0.165, 1e-12);
}

TEST(FanCurve, TheNoteRepeatsTheSilentNumber) {
  const FanCurve curve = curveOf(someCurves()[0]);
  base::Recorder recorder;
  const CurveValue noted = fanCurvePoint(curve, 333.0, recorder);
  EXPECT_EQ(noted.p_pa, curve.value(333.0).p_pa);
  ASSERT_EQ(recorder.steps().size(), 1U);
  EXPECT_EQ(recorder.steps()[0].result, noted.p_pa);
  EXPECT_EQ(recorder.steps()[0].law->key, "fan-curve-point");
}

struct Refused {
  std::vector<FanPoint> points;
  const char* says;
  const char* where;
};

TEST(FanCurve, RefusesWhatIsNoFanCurveWithASentence) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double inf = std::numeric_limits<double>::infinity();
  const std::vector<Refused> cases{
      {{}, "at least two points, this one has 0", ""},
      {{{0, 100}}, "at least two points, this one has 1", ""},
      {{{0, 100}, {-1, 50}}, "not -1 m3/s", "point 2"},
      {{{0, 100}, {1, -50}}, "not -50 Pa", "point 2"},
      {{{0, nan}, {1, 50}}, "not nan Pa", "point 1"},
      {{{nan, 100}, {1, 50}}, "not nan m3/s", "point 1"},
      {{{0, 100}, {inf, 50}}, "not inf m3/s", "point 2"},
      {{{0, 100}, {1, 90}, {1, 50}}, "1 m3/s follows 1 m3/s", "point 3"},
      {{{0, 100}, {2, 90}, {1, 50}}, "1 m3/s follows 2 m3/s", "point 3"},
      {{{0, 0}, {1, 50}, {2, 10}}, "first pressure", "point 1"},
      {{{0, 100}, {1, 150}, {2, 200}}, "does not fall", "point 3"},
      {{{0, 100}, {1, 100}}, "does not fall", "point 2"},
      {{{0.2, 100}, {0.3, 1000}, {0.4, 10}}, "nothing would be left at zero flow", "point 1"},
      {{{0, 100}, {1e300, 50}}, "m3/s", "point 2"},
      {{{0, 100}, {1e-320, 99}, {1, 5}}, "must increase", ""},
  };
  for (const auto& refused : cases) {
    const auto made = makeFanCurve(refused.points);
    if (std::string(refused.where).empty() && refused.points.size() == 3) {
      // A flow so close to zero that it cannot be told from it: accepted or refused, but never a NaN.
      if (made) {
        EXPECT_TRUE(std::isfinite(made->value(0.5).p_pa));
        EXPECT_TRUE(std::isfinite(made->value(1e-320).dp_d_q));
      }
      continue;
    }
    ASSERT_FALSE(made) << refused.says;
    EXPECT_THAT(made.error().message, HasSubstr(refused.says));
    EXPECT_EQ(made.error().where, refused.where);
  }
  EXPECT_FALSE(makeLawCurve(0, 1));
  EXPECT_FALSE(makeLawCurve(100, 0));
  EXPECT_FALSE(makeLawCurve(nan, 1));
  EXPECT_THAT(makeLawCurve(-3, 1).error().message, HasSubstr("-3 Pa"));
}

}  // namespace
}  // namespace kerfdraft::physics
