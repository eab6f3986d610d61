// Dates, and output that is written whole or not at all.
#include "cli/common.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/exit_codes.h"

namespace kerfdraft::cli {
namespace {

TEST(CheckedDate, TakesDaysOfTheCalendarOnly) {
  EXPECT_TRUE(checkedDate("2026-01-15", "--date"));
  EXPECT_TRUE(checkedDate("2024-02-29", "--date"));
  for (const char* wrong :
       {"2026-02-29", "2026-13-01", "2026-1-1", "15.01.2026", "", "2026-01-15 ", "2026--1-15"}) {
    EXPECT_FALSE(checkedDate(wrong, "--date")) << wrong;
  }
}

class Deliver : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(testing::TempDir()) / "kerfdraft_deliver";
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directory(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string read(const std::string& name) const {
    std::ifstream file(folder_ / name);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  std::size_t files() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder_), {}));
  }

  std::filesystem::path folder_;
  std::ostringstream out_;
  std::ostringstream err_;
};

TEST_F(Deliver, WritesTheWholeFileAndNothingElse) {
  Common common;
  common.output = (folder_ / "result.txt").string();
  std::ofstream(common.output) << "what stood there before";
  EXPECT_EQ(deliver("new text\n", common, kNotServed, out_, err_), kNotServed);
  EXPECT_EQ(read("result.txt"), "new text\n");
  EXPECT_EQ(files(), 1U);
  EXPECT_EQ(out_.str(), "");
}

TEST_F(Deliver, KeepsTheOldFileWhereTheFolderIsMissing) {
  Common common;
  common.output = (folder_ / "no" / "result.txt").string();
  EXPECT_EQ(deliver("text", common, kAllServed, out_, err_), kBadInput);
  EXPECT_NE(err_.str().find("result.txt"), std::string::npos);
  EXPECT_EQ(files(), 0U);
}

TEST_F(Deliver, RefusesAFolder) {
  Common common;
  common.output = folder_.string();
  EXPECT_EQ(deliver("text", common, kAllServed, out_, err_), kBadInput);
  EXPECT_NE(err_.str().find("folder"), std::string::npos);
}

TEST_F(Deliver, PrintsWhereNoFileIsNamed) {
  EXPECT_EQ(deliver("text\n", {}, kAllServed, out_, err_), kAllServed);
  EXPECT_EQ(out_.str(), "text\n");
}

}  // namespace
}  // namespace kerfdraft::cli
