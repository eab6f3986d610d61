// Clipping, hatching, bounds.
#include "drawing/geometry.h"

#include <gtest/gtest.h>

#include <numbers>
#include <random>

#include "drawing/shapes.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {
namespace {

TEST(Geometry, ALineThroughABoxIsCutAtBothSides) {
  const Box box{0, 0, 10, 4};
  EXPECT_DOUBLE_EQ(lengthInside(box, {-5, 2}, {15, 2}), 10);
  EXPECT_DOUBLE_EQ(lengthInside(box, {5, -3}, {5, 9}), 4);
  EXPECT_DOUBLE_EQ(lengthInside(box, {2, 2}, {7, 2}), 5);
  EXPECT_DOUBLE_EQ(lengthInside(box, {-5, 5}, {15, 5}), 0);
  EXPECT_NEAR(lengthInside(box, {-1, -1}, {3, 3}), 3 * std::numbers::sqrt2, 1e-12);
  EXPECT_EQ(lengthInside(Box{}, {0, 0}, {1, 1}), 0);
}

TEST(Geometry, WhatIsCutOffLiesInTheBoxAndOnTheLine) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> place(-20, 20);
  int met = 0;
  for (int k = 0; k < 3000; ++k) {
    Box box;
    box.add(At{place(random), place(random)});
    box.add(At{place(random), place(random)});
    const At a{place(random), place(random)};
    const At b{place(random), place(random)};
    const auto part = clipped(box, a, b);
    // Counted by hand along the line.
    int inside = 0;
    constexpr int kSteps = 400;
    for (int s = 0; s <= kSteps; ++s) {
      inside += box.contains(between(a, b, static_cast<double>(s) / kSteps)) ? 1 : 0;
    }
    const double by_hand = length(b - a) * inside / (kSteps + 1);
    const double cut = part ? length(part->to - part->from) : 0;
    EXPECT_NEAR(cut, by_hand, 2 * length(b - a) / kSteps);
    if (part) {
      ++met;
      EXPECT_TRUE(box.grown(1e-9).contains(part->from));
      EXPECT_TRUE(box.grown(1e-9).contains(part->to));
      EXPECT_LT(distanceToLine(part->from, a, b), 1e-9);
    }
  }
  EXPECT_GT(met, 500);
}

TEST(Geometry, LinesThatCross) {
  EXPECT_TRUE(linesCross({0, 0}, {4, 4}, {0, 4}, {4, 0}));
  EXPECT_TRUE(linesCross({0, 0}, {4, 0}, {2, 0}, {2, 3}));
  EXPECT_FALSE(linesCross({0, 0}, {4, 0}, {0, 1}, {4, 1}));
  EXPECT_FALSE(linesCross({0, 0}, {1, 1}, {2, 3}, {5, 2}));
}

TEST(Geometry, BoxesThatTouchDoNotOverlap) {
  EXPECT_FALSE(overlap({0, 0, 1, 1}, {1, 0, 2, 1}));
  EXPECT_TRUE(overlap({0, 0, 1, 1}, {0.9, 0.5, 2, 2}));
  EXPECT_DOUBLE_EQ(sharedArea({0, 0, 2, 2}, {1, 1, 5, 5}), 1);
}

TEST(Geometry, AHatchStaysInItsPolygonAndCoversIt) {
  // An L: concave, so that some lines are cut twice.
  const std::vector<At> outline{{0, 0}, {30, 0}, {30, 10}, {12, 10}, {12, 25}, {0, 25}};
  for (const bool rising : {true, false}) {
    double total = 0;
    for (const LinePart& part : hatch(outline, 0.5, rising)) {
      const double l = length(part.to - part.from);
      total += l;
      for (const double share : {0.001, 0.3, 0.5, 0.999}) {
        EXPECT_TRUE(insidePolygon(outline, between(part.from, part.to, share)) || l < 1e-6);
      }
    }
    // Lines half a millimetre apart have a length of twice the area.
    EXPECT_NEAR(total * 0.5, std::abs(signedArea(outline)), 6);
  }
  EXPECT_TRUE(hatch({{0, 0}, {1, 0}}, 1).empty());
  EXPECT_TRUE(hatch(outline, 0).empty());
}

TEST(Geometry, BoundsHoldTextByItsAnchorAndTurn) {
  const double width = textWidth("812 cfm", 3);
  const Box start = boundsOf(text({10, 10}, "812 cfm", {.size_mm = 3}));
  EXPECT_DOUBLE_EQ(start.left, 10);
  EXPECT_NEAR(start.right, 10 + width, 1e-12);
  const Box end = boundsOf(text({10, 10}, "812 cfm", {.size_mm = 3, .anchor = Anchor::End}));
  EXPECT_NEAR(end.left, 10 - width, 1e-12);
  const Box turned = boundsOf(text({10, 10}, "812 cfm", {.size_mm = 3, .turned_rad = std::numbers::pi / 2}));
  EXPECT_NEAR(turned.height(), width, 1e-9);
  EXPECT_NEAR(turned.bottom, 10, 1e-9);
}

}  // namespace
}  // namespace kerfdraft::drawing
