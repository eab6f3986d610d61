// Labels never lie over one another, whatever is asked of the paper.
#include "drawing/label_placer.h"

#include <gtest/gtest.h>

#include <random>

namespace kerfdraft::drawing {
namespace {

const Box kPaper{0, 0, 180, 120};

struct Scene {
  std::vector<Label> labels;
  std::vector<Box> taken;
  Obstructions obstructions{kPaper};
};

Scene randomScene(std::uint64_t seed, std::size_t count) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> x(kPaper.left, kPaper.right);
  std::uniform_real_distribution<double> y(kPaper.top, kPaper.bottom);
  std::uniform_int_distribution<int> few(1, 3);
  std::uniform_int_distribution<int> letters(1, 24);
  Scene scene;
  for (int k = 0; k < 25; ++k) {
    scene.obstructions.addLine({x(random), y(random)}, {x(random), y(random)}, 3, 2);
    scene.obstructions.addBox(Box{x(random), y(random), 0, 0}.grown(0), 1);
  }
  scene.taken.push_back({0, 100, 60, 120});
  for (std::size_t k = 0; k < count; ++k) {
    Label label;
    label.kind = "test-label";
    for (int line = few(random); line > 0; --line) {
      label.lines.push_back({std::string(static_cast<std::size_t>(letters(random)), 'm'), line == 1, false});
    }
    for (int a = few(random); a > 0; --a) {
      // Some anchors lie together: everything wants the same place.
      label.anchors.push_back(k % 3 == 0 ? At{90, 60} : At{x(random), y(random)});
    }
    label.rank = static_cast<int>(k % 4);
    label.may_be_left_out = k % 5 == 0;
    if (k % 7 == 0) {
      label.bar = Grade::Below;
      label.inside = Box{x(random), y(random), 170, 110};
    }
    scene.labels.push_back(std::move(label));
  }
  return scene;
}

TEST(LabelPlacer, NoTwoBoxesOverlapAndNoneLeavesThePaper) {
  std::size_t placed = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const Scene scene = randomScene(seed, 8 + seed);
    const LabelPlaces places = placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions);
    EXPECT_EQ(places.placed.size() + places.left_out.size(), scene.labels.size());
    placed += places.placed.size();
    for (std::size_t a = 0; a < places.placed.size(); ++a) {
      const Box& box = places.placed[a].box;
      EXPECT_TRUE(kPaper.contains(box)) << seed;
      EXPECT_FALSE(overlap(box, scene.taken.front())) << seed;
      const At size = sizeOf(scene.labels[places.placed[a].label]);
      EXPECT_NEAR(box.width(), size.x, 1e-9);
      EXPECT_NEAR(box.height(), size.y, 1e-9);
      for (std::size_t b = a + 1; b < places.placed.size(); ++b) {
        EXPECT_FALSE(overlap(box, places.placed[b].box)) << seed << ": " << a << ", " << b;
      }
    }
  }
  EXPECT_GT(placed, 1500U);
}

TEST(LabelPlacer, TheSameSceneGivesTheSamePlaces) {
  const Scene scene = randomScene(42, 50);
  const LabelPlaces first = placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions);
  const LabelPlaces again = placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions);
  ASSERT_EQ(first.placed.size(), again.placed.size());
  for (std::size_t k = 0; k < first.placed.size(); ++k) {
    EXPECT_EQ(first.placed[k].box, again.placed[k].box);
  }
}

TEST(LabelPlacer, AlabelThatMustBeThereIsLeftOutOnlyWhereNoPlaceIsFree) {
  Scene scene;
  // Paper that is taken but for one hole at the far end.
  scene.taken = {{0, 0, 140, 120}};
  Label label;
  label.lines = {{"planer", true, false}};
  label.anchors = {{20, 60}};
  label.reach_mm = 10;
  scene.labels = {label};
  const LabelPlaces far = placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions);
  ASSERT_EQ(far.placed.size(), 1U);
  EXPECT_TRUE(far.placed.front().leader_from.has_value());
  scene.labels.front().may_be_left_out = true;
  EXPECT_EQ(placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions).left_out.size(), 1U);
  scene.labels.front().may_be_left_out = false;
  scene.taken = {kPaper};
  EXPECT_EQ(placeLabels(scene.labels, kPaper, scene.taken, scene.obstructions).left_out.size(), 1U);
}

TEST(LabelPlacer, ALabelAvoidsADuctWhereThereIsRoom) {
  Scene scene;
  scene.obstructions.addLine({0, 60}, {180, 60}, 6, 2);
  Label label;
  label.lines = {{"812 cfm", true, false}};
  label.anchors = {{90, 60}};
  label.clear_mm = 3.7;
  scene.labels = {label};
  const LabelPlaces places = placeLabels(scene.labels, kPaper, {}, scene.obstructions);
  ASSERT_EQ(places.placed.size(), 1U);
  EXPECT_EQ(scene.obstructions.cost(places.placed.front().box), 0);
  EXPECT_FALSE(places.placed.front().leader_from.has_value());
}

TEST(LabelPlacer, AMachineNameGoesInsideWhereItFits) {
  Scene scene;
  Label label;
  label.lines = {{"T1 Panel saw", true, false}};
  label.anchors = {{90, 60}};
  label.inside = Box{70, 50, 110, 70};
  scene.labels = {label};
  const LabelPlaces places = placeLabels(scene.labels, kPaper, {}, scene.obstructions);
  ASSERT_EQ(places.placed.size(), 1U);
  EXPECT_TRUE(label.inside->contains(places.placed.front().box));
  Label narrow = label;
  narrow.inside = Box{84, 50, 98, 70};
  fitInside(narrow);
  EXPECT_GT(narrow.lines.size(), 1U);
  EXPECT_LE(sizeOf(narrow).x, 14);
  Label tiny = label;
  tiny.inside = Box{88, 58, 92, 60};
  fitInside(tiny);
  EXPECT_EQ(tiny.lines.size(), 1U);
}

}  // namespace
}  // namespace kerfdraft::drawing
