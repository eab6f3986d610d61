// Reading of one table's text: what is taken, what is refused and with which place.
#include "catalogue/table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/forms.h"

namespace kerfdraft::catalogue {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;

constexpr std::string_view kHead = "key,name,leak_slot,blade,source,status,note\n";

base::Result<std::shared_ptr<const Table>> readGates(const std::string& rows, const Table* below = nullptr,
                                                     Layer layer = Layer::Personal) {
  return Table::read(*findForm("gates"), below, layer, std::string(kHead) + rows, "my/gates.csv");
}

std::string problem(const std::string& rows) {
  const auto table = readGates(rows);
  EXPECT_FALSE(table.has_value());
  return table ? std::string() : table.error().text();
}

TEST(Table, KeepsTheTextAsGivenBesideTheSiValue) {
  const auto table = readGates("mine,My gate,1/64 in,straight,no source,ours,measured by feeler\n");
  ASSERT_TRUE(table) << table.error().text();
  const Row* row = (*table)->find("mine");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ((*table)->cell(*row, "leak_slot").text, "1/64 in");
  EXPECT_DOUBLE_EQ((*table)->cell(*row, "leak_slot").si.value(), 0.0254 / 64);
  EXPECT_EQ(row->where, "my/gates.csv:2");
  EXPECT_EQ(row->layer, Layer::Personal);
  EXPECT_EQ(row->status, base::SourceStatus::Ours);
}

TEST(Table, ReadsColumnsInAnyOrderAndLeavesOutOptionalOnes) {
  const auto table =
      Table::read(*findForm("gates"), nullptr, Layer::Project,
                  "status,source,blade,leak_slot,name,key\nours,no source,straight,0.3 mm,Gate,g\n", "p.csv");
  ASSERT_TRUE(table) << table.error().text();
  EXPECT_EQ((*table)->find("g")->name, "Gate");
  EXPECT_EQ((*table)->find("g")->note, "");
}

TEST(Table, ALaterLayersRowReplacesTheEarlierOneAndKeepsItsPlace) {
  const auto low = readGates("a,A,1 mm,straight,no source,ours,\nb,B,2 mm,straight,no source,ours,\n",
                             nullptr, Layer::Shipped);
  ASSERT_TRUE(low);
  const auto high = readGates("c,C,3 mm,straight,no source,ours,\na,A2,4 mm,straight,no source,ours,\n",
                              low->get(), Layer::Project);
  ASSERT_TRUE(high);
  ASSERT_EQ((*high)->rows().size(), 3U);
  EXPECT_EQ((*high)->rows()[0].name, "A2");
  EXPECT_EQ((*high)->rows()[0].layer, Layer::Project);
  EXPECT_EQ((*high)->rows()[1].layer, Layer::Shipped);
  EXPECT_EQ((*high)->rows()[2].key, "c");
  EXPECT_EQ((*low)->rows()[0].name, "A") << "the table below stays as it was";
}

TEST(Table, NamesFileLineColumnAndValueOfABadCell) {
  EXPECT_THAT(problem("# remark\n\na,A,3 cfm,straight,no source,ours,\n"),
              AllOf(HasSubstr("my/gates.csv:4, column leak_slot"), HasSubstr("\"cfm\"")));
  EXPECT_THAT(problem("a,A,nan mm,straight,no source,ours,\n"), HasSubstr("nan mm"));
  EXPECT_THAT(problem("a,A,0.25,straight,no source,ours,\n"), HasSubstr("has no unit"));
  EXPECT_THAT(problem("a,A,-1 mm,straight,no source,ours,\n"),
              AllOf(HasSubstr("\"-1 mm\" cannot be"), HasSubstr("between 0.0 mm and 20.0 mm")));
  EXPECT_THAT(problem("a,A,,straight,no source,ours,\n"), HasSubstr("the cell is empty"));
}

TEST(Table, RefusesKeysThatStandTwiceInOneFile) {
  EXPECT_THAT(problem("a,A,1 mm,straight,no source,ours,\na,B,1 mm,straight,no source,ours,\n"),
              AllOf(HasSubstr("my/gates.csv:3"), HasSubstr("\"a\" stands already on line 2")));
}

TEST(Table, RefusesTextThatIsNoKey) {
  EXPECT_THAT(problem("My Gate,A,1 mm,straight,no source,ours,\n"), HasSubstr("\"My Gate\" is no key"));
  EXPECT_THAT(problem(",A,1 mm,straight,no source,ours,\n"), HasSubstr("is no key"));
}

TEST(Table, RefusesRowsWithoutSourceOrStatus) {
  EXPECT_THAT(problem("a,A,1 mm,straight,,ours,\n"), HasSubstr("names no source"));
  EXPECT_THAT(problem("a,A,1 mm,straight,no source,published,\n"), HasSubstr("names no source"));
  EXPECT_THAT(problem("a,A,1 mm,straight,no source,guessed,\n"), HasSubstr("\"guessed\" is no status"));
}

TEST(Table, RefusesUnknownMissingAndDoubledColumns) {
  const auto read = [](std::string_view text) {
    const auto table = Table::read(*findForm("gates"), nullptr, Layer::Project, text, "p.csv");
    return table ? std::string() : table.error().text();
  };
  EXPECT_THAT(read("key,name,leek_slot,blade,source,status\n"),
              AllOf(HasSubstr("p.csv:1"), HasSubstr("no column \"leek_slot\"; did you mean \"leak_slot\"?")));
  EXPECT_THAT(read("key,name,blade,source,status\n"), HasSubstr("the column \"leak_slot\" is missing"));
  EXPECT_THAT(read("key,name,leak_slot,blade,source\n"), HasSubstr("the column \"status\" is missing"));
  EXPECT_THAT(read("key,key,name,leak_slot,blade,source,status\n"), HasSubstr("\"key\" stands twice"));
  EXPECT_THAT(read(""), HasSubstr("has no header line"));
  EXPECT_THAT(read("key,name,leak_slot,blade,source,status\na,A\n"), HasSubstr("2 cells, the header 6"));
}

TEST(Table, OffersNearKeysOnAMiss) {
  const auto table = readGates("blade,A,1 mm,straight,no source,ours,\n");
  ASSERT_TRUE(table);
  const auto row = (*table)->row("blaed");
  ASSERT_FALSE(row);
  EXPECT_EQ(row.error().message, "table \"gates\" has no row \"blaed\"; did you mean \"blade\"?");
}

TEST(Table, SortsTheRowsOfACurveByTheirX) {
  const auto table = Table::read(*findForm("mitre_k"), nullptr, Layer::Personal,
                                 "key,name,column,angle,k,source,status\n"
                                 "b,B,mitre,90 deg,1.1,no source,ours\n"
                                 "a,A,mitre,30 deg,0.2,no source,ours\n",
                                 "my/mitre_k.csv");
  ASSERT_TRUE(table) << table.error().text();
  const auto curve = (*table)->curve("mitre");
  ASSERT_TRUE(curve);
  EXPECT_THAT(curve->y, ElementsAre(0.2, 1.1));
  EXPECT_FALSE((*table)->curve("miter").has_value());
}

TEST(Table, RefusesTwoValuesAtOnePlaceOfACurve) {
  const auto table = Table::read(*findForm("mitre_k"), nullptr, Layer::Personal,
                                 "key,name,column,angle,k,source,status\n"
                                 "a,A,mitre,90 deg,1.1,no source,ours\n"
                                 "b,B,mitre,90 deg,1.2,no source,ours\n",
                                 "my/mitre_k.csv");
  ASSERT_FALSE(table);
  EXPECT_THAT(table.error().text(),
              AllOf(HasSubstr("my/mitre_k.csv:3, column angle"), HasSubstr("my/mitre_k.csv:2")));
}

TEST(Table, AskingForAColumnThatTheFormLacksIsABug) {
  const auto table = readGates("a,A,1 mm,straight,no source,ours,\n");
  ASSERT_TRUE(table);
  EXPECT_THROW((*table)->cell((*table)->rows()[0], "price"), base::InternalError);
}

}  // namespace
}  // namespace kerfdraft::catalogue
