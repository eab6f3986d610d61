// Round numbers on axes.
#include "drawing/ticks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <set>

namespace kerfdraft::drawing {
namespace {

TEST(Ticks, AreWhatAPersonWouldChoose) {
  EXPECT_EQ(niceTicks(0, 1930, 4).at, (std::vector<double>{0, 500, 1000, 1500, 2000}));
  EXPECT_EQ(niceTicks(0, 13.9, 6).at, (std::vector<double>{0, 5, 10, 15}));
  EXPECT_EQ(niceTicks(-8.7, 1.8, 6).at, (std::vector<double>{-10, -8, -6, -4, -2, 0, 2}));
  EXPECT_EQ(niceTicks(0, 0.043, 5).digits, 2);
}

TEST(Ticks, HoldEveryRangeWithTextsThatDiffer) {
  std::mt19937_64 random(11);
  std::uniform_real_distribution<double> power(-9, 9);
  std::uniform_real_distribution<double> share(-1, 1);
  for (int k = 0; k < 5000; ++k) {
    const double scale = std::pow(10, power(random));
    const double a = share(random) * scale;
    const double b = share(random) * scale;
    const Ticks ticks = niceTicks(a, b, 1 + k % 9);
    ASSERT_GE(ticks.at.size(), 2U);
    ASSERT_LE(ticks.at.size(), 25U);
    EXPECT_LE(ticks.at.front(), std::min(a, b) + 1e-9 * scale);
    EXPECT_GE(ticks.at.back(), std::max(a, b) - 1e-9 * scale);
    std::set<std::string> texts;
    for (const double tick : ticks.at) {
      texts.insert(ticks.text(tick));
    }
    EXPECT_EQ(texts.size(), ticks.at.size()) << a << " to " << b;
  }
}

TEST(Ticks, BadRangesGiveSomethingToDrawOn) {
  for (const auto& [a, b] : {std::pair{0.0, 0.0},
                             {5.0, 5.0},
                             {-3.0, -3.0},
                             {std::nan(""), 1.0},
                             {0.0, HUGE_VAL},
                             {1e-300, 2e-300}}) {
    const Ticks ticks = niceTicks(a, b, 5);
    ASSERT_GE(ticks.at.size(), 2U);
    ASSERT_LE(ticks.at.size(), 25U);
    EXPECT_GT(ticks.at.back(), ticks.at.front());
  }
  EXPECT_EQ(niceTicks(0, 1, 5).text(-0.0), "0.0");
}

}  // namespace
}  // namespace kerfdraft::drawing
