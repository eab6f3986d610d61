// The table of spreads.
#include "doubt/prior.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "doubt/matters.h"

namespace kerfdraft::doubt {
namespace {

TEST(Prior, HasTheSpreadsOfTheAirModel) {
  EXPECT_EQ(prior("friction").spread, 0.08);
  EXPECT_EQ(prior("hose").spread, 1.6);
  EXPECT_EQ(prior("hose").shape, Shape::Factor);
  EXPECT_EQ(prior("fitting").spread, 0.20);
  EXPECT_EQ(prior("hood-unknown").spread, 1.7);
  EXPECT_EQ(prior("body").spread, 1.7);
  EXPECT_EQ(prior("hood-maker").spread, 0.15);
  EXPECT_EQ(prior("bore").spread, 0.03);
  EXPECT_EQ(prior("fan-certified").spread, 0.05);
  EXPECT_EQ(prior("fan-maker").spread, 0.12);
  EXPECT_EQ(prior("fan-label").spread, 0.30);
  EXPECT_EQ(prior("filter").spread, 1.6);
  EXPECT_EQ(prior("leakage").spread, 2.0);
  EXPECT_EQ(prior("gate-throttled").spread, 2.0);
}

TEST(Prior, EveryRowIsCompleteAndMeasuringNarrowsIt) {
  std::set<std::string_view> keys;
  for (const Prior& row : priors()) {
    EXPECT_TRUE(keys.insert(row.key).second) << row.key;
    EXPECT_FALSE(row.what.empty() || row.known_as.empty() || row.source.empty()) << row.key;
    EXPECT_GT(row.sigma(), 0) << row.key;
    EXPECT_EQ(&prior(row.key), &row);
    EXPECT_EQ(row.measure == Measure::Nothing, howTo(row.measure).empty()) << row.key;
    if (!row.then.empty()) {
      EXPECT_NE(row.measure, Measure::Nothing) << row.key;
      EXPECT_LE(prior(row.then).sigma(), row.sigma()) << row.key;
      EXPECT_EQ(prior(row.then).what.empty(), false) << row.key;
    }
  }
  EXPECT_THROW(prior("moonshine"), base::InternalError);
}

TEST(Prior, FactorsFollowTheirShape) {
  const Prior& hose = prior("hose");
  EXPECT_NEAR(hose.factorAt(1), 1.6, 1e-12);
  EXPECT_NEAR(hose.factorAt(-1), 1 / 1.6, 1e-12);
  EXPECT_NEAR(hose.factorAt(2), 2.56, 1e-12);
  EXPECT_NEAR(hose.sigma(), std::log(1.6), 1e-15);
  const Prior& label = prior("fan-label");
  EXPECT_NEAR(label.factorAt(-2), 0.4, 1e-12);
  EXPECT_NEAR(label.factorAt(-9), 0.05, 1e-12);  // never to nothing
}

}  // namespace
}  // namespace kerfdraft::doubt
