// Where reports go, and that each is a page of its own.
#include "cli/report.h"

#include <gmock/gmock.h>

#include <sstream>

#include "cli/exit_codes.h"
#include "files/save.h"
#include "open_starter.h"

namespace kerfdraft::cli {
namespace {

using testing::HasSubstr;

TEST(Report, GoesBesideTheProjectOrWhereItIsSent) {
  ReportOptions options;
  options.project = "shops/my-shop.json";
  EXPECT_EQ(reportPath(options, judge::Reader::Owner), "shops/my-shop-owner.html");
  options.common.output = "out/page.htm";
  EXPECT_EQ(reportPath(options, judge::Reader::Owner), "out/page.htm");
  options.all_readers = true;
  EXPECT_EQ(reportPath(options, judge::Reader::Inspector), "out/page-inspector.htm");
  options.common.output.clear();
  EXPECT_EQ(reportPath(options, judge::Reader::Adviser), "shops/my-shop-adviser.html");
}

TEST(Report, WritesAPageForEachReaderAndSaysWhere) {
  const StarterOnDisk shop({"table-saw", "planer"});
  ReportOptions options;
  options.project = shop.path();
  options.common.date = "2026-01-15";
  options.all_readers = true;
  std::ostringstream out;
  std::ostringstream err;
  ASSERT_EQ(runReport(options, out, err), kAllServed) << err.str();
  std::string before;
  for (const char* reader : {"owner", "adviser", "inspector"}) {
    const std::filesystem::path page = shop.folder() / (std::string("shop-") + reader + ".html");
    EXPECT_THAT(out.str(), HasSubstr(page.string()));
    const auto text = files::readFile(page, 50'000'000);
    ASSERT_TRUE(text) << reader;
    EXPECT_THAT(text->substr(0, 20), HasSubstr("<!DOCTYPE html>"));
    EXPECT_THAT(*text, HasSubstr("2026-01-15"));
    EXPECT_NE(*text, before);
    before = *text;
  }
}

TEST(Report, APlaceThatCannotBeWrittenIsSaid) {
  const StarterOnDisk shop({"planer"});
  ReportOptions options;
  options.project = shop.path();
  options.common.output = (shop.folder() / "nowhere" / "page.html").string();
  std::ostringstream out;
  std::ostringstream err;
  EXPECT_EQ(runReport(options, out, err), kBadInput);
  EXPECT_THAT(err.str(), HasSubstr("page.html"));
  EXPECT_TRUE(out.str().empty());
}

}  // namespace
}  // namespace kerfdraft::cli
