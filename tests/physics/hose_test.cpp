// Hose: order of the multipliers, the clamps of the compression factor, bends, refusals.
#include "physics/hose.h"

#include <gtest/gtest.h>

#include <limits>

namespace kerfdraft::physics {
namespace {

using base::Length;

TEST(Hose, LosesMoreRibbedAndMoreSlack) {
  for (const HosePull pull : {HosePull::Tight, HosePull::Hung, HosePull::Slack}) {
    EXPECT_LT(hoseMultiplier(HoseInside::Smooth, pull), hoseMultiplier(HoseInside::Ribbed, pull));
  }
  for (const HoseInside inside : {HoseInside::Smooth, HoseInside::Ribbed}) {
    EXPECT_LT(hoseMultiplier(inside, HosePull::Tight), hoseMultiplier(inside, HosePull::Hung));
    EXPECT_LT(hoseMultiplier(inside, HosePull::Hung), hoseMultiplier(inside, HosePull::Slack));
    EXPECT_GT(hoseMultiplier(inside, HosePull::Tight), 1);
  }
}

TEST(Hose, TheModelsSixMultipliers) {
  EXPECT_EQ(hoseMultiplier(HoseInside::Smooth, HosePull::Tight), 1.25);
  EXPECT_EQ(hoseMultiplier(HoseInside::Smooth, HosePull::Hung), 1.75);
  EXPECT_EQ(hoseMultiplier(HoseInside::Smooth, HosePull::Slack), 4);
  EXPECT_EQ(hoseMultiplier(HoseInside::Ribbed, HosePull::Tight), 2);
  EXPECT_EQ(hoseMultiplier(HoseInside::Ribbed, HosePull::Hung), 2.5);
  EXPECT_EQ(hoseMultiplier(HoseInside::Ribbed, HosePull::Slack), 6);
}

TEST(Hose, StretchedHoseIsNotCorrected) {
  const HoseMultiplier tight = compressedHoseMultiplier(HoseInside::Ribbed, 0, 0.1);
  EXPECT_EQ(tight.value, 2);
  EXPECT_FALSE(tight.extrapolated);
}

TEST(Hose, CompressionIsHeldAtTheEndsOfWhatWasMeasured) {
  EXPECT_EQ(compressionFactor(0.3, 0.05).value, compressionFactor(0.3, 0.1).value);
  EXPECT_TRUE(compressionFactor(0.3, 0.05).extrapolated);
  EXPECT_EQ(compressionFactor(0.2, 0.6).value, compressionFactor(0.2, 0.4).value);
  EXPECT_TRUE(compressionFactor(0.2, 0.6).extrapolated);
  EXPECT_EQ(compressionFactor(0.7, 0.3).value, compressionFactor(0.45, 0.3).value);
  EXPECT_TRUE(compressionFactor(0.7, 0.3).extrapolated);
  EXPECT_EQ(compressionFactor(0.45, 0.1).value, 10);  // the formula says 16.9
  EXPECT_FALSE(compressionFactor(0.45, 0.1).extrapolated);
}

TEST(Hose, BendFallsWithRadiusAndRisesWithAngle) {
  const double right = std::numbers::pi / 2;
  EXPECT_NEAR(hoseBend(2, right), 0.35, 1e-15);
  EXPECT_NEAR(hoseBend(3, right), 0.35, 1e-15);
  EXPECT_NEAR(hoseBend(1.5, right), 0.6, 1e-15);
  EXPECT_NEAR(hoseBend(1.0, right), 1.0, 1e-15);
  EXPECT_NEAR(hoseBend(0.7, right), 1.0, 1e-15);
  EXPECT_NEAR(hoseBend(1.25, right), 0.8, 1e-15);
  EXPECT_NEAR(hoseBend(1.75, right / 2), 0.2375, 1e-15);
  EXPECT_EQ(hoseBend(1.5, 0), 0);
}

TEST(Hose, CompressionFromTwoLengths) {
  EXPECT_NEAR(hoseCompression(Length(2.1), Length(3)).value(), 0.3, 1e-15);
  EXPECT_EQ(hoseCompression(Length(3.2), Length(3)).error().message,
            "Hose of 3.2 m installed cannot be longer than its stretched length of 3 m.");
  EXPECT_EQ(hoseCompression(Length(0.1), Length(3)).error().message,
            "Hose of 3 m stretched cannot be pushed together to 0.1 m.");
  EXPECT_EQ(hoseCompression(Length(0), Length(3)).error().message,
            "Hose of 0 m installed and 3 m stretched: both lengths must be above 0.");
  EXPECT_FALSE(hoseCompression(Length(1), Length(std::numeric_limits<double>::quiet_NaN())).has_value());
}

}  // namespace
}  // namespace kerfdraft::physics
