// Sound levels and their limits against their sources.
#include "catalogue/noise.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace kerfdraft::catalogue {
namespace {

class Noise : public testing::Test {
 protected:
  void SetUp() override {
    auto loaded = Catalogue::shipped();
    ASSERT_TRUE(loaded) << loaded.error().text();
    catalogue_ = std::move(*loaded);
  }
  /// The level of a country's row, or -1.
  double level(const char* iso, const char* key) {
    for (const NoiseLimit& limit : noiseLimitsFor(catalogue_, iso)) {
      if (limit.key == key) {
        return limit.level_db;
      }
    }
    return -1;
  }
  Catalogue catalogue_;
};

// Published: HSE, noise, good practice in woodworking.
TEST_F(Noise, MachinesAsPrinted) {
  const auto saw = machineNoise(catalogue_, "table-saw");
  ASSERT_TRUE(saw);
  EXPECT_DOUBLE_EQ(saw->low_db.value(), 97);
  EXPECT_DOUBLE_EQ(saw->high_db, 102);
  EXPECT_DOUBLE_EQ(machineNoise(catalogue_, "spindle-moulder")->high_db, 100);
  const auto moulder = machineNoise(catalogue_, "moulder");
  ASSERT_TRUE(moulder);
  EXPECT_FALSE(moulder->low_db);
  EXPECT_DOUBLE_EQ(moulder->high_db, 105);
}

TEST_F(Noise, NothingIsSaidOfAKindThatWasNotRead) {
  EXPECT_FALSE(machineNoise(catalogue_, "scroll-saw"));
  EXPECT_FALSE(machineNoise(catalogue_, ""));
}

// Common practice, no source: 75 to 90 dB(A) at 1 to 3 m.
TEST_F(Noise, OfTheCollector) {
  const auto collector = collectorNoise(catalogue_);
  ASSERT_TRUE(collector);
  EXPECT_DOUBLE_EQ(collector->low_db.value(), 75);
  EXPECT_DOUBLE_EQ(collector->high_db, 90);
  EXPECT_TRUE(collector->machine.empty());
}

// Published: HSE WIS13 (80, 85, 87). From memory: 29 CFR 1910.95 (90, action 85, 5 dB), NIOSH (85, 3 dB).
TEST_F(Noise, LimitsByCountry) {
  EXPECT_DOUBLE_EQ(level("GB", "uk-lower"), 80);
  EXPECT_DOUBLE_EQ(level("GB", "uk-upper"), 85);
  EXPECT_DOUBLE_EQ(level("GB", "uk-limit"), 87);
  EXPECT_DOUBLE_EQ(level("DE", "eu-upper"), 85);
  EXPECT_DOUBLE_EQ(level("US", "osha-limit"), 90);
  EXPECT_DOUBLE_EQ(level("US", "niosh"), 85);
  EXPECT_DOUBLE_EQ(level("GB", "eu-upper"), -1);
  EXPECT_TRUE(noiseLimitsFor(catalogue_, "CA").empty());
  EXPECT_TRUE(noiseLimitsFor(catalogue_, "XX").empty());
  EXPECT_TRUE(noiseLimitsFor(catalogue_, "").empty());
}

TEST_F(Noise, TheLowestLevelStandsFirst) {
  const auto limits = noiseLimitsFor(catalogue_, "AT");
  ASSERT_EQ(limits.size(), 3U);
  EXPECT_DOUBLE_EQ(limits.front().level_db, 80);
  EXPECT_DOUBLE_EQ(limits.back().level_db, 87);
}

}  // namespace
}  // namespace kerfdraft::catalogue
