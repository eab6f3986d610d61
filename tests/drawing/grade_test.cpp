// The scale: colours that every eye and a grey copy tell apart, patterns and words beside them.
#include "drawing/grade.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "drawing/colour_vision.h"
#include "drawing/plan_parts.h"
#include "drawing/style.h"

namespace kerfdraft::drawing {
namespace {

TEST(ColourVision, WhiteStaysWhite) {
  for (const Eye eye : kEyes) {
    const auto lab = labOf(kWhite, eye);
    EXPECT_NEAR(lab[0], 100, 0.01) << toText(eye);
    EXPECT_NEAR(lab[1], 0, 0.05) << toText(eye);
    EXPECT_NEAR(lab[2], 0, 0.05) << toText(eye);
  }
}

TEST(ColourVision, RedAndGreenComeNearForADeuteranope) {
  // The simulation does something: a pair that fails is seen to fail.
  const Colour red{0xc0, 0x50, 0x40};
  const Colour green{0x6f, 0x82, 0x38};
  EXPECT_GT(apart(red, green, Eye::Usual), 60);
  EXPECT_LT(apart(red, green, Eye::Deuteranope), 25);
}

TEST(Grade, LightnessRisesWithEveryStepForEveryEye) {
  // Five units of L* are seen in a grey copy; the smallest step is the deuteranope's from just to ample.
  for (const Eye eye : kEyes) {
    for (std::size_t k = 0; k + 1 < kScale.size(); ++k) {
      EXPECT_GT(labOf(fillOf(kScale[k + 1]), eye)[0], labOf(fillOf(kScale[k]), eye)[0] + 8)
          << toText(eye) << ": " << toText(kScale[k]) << " to " << toText(kScale[k + 1]);
    }
  }
}

TEST(Grade, EveryPairIsFarApartForEveryEye) {
  // 2.3 is just seen side by side; pieces far from each other on a drawing need several times that.
  for (const Eye eye : kEyes) {
    for (std::size_t a = 0; a < kScale.size(); ++a) {
      for (std::size_t b = a + 1; b < kScale.size(); ++b) {
        EXPECT_GT(apart(fillOf(kScale[a]), fillOf(kScale[b]), eye), 15)
            << toText(eye) << ": " << toText(kScale[a]) << " and " << toText(kScale[b]);
      }
    }
  }
}

TEST(Grade, TheSideOfTheNeedShowsInHueWithoutRedAndGreen) {
  // Below and at the need warm, above it cool: b* keeps its sign for those who lack red or green cones.
  for (const Eye eye : {Eye::Usual, Eye::Protanope, Eye::Deuteranope}) {
    EXPECT_GT(labOf(fillOf(Grade::Below), eye)[2], 10) << toText(eye);
    EXPECT_GT(labOf(fillOf(Grade::Just), eye)[2], 10) << toText(eye);
    EXPECT_LT(labOf(fillOf(Grade::Ample), eye)[2], -5) << toText(eye);
  }
}

TEST(Grade, StepsBeginWhereTheySayInWholePercent) {
  EXPECT_EQ(gradeOf(0), Grade::FarBelow);
  EXPECT_EQ(gradeOf(0.794), Grade::FarBelow);
  EXPECT_EQ(gradeOf(0.796), Grade::Below);
  EXPECT_EQ(gradeOf(0.994), Grade::Below);
  EXPECT_EQ(gradeOf(0.996), Grade::Just);
  EXPECT_EQ(gradeOf(1.144), Grade::Just);
  EXPECT_EQ(gradeOf(1.146), Grade::Ample);
  EXPECT_EQ(gradeOf(1.594), Grade::Ample);
  EXPECT_EQ(gradeOf(1.596), Grade::Plenty);
  EXPECT_EQ(gradeOf(40), Grade::Plenty);
}

TEST(Grade, WordsAndRangesDiffer) {
  std::set<std::string_view> words;
  for (const Grade grade : kScale) {
    words.insert(toText(grade));
    words.insert(rangeText(grade));
  }
  words.insert(toText(Grade::NotJudged));
  words.insert(toText(Grade::Still));
  EXPECT_EQ(words.size(), 2 * kScale.size() + 2);
}

/// What a pattern is made of, colour aside.
std::string patternOf(Grade grade) {
  std::string out;
  for (const Shape& shape : gradePattern({0, 0}, {40, 0}, 3, grade)) {
    const auto& path = std::get<Path>(shape.what);
    const double slope = std::abs(path.points.back().y - path.points.front().y) > 0.1 ? 1 : 0;
    out += slope > 0                          ? "/"
           : path.stroke->dashes_mm.empty()   ? "-"
           : path.stroke->ends == Ends::Round ? "."
                                              : "=";
  }
  return out;
}

TEST(Grade, PatternsDifferWithoutColour) {
  std::set<std::string> patterns;
  for (const Grade grade :
       {Grade::FarBelow, Grade::Below, Grade::Just, Grade::Ample, Grade::Plenty, Grade::Still}) {
    patterns.insert(patternOf(grade));
  }
  EXPECT_EQ(patterns.size(), 6U);
  EXPECT_GT(patternOf(Grade::FarBelow).size(), 1.5 * static_cast<double>(patternOf(Grade::Below).size()));
}

TEST(Grade, StripesStayInTheDuct) {
  for (const Grade grade : {Grade::FarBelow, Grade::Below}) {
    for (const double length_mm : {0.3, 1.0, 2.7, 31.0}) {
      for (const Shape& shape : gradePattern({5, 5}, {5 + length_mm, 5}, 3, grade)) {
        for (const At p : std::get<Path>(shape.what).points) {
          EXPECT_GE(p.x, 5 - 1e-9);
          EXPECT_LE(p.x, 5 + length_mm + 1e-9);
          EXPECT_NEAR(p.y, 5, 1.5 + 1e-9);
        }
      }
    }
  }
}

TEST(Style, TextCanBeRead) {
  // WCAG 2.1, 1.4.3: 4.5 to 1 for text.
  EXPECT_GT(contrast(kInk, kWhite), 12);
  EXPECT_GT(contrast(kFaint, kWhite), 4.5);
  EXPECT_GT(contrast(kInk, kBody), 10);
  EXPECT_GT(contrast(kBlue, kWhite), 4.5);
}

}  // namespace
}  // namespace kerfdraft::drawing
