// Leaks and openings: odd, rising, exact slopes, the power law away from zero.
#include "physics/leak.h"

#include <gtest/gtest.h>

#include <cmath>

#include "physics/differences.h"
#include "physics/opening.h"

namespace kerfdraft::physics {
namespace {

TEST(Leak, IsThePowerLawAwayFromZero) {
  for (const double p : {10.0, 250.0, 2000.0, 25000.0}) {
    EXPECT_NEAR(leakFlow(2e-5, p).flow_m3_s / (2e-5 * std::pow(p, 0.65)), 1, 1.1e-6 * (100 / (p * p)));
  }
}

TEST(Leak, IsOddAndRisesWithFiniteSlope) {
  double last = leakFlow(2e-5, -3000).flow_m3_s;
  for (const double p : {-100.0, -1.0, -0.01, 0.0, 1e-6, 0.01, 0.1, 2.0, 3000.0}) {
    const LeakFlow leak = leakFlow(2e-5, p);
    EXPECT_GT(leak.flow_m3_s, last) << p;
    EXPECT_GT(leak.slope_m3_s_pa, 0);
    EXPECT_EQ(leak.flow_m3_s, -leakFlow(2e-5, -p).flow_m3_s);
    last = leak.flow_m3_s;
  }
  EXPECT_EQ(leakFlow(2e-5, 0).flow_m3_s, 0);
  EXPECT_NEAR(leakFlow(2e-5, 0).slope_m3_s_pa, 2e-5 * std::pow(kLeakKnee_pa, -0.35), 1e-15);
}

TEST(Leak, SlopeIsExact) {
  const auto flow = [](double p) { return leakFlow(2e-5, p).flow_m3_s; };
  for (const double p : {-2000.0, -3.0, -0.05, -0.01, 0.0, 0.02, 0.3, 40.0, 25000.0}) {
    const double slope = leakFlow(2e-5, p).slope_m3_s_pa;
    EXPECT_NEAR(slope, tests::centralDifference(flow, p, 0.01, 1e-4), 1e-7 * slope) << p;
  }
}

TEST(Leak, CoefficientIsLinearInClassAndArea) {
  EXPECT_NEAR(leakCoefficient(24, 2), 16 * leakCoefficient(3, 1), 1e-18);
  EXPECT_EQ(leakCoefficient(0, 5), 0);
  EXPECT_EQ(leakFlow(0, 100).flow_m3_s, 0);
}

TEST(Leak, ANoteSeesTheSameNumber) {
  base::Recorder recorder;
  EXPECT_EQ(leakFlow(leakCoefficient(3, 1, recorder), 500, recorder).flow_m3_s,
            leakFlow(leakCoefficient(3, 1), 500).flow_m3_s);
  EXPECT_EQ(recorder.steps().size(), 2U);
}

TEST(Opening, IsTheOrificeLawBothWays) {
  // 0.61 A sqrt(2 dp/rho): 10 Pa through 0.02 m2 at 1.2 kg/m3.
  const double flow = 1.2 * 0.61 * 0.02 * std::sqrt(2 * 10 / 1.2);
  EXPECT_NEAR(opening(flow, 1.2, 0.02).dp_pa, 10, 1e-12);
  EXPECT_NEAR(opening(-flow, 1.2, 0.02).dp_pa, -10, 1e-12);
}

TEST(Opening, SlopeIsExactAndFlatAtRest) {
  const auto dp = [](double m) { return opening(m, 1.2, 0.02).dp_pa; };
  for (const double flow : {-0.2, -1e-4, 1e-4, 0.5}) {
    const double slope = opening(flow, 1.2, 0.02).slope_pa_s_kg;
    EXPECT_NEAR(slope, tests::centralDifference(dp, flow, 1e-6), 1e-7 * slope);
  }
  EXPECT_EQ(opening(0, 1.2, 0.02).slope_pa_s_kg, 0);
}

TEST(Opening, ANoteSeesTheSameNumber) {
  base::Recorder recorder;
  const double dp_pa = opening(0.1, 1.2, 0.02, recorder).dp_pa;
  EXPECT_EQ(dp_pa, recorder.steps().at(0).result);
  EXPECT_EQ(dp_pa, opening(0.1, 1.2, 0.02).dp_pa);
}

}  // namespace
}  // namespace kerfdraft::physics
