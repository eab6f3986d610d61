// DXF drawings written by hand: what is read of each entity, units, layers and blocks, and what is said where
// the file is broken.
#include "files/dxf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

#include "files/save.h"

namespace kerfdraft::files {
namespace {

using testing::HasSubstr;

/// Pairs of lines from words: "0 LINE" is two lines.
std::string dxf(const std::vector<std::pair<int, std::string>>& pairs) {
  std::string out;
  for (const auto& [code, value] : pairs) {
    out += "  " + std::to_string(code) + "\r\n" + value + "\r\n";
  }
  return out;
}

using Pairs = std::vector<std::pair<int, std::string>>;

std::string section(const std::string& name, const std::string& inside) {
  return dxf({{0, "SECTION"}, {2, name}}) + inside + dxf({{0, "ENDSEC"}});
}
std::string entities(const Pairs& pairs) {
  return section("ENTITIES", dxf(pairs)) + dxf({{0, "EOF"}});
}

DxfDrawing read(const std::string& text) {
  const auto out = readDxf(text, "plan.dxf");
  EXPECT_TRUE(out) << out.error().text();
  return out.value_or(DxfDrawing{});
}
std::string refusal(const std::string& text) {
  const auto out = readDxf(text, "plan.dxf");
  return out ? "" : out.error().text();
}

const Pairs kLine{{0, "LINE"}, {8, "Walls"}, {10, "1.5"}, {20, "2"}, {11, "4"}, {21, "-6e0"}};

TEST(Dxf, ReadsALineWithItsLayer) {
  const DxfDrawing drawing = read(entities(kLine));
  ASSERT_EQ(drawing.strokes.size(), 1U);
  EXPECT_EQ(drawing.strokes[0].points, (std::vector<DxfPoint>{{1.5, 2}, {4, -6}}));
  EXPECT_FALSE(drawing.strokes[0].closed);
  ASSERT_EQ(drawing.layers.size(), 1U);
  EXPECT_EQ(drawing.layers[0].name, "Walls");
  EXPECT_EQ(drawing.layers[0].strokes, 1U);
  EXPECT_EQ(drawing.low, (DxfPoint{1.5, -6}));
  EXPECT_EQ(drawing.high, (DxfPoint{4, 2}));
  EXPECT_FALSE(drawing.unit_m);
}

TEST(Dxf, ReadsALightPolylineWithABulgeAsAnArc) {
  // A half circle to the left of the chord from (0, 0) to (2, 0): it goes below.
  const DxfDrawing drawing = read(entities({{0, "LWPOLYLINE"},
                                            {100, "AcDbEntity"},
                                            {8, "A"},
                                            {90, "3"},
                                            {70, "1"},
                                            {10, "0"},
                                            {20, "0"},
                                            {42, "1"},
                                            {10, "2"},
                                            {20, "0"},
                                            {10, "2"},
                                            {20, "5"}}));
  ASSERT_EQ(drawing.strokes.size(), 1U);
  const DxfStroke& stroke = drawing.strokes[0];
  EXPECT_TRUE(stroke.closed);
  EXPECT_EQ(stroke.points.front(), (DxfPoint{0, 0}));
  EXPECT_EQ(stroke.points.back(), (DxfPoint{2, 5}));
  EXPECT_GT(stroke.points.size(), 40U);
  for (std::size_t k = 0; k + 1 < stroke.points.size(); ++k) {
    EXPECT_NEAR(std::hypot(stroke.points[k].x - 1, stroke.points[k].y), 1, 1e-9);
  }
  EXPECT_NEAR(drawing.low.y, -1, 1e-3);
}

TEST(Dxf, ReadsAnOldPolylineWithItsCorners) {
  const DxfDrawing drawing = read(entities(
      {{0, "POLYLINE"}, {8, "A"},      {66, "1"}, {0, "VERTEX"}, {8, "B"},      {10, "0"},
       {20, "0"},       {0, "VERTEX"}, {8, "B"},  {10, "3"},     {20, "0"},     {42, "-0.41421356237309503"},
       {0, "VERTEX"},   {8, "B"},      {10, "4"}, {20, "1"},     {0, "SEQEND"}, {0, "LINE"},
       {8, "B"},        {10, "0"},     {20, "0"}, {11, "1"},     {21, "1"}}));
  ASSERT_EQ(drawing.strokes.size(), 2U);
  EXPECT_EQ(drawing.layers[drawing.strokes[0].layer].name, "A");
  const std::vector<DxfPoint>& points = drawing.strokes[0].points;
  EXPECT_EQ(points[1], (DxfPoint{3, 0}));
  EXPECT_EQ(points.back(), (DxfPoint{4, 1}));
  // A quarter turn to the right of the chord: centre (4, 0).
  for (std::size_t k = 1; k < points.size(); ++k) {
    EXPECT_NEAR(std::hypot(points[k].x - 4, points[k].y), 1, 1e-9);
    EXPECT_LE(points[k].x, 4 + 1e-9);
  }
}

TEST(Dxf, ReadsArcCircleAndEllipse) {
  const DxfDrawing drawing = read(entities({{0, "ARC"},     {8, "a"},      {10, "0"},
                                            {20, "0"},      {40, "2"},     {50, "350"},
                                            {51, "10"},     {0, "CIRCLE"}, {8, "b"},
                                            {10, "5"},      {20, "5"},     {40, "1"},
                                            {0, "ELLIPSE"}, {8, "c"},      {10, "0"},
                                            {20, "0"},      {11, "0"},     {21, "4"},
                                            {40, "0.5"},    {41, "0"},     {42, "6.283185307179586"}}));
  ASSERT_EQ(drawing.strokes.size(), 3U);
  const auto& arc = drawing.strokes[0].points;
  EXPECT_NEAR(arc.front().y, -2 * std::sin(10 * std::numbers::pi / 180), 1e-9);
  EXPECT_NEAR(arc.back().y, 2 * std::sin(10 * std::numbers::pi / 180), 1e-9);
  for (const DxfPoint& p : arc) {
    EXPECT_GT(p.x, 1.9);
  }
  EXPECT_TRUE(drawing.strokes[1].closed);
  for (const DxfPoint& p : drawing.strokes[1].points) {
    EXPECT_NEAR(std::hypot(p.x - 5, p.y - 5), 1, 1e-9);
  }
  for (const DxfPoint& p : drawing.strokes[2].points) {
    EXPECT_NEAR(p.x * p.x / 4 + p.y * p.y / 16, 1, 1e-9);
  }
}

TEST(Dxf, MirrorsWhatIsDrawnFromBelow) {
  const DxfDrawing drawing = read(entities(
      {{0, "CIRCLE"}, {8, "b"}, {10, "5"}, {20, "5"}, {40, "1"}, {210, "0"}, {220, "0"}, {230, "-1"}}));
  EXPECT_NEAR(drawing.low.x, -6, 1e-3);
  EXPECT_NEAR(drawing.high.y, 6, 1e-2);
}

const std::string kBlocks = section("BLOCKS", dxf({{0, "BLOCK"},
                                                   {8, "0"},
                                                   {2, "door"},
                                                   {70, "0"},
                                                   {10, "1"},
                                                   {20, "0"},
                                                   {0, "LINE"},
                                                   {8, "0"},
                                                   {10, "1"},
                                                   {20, "0"},
                                                   {11, "2"},
                                                   {21, "0"},
                                                   {0, "LINE"},
                                                   {8, "Hinge"},
                                                   {10, "1"},
                                                   {20, "0"},
                                                   {11, "1"},
                                                   {21, "1"},
                                                   {0, "ENDBLK"}}));

TEST(Dxf, UnfoldsPlacedBlocksTurnedScaledAndInRows) {
  const DxfDrawing drawing = read(kBlocks + entities({{0, "INSERT"},
                                                      {8, "Doors"},
                                                      {2, "door"},
                                                      {10, "10"},
                                                      {20, "20"},
                                                      {41, "3"},
                                                      {42, "2"},
                                                      {50, "90"},
                                                      {70, "2"},
                                                      {44, "5"}}));
  ASSERT_EQ(drawing.strokes.size(), 4U);
  std::vector<std::string> names;
  for (const DxfLayer& layer : drawing.layers) {
    names.push_back(layer.name + " " + std::to_string(layer.strokes));
  }
  // What stands on layer 0 of the block goes with the layer it was placed on.
  EXPECT_THAT(names, testing::ElementsAre("Doors 2", "Hinge 2"));
  const auto near = [](const DxfPoint& p, double x, double y) {
    EXPECT_NEAR(p.x, x, 1e-9);
    EXPECT_NEAR(p.y, y, 1e-9);
  };
  near(drawing.strokes[0].points[0], 10, 20);
  near(drawing.strokes[0].points[1], 10, 23);
  near(drawing.strokes[1].points[0], 10, 25);  // the next column, along the turned axis
  near(drawing.strokes[2].points[1], 8, 20);
}

TEST(Dxf, ReadsUnitsAndLayersThatAreOff) {
  const std::string head =
      section("HEADER", dxf({{9, "$ACADVER"}, {1, "AC1015"}, {9, "$INSUNITS"}, {70, "4"}}));
  const std::string tables = section("TABLES", dxf({{0, "TABLE"},
                                                    {2, "LAYER"},
                                                    {70, "2"},
                                                    {0, "LAYER"},
                                                    {2, "Walls"},
                                                    {70, "0"},
                                                    {62, "-7"},
                                                    {6, "CONTINUOUS"},
                                                    {0, "ENDTAB"}}));
  const DxfDrawing drawing = read(head + tables + entities(kLine));
  EXPECT_EQ(drawing.unit_m, 0.001);
  EXPECT_EQ(drawing.unit_name, "mm");
  EXPECT_TRUE(drawing.layers[0].off);
}

TEST(Dxf, CountsWhatItDoesNotShow) {
  Pairs pairs{{0, "TEXT"}, {8, "A"},  {10, "0"}, {1, "Hall"}, {0, "LINE"}, {67, "1"},
              {8, "A"},    {10, "0"}, {20, "0"}, {11, "1"},   {21, "1"}};
  pairs.insert(pairs.end(), kLine.begin(), kLine.end());
  const DxfDrawing drawing = read(entities(pairs));
  EXPECT_EQ(drawing.skipped.at("TEXT"), 1U);
  EXPECT_EQ(drawing.on_paper, 1U);
  EXPECT_EQ(drawing.strokes.size(), 1U);
}

TEST(Dxf, SaysWhereTheFileIsBroken) {
  EXPECT_THAT(refusal(""), HasSubstr("cut off"));
  EXPECT_THAT(refusal("hello\n"), HasSubstr("plan.dxf, line 1: A number that says what follows"));
  EXPECT_THAT(refusal(std::string("AB\0CD", 5)), HasSubstr("binary"));
  EXPECT_THAT(refusal(dxf({{0, "SECTION"}, {2, "ENTITIES"}}) + dxf(kLine)), HasSubstr("cut off"));
  EXPECT_THAT(refusal(section("OBJECTS", "") + dxf({{0, "EOF"}})), HasSubstr("no section ENTITIES"));
  EXPECT_THAT(refusal(entities({{0, "TEXT"}, {8, "A"}})), HasSubstr("nothing to draw over"));
  EXPECT_THAT(
      refusal(entities({{0, "LINE"}, {10, "0"}, {20, "1"}, {11, "x2"}, {21, "4"}})),
      HasSubstr("plan.dxf, line 12: A number is expected for the code 11 of this LINE, and here stands "
                "\"x2\""));
  EXPECT_THAT(refusal(entities({{0, "LINE"}, {10, "0"}, {20, "1"}, {11, "nan"}, {21, "4"}})),
              HasSubstr("A number is expected"));
  EXPECT_THAT(refusal(entities({{0, "LINE"}, {10, "0"}, {20, "1"}, {11, "1e300"}, {21, "4"}})),
              HasSubstr("out of all bounds"));
  EXPECT_THAT(refusal(entities({{0, "CIRCLE"}, {10, "0"}, {20, "1"}, {40, "-3"}})),
              HasSubstr("line 12: The radius of this CIRCLE is -3"));
  EXPECT_THAT(refusal(entities({{0, "LINE"}, {10, "0"}, {20, "1"}, {11, "4"}})),
              HasSubstr("line 6: This LINE lacks its value with the code 21"));
  EXPECT_THAT(refusal(entities({{0, "INSERT"}, {2, "door"}, {10, "0"}, {20, "1"}})),
              HasSubstr("The block \"door\" is placed, and stands nowhere"));
}

TEST(Dxf, RefusesBlocksThatHoldThemselvesOrGrowWithoutEnd) {
  const std::string itself = section("BLOCKS", dxf({{0, "BLOCK"},
                                                    {2, "a"},
                                                    {10, "0"},
                                                    {20, "0"},
                                                    {0, "INSERT"},
                                                    {2, "a"},
                                                    {10, "1"},
                                                    {20, "0"},
                                                    {0, "ENDBLK"}}));
  const Pairs use{{0, "INSERT"}, {2, "a"}, {10, "0"}, {20, "0"}};
  EXPECT_THAT(refusal(itself + entities(use)), HasSubstr("hold itself"));
  EXPECT_THAT(refusal(kBlocks + entities({{0, "INSERT"},
                                          {2, "door"},
                                          {10, "0"},
                                          {20, "0"},
                                          {70, "30000"},
                                          {71, "30000"},
                                          {44, "1"},
                                          {45, "1"}})),
              HasSubstr("more than 4000000 points"));
}

TEST(Dxf, AFileThatIsNotThereIsSaid) {
  EXPECT_FALSE(loadDxf("/nowhere/at/all.dxf"));
}

/// A file with everything in it, cut or with bytes changed: a drawing of finite points or a sentence.
RC_GTEST_PROP(DxfProperty, DamageGivesADrawingOrASentence, ()) {
  Pairs pairs = kLine;
  for (const Pairs& more :
       {Pairs{{0, "LWPOLYLINE"},
              {8, "A"},
              {90, "2"},
              {70, "1"},
              {10, "0"},
              {20, "0"},
              {42, "1"},
              {10, "2"},
              {20, "0"}},
        Pairs{{0, "POLYLINE"},
              {8, "A"},
              {66, "1"},
              {0, "VERTEX"},
              {10, "0"},
              {20, "0"},
              {0, "VERTEX"},
              {10, "3"},
              {20, "0"},
              {0, "SEQEND"}},
        Pairs{
            {0, "ELLIPSE"}, {10, "0"}, {20, "0"}, {11, "0"}, {21, "4"}, {40, "0.5"}, {41, "0"}, {42, "6.28"}},
        Pairs{{0, "INSERT"}, {8, "D"}, {2, "door"}, {10, "1"}, {20, "2"}, {70, "2"}, {71, "3"}, {44, "1"}}}) {
    pairs.insert(pairs.end(), more.begin(), more.end());
  }
  std::string text = section("HEADER", dxf({{9, "$INSUNITS"}, {70, "1"}})) + kBlocks + entities(pairs);
  RC_ASSERT(readDxf(text, "plan.dxf").has_value());
  const auto cut = *rc::gen::inRange<std::size_t>(0, text.size());
  if (*rc::gen::arbitrary<bool>()) {
    text.resize(cut);
  }
  const int changes = *rc::gen::inRange(0, 8);
  const std::string odd = "0123456789-+.eE \n\r\tA\x80\xff,";
  for (int k = 0; k < changes && !text.empty(); ++k) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    switch (*rc::gen::inRange(0, 3)) {
      case 0:
        text[at] = odd[*rc::gen::inRange<std::size_t>(0, odd.size())];
        break;
      case 1:
        text.erase(at, *rc::gen::inRange<std::size_t>(1, 30));
        break;
      default:
        text.insert(at, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()),
                                    *rc::gen::inRange<std::size_t>(1, 60)));
    }
  }
  const auto out = readDxf(text, "plan.dxf");
  if (!out) {
    RC_ASSERT(out.error().message.size() > 20U);
    RC_ASSERT(out.error().where.starts_with("plan.dxf"));
    return;
  }
  RC_ASSERT(!out->strokes.empty());
  for (const DxfStroke& stroke : out->strokes) {
    RC_ASSERT(stroke.layer < out->layers.size());
    for (const DxfPoint& p : stroke.points) {
      RC_ASSERT(std::isfinite(p.x) && std::isfinite(p.y));
    }
  }
}

}  // namespace
}  // namespace kerfdraft::files
