// The one measure of text: figures, signs, broken bytes, cutting and wrapping.
#include "drawing/text_measure.h"

#include <gtest/gtest.h>

namespace kerfdraft::drawing {
namespace {

TEST(TextMeasure, FiguresAreEquallyWide) {
  for (const char* figure : {"0", "2", "3", "4", "5", "6", "7", "8", "9"}) {
    EXPECT_DOUBLE_EQ(textWidth(figure, 10), textWidth("1", 10)) << figure;
    EXPECT_DOUBLE_EQ(textWidth(figure, 10, true), textWidth("1", 10, true)) << figure;
  }
}

TEST(TextMeasure, WidthGrowsWithTheSizeAndAddsUp) {
  EXPECT_DOUBLE_EQ(textWidth("cfm", 5), 2 * textWidth("cfm", 2.5));
  EXPECT_DOUBLE_EQ(textWidth("812 cfm", 3), textWidth("812", 3) + textWidth(" ", 3) + textWidth("cfm", 3));
  EXPECT_EQ(textWidth("", 3), 0);
}

TEST(TextMeasure, SignsOfTheTradeAreInTheFont) {
  // A missing one counts as a whole em; all of these are narrower.
  for (const char* sign : {"²", "³", "°", "Ø", "½", "µ", "ρ", "Δ", "≤", "≥", "−", "–", "′", "″", "×", "±"}) {
    EXPECT_LT(textWidth(sign, 1), 0.95) << sign;
  }
}

TEST(TextMeasure, BrokenBytesAreWideAndHarmless) {
  EXPECT_DOUBLE_EQ(textWidth("\xff", 2), 2);
  EXPECT_DOUBLE_EQ(textWidth("\xc3", 2), 2);              // cut in the middle
  EXPECT_DOUBLE_EQ(textWidth("\xe2\x80", 2), 4);          // two bytes of three
  EXPECT_DOUBLE_EQ(textWidth("\xed\xa0\x80", 2), 6);      // a surrogate
  EXPECT_DOUBLE_EQ(textWidth("\xc0\xaf", 2), 4);          // overlong
  EXPECT_DOUBLE_EQ(textWidth("\xf0\x9f\xaa\xb5", 2), 2);  // a log of wood: one character
}

TEST(TextMeasure, CutTextFitsAndEndsWithDots) {
  const std::string text = "Planer-thicknesser 410 mm with a long name";
  for (double width = 1; width < 60; width += 1.7) {
    const std::string cut = cutToWidth(text, width, 2.4);
    EXPECT_LE(textWidth(cut, 2.4), width) << cut;
    EXPECT_TRUE(cut.empty() || cut == text || cut.ends_with("…")) << cut;
  }
  EXPECT_EQ(cutToWidth(text, 1000, 2.4), text);
}

TEST(TextMeasure, WrappedLinesHoldEveryWordOnce) {
  const std::string text = "Prediction for planning: check every length on site before cutting";
  const std::vector<std::string> lines = wrapped(text, 25, 2.4);
  ASSERT_GT(lines.size(), 2U);
  std::string joined;
  for (const std::string& line : lines) {
    EXPECT_LE(textWidth(line, 2.4), 25) << line;
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
}

}  // namespace
}  // namespace kerfdraft::drawing
