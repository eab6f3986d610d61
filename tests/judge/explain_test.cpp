// Every number replays to the bit, and every input of it comes from somewhere.
#include "judge/explain.h"

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/explained.h"
#include "judge/shops.h"

namespace kerfdraft {
namespace {

using testing::HasSubstr;

using tests::expectAllExplained;

TEST(Explain, ReplaysEveryNumberOfOneMachine) {
  EXPECT_GT(expectAllExplained(tests::solved(support::oneMachine().builder.project)), 60U);
}

TEST(Explain, ReplaysEveryNumberOfATree) {
  support::TwoBranchTree shop = support::twoBranchTree();
  EXPECT_GT(expectAllExplained(tests::solved(shop.builder.project)), 300U);
}

TEST(Explain, ReplaysEveryNumberOfATreeInOneDensity) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.setting.density = shop::DensityMode::Uniform;
  expectAllExplained(tests::solved(shop.builder.project));
}

TEST(Explain, ReplaysEveryNumberOfARingMain) {
  expectAllExplained(tests::solved(support::ringMain().builder.project));
}

TEST(Explain, ReplaysEveryNumberWithDustGapsHoseSeparatorAndFilter) {
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  expectAllExplained(assessment);
}

TEST(Explain, ReplaysAStandingCollector) {
  support::TwoBranchTree shop = support::twoBranchTree();
  shop.builder.project.states[0].off.push_back(shop.collector);
  expectAllExplained(tests::solved(shop.builder.project));
}

TEST(Explain, NamesWhatWasEntered) {
  const judge::Assessment assessment = tests::solved(support::oneMachine().builder.project);
  std::vector<std::string> refs;
  for (std::size_t i = 0; i < assessment.pieces->runs[0].pieces.size(); ++i) {
    const std::string key = "state/0/run/0/piece/" + std::to_string(i) + "/loss";
    const base::Derivation derivation = judge::explain(assessment, key).value();
    for (const base::Operand& operand : derivation.operands) {
      refs.push_back(operand.ref + " " + operand.text);
    }
  }
  EXPECT_THAT(refs, testing::Contains("/machines/0/ports/0/bore 100 mm"));
  EXPECT_THAT(refs, testing::Contains("/machines/0/ports/0/entry 0.5"));
  EXPECT_THAT(refs, testing::Contains("/ducts/0/corners/0/leg/bore 100 mm"));
  EXPECT_THAT(refs, testing::Contains("/states/0/gates/0/travel 100 %"));
  EXPECT_THAT(refs, testing::Contains("/ducts/0/corners/0/at drawn"));
}

TEST(Explain, EndsAtEnteredValuesCatalogueRowsAndConditions) {
  // Following every number operand must come to an end.
  const judge::Assessment assessment = tests::solved(tests::shopWithEverything());
  std::vector<std::string> open{"state/0/port/0/hood-static"};
  std::vector<std::string> seen;
  while (!open.empty()) {
    const std::string key = open.back();
    open.pop_back();
    if (std::find(seen.begin(), seen.end(), key) != seen.end()) {
      continue;
    }
    seen.push_back(key);
    ASSERT_LT(seen.size(), 2000U);
    const base::Derivation derivation = judge::explain(assessment, key).value();
    for (const base::Operand& operand : derivation.operands) {
      if (operand.from == base::From::Number) {
        open.push_back(operand.ref);
      }
    }
  }
  EXPECT_GT(seen.size(), 5U);
  EXPECT_THAT(seen, testing::Contains("air/density"));
}

TEST(Explain, RefusesWhatIsNotThere) {
  const judge::Assessment assessment = tests::solved(support::oneMachine().builder.project);
  const auto why = [&](const char* key) { return judge::explain(assessment, key).error().message; };
  EXPECT_THAT(why("nonsense"), HasSubstr("state/2/run/4/piece/3/loss"));
  EXPECT_THAT(why("state/9/run/0/slowest"), HasSubstr("no state 9; there are 1"));
  EXPECT_THAT(why("state/0/run/9/slowest"), HasSubstr("no run 9"));
  EXPECT_THAT(why("state/0/run/0/piece/99/loss"), HasSubstr("no piece 99"));
  EXPECT_THAT(why("state/0/run/0/colour"), HasSubstr("there are flow-start"));
  EXPECT_THAT(why("state/0/pipe/0/flow"), HasSubstr("elements are node, run"));
  EXPECT_THAT(why("state/x/run/0/slowest"), HasSubstr("counted from 0"));
  EXPECT_THAT(why("air/colour"), HasSubstr("density, viscosity, pressure"));
}

TEST(Explain, RefusesAStateWithoutASolution) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.project.collectors[0].discharge.room = {};
  const judge::Assessment assessment = tests::solved(shop.builder.project);
  if (!assessment.states[0].solution.solved()) {
    EXPECT_THAT(judge::explain(assessment, "state/0/run/0/slowest").error().message,
                HasSubstr("has no solution"));
    EXPECT_TRUE(judge::numberKeys(assessment, 0).empty());
  }
}

}  // namespace
}  // namespace kerfdraft
