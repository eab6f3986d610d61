// Countries by code, and the limits that count in them.
#include "catalogue/countries.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace kerfdraft::catalogue {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

class Countries : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  std::vector<std::string> keys(const char* iso, const char* wood) {
    std::vector<std::string> list;
    for (const ExposureLimit& limit : exposureLimitsFor(catalogue_, iso, wood)) {
      list.push_back(limit.key);
    }
    return list;
  }
  Catalogue catalogue_;
};

// From memory: 27 members since 1 February 2020.
TEST_F(Countries, TheUnionHasTwentySevenMembers) {
  const Table* table = catalogue_.table("countries").value();
  EXPECT_EQ(std::count_if(table->rows().begin(), table->rows().end(),
                          [&](const Row& r) { return table->cell(r, "in_eu").text == "yes"; }),
            27);
  EXPECT_TRUE(country(catalogue_, "IE")->in_eu);
  EXPECT_FALSE(country(catalogue_, "GB")->in_eu);
}

TEST_F(Countries, ByCodeInEitherCase) {
  EXPECT_EQ(country(catalogue_, "at")->name, "Austria");
  EXPECT_EQ(country(catalogue_, "AT")->iso, "AT");
  const auto odd = country(catalogue_, "XX");
  ASSERT_FALSE(odd);
  EXPECT_THAT(odd.error().text(), testing::HasSubstr("\"XX\""));
}

TEST_F(Countries, TheirOwnNameGoesFirst) {
  EXPECT_THAT(countryNames(catalogue_, "DE"), ElementsAre("Germany", "European Union"));
  EXPECT_THAT(countryNames(catalogue_, "US"), ElementsAre("United States"));
  EXPECT_THAT(countryNames(catalogue_, "XX"), IsEmpty());
  EXPECT_THAT(countryNames(catalogue_, ""), IsEmpty());
}

// Every country of the other tables is one that this table knows.
TEST_F(Countries, TheOtherTablesUseTheseNames) {
  const Table* countries = catalogue_.table("countries").value();
  const auto known = [&](const std::string& name) {
    return name == kEuropeanUnion || std::any_of(countries->rows().begin(), countries->rows().end(),
                                                 [&](const Row& r) { return r.name == name; });
  };
  for (const char* table_name : {"limits", "noise_limits"}) {
    const Table* table = catalogue_.table(table_name).value();
    for (const Row& r : table->rows()) {
      EXPECT_TRUE(known(table->cell(r, "country").text)) << r.where;
    }
  }
}

// Published: TRGS 553 and Directive 2004/37/EC; HSE; OSHA, ACGIH.
TEST_F(Countries, LimitsByCountryAndWood) {
  EXPECT_THAT(keys("DE", "beech"), ElementsAre("germany-hardwood", "eu-hardwood"));
  EXPECT_THAT(keys("DE", "white-pine"), IsEmpty());
  EXPECT_THAT(keys("SE", "hardwood"), ElementsAre("eu-hardwood"));
  EXPECT_THAT(keys("GB", "white-pine"), ElementsAre("uk-softwood"));
  EXPECT_THAT(keys("GB", "teak"), ElementsAre("uk-hardwood"));
  EXPECT_THAT(keys("CA", "oak"), IsEmpty());
}

TEST_F(Countries, BoardsAreJudgedAsHardwood) {
  EXPECT_THAT(keys("GB", "mdf"), ElementsAre("uk-hardwood"));
  EXPECT_THAT(keys("GB", "board"), ElementsAre("uk-hardwood"));
}

TEST_F(Countries, TheWoodsOwnLimitGoesFirstAndVacatedOnesAreLeftOut) {
  EXPECT_THAT(keys("US", "western-red-cedar"),
              ElementsAre("acgih-cedar", "osha-total", "osha-respirable", "niosh", "acgih"));
  EXPECT_THAT(keys("US", "iroko"), ElementsAre("osha-total", "osha-respirable", "niosh", "acgih"));
  EXPECT_THAT(keys("NL", "hardwood"), ElementsAre("eu-hardwood"));
}

}  // namespace
}  // namespace kerfdraft::catalogue
