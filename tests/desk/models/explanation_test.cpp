// Every number of an example is explained in words, its links lead on, and it is found again after an edit.
#include "desk/models/explanation.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "desk/solved.h"
#include "files/entered_at.h"
#include "files/save.h"
#include "judge/explain.h"
#include "judge/number_key.h"

namespace kerfdraft::desk {
namespace {

using base::UnitSystem;
using ::testing::HasSubstr;

class Why : public ::testing::Test {
 protected:
  catalogue::Catalogue catalogue = *catalogue::Catalogue::shipped();
  shop::Project project = example("one-car-garage");
  Solved solved = solve(project);

  Solved solve(const shop::Project& of) const {
    return solveShop(std::make_shared<const shop::Project>(of), {}, catalogue);
  }
  static shop::Project example(const std::string& name) {
    auto read = files::loadProject(std::string(KERFDRAFT_EXAMPLES) + "/" + name + ".json");
    base::check(read.has_value(), "an example cannot be read");
    return *read;
  }
};

TEST_F(Why, EveryNumberOfAStateHasWordsAndItsLinksLeadOn) {
  std::size_t linked = 0;
  for (std::size_t s = 0; s < std::min<std::size_t>(solved.states(), 2); ++s) {
    for (const judge::NumberKey& key : judge::numberKeys(*solved.assessment, s)) {
      const Explanation of = explainNumber(solved, key.text(), UnitSystem::Us);
      ASSERT_TRUE(of.problem.empty()) << key.text() << ": " << of.problem;
      EXPECT_FALSE(of.name.empty());
      EXPECT_FALSE(of.steps.empty()) << key.text();
      EXPECT_EQ(of.value.find("nan"), std::string::npos);
      for (const WhyInput& input : of.inputs) {
        EXPECT_FALSE(input.words.empty()) << key.text() << " " << input.symbol;
        EXPECT_FALSE(input.origin.empty()) << key.text() << " " << input.symbol;
        if (!input.link.empty()) {
          ++linked;
          EXPECT_TRUE(judge::explain(*solved.assessment, input.link)) << input.link;
        }
      }
    }
  }
  EXPECT_GT(linked, 100U);
}

TEST_F(Why, ValueIsThatOfTheCommandLineAndFollowsTheUnits) {
  const auto number = judge::numberOf(*solved.assessment, *judge::parseNumberKey("state/0/port/0/flow"));
  ASSERT_TRUE(number);
  const Explanation us = explainNumber(solved, "state/0/port/0/flow", UnitSystem::Us);
  const Explanation metric = explainNumber(solved, "state/0/port/0/flow", UnitSystem::Metric);
  EXPECT_EQ(us.name, number->name);
  EXPECT_THAT(us.value, HasSubstr("cfm"));
  EXPECT_THAT(metric.value, HasSubstr("m³/h"));
  EXPECT_EQ(us.state, solved.assessment->states[0].name);
  EXPECT_TRUE(us.place.valid());
}

TEST_F(Why, WhatWasEnteredStandsAsTypedWithStandingAndPlace) {
  std::size_t entered = 0;
  for (const judge::NumberKey& key : judge::numberKeys(*solved.assessment, 0)) {
    for (const WhyInput& input : explainNumber(solved, key.text(), UnitSystem::Us).inputs) {
      if (input.origin.starts_with("entered as ")) {
        ++entered;
        EXPECT_THAT(input.origin, ::testing::ContainsRegex("measured|published|maker|assumed|estimated"));
      }
    }
  }
  EXPECT_GT(entered, 20U);
  const Explanation air = explainNumber(solved, "air/density", UnitSystem::Us);
  const auto temperature = std::find_if(air.inputs.begin(), air.inputs.end(),
                                        [](const WhyInput& each) { return each.words == "temperature"; });
  ASSERT_NE(temperature, air.inputs.end());
  EXPECT_THAT(temperature->origin, HasSubstr(project.air.temperature.text()));
  EXPECT_THAT(air.steps.front().source, HasSubstr("Read:"));
}

TEST_F(Why, SaysWhichAssumptionMovesAFlowMost) {
  const Explanation flow = explainNumber(solved, "state/0/port/0/flow", UnitSystem::Us);
  EXPECT_THAT(flow.doubt, HasSubstr("What moves it most"));
  EXPECT_TRUE(explainNumber(solved, "air/density", UnitSystem::Us).doubt.empty());
}

TEST_F(Why, BadKeysAreRefusedInASentence) {
  for (const char* key :
       {"", "nonsense", "state/0/port/9999/flow", "state/77/port/0/flow", "state/0/port/0/taste"}) {
    const Explanation of = explainNumber(solved, key, UnitSystem::Us);
    EXPECT_FALSE(of.problem.empty()) << key;
    EXPECT_TRUE(of.steps.empty()) << key;
  }
  EXPECT_FALSE(explainNumber(Solved{}, "air/density", UnitSystem::Us).problem.empty());
}

TEST_F(Why, AskedInAnotherStateItIsTheSameNumberThere) {
  EXPECT_EQ(inState("state/0/run/2/piece/1/loss", 3), "state/3/run/2/piece/1/loss");
  EXPECT_EQ(inState("air/density", 3), "air/density");
}

TEST_F(Why, ANumberIsFoundAgainAfterAnEditOrSaidToBeGone) {
  // Ducts in another order are counted in another order.
  const std::size_t last = solved.assessment->pieces->ports.size() - 1;
  const std::string key = "state/0/port/" + std::to_string(last) + "/flow";
  const std::string name = explainNumber(solved, key, UnitSystem::Us).name;
  shop::Project turned = project;
  std::reverse(turned.ducts.begin(), turned.ducts.end());
  const Solved after = solve(turned);
  ASSERT_TRUE(after.assessment);
  for (const judge::NumberKey& each : judge::numberKeys(*solved.assessment, 0)) {
    const auto found = followNumber(solved, after, 0, each.text());
    if (each.element == judge::Element::Port) {
      ASSERT_TRUE(found) << each.text();
    }
    if (found) {
      EXPECT_EQ(judge::numberOf(*after.assessment, *judge::parseNumberKey(*found))->name,
                judge::numberOf(*solved.assessment, each)->name);
    }
  }
  ASSERT_TRUE(followNumber(solved, after, 0, key));
  EXPECT_EQ(explainNumber(after, *followNumber(solved, after, 0, key), UnitSystem::Us).name, name);
  shop::Project fewer = project;
  fewer.states.erase(fewer.states.begin());
  EXPECT_EQ(followNumber(solved, solve(fewer), 1, "state/0/port/0/flow"), "state/1/port/0/flow");
  EXPECT_EQ(followNumber(solved, solve(fewer), 1, "state/1/port/0/flow"), "state/0/port/0/flow");
  EXPECT_FALSE(followNumber(solved, solve(fewer), 99, "state/0/port/0/flow"));
  shop::Project without = project;
  without.ducts.clear();
  for (shop::State& state : without.states) {
    state.gates.clear();
    state.hoses.clear();
  }
  const Solved gone = solve(without);
  EXPECT_FALSE(followNumber(solved, gone, 0, key));
}

TEST_F(Why, NumbersOfAThingAreItsOwnAndTheChiefStandsFirst) {
  const shop::Machine* piped = nullptr;
  for (const shop::Machine& machine : project.machines) {
    if (!machine.ports.empty()) {
      piped = &machine;
      break;
    }
  }
  ASSERT_NE(piped, nullptr);
  const NumberList own = numbersOf(solved, 0, {piped->id}, "", UnitSystem::Us);
  const NumberList all = numbersOf(solved, 0, {}, "", UnitSystem::Us);
  ASSERT_FALSE(own.rows.empty());
  EXPECT_LT(own.rows.size() + own.left_out, all.rows.size() + all.left_out);
  EXPECT_LE(all.rows.size(), kMostNumbers);
  EXPECT_THAT(own.rows.front().name, HasSubstr(piped->label));
  EXPECT_EQ(chiefNumber(solved, 0, piped->id), own.rows.front().key);
  for (const NumberRow& row : numbersOf(solved, 0, {}, "Slowest AIR", UnitSystem::Us).rows) {
    EXPECT_THAT(row.name, HasSubstr("slowest"));
  }
  EXPECT_TRUE(numbersOf(solved, 0, {}, "zzz", UnitSystem::Us).rows.empty());
  EXPECT_TRUE(numbersOf(solved, 99, {}, "", UnitSystem::Us).rows.empty());
}

TEST_F(Why, APathLeadsToWhatWasEntered) {
  const auto bore = files::enteredAt(project, "/collectors/0/inlet_bore");
  ASSERT_TRUE(bore);
  EXPECT_EQ(bore->text, project.collectors[0].inlet_bore.text());
  EXPECT_EQ(bore->label, project.collectors[0].label);
  EXPECT_EQ(bore->thing, project.collectors[0].id);
  for (const char* path : {"", "/", "/collectors/7/inlet-bore", "/collectors/x/inlet-bore", "/machines",
                           "/nothing", "/collectors/0/label", "/collectors/0/inlet-bore/more"}) {
    EXPECT_FALSE(files::enteredAt(project, path)) << path;
  }
}

}  // namespace
}  // namespace kerfdraft::desk
