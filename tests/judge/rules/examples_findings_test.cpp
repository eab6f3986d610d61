// What each example must show first, because it was drawn for that, and what it must not raise. The stories
// stand in examples/README.md. With bands, as every command gives them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <memory>
#include <set>
#include <sstream>
#include <string>

#include "doubt/bands.h"
#include "files/project_file.h"
#include "judge/rule_stage.h"
#include "judge/verdict.h"

namespace kerfdraft::judge {
namespace {

using testing::AnyOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

struct Judged {
  shop::Project project;
  std::unique_ptr<Assessment> assessment;
  Verdict verdict;

  const Finding& lead(std::size_t group) const { return verdict.findings[verdict.groups.at(group).lead]; }

  /// Rules that lead one of the groups from the first to before this one, those beneath them not counted.
  std::vector<std::string> leads(std::size_t before) const {
    std::vector<std::string> out;
    for (std::size_t g = 0; g < std::min(before, verdict.groups.size()); ++g) {
      out.push_back(lead(g).rule);
    }
    return out;
  }

  std::vector<std::string> onTop() const { return leads(verdict.on_top); }

  /// Every rule that found something graver than a note.
  std::set<std::string> graver() const {
    std::set<std::string> out;
    for (const Finding& finding : verdict.findings) {
      if (finding.severity != Severity::Note) {
        out.insert(finding.rule);
      }
    }
    return out;
  }

