// Rooms, obstacles and openings: what is typed, and what a sketch becomes.
#include "desk/models/room_draft.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "shop/edit.h"
#include "shop/invariants.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using shop::PlanPoint;
using support::length;
using ::testing::HasSubstr;

constexpr std::int64_t kMetre = 1000000;

shop::Project made(const shop::Project& project, const Change& change) {
  auto after = shop::applyEdits(project, change.edits);
  EXPECT_TRUE(after) << after.error().text();
  return after ? *after : project;
}

TEST(RoomDraft, ReadsLengthsSizesAndHeights) {
  const auto size = parseOutlineTyped("20 ft x 24 ft");
  ASSERT_TRUE(size);
  EXPECT_EQ(size->what, OutlineTyped::What::Size);
  EXPECT_NEAR(size->a_m, 6.096, 1e-9);
  EXPECT_NEAR(size->b_m, 7.3152, 1e-9);
  const auto shared = parseOutlineTyped("6 x 8 m");
  ASSERT_TRUE(shared);
  EXPECT_NEAR(shared->a_m, 6, 1e-12);
  EXPECT_NEAR(shared->b_m, 8, 1e-12);
  const auto feet = parseOutlineTyped(" 10 ft 6 ");
  ASSERT_TRUE(feet);
  EXPECT_EQ(feet->what, OutlineTyped::What::Length);
  EXPECT_NEAR(feet->a_m, 3.2004, 1e-9);
  const auto height = parseOutlineTyped("height 9 ft");
  ASSERT_TRUE(height);
  EXPECT_EQ(height->what, OutlineTyped::What::Height);
  EXPECT_EQ(height->text, "9 ft");
  const auto bottom = parseOutlineTyped("bottom 0 m");
  ASSERT_TRUE(bottom);
  EXPECT_EQ(bottom->what, OutlineTyped::What::Bottom);
}

TEST(RoomDraft, RefusesWhatIsNoLengthWithASentence) {
  for (const char* text : {"", "long", "0 m", "-3 m", "3", "900 m", "height 0 m", "height", "3 m x", "x 3 m",
                           "bottom -1 m", "4 kg x 3 m"}) {
    const auto read = parseOutlineTyped(text);
    EXPECT_FALSE(read) << text;
    if (!read) {
      EXPECT_FALSE(read.error().message.empty()) << text;
    }
  }
}

TEST(RoomDraft, ARoomTakesInWhatStandsOnItsFloor) {
  support::ProjectBuilder builder;
  const shop::PortRef inside = builder.machine("", support::at(2, 2, 0.5), "100 mm");
  const shop::PortRef outside = builder.machine("", support::at(20, 2, 0.5), "100 mm");
  base::SeededIds ids(1);
  const auto change =
      newRoom(builder.project, rectangle({0, 0}, {6 * kMetre, 5 * kMetre}), length("2.4 m"), ids);
  ASSERT_TRUE(change);
  const shop::Project after = made(builder.project, *change);
  ASSERT_EQ(after.rooms.size(), 1U);
  EXPECT_EQ(after.rooms[0].label, "Shop");
  EXPECT_EQ(machineOf(after, inside.machine)->room, after.rooms[0].id);
  EXPECT_FALSE(machineOf(after, outside.machine)->room.valid());
}

TEST(RoomDraft, FindsTheRoomUnderAPlaceEdgesIncluded) {
  support::ProjectBuilder builder;
  const base::Id room = builder.room(6, 5, 2.4);
  for (const PlanPoint inside : {PlanPoint{3 * kMetre, 2 * kMetre}, {0, 0}, {6 * kMetre, 2 * kMetre}}) {
    ASSERT_NE(roomAt(builder.project, inside), nullptr);
    EXPECT_EQ(roomAt(builder.project, inside)->id, room);
  }
  EXPECT_EQ(roomAt(builder.project, {7 * kMetre, 2 * kMetre}), nullptr);
  EXPECT_EQ(roomAt(builder.project, {3 * kMetre, -kMetre}), nullptr);
}

TEST(RoomDraft, ADoorLiesWholeOnItsWall) {
  support::ProjectBuilder builder;
  builder.room(6, 5, 2.4);
  const OpeningHabits habits = usualOpening(base::UnitSystem::Metric);
  base::SeededIds ids(1);
  // Clicked beside a corner: it is pushed along until it fits.
  const auto change = newOpening(builder.project, {100000, 20000}, habits, 0.2, ids);
  ASSERT_TRUE(change) << change.error().text();
  const shop::Project after = made(builder.project, *change);
  ASSERT_EQ(after.rooms[0].openings.size(), 1U);
  const shop::Opening& door = after.rooms[0].openings[0];
  EXPECT_EQ(door.label, "DR1");
  EXPECT_EQ(std::min(door.from.x_um, door.to.x_um), 0);
  EXPECT_EQ(std::max(door.from.x_um, door.to.x_um), 900000);
  EXPECT_EQ(door.from.y_um, 0);
}

