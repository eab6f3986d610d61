// Bands as findings take them.
#include "doubt/bands.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shops.h"

namespace kerfdraft::doubt {
namespace {

TEST(Bands, AreFactorsAtTwoStandardDeviations) {
  const judge::Band band = bandOf(spreadOf(0.2, {0.02}));
  EXPECT_NEAR(band.low, std::exp(-0.2), 1e-12);
  EXPECT_NEAR(band.high, std::exp(0.2), 1e-12);
  const judge::Band blown = bandOf(spreadOf(-0.2, {0.02}));
  EXPECT_NEAR(blown.low, std::exp(-0.2), 1e-12);
  EXPECT_NEAR(blown.high, std::exp(0.2), 1e-12);
  const judge::Band unknown = bandOf(spreadOf(0.01, {0.03}));
  EXPECT_NEAR(unknown.low, -5, 1e-12);
  EXPECT_NEAR(unknown.high, 7, 1e-12);
  EXPECT_EQ(bandOf(Spread()).low, 1);
  EXPECT_EQ(bandOf(spreadOf(3, {0})).high, 1);
}

TEST(Bands, CoverEveryRunPortAndFanOfADefinedState) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states[1].off = {shop.collector};
  const judge::Assessment a = assessed(shop.builder.project);
  const auto bands = assessBands(a, shipped());
  ASSERT_EQ(bands.size(), a.states.size());
  EXPECT_EQ(bands[0].run_speed.size(), a.pieces->runs.size());
  EXPECT_EQ(bands[0].port_flow.size(), a.pieces->ports.size());
  EXPECT_EQ(bands[0].fan_flow.size(), a.pieces->fans.size());
  for (const judge::Band& band : bands[0].port_flow) {
    EXPECT_GT(band.low, 0);
    EXPECT_LT(band.low, 1);
    EXPECT_GT(band.high, 1);
  }
  EXPECT_TRUE(bands[1].port_flow.empty());
}

}  // namespace
}  // namespace kerfdraft::doubt
