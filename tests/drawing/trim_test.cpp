// Empty paper is cut off; nothing drawn is.
#include "drawing/trim.h"

#include <gtest/gtest.h>

#include "drawing/geometry.h"
#include "drawing/shapes.h"

namespace kerfdraft::drawing {
namespace {

Picture sheet() {
  Picture picture;
  picture.width_mm = 100;
  picture.height_mm = 80;
  picture.shapes.push_back(rectangle({0, 0, 100, 80}, kWhite));
  return picture;
}

TEST(Trim, TakesTheEmptyPaperAboveAndBelow) {
  Picture picture = sheet();
  picture.shapes.push_back(circle({50, 30}, 5, kWhite));
  Group group{"machine", "1", {}, {line({10, 20}, {20, 40}, stroke(0.2)), text({30, 45}, "T1")}};
  group.shapes.push_back({Arc{{60, 25}, 2, 0, 1, stroke(0.2)}});
  picture.shapes.push_back({group});
  const double below = boundsOf(group.shapes[1]).bottom;
  trimHeight(picture, 3);
  // The line's top, half its width above 20, stands 3 mm below the edge.
  const double up = 20 - 0.1 - 3;
  EXPECT_NEAR(picture.height_mm, below + 3 - up, 1e-9);
  EXPECT_EQ(picture.width_mm, 100);
  EXPECT_NEAR(std::get<Circle>(picture.shapes[1].what).centre.y, 30 - up, 1e-9);
  const auto& lifted = std::get<Group>(picture.shapes[2].what);
  EXPECT_NEAR(std::get<Path>(lifted.shapes[0].what).points[0].y, 3.1, 1e-9);
  EXPECT_NEAR(std::get<Text>(lifted.shapes[1].what).at.y, 45 - up, 1e-9);
  EXPECT_NEAR(std::get<Arc>(lifted.shapes[2].what).centre.y, 25 - up, 1e-9);
  const Box paper = boundsOf(picture.shapes[0]);
  EXPECT_EQ(paper.top, 0);
  EXPECT_EQ(paper.bottom, picture.height_mm);
}

TEST(Trim, LeavesAFullOrEmptySheetAsItIs) {
  Picture empty = sheet();
  trimHeight(empty, 3);
  EXPECT_EQ(empty.height_mm, 80);
  Picture full = sheet();
  full.shapes.push_back(line({0, 0}, {100, 80}, stroke(0.2)));
  trimHeight(full, 3);
  EXPECT_EQ(full.height_mm, 80);
  EXPECT_EQ(std::get<Path>(full.shapes[1].what).points[1].y, 80);
}

}  // namespace
}  // namespace kerfdraft::drawing
