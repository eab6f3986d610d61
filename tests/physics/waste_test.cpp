// Waste of a cut, bins, dust layers and the dust in a room's air.
#include "physics/waste.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::physics {
namespace {

TEST(Waste, ABinFillsByWhatCountsAsFullAndByDuty) {
  EXPECT_NEAR(binFillTime(0.208, 0.8, 0.208, 1.0), 0.8, 1e-12);
  EXPECT_NEAR(binFillTime(0.208, 0.8, 0.208, 0.2), 4.0, 1e-12);
  EXPECT_EQ(binFillTime(0.208, 0.8, 0, 0.2), HUGE_VAL);
}

TEST(Waste, ARoomRunsTowardItsSteadyState) {
  const RoomAir room{60, 0.05, 0.2, 0.5, 1e-4};
  const double k = roomClearingRate(room);
  EXPECT_NEAR(k, (0.05 + 0.1) / 60 + 1e-4, 1e-15);
  const double steady = roomSteady(1e-7, k, 60);
  EXPECT_NEAR(steady * (0.15 + 60e-4), 1e-7, 1e-18);
  EXPECT_EQ(roomAfter(3e-6, steady, k, 0), 3e-6);
  EXPECT_NEAR(roomAfter(3e-6, steady, k, 1e6), steady, 1e-15);
  // The solution satisfies V dC/dt = G - k V C.
  const double t = 300;
  const double slope = (roomAfter(3e-6, steady, k, t + 1e-3) - roomAfter(3e-6, steady, k, t - 1e-3)) / 2e-3;
  EXPECT_NEAR(60 * slope, 1e-7 - k * 60 * roomAfter(3e-6, steady, k, t), 1e-12);
}

TEST(Waste, DecayTimeIsWhenTheShareIsReached) {
  const double t = roomDecayTime(0.1, 0.002);
  EXPECT_NEAR(roomAfter(1, 0, 0.002, t), 0.1, 1e-12);
}

TEST(Waste, ReturnedAirBringsBackWhatPassesTheFilter) {
  EXPECT_NEAR(roomReturn(0.4, 0.999, 4.5e-3), 0.4 * 0.001 * 4.5e-3, 1e-15);
  EXPECT_EQ(roomSteady(0, 0, 60), 0);
}

TEST(Waste, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  EXPECT_EQ(solidRemoved(0.33, 0.0015, 0.1, recorder), solidRemoved(0.33, 0.0015, 0.1));
  EXPECT_EQ(binFillTime(0.208, 0.8, 1e-4, 0.2, recorder), binFillTime(0.208, 0.8, 1e-4, 0.2));
  EXPECT_EQ(recorder.steps().size(), 2U);
}

}  // namespace
}  // namespace kerfdraft::physics
