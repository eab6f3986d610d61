// Where the underlay lies after the hand has scaled, moved and turned it.
#include "desk/models/underlay.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using shop::PlanPoint;
using shop::Underlay;
using ::testing::HasSubstr;

constexpr double kAlmost_m = 2e-5;  // roundings to micrometres and of the unit's seven digits, within 100 m

PlanPoint at(double x_m, double y_m) {
  return {std::llround(x_m * 1e6), std::llround(y_m * 1e6)};
}
double apart(const PlanPoint& a, const PlanPoint& b) {
  return std::hypot(static_cast<double>(a.x_um - b.x_um), static_cast<double>(a.y_um - b.y_um)) * 1e-6;
}
double angle(const PlanPoint& a, const PlanPoint& b) {
  return std::atan2(static_cast<double>(b.y_um - a.y_um), static_cast<double>(b.x_um - a.x_um));
}

shop::Project withRoom() {
  support::ProjectBuilder builder;
  builder.room(8, 6, 3);
  return builder.project;
}

Underlay laid(const SheetSize& size) {
  const auto out = laidUnder(withRoom(), "plan.dxf", size);
  EXPECT_TRUE(out) << out.error().text();
  return out.value_or(Underlay{});
}

TEST(UnderlayModel, ADrawingThatNamesItsUnitIsToScaleAtTheRoomsCorner) {
  const Underlay underlay = laid({{512000, 48000}, {519300, 54100}, 0.001});
  ASSERT_TRUE(underlay.unit);
  EXPECT_DOUBLE_EQ(underlay.unit->si(), 0.001);
  EXPECT_EQ(underlay.unit->standing(), base::Standing::Published);
  EXPECT_LT(apart(toShop(underlay, {512000, 48000}), at(0, 0)), kAlmost_m);
  EXPECT_LT(apart(toShop(underlay, {519300, 54100}), at(7.3, 6.1)), kAlmost_m);
}

TEST(UnderlayModel, APictureIsAsLongAsTheShopUntilItIsScaled) {
  const SheetSize size{{0, 0}, {2000, 1000}, {}};
  const Underlay underlay = laid(size);
  EXPECT_LT(apart(toShop(underlay, {2000, 0}), at(8, 0)), kAlmost_m);
  EXPECT_THAT(scaleWords(underlay, size, base::UnitSystem::Metric), HasSubstr("not known yet"));
}

TEST(UnderlayModel, AUnitThatWouldReachBeyondTheShopIsNotTaken) {
  // A drawing that says metres, but counts millimetres.
  const Underlay underlay = laid({{0, 0}, {7300, 6100}, 1.0});
  EXPECT_EQ(underlay.unit->standing(), base::Standing::Assumed);
}

TEST(UnderlayModel, ASheetWithoutExtentIsRefused) {
  const auto none = laidUnder(withRoom(), "dot.dxf", {{3, 3}, {3, 3}, {}});
  ASSERT_FALSE(none);
  EXPECT_THAT(none.error().text(), HasSubstr("dot.dxf"));
}

TEST(UnderlayModel, TwoKnownPlacesGiveTheScale) {
  const SheetSize size{{0, 0}, {2000, 1000}, {}};
  const Underlay before = laid(size);
  const SheetPoint a{400, 300};
  const SheetPoint b{1400, 300};
  const auto after = scaledBy(before, toShop(before, a), toShop(before, b), "12 ft 6");
  ASSERT_TRUE(after) << after.error().text();
  EXPECT_NEAR(apart(toShop(*after, a), toShop(*after, b)), 12.5 * 0.3048, kAlmost_m);
  EXPECT_LT(apart(toShop(*after, a), toShop(before, a)), kAlmost_m) << "the first place stays";
  EXPECT_EQ(after->unit->standing(), base::Standing::Measured);
  EXPECT_THAT(scaleWords(*after, size, base::UnitSystem::Us), HasSubstr("two known points, 12 ft 6 apart"));
}

TEST(UnderlayModel, WhatGivesNoScaleIsRefusedWithASentence) {
  const Underlay underlay = laid({{0, 0}, {2000, 1000}, {}});
  EXPECT_THAT(scaledBy(underlay, at(1, 1), at(1, 1), "3 m").error().text(), HasSubstr("one point"));
  EXPECT_THAT(scaledBy(underlay, at(1, 1), at(2, 1), "0 m").error().text(), HasSubstr("0 m"));
  EXPECT_THAT(scaledBy(underlay, at(1, 1), at(2, 1), "2 km").error().text(), HasSubstr("1000 m"));
  EXPECT_THAT(scaledBy(underlay, at(1, 1), at(2, 1), "far").error().text(), HasSubstr("far"));
  // The corner would be flung out of the shop.
  EXPECT_FALSE(scaledBy(underlay, at(900, 900), at(900.002, 900), "900 m"));
  EXPECT_FALSE(movedBy(underlay, at(0, 0), at(1001, 0)));
  EXPECT_FALSE(squared(underlay, at(1, 1), at(1, 1)));
}

