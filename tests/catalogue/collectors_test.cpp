// Hoods, gates, separators, cyclones and filters against their sources.
#include "catalogue/collectors.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kerfdraft::catalogue {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

class Collectors : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  Catalogue catalogue_;
};

// Published: ACGIH Industrial Ventilation, 24th ed. 2001, hood figures (reprint).
TEST_F(Collectors, HoodFormsAreThePublishedOnes) {
  const std::pair<const char*, double> rows[] = {{"plain-end", 0.93},       {"flanged-end", 0.49},
                                                 {"bellmouth", 0.04},       {"straight-takeoff", 0.65},
                                                 {"tapered-takeoff", 0.40}, {"slot", 1.78}};
  for (const auto& [key, entry_loss] : rows) {
    const auto h = hoodForm(catalogue_, key);
    ASSERT_TRUE(h) << h.error().text();
    EXPECT_DOUBLE_EQ(h->entry_loss, entry_loss) << key;
  }
}

// From memory: ACGIH tapered hoods. Published: ASHRAE pocket guide 2013, Table 9-4, after Idelchik.
TEST_F(Collectors, HoodEntriesByShape) {
  EXPECT_THAT(catalogue_.curve("hood_taper", "tapered-round")->y,
              ElementsAre(0.15, 0.08, 0.06, 0.08, 0.15, 0.26, 0.40, 0.50));
  EXPECT_THAT(catalogue_.curve("hood_taper", "cone-free-0.10")->y,
              ElementsAre(1.0, 0.80, 0.67, 0.55, 0.46, 0.41, 0.41, 0.43, 0.46, 0.50));
  EXPECT_THAT(catalogue_.curve("hood_edge", "bell-free")->y,
              ElementsAre(1.0, 0.87, 0.74, 0.61, 0.51, 0.40, 0.32, 0.20, 0.15, 0.10, 0.06, 0.03));
  EXPECT_EQ(catalogue_.curve("hood_edge", "bell-wall")->x.size(), 11U) << "no value was read at r/D 0.10";
}

// Ours: slots of the gate law.
TEST_F(Collectors, GatesLeakThroughASlot) {
  EXPECT_NEAR(gate(catalogue_, "blade")->leak_slot_m, 0.25e-3, 1e-12);
  EXPECT_NEAR(gate(catalogue_, "blade-worn")->leak_slot_m, 0.75e-3, 1e-12);
  EXPECT_EQ(gate(catalogue_, "tight")->leak_slot_m, 0);
}

// Common practice, no source: cyclone 3 heads, lid 2.0 in w.g., drop box 1.5 velocity pressures.
TEST_F(Collectors, SeparatorsHaveTheirDefaults) {
  EXPECT_DOUBLE_EQ(separator(catalogue_, "cyclone")->heads.value(), 3);
  EXPECT_DOUBLE_EQ(separator(catalogue_, "cyclone")->heads_band.value(), 1.5);
  EXPECT_DOUBLE_EQ(separator(catalogue_, "lid")->loss_at_rated_flow_pa.value(), 2 * 249.08891);
  EXPECT_DOUBLE_EQ(separator(catalogue_, "drop-box")->heads.value(), 1.5);
}

TEST_F(Collectors, ASeparatorWithHeadsAndLossIsRefused) {
  const TableText text{"separators", "my/separators.csv",
                       "key,name,heads,loss_at_rated_flow,source,status\nodd,Odd,3,200 Pa,no source,ours\n"};
  const auto mine = catalogue_.with(Layer::Personal, std::span(&text, 1));
  ASSERT_TRUE(mine);
  EXPECT_FALSE(separator(*mine, "odd").has_value());
}

// Computed from the published proportions with Shepherd and Lapple's 16 ab/De^2 (rows Y1-Y4).
TEST_F(Collectors, CycloneHeadsAgreeWithTheirProportions) {
  for (const char* key : {"stairmand-high-efficiency", "swift-high-efficiency", "lapple-general",
                          "swift-general", "peterson-whitby"}) {
    const auto shape = cycloneShape(catalogue_, key);
    ASSERT_TRUE(shape) << shape.error().text();
    const double heads =
        16 * shape->inlet_height * shape->inlet_width / (shape->gas_outlet * shape->gas_outlet);
    EXPECT_NEAR(shape->inlet_heads, heads, 0.002 * heads) << key;
  }
}

// Common practice, no source: clean 120 Pa, seasoned three times, due 1.1 kPa, at 25 mm/s.
TEST_F(Collectors, AnUnknownFilterHasItsDefaults) {
  const auto f = filterDefaults(catalogue_);
  ASSERT_TRUE(f) << f.error().text();
  EXPECT_DOUBLE_EQ(f->clean_pa, 120);
  EXPECT_DOUBLE_EQ(f->seasoned_pa, 360);
  EXPECT_DOUBLE_EQ(f->due_pa, 1100);
  EXPECT_DOUBLE_EQ(f->face_speed_m_s, 0.025);
}

TEST_F(Collectors, DueIsNeverBelowOneAndAHalfTimesSeasoned) {
  const TableText text{"filters", "my/filters.csv",
                       "key,name,clean,seasoned_over_clean,due,due_over_seasoned,face_speed,source,status\n"
                       "unknown,Heavy,400 Pa,3,1.1 kPa,1.5,0.025 m/s,no source,ours\n"};
  const auto mine = catalogue_.with(Layer::Project, std::span(&text, 1));
  ASSERT_TRUE(mine) << mine.error().text();
  EXPECT_DOUBLE_EQ(filterDefaults(*mine)->due_pa, 1800);
}

TEST_F(Collectors, AnUnknownFilterWithoutAValueIsRefused) {
  const TableText text{"filters", "my/filters.csv",
                       "key,name,clean,source,status\nunknown,Bare,400 Pa,no source,ours\n"};
  const auto mine = catalogue_.with(Layer::Project, std::span(&text, 1));
  ASSERT_TRUE(mine) << mine.error().text();
  const auto f = filterDefaults(*mine);
  ASSERT_FALSE(f);
  EXPECT_THAT(f.error().text(), HasSubstr("filters/unknown"));
}

}  // namespace
}  // namespace kerfdraft::catalogue
