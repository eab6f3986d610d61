// Plain text and CSV of documents.
#include "papers/text.h"

#include <gtest/gtest.h>

namespace kerfdraft::papers {
namespace {

TEST(PlainText, ParagraphsAreWrappedAndListsHang) {
  Document document;
  document.blocks.push_back(List{true, {{plain("one two three four"), {plain("under it")}}}});
  TextOptions options;
  options.width = 14;
  options.title_block = false;
  EXPECT_EQ(toPlainText(document, options), "1. one two\n   three four\n   under it\n");
}

TEST(PlainText, NumbersStandUnderEachOther) {
  Document document;
  document.units = base::UnitSystem::Metric;
  Table table;
  table.columns = {{"what"}, {"air", Align::Right, base::Kind::VolumeFlow}};
  table.rows = {{{"ä"}, {{}, 1.0}}, {{"bb"}, {{}, 0.01}}};
  document.blocks.push_back(table);
  TextOptions options;
  options.title_block = false;
  EXPECT_EQ(toPlainText(document, options), "  what  air, m³/h\n  ä          3600\n  bb           36\n");
}

TEST(PlainText, AFindingSaysItsSeverityFirst) {
  Document document;
  document.blocks.push_back(
      FindingBox{judge::Severity::Serious, "Title", "What.", "Limit.", {"Do this."}, "Ask."});
  TextOptions options;
  options.title_block = false;
  EXPECT_EQ(toPlainText(document, options), "[serious] Title\n  What.\n  - Do this.\n  Limit.\n  Ask.\n");
}

TEST(Csv, CellsAreQuotedAndUnitsInTheHead) {
  Table table;
  table.caption = "A, b";
  table.columns = {{"what"}, {"air", Align::Right, base::Kind::VolumeFlow}};
  table.rows = {{{"x, \"y\""}, {{}, 0.1}}, {{"z"}}};
  EXPECT_EQ(toCsv(table, base::UnitSystem::Metric), "what,\"air, m³/h\"\n\"x, \"\"y\"\"\",360\nz,\n");
  Document document;
  document.units = base::UnitSystem::Metric;
  document.blocks = {table, Heading{2, "between"}, table};
  const std::string all = toCsv(document);
  EXPECT_TRUE(all.starts_with("\"A, b\"\nwhat,"));
  EXPECT_NE(all.find("z,\n\n\"A, b\"\n"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::papers
