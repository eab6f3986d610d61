// Accepting a finding from the command line: what is written, what is refused, and that it can be taken back.
#include "cli/accept.h"

#include <algorithm>
#include <sstream>

#include "cli/exit_codes.h"
#include "doubt/bands.h"
#include "files/lock.h"
#include "judge/verdict.h"
#include "open_starter.h"

namespace kerfdraft::cli {
namespace {

struct Ran {
  int code = 0;
  std::string out;
  std::string err;
};

Ran ran(const AcceptOptions& options) {
  std::ostringstream out;
  std::ostringstream err;
  const int code = runAccept(options, out, err);
  return {code, out.str(), err.str()};
}

AcceptOptions accepting(const StarterOnDisk& shop, int number) {
  AcceptOptions options;
  options.common.date = "2026-01-15";
  options.project = shop.path();
  options.number = number;
  options.reason = "used twice a year";
  return options;
}

judge::Verdict verdictOf(const StarterOnDisk& shop) {
  const auto assessment = judge::assess(shop.project(), shipped());
  EXPECT_TRUE(assessment);
  const auto verdict = judge::judgeShop(*assessment, shipped(), doubt::assessBands(*assessment, shipped()));
  EXPECT_TRUE(verdict);
  return *verdict;
}

TEST(Accept, AFindingGoesWithAllThatStandsBehindItAndComesBackWithUndo) {
  const StarterOnDisk shop({"table-saw", "planer"});
  const judge::Verdict before = verdictOf(shop);
  ASSERT_FALSE(before.groups.empty());
  const judge::Group& first = before.groups.front();
  const std::size_t members = 1 + first.same.size() + first.symptoms.size();

  const Ran accepted = ran(accepting(shop, 1));
  EXPECT_EQ(accepted.code, kAllServed) << accepted.err;
  const shop::Project saved = shop.project();
  ASSERT_EQ(saved.accepted.size(), members);
  EXPECT_EQ(saved.accepted.front().rule, before.findings[first.lead].rule);
  EXPECT_EQ(saved.accepted.front().about, before.findings[first.lead].key.text());
  EXPECT_EQ(saved.accepted.front().reason, "used twice a year");
  EXPECT_EQ(saved.accepted.front().on, "2026-01-15");
  EXPECT_NEAR(saved.accepted.front().badness.si(), before.findings[first.lead].badness, 1e-5);

  const judge::Verdict after = verdictOf(shop);
  EXPECT_LT(after.groups.size(), before.groups.size());
  const std::vector<AcceptedLot> lots = acceptedLots(after);
  ASSERT_EQ(lots.size(), 1U);
  EXPECT_EQ(lots.front().findings.size(), members);

  AcceptOptions undo = accepting(shop, 1);
  undo.undo = true;
  EXPECT_EQ(ran(undo).code, kAllServed);
  EXPECT_TRUE(shop.project().accepted.empty());
  EXPECT_EQ(verdictOf(shop).groups.size(), before.groups.size());
}

TEST(Accept, ARuleInPlaceOfANumberAndTwiceIsOnce) {
  const StarterOnDisk shop({"table-saw", "planer"});
  const judge::Verdict verdict = verdictOf(shop);
  AcceptOptions options = accepting(shop, 0);
  options.rule = verdict.findings.front().rule;
  const auto count = static_cast<std::size_t>(
      std::count_if(verdict.findings.begin(), verdict.findings.end(),
                    [&](const judge::Finding& finding) { return finding.rule == options.rule; }));
  EXPECT_EQ(ran(options).code, kAllServed);
  EXPECT_EQ(ran(options).code, kAllServed);
  EXPECT_EQ(shop.project().accepted.size(), count);

  options.about = verdict.findings.front().key.text();
  options.undo = true;
  EXPECT_EQ(ran(options).code, kAllServed);
  EXPECT_LT(shop.project().accepted.size(), count);
}

TEST(Accept, BadInputIsASentenceAndLeavesTheFile) {
  const StarterOnDisk shop({"planer"});
  const shop::Project before = shop.project();
  const auto refused = [&](const AcceptOptions& options, const std::string& why) {
    const Ran done = ran(options);
    EXPECT_EQ(done.code, kBadInput);
    EXPECT_NE(done.err.find(why), std::string::npos) << done.err;
    EXPECT_TRUE(done.out.empty());
    EXPECT_EQ(shop.project(), before);
  };
  AcceptOptions options = accepting(shop, 1);
  options.reason = "  ";
  refused(options, "--reason");
  refused(accepting(shop, 400), "there is no finding 400");
  refused(accepting(shop, -1), "there is no finding -1");
  refused(accepting(shop, 0), "its number");
  options = accepting(shop, 1);
  options.rule = "port-short";
  refused(options, "not both");
  options = accepting(shop, 1);
  options.state = "x";
  refused(options, "--rule");
  options = accepting(shop, 0);
  options.rule = "port-shirt";
  refused(options, "\"port-short\"");
  options = accepting(shop, 1);
  options.undo = true;
  refused(options, "there is no accepted finding");
}

TEST(Accept, AProjectThatIsOpenElsewhereIsLeft) {
  const StarterOnDisk shop({"planer"});
  const auto lock = files::ProjectLock::take(shop.path());
  ASSERT_TRUE(lock);
  const Ran done = ran(accepting(shop, 1));
  EXPECT_EQ(done.code, kBadInput);
  EXPECT_FALSE(done.err.empty());
  EXPECT_TRUE(shop.project().accepted.empty());
}

}  // namespace
}  // namespace kerfdraft::cli
