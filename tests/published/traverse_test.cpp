// Traverse positions and their bias against printed tables.
#include <gtest/gtest.h>

#include <cmath>

#include "field/positions.h"

namespace kerfdraft::field {
namespace {

TEST(PublishedTraverse, MethodOneTable) {
  // 40 CFR 60 Appendix A-1, Method 1, Table 1-2 as read in a copy (2, 4, 6, 8, 10, 12, 16, 20 points); 14,
  // 18, 22, 24 computed from the same formula. First half, percent of D.
  struct Row {
    int points;
    std::vector<double> percent;
  };
  const Row rows[] = {{2, {14.6}},
                      {4, {6.7, 25.0}},
                      {6, {4.4, 14.6, 29.6}},
                      {8, {3.2, 10.5, 19.4, 32.3}},
                      {10, {2.6, 8.2, 14.6, 22.6, 34.2}},
                      {12, {2.1, 6.7, 11.8, 17.7, 25.0, 35.6}},
                      {14, {1.8, 5.7, 9.9, 14.6, 20.1, 26.9, 36.6}},
                      {16, {1.6, 4.9, 8.5, 12.5, 16.9, 22.0, 28.3, 37.5}},
                      {18, {1.4, 4.4, 7.5, 10.9, 14.6, 18.8, 23.6, 29.6, 38.2}},
                      {20, {1.3, 3.9, 6.7, 9.7, 12.9, 16.5, 20.4, 25.0, 30.6, 38.8}},
                      {22, {1.1, 3.5, 6.0, 8.7, 11.6, 14.6, 18.0, 21.8, 26.2, 31.5, 39.3}},
                      {24, {1.1, 3.2, 5.5, 7.9, 10.5, 13.2, 16.1, 19.4, 23.0, 27.2, 32.3, 39.8}}};
  for (const Row& row : rows) {
    const auto y = roundPositions(PointRule::EqualArea, row.points).value();
    for (std::size_t i = 0; i < row.percent.size(); ++i) {
      EXPECT_NEAR(100 * y[i], row.percent[i], 0.05 + 1e-9) << row.points << " points, " << i;
    }
  }
  // Full digits, computed.
  const auto six = roundPositions(PointRule::EqualArea, 6).value();
  EXPECT_NEAR(100 * six[0], 4.3565, 5.1e-5);
  EXPECT_NEAR(100 * six[1], 14.6447, 5.1e-5);
  EXPECT_NEAR(100 * six[2], 29.5876, 5.1e-5);
}

TEST(PublishedTraverse, LogLinearPositions) {
  // Printed in an instrument manual (6, 8, 10 points, there under the other rule's name, its slips
  // corrected); 3 and 5 per radius from memory of ISO 3966 as r/R, to the digits.
  const auto six = roundPositions(PointRule::LogLinear, 6).value();
  const double six_radii[] = {0.9358, 0.7302, 0.3586};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(1 - 2 * six[i], six_radii[i], 0.0011);
  }
  const auto ten = roundPositions(PointRule::LogLinear, 10).value();
  const double ten_radii[] = {0.9622, 0.8470, 0.6950, 0.5658, 0.2776};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(1 - 2 * ten[i], ten_radii[i], 0.0011);
  }
  // woodshop 8.2, from memory of ISO 3966, seen printed too.
  const double woodshop[] = {0.032, 0.135, 0.321, 0.679, 0.865, 0.968};
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_NEAR(six[i], woodshop[i], 1e-12);
  }
}

TEST(PublishedTraverse, LogTchebycheffPositions) {
  // From memory of ISO 3966 (r/R); y/D computed.
  const auto expectHalf = [](int n, std::initializer_list<double> y) {
    const auto positions = roundPositions(PointRule::LogTchebycheff, n).value();
    std::size_t i = 0;
    for (const double v : y) {
      EXPECT_NEAR(positions[i++], v, 5.1e-5) << n;
    }
  };
  expectHalf(6, {0.0321, 0.1374, 0.3123});
  expectHalf(8, {0.0238, 0.1000, 0.1938, 0.3343});
  expectHalf(10, {0.0189, 0.0764, 0.1554, 0.2150, 0.3567});
}

TEST(PublishedTraverse, B13B14B15BiasOnPowerLawProfiles) {
  // Computed, with three-digit log-linear positions: relative error in percent.
  struct Row {
    const char* id;
    double exponent, mean_over_max, equal_6, equal_10, equal_20, log_6, log_10;
  };
  const Row rows[] = {{"B13", 6, 0.791209, 0.986, 0.570, 0.267, -0.355, -0.149},
                      {"B14", 7, 0.816667, 0.920, 0.538, 0.255, -0.274, -0.112},
                      {"B15", 10, 0.865801, 0.746, 0.444, 0.215, -0.147, -0.055}};
  for (const Row& row : rows) {
    const auto percent = [&](PointRule rule, int n) {
      return 100 * roundBias(roundPositions(rule, n).value(), row.exponent);
    };
    EXPECT_NEAR(meanOverMaximum(row.exponent), row.mean_over_max, 5.1e-7) << row.id;
    EXPECT_NEAR(percent(PointRule::EqualArea, 6), row.equal_6, 5.1e-4) << row.id;
    EXPECT_NEAR(percent(PointRule::EqualArea, 10), row.equal_10, 5.1e-4) << row.id;
    EXPECT_NEAR(percent(PointRule::EqualArea, 20), row.equal_20, 5.1e-4) << row.id;
    EXPECT_NEAR(percent(PointRule::LogLinear, 6), row.log_6, 5.1e-4) << row.id;
    EXPECT_NEAR(percent(PointRule::LogLinear, 10), row.log_10, 5.1e-4) << row.id;
  }
}

}  // namespace
}  // namespace kerfdraft::field
