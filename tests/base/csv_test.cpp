// The CSV tokenizer against RFC 4180's cases and broken text.
#include "base/csv.h"

#include <gtest/gtest.h>

namespace kerfdraft::base {

TEST(Csv, ReadsQuotesCommentsBlankLinesAndCrlf) {
  const auto rows = parseCsv("# a comment\nkey,\"a, b\"\r\n\r\nk2,\"say \"\"x\"\"\"\nk3,\n", "t.csv");
  ASSERT_TRUE(rows) << rows.error().text();
  ASSERT_EQ(rows->size(), 3U);
  EXPECT_EQ((*rows)[0].cells, (std::vector<std::string>{"key", "a, b"}));
  EXPECT_EQ((*rows)[0].line, 2);
  EXPECT_EQ((*rows)[1].cells[1], "say \"x\"");
  EXPECT_EQ((*rows)[1].line, 4);
  EXPECT_EQ((*rows)[2].cells, (std::vector<std::string>{"k3", ""}));
}

TEST(Csv, AQuotedCellMaySpanLines) {
  const auto rows = parseCsv("a,\"1\n2\"\nb,3", "t.csv");
  ASSERT_TRUE(rows);
  EXPECT_EQ((*rows)[0].cells[1], "1\n2");
  EXPECT_EQ((*rows)[1].line, 3);
}

TEST(Csv, BrokenTextIsRefusedWithItsPlace) {
  EXPECT_EQ(parseCsv("a\n\"never closed", "t.csv").error().where, "t.csv:2");
  EXPECT_EQ(parseCsv("\"a\"b", "t.csv").error().where, "t.csv:1");
  EXPECT_FALSE(parseCsv(std::string_view("a\0b", 3), "t.csv"));
}

TEST(Csv, WhatIsWrittenIsReadBack) {
  for (const std::string cell : {"plain", "a,b", "q\"q", "#x", "two\nlines", ""}) {
    const auto rows = parseCsv(csvCell(cell) + ",end\n", "t.csv");
    ASSERT_TRUE(rows);
    EXPECT_EQ((*rows)[0].cells[0], cell);
  }
}

}  // namespace kerfdraft::base