TEST(UnderlayModel, WhatIsTypedIsRead) {
  EXPECT_EQ(parseUnderlayTyped("10 ft 6")->what, UnderlayTyped::What::Length);
  EXPECT_EQ(parseUnderlayTyped(" square ")->what, UnderlayTyped::What::Square);
  EXPECT_EQ(parseUnderlayTyped("hide")->what, UnderlayTyped::What::Hide);
  EXPECT_EQ(parseUnderlayTyped("show")->what, UnderlayTyped::What::Show);
  EXPECT_NEAR(parseUnderlayTyped("turn 90")->turn_rad, std::numbers::pi / 2, 1e-12);
  EXPECT_NEAR(parseUnderlayTyped("turn -3.5 deg")->turn_rad, -3.5 * std::numbers::pi / 180, 1e-12);
  for (const char* bad : {"", "turn", "turn left", "turn 1e9", "squared", "3 kg", "nan m"}) {
    EXPECT_FALSE(parseUnderlayTyped(bad)) << bad;
  }
}

TEST(UnderlayModel, LayersAreShownOrNot) {
  files::DxfDrawing drawing;
  drawing.layers = {{"Notes", 3, false}, {"Walls", 12, false}};
  Underlay underlay = withLayer(Underlay{}, "Notes", false);
  EXPECT_FALSE(layersOf(drawing, underlay)[0].shown);
  EXPECT_TRUE(layersOf(drawing, underlay)[1].shown);
  underlay = withLayer(withLayer(underlay, "Notes", false), "Notes", true);
  EXPECT_TRUE(underlay.layers_off.empty());
  drawing.skipped = {{"TEXT", 2}};
  EXPECT_EQ(skippedWords(drawing), "Not shown: 2 text.");
  EXPECT_EQ(skippedWords(files::DxfDrawing{}), "");
}

RC_GTEST_PROP(UnderlayModel, FormsStayAlikeWhateverTheHandDoes, ()) {
  const auto within = [](double reach) {
    return static_cast<double>(*rc::gen::inRange(-1000, 1001)) / 1000 * reach;
  };
  Underlay underlay = *laidUnder(withRoom(), "a.png", {{0, 0}, {3000, 2000}, {}});
  const SheetPoint a{500, 500};
  const SheetPoint b{2500, 700};
  const SheetPoint c{1200, 1900};
  for (int steps = *rc::gen::inRange(1, 6); steps > 0; --steps) {
    const PlanPoint first = toShop(underlay, a);
    const PlanPoint second = toShop(underlay, b);
    base::Result<Underlay> next = underlay;
    switch (*rc::gen::inRange(0, 4)) {
      case 0:
        next = movedBy(underlay, first, at(within(50), within(50)));
        break;
      case 1:
        next = turnedBy(underlay, first, within(7));
        break;
      case 2:
        next = squared(underlay, first, second);
        if (next) {
          const double line = angle(toShop(*next, a), toShop(*next, b));
          RC_ASSERT(std::abs(std::remainder(line, std::numbers::pi / 2)) < 1e-4);
          RC_ASSERT(std::abs(std::remainder(line - angle(first, second), 2 * std::numbers::pi)) <
                    std::numbers::pi / 4 + 1e-4);
        }
        break;
      default:
        next = scaledBy(underlay, first, second, std::to_string(*rc::gen::inRange(1, 40)) + " m");
        break;
    }
    RC_ASSERT(next.has_value());
    underlay = *next;
    // A triangle keeps its form, and every place leads back to the sheet.
    const double unit_m = unitOf(underlay);
    RC_ASSERT(std::abs(apart(toShop(underlay, a), toShop(underlay, c)) - std::hypot(700, 1400) * unit_m) <
              1e-4);
    RC_ASSERT(std::abs(apart(toShop(underlay, b), toShop(underlay, c)) - std::hypot(1300, 1200) * unit_m) <
              1e-4);
    const SheetPoint back = toSheet(underlay, toShop(underlay, c));
    RC_ASSERT(std::hypot(back.x - c.x, back.y - c.y) * unit_m < 1e-5);
  }
}

}  // namespace
}  // namespace kerfdraft::desk
