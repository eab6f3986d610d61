// Capture laws: shapes, limits of validity, and the same law turned round.
#include "physics/capture.h"

#include <gtest/gtest.h>

#include <cmath>

namespace kerfdraft::physics {
namespace {

TEST(Capture, SpeedTurnsFlowRound) {
  for (const auto edge : {OpeningEdge::Plain, OpeningEdge::Flanged}) {
    const Capture flow = captureFlow(edge, 0.75, 0.12, 0.01);
    EXPECT_NEAR(captureSpeed(edge, flow.value, 0.12, 0.01).value, 0.75, 1e-12);
  }
}

TEST(Capture, AFlangeSavesAQuarter) {
  EXPECT_NEAR(captureFlow(OpeningEdge::Flanged, 1, 0.2, 0.02).value,
              0.75 * captureFlow(OpeningEdge::Plain, 1, 0.2, 0.02).value, 1e-15);
}

TEST(Capture, AtTheFaceItIsTheFaceSpeed) {
  EXPECT_NEAR(captureSpeed(OpeningEdge::Plain, 0.1, 0, 0.01).value, 10, 1e-12);
}

TEST(Capture, OneDiameterAwayAboutATenthIsLeft) {
  // Common statement of the trade ("roughly 10 %"); the law gives 7.3 %.
  const double area = 3.14159265358979 / 4 * 0.1 * 0.1;
  const double share = captureSpeed(OpeningEdge::Plain, 1, 0.1, area).value * area;
  EXPECT_GT(share, 0.05);
  EXPECT_LT(share, 0.12);
}

TEST(Capture, IsFlaggedBeyondOneAndAHalfDiameters) {
  const double area = 3.14159265358979 / 4 * 0.1 * 0.1;
  EXPECT_TRUE(captureFlow(OpeningEdge::Plain, 1, 0.149, area).in_range);
  EXPECT_FALSE(captureFlow(OpeningEdge::Plain, 1, 0.151, area).in_range);
  EXPECT_FALSE(captureSpeed(OpeningEdge::Flanged, 1, 0.151, area).in_range);
}

TEST(Capture, SlotsByTheirEdge) {
  EXPECT_NEAR(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.05, 0.8, 0.3).value, 3.7 * 1.2 * 0.8 * 0.3, 1e-12);
  EXPECT_NEAR(slotCaptureFlow(SlotEdge::Flanged, 1.2, 0.05, 0.8, 0.3).value, 2.6 * 1.2 * 0.8 * 0.3, 1e-12);
  EXPECT_NEAR(slotCaptureFlow(SlotEdge::OnSurface, 1.2, 0.05, 0.8, 0.3).value, 2.8 * 1.2 * 0.8 * 0.3, 1e-12);
  EXPECT_TRUE(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.24, 0.8, 0.3).in_range);
  EXPECT_FALSE(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.25, 0.8, 0.3).in_range);
  EXPECT_FALSE(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.05, 0.8, 1.3).in_range);
  EXPECT_FALSE(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.05, 0.8, 0.04).in_range);
}

TEST(Capture, FacesAndBenches) {
  EXPECT_NEAR(canopyFlow(4, 1.2, 0.5), 1.4 * 4 * 1.2 * 0.5, 1e-15);
  EXPECT_NEAR(faceFlow(0.75, 1.5), 1.125, 1e-15);
  EXPECT_NEAR(downdraftFlow(1.5, 0.3, 0.76, 0.5), 0.45, 1e-15);
  EXPECT_NEAR(downdraftFlow(1.5, 0.3, 0.76, 0.9), 0.684, 1e-15);
  EXPECT_NEAR(widerWheelFlow(0.2, 0.1, 0.05), 0.2, 1e-15);
}

TEST(Capture, NotesRepeatTheSilentNumbers) {
  base::Recorder recorder;
  EXPECT_EQ(captureFlow(OpeningEdge::Flanged, 1.1, 0.2, 0.02, recorder).value,
            captureFlow(OpeningEdge::Flanged, 1.1, 0.2, 0.02).value);
  EXPECT_EQ(slotCaptureFlow(SlotEdge::Plain, 1.2, 0.05, 0.8, 0.3, recorder).value,
            slotCaptureFlow(SlotEdge::Plain, 1.2, 0.05, 0.8, 0.3).value);
  EXPECT_EQ(recorder.steps().size(), 2U);
  EXPECT_EQ(recorder.steps()[0].law->kind, base::Kind::VolumeFlow);
}

}  // namespace
}  // namespace kerfdraft::physics
