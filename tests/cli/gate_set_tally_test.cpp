// The summary of all gate sets against solving every set by itself.
#include "cli/gate_set_tally.h"

#include <map>

#include "network/solve.h"
#include "support/shipped.h"

namespace kerfdraft::cli {

using support::shipped;
using support::starter;
namespace {

TEST(GateSetTally, AgreesWithSolvingEachSetAlone) {
  const judge::Assessment assessment = starter({"table-saw", "planer", "band-saw"});
  const network::Situation rest = network::restingSituation(*assessment.pieces);
  GateSetTally tally(assessment, rest);
  std::uint64_t served = 0;
  const auto walked =
      network::solveGateSets(*assessment.network, rest, {},
                             [&](const network::GateSetResult& set) { served += tally.take(set) ? 1U : 0U; });
  ASSERT_TRUE(walked);
  EXPECT_EQ(*walked, 8U);

  // The same by the slow way: every set as a state of its own, judged by the judge.
  judge::Assessment slow = assessment;
  slow.states.clear();
  for (unsigned set = 0; set < 8; ++set) {
    judge::StateResult state;
    state.situation = rest;
    for (std::size_t g = 0; g < 3; ++g) {
      state.situation.gate_travel[g] = ((set >> g) & 1U) != 0 ? 1 : 0;
    }
    state.solution = network::solveFully(*assessment.network, state.situation);
    slow.states.push_back(std::move(state));
  }
  const auto margins = judge::margins(slow, shipped());
  ASSERT_TRUE(margins);
  std::uint64_t served_slowly = 0;
  std::map<std::string, std::pair<std::uint64_t, double>> least;
  for (const judge::StateMargins& state : *margins) {
    served_slowly += state.served ? 1U : 0U;
    for (const judge::FlowMargin& machine : state.machines) {
      if (machine.open) {
        auto& [count, flow] = least[machine.label];
        flow = count == 0 ? machine.flow_m3_s : std::min(flow, machine.flow_m3_s);
        ++count;
      }
    }
  }
  EXPECT_EQ(served, served_slowly);
  ASSERT_EQ(tally.asked().size(), 3U);
  for (const AskedTally& asked : tally.asked()) {
    const auto& [count, flow] = least.at(asked.label.substr(0, asked.label.find(' ')));
    EXPECT_EQ(asked.open, count) << asked.label;
    ASSERT_TRUE(asked.least);
    EXPECT_NEAR(asked.least->flow_m3_s, flow, 1e-7 * flow) << asked.label;
  }
  EXPECT_EQ(tally.counts()[0].sets, 1U);
  EXPECT_EQ(tally.counts()[1].sets, 3U);
  EXPECT_EQ(tally.counts()[2].sets, 3U);
  EXPECT_EQ(tally.counts()[3].sets, 1U);
}

}  // namespace
}  // namespace kerfdraft::cli
