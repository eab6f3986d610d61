// The isometric sketch: every length to cut is said, every tap has its distance, no label over another.
#include "drawing/isometric.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "drawing/isometric_view.h"
#include "drawing/style.h"
#include "drawing/svg.h"
#include "drawing/units_text.h"
#include "example_pictures.h"
#include "picture_texts.h"
#include "random_shop.h"

namespace kerfdraft::drawing {
namespace {

using base::UnitSystem;

TEST(Isometric, KeepsLengthsTrueAlongTheThreeAxes) {
  const View view{20, {100, 100}};
  const Spot origin{1, 2, 0.5};
  const At at = view.at(origin);
  EXPECT_NEAR(length(view.at({4, 2, 0.5}) - at), 60, 1e-9);
  EXPECT_NEAR(length(view.at({1, 5, 0.5}) - at), 60, 1e-9);
  EXPECT_NEAR(length(view.at({1, 2, 3.5}) - at), 60, 1e-9);
  EXPECT_LT(view.at({1, 2, 3.5}).y, at.y);
}

TEST(Isometric, ThreeSidesOfABodyAreSeenHoweverItsOutlineRuns) {
  const View view{20, {0, 0}};
  std::vector<shop::PlanPoint> outline{{0, 0}, {1000000, 0}, {1000000, 500000}, {0, 500000}};
  EXPECT_EQ(blockFaces(view, outline, 0, 1, kWhite, kWhite).size(), 3U);
  std::reverse(outline.begin(), outline.end());
  EXPECT_EQ(blockFaces(view, outline, 0, 1, kWhite, kWhite).size(), 3U);
}

TEST(Isometric, NoLabelLiesOverAnother) {
  for (const Example& example : examples()) {
    for (const UnitSystem units : {UnitSystem::Us, UnitSystem::Metric}) {
      IsometricOptions options;
      options.units = units;
      EXPECT_EQ(overlaps(drawIsometric(*example.assessment.project, example.overlay(0, units), options)),
                std::vector<std::string>{})
          << example.name;
    }
  }
  for (std::uint64_t seed = 1; seed <= 25; ++seed) {
    const shop::Project project = randomShop(seed, static_cast<int>(1 + seed % 13));
    IsometricOptions options;
    options.units = project.setting.units;
    if (seed % 3 == 0) {
      options.paper = Paper{"", 130, 150};
    }
    EXPECT_EQ(overlaps(drawIsometric(project, Overlay{}, options)), std::vector<std::string>{}) << seed;
  }
}

TEST(Isometric, SaysEveryLengthAndEveryTap) {
  for (const Example& example : examples()) {
    const shop::Project& project = *example.assessment.project;
    IsometricOptions options;
    options.units = project.setting.units;
    const Picture picture = drawIsometric(project, example.overlay(0, options.units), options);
    std::map<std::string, std::string> words;
    for (const LabelBox& label : labelsOf(picture)) {
      words[label.element] += label.words + "; ";
    }
    std::size_t said = 0;
    for (const shop::Duct& duct : project.ducts) {
      for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
        const double drawn_m = shop::distance(duct.corners[k].at, duct.corners[k + 1].at);
        bool has_hose = false;
        for (std::size_t j = 0; j <= k; ++j) {
          has_hose = duct.corners[j].leg ? duct.corners[j].leg->hose.has_value() : has_hose;
        }
        if (has_hose || drawn_m < 0.25) {
          continue;
        }
        const auto found = std::find_if(words.begin(), words.end(), [&](const auto& entry) {
          return entry.first.starts_with("straight:" + duct.corners[k].id.text()) &&
                 entry.second.find(lengthText(drawn_m, options.units)) != std::string::npos;
        });
        EXPECT_NE(found, words.end()) << example.name << " " << duct.label << " leg " << k;
        ++said;
      }
      for (const shop::Access& tap : duct.taps) {
        EXPECT_NE(words[tap.id.text()].find(lengthText(tap.distance.si(), options.units)), std::string::npos)
            << example.name << " " << tap.label;
      }
    }
    EXPECT_GT(said + (example.name == "moved-hose" ? 1 : 0), 0U) << example.name;
  }
}

TEST(Isometric, TurnsAboutAPlumbLine) {
  const View straight{20, {0, 0}};
  const View turned{20, {0, 0}, std::numbers::pi / 2};
  // What lay to the east lies to the north after a quarter turn.
  EXPECT_NEAR(turned.at({1, 0, 0}).x, straight.at({0, 1, 0}).x, 1e-9);
  EXPECT_NEAR(turned.at({1, 0, 0}).y, straight.at({0, 1, 0}).y, 1e-9);
  EXPECT_NEAR(turned.at({0, 0, 2}).y, straight.at({0, 0, 2}).y, 1e-9);
  for (int eighth = 0; eighth < 8; ++eighth) {
    const View view{20, {0, 0}, eighth * std::numbers::pi / 4 + 0.1};
    const std::vector<shop::PlanPoint> outline{{0, 0}, {1000000, 0}, {1000000, 500000}, {0, 500000}};
    EXPECT_EQ(blockFaces(view, outline, 0, 1, kWhite, kWhite).size(), 3U) << eighth;
  }
}

TEST(Isometric, AWindowShowsWhatLiesInItHoweverItIsTurned) {
  for (const Example& example : examples()) {
    for (int quarter = 0; quarter < 4; ++quarter) {
      IsometricOptions options;
      options.window = Window{200, 150, 15, {60, 100}};
      options.turned_rad = quarter * std::numbers::pi / 2;
      options.graded = true;
      const Picture picture =
          drawIsometric(*example.assessment.project, example.overlay(0, UnitSystem::Metric), options);
      EXPECT_EQ(picture.width_mm, 200);
      EXPECT_EQ(overlaps(picture), std::vector<std::string>{}) << example.name << " " << quarter;
    }
  }
}

}  // namespace
}  // namespace kerfdraft::drawing
