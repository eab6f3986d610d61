// Some laws carry their default as a constant, so that they can be read and tested alone. The rows of the
// shipped tables must say the same.
#include <gtest/gtest.h>

#include "catalogue/collectors.h"
#include "catalogue/ducts.h"
#include "physics/fan.h"
#include "physics/filter.h"
#include "physics/fittings.h"
#include "physics/gate.h"
#include "physics/hood.h"
#include "physics/hose.h"
#include "physics/leak.h"
#include "physics/opening.h"
#include "physics/separator.h"

namespace kerfdraft::catalogue {
namespace {

class Agreement : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  double k(const char* key) const { return fitting(catalogue_, key).value().k; }
  Catalogue catalogue_;
};

TEST_F(Agreement, Fittings) {
  EXPECT_EQ(k("saddle"), physics::kHandCutSaddle);
  EXPECT_EQ(k("system-effect"), physics::kDefaultSystemEffect);
  EXPECT_EQ(k("fan-stopped"), physics::kStoppedFanK);
  EXPECT_EQ(k("hood-outward"), physics::kHoodBlowingOut);
  EXPECT_EQ(k("outlet-inward"), physics::kOutletSuckingIn);
}

TEST_F(Agreement, Hose) {
  using physics::HoseInside;
  using physics::HosePull;
  for (const auto& [inside, inside_word] :
       {std::pair{HoseInside::Smooth, "smooth"}, std::pair{HoseInside::Ribbed, "ribbed"}}) {
    for (const auto& [pull, pull_word] :
         {std::pair{HosePull::Tight, "tight"}, std::pair{HosePull::Hung, "hung"},
          std::pair{HosePull::Slack, "slack"}}) {
      const auto row = hose(catalogue_, std::string(inside_word) + '-' + pull_word);
      ASSERT_TRUE(row);
      EXPECT_EQ(row->friction_factor, physics::hoseMultiplier(inside, pull)) << row->key;
      EXPECT_DOUBLE_EQ(row->reference_roughness_m, physics::kHoseReferenceRoughness_m);
      EXPECT_EQ(row->cuff_leakage_class, physics::kLeakClassCuff);
    }
  }
}

TEST_F(Agreement, Leaks) {
  EXPECT_EQ(construction(catalogue_, "snap-lock")->leakage_class, physics::kLeakClassSnapLock);
  EXPECT_EQ(construction(catalogue_, "snap-lock-taped")->leakage_class, physics::kLeakClassSealed);
  EXPECT_DOUBLE_EQ(gate(catalogue_, "blade")->leak_slot_m, physics::kGateSlot_m);
  EXPECT_DOUBLE_EQ(gate(catalogue_, "blade-worn")->leak_slot_m, physics::kWornGateSlot_m);
}

TEST_F(Agreement, HoodsSeparatorsAndFilters) {
  EXPECT_EQ(hoodForm(catalogue_, "unknown")->entry_loss, physics::kUnknownEntry);
  EXPECT_EQ(hoodForm(catalogue_, "slot")->entry_loss, physics::kSlotEntry);
  EXPECT_EQ(separator(catalogue_, "cyclone")->heads.value(), physics::kCycloneDefaultHeads);
  EXPECT_EQ(separator(catalogue_, "cyclone")->heads_band.value(), physics::kCycloneDefaultHeadsBand);
  EXPECT_DOUBLE_EQ(separator(catalogue_, "lid")->loss_at_rated_flow_pa.value(), physics::kLidDrop_pa);
  EXPECT_EQ(separator(catalogue_, "drop-box")->heads.value(), physics::kDropBoxK);
  const FilterDefaults filter = filterDefaults(catalogue_).value();
  EXPECT_DOUBLE_EQ(filter.clean_pa, physics::kFilterCleanDrop_pa);
  EXPECT_DOUBLE_EQ(filter.seasoned_pa, physics::kFilterCleanDrop_pa * physics::kFilterSeasonedOverClean);
  EXPECT_DOUBLE_EQ(filter.due_pa, physics::kFilterDueDrop_pa);
  EXPECT_DOUBLE_EQ(filter.due_over_seasoned, physics::kFilterDueOverSeasoned);
  EXPECT_DOUBLE_EQ(filter.face_speed_m_s, physics::kFilterReferenceSpeed_m_s);
}

}  // namespace
}  // namespace kerfdraft::catalogue
