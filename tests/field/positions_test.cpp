// Traverse positions: symmetric, rising, and right on the profile that they were made for.
#include "field/positions.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::field {
namespace {

void expectSymmetricAndRising(const std::vector<double>& y, int count) {
  ASSERT_EQ(y.size(), static_cast<std::size_t>(count));
  for (std::size_t i = 0; i < y.size(); ++i) {
    EXPECT_GT(y[i], 0);
    EXPECT_LT(y[i], 1);
    EXPECT_NEAR(y[i] + y[y.size() - 1 - i], 1, 1e-15);
    if (i > 0) {
      EXPECT_GT(y[i], y[i - 1]);
    }
  }
}

TEST(Positions, RoundOnesAreSymmetricAndRising) {
  for (int n = 2; n <= 48; n += 2) {
    expectSymmetricAndRising(roundPositions(PointRule::EqualArea, n).value(), n);
  }
  for (const int n : {4, 6, 8, 10}) {
    expectSymmetricAndRising(roundPositions(PointRule::LogLinear, n).value(), n);
  }
  for (const int n : {6, 8, 10}) {
    expectSymmetricAndRising(roundPositions(PointRule::LogTchebycheff, n).value(), n);
  }
}

TEST(Positions, SidesAreSymmetricAndRising) {
  for (int n = 1; n <= 48; ++n) {
    expectSymmetricAndRising(sidePositions(PointRule::EqualArea, n).value(), n);
  }
  for (const int n : {5, 6, 7}) {
    expectSymmetricAndRising(sidePositions(PointRule::LogTchebycheff, n).value(), n);
  }
}

TEST(Positions, EqualAreasAreEqual) {
  // Each point halves the area of its ring: i-1/2 rings lie inside it.
  for (const int n : {6, 10, 20}) {
    const auto y = roundPositions(PointRule::EqualArea, n).value();
    for (int i = 0; i < n / 2; ++i) {
      const double r = 1 - 2 * y[static_cast<std::size_t>(i)];
      EXPECT_NEAR(r * r * n / 2, n / 2 - i - 0.5, 1e-12);
    }
  }
}

TEST(Positions, LogarithmicRulesIntegrateTheLogarithmicLaw) {
  // The area mean of ln(y/R) over a circle is -3/2, along a side of half width 1 it is -1: a slip in any
  // digit of a table from memory would show. The residuals are the rules' own and the rounding of digits.
  const auto meanLog = [](const std::vector<double>& y) {
    double sum = 0;
    for (const double x : y) {
      sum += std::log(2 * std::min(x, 1 - x));
    }
    return sum / static_cast<double>(y.size());
  };
  for (const int n : {4, 6, 8, 10}) {
    EXPECT_NEAR(meanLog(roundPositions(PointRule::LogLinear, n).value()), -1.5, 0.003) << n;
  }
  for (const int n : {6, 8, 10}) {
    EXPECT_NEAR(meanLog(roundPositions(PointRule::LogTchebycheff, n).value()), -1.5, 0.004) << n;
  }
  for (const int n : {5, 6, 7}) {
    EXPECT_NEAR(meanLog(sidePositions(PointRule::LogTchebycheff, n).value()), -1.0, 0.016) << n;
  }
}

TEST(Positions, MorePointsLeaveLessBias) {
  const auto bias = [](PointRule rule, int n) {
    return largestBias(roundPositions(rule, n).value(), roundBias);
  };
  EXPECT_LT(bias(PointRule::EqualArea, 10), bias(PointRule::EqualArea, 6));
  EXPECT_LT(bias(PointRule::EqualArea, 20), bias(PointRule::EqualArea, 10));
  EXPECT_LT(bias(PointRule::LogLinear, 10), bias(PointRule::LogLinear, 6));
  EXPECT_LT(bias(PointRule::LogLinear, 6), bias(PointRule::EqualArea, 6));
}

TEST(Positions, BiasOfVeryManyEqualAreasVanishes) {
  // Against the exact mean of the profile: both the rule and the closed form would have to be wrong together.
  EXPECT_LT(std::abs(roundBias(roundPositions(PointRule::EqualArea, 48).value(), 7)), 0.0012);
  EXPECT_LT(std::abs(sideBias(sidePositions(PointRule::EqualArea, 48).value(), 7)), 0.004);
}

TEST(Positions, RefusesNumbersThatARuleDoesNotHave) {
  EXPECT_FALSE(roundPositions(PointRule::EqualArea, 5));
  EXPECT_FALSE(roundPositions(PointRule::EqualArea, 0));
  EXPECT_FALSE(roundPositions(PointRule::EqualArea, 50));
  EXPECT_FALSE(roundPositions(PointRule::LogLinear, 5));
  EXPECT_FALSE(roundPositions(PointRule::LogTchebycheff, 4));
  EXPECT_FALSE(sidePositions(PointRule::LogLinear, 6));
  EXPECT_FALSE(sidePositions(PointRule::LogTchebycheff, 8));
  EXPECT_FALSE(sidePositions(PointRule::EqualArea, 0));
  EXPECT_EQ(roundPositions(PointRule::LogLinear, 5, "--points").error().where, "--points");
}

}  // namespace
}  // namespace kerfdraft::field
