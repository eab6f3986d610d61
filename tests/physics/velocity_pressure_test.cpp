// Velocity pressure and local losses: signs, slopes, and what a note writes down.
#include "physics/velocity_pressure.h"

#include <gtest/gtest.h>

#include "physics/air.h"
#include "physics/differences.h"

namespace kerfdraft::physics {
namespace {

TEST(VelocityPressure, SpeedComesBack) {
  for (const double speed : {0.0, 0.5, 20.0, 40.0}) {
    EXPECT_NEAR(speedFromVelocityPressure(velocityPressure(1.2, speed), 1.2), speed, 1e-12);
  }
}

TEST(LocalLoss, IsKVelocityPressuresWithTheSignOfTheFlow) {
  const double area = roundArea(0.1);
  const double flow = 1.2 * 20 * area;
  const double vp = velocityPressure(1.2, 20);
  EXPECT_NEAR(localLoss(0.3, 0.7, flow, 1.2, area).dp_pa, 0.3 * vp, 1e-12 * vp);
  EXPECT_NEAR(localLoss(0.3, 0.7, -flow, 1.2, area).dp_pa, -0.7 * vp, 1e-12 * vp);
}

TEST(LocalLoss, SlopeIsExactAndFlatAtZero) {
  for (const double flow : {-0.3, -1e-5, 1e-5, 0.02, 0.3}) {
    const auto dp = [](double m) { return localLoss(0.3, 0.7, m, 1.2, 0.008).dp_pa; };
    const double slope = localLoss(0.3, 0.7, flow, 1.2, 0.008).slope_pa_s_kg;
    EXPECT_NEAR(slope, tests::centralDifference(dp, flow, 1e-6), 1e-7 * slope);
  }
  const Loss rest = localLoss(0.3, 0.7, 0, 1.2, 0.008);
  EXPECT_EQ(rest.dp_pa, 0);
  EXPECT_EQ(rest.slope_pa_s_kg, 0);
}

TEST(LocalLoss, GoesAsOneOverDensityAtFixedMassFlow) {
  const double thick = localLoss(0.3, 0.7, 0.1, 1.2, 0.008).dp_pa;
  EXPECT_NEAR(localLoss(0.3, 0.7, 0.1, 0.6, 0.008).dp_pa, 2 * thick, 1e-12 * thick);
}

TEST(LocalLoss, ANoteSeesTheSameNumber) {
  base::Recorder recorder;
  const Loss loss = localLoss(0.3, 0.7, 0.1, 1.2, 0.008, recorder);
  EXPECT_EQ(loss.dp_pa, localLoss(0.3, 0.7, 0.1, 1.2, 0.008).dp_pa);
  ASSERT_EQ(recorder.steps().size(), 3U);
  EXPECT_EQ(recorder.steps()[1].law, &kVelocityPressure);
  EXPECT_NEAR(recorder.steps()[1].result * 0.3, loss.dp_pa, 1e-12);
  EXPECT_EQ(recorder.steps()[2].result, loss.dp_pa);
}

}  // namespace
}  // namespace kerfdraft::physics
