// Entry coefficients from makers' pairs, and the refusals.
#include "physics/hood.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace kerfdraft::physics {
namespace {

using ::testing::HasSubstr;

constexpr double kRho = 1.2;

double vpOf(const MakerPair& pair) {
  return velocityPressure(kRho, pair.flow_m3_s / roundArea(pair.bore_m));
}

TEST(Hood, APairWithoutOpeningsGivesSuctionOverVelocityPressureLessOne) {
  const MakerPair pair{0.3, 900, 0.15, "planer"};
  const auto made = entriesFromPairs(std::vector{pair}, 0, kRho);
  ASSERT_TRUE(made);
  ASSERT_EQ(made->size(), 1U);
  EXPECT_NEAR((*made)[0].entry, 900 / vpOf(pair) - 1, 1e-12);
  EXPECT_NEAR(hoodStatic((*made)[0].entry, (*made)[0].vp_pa), 900, 1e-9);
  EXPECT_FALSE((*made)[0].at_floor);
}

TEST(Hood, TheOpeningsLossAtTheRatedFlowComesOutOfThePair) {
  const MakerPair pair{0.3, 900, 0.15, "planer"};
  const double openings_m2 = 0.02;
  const double loss_pa = 0.5 * kRho * std::pow(0.3 / (0.61 * openings_m2), 2);
  const auto made = entriesFromPairs(std::vector{pair}, openings_m2, kRho);
  ASSERT_TRUE(made);
  EXPECT_NEAR((*made)[0].openings_pa, loss_pa, 1e-9);
  EXPECT_NEAR((*made)[0].entry, (900 - loss_pa) / vpOf(pair) - 1, 1e-12);
  // What the maker measured comes out again: openings, entry and velocity pressure add up to his suction.
  EXPECT_NEAR((*made)[0].openings_pa + hoodStatic((*made)[0].entry, (*made)[0].vp_pa), 900, 1e-9);
}

TEST(Hood, TheEntryNeverFallsBelowZero) {
  const auto made = entriesFromPairs(std::vector{MakerPair{0.3, 400, 0.15, ""}}, 0.005, kRho);
  ASSERT_TRUE(made);
  EXPECT_EQ((*made)[0].entry, 0);
  EXPECT_TRUE((*made)[0].at_floor);
}

TEST(Hood, SeveralPairsShareTheOpeningsAtTheSumOfTheirFlows) {
  const std::vector<MakerPair> pairs{{0.2, 1200, 0.12, "base"}, {0.1, 1500, 0.08, "guard"}};
  const auto made = entriesFromPairs(pairs, 0.02, kRho);
  ASSERT_TRUE(made);
  const double loss_pa = 0.5 * kRho * std::pow(0.3 / (0.61 * 0.02), 2);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR((*made)[i].openings_pa, loss_pa, 1e-9);
    EXPECT_NEAR((*made)[i].entry, (pairs[i].suction_pa - loss_pa) / vpOf(pairs[i]) - 1, 1e-12);
  }
}

TEST(Hood, RefusesAPairWhoseSuctionCannotBringItsAirToSpeed) {
  const auto made = entriesFromPairs(std::vector{MakerPair{0.3, 100, 0.15, "/machines/2/ports/0"}}, 0, kRho);
  ASSERT_FALSE(made);
  EXPECT_THAT(made.error().message, HasSubstr("100 Pa"));
  EXPECT_THAT(made.error().message, HasSubstr("172.9 Pa"));
  EXPECT_EQ(made.error().where, "/machines/2/ports/0");
  EXPECT_EQ(made.error().code, base::ErrorCode::Conflict);
}

TEST(Hood, RefusesPairsThatAreNotNumbersAboveZero) {
  const double nan = std::nan("");
  for (const MakerPair& pair : {MakerPair{0, 900, 0.15, "p"}, MakerPair{0.3, -1, 0.15, "p"},
                                MakerPair{0.3, 900, 0, "p"}, MakerPair{nan, 900, 0.15, "p"},
                                MakerPair{0.3, nan, 0.15, "p"}, MakerPair{0.3, HUGE_VAL, 0.15, "p"}}) {
    const auto made = entriesFromPairs(std::vector{pair}, 0, kRho);
    ASSERT_FALSE(made);
    EXPECT_THAT(made.error().message, HasSubstr("must be above zero"));
  }
  EXPECT_FALSE(entriesFromPairs({}, -0.1, kRho));
  EXPECT_FALSE(entriesFromPairs({}, 0, 0));
  EXPECT_TRUE(entriesFromPairs({}, 0, kRho)->empty());
}

TEST(Hood, APortWithoutDataHasHalfAVelocityPressureAndItsInternals) {
  EXPECT_DOUBLE_EQ(entryUnknown(0), 0.5);
  EXPECT_DOUBLE_EQ(entryUnknown(2.5), 3.0);
}

TEST(Hood, FlowFromSuctionTurnsSuctionFromFlowRound) {
  for (const double entry : {0.0, 0.25, 0.93, 3.0}) {
    const double area = roundArea(0.125);
    const double sp_pa = hoodStatic(entry, velocityPressure(kRho, 0.2 / area));
    EXPECT_NEAR(flowFromHoodStatic(sp_pa, area, coefficientOfEntry(entry), kRho), 0.2, 1e-12);
  }
  EXPECT_EQ(flowFromHoodStatic(0, 0.01, 0.8, kRho), 0);
}

TEST(Hood, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  EXPECT_EQ(entryFromPair(900, 100, 170, recorder), entryFromPair(900, 100, 170));
  EXPECT_EQ(flowFromHoodStatic(300, 0.012, 0.72, 1.19, recorder), flowFromHoodStatic(300, 0.012, 0.72, 1.19));
  EXPECT_EQ(compoundHoodStatic(1.78, 60, 0.25, 190, recorder), compoundHoodStatic(1.78, 60, 0.25, 190));
  ASSERT_EQ(recorder.steps().size(), 3U);
  EXPECT_EQ(recorder.steps()[0].law->key, "entry-from-pair");
}

}  // namespace
}  // namespace kerfdraft::physics
