// Straight-run rules and what a short run costs.
#include "field/straight_run.h"

#include <gtest/gtest.h>

namespace kerfdraft::field {
namespace {

bool met(const std::vector<StraightVerdict>& verdicts, std::string_view key) {
  for (const StraightVerdict& v : verdicts) {
    if (v.rule->key == key) {
      return v.met && v.applies;
    }
  }
  ADD_FAILURE() << "no rule " << key;
  return false;
}

TEST(StraightRun, EachRuleHasItsLimits) {
  EXPECT_TRUE(met(judgeStraight(8, 2, 0.4), "epa-8-2"));
  EXPECT_FALSE(met(judgeStraight(7.9, 2, 0.4), "epa-8-2"));
  EXPECT_FALSE(met(judgeStraight(8, 1.9, 0.4), "epa-8-2"));
  EXPECT_TRUE(met(judgeStraight(7.5, 0, 0.1), "trade-7.5"));
  EXPECT_TRUE(met(judgeStraight(20, 5, 0.1), "iso-20-5"));
  EXPECT_FALSE(met(judgeStraight(19, 5, 0.1), "iso-20-5"));
  EXPECT_TRUE(met(judgeStraight(2, 0.5, 0.4), "epa-2-0.5"));
}

TEST(StraightRun, RulesForLargeDuctsDoNotApplyToSmallOnes) {
  EXPECT_FALSE(met(judgeStraight(30, 30, 0.1), "epa-8-2"));
  EXPECT_TRUE(met(judgeStraight(30, 30, 12 * 0.0254), "epa-8-2"));
}

TEST(StraightRun, LongerRunsAreNeverLessCertain) {
  double last = 1;
  for (double up = 0; up <= 25; up += 0.25) {
    const double u = straightStandard(up, up / 4);
    EXPECT_LE(u, last);
    last = u;
  }
  EXPECT_EQ(straightStandard(std::nullopt, std::nullopt), 0.03);
}

TEST(StraightRun, EveryRuleNamesItsSource) {
  for (const StraightRule& rule : straightRules()) {
    EXPECT_FALSE(rule.source.empty());
    EXPECT_FALSE(rule.text.empty());
  }
}

}  // namespace
}  // namespace kerfdraft::field
