// States that nobody works in are solved and shown, and judged by nobody.
#include "judge/used_states.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "judge/verdict.h"
#include "shops.h"

namespace kerfdraft::judge {
namespace {

TEST(UsedStates, AreAllOfThemWhereNoneIsSetAside) {
  const Assessment assessment = tests::solved(tests::shopWithEverything());
  const Evidence evidence = gatherEvidence(assessment, tests::shippedTables(), {}).value();
  EXPECT_FALSE(UsedStates::of(evidence).has_value());
}

TEST(UsedStates, NoFindingComesFromAStateThatIsKeptToLookAt) {
  shop::Project project = tests::shopWithEverything();
  ASSERT_GE(project.states.size(), 3U);
  // Nothing but air for machines that ask for much: every state has findings.
  for (shop::Machine& machine : project.machines) {
    machine.ports[0].floor = support::given<base::VolumeFlow>("4000 m3/h");
  }
  const auto statesWith = [](const Verdict& verdict) {
    std::vector<std::size_t> found;
    for (const Finding& finding : verdict.findings) {
      if (finding.rule == "port-short") {
        found.push_back(finding.state.value());
      }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
  };
  const auto all = judgeShop(tests::solved(project), tests::shippedTables()).value();
  EXPECT_EQ(statesWith(all), (std::vector<std::size_t>{0, 1, 2}));
  project.states[1].unused = true;
  const auto used = judgeShop(tests::solved(project), tests::shippedTables()).value();
  EXPECT_EQ(statesWith(used), (std::vector<std::size_t>{0, 2}));  // indices are those of the whole
  for (const Finding& finding : used.findings) {
    EXPECT_TRUE(!finding.state || finding.state_name == project.states[*finding.state].name) << finding.rule;
  }
}

}  // namespace
}  // namespace kerfdraft::judge
