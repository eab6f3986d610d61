// Layers, references, search.
#include "catalogue/catalogue.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "catalogue/ducts.h"

namespace kerfdraft::catalogue {
namespace {

using testing::AllOf;
using testing::HasSubstr;

const Catalogue& shipped() {
  static const base::Result<Catalogue> catalogue = Catalogue::shipped();
  if (!catalogue) {
    throw std::runtime_error(catalogue.error().text());
  }
  return *catalogue;
}

TableText hoses(std::string rows) {
  return {"hoses", "my/hoses.csv",
          "key,name,inside,lay,friction_factor,reference_roughness,cuff_leakage_class,source,status,note\n" +
              std::move(rows)};
}

TEST(Catalogue, ShippedTablesAllParse) {
  const auto catalogue = Catalogue::shipped();
  ASSERT_TRUE(catalogue) << catalogue.error().text();
  EXPECT_GE(catalogue->tables().size(), 25U);
  for (const auto& table : catalogue->tables()) {
    EXPECT_FALSE(table->rows().empty()) << table->form().name;
  }
}

TEST(Catalogue, APersonalRowReplacesTheShippedOneAndSaysSo) {
  const TableText mine =
      hoses("ribbed-slack,My hose,ribbed,slack,7.5,0.09 mm,12,no source,ours,measured at home\n");
  const auto catalogue = shipped().with(Layer::Personal, std::span(&mine, 1));
  ASSERT_TRUE(catalogue) << catalogue.error().text();
  const auto replaced = hose(*catalogue, "ribbed-slack");
  ASSERT_TRUE(replaced);
  EXPECT_DOUBLE_EQ(replaced->friction_factor, 7.5);
  EXPECT_EQ(replaced->origin.layer, Layer::Personal);
  EXPECT_EQ(replaced->origin.ref, "hoses/ribbed-slack");
  EXPECT_EQ(hose(shipped(), "ribbed-slack")->origin.layer, Layer::Shipped);
}

TEST(Catalogue, TheProjectLayerLiesOverThePersonalOne) {
  const TableText mine = hoses("h,Mine,ribbed,slack,7,0.09 mm,12,no source,ours,\n");
  const TableText project = hoses("h,Project,ribbed,slack,8,0.09 mm,12,no source,ours,\n");
  const auto low = shipped().with(Layer::Personal, std::span(&mine, 1));
  ASSERT_TRUE(low);
  const auto high = low->with(Layer::Project, std::span(&project, 1));
  ASSERT_TRUE(high);
  EXPECT_EQ(hose(*high, "h")->name, "Project");
  EXPECT_EQ(hose(*low, "h")->name, "Mine");
}

TEST(Catalogue, TablesThatALayerDoesNotTouchAreShared) {
  const TableText mine = hoses("h,Mine,ribbed,slack,7,0.09 mm,12,no source,ours,\n");
  const auto catalogue = shipped().with(Layer::Personal, std::span(&mine, 1));
  ASSERT_TRUE(catalogue);
  for (std::size_t i = 0; i < catalogue->tables().size(); ++i) {
    const bool shared = catalogue->tables()[i] == shipped().tables()[i];
    EXPECT_EQ(shared, catalogue->tables()[i]->form().name != "hoses");
  }
}

TEST(Catalogue, AnUnknownTableIsRefusedWithNearNames) {
  const TableText text{"hose", "my/hose.csv", "key\n"};
  const auto catalogue = shipped().with(Layer::Personal, std::span(&text, 1));
  ASSERT_FALSE(catalogue);
  EXPECT_THAT(catalogue.error().text(), AllOf(HasSubstr("my/hose.csv"), HasSubstr("\"hoses\"")));
}

TEST(Catalogue, SearchFindsRowsThatHoldEveryWord) {
  const auto hits = shipped().search("PLASTIC elbow");
  ASSERT_FALSE(hits.empty());
  EXPECT_TRUE(std::any_of(hits.begin(), hits.end(), [](const Hit& h) {
    return rowRef(*h.table, *h.row) == "fittings/drain-elbow-short";
  }));
  for (const Hit& h : hits) {
    std::string all(h.table->form().name);
    for (const std::string& cell : rowTexts(*h.row)) {
      all += ' ' + cell;
    }
    std::transform(all.begin(), all.end(), all.begin(), [](unsigned char c) { return std::tolower(c); });
    EXPECT_THAT(all, AllOf(HasSubstr("plastic"), HasSubstr("elbow")));
  }
  EXPECT_TRUE(shipped().search("   ").empty());
  EXPECT_TRUE(shipped().search("nothing-is-called-so").empty());
}

TEST(Catalogue, GenericViewHasACellForEveryTitle) {
  for (const auto& table : shipped().tables()) {
    const std::size_t width = columnTitles(*table).size();
    for (const Row& row : table->rows()) {
      EXPECT_EQ(rowTexts(row).size(), width) << rowRef(*table, row);
    }
  }
}

TEST(Catalogue, LoadingTwiceGivesTheSameRowsInTheSameOrder) {
  const auto again = Catalogue::shipped();
  ASSERT_TRUE(again);
  ASSERT_EQ(again->tables().size(), shipped().tables().size());
  for (std::size_t t = 0; t < again->tables().size(); ++t) {
    const auto a = again->tables()[t]->rows();
    const auto b = shipped().tables()[t]->rows();
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
      EXPECT_EQ(rowTexts(a[i]), rowTexts(b[i]));
    }
  }
}

}  // namespace
}  // namespace kerfdraft::catalogue
