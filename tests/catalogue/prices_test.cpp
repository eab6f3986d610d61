// Price bands: rows as recalled, what lies between and beyond them scaled in the stated way.
#include "catalogue/prices.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::catalogue {
namespace {

constexpr double kInch = 0.0254;
constexpr double kPerFoot = 1 / 0.3048;
constexpr double kHorsepower_w = 745.7;

class Prices : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  Catalogue catalogue_;
};

// Common practice, recalled: 6 in spiral 7 to 14 a foot, 8 in 10 to 20.
TEST_F(Prices, RowsAsRecalled) {
  const auto six = ductPrice(catalogue_, "spiral-galvanized", 6 * kInch);
  ASSERT_TRUE(six);
  EXPECT_NEAR(six->low_usd, 7 * kPerFoot, 1e-9);
  EXPECT_NEAR(six->high_usd, 14 * kPerFoot, 1e-9);
  EXPECT_FALSE(six->scaled);
  EXPECT_EQ(six->origin.ref, "prices/spiral-6");
  EXPECT_NEAR(hosePrice(catalogue_, 4 * kInch)->high_usd, 6 * kPerFoot, 1e-9);
  EXPECT_NEAR(gatePrice(catalogue_, 6 * kInch)->low_usd, 25, 1e-9);
  EXPECT_NEAR(elbowPrice(catalogue_)->high_usd, 90, 1e-9);
  EXPECT_NEAR(branchPrice(catalogue_)->low_usd, 25, 1e-9);
  EXPECT_NEAR(automaticGatePrice(catalogue_)->low_usd, 80, 1e-9);
  EXPECT_NEAR(collectorPrice(catalogue_, 3 * kHorsepower_w)->high_usd, 1800, 1e-9);
}

TEST_F(Prices, BetweenTwoRowsAPowerLaw) {
  const auto seven = ductPrice(catalogue_, "spiral-galvanized", 7 * kInch);
  ASSERT_TRUE(seven);
  const double exponent = std::log(10.0 / 7) / std::log(8.0 / 6);
  EXPECT_NEAR(exponent, kPriceExponent, 0.005);
  EXPECT_NEAR(seven->low_usd, 7 * std::pow(7.0 / 6, exponent) * kPerFoot, 1e-6);
  EXPECT_TRUE(seven->scaled);
  const auto two = collectorPrice(catalogue_, 2 * kHorsepower_w);
  ASSERT_TRUE(two);
  EXPECT_GT(two->low_usd, 350);
  EXPECT_LT(two->high_usd, 1800);
}

TEST_F(Prices, BeyondTheRowsTheStatedExponent) {
  const auto ten = ductPrice(catalogue_, "spiral-galvanized", 10 * kInch);
  ASSERT_TRUE(ten);
  EXPECT_NEAR(ten->low_usd, 10 * std::pow(10.0 / 8, kPriceExponent) * kPerFoot, 1e-6);
  const auto four = ductPrice(catalogue_, "spiral-galvanized", 4 * kInch);
  ASSERT_TRUE(four);
  EXPECT_NEAR(four->high_usd, 14 * std::pow(4.0 / 6, kPriceExponent) * kPerFoot, 1e-6);
  const auto drain = ductPrice(catalogue_, "pvc-drain", 6.075 * kInch);
  ASSERT_TRUE(drain);
  EXPECT_NEAR(drain->low_usd, 1.5 * std::pow(6.075 / 4, kPriceExponent) * kPerFoot, 1e-6);
}

TEST_F(Prices, GrowWithTheBoreWithoutAStepAndTheBandStaysOpen) {
  for (const char* construction : {"spiral-galvanized", "snap-lock-taped", "clamp-tube", "pvc-drain"}) {
    double below = 0;
    for (double bore_m = 0.05; bore_m < 0.5; bore_m += 0.001) {
      const auto price = ductPrice(catalogue_, construction, bore_m);
      ASSERT_TRUE(price) << construction;
      EXPECT_LT(price->low_usd, price->high_usd);
      EXPECT_GE(price->low_usd, below) << construction << ' ' << bore_m;
      if (below > 0) {
        EXPECT_LT(price->low_usd, 1.06 * below) << construction << ' ' << bore_m;
      }
      below = price->low_usd;
    }
  }
}

TEST_F(Prices, NothingWhereNothingIsRecalled) {
  EXPECT_FALSE(ductPrice(catalogue_, "welded-steel", 6 * kInch));
  EXPECT_FALSE(ductPrice(catalogue_, "", 6 * kInch));
  EXPECT_FALSE(hosePrice(catalogue_, 0));
  EXPECT_FALSE(hosePrice(catalogue_, -1));
  EXPECT_FALSE(collectorPrice(catalogue_, std::nan("")));
}

TEST_F(Prices, ConstructionsAreOnesThatTheCatalogueKnows) {
  const Table* table = catalogue_.table("prices").value();
  for (const Row& r : table->rows()) {
    std::string word;
    for (const char c : table->cell(r, "constructions").text + ' ') {
      if (c != ' ') {
        word += c;
        continue;
      }
      if (!word.empty()) {
        EXPECT_TRUE(catalogue_.row("constructions", word)) << r.key << ' ' << word;
      }
      word.clear();
    }
  }
}

}  // namespace
}  // namespace kerfdraft::catalogue
