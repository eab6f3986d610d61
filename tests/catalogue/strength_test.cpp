// What bears how much suction.
#include "catalogue/strength.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::catalogue {
namespace {

constexpr double kInWg = 249.089;
constexpr double kInch_m = 0.0254;

class Strengths : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  Catalogue catalogue_;
};

// Common practice, no source: 28 to 30 gauge snap-lock collapses near 4 to 8 in w.g. at 6 to 8 in.
TEST_F(Strengths, ThinSnapLockOfSixToEightInches) {
  for (const double bore_in : {6.0, 7.0, 8.0}) {
    const auto strength = ductStrength(catalogue_, "snap-lock", bore_in * kInch_m);
    ASSERT_TRUE(strength) << bore_in;
    EXPECT_NEAR(strength->low_pa, 4 * kInWg, 0.1);
    EXPECT_NEAR(strength->high_pa, 8 * kInWg, 0.1);
    EXPECT_EQ(strength->origin.status, base::SourceStatus::CommonPractice);
  }
}

// Ours: the other bores follow the cube of the bore, as a long thin tube does.
TEST_F(Strengths, OtherBoresFollowTheCubeOfTheBore) {
  const auto five = ductStrength(catalogue_, "snap-lock", 5 * kInch_m);
  const auto nine = ductStrength(catalogue_, "snap-lock", 9 * kInch_m);
  ASSERT_TRUE(five && nine);
  EXPECT_NEAR(five->high_pa, 8 * std::pow(6.0 / 5, 3) * kInWg, 0.02 * five->high_pa);
  EXPECT_NEAR(nine->low_pa, 4 * std::pow(8.0 / 10, 3) * kInWg, 0.03 * nine->low_pa);
  EXPECT_NEAR(nine->high_pa, 4 * std::pow(8.0 / 9, 3) * kInWg, 0.02 * nine->high_pa);
  EXPECT_EQ(five->origin.status, base::SourceStatus::Ours);
}

// Ours: 2 E/(1 - v2) (t/D)^3 of a long thin tube, E 2.8 GPa, v 0.4, thin-wall pipe of bores.csv.
TEST_F(Strengths, PlasticPipeAsALongThinTube) {
  const auto buckles_pa = [](double outside_in, double wall_in) {
    const double ratio = wall_in / (outside_in - wall_in);
    return 2 * 2.8e9 / (1 - 0.4 * 0.4) * ratio * ratio * ratio;
  };
  const auto four = ductStrength(catalogue_, "pvc-drain", 4.065 * kInch_m);
  const auto six = ductStrength(catalogue_, "pvc-drain", 6.075 * kInch_m);
  ASSERT_TRUE(four && six);
  EXPECT_NEAR(four->high_pa, buckles_pa(4.215, 0.075), 0.02 * four->high_pa);
  EXPECT_NEAR(six->high_pa, buckles_pa(6.275, 0.100), 0.02 * six->high_pa);
  EXPECT_NEAR(four->low_pa, four->high_pa / 3, 0.03 * four->high_pa);
}

TEST_F(Strengths, NothingIsSaidWhereNothingIsKnown) {
  EXPECT_FALSE(ductStrength(catalogue_, "spiral-galvanized", 6 * kInch_m));
  EXPECT_FALSE(ductStrength(catalogue_, "snap-lock", 30 * kInch_m));
  EXPECT_FALSE(ductStrength(catalogue_, "", 6 * kInch_m));
  EXPECT_FALSE(hoseStrength(catalogue_, 1.0));
  EXPECT_FALSE(containerStrength(catalogue_, "bag-liner-held"));
  EXPECT_FALSE(containerStrength(catalogue_, ""));
}

TEST_F(Strengths, ABoreOnTheBoundBelongsToTheWiderRow) {
  EXPECT_EQ(hoseStrength(catalogue_, 5 * kInch_m)->key, "hose-6");
  EXPECT_EQ(hoseStrength(catalogue_, 4.99 * kInch_m)->key, "hose-4");
}

TEST_F(Strengths, EveryBandRisesAndEveryRowIsFound) {
  const Table* table = catalogue_.table("suction_strength").value();
  for (const Row& r : table->rows()) {
    const double low = table->cell(r, "suction").si.value();
    const double high = table->cell(r, "suction_to").si.value();
    EXPECT_LT(low, high) << r.key;
    const std::string& thing = table->cell(r, "thing").text;
    const double bore_m = table->cell(r, "bore_from").si.value_or(0.02) + 1e-6;
    const auto found = thing == "duct" ? ductStrength(catalogue_, table->cell(r, "construction").text, bore_m)
                       : thing == "hose" ? hoseStrength(catalogue_, bore_m)
                                         : containerStrength(catalogue_, table->cell(r, "container").text);
    ASSERT_TRUE(found) << r.key;
    EXPECT_EQ(found->key, r.key);
  }
}

TEST_F(Strengths, ContainersOfTheList) {
  EXPECT_NEAR(container(catalogue_, "steel-drum")->usual_volume_m3.value(), 0.208, 1e-12);
  const auto odd = container(catalogue_, "steal-drum");
  ASSERT_FALSE(odd);
  EXPECT_THAT(odd.error().text(), testing::HasSubstr("steel-drum"));
}

}  // namespace
}  // namespace kerfdraft::catalogue
