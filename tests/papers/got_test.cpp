// What machines get, in the words of readers.
#include "papers/got.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "paper_stage.h"

namespace kerfdraft::papers {
namespace {

TEST(Got, BandsHoldTheFlow) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(judge::Reader::Adviser, base::UnitSystem::Us);
    for (const std::size_t s : movingStates(input)) {
      for (const Got& got : gotIn(input, s)) {
        ASSERT_TRUE(got.margin->open);
        if (got.low()) {
          EXPECT_LE(*got.low(), got.margin->flow_m3_s) << stage.name << " " << got.name;
          EXPECT_GE(*got.high(), got.margin->flow_m3_s);
        }
      }
    }
  }
}

TEST(Got, TheSlowestRunLiesOnTheWay) {
  std::size_t seen = 0;
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(judge::Reader::Adviser, base::UnitSystem::Us);
    for (const std::size_t s : movingStates(input)) {
      for (const Got& got : gotIn(input, s)) {
        if (got.slowest == nullptr || !got.margin->port) {
          continue;
        }
        const auto path = input.evidence.path(s, *got.margin->port);
        EXPECT_NE(std::find(path.begin(), path.end(), got.slowest->run), path.end());
        for (const judge::RunMargin& run : input.evidence.margins[s].runs) {
          if (std::find(path.begin(), path.end(), run.run) != path.end()) {
            EXPECT_GE(run.ratio, got.slowest->ratio);
          }
        }
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 50U);
}

TEST(Got, AConclusionNeedsTheWholeBand) {
  judge::FlowMargin margin;
  margin.target_m3_s = 1;
  margin.flow_m3_s = 1;
  doubt::FlowChance chance;
  chance.flow = doubt::Spread{1, 0.02, {}};
  Got got;
  got.margin = &margin;
  EXPECT_EQ(conclusion(got), "cannot conclude");
  got.chance = &chance;
  EXPECT_EQ(conclusion(got), "met");
  chance.flow.sigma = 0.2;
  EXPECT_EQ(conclusion(got), "cannot conclude");
  chance.flow = doubt::Spread{0.7, 0.02, {}};
  EXPECT_EQ(conclusion(got), "not met");
  margin.target_m3_s.reset();
  EXPECT_EQ(conclusion(got), "nothing intended");
}

TEST(Got, ListsReadAsAPersonSpeaks) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"a"}), "a");
  EXPECT_EQ(listed({"a", "b"}), "a and b");
  EXPECT_EQ(listed({"a", "b", "c"}), "a, b and c");
}

}  // namespace
}  // namespace kerfdraft::papers
