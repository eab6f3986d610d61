// The list says what the verdict says, and its edits make the projects that the remedies mean.
#include "desk/models/finding_list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "desk/models/outcome.h"
#include "desk/solved.h"
#include "files/save.h"
#include "judge/change.h"
#include "judge/number_key.h"
#include "judge/remedy_cautions.h"
#include "judge/speech.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

class Findings : public ::testing::Test {
 protected:
  catalogue::Catalogue catalogue = *catalogue::Catalogue::shipped();

  Solved judged(const shop::Project& project) {
    Solved solved = solveShop(std::make_shared<const shop::Project>(project), {}, catalogue);
    judgeSolved(solved, catalogue);
    return solved;
  }
  static shop::Project example(const std::string& name) {
    auto read = files::loadProject(std::string(KERFDRAFT_EXAMPLES) + "/" + name + ".json");
    base::check(read.has_value(), "an example cannot be read");
    return *read;
  }
};

TEST_F(Findings, BeforeAnythingIsJudgedTheListSaysSo) {
  EXPECT_EQ(listFindings(nullptr, judge::Reader::Owner, base::UnitSystem::Metric).headline,
            "Nothing is judged yet.");
  const Solved solved =
      solveShop(std::make_shared<const shop::Project>(example("one-car-garage")), {}, catalogue);
  EXPECT_THAT(listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Metric).headline,
              HasSubstr("Being judged"));
}

TEST_F(Findings, EveryGroupIsShownOnceWithASignOfItsOwn) {
  const Solved solved = judged(example("one-car-garage"));
  const FindingList list = listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Us);
  EXPECT_EQ(list.on_top.size(), solved.verdict->on_top);
  EXPECT_EQ(list.on_top.size() + list.rest.size(), solved.verdict->groups.size());
  ASSERT_FALSE(list.on_top.empty());
  std::map<std::string, judge::Severity> signs;
  for (const FindingRow& row : list.on_top) {
    EXPECT_FALSE(row.title.empty());
    EXPECT_FALSE(row.what.empty());
    EXPECT_EQ(signs.emplace(row.sign, row.severity).first->second, row.severity);
  }
}

TEST_F(Findings, UnitsAndReaderChangeTheWordsOnly) {
  const Solved solved = judged(example("one-car-garage"));
  const FindingList us = listFindings(&solved, judge::Reader::Adviser, base::UnitSystem::Us);
  const FindingList metric = listFindings(&solved, judge::Reader::Adviser, base::UnitSystem::Metric);
  ASSERT_EQ(us.on_top.size(), metric.on_top.size());
  bool differ = false;
  for (std::size_t i = 0; i < us.on_top.size(); ++i) {
    EXPECT_EQ(us.on_top[i].key, metric.on_top[i].key);
    differ = differ || us.on_top[i].what != metric.on_top[i].what;
  }
  EXPECT_TRUE(differ);
}

TEST_F(Findings, AcceptedOneIsFoldedAwayWithItsReasonAndCanBeTakenBack) {
  const shop::Project project = example("one-car-garage");
  const Solved solved = judged(project);
  const FindingRow row = listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Metric).on_top.at(0);
  EXPECT_FALSE(acceptFinding(solved, row.finding, "  ", "2026-01-02").has_value());
  EXPECT_FALSE(acceptFinding(solved, 100000, "why", "2026-01-02").has_value());
  const auto accept = acceptFinding(solved, row.finding, "It is sold in spring.", "2026-01-02");
  ASSERT_TRUE(accept) << accept.error().text();
  const auto with = shop::applyEdits(project, accept->edits);
  ASSERT_TRUE(with) << with.error().text();

  const Solved again = judged(*with);
  const FindingList list = listFindings(&again, judge::Reader::Owner, base::UnitSystem::Metric);
  const auto found = std::find_if(list.lived_with.begin(), list.lived_with.end(),
                                  [&](const FindingRow& each) { return each.key == row.key; });
  ASSERT_NE(found, list.lived_with.end());
  EXPECT_EQ(found->reason, "It is sold in spring.");
  const auto back = withdrawFinding(again, found->finding);
  ASSERT_TRUE(back);
  EXPECT_EQ(shop::applyEdits(*with, back->edits).value(), project);
}

