// Rules about the air of rooms: flue gas, rooms drawn down, air that comes back, heat that goes out.
#include <gtest/gtest.h>

#include <cmath>

#include "judge/rules/people_shops.h"
#include "judge/trial.h"

namespace kerfdraft::tests {
namespace {

constexpr double kDischarge = 0.61;

/// The one machine with a boiler in its room and its air blown outdoors.
OneMachine boilerRoom() {
  OneMachine shop = oneMachine();
  projectOf(shop).rooms[0].natural_draft_appliance = true;
  blowOutdoors(shop);
  return shop;
}

/// Cracks of oneMachine()'s room, 8 m by 6 m by 3.5 m: 5 cm2 for each m2 of wall.
constexpr double kCracks_m2 = 5e-4 * (2 * (8 + 6)) * 3.5;

double suction(double flow_kg_s, double density_kg_m3, double area_m2) {
  return flow_kg_s * flow_kg_s / (2 * density_kg_m3 * std::pow(kDischarge * area_m2, 2));
}

double fanFlow(const RuleStage& stage) {
  return stage.evidence().state(0).solution.fans[0].flow_kg_s;
}

TEST(FlueGas, SevereWithTheSuctionThatTheCracksGive) {
  const RuleStage stage(boilerRoom().builder.project);
  const auto findings = found(judge::kFlueGas, stage);
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Severe);
  EXPECT_EQ(finding.state, 0U);
  EXPECT_EQ(finding.label, "R1");
  EXPECT_TRUE(finding.defers);
  const double expected_pa = suction(fanFlow(stage), stage.evidence().pieces().air.density_kg_m3, kCracks_m2);
  EXPECT_GT(expected_pa, 5);
  EXPECT_NEAR(finding.figure("depth").value, expected_pa, 1e-3 * expected_pa);
  ASSERT_TRUE(finding.limit);
  EXPECT_DOUBLE_EQ(finding.limit->value, 2);
  EXPECT_EQ(finding.limit->status, base::SourceStatus::FromMemory);
  const std::string owner = told(judge::kFlueGas, finding, Reader::Owner);
  EXPECT_TRUE(holds(owner, "Carbon monoxide"));
  EXPECT_FALSE(holds(owner, "coefficient"));
  EXPECT_TRUE(holds(told(judge::kFlueGas, finding, Reader::Inspector), "Not met"));
}

TEST(FlueGas, TheOpeningItAsksForBringsTheRoomBelowTheLimit) {
  const RuleStage stage(boilerRoom().builder.project);
  Finding finding = found(judge::kFlueGas, stage)[0];
  // Published as A [ft2] = Q [cfm] / (2610 sqrt(0.02 in w.g.)) for 5 Pa; the same law in other units.
  const double density_kg_m3 = stage.evidence().pieces().air.density_kg_m3;
  const double whole_m2 = fanFlow(stage) / (kDischarge * std::sqrt(2 * density_kg_m3 * 5));
  EXPECT_NEAR(finding.figure("area-high").value, whole_m2 - kCracks_m2, 2e-3 * whole_m2);
  judge::tryRemedies(stage.evidence(), finding);
  const auto opening =
      std::find_if(finding.remedies.begin(), finding.remedies.end(),
                   [](const judge::Remedy& remedy) { return remedy.kind == "room-opening"; });
  ASSERT_NE(opening, finding.remedies.end());
  ASSERT_TRUE(opening->gain);
  EXPECT_LT(-opening->gain->after, 2);
  EXPECT_GT(-opening->gain->after, 1);
  EXPECT_FALSE(opening->gain->cures) << "a fire and an outlet outdoors stay severe";
}

TEST(FlueGas, SevereWithWideOpeningsToo) {
  OneMachine shop = boilerRoom();
  addOpening(shop, "4 m2");
  const Finding finding = theOnly(judge::kFlueGas, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Severe);
  EXPECT_FALSE(finding.state);
  EXPECT_LT(finding.figure("depth").value, 0.5);
  EXPECT_TRUE(holds(told(judge::kFlueGas, finding, Reader::Owner), "shut door"));
  EXPECT_TRUE(holds(told(judge::kFlueGas, finding, Reader::Inspector), "Cannot conclude"));
}

TEST(FlueGas, ANoteWhereTheAirComesBack) {
  OneMachine shop = oneMachine();
  projectOf(shop).rooms[0].natural_draft_appliance = true;
  const Finding finding = theOnly(judge::kFlueGas, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_LT(finding.figure("depth").value, 0.01);
}

TEST(FlueGas, NearTheLimitIsSeriousAndSaysThatOpeningsAreNotKnown) {
  // An exhaust fan in the wall that takes what draws 1 Pa through the cracks: half of the limit.
  OneMachine shop = oneMachine();
  projectOf(shop).rooms[0].natural_draft_appliance = true;
  shop::Opening exhaust;
  exhaust.id = shop.builder.id();
  exhaust.label = "wall fan";
  exhaust.kind = shop::OpeningKind::Exhaust;
  const double flow_m3_s = kDischarge * kCracks_m2 * std::sqrt(2 * 1.0 / 1.2);
  exhaust.flow = given<base::VolumeFlow>(std::to_string(flow_m3_s) + " m3/s");
  projectOf(shop).rooms[0].openings.push_back(exhaust);
  const Finding finding = theOnly(judge::kFlueGas, shop.builder.project);
  EXPECT_NEAR(finding.figure("depth").value, 1, 0.03);
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_EQ(finding.words[0], "near");
}

TEST(FlueGas, SilentWithoutAFireOrWithOneInARoomApart) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  EXPECT_TRUE(foundIn(judge::kFlueGas, shop.builder.project).empty());
  const base::Id apart = shop.builder.room(3, 3, 2.5);
  projectOf(shop).rooms[1].natural_draft_appliance = true;
  EXPECT_TRUE(foundIn(judge::kFlueGas, shop.builder.project).empty());
  // A grille between the two, and they share their air.
  addOpening(shop, "0.2 m2", apart);
  const Finding finding = theOnly(judge::kFlueGas, shop.builder.project);
  EXPECT_EQ(finding.label, "R2");
  EXPECT_EQ(finding.severity, Severity::Severe);
}

TEST(FlueGas, TheProjectsPolicySetsTheLimit) {
  OneMachine shop = boilerRoom();
  projectOf(shop).setting.policies.push_back({"room-suction", "power-vented"});
  const Finding finding = theOnly(judge::kFlueGas, shop.builder.project);
  EXPECT_DOUBLE_EQ(finding.limit->value, 15);
  EXPECT_TRUE(holds(finding.limit->policy, "15 Pa"));
}

TEST(FlueGas, SaysWhenTheSuctionIsNotKnown) {
  // No crack and no opening: the room cannot be emptied outdoors, and the state has no solution.
  OneMachine shop = boilerRoom();
  projectOf(shop).setting.leakage = false;
  const RuleStage stage(shop.builder.project);
  ASSERT_FALSE(stage.evidence().solved(0));
  const auto findings = found(judge::kFlueGas, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Severe);
  EXPECT_TRUE(holds(told(judge::kFlueGas, findings[0], Reader::Owner), "not known"));
}

TEST(RoomSuction, TellsOfARoomDrawnFarDownAndWhatADoorFeels) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kRoomSuction, stage);
  ASSERT_EQ(findings.size(), 1U);
  const double depth_pa = findings[0].figure("depth").value;
  EXPECT_NEAR(depth_pa, suction(fanFlow(stage), stage.evidence().pieces().air.density_kg_m3, kCracks_m2),
              1e-3 * depth_pa);
  EXPECT_EQ(findings[0].severity, depth_pa > 50 ? Severity::Caution : Severity::Note);
  EXPECT_NEAR(findings[0].figure("door").value, depth_pa * 1.9 / 2 / 9.80665, 1e-9);
  EXPECT_DOUBLE_EQ(findings[0].limit->value, 5);
}

