// Hose on the way of chips: curls that catch, sags that fill.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <tuple>

#include "judge/rule_stage.h"
#include "judge/rules/conveying_rules.h"

namespace kerfdraft::judge {
namespace {

using shop::HoseHung;
using shop::HoseInside;
using support::length;
using testing::ElementsAre;
using testing::HasSubstr;
using tests::found;
using tests::RuleStage;

/// A machine of this kind whose riser is hose.
support::OneMachine onHose(const std::string& kind, const char* bore, HoseInside inside,
                           HoseHung hung = HoseHung::Hung) {
  support::OneMachine shop = support::oneMachine();
  shop.builder.machineOf(shop.port).kind = kind;
  shop.builder.port(shop.port).bore = length(bore);
  shop::Duct& duct = shop.builder.ductOf(shop.duct);
  duct.corners[0].leg = support::ProjectBuilder::hose(bore, inside, hung);
  shop::Leg metal;
  metal.bore = length(bore);
  metal.construction = "spiral-galvanized";
  duct.corners[1].leg = metal;
  return shop;
}

TEST(StringyHose, CurlsThroughRibbedHoseAreACaution) {
  const RuleStage stage(onHose("planer", "100 mm", HoseInside::Ribbed).builder.project);
  const auto findings = found(kStringyHose, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("length").value, 3, 1e-9);
  EXPECT_NEAR(findings[0].figure("bore").value, 0.1, 1e-9);
  EXPECT_THAT(findings[0].words, ElementsAre("ribbed", "wide", "T1"));
  ASSERT_EQ(findings[0].remedies.size(), 1U);
  EXPECT_EQ(findings[0].remedies[0].change->kind, ChangeKind::HoseTight);
}

TEST(StringyHose, AShortRibbedConnectionIsANoteAndACuffIsNothing) {
  const auto connected = [](const char* length_of_hose) {
    support::OneMachine shop = onHose("jointer", "125 mm", HoseInside::Ribbed);
    shop.builder.ductOf(shop.duct).corners[0].leg->hose->length = length(length_of_hose);
    return found(kStringyHose, RuleStage(shop.builder.project));
  };
  ASSERT_EQ(connected("1.5 m").size(), 1U);
  EXPECT_EQ(connected("1.5 m")[0].severity, Severity::Note);
  EXPECT_EQ(connected("1.55 m")[0].severity, Severity::Caution);
  EXPECT_TRUE(connected("0.29 m").empty());
}

TEST(StringyHose, ShortConnectionsOfSeveralMachinesAreOneNote) {
  support::TwoBranchTree shop = support::twoBranchTree();
  for (const auto& [ref, duct, bore] : {std::tuple{shop.main_port, shop.main, "125 mm"},
                                        std::tuple{shop.branch_port, shop.branch, "100 mm"}}) {
    shop.builder.machineOf(ref).kind = "planer";
    shop::Duct& of = shop.builder.ductOf(duct);
    shop::Leg metal = *of.corners[0].leg;
    of.corners[1].leg = of.corners[1].leg ? of.corners[1].leg : metal;
    of.corners[0].leg = support::ProjectBuilder::hose(bore, HoseInside::Ribbed);
    of.corners[0].leg->hose->length = length("1 m");
  }
  const auto findings = found(kStringyHose, RuleStage(shop.builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Note);
  EXPECT_EQ(findings[0].label, "D1, D2");
  EXPECT_NEAR(findings[0].figure("bore").value, 0.1, 1e-9);
  EXPECT_THAT(findings[0].words, ElementsAre("ribbed", "wide", "T1", "T2"));
  EXPECT_THAT(tests::told(kStringyHose, findings[0], Reader::Owner), HasSubstr("T1 and T2 send"));
}

TEST(StringyHose, NarrowHoseCatchesThemEvenSmooth) {
  const auto findings =
      found(kStringyHose, RuleStage(onHose("spindle-moulder", "80 mm", HoseInside::Smooth).builder.project));
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_THAT(findings[0].words, ElementsAre("smooth", "narrow", "T1"));
  ASSERT_TRUE(findings[0].limit);
  EXPECT_GT(findings[0].limit->value, 0.08);
  ASSERT_EQ(findings[0].remedies.size(), 1U);
  EXPECT_EQ(findings[0].remedies[0].kind, "bigger-duct");
  EXPECT_NEAR(findings[0].remedies[0].figures[0].value, 0.1, 1e-9);  // the next metric size below 120 mm
}

TEST(StringyHose, SmoothWideHoseAndSawdustPass) {
  for (const auto& shop :
       {onHose("planer", "100 mm", HoseInside::Smooth), onHose("band-saw", "100 mm", HoseInside::Ribbed),
        onHose("band-saw", "80 mm", HoseInside::Smooth)}) {
    EXPECT_TRUE(found(kStringyHose, RuleStage(shop.builder.project)).empty());
  }
}

TEST(FlatSack, SlackHoseWhereChipsPassIsACaution) {
  const RuleStage stage(onHose("band-saw", "100 mm", HoseInside::Smooth, HoseHung::Slack).builder.project);
  const auto findings = found(kFlatSack, stage);
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].severity, Severity::Caution);
  EXPECT_NEAR(findings[0].figure("length").value, 3, 1e-9);
  EXPECT_NEAR(findings[0].figure("speed").value, stage.evidence().margins[0].runs[0].slowest_m_s,
              0.05 * findings[0].figure("speed").value);
  EXPECT_THAT(tests::told(kFlatSack, findings[0], Reader::Owner), HasSubstr("3 m of hose in D1 hangs slack"));
}

TEST(FlatSack, HoseWithLittleSagAndSlackHoseThatIsShutPass) {
  EXPECT_TRUE(
      found(kFlatSack, RuleStage(onHose("band-saw", "100 mm", HoseInside::Smooth).builder.project)).empty());
  support::OneMachine shut = onHose("band-saw", "100 mm", HoseInside::Smooth, HoseHung::Slack);
  shut.builder.project.states[0].gates.clear();
  EXPECT_TRUE(found(kFlatSack, RuleStage(shut.builder.project)).empty());
}

}  // namespace
}  // namespace kerfdraft::judge