TEST_F(Findings, EveryRemedyThatCanBeTriedIsTheSameProjectByEdits) {
  std::size_t tried = 0;
  for (const char* name : {"one-car-garage", "two-car-garage", "basement-studio", "moved-hose"}) {
    const shop::Project project = example(name);
    const Solved solved = judged(project);
    for (std::size_t f = 0; f < solved.verdict->findings.size(); ++f) {
      const judge::Finding& finding = solved.verdict->findings[f];
      for (std::size_t r = 0; r < finding.remedies.size(); ++r) {
        const auto change = tryRemedy(project, solved, f, r);
        if (!finding.remedies[r].change) {
          EXPECT_FALSE(change);
          continue;
        }
        const auto wanted = judge::withChange(project, *finding.remedies[r].change);
        if (!wanted || *wanted == project) {
          EXPECT_FALSE(change);
          continue;
        }
        ASSERT_TRUE(change) << name << ": " << change.error().text();
        const auto made = shop::applyEdits(project, change->edits);
        ASSERT_TRUE(made) << name << " " << finding.rule << ": " << made.error().text();
        EXPECT_EQ(*made, *wanted) << name << " " << finding.rule << " " << finding.remedies[r].kind;
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 0U);
}

std::size_t timesIn(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) {
    ++count;
  }
  return count;
}

TEST_F(Findings, FoldedOnesNameTheirStateOnceAndLeadToIt) {
  const Solved solved = judged(example("two-car-garage"));
  std::size_t folded = 0;
  for (const FindingRow& row : listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Us).on_top) {
    for (const FoldedRow& under : row.folded) {
      const judge::Finding& finding = solved.verdict->findings[under.finding];
      EXPECT_EQ(under.state, finding.state);
      if (finding.state) {
        ++folded;
        EXPECT_EQ(timesIn(under.text, finding.state_name), 1U) << under.text;
      }
      const Lead lead = leadOf(solved, under.finding);
      EXPECT_EQ(lead.state, under.state);
      EXPECT_EQ(lead.place, under.place);
    }
  }
  EXPECT_GT(folded, 5U);
  EXPECT_FALSE(leadOf(solved, 100000).place.valid());
}

TEST_F(Findings, OfOneStateOnlyWhatIsOfItOrOfTheDrawing) {
  const Solved solved = judged(example("two-car-garage"));
  std::size_t of_states = 0;
  for (std::size_t s = 0; s < solved.states(); ++s) {
    const FindingList list = listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Us, s);
    const auto all = solved.verdict->groups.size();
    EXPECT_LE(list.on_top.size() + list.rest.size(), all);
    for (const auto* rows : {&list.on_top, &list.rest}) {
      for (const FindingRow& row : *rows) {
        EXPECT_TRUE(!row.state || row.state == s) << row.title;
        of_states += row.state ? 1U : 0U;
      }
    }
  }
  EXPECT_GT(of_states, 5U);
}

TEST_F(Findings, NumbersOfASentenceAreTheSolutionsOwn) {
  std::size_t asked = 0;
  for (const char* name : {"one-car-garage", "two-car-garage", "cabinet-shop"}) {
    const Solved solved = judged(example(name));
    for (const judge::Reader reader : {judge::Reader::Owner, judge::Reader::Adviser}) {
      const judge::Voice voice(reader, base::UnitSystem::Us);
      const FindingList list = listFindings(&solved, reader, base::UnitSystem::Us);
      for (const FindingRow& row : list.on_top) {
        std::string joined;
        for (const TextPart& part : row.what_parts) {
          joined += part.text;
          if (part.key.empty()) {
            continue;
          }
          ++asked;
          const auto key = judge::parseNumberKey(part.key);
          ASSERT_TRUE(key) << part.key;
          EXPECT_TRUE(!row.state || key->state == *row.state) << row.title;
          const auto number = judge::numberOf(*solved.assessment, *key);
          ASSERT_TRUE(number) << part.key;
          if (number->kind != base::Kind::MassFlow) {
            const std::string shown = voice.show(std::abs(number->value), number->kind);
            EXPECT_THAT(part.text, ::testing::AnyOf(shown, "-" + shown)) << row.what;
          }
        }
        EXPECT_EQ(joined, row.what);
      }
    }
  }
  EXPECT_GT(asked, 5U);
}

