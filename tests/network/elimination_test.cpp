// The fixed elimination order against dense solution of random matrices, forward and transposed.
#include "network/elimination.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace kerfdraft::network {
namespace {

struct Random {
  std::vector<std::pair<int, int>> entries;
  std::vector<double> dense;
};

Random randomMatrix(int n, std::mt19937& random) {
  Random m;
  m.dense.assign(static_cast<std::size_t>(n * n), 0.0);
  std::uniform_real_distribution<double> value(-1, 1);
  for (int r = 0; r < n; ++r) {
    for (int c = 0; c < n; ++c) {
      if (r == c || value(random) > 0.75) {
        m.entries.emplace_back(r, c);
        m.dense[static_cast<std::size_t>(r * n + c)] = value(random) + (r == c ? 4.0 : 0.0);
      }
    }
  }
  return m;
}

TEST(Elimination, SolvesRandomSparseSystemsForwardAndTransposed) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> value(-1, 1);
  for (const int n : {1, 2, 5, 12, 30}) {
    const Random m = randomMatrix(n, random);
    const auto size = static_cast<std::size_t>(n);
    const Elimination e(size, m.entries, std::vector<char>(size, 0), std::vector<std::vector<int>>(size));
    std::vector<double> x(size);
    std::vector<double> forward(size, 0);
    std::vector<double> transposed(size, 0);
    for (double& v : x) {
      v = value(random);
    }
    std::vector<double> values(e.valueCount(), 0);
    for (const auto& [r, c] : m.entries) {
      const double a = m.dense[static_cast<std::size_t>(r * n + c)];
      values[static_cast<std::size_t>(e.address(r, c))] = a;
      forward[static_cast<std::size_t>(r)] += a * x[static_cast<std::size_t>(c)];
      transposed[static_cast<std::size_t>(c)] += a * x[static_cast<std::size_t>(r)];
    }
    ASSERT_TRUE(e.solve(values.data(), forward.data()));
    e.solveTransposed(values.data(), transposed.data());
    for (std::size_t i = 0; i < size; ++i) {
      EXPECT_NEAR(forward[i], x[i], 1e-12);
      EXPECT_NEAR(transposed[i], x[i], 1e-12);
    }
  }
}

TEST(Elimination, SaysWhenAPivotVanishes) {
  const Elimination e(2, {{0, 0}, {0, 1}, {1, 0}, {1, 1}}, {0, 0}, {{}, {}});
  std::vector<double> values(e.valueCount(), 1.0);
  std::vector<double> rhs{1, 2};
  EXPECT_FALSE(e.solve(values.data(), rhs.data()));
}

TEST(Elimination, ALongChainHasNoFill) {
  const int n = 2000;
  std::vector<std::pair<int, int>> entries;
  for (int i = 0; i + 1 < n; ++i) {
    entries.emplace_back(i, i + 1);
    entries.emplace_back(i + 1, i);
  }
  const Elimination e(n, entries, std::vector<char>(n, 0), std::vector<std::vector<int>>(n));
  EXPECT_EQ(e.valueCount(), static_cast<std::size_t>(3 * n - 2));
}

}  // namespace
}  // namespace kerfdraft::network
