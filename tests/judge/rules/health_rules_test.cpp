// Rules about what people breathe and hear, guards, and duties to those who work here.
#include <gtest/gtest.h>

#include <cmath>

#include "judge/rules/people_shops.h"

namespace kerfdraft::tests {
namespace {

shop::Project shopIn(const std::string& country, const std::vector<std::string>& woods = {}) {
  OneMachine shop = oneMachine();
  shop.builder.machineOf(shop.port).kind = "table-saw";
  projectOf(shop).setting.country = country;
  projectOf(shop).setting.woods = woods;
  return projectOf(shop);
}

std::string adviser(const shop::Project& project) {
  return told(judge::kExposureLimit, theOnly(judge::kExposureLimit, project));
}

TEST(ExposureLimit, ByCountryAndWood) {
  // Published: HSE, 3 and 5 mg/m3; TRGS 553, 2 mg/m3; INRS, 1 mg/m3.
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, shopIn("GB", {"white-pine"})).limit->value, 5e-6);
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, shopIn("GB", {"white-pine", "beech"})).limit->value, 3e-6)
      << "a mixture counts as hardwood";
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, shopIn("GB", {"mdf"})).limit->value, 3e-6);
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, shopIn("DE", {"beech"})).limit->value, 2e-6);
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, shopIn("FR", {"white-pine"})).limit->value, 1e-6);
  EXPECT_TRUE(holds(adviser(shopIn("DE", {"beech"})), "German limit"));
}

TEST(ExposureLimit, AdvisedLimitsStandBesideTheLaw) {
  const std::string cedar = adviser(shopIn("US", {"western-red-cedar"}));
  EXPECT_TRUE(holds(cedar, "15 mg/m³ total")) << cedar;
  EXPECT_TRUE(holds(cedar, "advised: 0.5 mg/m³ inhalable")) << cedar;
  EXPECT_TRUE(holds(adviser(shopIn("US", {"beech"})), "advised: 1 mg/m³"));
}

TEST(ExposureLimit, WoodsThatNobodyNamesCountAsHardwood) {
  const Finding finding = theOnly(judge::kExposureLimit, shopIn("GB"));
  EXPECT_DOUBLE_EQ(finding.limit->value, 3e-6);
  EXPECT_TRUE(holds(told(judge::kExposureLimit, finding), "hardwood is taken"));
}

TEST(ExposureLimit, SaysWhereNoneIsKnownAndAlwaysThatFlowsDoNotAnswerIt) {
  for (const char* country : {"AU", "ZZ", ""}) {
    const Finding finding = theOnly(judge::kExposureLimit, shopIn(country));
    EXPECT_FALSE(finding.limit);
    EXPECT_TRUE(holds(told(judge::kExposureLimit, finding), "stands in the tables"));
    EXPECT_TRUE(holds(told(judge::kExposureLimit, finding), "not an exposure result"));
    EXPECT_EQ(finding.severity, Severity::Note);
  }
}

TEST(ExposureLimit, TheProjectCanChooseAnother) {
  shop::Project project = shopIn("US", {"beech"});
  project.setting.policies.push_back({"exposure-limit", "france"});
  EXPECT_DOUBLE_EQ(theOnly(judge::kExposureLimit, project).limit->value, 1e-6);
}

TEST(ExposureLimit, SilentWithoutMachines) {
  shop::Project empty = shopIn("US");
  empty.machines.clear();
  empty.ducts.clear();
  empty.states.clear();
  EXPECT_TRUE(foundIn(judge::kExposureLimit, empty).empty());
}

TEST(Sensitizer, FromTheListOfWoodsWorked) {
  EXPECT_TRUE(foundIn(judge::kSensitizer, shopIn("US")).empty());
  EXPECT_TRUE(foundIn(judge::kSensitizer, shopIn("US", {"white-pine", "hard-maple"})).empty());
  shop::Project project = shopIn("US", {"white-pine", "beech", "ash"});
  Finding finding = theOnly(judge::kSensitizer, project);
  EXPECT_EQ(finding.label, "Beech and Ash");
  EXPECT_EQ(finding.severity, Severity::Note);
  project.setting.who = shop::Who::Employer;
  EXPECT_EQ(theOnly(judge::kSensitizer, project).severity, Severity::Caution);
  finding = theOnly(judge::kSensitizer, shopIn("US", {"beech", "iroko"}));
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_TRUE(holds(told(judge::kSensitizer, finding), "Iroko named for asthma"));
}