TEST_F(Findings, DangerousWorkCarriesItsCaution) {
  std::size_t told = 0;
  for (const char* name : {"one-car-garage", "two-car-garage", "cabinet-shop"}) {
    const Solved solved = judged(example(name));
    for (const FindingRow& row : listFindings(&solved, judge::Reader::Owner, base::UnitSystem::Us).on_top) {
      for (const RemedyRow& remedy : row.remedies) {
        const std::string& kind = solved.verdict->findings[row.finding].remedies[remedy.remedy].kind;
        told += remedy.caution.empty() ? 0U : 1U;
        EXPECT_EQ(remedy.caution, judge::remedyCaution(kind));
      }
    }
  }
  EXPECT_GT(told, 2U);
  EXPECT_TRUE(judge::remedyCaution("shut-gate").empty());
}

TEST_F(Findings, WhatATriedRemedyBroughtIsOneSentence) {
  std::size_t settled = 0;
  std::size_t tried = 0;
  const judge::Voice voice(judge::Reader::Owner, base::UnitSystem::Us);
  const shop::Project project = example("two-car-garage");
  const Solved before = judged(project);
  for (std::size_t g = 0; g < before.verdict->on_top; ++g) {
    const std::size_t f = before.verdict->groups[g].lead;
    const judge::Finding& finding = before.verdict->findings[f];
    for (std::size_t r = 0; r < finding.remedies.size(); ++r) {
      const auto change = tryRemedy(project, before, f, r);
      if (!change) {
        continue;
      }
      const Solved after = judged(shop::applyEdits(project, change->edits).value());
      const std::string said = outcomeOf(before, f, after, voice);
      ++tried;
      EXPECT_THAT(said, HasSubstr(judge::say(finding, voice).title));
      const bool gone = std::none_of(
          after.verdict->findings.begin(), after.verdict->findings.end(), [&](const judge::Finding& each) {
            return judge::keyOf(each) == judge::keyOf(finding) && each.severity != judge::Severity::Note;
          });
      EXPECT_EQ(said.starts_with("Settled: "), gone) << said;
      settled += gone ? 1U : 0U;
      EXPECT_NE(said.find("Worse now: ") == std::string::npos,
                said.find("Nothing else became worse") == std::string::npos)
          << said;
    }
  }
  EXPECT_GT(tried, 3U);
  EXPECT_GT(settled, 0U);
}

TEST_F(Findings, ARemedyOfAnotherStateIsMeasuredThere) {
  const Solved solved = judged(example("cabinet-shop"));
  std::size_t elsewhere = 0;
  for (std::size_t g = 0; g < solved.verdict->on_top; ++g) {
    const std::size_t f = solved.verdict->groups[g].lead;
    const judge::Finding& finding = solved.verdict->findings[f];
    for (std::size_t r = 0; r < finding.remedies.size(); ++r) {
      const judge::Finding& helped = solved.verdict->findings[findingHelped(solved, f, r)];
      EXPECT_EQ(helped.rule, finding.rule);
      EXPECT_EQ(helped.key, finding.key);
      const auto& gain = finding.remedies[r].gain;
      if (gain && gain->at.find("in state ") != std::string::npos) {
        ++elsewhere;
        EXPECT_THAT(gain->at, HasSubstr("in state " + helped.state_name));
      }
    }
  }
  EXPECT_GT(elsewhere, 0U);
}

TEST_F(Findings, NothingChangedIsNeitherSettledNorWorse) {
  const Solved solved = judged(example("one-car-garage"));
  const judge::Voice voice(judge::Reader::Owner, base::UnitSystem::Us);
  const std::string said = outcomeOf(solved, solved.verdict->groups[0].lead, solved, voice);
  EXPECT_THAT(said, HasSubstr("Not settled: "));
  EXPECT_THAT(said, HasSubstr("Nothing else became worse."));
  Solved broken;
  broken.problem = base::Error{base::ErrorCode::Conflict, "no way out", ""};
  EXPECT_THAT(outcomeOf(solved, 0, broken, voice), HasSubstr("cannot be solved"));
}

}  // namespace
}  // namespace kerfdraft::desk
