// Before and after: every change that is told against both results, what is not told, and what a picture
// shows.
#include "desk/models/comparison.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "desk/models/states_table.h"
#include "desk/models/trial.h"
#include "files/save.h"
#include "garage_air.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::desk {
namespace {

using drawing::Turn;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
constexpr base::UnitSystem kUs = base::UnitSystem::Us;

/// A second filter in the way: less air everywhere.
shop::Project choked() {
  shop::Project project = garage();
  project.collectors[0].filters.push_back(project.collectors[0].filters[0]);
  project.collectors[0].filters.back().id = base::Id(0xabcdef);
  project.collectors[0].filters.back().label = "F9";
  return project;
}

drawing::Overlay shownWith(const Solved& now, std::size_t state, const Solved* kept) {
  drawing::Overlay overlay = papers::overlayOf(*now.assessment, state, now.margins[state], kUs);
  markChanges(overlay, now, state, kept, kUs);
  return overlay;
}

TEST(Comparison, EveryChangeAgreesWithBothResults) {
  const Solved kept = solvedShop(garage());
  const Solved now = solvedShop(choked());
  int flows = 0;
  int runs = 0;
  for (std::size_t s = 0; s < now.states(); ++s) {
    const StateComparison compared = compareState(now, s, kept, kUs);
    EXPECT_FALSE(compared.added);
    for (const FlowChange& each : compared.flows) {
      const auto& list = each.ref.port.valid() ? now.margins[s].ports : now.margins[s].machines;
      const auto& then = each.ref.port.valid() ? kept.margins[s].ports : kept.margins[s].machines;
      const auto in = [&](const std::vector<judge::FlowMargin>& all) {
        return *std::find_if(all.begin(), all.end(),
                             [&](const judge::FlowMargin& margin) { return margin.ref == each.ref; });
      };
      ++flows;
      EXPECT_EQ(each.change.turn, Turn::Worse);
      EXPECT_LT(in(list).flow_m3_s, in(then).flow_m3_s);
      EXPECT_THAT(each.change.words,
                  HasSubstr("was " + base::formatQuantity(base::Kind::VolumeFlow, in(then).flow_m3_s, kUs)));
    }
    for (const RunChange& each : compared.runs) {
      ++runs;
      EXPECT_EQ(each.change.turn, Turn::Worse);
      EXPECT_LT(each.share, 0);
      EXPECT_THAT(each.change.words, HasSubstr("slower"));
    }
    const network::FanResult& was = kept.assessment->states[s].solution.fans[0];
    ASSERT_EQ(compared.fans.size(), was.running ? 1U : 0U);
    EXPECT_EQ(changeLines(compared).size(),
              compared.flows.size() + compared.runs.size() + compared.fans.size());
    if (!was.running) {
      continue;
    }
    EXPECT_LT(compared.fans[0].share, 0);
    EXPECT_EQ(compared.fans[0].change.turn, Turn::Other);
    EXPECT_THAT(compared.fans[0].change.words,
                HasSubstr(base::formatQuantity(base::Kind::VolumeFlow, was.inlet_flow_m3_s, kUs)));
  }
  EXPECT_GT(flows, 4);
  EXPECT_GT(runs, 4);
}

TEST(Comparison, TheOtherWayRoundItIsBetter) {
  const Solved good = solvedShop(garage());
  const Solved bad = solvedShop(choked());
  const StateComparison there = compareState(bad, 0, good, kUs);
  const StateComparison back = compareState(good, 0, bad, kUs);
  ASSERT_EQ(there.flows.size(), back.flows.size());
  for (std::size_t n = 0; n < there.flows.size(); ++n) {
    EXPECT_EQ(back.flows[n].change.turn, Turn::Better);
    EXPECT_DOUBLE_EQ(back.flows[n].share, -there.flows[n].share);
  }
}

TEST(Comparison, WhereNothingChangedNothingIsTold) {
  const Solved kept = solvedShop(garage());
  for (std::size_t s = 0; s < kept.states(); ++s) {
    EXPECT_THAT(changeLines(compareState(kept, s, kept, kUs)), IsEmpty());
  }
  const drawing::Overlay overlay = shownWith(kept, 0, &kept);
  EXPECT_TRUE(overlay.compared);
  for (const auto& [key, mark] : overlay.runs) {
    EXPECT_EQ(mark.change.turn, Turn::Same);
  }
}

TEST(Comparison, TheTextTellsOfAirChipsAndFan) {
  const Solved kept = solvedShop(garage());
  const Solved now = solvedShop(choked());
  const std::string text = comparisonText(now, &kept, kUs);
  EXPECT_THAT(text, HasSubstr("more air in 0 states"));
  EXPECT_THAT(text, HasSubstr("Chips travel better in 0 states, worse in"));
  EXPECT_THAT(text, HasSubstr("Fan "));
  EXPECT_THAT(text, Not(HasSubstr("nan")));
  EXPECT_THAT(text, Not(HasSubstr("New states")));
}

TEST(Comparison, StatesThatCameAndWentAreNamed) {
  const shop::Project before = garage();
  shop::Project after = before;
  const std::string gone = after.states[0].name;
  after.states.erase(after.states.begin());
  shop::State fresh = after.states[0];
  fresh.id = base::Id(0x5151);
  fresh.name = "Brand new";
  after.states.push_back(fresh);
  const Solved kept = solvedShop(before);
  const Solved now = solvedShop(after);
  const std::string text = comparisonText(now, &kept, kUs);
  EXPECT_THAT(text, HasSubstr("New states: Brand new."));
  EXPECT_THAT(text, HasSubstr("States no longer there: " + gone + "."));
  // The others are compared with themselves, though they stand elsewhere in the list.
  EXPECT_THAT(text, HasSubstr("no open port gets more or less"));
  EXPECT_THAT(changeLines(compareState(now, now.states() - 1, kept, kUs)),
              ::testing::ElementsAre("This state was not there."));
  EXPECT_THAT(shownWith(now, now.states() - 1, &kept).comparison, HasSubstr("was not there"));
}

TEST(Comparison, AGateThatIsShutSinceThenIsTold) {
  const shop::Project before = garage();
  const Solved kept = solvedShop(before);
  int told = 0;
  for (std::size_t s = 0; s < before.states.size(); ++s) {
    shop::Project after = before;
    after.states[s].gates.clear();
    const Solved now = solvedShop(after);
    for (const FlowChange& each : compareState(now, s, kept, kUs).flows) {
      told += each.change.turn == Turn::Other && each.change.words.starts_with("shut now, was ") ? 1 : 0;
    }
    for (const FlowChange& each : compareState(kept, s, now, kUs).flows) {
      told += each.change.turn == Turn::New && each.change.words == "was shut" ? 1 : 0;
    }
  }
  EXPECT_GT(told, 2 * static_cast<int>(before.states.size()) - 2);
}

TEST(Comparison, AStateThatLostItsSolutionSaysSo) {
  shop::Project tight = garage();
  // Nothing drives the air any more.
  tight.ducts.clear();
  tight.collectors.clear();
  for (shop::State& state : tight.states) {
    state.gates.clear();
    state.hoses.clear();
    state.off.clear();
  }
  const Solved kept = solvedShop(garage());
  const Solved now = solvedShop(tight);
  ASSERT_FALSE(now.problem) << now.problem->text();
  ASSERT_FALSE(now.margins[0].solved);
  EXPECT_EQ(compareState(now, 0, kept, kUs).solution, "has no solution any more");
  EXPECT_EQ(compareState(kept, 0, now, kUs).solution, "had no solution");
  EXPECT_THAT(comparisonText(now, &kept, kUs), HasSubstr("No solution any more: "));
  EXPECT_THAT(comparisonText(kept, &now, kUs), HasSubstr("A solution now: "));
  EXPECT_EQ(stateRows(now, kUs, &kept)[0].verdict, "no solution (was solved)");
  EXPECT_THAT(stateRows(kept, kUs, &now)[0].verdict, HasSubstr("(was no solution)"));
}

TEST(Comparison, ATrialIsComparedWithATrialOnly) {
  const shop::Project project = garage();
  shop::State trial = project.states[0];
  trial.id = base::Id(0x77);
  const Solved kept = solvedShop(project);
  const Solved tried = solvedShop(project, trial);
  EXPECT_TRUE(compareState(tried, tried.states() - 1, kept, kUs).added);
  EXPECT_FALSE(compareState(tried, tried.states() - 1, tried, kUs).added);
  EXPECT_EQ(sameState(kept, 0, tried), 0U);
}

TEST(Comparison, APictureShowsWhatTheStateChanged) {
  const Solved kept = solvedShop(garage());
  const Solved now = solvedShop(choked());
  for (std::size_t s = 0; s < now.states(); ++s) {
    const StateComparison compared = compareState(now, s, kept, kUs);
    const drawing::Overlay overlay = shownWith(now, s, &kept);
    for (const RunChange& each : compared.runs) {
      const drawing::Change& shown = overlay.runs.at(each.key).change;
      EXPECT_EQ(shown.turn, each.change.turn);
      // The same words; what was then is not broken over lines.
      EXPECT_EQ(std::regex_replace(shown.words, std::regex("\u00A0"), " "), each.change.words);
      EXPECT_LE(std::count(shown.words.begin(), shown.words.end(), ' '), 5);
    }
    std::size_t marks = 0;
    for (const auto& [id, mark] : overlay.machines) {
      marks += mark.change.turn == Turn::Worse ? 1 : 0;
    }
    for (const auto& [id, mark] : overlay.ports) {
      marks += mark.change.turn == Turn::Worse ? 1 : 0;
    }
    EXPECT_EQ(marks > 0, !compared.flows.empty());
    EXPECT_EQ(overlay.fans.begin()->second.change.turn, compared.fans.empty() ? Turn::Same : Turn::Other);
  }
  const drawing::Overlay alone = shownWith(now, 0, nullptr);
  EXPECT_FALSE(alone.compared);
}

TEST(Comparison, TheTableSaysWhatTheSlowestAirWas) {
  const Solved kept = solvedShop(garage());
  const Solved now = solvedShop(choked());
  const auto rows = stateRows(now, kUs, &kept);
  EXPECT_TRUE(std::any_of(rows.begin(), rows.end(), [](const StateRow& row) {
    return row.slowest.find("(was ") != std::string::npos && !row.changed.empty();
  }));
  for (const StateRow& row : stateRows(now, kUs)) {
    EXPECT_THAT(row.changed, IsEmpty());
    EXPECT_THAT(row.slowest, Not(HasSubstr("(was ")));
  }
}

}  // namespace
}  // namespace kerfdraft::desk