TEST(ExhaustNotEnough, OnlyInGermanyAndOnlyForListedMachines) {
  shop::Project project = shopIn("DE");
  EXPECT_TRUE(foundIn(judge::kExhaustNotEnough, project).empty());
  project.machines[0].kind = "band-saw";
  Finding finding = theOnly(judge::kExhaustNotEnough, project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_DOUBLE_EQ(finding.limit->value,
                   3600);  // Published: TRGS 553, 2022 issue, Anhang 1: one hour a shift
  EXPECT_EQ(finding.limit->source, "Trgs553: 2022 issue, Anhang 1");
  project.setting.who = shop::Who::Employer;
  project.machines[0].kind = "lathe";
  finding = theOnly(judge::kExhaustNotEnough, project);
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_DOUBLE_EQ(finding.limit->value, 1800);
  project.setting.country = "FR";
  EXPECT_TRUE(foundIn(judge::kExhaustNotEnough, project).empty());
}

TEST(Noise, DaysDoseByTheRuleOfTheCountry) {
  // Circular saws are printed at 97 to 102 dB(A) (HSE, published).
  const Finding us = theOnly(judge::kNoise, shopIn("US"));
  EXPECT_DOUBLE_EQ(us.figure("high").value, 102);
  EXPECT_DOUBLE_EQ(us.figure("low").value, 97);
  EXPECT_NEAR(us.figure("time").value, 8 * 3600 / std::exp2((102 - 85) / 5.0), 1e-6);
  EXPECT_EQ(us.severity, Severity::Note);
  const Finding gb = theOnly(judge::kNoise, shopIn("GB"));
  EXPECT_NEAR(gb.figure("time").value, 8 * 3600 / std::exp2((102 - 85) / 3.0), 1e-6);
  EXPECT_EQ(gb.limit->source, "HseWis13: action values");
}

TEST(Noise, LawfulLevelsAreTheProjectsToChooseAndGraverWhereOthersWork) {
  shop::Project project = shopIn("US");
  project.setting.policies.push_back({"noise-limit", "niosh"});
  project.setting.who = shop::Who::School;
  const Finding finding = theOnly(judge::kNoise, project);
  EXPECT_NEAR(finding.figure("time").value, 8 * 3600 / std::exp2((102 - 85) / 3.0), 1e-6);
  EXPECT_EQ(finding.severity, Severity::Caution);
}

TEST(Noise, AdviceWhereNoCountrysRuleIsKnownAndSilentOnQuietMachines) {
  EXPECT_TRUE(holds(theOnly(judge::kNoise, shopIn("AU")).limit->words, "NIOSH"));
  shop::Project project = shopIn("US");
  project.machines[0].kind = "disc-sander";
  EXPECT_TRUE(foundIn(judge::kNoise, project).empty()) << "no level was read for it";
  project.machines[0].kind = "";
  EXPECT_TRUE(foundIn(judge::kNoise, project).empty());
}

TEST(GuardMissing, OneFindingWithAllOfThem) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.machineOf(shop.main_port).guard = shop::Guard::Fitted;
  EXPECT_TRUE(foundIn(judge::kGuardMissing, shop.builder.project).empty());
  shop.builder.machineOf(shop.main_port).guard = shop::Guard::Missing;
  shop.builder.machineOf(shop.branch_port).guard = shop::Guard::Missing;
  EXPECT_EQ(theOnly(judge::kGuardMissing, shop.builder.project).label, "T1 and T2");
  EXPECT_EQ(theOnly(judge::kGuardMissing, shop.builder.project).severity, Severity::Serious);
  shop.builder.project.setting.who = shop::Who::Employer;
  EXPECT_EQ(theOnly(judge::kGuardMissing, shop.builder.project).severity, Severity::Severe);
}

TEST(Employees, DutiesOfTheCountryAndNoneAtHome) {
  shop::Project project = shopIn("GB");
  EXPECT_TRUE(foundIn(judge::kEmployees, project).empty());
  project.setting.who = shop::Who::OnePerson;
  EXPECT_TRUE(foundIn(judge::kEmployees, project).empty());
  project.setting.who = shop::Who::School;
  Finding finding = theOnly(judge::kEmployees, project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_TRUE(holds(told(judge::kEmployees, finding), "14 months"));
  EXPECT_TRUE(holds(told(judge::kEmployees, finding, Reader::Owner), "Pupils"));
  EXPECT_NEAR(finding.figure("examined").value / (365.25 * 86400), 14.0 / 12, 1e-12);
  project.setting.country = "DE";
  EXPECT_TRUE(holds(told(judge::kEmployees, theOnly(judge::kEmployees, project)), "yearly record"));
  project.setting.country = "NZ";
  EXPECT_TRUE(holds(told(judge::kEmployees, theOnly(judge::kEmployees, project)), "local law"));
}

}  // namespace
}  // namespace kerfdraft::tests
