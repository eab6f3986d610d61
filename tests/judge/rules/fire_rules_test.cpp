// Rules about fire: sparks, vapour, metal, plastic, isolation, bags in the open, sanding dust.
#include <gtest/gtest.h>

#include "judge/rules/people_shops.h"

namespace kerfdraft::tests {
namespace {

TwoBranchTree grinderBesideSaw() {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.machineOf(shop.main_port).kind = "table-saw";
  shop.builder.machineOf(shop.main_port).name = "saw";
  shop.builder.machineOf(shop.branch_port).name = "grinder";
  shop.builder.machineOf(shop.branch_port).throws_what = shop::Throws::Sparks;
  return shop;
}

TEST(SparksOnWoodMain, SeriousBesideASawSevereBesideASander) {
  TwoBranchTree shop = grinderBesideSaw();
  Finding finding = theOnly(judge::kSparksOnWoodMain, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_EQ(finding.label, "T2 grinder");
  ASSERT_EQ(finding.ports.size(), 1U);
  EXPECT_EQ(finding.limit->source, "UfcIndustrialVentilation: 7-2; 7-5 b");
  EXPECT_TRUE(holds(told(judge::kSparksOnWoodMain, finding, Reader::Owner), "T1 saw"));
  shop.builder.machineOf(shop.main_port).kind = "drum-sander";
  finding = theOnly(judge::kSparksOnWoodMain, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Severe);
  EXPECT_TRUE(holds(told(judge::kSparksOnWoodMain, finding, Reader::Owner), "explode"));
}

TEST(SparksOnWoodMain, SilentWhereTheGrinderHasACollectorOfItsOwn) {
  OneMachine shop = oneMachine();
  shop.builder.machineOf(shop.port).throws_what = shop::Throws::Sparks;
  EXPECT_TRUE(foundIn(judge::kSparksOnWoodMain, shop.builder.project).empty());
  EXPECT_TRUE(foundIn(judge::kSparksOnWoodMain, twoBranchTree().builder.project).empty());
}

TEST(SparksOnWoodMain, FoundOnARingToo) {
  support::RingMain shop = support::ringMain();
  shop.builder.machineOf(shop.ports[1]).throws_what = shop::Throws::Sparks;
  EXPECT_EQ(theOnly(judge::kSparksOnWoodMain, shop.builder.project).label, "T2");
}

TEST(VapourOnWoodMain, SevereWithAndWithoutWood) {
  OneMachine alone = oneMachine();
  alone.builder.machineOf(alone.port).throws_what = shop::Throws::Vapour;
  EXPECT_EQ(theOnly(judge::kVapourOnWoodMain, alone.builder.project).severity, Severity::Severe);
  TwoBranchTree shop = grinderBesideSaw();
  EXPECT_TRUE(foundIn(judge::kVapourOnWoodMain, shop.builder.project).empty());
  shop.builder.machineOf(shop.branch_port).throws_what = shop::Throws::Vapour;
  const Finding finding = theOnly(judge::kVapourOnWoodMain, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Severe);
  EXPECT_TRUE(holds(told(judge::kVapourOnWoodMain, finding), "T1 saw"));
}

TEST(MetalPickup, ASweepBeforeAWheelWithoutSeparator) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.machineOf(shop.branch_port).kind = "floor-sweep";
  const Finding finding = theOnly(judge::kMetalPickup, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_EQ(finding.label, "T2");
  addCyclone(shop.builder, shop.collector, "200 l");
  EXPECT_TRUE(foundIn(judge::kMetalPickup, shop.builder.project).empty());
}

TEST(MetalPickup, AnOpenDuctIsASweepAMachineIsNot) {
  TwoBranchTree shop = twoBranchTree();
  EXPECT_TRUE(foundIn(judge::kMetalPickup, shop.builder.project).empty());
  shop.builder.ductOf(shop.branch).from = shop::FreeAir{shop.room, ""};
  EXPECT_EQ(theOnly(judge::kMetalPickup, shop.builder.project).label, "D2");
}

TEST(PlasticDuct, OnceForTheProjectAndByWho) {
  TwoBranchTree shop = twoBranchTree();
  EXPECT_TRUE(foundIn(judge::kPlasticDuct, shop.builder.project).empty());
  shop.builder.ductOf(shop.branch).corners[0].leg->construction = "pvc-drain";
  Finding finding = theOnly(judge::kPlasticDuct, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_EQ(finding.label, "D2");
  EXPECT_FALSE(finding.defers);
  shop.builder.ductOf(shop.main).corners[0].leg->construction = "pvc-drain-dry";
  finding = theOnly(judge::kPlasticDuct, shop.builder.project);
  EXPECT_EQ(finding.label, "All ducts");
  EXPECT_DOUBLE_EQ(finding.figure("ducts").value, 2);
  shop.builder.project.setting.who = shop::Who::School;
  finding = theOnly(judge::kPlasticDuct, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_TRUE(finding.defers);
}

TEST(PlasticDuct, HoseIsNotAskedFor) {
  OneMachine shop = oneMachine();
  shop.builder.ductOf(shop.duct).corners[0].leg = support::ProjectBuilder::hose("100 mm");
  EXPECT_TRUE(foundIn(judge::kPlasticDuct, shop.builder.project).empty());
}

TEST(NoIsolation, AskedWhereOthersWorkWhereSandersAreAndBehindLargeBins) {
  OneMachine shop = oneMachine();
  shop.builder.machineOf(shop.port).kind = "table-saw";
  addCyclone(shop.builder, shop.collector, "0.79 m3");
  EXPECT_TRUE(foundIn(judge::kNoIsolation, shop.builder.project).empty());
  shop.builder.collectorOf(shop.collector).separators[0].bin = given<base::Volume>("0.81 m3");
  EXPECT_EQ(theOnly(judge::kNoIsolation, shop.builder.project).severity, Severity::Caution);
  shop.builder.collectorOf(shop.collector).separators[0].bin = {};
  shop.builder.machineOf(shop.port).kind = "drum-sander";
  EXPECT_EQ(theOnly(judge::kNoIsolation, shop.builder.project).severity, Severity::Note);
  projectOf(shop).setting.who = shop::Who::Employer;
  EXPECT_EQ(theOnly(judge::kNoIsolation, shop.builder.project).severity, Severity::Serious);
  shop.builder.machineOf(shop.port).kind = "table-saw";
  const Finding chips = theOnly(judge::kNoIsolation, shop.builder.project);
  EXPECT_EQ(chips.severity, Severity::Caution);
  EXPECT_TRUE(holds(told(judge::kNoIsolation, chips), "no damper"));
  shop.builder.collectorOf(shop.collector).isolation = true;
  EXPECT_TRUE(foundIn(judge::kNoIsolation, shop.builder.project).empty());
}

TEST(OpenBag, ByWhatGoesInAndWhoStandsBeside) {
  OneMachine shop = oneMachine();
  shop.builder.machineOf(shop.port).kind = "table-saw";
  addFilter(shop.builder, shop.collector, shop::Housing::Enclosed);
  EXPECT_TRUE(foundIn(judge::kOpenBag, shop.builder.project).empty());
  shop::Filter& filter = shop.builder.collectorOf(shop.collector).filters[0];
  filter.housing = shop::Housing::Unknown;
  EXPECT_TRUE(foundIn(judge::kOpenBag, shop.builder.project).empty());
  filter.housing = shop::Housing::Open;
  Finding finding = theOnly(judge::kOpenBag, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_NEAR(finding.figure("nearest").value, 4, 1e-9);  // machine at x = 1 m, inlet at x = 5 m
  EXPECT_DOUBLE_EQ(finding.limit->value, 6);
  EXPECT_TRUE(holds(told(judge::kOpenBag, finding, Reader::Inspector), "noted"));
  shop.builder.machineOf(shop.port).kind = "drum-sander";
  EXPECT_EQ(theOnly(judge::kOpenBag, shop.builder.project).severity, Severity::Caution);
  projectOf(shop).setting.who = shop::Who::Employer;
  finding = theOnly(judge::kOpenBag, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_TRUE(holds(told(judge::kOpenBag, finding, Reader::Inspector), "mechanical feed: not met"));
  shop.builder.machineOf(shop.port).kind = "disc-sander";
  EXPECT_TRUE(holds(told(judge::kOpenBag, theOnly(judge::kOpenBag, shop.builder.project), Reader::Inspector),
                    "shield. Not met"));
}

TEST(OpenBag, SilentOutdoors) {
  OneMachine shop = oneMachine();
  addFilter(shop.builder, shop.collector, shop::Housing::Open);
  shop.builder.collectorOf(shop.collector).room = {};
  EXPECT_TRUE(foundIn(judge::kOpenBag, shop.builder.project).empty());
}

TEST(SanderFire, NamesSandersAndWhereTheirDustGoes) {
  TwoBranchTree shop = twoBranchTree();
  EXPECT_TRUE(foundIn(judge::kSanderFire, shop.builder.project).empty());
  shop.builder.machineOf(shop.branch_port).kind = "edge-sander";
  const Finding finding = theOnly(judge::kSanderFire, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_EQ(finding.label, "T2");
  EXPECT_DOUBLE_EQ(finding.limit->value, 500e-6);
  EXPECT_EQ(finding.limit->source, "Dguv209035: 6.2.1");
  EXPECT_TRUE(finding.defers);
}

TEST(SanderFire, ASanderThatIsJoinedToNothingIsNotMeant) {
  OneMachine shop = oneMachine();
  shop.builder.machine("drum-sander", at(3, 3, 0.5), "100 mm", shop.room);
  EXPECT_TRUE(foundIn(judge::kSanderFire, shop.builder.project).empty());
}

}  // namespace
}  // namespace kerfdraft::tests
