// The first minutes: examples, answers, and a line without drawing.
#include "desk/models/start.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/solved.h"
#include "judge/assessment.h"
#include "shop/invariants.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

const catalogue::Catalogue& shipped() {
  static const catalogue::Catalogue kTables = *catalogue::Catalogue::shipped();
  return kTables;
}

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
    ASSERT_TRUE(project) << project.error().text();
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
  ASSERT_TRUE(project) << project.error().text();
  EXPECT_TRUE(project->collectors[0].rating.points.empty());
  EXPECT_EQ(project->collectors[0].rating.free_air_flow->text(), "1200 cfm");
  EXPECT_EQ(project->air.altitude->text(), "6000 ft");
  EXPECT_TRUE(judge::assess(*project, shipped()));
}

TEST(Start, EveryBadAnswerIsNamed) {
  const auto refused = [&](auto&& spoil, std::string_view question) {
    StartAnswers answers = threeMachines(base::UnitSystem::Us);
    spoil(answers);
    base::SeededIds ids(1);
    const auto project = shopFromAnswers(answers, shipped(), ids);
    ASSERT_FALSE(project) << question;
    EXPECT_THAT(project.error().text(), HasSubstr(std::string(question)));
  };
  refused([](StartAnswers& a) { a.width = "wide"; }, "width");
  refused([](StartAnswers& a) { a.depth = "-3 m"; }, "depth");
  refused([](StartAnswers& a) { a.height = "9"; }, "height");
  refused([](StartAnswers& a) { a.altitude = "90000 ft"; }, "altitude");
  refused([](StartAnswers& a) { a.temperature = "200 °C"; }, "temperature");
  refused([](StartAnswers& a) { a.machines.clear(); }, "machines");
  refused([](StartAnswers& a) { a.machines = {{"table-saw", 12}}; }, "room of at least");
  refused([](StartAnswers& a) { a.machines = {{"no-such", 1}}; }, "no-such");
  refused([](StartAnswers& a) { a.country = "us"; }, "country");
  refused([](StartAnswers& a) { a.fan = "t99"; }, "t99");
  refused([](StartAnswers& a) { a.inlet = "6"; }, "inlet");
  refused([](StartAnswers& a) { a.fan.clear(); }, "label");
}

// The same line as in README.md: kerfdraft line answers 304 cfm, 223 to 412 cfm at two standard deviations.
TEST(Start, ALineWithoutDrawingAnswersAsTheCommandDoes) {
  LineTyped typed;
  typed.pieces = "hood 0.5\nhose 4 in 10 ft ribbed slack\nelbow 4 in\nduct 6 in 12 ft spiral\nfilter";
  typed.fan = "0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.";
  typed.need = "350 cfm";
  const auto answer = answerLine(typed, shipped());
  ASSERT_TRUE(answer) << answer.error().text();
  EXPECT_THAT(answer->flow, HasSubstr("304 cfm"));
  ASSERT_GE(answer->lines.size(), 2U);
  EXPECT_THAT(answer->lines[0], HasSubstr("223"));
  EXPECT_THAT(answer->lines[0], HasSubstr("412"));
  EXPECT_THAT(answer->lines[1], HasSubstr("unlikely"));
  ASSERT_FALSE(answer->unsure.empty());
  EXPECT_THAT(answer->unsure[0], HasSubstr("hose friction"));
  EXPECT_TRUE(shop::checkProject(answer->project).empty());
}

TEST(Start, ALineIsRefusedWithThePieceNamed) {
  for (const auto& [pieces, fan, label, need] :
       {std::tuple{"hose 4 in", "", "1100 cfm 8 in w.g.", ""},
        {"pipe 4 in 3 ft", "", "1100 cfm 8 in w.g.", ""},
        {"", "", "1100 cfm 8 in w.g.", ""},
        {"hose 4 in 3 ft", "", "", ""},
        {"hose 4 in 3 ft", "0 cfm 6 in w.g.", "1100 cfm 8 in w.g.", ""},
        {"hose 4 in 3 ft", "", "much", ""},
        {"hose 4 in 3 ft", "", "1100 cfm 8 in w.g.", "enough"}}) {
    const auto answer = answerLine({pieces, fan, label, need}, shipped());
    ASSERT_FALSE(answer) << pieces;
    EXPECT_FALSE(answer.error().message.empty());
  }
}

}  // namespace
}  // namespace kerfdraft::desk
