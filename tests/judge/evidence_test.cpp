// What rules may look at: gathered completely, with the ways back to what was drawn.
#include "judge/evidence.h"

#include <gtest/gtest.h>

#include "judge/rule_stage.h"

namespace kerfdraft::judge {
namespace {

using tests::RuleStage;

TEST(Evidence, AMachineAloneGetsWhatTheStateWithItsGateAloneGives) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const Evidence& evidence = stage.evidence();
  ASSERT_EQ(evidence.alone.size(), 2U);
  for (std::size_t port = 0; port < 2; ++port) {
    const std::size_t alone_state = port + 1;
    const auto alone = evidence.aloneFlow(0, port);
    ASSERT_TRUE(alone);
    EXPECT_NEAR(*alone, evidence.state(alone_state).solution.ports[port].flow_m3_s, 1e-9);
    EXPECT_GT(*alone, 1.02 * evidence.state(0).solution.ports[port].flow_m3_s);
    EXPECT_FALSE(evidence.aloneFlow(alone_state, port));
  }
}

TEST(Evidence, SheetsAreOfOpenPortsOnlyAndAPathEndsAtTheFan) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const Evidence& evidence = stage.evidence();
  EXPECT_TRUE(evidence.sheets[0][0] && evidence.sheets[0][1]);
  EXPECT_TRUE(evidence.sheets[1][0]);
  EXPECT_FALSE(evidence.sheets[1][1]);
  const std::vector<std::size_t> path = evidence.path(0, 1);
  ASSERT_EQ(path.size(), 2U);
  EXPECT_EQ(path.front(), evidence.pieces().ports[1].run);
  EXPECT_EQ(path.back(), evidence.path(0, 0).back());
  EXPECT_TRUE(evidence.path(1, 1).empty());
  EXPECT_TRUE(evidence.path(9, 9).empty());
}

TEST(Evidence, ARunKnowsItsDucts) {
  const auto shop = support::twoBranchTree();
  const RuleStage stage(shop.builder.project);
  const Evidence& evidence = stage.evidence();
  const auto ducts = evidence.ductsOfRun(evidence.pieces().ports[1].run);
  ASSERT_EQ(ducts.size(), 1U);
  EXPECT_EQ(ducts[0]->id, shop.branch);
  EXPECT_EQ(evidence.ductOfCorner(ducts[0]->corners[1].id)->id, shop.branch);
  EXPECT_EQ(evidence.ductOfCorner(shop.main), nullptr);
  EXPECT_EQ(evidence.machine(shop.main), nullptr);
  EXPECT_EQ(evidence.machine({}), nullptr);
}

TEST(Evidence, TheFreestStateMovesTheMostAirOfAll) {
  const RuleStage stage(tests::shopWithEverything());
  const Evidence& evidence = stage.evidence();
  ASSERT_TRUE(evidence.freest);
  EXPECT_EQ(evidence.freest->situation.filter, shop::FilterState::Clean);
  for (const StateResult& state : evidence.assessment.states) {
    EXPECT_GT(evidence.freest->solution.fans[0].flow_kg_s, state.solution.fans[0].flow_kg_s);
  }
}

TEST(Evidence, BandsAreOneWhereNoneAreKnown) {
  const auto shop = support::oneMachine();
  const RuleStage plain(shop.builder.project);
  EXPECT_EQ(plain.evidence().speedBand(0, 0).high, 1);
  StateBands bands;
  bands.port_flow = {{0.9, 1.1}};
  const RuleStage banded(shop.builder.project, {bands});
  EXPECT_EQ(banded.evidence().flowBand(0, 0).low, 0.9);
  EXPECT_EQ(banded.evidence().flowBand(0, 5).low, 1);
  EXPECT_EQ(banded.evidence().fanBand(3, 0).low, 1);
}

TEST(Evidence, AnEmptyProjectHasNothingToShowAndDoesNotFail) {
  shop::Project empty;
  empty.air.temperature = support::given<base::Temperature>("20 °C");
  const RuleStage stage(empty);
  EXPECT_TRUE(stage.evidence().alone.empty());
  EXPECT_FALSE(stage.evidence().freest);
  EXPECT_EQ(stage.evidence().machineName({}), "a machine");
}

}  // namespace
}  // namespace kerfdraft::judge
