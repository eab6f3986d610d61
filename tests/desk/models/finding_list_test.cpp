// The list says what the verdict says, and its edits make the projects that the remedies mean.
#include "desk/models/finding_list.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <string>

#include "desk/solved.h"
#include "files/save.h"
#include "judge/change.h"

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

}  // namespace
}  // namespace kerfdraft::desk
