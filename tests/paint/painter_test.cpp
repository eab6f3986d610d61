// What is painted: widths as promised, colours as given, files that other programs can read.
#include "paint/painter.h"

#include <gtest/gtest.h>

#include <QFile>
#include <QFontInfo>
#include <QFontMetricsF>
#include <cmath>
#include <filesystem>

#include "drawing/shapes.h"
#include "drawing/text_measure.h"

namespace kerfdraft::paint {
namespace {

using drawing::At;
using drawing::Picture;

Picture sample() {
  Picture picture{100, 60, "Sample", "A square and a word.", {}};
  drawing::Group group{"machine", "00000000000000ab", "T1", {}};
  group.shapes.push_back(drawing::rectangle({10, 10, 30, 30}, drawing::Colour{0xa3, 0x3a, 0x2c}));
  picture.shapes.push_back({std::move(group)});
  drawing::Group duct{"duct", "straight:1:2", "D1", {}};
  duct.shapes.push_back(drawing::line({20, 20}, {80, 20}, drawing::stroke(2)));
  picture.shapes.push_back({std::move(duct)});
  picture.shapes.push_back(drawing::text({50, 50}, "Width"));
  return picture;
}

TEST(Painter, TextTakesTheWidthThatWasMeasured) {
  QFont font(QStringLiteral("Kerfdraft Sans"));
  ASSERT_EQ(QFontInfo(font).family(), QStringLiteral("Kerfdraft Sans"));
  font.setHintingPreference(QFont::PreferNoHinting);
  for (const bool bold : {false, true}) {
    font.setBold(bold);
    font.setPixelSize(1000);
    for (const char* words : {"812 cfm, 4070 fpm", "m³/h", "Thickness planer", "AVAToWa."}) {
      const double here = QFontMetricsF(font).horizontalAdvance(QString::fromUtf8(words)) / 1000;
      EXPECT_NEAR(here, drawing::textWidth(words, 1, bold), 0.02 * here) << words;
    }
  }
}

TEST(Painter, FillsWithTheGivenColour) {
  const QImage image = toImage(sample(), 4);
  EXPECT_EQ(image.width(), 400);
  EXPECT_EQ(image.height(), 240);
  EXPECT_EQ(image.pixelColor(48, 120 - 20), QColor(0xa3, 0x3a, 0x2c));
  EXPECT_EQ(image.pixelColor(2, 2), QColor(0xff, 0xff, 0xff));
}

TEST(Painter, DarkTonesKeepTheScaleAndTurnTheGround) {
  const QImage image = toImage(sample(), 4, Tones::Dark);
  EXPECT_EQ(image.pixelColor(48, 120 - 20), QColor(0xa3, 0x3a, 0x2c));
  EXPECT_LT(image.pixelColor(2, 2).lightness(), 60);
}

TEST(Painter, FindsWhatLiesUnderAPointer) {
  const auto both = elementsAt(sample(), At{25, 20.5}, 0.5);
  ASSERT_EQ(both.size(), 2U);
  EXPECT_EQ(both[0].element, "straight:1:2");  // on top
  EXPECT_EQ(both[1].title, "T1");
  EXPECT_TRUE(elementsAt(sample(), At{90, 55}, 1).empty());
  EXPECT_EQ(elementsAt(sample(), At{70, 22}, 1.5).size(), 1U);
}

TEST(Painter, WritesFilesAndSaysWhereItCannot) {
  const auto folder = std::filesystem::temp_directory_path() / "kerfdraft-paint-test";
  std::filesystem::create_directories(folder);
  ASSERT_TRUE(writePng(sample(), folder / "a.png", 100).has_value());
  EXPECT_EQ(QImage(QString::fromStdString((folder / "a.png").string())).width(),
            static_cast<int>(std::ceil(100 / 25.4 * 100)));
  ASSERT_TRUE(writePdf({sample(), sample()}, folder / "a.pdf").has_value());
  QFile pdf(QString::fromStdString((folder / "a.pdf").string()));
  ASSERT_TRUE(pdf.open(QIODevice::ReadOnly));
  EXPECT_TRUE(pdf.readAll().startsWith("%PDF-"));
  const auto refused = writePng(sample(), folder / "no" / "such" / "folder.png");
  ASSERT_FALSE(refused.has_value());
  EXPECT_NE(refused.error().where.find("folder.png"), std::string::npos);
  EXPECT_FALSE(writePdf({sample()}, folder / "no" / "such" / "folder.pdf").has_value());
  std::filesystem::remove_all(folder);
}

double luminance(const QColor& colour) {
  const auto part = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
  return 0.2126 * part(colour.redF()) + 0.7152 * part(colour.greenF()) + 0.0722 * part(colour.blueF());
}

// WCAG 2.1, contrast ratio (from memory): 4.5 to 1 for text.
TEST(Tones, TextCanBeReadOnBothGrounds) {
  for (const Tones tones : {Tones::Light, Tones::Dark}) {
    const double ground = luminance(shown(drawing::kWhite, tones));
    for (const drawing::Colour text : {drawing::kInk, drawing::kFaint}) {
      const double ink = luminance(shown(text, tones));
      const double contrast = (std::max(ink, ground) + 0.05) / (std::min(ink, ground) + 0.05);
      EXPECT_GT(contrast, 4.5);
    }
  }
}

}  // namespace
}  // namespace kerfdraft::paint
