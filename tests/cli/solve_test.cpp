// Names of states and ports as a person says them, and cautions where they matter.
#include "cli/cautions.h"
#include "cli/shop_open.h"
#include "shipped.h"

namespace kerfdraft::cli {
namespace {

TEST(Names, StatesAreFoundWhateverTheLetterCase) {
  const judge::Assessment assessment = starter({"table-saw", "planer"});
  ASSERT_TRUE(stateByName(assessment, "t2 thickness PLANER"));
  EXPECT_EQ(*stateByName(assessment, "t2 thickness PLANER"), 1U);
  const auto missing = stateByName(assessment, "T2 Thicknes planer");
  ASSERT_FALSE(missing);
  EXPECT_NE(missing.error().message.find("T2 Thickness planer"), std::string::npos);
}

TEST(Names, PortsAreFoundByLabelMachineOrPart) {
  const judge::Assessment assessment = starter({"table-saw", "planer"});
  const auto by_label = portByName(assessment, "T2 P1");
  ASSERT_TRUE(by_label) << by_label.error().text();
  EXPECT_EQ(*portByName(assessment, "planer"), *by_label);
  EXPECT_EQ(*portByName(assessment, "t2"), *by_label);
  EXPECT_FALSE(portByName(assessment, "P1"));  // both have one
  EXPECT_FALSE(portByName(assessment, "lathe"));
}

std::string allCautions(const judge::Assessment& assessment) {
  std::string all;
  for (const std::string& line : cautions(assessment, {0})) {
    all += line + '\n';
  }
  return all;
}

judge::Assessment changed(const judge::Assessment& from, const std::function<void(shop::Project&)>& change) {
  shop::Project project = *from.project;
  change(project);
  auto assessment = judge::assess(project, shipped());
  EXPECT_TRUE(assessment) << assessment.error().text();
  return *assessment;
}

TEST(Cautions, CarbonMonoxideWhereARoomWithABoilerIsPulledDown) {
  const judge::Assessment plain = starter({"planer"});
  EXPECT_EQ(allCautions(plain).find("monoxide"), std::string::npos);

  const auto boiler = [](shop::Project& p) { p.rooms[0].natural_draft_appliance = true; };
  EXPECT_NE(allCautions(changed(plain, boiler)).find("Never lead"), std::string::npos);

  // Outdoors, through a shut room: the deepest suction is named.
  const judge::Assessment outdoors = changed(plain, [&](shop::Project& p) {
    boiler(p);
    p.collectors[0].discharge.room = {};
  });
  const std::string said = allCautions(outdoors);
  EXPECT_NE(said.find("Carbon monoxide"), std::string::npos) << said;
  EXPECT_NE(said.find(outdoors.states[0].name), std::string::npos) << said;
  EXPECT_NE(said.find("licensed"), std::string::npos) << said;
}

TEST(Cautions, FireWhereSanderDustTravelsAndPeopleWhereOthersWork) {
  EXPECT_EQ(allCautions(starter({"planer"})).find("Fire"), std::string::npos);
  EXPECT_NE(allCautions(starter({"drum-sander"})).find("Fire"), std::string::npos);
  const judge::Assessment school =
      changed(starter({"planer"}), [](shop::Project& p) { p.setting.who = shop::Who::School; });
  EXPECT_NE(allCautions(school).find("local law"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::cli
