// Conveying, waste, woods and limits against their sources.
#include "catalogue/materials.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::catalogue {
namespace {

using testing::HasSubstr;

constexpr double kFpm = 0.00508;

class Materials : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  Catalogue catalogue_;
};

// Common practice, no source: dry chips 3500, 3000, 2500 fpm; sander dust only 2000 in place of 2500.
TEST_F(Materials, WorkingRuleOfVelocity) {
  const auto chips = transportRule(catalogue_, "mixed");
  ASSERT_TRUE(chips) << chips.error().text();
  EXPECT_NEAR(chips->note_below_m_s, 3500 * kFpm, 1e-9);
  EXPECT_NEAR(chips->caution_below_m_s, 3000 * kFpm, 1e-9);
  EXPECT_NEAR(chips->not_carried_below_m_s, 2500 * kFpm, 1e-9);
  EXPECT_NEAR(transportRule(catalogue_, "sander-dust")->not_carried_below_m_s, 2000 * kFpm, 1e-9);
  for (const Row& r : catalogue_.table("transport_rules").value()->rows()) {
    EXPECT_TRUE(transportRule(catalogue_, r.key)) << r.key;
  }
}

TEST_F(Materials, AWorkingRuleWhoseStepsFallIsRefused) {
  const TableText text{
      "transport_rules", "my/transport_rules.csv",
      "key,name,advised_branch,advised_main,note_below,caution_below,not_carried_below,high_above,"
      "damp,source,status\n"
      "odd,Odd,20 m/s,20 m/s,10 m/s,15 m/s,12 m/s,28 m/s,no,no source,ours\n"};
  const auto mine = catalogue_.with(Layer::Personal, std::span(&text, 1));
  ASSERT_TRUE(mine) << mine.error().text();
  const auto rule = transportRule(*mine, "odd");
  ASSERT_FALSE(rule);
  EXPECT_THAT(rule.error().text(), HasSubstr("transport_rules/odd: the steps must rise"));
}

// Published: DGUV Information 209-044 (20 and 28 m/s); 29 CFR 1910.94(b) (4500 and 3500 fpm).
TEST_F(Materials, PublishedVelocities) {
  const auto mixed = transportVelocities(catalogue_, "mixed");
  ASSERT_TRUE(mixed) << mixed.error().text();
  const auto speed = [&](const char* key) {
    for (const TransportVelocity& v : *mixed) {
      if (v.key == key) {
        return v.speed_m_s;
      }
    }
    return -1.0;
  };
  EXPECT_DOUBLE_EQ(speed("dguv-dry"), 20);
  EXPECT_NEAR(speed("osha-branch"), 4500 * kFpm, 1e-9);
  EXPECT_NEAR(speed("osha-main"), 3500 * kFpm, 1e-9);
  EXPECT_DOUBLE_EQ(transportVelocities(catalogue_, "damp-chips")->at(2).speed_m_s, 28);
  EXPECT_FALSE(transportVelocities(catalogue_, "gravel").has_value());
}

// Published: Briggs, table 7-1, after Dobie and Wright 1972.
TEST_F(Materials, BulkingFactors) {
  EXPECT_DOUBLE_EQ(bulking(catalogue_, "sawdust")->factor, 2.50);
  EXPECT_DOUBLE_EQ(bulking(catalogue_, "shavings")->factor, 4.00);
  EXPECT_DOUBLE_EQ(bulking(catalogue_, "hog-fuel")->factor, 2.74);
  EXPECT_DOUBLE_EQ(bulking(catalogue_, "bark")->factor, 2.35);
}

// From memory: Wood Handbook; density at 12 % moisture is the specific gravity times 1120.
TEST_F(Materials, DensityFollowsFromSpecificGravity) {
  const Table* table = catalogue_.table("woods").value();
  int checked = 0;
  for (const Row& r : table->rows()) {
    const auto gravity = table->cell(r, "specific_gravity").si;
    if (gravity) {
      EXPECT_NEAR(wood(catalogue_, r.key)->density_kg_m3.value(), *gravity * 1120, 0.51) << r.key;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 22);
  // Common practice, no source.
  EXPECT_DOUBLE_EQ(wood(catalogue_, "hardwood")->density_kg_m3.value(), 700);
  EXPECT_DOUBLE_EQ(wood(catalogue_, "softwood")->density_kg_m3.value(), 480);
  EXPECT_DOUBLE_EQ(wood(catalogue_, "board")->density_kg_m3.value(), 750);
}

// From memory: HSE WIS30, table 2.
TEST_F(Materials, SensitizersAreMarked) {
  for (const char* key : {"western-red-cedar", "iroko", "beech", "red-oak", "yew", "teak"}) {
    EXPECT_TRUE(wood(catalogue_, key)->sensitizer) << key;
  }
  EXPECT_FALSE(wood(catalogue_, "basswood")->sensitizer);
}

// Published: OSHA wood dust page, HSE wood dust page, TRGS 553 (2022), INRS ED 1461.
TEST_F(Materials, LimitsByCountry) {
  const auto limit = [&](const char* country, const char* key) {
    for (const ExposureLimit& l : exposureLimits(catalogue_, country)) {
      if (l.key == key) {
        return l.limit_kg_m3 * 1e6;
      }
    }
    return -1.0;
  };
  EXPECT_NEAR(limit("United States", "osha-total"), 15, 1e-9);
  EXPECT_NEAR(limit("United States", "niosh"), 1, 1e-9);
  EXPECT_NEAR(limit("United States", "acgih-cedar"), 0.5, 1e-9);
  EXPECT_NEAR(limit("United Kingdom", "uk-hardwood"), 3, 1e-9);
  EXPECT_NEAR(limit("United Kingdom", "uk-softwood"), 5, 1e-9);
  EXPECT_NEAR(limit("Germany", "germany-hardwood"), 2, 1e-9);
  EXPECT_NEAR(limit("France", "france"), 1, 1e-9);
  EXPECT_TRUE(exposureLimits(catalogue_, "Atlantis").empty());
}

TEST_F(Materials, LimitsNameAWoodThatTheCatalogueKnows) {
  for (const ExposureLimit& l : exposureLimits(catalogue_)) {
    EXPECT_TRUE(l.wood == "any" || wood(catalogue_, l.wood).has_value()) << l.key;
  }
}

// Seen only as quoted: ACGIH 2009, table 2.3.
TEST_F(Materials, CaptureVelocities) {
  EXPECT_DOUBLE_EQ(captureVelocity(catalogue_, "quiet")->low_m_s, 0.25);
  EXPECT_DOUBLE_EQ(captureVelocity(catalogue_, "thrown")->high_m_s, 10);
}

}  // namespace
}  // namespace kerfdraft::catalogue
