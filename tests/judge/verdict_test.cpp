// The verdict: causes before symptoms, every finding once, acceptance that hides and gives back.
#include "judge/verdict.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <sstream>

#include "judge/causes.h"
#include "judge/rule_stage.h"
#include "judge/verdict_shops.h"

namespace kerfdraft::judge {
namespace {

using tests::RuleStage;

/// Rules of the findings beneath a group's lead.
std::set<std::string> beneath(const Verdict& verdict, const Group& group) {
  std::set<std::string> rules;
  for (const std::size_t f : group.symptoms) {
    rules.insert(verdict.findings[f].rule);
  }
  return rules;
}

std::string inWords(const Verdict& verdict) {
  std::string out;
  for (const Group& group : verdict.groups) {
    const auto line = [&](const char* mark, std::size_t f) {
      const Finding& finding = verdict.findings[f];
      out += std::string(mark) + std::string(toText(finding.severity)) + " " + finding.rule + " " +
             finding.label + " (" + finding.state_name + ")\n";
    };
    line("", group.lead);
    for (const std::size_t f : group.same) {
      line("  = ", f);
    }
    for (const std::size_t f : group.symptoms) {
      line("  < ", f);
    }
  }
  return out;
}

/// All that is said, in the order in which it is said.
std::vector<std::string> texts(const Verdict& verdict) {
  std::vector<std::string> out;
  for (const Group& group : verdict.groups) {
    for (const Reader reader : {Reader::Owner, Reader::Adviser, Reader::Inspector}) {
      const Said said = say(verdict.findings[group.lead], Voice(reader, base::UnitSystem::Us));
      out.push_back(said.title + " | " + said.what + " | " + said.limit);
      out.insert(out.end(), said.remedies.begin(), said.remedies.end());
    }
  }
  return out;
}

/// The words of a text without the order in which it lists names: that is the drawing's own.
std::vector<std::string> bag(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream in(text);
  for (std::string word; in >> word;) {
    std::erase_if(word, [](char c) { return c == ',' || c == '.' || c == ':'; });
    if (word != "and" && !word.empty()) {
      words.push_back(word);
    }
  }
  std::sort(words.begin(), words.end());
  return words;
}

/// Every finding that is not accepted is in exactly one group, accepted ones in exactly one of those lived
/// with; leads weigh what their groups weigh.
void expectComplete(const Verdict& verdict) {
  std::vector<int> open(verdict.findings.size(), 0);
  std::vector<int> folded(verdict.findings.size(), 0);
  const auto count = [](const std::vector<Group>& groups, std::vector<int>& times) {
    for (const Group& group : groups) {
      ++times[group.lead];
      for (const std::size_t f : group.same) {
        ++times[f];
      }
      for (const std::size_t f : group.symptoms) {
        ++times[f];
      }
    }
  };
  count(verdict.groups, open);
  count(verdict.lived_with, folded);
  for (std::size_t f = 0; f < verdict.findings.size(); ++f) {
    const bool accepted = verdict.accepted[f] == Accepted::Yes;
    EXPECT_EQ(open[f], accepted ? 0 : 1) << verdict.findings[f].rule;
    EXPECT_EQ(folded[f], accepted ? 1 : 0) << verdict.findings[f].rule;
  }
  for (const Group& group : verdict.groups) {
    for (const std::size_t f : group.symptoms) {
      EXPECT_LE(verdict.findings[group.lead].severity, verdict.findings[f].severity);
    }
  }
  EXPECT_LE(verdict.on_top, std::min(verdict.groups.size(), kMostOnTop));
  EXPECT_TRUE(
      std::is_sorted(verdict.groups.begin(), verdict.groups.end(), [&](const Group& a, const Group& b) {
        return verdict.findings[a.lead].severity < verdict.findings[b.lead].severity;
      }));
}

TEST(Verdict, OneSmallDropIsNamedBeforeItsFourSymptoms) {
  const auto shop = tests::oneSmallDrop();
  const RuleStage stage(shop.builder.project);
  const Verdict verdict = judgeEvidence(stage.evidence());
  SCOPED_TRACE(inWords(verdict));
  expectComplete(verdict);
  ASSERT_GE(verdict.on_top, 1U);
  const Group& first = verdict.groups[0];
  const Finding& lead = verdict.findings[first.lead];
  EXPECT_EQ(lead.rule, "small-duct");
  EXPECT_EQ(lead.severity, Severity::Serious);
  EXPECT_EQ(stage.evidence().ductsOfRun(lead.runs.front()).front()->id, shop.drop);
  const std::set<std::string> symptoms = beneath(verdict, first);
  for (const char* symptom : {"port-short", "weak-indraught", "chips-settle", "hose-heavy"}) {
    EXPECT_TRUE(symptoms.contains(symptom)) << symptom;
  }
  for (std::size_t g = 1; g < verdict.groups.size(); ++g) {
    EXPECT_GT(verdict.findings[verdict.groups[g].lead].severity, Severity::Serious);
  }
  ASSERT_FALSE(lead.remedies.empty());
  ASSERT_TRUE(lead.remedies[0].gain);
  EXPECT_EQ(lead.remedies[0].gain->kind, base::Kind::VolumeFlow);
  EXPECT_GT(lead.remedies[0].gain->after, 1.3 * lead.remedies[0].gain->before);
  EXPECT_FALSE(verdict.all_served);
  EXPECT_TRUE(verdict.all_solved);
}

TEST(Verdict, TheSameShopWithAGoodDropHasNothingSerious) {
  const auto shop = tests::oneSmallDrop("6 in");
  const RuleStage stage(shop.builder.project);
  const Verdict verdict = judgeEvidence(stage.evidence());
  SCOPED_TRACE(inWords(verdict));
  expectComplete(verdict);
  for (const Group& group : verdict.groups) {
    EXPECT_GT(verdict.findings[group.lead].severity, Severity::Serious);
  }
  EXPECT_TRUE(verdict.all_served);
}

TEST(Verdict, OrderOfMachinesInTheFileChangesNothingThatIsSaid) {
  const auto shop = tests::oneSmallDrop();
  shop::Project turned = shop.builder.project;
  std::reverse(turned.machines.begin(), turned.machines.end());
  std::reverse(turned.ducts.begin(), turned.ducts.end());
  const RuleStage one(shop.builder.project);
  const RuleStage other(turned);
  const std::vector<std::string> these = texts(judgeEvidence(one.evidence()));
  const std::vector<std::string> those = texts(judgeEvidence(other.evidence()));
  ASSERT_EQ(these.size(), those.size());
  for (std::size_t i = 0; i < these.size(); ++i) {
    EXPECT_EQ(bag(these[i]), bag(those[i])) << these[i] << "\n" << those[i];
  }
}

TEST(Verdict, IsTheSameEachTime) {
  const RuleStage stage(tests::shopWithEverything());
  const Verdict once = judgeEvidence(stage.evidence());
  expectComplete(once);
  EXPECT_EQ(texts(once), texts(judgeEvidence(stage.evidence())));
}

/// The project with a finding accepted as it stands.
shop::Project accepting(shop::Project project, const Evidence& evidence, const Finding& finding) {
  shop::Acceptance acceptance;
  acceptance.rule = finding.rule;
  acceptance.about = finding.key.text();
  if (finding.state) {
    acceptance.state = evidence.state(*finding.state).id;
  }
  acceptance.badness = support::ratio(std::to_string(finding.badness));
  acceptance.reason = "the planer is used twice a year";
  project.accepted.push_back(acceptance);
  return project;
}

TEST(Verdict, AnAcceptedFindingIsFoldedAndReturnsWhenAHoseGrows) {
  auto shop = tests::oneSmallDrop();
  const RuleStage stage(shop.builder.project);
  const Verdict before = judgeEvidence(stage.evidence());
  const auto shortage = std::find_if(before.findings.begin(), before.findings.end(),
                                     [](const Finding& each) { return each.rule == "port-short"; });
  ASSERT_NE(shortage, before.findings.end());
  shop::Project project = accepting(shop.builder.project, stage.evidence(), *shortage);
  const auto index = static_cast<std::size_t>(shortage - before.findings.begin());

  const RuleStage accepted(project);
  const Verdict folded = judgeEvidence(accepted.evidence());
  expectComplete(folded);
  EXPECT_EQ(folded.accepted[index], Accepted::Yes);
  EXPECT_EQ(folded.reasons[index], "the planer is used twice a year");
  ASSERT_EQ(folded.lived_with.size(), 1U);
  EXPECT_EQ(folded.lived_with[0].lead, index);

  project.ducts[1].corners[0].leg->hose->length = support::length("6 m");
  const RuleStage grown(project);
  const Verdict back = judgeEvidence(grown.evidence());
  expectComplete(back);
  const auto again = std::find_if(back.findings.begin(), back.findings.end(),
                                  [](const Finding& each) { return each.rule == "port-short"; });
  ASSERT_NE(again, back.findings.end());
  EXPECT_GT(again->badness, 1.1 * shortage->badness);
  EXPECT_EQ(back.accepted[static_cast<std::size_t>(again - back.findings.begin())], Accepted::Returned);
  EXPECT_FALSE(back.reasons[static_cast<std::size_t>(again - back.findings.begin())].empty());
}

TEST(Verdict, AnAcceptanceOfAnotherStateOrPieceHidesNothing) {
  const auto shop = tests::oneSmallDrop();
  const RuleStage stage(shop.builder.project);
  const Verdict before = judgeEvidence(stage.evidence());
  const auto shortage = std::find_if(before.findings.begin(), before.findings.end(),
                                     [](const Finding& each) { return each.rule == "port-short"; });
  ASSERT_NE(shortage, before.findings.end());
  shop::Project project = accepting(shop.builder.project, stage.evidence(), *shortage);
  project.accepted[0].state = shop.sawing;
  EXPECT_TRUE(judgeEvidence(RuleStage(project).evidence()).lived_with.empty());
  project = accepting(shop.builder.project, stage.evidence(), *shortage);
  project.accepted[0].about = "run:00000000000000aa";
  EXPECT_TRUE(judgeEvidence(RuleStage(project).evidence()).lived_with.empty());
}

TEST(Verdict, ShopsThatAreHardlyThereAreJudgedToo) {
  shop::Project empty;
  empty.air.temperature = support::given<base::Temperature>("20 °C");
  auto lone = support::oneMachine().builder.project;
  lone.ducts.clear();
  lone.states.clear();
  auto stopped = support::oneMachine().builder.project;
  stopped.states[0].off = {stopped.collectors[0].id};
  for (const shop::Project& project : {empty, lone, stopped}) {
    const auto assessment = judge::assess(project, tests::shippedTables());
    ASSERT_TRUE(assessment);
    const auto verdict = judgeShop(*assessment, tests::shippedTables());
    ASSERT_TRUE(verdict) << verdict.error().text();
    expectComplete(*verdict);
    for (const std::string& text : texts(*verdict)) {
      EXPECT_FALSE(text.empty());
    }
  }
}

TEST(Causes, TheTableNamesRulesAndRunsInOneDirection) {
  std::map<std::string_view, std::size_t> depth;
  for (const CauseRow& row : causeRows()) {
    EXPECT_NE(findRule(row.symptom), nullptr) << row.symptom;
    EXPECT_NE(findRule(row.cause), nullptr) << row.cause;
    depth[row.symptom] = depth[row.cause] = 0;
  }
  // As many rounds as there are rules settle every depth, unless the rows run in a ring.
  for (std::size_t round = 0; round <= depth.size(); ++round) {
    bool deeper = false;
    for (const CauseRow& row : causeRows()) {
      if (depth[row.cause] < depth[row.symptom] + 1) {
        depth[row.cause] = depth[row.symptom] + 1;
        deeper = true;
      }
    }
    ASSERT_FALSE(deeper && round == depth.size()) << "a cause explains itself";
  }
}

}  // namespace
}  // namespace kerfdraft::judge
