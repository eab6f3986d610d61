// Bands and chances of one number.
#include "doubt/spread.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::doubt {
namespace {

TEST(Spread, ChancesAreSaidInFourWords) {
  EXPECT_EQ(toText(chanceInWords(0.96)), "yes");
  EXPECT_EQ(toText(chanceInWords(0.95)), "likely");
  EXPECT_EQ(toText(chanceInWords(0.67)), "likely");
  EXPECT_EQ(toText(chanceInWords(0.66)), "unlikely");
  EXPECT_EQ(toText(chanceInWords(0.06)), "unlikely");
  EXPECT_EQ(toText(chanceInWords(0.05)), "no");
}

// Values of the normal distribution: NIST handbook of statistical methods, 1.3.6.7.1 (from memory).
TEST(Spread, TheNormalDistributionIsThatOfTheTables) {
  EXPECT_NEAR(normalBelow(0), 0.5, 1e-15);
  EXPECT_NEAR(normalBelow(1), 0.84134, 5e-6);
  EXPECT_NEAR(normalBelow(1.96), 0.97500, 5e-6);
  EXPECT_NEAR(normalBelow(-2), 0.02275, 5e-6);
}

TEST(Spread, AFlowStaysPositiveHoweverWideItsBand) {
  const Spread s = spreadOf(0.2, {0.1, 0.12});
  EXPECT_NEAR(s.sigma, std::hypot(0.1, 0.12), 1e-15);
  ASSERT_TRUE(s.lognormal());
  EXPECT_GT(s.at(-10), 0);
  EXPECT_NEAR(s.at(-2) * s.at(2), 0.04, 1e-12);
  EXPECT_NEAR(s.chanceOfAtLeast(0.2), 0.5, 1e-12);
  EXPECT_NEAR(s.chanceOfAtLeast(s.at(-1)), 0.84134, 5e-6);
  EXPECT_NEAR(s.chanceOfAtLeast(s.at(2)), 0.02275, 5e-6);
  EXPECT_EQ(s.chanceOfAtLeast(0), 1);
}

TEST(Spread, AirThatBlowsOutKeepsItsSign) {
  const Spread s = spreadOf(-0.2, {0.05});
  EXPECT_LT(s.at(2), 0);
  EXPECT_LT(s.at(-2), s.at(2));
  EXPECT_EQ(s.chanceOfAtLeast(0.01), 0);
  EXPECT_NEAR(s.chanceOfAtLeast(s.at(-1)), 0.84134, 5e-6);
}

TEST(Spread, ANumberWhoseSignIsNotKnownIsNormal) {
  const Spread s = spreadOf(0.01, {0.03});
  EXPECT_FALSE(s.lognormal());
  EXPECT_NEAR(s.at(-2), -0.05, 1e-15);
  EXPECT_NEAR(s.chanceOfAtLeast(0.04), 1 - 0.84134, 5e-6);
}

TEST(Spread, WithoutSpreadAChanceIsYesOrNo) {
  const Spread s = spreadOf(0.2, {0, 0});
  EXPECT_EQ(s.chanceOfAtLeast(0.2), 1);
  EXPECT_EQ(s.chanceOfAtLeast(0.21), 0);
  EXPECT_EQ(Spread().relative(), 0);
}

TEST(Spread, ASumKeepsWhatItsPartsShare) {
  // The same input moves both: deviations add; what moves them apart cancels.
  const Spread both = spreadOf(1, {0.1, 0.02}) + spreadOf(2, {0.3, -0.02});
  EXPECT_NEAR(both.value, 3, 1e-15);
  EXPECT_NEAR(both.sigma, 0.4, 1e-12);
  EXPECT_NEAR((Spread() + spreadOf(2, {0.3})).sigma, 0.3, 1e-15);
}

}  // namespace
}  // namespace kerfdraft::doubt
