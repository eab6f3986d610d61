// The verdict as text: what stands in full, what on one line, and the codes that a caller gets.
#include "cli/check.h"

#include <gmock/gmock.h>

#include <regex>
#include <sstream>

#include "cli/check_text.h"
#include "cli/exit_codes.h"
#include "cli/shop_open.h"
#include "judge/speech.h"
#include "open_starter.h"
#include "papers/got.h"

namespace kerfdraft::cli {
namespace {

using testing::HasSubstr;
using testing::Not;

class Judged {
 public:
  explicit Judged(std::vector<std::string> machines) : assessment_(starter(std::move(machines))) {
    auto made = papers::Judgement::of(assessment_, shipped());
    EXPECT_TRUE(made);
    judgement_ = std::move(*made);
  }

  papers::PaperInput input(judge::Reader reader) const {
    return judgement_->input("2026-01-15", base::UnitSystem::Us, reader);
  }
  std::string text(judge::Reader reader, std::vector<std::size_t> states, bool all = false) const {
    const papers::PaperInput of = input(reader);
    return checkText({of, std::move(states), {"a caution"}, "shop.json", all});
  }

 private:
  judge::Assessment assessment_;
  std::unique_ptr<papers::Judgement> judgement_;
};

std::size_t numbered(const std::string& text) {
  const std::regex number("\n +[0-9]+  (severe|serious|caution|note): ");
  return static_cast<std::size_t>(
      std::distance(std::sregex_iterator(text.begin(), text.end(), number), std::sregex_iterator()));
}

TEST(CheckText, TheFirstLineSaysWhenWithWhichFilterAndThatItIsPredicted) {
  const std::string text = Judged({"table-saw", "planer"}).text(judge::Reader::Adviser, {0, 1});
  EXPECT_EQ(text.substr(0, text.find('\n')),
            "2026-01-15, filter seasoned, predicted, nothing measured: starter");
}

TEST(CheckText, TheGravestStandInFullAndAllWithAll) {
  const Judged shop({"table-saw", "planer"});
  const judge::Verdict& verdict = shop.input(judge::Reader::Adviser).verdict;
  ASSERT_GT(verdict.groups.size(), verdict.on_top);
  const std::string text = shop.text(judge::Reader::Adviser, {0, 1});
  const std::size_t rest = text.find("The rest, one line each");
  ASSERT_NE(rest, std::string::npos);
  EXPECT_EQ(numbered(text.substr(0, rest)), verdict.on_top);
  EXPECT_EQ(numbered(text.substr(rest)), verdict.groups.size() - verdict.on_top);
  const std::string all = shop.text(judge::Reader::Adviser, {0, 1}, true);
  EXPECT_EQ(numbered(all), verdict.groups.size());
  EXPECT_THAT(all, Not(HasSubstr("The rest")));
  // In full means with what is wrong, beneath the title.
  const judge::Finding& last = verdict.findings[verdict.groups.back().lead];
  const std::string what = judge::say(last, {judge::Reader::Adviser, base::UnitSystem::Us}).what;
  const std::string begins = what.substr(0, what.find(' ', 12));
  EXPECT_THAT(all, HasSubstr("\n     " + begins));
  EXPECT_THAT(text, Not(HasSubstr("\n     " + begins)));
  EXPECT_THAT(text, HasSubstr("kerfdraft accept shop.json NUMBER"));
  EXPECT_THAT(text, HasSubstr("a caution"));
}

TEST(CheckText, TheOwnerReadsNoSourcesAndNoPolicies) {
  const Judged shop({"table-saw", "planer"});
  EXPECT_THAT(shop.text(judge::Reader::Adviser, {0}, true), HasSubstr("Held against"));
  EXPECT_THAT(shop.text(judge::Reader::Owner, {0}, true), Not(HasSubstr("Held against")));
  EXPECT_THAT(shop.text(judge::Reader::Owner, {0}, true), Not(HasSubstr("Published rules disagree")));
}

TEST(CheckText, TheTableHoldsTheStatesThatWereAskedForWithTheSolutionsFlows) {
  const Judged shop({"table-saw", "planer"});
  const papers::PaperInput input = shop.input(judge::Reader::Adviser);
  const std::string text = shop.text(judge::Reader::Adviser, {1});
  const std::string table = text.substr(text.find("  state "));
  EXPECT_THAT(table, HasSubstr(input.assessment.states[1].name));
  EXPECT_THAT(table, Not(HasSubstr(input.assessment.states[0].name)));
  const papers::Got got = papers::gotIn(input, 1).front();
  const double cfm = got.margin->flow_m3_s / 4.719474432e-4;  // NIST SP 811 (2008), B.8
  EXPECT_THAT(table, HasSubstr(std::to_string(std::lround(cfm))));
}

TEST(Check, CodesSayServedNotServedAndNoSolution) {
  judge::Verdict verdict;
  verdict.all_solved = verdict.all_served = true;
  EXPECT_EQ(verdictCode(verdict), kAllServed);
  verdict.all_served = false;
  EXPECT_EQ(verdictCode(verdict), kNotServed);
  verdict.all_solved = false;
  EXPECT_EQ(verdictCode(verdict), kNoSolution);
}

TEST(Check, JsonIsWrittenAndBadInputIsRefused) {
  const StarterOnDisk shop({"planer"});
  CheckOptions options;
  options.project = shop.path();
  options.common.date = "2026-01-15";
  options.json = true;
  std::ostringstream out;
  std::ostringstream err;
  EXPECT_LE(runCheck(options, out, err), kNotServed) << err.str();
  EXPECT_EQ(out.str().substr(0, 1), "{");
  options.states = {"nowhere"};
  EXPECT_EQ(runCheck(options, out, err), kBadInput);
  EXPECT_THAT(err.str(), HasSubstr("nowhere"));
  options.project = shop.path() + ".gone";
  EXPECT_EQ(runCheck(options, out, err), kBadInput);
}

}  // namespace
}  // namespace kerfdraft::cli
