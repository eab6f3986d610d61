// What is solved beside the event loop: in which order answers come, what an overtaken request gives, and
// that the numbers are those of solving it all at once.
#include "desk/live.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QCoreApplication>
#include <QElapsedTimer>
#include <algorithm>
#include <vector>

#include "files/save.h"
#include "judge/assessment.h"

namespace kerfdraft::desk {
namespace {

using ::testing::IsEmpty;
using ::testing::Not;

class LiveTest : public ::testing::Test {
 protected:
  struct Heard {
    char what;  ///< s: shown, a: all states, v: verdict
    std::shared_ptr<const shop::Project> project;
    std::optional<std::size_t> only;
    bool operator==(const Heard&) const = default;
  };

  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  std::vector<Heard> heard;
  std::shared_ptr<const Solved> first;

  std::unique_ptr<Live> listening(std::size_t state) {
    auto live = std::make_unique<Live>(catalogue);
    Live* at = live.get();
    const auto hear = [this, at, state](char what) {
      const Solved& solved = *at->of(state);
      heard.push_back({what, solved.project, solved.only});
      if (what == 's') {
        first = at->of(state);
      }
    };
    QObject::connect(at, &Live::shown, at, [hear] { hear('s'); });
    QObject::connect(at, &Live::solved, at, [hear] { hear('a'); });
    QObject::connect(at, &Live::judged, at, [hear] { hear('v'); });
    return live;
  }
  std::string order() const {
    std::string out;
    for (const Heard& each : heard) {
      out += each.what;
    }
    return out;
  }
  static shop::Project garage() {
    return *files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/two-car-garage.json");
  }
  static std::shared_ptr<const shop::Project> shared(shop::Project project) {
    return std::make_shared<const shop::Project>(std::move(project));
  }
  static void expectSame(const network::Solution& a, const network::Solution& b) {
    ASSERT_EQ(a.outcome, b.outcome);
    ASSERT_EQ(a.runs.size(), b.runs.size());
    for (std::size_t r = 0; r < a.runs.size(); ++r) {
      EXPECT_EQ(a.runs[r].flow_end_kg_s, b.runs[r].flow_end_kg_s);
      EXPECT_EQ(a.runs[r].slowest_m_s, b.runs[r].slowest_m_s);
    }
    EXPECT_EQ(a.node_pa, b.node_pa);
  }
};

TEST_F(LiveTest, TheStateThatIsShownComesFirstThenAllThenTheVerdict) {
  const auto live = listening(2);
  live->request(shared(garage()), {}, 2);
  EXPECT_TRUE(live->isBusy());
  EXPECT_EQ(live->latest(), nullptr);
  EXPECT_EQ(live->of(2), nullptr);
  live->waitUntilIdle();
  EXPECT_FALSE(live->isBusy());
  EXPECT_EQ(order(), "sav");
  ASSERT_TRUE(first);
  EXPECT_EQ(first->only, 2U);
  EXPECT_TRUE(first->has(2));
  EXPECT_FALSE(first->has(0));
  EXPECT_TRUE(first->margins.at(2).solved);
  EXPECT_FALSE(first->margins.at(0).solved);
  EXPECT_FALSE(live->latest()->only.has_value());
  EXPECT_TRUE(live->latest()->verdict);
  EXPECT_EQ(live->of(0), live->latest());
}

TEST_F(LiveTest, NumbersAreThoseOfSolvingAllAtOnceWhicheverStateIsShown) {
  const shop::Project project = garage();
  const auto at_once = judge::assess(project, *catalogue);
  ASSERT_TRUE(at_once);
  Solved whole = solveShop(shared(project), {}, *catalogue);
  judgeSolved(whole, *catalogue);
  for (std::size_t shown = 0; shown < project.states.size(); ++shown) {
    const auto live = listening(shown);
    live->request(shared(project), {}, shown);
    live->waitUntilIdle();
    const Solved& solved = *live->latest();
    ASSERT_EQ(solved.states(), at_once->states.size());
    expectSame(first->assessment->states[shown].solution, at_once->states[shown].solution);
    for (std::size_t s = 0; s < solved.states(); ++s) {
      expectSame(solved.assessment->states[s].solution, at_once->states[s].solution);
      EXPECT_EQ(solved.margins[s].served, whole.margins[s].served);
    }
    ASSERT_TRUE(solved.verdict);
    EXPECT_EQ(solved.verdict->findings.size(), whole.verdict->findings.size());
    ASSERT_EQ(solved.bands.size(), whole.bands.size());
    for (std::size_t p = 0; p < whole.bands[shown].port_flow.size(); ++p) {
      EXPECT_EQ(solved.bands[shown].port_flow[p].low, whole.bands[shown].port_flow[p].low);
    }
  }
}

TEST_F(LiveTest, TheNewestEditWinsAndNoOvertakenOneAppearsAfterIt) {
  const auto live = listening(0);
  std::vector<std::shared_ptr<const shop::Project>> asked;
  for (int n = 0; n < 12; ++n) {
    shop::Project project = garage();
    project.setting.name = "edit " + std::to_string(n);
    asked.push_back(shared(std::move(project)));
    live->request(asked.back(), {}, 0);
    // Some are overtaken while they wait, some while they are worked at, some between two answers.
    QElapsedTimer clock;
    clock.start();
    while (clock.elapsed() < n % 4 * 3) {
      QCoreApplication::processEvents(QEventLoop::AllEvents, 1);
    }
  }
  live->waitUntilIdle();
  QCoreApplication::processEvents();
  std::ptrdiff_t before = -1;
  for (const Heard& each : heard) {
    const auto at = std::find(asked.begin(), asked.end(), each.project) - asked.begin();
    EXPECT_GE(at, before) << each.what;
    before = at;
  }
  ASSERT_GE(heard.size(), 3U);
  EXPECT_EQ(order().substr(heard.size() - 3), "sav");
  for (std::size_t n = heard.size() - 3; n < heard.size(); ++n) {
    EXPECT_EQ(heard[n].project, asked.back());
  }
  EXPECT_EQ(live->latest()->project, asked.back());
}

TEST_F(LiveTest, OfManyThatWaitOnlyTheNewestIsAnswered) {
  const auto live = listening(0);
  std::shared_ptr<const shop::Project> last;
  for (int n = 0; n < 50; ++n) {
    last = shared(garage());
    live->request(last, {}, 0);
  }
  live->waitUntilIdle();
  EXPECT_EQ(order(), "sav");
  EXPECT_EQ(heard.front().project, last);
}

TEST_F(LiveTest, UntilTheOthersAreSolvedTheyShowTheResultOfBefore) {
  const auto live = listening(1);
  live->request(shared(garage()), {}, 1);
  live->waitUntilIdle();
  const auto before = live->latest();
  std::shared_ptr<const Solved> other;
  std::shared_ptr<const Solved> whole;
  QObject::connect(live.get(), &Live::shown, live.get(), [&] {
    other = live->of(0);
    whole = live->latest();
  });
  live->request(shared(garage()), {}, 1);
  live->waitUntilIdle();
  EXPECT_EQ(other, before);
  EXPECT_EQ(whole, before);
  EXPECT_NE(first, before);
  EXPECT_NE(live->latest(), before);
}

TEST_F(LiveTest, ATrialIsShownFirstWhicheverStateWasLookedAt) {
  const shop::Project project = garage();
  shop::State trial = project.states[1];
  trial.id = base::Id(0x7171);
  trial.name = "tried";
  const std::size_t last = project.states.size();
  const auto live = listening(last);
  live->request(shared(project), trial, 0);
  live->waitUntilIdle();
  EXPECT_EQ(order(), "sav");
  ASSERT_TRUE(first);
  EXPECT_EQ(first->only, last);
  EXPECT_TRUE(first->tried);
  EXPECT_EQ(live->latest()->assessment->states[last].name, "tried");
  expectSame(first->assessment->states[last].solution, live->latest()->assessment->states[1].solution);
}

TEST_F(LiveTest, AStateThatIsGoneStandsForTheLast) {
  const shop::Project project = garage();
  const auto live = listening(project.states.size() - 1);
  live->request(shared(project), {}, 99);
  live->waitUntilIdle();
  EXPECT_EQ(first->only, project.states.size() - 1);
}

TEST_F(LiveTest, AShopOfOneStateHasNothingToComeAfterTheFirst) {
  shop::Project project = garage();
  project.states.clear();
  const auto live = listening(0);
  live->request(shared(project), {}, 0);
  live->waitUntilIdle();
  EXPECT_EQ(order(), "sav");
  EXPECT_FALSE(first->only.has_value());
  EXPECT_TRUE(first->has(0));
}

TEST_F(LiveTest, WhatCannotBeSolvedIsSaidOnce) {
  shop::Project project = garage();
  const auto none = base::Given<base::Length>::parse("0 in", base::Standing::Assumed, "");
  ASSERT_TRUE(none);
  project.ducts.front().corners.front().leg->bore = *none;
  const auto live = listening(0);
  live->request(shared(garage()), {}, 0);
  live->waitUntilIdle();
  heard.clear();
  live->request(shared(project), {}, 0);
  live->waitUntilIdle();
  EXPECT_EQ(order(), "sav");
  ASSERT_TRUE(live->latest()->problem);
  EXPECT_FALSE(live->latest()->problem->text().empty());
  EXPECT_EQ(live->latest()->states(), 0U);
  EXPECT_EQ(live->of(0), live->latest());
  EXPECT_TRUE(first->problem);
}

TEST_F(LiveTest, AStateWithoutSolutionIsAnAnswerThatSaysWhy) {
  shop::Project project = garage();
  // Nothing drives the air.
  project.ducts.clear();
  project.collectors.clear();
  for (shop::State& state : project.states) {
    state.gates.clear();
    state.hoses.clear();
    state.off.clear();
  }
  const auto live = listening(1);
  live->request(shared(project), {}, 1);
  live->waitUntilIdle();
  EXPECT_EQ(order(), "sav");
  ASSERT_FALSE(first->problem) << first->problem->text();
  EXPECT_TRUE(first->has(1));
  EXPECT_FALSE(first->margins.at(1).solved);
  EXPECT_THAT(first->assessment->states[1].solution.why, Not(IsEmpty()));
  EXPECT_EQ(live->latest()->assessment->states[1].solution.why, first->assessment->states[1].solution.why);
}

TEST_F(LiveTest, ClosingWhileItSolvesDoesNoHarm) {
  for (int wait_ms = 0; wait_ms < 24; wait_ms += 2) {
    heard.clear();
    auto live = listening(0);
    live->request(shared(garage()), {}, 0);
    live->request(shared(garage()), {}, 1);
    QElapsedTimer clock;
    clock.start();
    while (clock.elapsed() < wait_ms) {
    }
    live.reset();
    QCoreApplication::processEvents();
    EXPECT_TRUE(heard.empty());  // what it had to say goes with it
  }
}

}  // namespace
}  // namespace kerfdraft::desk