TEST(RoomSuction, TheOpeningItAsksForSettlesIt) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  const RuleStage stage(shop.builder.project);
  Finding finding = found(judge::kRoomSuction, stage)[0];
  judge::tryRemedies(stage.evidence(), finding);
  ASSERT_TRUE(finding.remedies[0].gain);
  EXPECT_TRUE(finding.remedies[0].gain->cures);
  EXPECT_NEAR(-finding.remedies[0].gain->after, 4.3, 0.7);
}

TEST(RoomSuction, SilentBelowTheLimitAndWhereFlueGasSaysIt) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  addOpening(shop, "0.2 m2");
  EXPECT_TRUE(foundIn(judge::kRoomSuction, shop.builder.project).empty());
  EXPECT_TRUE(foundIn(judge::kRoomSuction, boilerRoom().builder.project).empty());
  EXPECT_TRUE(foundIn(judge::kRoomSuction, oneMachine().builder.project).empty());
}

TEST(ReturnedAir, GraverWithoutAFilterAndWhereOthersWork) {
  OneMachine shop = oneMachine();
  EXPECT_EQ(theOnly(judge::kReturnedAir, shop.builder.project).severity, Severity::Caution);
  projectOf(shop).setting.who = shop::Who::Employer;
  EXPECT_EQ(theOnly(judge::kReturnedAir, shop.builder.project).severity, Severity::Serious);
  addFilter(shop.builder, shop.collector, shop::Housing::Enclosed);
  EXPECT_EQ(theOnly(judge::kReturnedAir, shop.builder.project).severity, Severity::Caution);
  projectOf(shop).setting.who = shop::Who::Home;
  const Finding finding = theOnly(judge::kReturnedAir, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_DOUBLE_EQ(finding.limit->value, 1e-7);
  EXPECT_EQ(finding.limit->words, "0.1 mg/m³ of dust in the returned air");
}

TEST(ReturnedAir, CountriesAskForMore) {
  OneMachine shop = oneMachine();
  addFilter(shop.builder, shop.collector, shop::Housing::Enclosed);
  projectOf(shop).setting.who = shop::Who::Employer;
  projectOf(shop).setting.country = "DE";
  EXPECT_TRUE(holds(told(judge::kReturnedAir, theOnly(judge::kReturnedAir, shop.builder.project)), "0.5 %"));
  projectOf(shop).setting.country = "AT";
  EXPECT_EQ(theOnly(judge::kReturnedAir, shop.builder.project).severity, Severity::Caution);
  projectOf(shop).setting.woods = {"beech"};
  const Finding refused = theOnly(judge::kReturnedAir, shop.builder.project);
  EXPECT_EQ(refused.severity, Severity::Serious);
  EXPECT_EQ(refused.limit->source, "AuvaLexikon: wood dust");
}

TEST(ReturnedAir, SilentWhereItGoesOutdoors) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  EXPECT_TRUE(foundIn(judge::kReturnedAir, shop.builder.project).empty());
}

TEST(MakeUpHeat, ByTheMassOfTheAirOnADayTwentyKelvinColder) {
  OneMachine shop = oneMachine();
  blowOutdoors(shop);
  const RuleStage stage(shop.builder.project);
  const Finding finding = found(judge::kMakeUpHeat, stage).at(0);
  EXPECT_NEAR(finding.figure("heat").value, fanFlow(stage) * 1006 * 20, 1e-6);
  EXPECT_EQ(finding.severity, Severity::Note);
  // Published: 1360 m3/h at 20 K takes 9.1 kW (reference of trade facts, calculated).
  EXPECT_NEAR(finding.figure("heat").value / finding.figure("flow").value * 1360 / 3600, 9100, 100);
  EXPECT_TRUE(foundIn(judge::kMakeUpHeat, oneMachine().builder.project).empty());
}

}  // namespace
}  // namespace kerfdraft::tests
