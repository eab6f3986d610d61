// Filters: how loaded, what their age costs. Bins: when they are full. What cannot be seen or measured.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "judge/rules/fan_shops.h"
#include "judge/rules/filter_bin_rules.h"
#include "network/solve.h"

namespace kerfdraft {
namespace {

using judge::Finding;
using judge::Severity;
using support::given;
using tests::found;
using tests::OneMachine;
using tests::oneMachine;
using tests::RuleStage;

/// One machine, a bag with its area chosen for this face speed in the state's flow.
OneMachine loadedShop(double speed_m_s, const std::string& country, shop::Who who) {
  OneMachine shop = oneMachine();
  shop.builder.project.setting.country = country;
  shop.builder.project.setting.who = who;
  tests::addFilter(shop.builder, shop.collector);
  const RuleStage plain(shop.builder.project);
  // Behind the fan the air is as dense as in the room, to some ten pascals.
  const double flow_m3_s =
      plain.evidence().state(0).solution.fans[0].flow_kg_s / plain.evidence().pieces().air.density_kg_m3;
  tests::unitOf(shop).filters[0].area = given<base::Area>(std::to_string(flow_m3_s / speed_m_s) + " m2");
  return shop;
}

constexpr double kGerman_m_s = 2.5 / 60;

TEST(FilterLoaded, ReturnedAirWhereAnEmployerAnswersInGermany) {
  const OneMachine shop = loadedShop(1.5 * kGerman_m_s, "DE", shop::Who::Employer);
  const auto findings = found(judge::kFilterLoaded, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Serious);
  EXPECT_NEAR(finding.figure("speed").value, 1.5 * kGerman_m_s, 0.01 * kGerman_m_s);
  ASSERT_TRUE(finding.limit);
  EXPECT_NEAR(finding.limit->value, kGerman_m_s, 1e-12);
  EXPECT_EQ(finding.limit->policy, "filter-loading: return-germany");
  EXPECT_NE(finding.limit->source.find("Dguv209044"), std::string::npos);
  // The area that it asks for brings the speed to the limit.
  EXPECT_NEAR(finding.figure("area-needed").value / finding.figure("area").value, 1.5, 0.01);
  EXPECT_TRUE(finding.defers);
}

TEST(FilterLoaded, SilentJustBelowTheLimit) {
  const OneMachine shop = loadedShop(0.97 * kGerman_m_s, "DE", shop::Who::Employer);
  EXPECT_TRUE(found(judge::kFilterLoaded, RuleStage(shop.builder.project)).empty());
}

TEST(FilterLoaded, SettingCleaningAndPolicyChooseTheLimit) {
  // At home in Germany the same loading is a caution; elsewhere a hand-cleaned cartridge takes 12 fpm.
  const OneMachine home = loadedShop(1.4 * kGerman_m_s, "DE", shop::Who::Home);
  const auto at_home = found(judge::kFilterLoaded, RuleStage(home.builder.project));
  ASSERT_EQ(at_home.size(), 1U);
  EXPECT_EQ(at_home[0].severity, Severity::Caution);
  const OneMachine abroad = loadedShop(1.4 * kGerman_m_s, "US", shop::Who::Employer);
  EXPECT_TRUE(found(judge::kFilterLoaded, RuleStage(abroad.builder.project)).empty());
  OneMachine pulsed = abroad;
  tests::unitOf(pulsed).filters[0].cleaning = "cartridge-pulse";  // 2 to 5 fpm
  const auto by_cleaning = found(judge::kFilterLoaded, RuleStage(pulsed.builder.project));
  ASSERT_EQ(by_cleaning.size(), 1U);
  EXPECT_EQ(by_cleaning[0].severity, Severity::Caution);
  EXPECT_NEAR(by_cleaning[0].limit->value, 5 * 0.3048 / 60, 1e-12);
  OneMachine chosen = abroad;
  chosen.builder.project.setting.policies = {{"filter-loading", "return-germany"}};
  const auto by_policy = found(judge::kFilterLoaded, RuleStage(chosen.builder.project));
  ASSERT_EQ(by_policy.size(), 1U);
  EXPECT_EQ(by_policy[0].limit->policy, "filter-loading: return-germany");
}

TEST(FilterLoaded, AirThatGoesOutdoorsIsNoReturnedAir) {
  OneMachine shop = loadedShop(1.4 * kGerman_m_s, "DE", shop::Who::Employer);
  tests::unitOf(shop).discharge.room = {};
  shop::Opening grille;
  grille.id = shop.builder.id();
  grille.area = given<base::Area>("1 m2");
  grille.kind = shop::OpeningKind::Grille;
  grille.usually_open = true;
  shop.builder.project.rooms[0].openings.push_back(grille);
  EXPECT_TRUE(found(judge::kFilterLoaded, RuleStage(shop.builder.project)).empty());
}

TEST(FilterLoaded, ABandThatReachesTheLimitLowersIt) {
  const OneMachine shop = loadedShop(1.1 * kGerman_m_s, "DE", shop::Who::Employer);
  const RuleStage plain(shop.builder.project);
  const auto findings =
      found(judge::kFilterLoaded, RuleStage(shop.builder.project, tests::evenBands(plain, 0.8, 1.2)));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
}

TEST(FilterLoaded, UnknownCleaningIsOnlyANote) {
  const OneMachine shop = loadedShop(14 * 0.3048 / 60, "US", shop::Who::Employer);
  const auto findings = found(judge::kFilterLoaded, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
}

TEST(FilterAreaUnknown, SaysWhatTheAirWants) {
  OneMachine shop = loadedShop(kGerman_m_s, "DE", shop::Who::Employer);
  const double area_m2 = tests::unitOf(shop).filters[0].area->si();
  EXPECT_TRUE(found(judge::kFilterAreaUnknown, RuleStage(shop.builder.project)).empty());
  tests::unitOf(shop).filters[0].area.reset();
  const auto findings = found(judge::kFilterAreaUnknown, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_NEAR(findings[0].figure("area-needed").value, area_m2, 0.01 * area_m2);
}

/// A floor between what the port gets at two ages of the filter: 0 the first, 1 the second.
OneMachine agingShop(shop::FilterState now, shop::FilterState first, shop::FilterState second, double share) {
  OneMachine shop = oneMachine();
  tests::addFilter(shop.builder, shop.collector);
  const auto flow = [&](shop::FilterState filter) {
    shop.builder.project.states[0].filter = filter;
    return tests::flowAtPort(RuleStage(shop.builder.project));
  };
  const double floor_m3_s = (1 - share) * flow(first) + share * flow(second);
  shop.builder.project.states[0].filter = now;
  tests::setFloor(shop, tests::perHour(floor_m3_s));
  return shop;
}

using shop::FilterState;

TEST(FilterDue, NoteWhereNothingHangsOnIt) {
  OneMachine shop = oneMachine();
  tests::addFilter(shop.builder, shop.collector);
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kFilterDue, stage);
  ASSERT_EQ(findings.size(), 1U);
  const Finding& finding = findings[0];
  EXPECT_EQ(finding.severity, Severity::Note);
  EXPECT_GT(finding.figure("flow-clean").value, finding.figure("flow-now").value);
  EXPECT_GT(finding.figure("flow-now").value, finding.figure("flow-due").value);
  // 900 Pa at 600 m3/h, in proportion to the flow.
  EXPECT_NEAR(finding.figure("pressure-due").value, 900 * finding.figure("flow-due").value * 3600 / 600,
              0.02 * finding.figure("pressure-due").value);
}

TEST(FilterDue, ShortOnlyWhenDue) {
  const OneMachine shop = agingShop(FilterState::Seasoned, FilterState::Seasoned, FilterState::Due, 0.5);
  const auto findings = found(judge::kFilterDue, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_EQ(findings[0].ports, std::vector<std::size_t>{0});
  EXPECT_EQ(findings[0].remedies[0].kind, "clean-filter-at");
}

TEST(FilterDue, ShortAsItStandsAndServedWhenClean) {
  OneMachine shop = agingShop(FilterState::Seasoned, FilterState::Clean, FilterState::Seasoned, 0.5);
  const auto findings = found(judge::kFilterDue, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Serious);
  ASSERT_TRUE(findings[0].remedies[0].change);
  EXPECT_EQ(findings[0].remedies[0].change->kind, judge::ChangeKind::FilterClean);
  EXPECT_EQ(findings[0].remedies[0].change->b, shop.state);
  // Clean it is served: then only the note or what comes when it is due is left.
  shop.builder.project.states[0].filter = FilterState::Clean;
  const auto clean = found(judge::kFilterDue, RuleStage(shop.builder.project));
  ASSERT_EQ(clean.size(), 1U);
  EXPECT_EQ(clean[0].severity, Severity::Caution);
}

TEST(FilterDue, CleaningPressureAgreesWithTheSolver) {
  const OneMachine shop = agingShop(FilterState::Seasoned, FilterState::Seasoned, FilterState::Due, 0.4);
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kFilterDue, stage);
  ASSERT_EQ(findings.size(), 1U);
  const double floor_m3_s = shop.builder.project.machines[0].ports[0].floor->si();
  // The resistance at which the port gets just its floor, by halving.
  const judge::Assessment& assessment = stage.assessment();
  network::Situation situation = assessment.states[0].situation;
  const auto group = static_cast<std::size_t>(pieces::Group::Filter);
  double low = 1;
  double high = 3;
  double drop_pa = 0;
  for (int i = 0; i < 50; ++i) {
    situation.group_factor[group] = 0.5 * (low + high);
    const network::Solution solution = network::solveFully(*assessment.network, situation);
    (solution.ports[0].flow_m3_s > floor_m3_s ? low : high) = situation.group_factor[group];
    for (std::size_t r = 0; r < solution.runs.size(); ++r) {
      for (std::size_t p = 0; p < solution.runs[r].pieces.size(); ++p) {
        if (assessment.pieces->runs[r].pieces[p].filter >= 0) {
          drop_pa = solution.runs[r].pieces[p].loss_pa;
        }
      }
    }
  }
  EXPECT_NEAR(findings[0].figure("clean-at").value, drop_pa, 0.03 * drop_pa);
}

TEST(FilterDue, AGaugeShowsTheCleanPartThatTheCurveHolds) {
  OneMachine shop = oneMachine();
  tests::addFilter(shop.builder, shop.collector).inside = true;
  tests::unitOf(shop).rating.fitted = shop::Fitted::Bag;
  const RuleStage stage(shop.builder.project);
  const auto findings = found(judge::kFilterDue, stage);
  ASSERT_EQ(findings.size(), 1U);
  // In the narrow bore the air is a little thinner than in the room, by its velocity pressure.
  const double through_m3_s =
      stage.evidence().filter_life[0].clean->fans[0].flow_kg_s / stage.evidence().pieces().air.density_kg_m3;
  EXPECT_NEAR(findings[0].figure("pressure-clean").value, 100 * through_m3_s * 3600 / 600, 2);
}

TEST(FilterDue, SilentWithoutFilter) {
  EXPECT_TRUE(found(judge::kFilterDue, RuleStage(oneMachine().builder.project)).empty());
}

/// A planer that throws 1.93 kg a minute into a drum of 208 l.
OneMachine planerShop(shop::Who who) {
  OneMachine shop = oneMachine();
  shop.builder.project.setting.who = who;
  shop::Machine& machine = shop.builder.machineOf(shop.port);
  machine.kind = "planer";
  machine.waste = given<base::MassFlow>("1.93 kg/min");
  shop::Separator cyclone;
  cyclone.id = shop.builder.id();
  cyclone.label = "Y1";
  cyclone.kind = "cyclone";
  cyclone.bin = given<base::Volume>("208 l");
  tests::unitOf(shop).separators.push_back(cyclone);
  return shop;
}

TEST(BinFills, PlanerShavingsByHand) {
  OneMachine shop = planerShop(shop::Who::Home);
  const auto findings = found(judge::kBinFills, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  // Softwood of 480 kg/m3, four times its volume as shavings: 16.08 l/min; three quarters of 208 l are 156 l.
  const double minutes = 0.75 * 208 / (1.93 / 480 * 1000 * 4);
  EXPECT_NEAR(minutes, 9.70, 0.01);
  EXPECT_NEAR(findings[0].figure("time-cutting").value, 60 * minutes, 1e-6);
  EXPECT_NEAR(findings[0].figure("time").value, 60 * minutes / 0.3, 1e-6);
  EXPECT_EQ(findings[0].severity, Severity::Note);  // 32 minutes of work
}

TEST(BinFills, ProductionFillsItWithinHalfAnHour) {
  OneMachine shop = planerShop(shop::Who::Employer);
  const auto findings = found(judge::kBinFills, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].badness, 1800 / findings[0].figure("time").value - 1, 1e-9);
  // Beech is heavier: the same mass is less volume.
  shop.builder.project.setting.woods = {"beech"};
  const auto beech = found(judge::kBinFills, RuleStage(shop.builder.project));
  ASSERT_EQ(beech.size(), 1U);
  EXPECT_NEAR(beech[0].figure("time").value / findings[0].figure("time").value,
              beech[0].figure("density").value / 480, 1e-9);
}

TEST(BinFills, OnePersonFeedsOneMachineAtATime) {
  support::TwoBranchTree shop = tests::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  b.machineOf(shop.main_port).waste = given<base::MassFlow>("1 kg/min");
  b.machineOf(shop.branch_port).waste = given<base::MassFlow>("0.5 kg/min");
  shop::Separator cyclone;
  cyclone.id = b.id();
  cyclone.kind = "cyclone";
  cyclone.bin = given<base::Volume>("100 l");
  b.collectorOf(shop.collector).separators.push_back(cyclone);
  b.project.setting.who = shop::Who::Home;
  const auto home = found(judge::kBinFills, RuleStage(b.project));
  b.project.setting.who = shop::Who::Employer;
  const auto production = found(judge::kBinFills, RuleStage(b.project));
  ASSERT_EQ(home.size(), 1U);
  ASSERT_EQ(production.size(), 1U);
  EXPECT_NEAR(home[0].figure("time-cutting").value / production[0].figure("time-cutting").value, 1.5, 1e-9);
}

TEST(BinFills, SilentWithoutWasteOrBin) {
  OneMachine shop = planerShop(shop::Who::Home);
  shop.builder.machineOf(shop.port).waste.reset();
  EXPECT_TRUE(found(judge::kBinFills, RuleStage(shop.builder.project)).empty());
}

TEST(BinUnknown, WhereChipsFall) {
  OneMachine shop = planerShop(shop::Who::Home);
  EXPECT_TRUE(found(judge::kBinUnknown, RuleStage(shop.builder.project)).empty());
  tests::unitOf(shop).separators[0].bin.reset();
  const auto findings = found(judge::kBinUnknown, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_NEAR(findings[0].figure("loose").value, 1.93 / 480 * 4 / 60, 1e-9);
  EXPECT_TRUE(found(judge::kBinFills, RuleStage(shop.builder.project)).empty());
  shop.builder.machineOf(shop.port).waste.reset();
  EXPECT_TRUE(found(judge::kBinUnknown, RuleStage(shop.builder.project)).empty());
}

TEST(NoGauge, OneFindingForTheProject) {
  OneMachine shop = oneMachine();
  tests::addFilter(shop.builder, shop.collector);
  tests::addFilter(shop.builder, shop.collector).label = "F2";
  shop.builder.project.setting.who = shop::Who::Home;
  const auto home = found(judge::kNoGauge, RuleStage(shop.builder.project));
  ASSERT_EQ(home.size(), 1U);
  EXPECT_EQ(home[0].label, "C1 F1 and C1 F2");
  EXPECT_EQ(home[0].severity, Severity::Note);
  shop.builder.project.setting.who = shop::Who::School;
  EXPECT_EQ(found(judge::kNoGauge, RuleStage(shop.builder.project))[0].severity, Severity::Caution);
  for (shop::Filter& filter : tests::unitOf(shop).filters) {
    filter.gauge = true;
  }
  EXPECT_TRUE(found(judge::kNoGauge, RuleStage(shop.builder.project)).empty());
}

shop::Access tapAt(support::ProjectBuilder& builder, base::Id duct, std::size_t corner) {
  shop::Access tap;
  tap.id = builder.id();
  tap.label = "M1";
  tap.corner = builder.ductOf(duct).corners[corner].id;
  tap.distance = support::length("0.5 m");
  return tap;
}

TEST(NoTap, NamesCollectorsAndDrops) {
  support::TwoBranchTree shop = tests::twoBranchTree();
  support::ProjectBuilder& b = shop.builder;
  const auto findings = found(judge::kNoTap, RuleStage(b.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].figure("units").value, 1);
  EXPECT_EQ(findings[0].figure("machines").value, 2);
  EXPECT_EQ(findings[0].words, (std::vector<std::string>{"C1", "T1", "T2"}));
  // With a tap in the main before the collector and on one drop, the other drop is left.
  b.ductOf(shop.main).taps = {tapAt(b, shop.main, 2), tapAt(b, shop.main, 0)};
  const auto fewer = found(judge::kNoTap, RuleStage(b.project));
  ASSERT_EQ(fewer.size(), 1U);
  EXPECT_EQ(fewer[0].words, std::vector<std::string>{"T2"});
  b.ductOf(shop.branch).taps = {tapAt(b, shop.branch, 0)};
  EXPECT_TRUE(found(judge::kNoTap, RuleStage(b.project)).empty());
}

TEST(NoTap, LooksThroughACycloneBeforeTheFan) {
  OneMachine shop = planerShop(shop::Who::Home);
  shop.builder.ductOf(shop.duct).taps = {tapAt(shop.builder, shop.duct, 1)};
  EXPECT_TRUE(found(judge::kNoTap, RuleStage(shop.builder.project)).empty());
}

TEST(FilterBinRules, AreSilentWithoutCollectorStateOrDuct) {
  support::ProjectBuilder empty;
  const RuleStage stage(empty.project);
  for (const judge::Rule* rule : judge::filterBinRules()) {
    EXPECT_TRUE(found(*rule, stage).empty()) << rule->key;
  }
}

}  // namespace
}  // namespace kerfdraft
