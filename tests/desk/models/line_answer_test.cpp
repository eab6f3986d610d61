// A line without drawing: the air it gets, what its chips need, what limits it.
#include "desk/models/line_answer.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "judge/assessment.h"
#include "judge/margins.h"
#include "shop/invariants.h"
#include "support/shipped.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

using support::shipped;

const char* const kPieces =
    "hood 0.5\nhose 4 in 10 ft ribbed slack\nelbow 4 in\nduct 6 in 12 ft spiral\nfilter";

LineTyped readmeLine() {
  LineTyped typed;
  typed.pieces = kPieces;
  typed.fan = "0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.";
  typed.need = "350 cfm";
  return typed;
}

std::string allOf(const LineAnswer& answer) {
  std::string out = answer.flow + "\n" + answer.limit + "\n";
  for (const std::string& line : answer.lines) {
    out += line + "\n";
  }
  return out;
}

// The same line as in README.md: kerfdraft line answers 304 cfm, 223 to 412 cfm at two standard deviations.
TEST(LineAnswer, AnswersAsTheCommandDoes) {
  const auto answer = answerLine(readmeLine(), shipped());
  ASSERT_TRUE(answer) << answer.error().sentence;
  EXPECT_THAT(answer->flow, HasSubstr("304 cfm"));
  EXPECT_THAT(allOf(*answer), HasSubstr("Between 223 cfm and 412 cfm"));
  EXPECT_THAT(allOf(*answer), HasSubstr("Will it get 350 cfm? unlikely"));
  ASSERT_FALSE(answer->unsure.empty());
  EXPECT_THAT(answer->unsure[0], HasSubstr("hose friction"));
  EXPECT_TRUE(shop::checkProject(answer->project).empty());
}

// 350 - 304 = 46 cfm, 13 % of 350. In 6 in 304 cfm goes at 304 / 0.19635 = 1548 fpm.
TEST(LineAnswer, SaysBothNeedsAndWhatLimitsByHowMuch) {
  const auto answer = answerLine(readmeLine(), shipped());
  ASSERT_TRUE(answer) << answer.error().sentence;
  EXPECT_THAT(answer->lines[0], HasSubstr("asks for 350 cfm and gets 304 cfm: 46 cfm (13 %) too little"));
  const auto assessment = judge::assess(answer->project, shipped());
  const auto margins = judge::margins(*assessment, shipped());
  ASSERT_EQ(margins->front().runs.size(), 1U);
  const judge::RunMargin& run = margins->front().runs[0];
  const auto speed = [](double m_s) {
    return base::formatQuantity(base::Kind::Speed, m_s, base::UnitSystem::Us);
  };
  EXPECT_THAT(answer->lines[1], HasSubstr("need " + speed(run.minimum_m_s)));
  EXPECT_THAT(answer->lines[1], HasSubstr("is " + speed(run.slowest_m_s) + " in the 6.00 in duct"));
  EXPECT_THAT(answer->lines[1], HasSubstr("too slow, so they settle there"));
  EXPECT_LT(run.ratio, 0.7);
  EXPECT_THAT(answer->limit, HasSubstr("What limits it is the slow run"));
  EXPECT_THAT(answer->limit, HasSubstr("more than anything else falls short"));
}

TEST(LineAnswer, ThePortLimitsWhereTheRunIsFastEnough) {
  LineTyped typed = readmeLine();
  typed.pieces = "hood 0.5\nhose 2.5 in 4 ft ribbed slack\nduct 2.5 in 4 ft spiral";
  typed.need = "350 cfm";
  const auto answer = answerLine(typed, shipped());
  ASSERT_TRUE(answer) << answer.error().sentence;
  EXPECT_THAT(allOf(*answer), HasSubstr("more than they need"));
  EXPECT_THAT(answer->limit, HasSubstr("What limits it is the air at the machine"));
  EXPECT_THAT(answer->limit, Not(HasSubstr("anything else")));
  typed.need = "20 cfm";
  const auto enough = answerLine(typed, shipped());
  ASSERT_TRUE(enough) << enough.error().sentence;
  EXPECT_THAT(enough->limit, HasSubstr("Nothing falls short; nearest to it is the slow run"));
  typed.need.clear();
  const auto unasked = answerLine(typed, shipped());
  ASSERT_TRUE(unasked) << unasked.error().sentence;
  EXPECT_THAT(allOf(*unasked), Not(HasSubstr("asks for")));
  EXPECT_THAT(allOf(*unasked), HasSubstr("The chips"));
}

TEST(LineAnswer, IsRefusedBesideItsField) {
  struct Bad {
    LineTyped typed;
    const char* question;
  };
  for (const Bad& bad :
       {Bad{{"hose 4 in", "", "1100 cfm 8 in w.g.", ""}, "pieces"},
        Bad{{"pipe 4 in 3 ft", "", "1100 cfm 8 in w.g.", ""}, "pieces"},
        Bad{{"", "", "1100 cfm 8 in w.g.", ""}, "pieces"}, Bad{{"hose 4 in 3 ft", "", "", ""}, "label"},
        Bad{{"hose 4 in 3 ft", "0 cfm 6 in w.g.", "1100 cfm 8 in w.g.", ""}, "fan"},
        Bad{{"hose 4 in 3 ft", "some", "", ""}, "fan"}, Bad{{"hose 4 in 3 ft", "", "much", ""}, "label"},
        Bad{{"hose 4 in 3 ft", "", "1100 cfm 8 in w.g.", "0 cfm"}, "need"},
        Bad{{"hose 4 in 3 ft", "", "1100 cfm 8 in w.g.", "9e9 cfm"}, "need"},
        Bad{{"hose 4 in 3 ft", "", "1100 cfm 8 in w.g.", "enough"}, "need"}}) {
    const auto answer = answerLine(bad.typed, shipped());
    ASSERT_FALSE(answer) << bad.typed.pieces;
    EXPECT_EQ(answer.error().question, bad.question) << answer.error().sentence;
    EXPECT_FALSE(answer.error().sentence.empty());
  }
}

}  // namespace
}  // namespace kerfdraft::desk
