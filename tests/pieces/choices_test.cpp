// Keys of policies, woods, bins and filters: known, or refused with near ones.
#include "pieces/choices.h"

#include "pieces/building.h"

namespace kerfdraft::pieces {
namespace {

shop::Separator withBin(const std::string& form) {
  shop::Separator separator;
  separator.id = base::Id(91);
  separator.label = "Y1";
  separator.kind = "cyclone";
  separator.bin_form = form;
  return separator;
}

TEST(Choices, KnownKeysPass) {
  auto shop = support::oneMachine();
  shop::Project& project = shop.builder.project;
  project.setting.policies = {{"requirement", "trgs-553"}, {"transport-velocity", "working-rule"}};
  project.setting.woods = {"iroko", "western-red-cedar"};
  project.collectors[0].separators = {withBin("fibre-drum")};
  EXPECT_TRUE(checkChoices(project, shipped()));
  EXPECT_TRUE(buildPieces(project, shipped()));
}

TEST(Choices, AnUnknownSubjectOrChoiceOffersNearKeys) {
  auto shop = support::oneMachine();
  shop.builder.project.setting.policies = {{"transport-velocty", "hsg258"}};
  const base::Error subject = refusal(shop.builder);
  EXPECT_NE(subject.message.find("transport-velocity"), std::string::npos) << subject.message;
  EXPECT_EQ(subject.where, "setting, policy \"transport-velocty\"");
  shop.builder.project.setting.policies = {{"transport-velocity", "hsg-258"}};
  const base::Error choice = refusal(shop.builder);
  EXPECT_NE(choice.message.find("hsg258"), std::string::npos) << choice.message;
}

TEST(Choices, AnEmptyChoiceIsTheUsualOne) {
  auto shop = support::oneMachine();
  EXPECT_EQ(chosenPolicy(shop.builder.project, shipped(), "room-suction")->choice, "spill");
  shop.builder.project.setting.policies = {{"room-suction", "water-heater-alone"}};
  EXPECT_EQ(chosenPolicy(shop.builder.project, shipped(), "room-suction")->pressure_pa, 2.0);
  EXPECT_FALSE(chosenPolicy(shop.builder.project, shipped(), "weather"));
}

TEST(Choices, UnknownWoodBinAndCleaningOfferNearKeys) {
  auto shop = support::oneMachine();
  shop::Project& project = shop.builder.project;
  project.setting.woods = {"beech", "red-cedar"};
  EXPECT_NE(refusal(shop.builder).message.find("western-red-cedar"), std::string::npos);
  EXPECT_EQ(refusal(shop.builder).where, "setting, woods");
  project.setting.woods.clear();
  project.collectors[0].label = "C1";
  project.collectors[0].separators = {withBin("drum")};
  EXPECT_NE(refusal(shop.builder).message.find("steel-drum"), std::string::npos);
  EXPECT_EQ(refusal(shop.builder).where, "C1 Y1, bin-form");
  project.collectors[0].separators.clear();
  project.collectors[0].filters.resize(1);
  project.collectors[0].filters[0].label.clear();
  project.collectors[0].filters[0].cleaning = "shaken";
  EXPECT_NE(refusal(shop.builder).message.find("shaker"), std::string::npos);
  EXPECT_EQ(refusal(shop.builder).where, "C1, cleaning");
}

}  // namespace
}  // namespace kerfdraft::pieces
