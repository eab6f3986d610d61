// A floor plan written by an independent library (python3-ezdxf 0.18.1,
// tests/published/vectors/make_plan_dxf.py), and what that library reads out of it, against ours: lengths and
// corners of each layer.
#include "files/dxf.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <limits>
#include <map>
#include <sstream>

#include "base/csv.h"

namespace kerfdraft::files {
namespace {

struct Layer {
  double length = 0;
  double left = std::numeric_limits<double>::infinity();
  double bottom = left;
  double right = -left;
  double top = -left;
};

std::string vectors(const char* name) {
  return std::string(KERFDRAFT_SOURCE_DIR) + "/tests/published/vectors/" + name;
}

TEST(DxfOfAnotherLibrary, EveryLayerHasItsLengthAndCorners) {
  const auto drawing = loadDxf(vectors("plan.dxf"));
  ASSERT_TRUE(drawing) << drawing.error().text();
  EXPECT_EQ(drawing->unit_name, "mm");
  ASSERT_TRUE(drawing->unit_m);
  EXPECT_EQ(*drawing->unit_m, 0.001);
  std::map<std::string, Layer> ours;
  for (const DxfStroke& stroke : drawing->strokes) {
    Layer& layer = ours[drawing->layers.at(stroke.layer).name];
    for (std::size_t k = 0; k < stroke.points.size(); ++k) {
      const DxfPoint& p = stroke.points[k];
      layer.left = std::min(layer.left, p.x);
      layer.right = std::max(layer.right, p.x);
      layer.bottom = std::min(layer.bottom, p.y);
      layer.top = std::max(layer.top, p.y);
      if (k + 1 < stroke.points.size() || stroke.closed) {
        const DxfPoint& next = stroke.points[(k + 1) % stroke.points.size()];
        layer.length += std::hypot(next.x - p.x, next.y - p.y);
      }
    }
  }
  std::ifstream file(vectors("plan_dxf.csv"));
  std::stringstream text;
  text << file.rdbuf();
  const auto rows = base::parseCsv(text.str(), "plan_dxf.csv");
  ASSERT_TRUE(rows) << rows.error().text();
  std::size_t checked = 0;
  for (const base::CsvRow& row : *rows) {
    const auto at = [&](std::size_t k) { return row.cells.at(k); };
    if (at(0) == "layer") {
      continue;
    }
    ASSERT_TRUE(ours.contains(at(0))) << at(0);
    const Layer& layer = ours[at(0)];
    // Our chords lie within a thousandth of a radius of the curve; the greatest here is 854 mm.
    constexpr double kChord = 0.9;
    EXPECT_NEAR(layer.length, std::stod(at(1)), std::stod(at(1)) * 1e-3) << at(0);
    EXPECT_NEAR(layer.left, std::stod(at(2)), kChord) << at(0);
    EXPECT_NEAR(layer.bottom, std::stod(at(3)), kChord) << at(0);
    EXPECT_NEAR(layer.right, std::stod(at(4)), kChord) << at(0);
    EXPECT_NEAR(layer.top, std::stod(at(5)), kChord) << at(0);
    ++checked;
  }
  EXPECT_EQ(checked, 4U);
  const auto off = std::find_if(drawing->layers.begin(), drawing->layers.end(),
                                [](const DxfLayer& layer) { return layer.name == "Old machines"; });
  ASSERT_NE(off, drawing->layers.end());
  EXPECT_TRUE(off->off);
  EXPECT_EQ(drawing->skipped.size(), 1U) << "the one text";
}

}  // namespace
}  // namespace kerfdraft::files