  /// The group that this rule leads about this label; null where there is none.
  const Group* group(std::string_view rule, std::string_view label) const {
    for (const Group& each : verdict.groups) {
      const Finding& finding = verdict.findings[each.lead];
      if (finding.rule == rule && finding.label.starts_with(label)) {
        return &each;
      }
    }
    return nullptr;
  }
};

const Judged& judged(const std::string& name) {
  static std::map<std::string, Judged> known;
  const auto [at, fresh] = known.try_emplace(name);
  if (fresh) {
    std::ifstream in(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/" + name + ".json", std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    auto read = files::readProject(text.str(), name);
    base::check(read.has_value(), name.c_str());
    Judged& now = at->second;
    now.project = std::move(*read);
    now.assessment = std::make_unique<Assessment>(tests::solved(now.project));
    now.verdict = judgeShop(*now.assessment, tests::shippedTables(),
                            doubt::assessBands(*now.assessment, tests::shippedTables()))
                      .value();
  }
  return at->second;
}

std::vector<std::string> kinds(const Finding& finding) {
  std::vector<std::string> out;
  for (const Remedy& remedy : finding.remedies) {
    out.push_back(remedy.kind);
  }
  return out;
}

TEST(ExampleFindings, CanBeToldToEveryReaderInBothSystems) {
  for (const char* name :
       {"basement-studio", "cabinet-shop", "hand-tool-vacuum", "moved-hose", "one-car-garage", "ring-main",
        "school-workshop", "small-joinery", "two-car-garage"}) {
    SCOPED_TRACE(name);
    const Judged& shop = judged(name);
    EXPECT_LE(shop.verdict.on_top, kMostOnTop);
    for (const Finding& finding : shop.verdict.findings) {
      for (const Reader reader : {Reader::Owner, Reader::Adviser, Reader::Inspector}) {
        for (const base::UnitSystem units : {base::UnitSystem::Us, base::UnitSystem::Metric}) {
          const Said said = say(finding, Voice(reader, units));
          tests::checkWords(said.title);
          tests::checkWords(said.what);
          for (const std::string& remedy : said.remedies) {
            tests::checkWords(remedy);
          }
        }
      }
    }
  }
}

// 300 cfm through 4 in, whatever gate is open.
TEST(ExampleFindings, OneCarGarageHasAWeakFanOnAThinTrunk) {
  const Judged& shop = judged("one-car-garage");
  EXPECT_THAT(shop.leads(1), Contains(AnyOf("weak-fan", "small-duct")));
  EXPECT_THAT(shop.leads(2), Contains("small-duct"));
  EXPECT_NE(shop.group("small-duct", "D1"), nullptr);
  // Its air comes back: the water heater is a note as long as that is so.
  const Group* flue = shop.group("flue-gas", "Garage");
  ASSERT_NE(flue, nullptr);
  EXPECT_EQ(shop.verdict.findings[flue->lead].severity, Severity::Note);
}

TEST(ExampleFindings, OneCarGarageRaisesNoFalseAlarm) {
  const std::set<std::string> graver = judged("one-car-garage").graver();
  for (const char* rule :
       {"plastic-duct", "dead-leg", "branch-from-below", "unstable-part", "impossible-label", "label-only",
        "no-solution", "open-end", "blows-back", "air-too-fast"}) {
    EXPECT_THAT(graver, Not(Contains(rule)));
  }
}

// The fan is strong enough, the 8 in main is too wide for one gate.
TEST(ExampleFindings, TwoCarGarageHasAMainTooWideForOneGate) {
  const Judged& shop = judged("two-car-garage");
  EXPECT_EQ(shop.lead(0).rule, "chips-settle");
  EXPECT_EQ(shop.lead(0).label, "D1");
  EXPECT_THAT(kinds(shop.lead(0)), Contains("smaller-duct"));
  for (const Remedy& remedy : shop.lead(0).remedies) {
    if (remedy.kind == "smaller-duct") {
      EXPECT_NEAR(remedy.change->value, 7 * 0.0254, 1e-9);  // planer and lathe together want that much
      ASSERT_TRUE(remedy.gain);
      EXPECT_GT(remedy.gain->after, 1.2 * remedy.gain->before);
    }
  }
  // In the state of the story: the planer's 900 cfm at less than 2800 fpm.
  for (const Finding& finding : shop.verdict.findings) {
    if (finding.rule == "chips-settle" && finding.label == "D1" && finding.state_name == "Planer alone") {
      EXPECT_LT(finding.figure("slowest").value, 2800 * 0.3048 / 60);
      EXPECT_NEAR(finding.figure("bore").value, 8 * 0.0254, 1e-9);
      EXPECT_NEAR(finding.figure("suits").value, 6 * 0.0254, 1e-9);
      EXPECT_THAT(finding.words, Contains("dry shavings"));
      return;
    }
  }
  FAIL() << "the planer's chips are not mentioned";
}

TEST(ExampleFindings, TwoCarGarageNamesTheHalfOpenGateAndTheSweepsDeadLeg) {
  const Judged& shop = judged("two-car-garage");
  EXPECT_THAT(shop.graver(), Contains("part-open-gate"));
  const Group* leg = shop.group("dead-leg", "D1");
  ASSERT_NE(leg, nullptr);
  EXPECT_THAT(shop.verdict.findings[leg->lead].words, testing::ElementsAre("falls", "D13"));
}

TEST(ExampleFindings, TwoCarGarageRaisesNoFalseAlarm) {
  const std::set<std::string> graver = judged("two-car-garage").graver();
  for (const char* rule : {"flue-gas", "plastic-duct", "filter-loaded", "unstable-part", "beyond-curve",
                           "branch-from-below", "flat-sack", "hose-slack", "room-suction", "sealed-body"}) {
    EXPECT_THAT(graver, Not(Contains(rule)));
  }
}

// One DN315 for three machines together: alone they leave it far too slow, and it cannot be made narrower.
TEST(ExampleFindings, CabinetShopHasAMainThatMustBeKeptMoving) {
  const Judged& shop = judged("cabinet-shop");
  EXPECT_EQ(shop.lead(0).rule, "chips-settle");
  EXPECT_EQ(shop.lead(0).label, "D1");
  EXPECT_EQ(shop.lead(0).severity, Severity::Serious);
  EXPECT_NEAR(shop.lead(0).figure("bore").value, 0.315, 1e-9);
  EXPECT_THAT(kinds(shop.lead(0)), Contains("keep-moving"));
  EXPECT_THAT(kinds(shop.lead(0)), Not(Contains("smaller-duct")));
  EXPECT_GE(shop.verdict.groups[0].same.size(), 6U);  // nearly every machine alone
}

TEST(ExampleFindings, CabinetShopRaisesNoFalseAlarm) {
  const std::set<std::string> graver = judged("cabinet-shop").graver();
  for (const char* rule : {"flue-gas", "plastic-duct", "label-only", "unstable-part", "guard-missing",
                           "no-gauge", "branch-from-below", "open-end", "dead-leg", "stringy-hose"}) {
    EXPECT_THAT(graver, Not(Contains(rule)));
  }
}

// The boiler stands in a room of its own; the main is wide for one machine.
TEST(ExampleFindings, SchoolWorkshopHasAMainTooWideAndNoFlueGas) {
  const Judged& shop = judged("school-workshop");
  EXPECT_EQ(shop.lead(0).rule, "chips-settle");
  EXPECT_EQ(shop.lead(0).label, "D1");
  ASSERT_TRUE(shop.lead(0).limit);
  // The authority that the school chose prints nothing for sawdust alone.
  EXPECT_EQ(shop.lead(0).limit->policy, "transport-velocity: the working rule");
  for (const Finding& finding : shop.verdict.findings) {
    EXPECT_NE(finding.rule, "flue-gas");
  }
}

TEST(ExampleFindings, SchoolWorkshopRaisesNoFalseAlarm) {
  const std::set<std::string> graver = judged("school-workshop").graver();
  for (const char* rule : {"plastic-duct", "label-only", "unstable-part", "guard-missing", "returned-air",
                           "branch-from-below", "open-end", "dead-leg", "room-suction", "open-bag"}) {
    EXPECT_THAT(graver, Not(Contains(rule)));
  }
}

// Thin air, red cedar, plastic pipe, a furnace beside a finishing nook with its own exhaust.
TEST(ExampleFindings, BasementStudioHasFlueGasCedarAndSlowEastPipe) {
  const Judged& shop = judged("basement-studio");
  EXPECT_THAT(shop.onTop(), Contains("flue-gas"));
  EXPECT_THAT(shop.onTop(), Contains("sensitizer"));
  EXPECT_THAT(shop.onTop(), Contains("chips-settle"));
  EXPECT_NE(shop.group("plastic-duct", "D1"), nullptr);
  for (const Finding& finding : shop.verdict.findings) {
    if (finding.rule == "chips-settle" && finding.label == "D1" &&
        finding.state_name == "Disc sander alone") {
      // 20 m/s at this height need about 790 cfm.
      EXPECT_NEAR(finding.figure("flow-needed").value, 790 * 4.7195e-4, 10 * 4.7195e-4);
    }
  }
}

// Two unequal fans on one ring.
TEST(ExampleFindings, RingMainHasUnequalFansThatBlowThroughEachOther) {
  const Judged& shop = judged("ring-main");
  const std::set<std::string> graver = shop.graver();
  EXPECT_THAT(graver, Contains("blows-back"));
  EXPECT_THAT(graver, Contains("beyond-curve"));
  EXPECT_THAT(graver, Contains("open-bag"));
  const auto backward = std::find_if(
      shop.verdict.findings.begin(), shop.verdict.findings.end(),
      [](const Finding& finding) { return finding.rule == "blows-back" && finding.label.starts_with("C1"); });
  ASSERT_NE(backward, shop.verdict.findings.end());
  EXPECT_EQ(backward->state_name, "Planer-thicknesser alone, cyclone off");
  EXPECT_THAT(kinds(*backward), Contains("non-return"));
  // The bag unit has its damper.
  for (const Finding& finding : shop.verdict.findings) {
    EXPECT_FALSE(finding.rule == "blows-back" && finding.label.starts_with("C2"));
  }
}

// Little air at high suction through thin hoses.
TEST(ExampleFindings, HandToolVacuumLosesItsAirInItsHoses) {
  const Judged& shop = judged("hand-tool-vacuum");
  std::set<std::string> all;
  for (const Finding& finding : shop.verdict.findings) {
    all.insert(finding.rule);
  }
  EXPECT_THAT(all, Contains("hose-heavy"));
  // What can burn people stands before what lacks air.
  EXPECT_THAT(shop.leads(2), Contains(AnyOf("not-together", "hose-heavy", "small-duct")));
  for (const char* rule :
       {"flue-gas", "plastic-duct", "unstable-part", "stringy-hose", "branch-from-below"}) {
    EXPECT_THAT(shop.graver(), Not(Contains(rule)));
  }
}

// A label and one long hose.
TEST(ExampleFindings, MovedHoseIsAWeakCollectorKnownByItsLabel) {
  const Judged& shop = judged("moved-hose");
  EXPECT_THAT(shop.onTop(), Contains("label-only"));
  EXPECT_THAT(shop.leads(2), Contains(AnyOf("weak-fan", "label-only", "hose-heavy")));
  EXPECT_THAT(shop.graver(), Not(Contains("dead-leg")));
  EXPECT_THAT(shop.graver(), Not(Contains("flue-gas")));
}

// The shop that is laid out well.
TEST(ExampleFindings, SmallJoineryHasNothingButNotes) {
  const Judged& shop = judged("small-joinery");
  EXPECT_TRUE(shop.verdict.all_solved);
  EXPECT_TRUE(shop.verdict.all_served);
  EXPECT_EQ(shop.verdict.on_top, 0U);
  for (const Finding& finding : shop.verdict.findings) {
    EXPECT_EQ(finding.severity, Severity::Note) << finding.rule << " " << finding.label;
  }
  for (const char* rule : {"chips-settle", "dead-leg", "no-tap", "no-gauge", "port-short", "air-too-fast"}) {
    EXPECT_TRUE(std::none_of(shop.verdict.findings.begin(), shop.verdict.findings.end(),
                             [&](const Finding& finding) { return finding.rule == rule; }))
        << rule;
  }
}

// The same shop spoiled in one place names that place first.
TEST(ExampleFindings, SmallJoinerySpoiledNamesWhatWasSpoiled) {
  const auto firstOf = [](const shop::Project& project) {
    const Assessment assessment = tests::solved(project);
    const Verdict verdict =
        judgeShop(assessment, tests::shippedTables(), doubt::assessBands(assessment, tests::shippedTables()))
            .value();
    base::check(verdict.on_top > 0, "nothing stands on top");
    return verdict.findings[verdict.groups[0].lead];
  };
  const auto spoiled = [] { return judged("small-joinery").project; };

  shop::Project wide = spoiled();
  for (shop::Corner& corner : wide.ducts[0].corners) {
    if (corner.leg && !corner.leg->hose) {
      corner.leg->bore = support::length("200 mm");
    }
  }
  EXPECT_EQ(firstOf(wide).rule, "chips-settle");
  EXPECT_EQ(firstOf(wide).label, "D1");

  shop::Project slack = spoiled();
  shop::Leg& hose = *slack.ducts[0].corners[0].leg;
  hose.hose = shop::Hose{shop::HoseInside::Ribbed, shop::HoseHung::Slack, support::length("4 m"), {}};
  EXPECT_THAT(firstOf(slack).rule, AnyOf("hose-slack", "hose-heavy"));
  EXPECT_THAT(firstOf(slack).label, HasSubstr("D1"));

  shop::Project half = spoiled();
  half.states[1].gates[0].travel = support::ratio("50 %");
  EXPECT_EQ(firstOf(half).rule, "part-open-gate");
  EXPECT_EQ(firstOf(half).label, "G2");
}

}  // namespace
}  // namespace kerfdraft::judge
