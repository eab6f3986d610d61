// A warm start changes nothing: every set of gates of every example, every running of its fans and every
// place of its moved hose, solved from the neighbouring set's answer and from nothing.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iostream>

#include "example_shop.h"

namespace kerfdraft::examples {
namespace {

/// Flows may differ by this share of the largest flow: both answers hold mass to 1e-9 of it.
constexpr double kSame = 1e-8;

struct Worst {
  double flow = 0;  ///< largest difference over the largest flow
  double allowed = 0;
  std::uint64_t sets = 0;
};

void compare(const network::Workspace& warm, const network::Workspace& cold, Worst& worst) {
  double scale = 1e-6;
  double difference = 0;
  for (std::size_t r = 0; r < cold.runFlow().size(); ++r) {
    scale = std::max(scale, std::abs(cold.runFlow()[r]));
    difference = std::max(difference, std::abs(warm.runFlow()[r] - cold.runFlow()[r]));
  }
  for (std::size_t f = 0; f < cold.fanFlow().size(); ++f) {
    scale = std::max(scale, std::abs(cold.fanFlow()[f]));
    difference = std::max(difference, std::abs(warm.fanFlow()[f] - cold.fanFlow()[f]));
  }
  worst.flow = std::max(worst.flow, difference / scale);
}

/// Walks all gate sets of one situation in Gray order.
void walkGates(const Shop& shop, network::Situation situation, network::Workspace& warm, Worst& worst) {
  network::Workspace cold(shop.network());
  const std::size_t gates = shop.pieces().gates.size();
  for (std::uint64_t i = 0; i < (std::uint64_t{1} << gates); ++i) {
    const std::uint64_t open = i ^ (i >> 1U);
    for (std::size_t g = 0; g < gates; ++g) {
      situation.gate_travel[g] = ((open >> g) & 1U) != 0 ? 1 : 0;
    }
    const network::Report w = network::solve(shop.network(), situation, warm,
                                             worst.sets == 0 ? network::Start::Cold : network::Start::Warm);
    const network::Report c = network::solve(shop.network(), situation, cold, network::Start::Cold);
    ASSERT_TRUE(w.usable() && c.usable()) << "gates " << open;
    ASSERT_EQ(w.outcome, c.outcome) << "gates " << open;
    worst.allowed = std::max({worst.allowed, w.worst_allowed, c.worst_allowed});
    compare(warm, cold, worst);
    ++worst.sets;
  }
}

Worst walk(const Shop& shop) {
  Worst worst;
  network::Workspace warm(shop.network());
  const std::size_t fans = shop.pieces().fans.size();
  const int places =
      shop.pieces().moved.empty() ? 0 : static_cast<int>(shop.pieces().moved.front().places.size());
  for (std::uint64_t on = 1; on < (std::uint64_t{1} << fans); ++on) {
    for (int place = places == 0 ? 0 : -1; place < std::max(1, places); ++place) {
      network::Situation situation = network::restingSituation(shop.pieces());
      for (std::size_t f = 0; f < fans; ++f) {
        situation.fan_on[f] = ((on >> f) & 1U) != 0 ? 1 : 0;
      }
      if (places > 0) {
        situation.hose_place.front() = place;
      }
      walkGates(shop, situation, warm, worst);
    }
  }
  return worst;
}

class GateSets : public testing::TestWithParam<std::string> {};

TEST_P(GateSets, WarmEqualsCold) {
  const Shop shop(exampleProject(GetParam()));
  ASSERT_LE(shop.pieces().gates.size(), 12U) << "walk a sample beyond 12 gates";
  const Worst worst = walk(shop);
  EXPECT_LT(worst.flow, kSame);
  EXPECT_LE(worst.allowed, 1);
  std::cout << GetParam() << ": " << worst.sets << " sets, warm and cold differ by at most " << worst.flow
            << " of the largest flow\n";
}

std::string testName(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param.substr(0, info.param.find('.'));
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(OfEachExample, GateSets, testing::ValuesIn(exampleNames()), testName);

}  // namespace
}  // namespace kerfdraft::examples
