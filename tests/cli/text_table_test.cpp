// Aligned text: widths by characters, wrapping, full stops.
#include "cli/text_table.h"

#include <gtest/gtest.h>

namespace kerfdraft::cli {
namespace {

TEST(TextTable, AlignsByCharactersNotBytes) {
  TextTable table({{"a"}, {"n", Align::Right}});
  table.row({"m³/h", "1"});
  table.row({"xxxx", "10"});
  EXPECT_EQ(table.text(0), "a      n\nm³/h   1\nxxxx  10\n");
}

TEST(TextTable, LeavesOutColumnsWithoutText) {
  TextTable table({{"a"}, {"nothing"}, {"b"}});
  table.row({"1", "", "2"});
  EXPECT_EQ(table.text(), "  a  b\n  1  2\n");
}

TEST(TextTable, HasNoBlanksAtLineEnds) {
  TextTable table({{"a"}, {"b"}});
  table.row({"long text", "x"});
  table.row({"s"});
  EXPECT_EQ(table.text(0).find(" \n"), std::string::npos);
}

TEST(Wrapped, BreaksAtBlanksAndIndents) {
  EXPECT_EQ(wrapped("C1 collector and more", 14, 2), "C1 collector\n  and more");
  EXPECT_EQ(wrapped("", 10), "");
  EXPECT_EQ(wrapped("averyveryverylongword x", 5), "averyveryverylongword\nx");
}

TEST(Stopped, DoesNotDoubleTheStopOfAUnit) {
  EXPECT_EQ(stopped("3 in w.g."), "3 in w.g.");
  EXPECT_EQ(stopped("3 Pa"), "3 Pa.");
}

}  // namespace
}  // namespace kerfdraft::cli
