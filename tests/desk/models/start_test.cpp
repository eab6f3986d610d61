// The first minutes: examples, answers, and a line without drawing.
#include "desk/models/start.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/solved.h"
#include "judge/assessment.h"
#include "shop/invariants.h"
#include "support/shipped.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

using support::shipped;

TEST(Start, EveryExampleTravelsWithTheProgramAndSaysThatItIsInvented) {
  const std::vector<ExampleRow> rows = examples();
  EXPECT_GE(rows.size(), 9U);
  for (const ExampleRow& row : rows) {
    EXPECT_THAT(row.name + row.teaches, HasSubstr("nvented"));
    EXPECT_TRUE(openExample(row.file)) << row.file;
  }
  EXPECT_FALSE(openExample("no-such.json"));
}

StartAnswers threeMachines(base::UnitSystem units) {
  StartAnswers answers;
  answers.units = units;
  answers.machines = {{"table-saw", 1}, {"planer", 1}, {"band-saw", 1}};
  answers.fan = "t2";
  return answers;
}

TEST(Start, AFewAnswersMakeAShopThatSolves) {
  for (const base::UnitSystem units : {base::UnitSystem::Us, base::UnitSystem::Metric}) {
    base::SeededIds ids(1);
    const auto project = shopFromAnswers(threeMachines(units), shipped(), ids);
    ASSERT_TRUE(project) << project.error().front().sentence;
    EXPECT_EQ(project->machines.size(), 3U);
    EXPECT_EQ(project->states.size(), 3U);
    const auto assessment = judge::assess(*project, shipped());
    ASSERT_TRUE(assessment) << assessment.error().text();
    for (const judge::StateResult& state : assessment->states) {
      EXPECT_TRUE(state.solution.solved()) << state.name << state.solution.why;
    }
  }
}

TEST(Start, ALabelInPlaceOfACurveAndAPlaceHighUp) {
  StartAnswers answers = threeMachines(base::UnitSystem::Us);
  answers.fan.clear();
  answers.label_flow = "1200 cfm";
  answers.label_suction = "10 in w.g.";
  answers.altitude = "6000 ft";
  answers.country = "US";
  base::SeededIds ids(1);
  const auto project = shopFromAnswers(answers, shipped(), ids);
  ASSERT_TRUE(project) << project.error().front().sentence;
  EXPECT_TRUE(project->collectors[0].rating.points.empty());
  EXPECT_EQ(project->collectors[0].rating.free_air_flow->text(), "1200 cfm");
  EXPECT_EQ(project->air.altitude->text(), "6000 ft");
  EXPECT_TRUE(judge::assess(*project, shipped()));
}

TEST(Start, EveryBadAnswerIsNamed) {
  const auto refused = [&](auto&& spoil, std::string_view question, std::string_view said = {}) {
    StartAnswers answers = threeMachines(base::UnitSystem::Us);
    spoil(answers);
    base::SeededIds ids(1);
    const auto project = shopFromAnswers(answers, shipped(), ids);
    ASSERT_FALSE(project) << question;
    EXPECT_EQ(project.error().front().question, question);
    EXPECT_THAT(project.error().front().sentence, HasSubstr(std::string(said)));
  };
  refused([](StartAnswers& a) { a.width = "wide"; }, "width", "wide");
  refused([](StartAnswers& a) { a.width = "5 ft"; }, "width", "at least 9.0");
  refused([](StartAnswers& a) { a.depth = "-3 m"; }, "depth");
  refused([](StartAnswers& a) { a.depth = "2 m"; }, "depth", "at least");
  refused([](StartAnswers& a) { a.height = "9"; }, "height");
  refused([](StartAnswers& a) { a.height = "1 m"; }, "height", "at least");
  refused([](StartAnswers& a) { a.altitude = "90000 ft"; }, "altitude");
  refused([](StartAnswers& a) { a.temperature = "200 °C"; }, "temperature");
  refused([](StartAnswers& a) { a.machines.clear(); }, "machines");
  refused([](StartAnswers& a) { a.machines = {{"table-saw", 40}}; }, "machines", "40 machines do not fit");
  refused([](StartAnswers& a) { a.machines = {{"no-such", 1}}; }, "machines", "no-such");
  refused([](StartAnswers& a) { a.country = "us"; }, "country");
  refused([](StartAnswers& a) { a.fan = "t99"; }, "fan", "t99");
  refused([](StartAnswers& a) { a.inlet = "6"; }, "inlet");
  refused([](StartAnswers& a) { a.fan.clear(); }, "label-flow");
}

TEST(Start, AllBadAnswersAreSaidAtOnceInTheOrderOfTheQuestions) {
  StartAnswers answers = threeMachines(base::UnitSystem::Metric);
  answers.country = "Atlantis";
  answers.height = "high";
  answers.temperature = "warm";
  answers.machines.clear();
  answers.fan.clear();
  answers.label_flow = "2000 m3/h";
  answers.label_suction = "much";
  base::SeededIds ids(1);
  const auto project = shopFromAnswers(answers, shipped(), ids);
  ASSERT_FALSE(project);
  std::vector<std::string> questions;
  for (const Refused& each : project.error()) {
    questions.push_back(each.question);
    EXPECT_FALSE(each.sentence.empty()) << each.question;
  }
  EXPECT_THAT(questions,
              ::testing::ElementsAre("country", "height", "temperature", "machines", "label-suction"));
}

}  // namespace
}  // namespace kerfdraft::desk
