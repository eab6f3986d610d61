// The starter shop passes the invariants and solves, whatever machines stand in it.
#include "pieces/starter.h"

#include "shop/invariants.h"
#include "support/shipped.h"

namespace kerfdraft::pieces {

using namespace support;
namespace {

TEST(Starter, EveryKindOfMachineSolves) {
  const catalogue::Table& kinds = **shipped().table("machine_kinds");
  ASSERT_GT(kinds.rows().size(), 10U);
  for (const catalogue::Row& row : kinds.rows()) {
    const judge::Assessment assessment = starter({row.key});
    ASSERT_EQ(assessment.states.size(), 1U) << row.key;
    EXPECT_EQ(assessment.states[0].solution.outcome, network::Outcome::Solved) << row.key;
    EXPECT_GT(assessment.states[0].solution.ports[0].flow_m3_s, 0.01) << row.key;
    EXPECT_TRUE(shop::checkProject(*assessment.project).empty()) << row.key;
  }
}

TEST(Starter, EachMachineAloneIsAState) {
  const judge::Assessment assessment = starter({"table-saw", "planer", "band-saw", "lathe"});
  EXPECT_EQ(assessment.states.size(), 4U);
  EXPECT_EQ(assessment.pieces->gates.size(), 4U);
  EXPECT_EQ(assessment.pieces->junctions.size(), 3U);
  for (std::size_t s = 0; s < 4; ++s) {
    const auto& ports = assessment.states[s].solution.ports;
    std::size_t most = 0;
    for (std::size_t p = 0; p < ports.size(); ++p) {
      most = ports[p].flow_m3_s > ports[most].flow_m3_s ? p : most;
    }
    EXPECT_EQ(assessment.project->machines[s].id, assessment.pieces->ports[most].ref.machine) << s;
  }
}

TEST(Starter, RefusesARoomTooSmallAndUnknownKinds) {
  base::SeededIds ids(1);
  StarterRequest small = starterRequest({"planer", "planer", "planer"});
  small.width_m = 4;
  const auto refused = starterProject(small, shipped(), ids);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().where, "--room");
  const auto unknown = starterProject(starterRequest({"plainer"}), shipped(), ids);
  ASSERT_FALSE(unknown);
  EXPECT_NE(unknown.error().message.find("planer"), std::string::npos) << unknown.error().message;
  EXPECT_FALSE(starterProject(starterRequest({}), shipped(), ids));
}

}  // namespace
}  // namespace kerfdraft::pieces