TEST(RoomDraft, OpeningsThatNeedAFigureAskForIt) {
  support::ProjectBuilder builder;
  builder.room(6, 5, 2.4);
  base::SeededIds ids(1);
  OpeningHabits habits = *openingTyped(usualOpening(base::UnitSystem::Metric), "grille");
  const auto without = newOpening(builder.project, {3 * kMetre, 0}, habits, 0.2, ids);
  ASSERT_FALSE(without);
  EXPECT_THAT(without.error().message, HasSubstr("free area"));
  habits = *openingTyped(habits, "area 0.05 m2");
  EXPECT_TRUE(newOpening(builder.project, {3 * kMetre, 0}, habits, 0.2, ids));
  habits = *openingTyped(habits, "exhaust");
  EXPECT_FALSE(newOpening(builder.project, {3 * kMetre, 0}, habits, 0.2, ids));
  habits = *openingTyped(habits, "flow 200 cfm");
  const auto fan = newOpening(builder.project, {3 * kMetre, 0}, habits, 0.2, ids);
  ASSERT_TRUE(fan);
  made(builder.project, *fan);
  const auto far = newOpening(builder.project, {3 * kMetre, 2 * kMetre}, habits, 0.2, ids);
  ASSERT_FALSE(far);
  EXPECT_THAT(far.error().message, HasSubstr("click on one"));
}

TEST(RoomDraft, ADoorBetweenTwoRoomsLeadsFromOneToTheOther) {
  support::ProjectBuilder builder;
  builder.room(6, 5, 2.4);
  base::SeededIds ids(9);
  const shop::Project two = made(
      builder.project,
      *newRoom(builder.project, rectangle({6 * kMetre, 0}, {9 * kMetre, 5 * kMetre}), length("2.4 m"), ids));
  const auto door =
      newOpening(two, {6 * kMetre, 2 * kMetre}, usualOpening(base::UnitSystem::Metric), 0.2, ids);
  ASSERT_TRUE(door);
  const shop::Project after = made(two, *door);
  const auto& openings = after.rooms[0].openings.empty() ? after.rooms[1].openings : after.rooms[0].openings;
  const base::Id other = after.rooms[0].openings.empty() ? after.rooms[0].id : after.rooms[1].id;
  ASSERT_EQ(openings.size(), 1U);
  EXPECT_EQ(openings[0].leads_to, other);
}

TEST(RoomDraft, AnObstacleStandsInARoomWithItsTopAboveItsBottom) {
  support::ProjectBuilder builder;
  builder.room(6, 5, 2.4);
  base::SeededIds ids(1);
  const auto outline = rectangle({kMetre, kMetre}, {2 * kMetre, 2 * kMetre});
  const auto post = newObstacle(builder.project, outline, length("0 m"), length("1.8 m"), ids);
  ASSERT_TRUE(post);
  EXPECT_EQ(made(builder.project, *post).rooms[0].obstacles.size(), 1U);
  EXPECT_FALSE(newObstacle(builder.project, outline, length("2 m"), length("1.8 m"), ids));
  EXPECT_FALSE(newObstacle(builder.project, rectangle({-3 * kMetre, 0}, {-2 * kMetre, kMetre}), length("0 m"),
                           length("1 m"), ids));
}

// Whatever a hand sketches becomes a sound project or a sentence.
TEST(RoomDraft, AnySketchIsARoomOrASentence) {
  std::mt19937 random(7);
  std::uniform_int_distribution<std::int64_t> place(0, 6);
  std::uniform_int_distribution<int> count(0, 7);
  int rooms = 0;
  int refused = 0;
  for (int n = 0; n < 2000; ++n) {
    std::vector<PlanPoint> outline(static_cast<std::size_t>(count(random)));
    for (PlanPoint& p : outline) {
      p = {place(random) * kMetre, place(random) * kMetre};
    }
    support::ProjectBuilder builder;
    base::SeededIds ids(static_cast<std::uint64_t>(n) + 1);
    const auto change = newRoom(builder.project, outline, length("2.4 m"), ids);
    if (!change) {
      EXPECT_FALSE(change.error().message.empty());
      ++refused;
      continue;
    }
    const auto after = shop::applyEdits(builder.project, change->edits);
    if (after) {
      EXPECT_TRUE(shop::checkProject(*after).empty());
      ++rooms;
    } else {
      EXPECT_FALSE(after.error().message.empty());
      ++refused;
    }
  }
  EXPECT_GT(rooms, 100);
  EXPECT_GT(refused, 100);
}

}  // namespace
}  // namespace kerfdraft::desk
