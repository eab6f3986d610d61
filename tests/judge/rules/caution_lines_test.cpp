// The lines that stand beside numbers.
#include "judge/caution_lines.h"

#include <gtest/gtest.h>

#include "judge/rules/people_shops.h"

namespace kerfdraft::tests {
namespace {

std::vector<std::string> lines(const shop::Project& project, const std::vector<std::size_t>& states = {0}) {
  const auto said = judge::cautionLines(solved(project), shippedTables(), states, base::UnitSystem::Metric);
  base::check(said.has_value(), "no lines");
  return *said;
}

TEST(CautionLines, OfAPlainShopOnlyThatItsAirComesBack) {
  OneMachine shop = oneMachine();
  shop.builder.machineOf(shop.port).kind = "table-saw";
  addFilter(shop.builder, shop.collector, shop::Housing::Enclosed);
  const auto said = lines(shop.builder.project);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_TRUE(holds(said[0], "Fine dust"));
}

TEST(CautionLines, TheGravestFirstWithItsStateAndWhatToDo) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.machineOf(shop.main_port).kind = "table-saw";
  shop.builder.machineOf(shop.branch_port).kind = "drum-sander";
  shop.builder.project.rooms[0].natural_draft_appliance = true;
  shop.builder.collectorOf(shop.collector).discharge.room = {};
  const auto said = lines(shop.builder.project, {1});
  ASSERT_EQ(said.size(), 2U);
  EXPECT_TRUE(holds(said[0], "Carbon monoxide"));
  EXPECT_TRUE(holds(said[0], "\"both\""))
      << "the deepest state is named though another is shown: " << said[0];
  EXPECT_TRUE(holds(said[0], "alarm"));
  EXPECT_TRUE(holds(said[0], "licensed heating trade"));
  EXPECT_TRUE(holds(said[1], "Fire"));
}

TEST(CautionLines, ADrawnDownRoomOnlyInItsState) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.collectorOf(shop.collector).discharge.room = {};
  EXPECT_EQ(lines(shop.builder.project, {0}).size(), 1U);
  EXPECT_TRUE(lines(shop.builder.project, {2}).empty());
}

TEST(CautionLines, OthersAtWork) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  addOpening(shop, "4 m2");
  EXPECT_TRUE(lines(shop.builder.project).empty());
  projectOf(shop).setting.who = shop::Who::School;
  const auto said = lines(shop.builder.project);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_TRUE(holds(said[0], "not an approval"));
}

}  // namespace
}  // namespace kerfdraft::tests
