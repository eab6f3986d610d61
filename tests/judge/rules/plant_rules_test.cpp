// Rules about current and about plants past what one plans alone; and that none of the rules minds an odd
// shop.
#include <gtest/gtest.h>

#include <algorithm>

#include "judge/rules/people_shops.h"

namespace kerfdraft::tests {
namespace {

OneMachine onOneCircuit(const std::string& voltage, const std::string& breaker) {
  OneMachine shop = oneMachine();
  shop::Circuit circuit;
  circuit.id = shop.builder.id();
  circuit.label = "K1";
  circuit.voltage = given<base::Voltage>(voltage);
  circuit.breaker = given<base::Current>(breaker);
  projectOf(shop).circuits.push_back(circuit);
  shop.builder.machineOf(shop.port).circuit = circuit.id;
  shop.builder.machineOf(shop.port).motor = given<base::Power>("1.5 hp");
  shop.builder.collectorOf(shop.collector).circuit = circuit.id;
  shop.builder.collectorOf(shop.collector).motor.power = given<base::Power>("1 hp");
  return shop;
}

TEST(SharedCircuit, CurrentsOfTheTableAgainstTheBreaker) {
  // Table currents at 115 V, one phase: 20 A for 1.5 hp and 16 A for 1 hp (NEC 430.248, as reproduced).
  OneMachine shop = onOneCircuit("120 V", "30 A");
  Finding finding = theOnly(judge::kSharedCircuit, shop.builder.project);
  EXPECT_DOUBLE_EQ(finding.figure("current").value, 36);
  EXPECT_DOUBLE_EQ(finding.figure("breaker").value, 30);
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_NEAR(finding.badness, 0.2, 1e-12);
  EXPECT_TRUE(finding.defers);
  EXPECT_EQ(finding.label, "K1");
  // 10 A and 8 A at 230 V: within a breaker of 20 A.
  shop = onOneCircuit("240 V", "20 A");
  finding = theOnly(judge::kSharedCircuit, shop.builder.project);
  EXPECT_DOUBLE_EQ(finding.figure("current").value, 18);
  EXPECT_EQ(finding.severity, Severity::Note);
}

TEST(SharedCircuit, UnknownCurrentsAreSaidToBe) {
  OneMachine shop = onOneCircuit("120 V", "20 A");
  shop.builder.machineOf(shop.port).motor = {};
  Finding finding = theOnly(judge::kSharedCircuit, shop.builder.project);
  EXPECT_DOUBLE_EQ(finding.figure("current").value, 16);
  EXPECT_TRUE(holds(told(judge::kSharedCircuit, finding), "not known"));
  shop = onOneCircuit("48 V", "20 A");
  finding = theOnly(judge::kSharedCircuit, shop.builder.project);
  EXPECT_EQ(finding.findFigure("current"), nullptr);
  EXPECT_FALSE(finding.limit);
}

TEST(SharedCircuit, SilentWhereTheyNeverRunTogether) {
  OneMachine shop = onOneCircuit("120 V", "20 A");
  projectOf(shop).states[0].off.push_back(shop.collector);
  EXPECT_TRUE(foundIn(judge::kSharedCircuit, shop.builder.project).empty());
  shop = onOneCircuit("120 V", "20 A");
  projectOf(shop).states[0].gates.clear();
  EXPECT_TRUE(foundIn(judge::kSharedCircuit, shop.builder.project).empty());
  shop = onOneCircuit("120 V", "20 A");
  projectOf(shop).machines[0].circuit = {};
  EXPECT_TRUE(foundIn(judge::kSharedCircuit, shop.builder.project).empty());
}

/// A shop with about 1700 cfm in a state: curve wide enough, one duct of 250 mm.
OneMachine bigShop(double flow_m3_h) {
  OneMachine shop = oneMachine();
  shop::Collector& unit = shop.builder.collectorOf(shop.collector);
  unit.inlet_bore = length("250 mm");
  unit.rating.points.clear();
  // Nearly as much air at any suction.
  for (const auto& [share, pressure] :
       {std::pair{0.99, "4000 Pa"}, std::pair{1.0, "2000 Pa"}, std::pair{1.01, "0 Pa"}}) {
    shop::CurvePoint point;
    point.flow = given<base::VolumeFlow>(std::to_string(share * flow_m3_h) + " m3/h");
    point.pressure = given<base::Pressure>(pressure);
    unit.rating.points.push_back(point);
  }
  shop.builder.port(shop.port).bore = length("250 mm");
  shop.builder.ductOf(shop.duct).corners[0].leg->bore = length("250 mm");
  return shop;
}

TEST(BigPlant, TheAmericanLineIsFifteenHundredCfm) {
  const double line_m3_h = 1500 * 1.699011;
  EXPECT_TRUE(foundIn(judge::kBigPlant, bigShop(0.95 * line_m3_h).builder.project).empty());
  OneMachine shop = bigShop(1.05 * line_m3_h);
  Finding finding = theOnly(judge::kBigPlant, shop.builder.project);
  EXPECT_NEAR(finding.figure("flow").value * 3600, 1.05 * line_m3_h, 0.012 * line_m3_h);
  EXPECT_EQ(finding.severity, Severity::Note);
  projectOf(shop).setting.who = shop::Who::Employer;
  finding = theOnly(judge::kBigPlant, shop.builder.project);
  EXPECT_EQ(finding.severity, Severity::Caution);
  EXPECT_TRUE(finding.defers);
}

TEST(BigPlant, ADoubtfulFlowIsANote) {
  OneMachine shop = bigShop(1.05 * 1500 * 1.699011);
  projectOf(shop).setting.who = shop::Who::Employer;
  judge::StateBands bands;
  bands.fan_flow = {{0.9, 1.1}};
  const RuleStage stage(shop.builder.project, {bands});
  const auto findings = found(judge::kBigPlant, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_TRUE(holds(told(judge::kBigPlant, findings[0]), "lies below"));
}

TEST(BigPlant, TheEuropeanLinesAreEightThousandAndItsBins) {
  OneMachine shop = bigShop(7000);
  projectOf(shop).setting.country = "DE";
  EXPECT_TRUE(foundIn(judge::kBigPlant, shop.builder.project).empty());
  addCyclone(shop.builder, shop.collector, "1 m3");
  const Finding finding = theOnly(judge::kBigPlant, shop.builder.project);
  EXPECT_EQ(finding.limit->kind, base::Kind::Volume);
  EXPECT_DOUBLE_EQ(finding.limit->value, 0.8);
  EXPECT_NEAR(finding.badness, 0.25, 1e-12);
  OneMachine more = bigShop(8500);
  projectOf(more).setting.country = "DE";
  EXPECT_EQ(theOnly(judge::kBigPlant, more.builder.project).limit->source, "En16770: scope");
}

/// Every rule looks at it and tells of what it finds.
void lookAtAll(const shop::Project& project) {
  const RuleStage stage(project);
  for (const judge::Rule* rule : judge::peopleRules()) {
    EXPECT_NO_THROW(found(*rule, stage)) << rule->key;
  }
}

TEST(PeopleRules, MindNoOddShop) {
  shop::Project nothing;
  nothing.air.temperature = given<base::Temperature>("20 °C");
  lookAtAll(nothing);
  support::ProjectBuilder room_only;
  room_only.room(4, 4, 2.5);
  room_only.project.rooms[0].natural_draft_appliance = true;
  lookAtAll(room_only.project);
  OneMachine loose = oneMachine();
  projectOf(loose).ducts.clear();
  projectOf(loose).states[0].gates.clear();
  projectOf(loose).rooms[0].natural_draft_appliance = true;
  projectOf(loose).machines[0].throws_what = shop::Throws::Vapour;
  lookAtAll(projectOf(loose));
  EXPECT_TRUE(foundIn(judge::kVapourOnWoodMain, projectOf(loose)).empty()) << "it is joined to nothing";
  OneMachine outdoors = oneMachine();
  projectOf(outdoors).machines[0].room = {};
  projectOf(outdoors).machines[0].label.clear();
  projectOf(outdoors).collectors[0].label.clear();
  projectOf(outdoors).setting.who = shop::Who::Employer;
  projectOf(outdoors).setting.country = "??";
  projectOf(outdoors).setting.policies = {{"room-suction", "spill"}, {"room-suction", "power-vented"}};
  lookAtAll(projectOf(outdoors));
  lookAtAll(shopWithEverything());
  lookAtAll(support::ringMain().builder.project);
}

TEST(PeopleRules, TheOrderOfTheFileChangesNothing) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.project.setting.who = shop::Who::Employer;
  shop.builder.project.setting.country = "DE";
  for (const shop::PortRef& port : {shop.main_port, shop.branch_port}) {
    shop.builder.machineOf(port).kind = "band-saw";
    shop.builder.machineOf(port).chips = "sander-dust";
    shop.builder.machineOf(port).guard = shop::Guard::Missing;
  }
  shop.builder.ductOf(shop.main).corners[0].leg->construction = "pvc-drain";
  shop.builder.ductOf(shop.branch).corners[0].leg->construction = "pvc-drain";
  shop::Project turned = shop.builder.project;
  std::reverse(turned.machines.begin(), turned.machines.end());
  std::reverse(turned.ducts.begin(), turned.ducts.end());
  std::size_t all = 0;
  for (const judge::Rule* rule : judge::peopleRules()) {
    const auto one = foundIn(*rule, shop.builder.project);
    const auto other = foundIn(*rule, turned);
    ASSERT_EQ(one.size(), other.size()) << rule->key;
    all += one.size();
    for (std::size_t f = 0; f < one.size(); ++f) {
      EXPECT_EQ(one[f].key, other[f].key) << rule->key;
      EXPECT_EQ(one[f].label, other[f].label) << rule->key;
      EXPECT_EQ(one[f].words, other[f].words) << rule->key;
    }
  }
  EXPECT_GE(all, 8U);
}

TEST(PeopleRules, EveryLimitWithASourceWherePublished) {
  TwoBranchTree shop = twoBranchTree();
  shop.builder.project.setting.who = shop::Who::Employer;
  shop.builder.project.setting.country = "DE";
  shop.builder.project.setting.woods = {"beech"};
  shop.builder.project.rooms[0].natural_draft_appliance = true;
  shop.builder.collectorOf(shop.collector).discharge.room = {};
  shop.builder.machineOf(shop.main_port).kind = "wide-belt-sander";
  shop.builder.machineOf(shop.branch_port).kind = "band-saw";
  shop.builder.machineOf(shop.branch_port).throws_what = shop::Throws::Sparks;
  shop.builder.machineOf(shop.branch_port).guard = shop::Guard::Missing;
  const RuleStage stage(shop.builder.project);
  std::size_t limits = 0;
  for (const judge::Rule* rule : judge::peopleRules()) {
    for (const Finding& finding : found(*rule, stage)) {
      if (finding.limit && finding.limit->status != base::SourceStatus::CommonPractice &&
          finding.limit->status != base::SourceStatus::Ours) {
        ++limits;
        EXPECT_FALSE(finding.limit->source.empty()) << rule->key;
      }
    }
  }
  EXPECT_GE(limits, 8U);
}

}  // namespace
}  // namespace kerfdraft::tests
