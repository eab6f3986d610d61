// One chart for all: axes in the reader's units, curves, ribbons and marks that are named beside themselves
// instead of in a legend. What it shows is plain numbers in SI.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "drawing/display_list.h"
#include "drawing/geometry.h"
#include "drawing/style.h"

namespace kerfdraft::drawing {

struct ChartPoint {
  double x = 0;
  double y = 0;
};

struct ChartAxis {
  base::Kind kind = base::Kind::Ratio;
  std::string title;            ///< "flow"; the unit is added
  std::optional<double> low{};  ///< from the data where not given; zero is shown where the data come near it
  std::optional<double> high{};
};

enum class Dash { Solid, Dashed, Dotted };

struct ChartCurve {
  std::string label;
  std::vector<ChartPoint> points;
  Colour colour = kInk;
  double width_mm = kMiddle_mm;
  Dash dash = Dash::Solid;
  bool faint = false;         ///< its label in grey
  double label_share = 0.98;  ///< where along the curve its label stands, if it can
};

/// An area between two curves over the same x.
struct ChartRibbon {
  std::string label;
  std::vector<ChartPoint> low;
  std::vector<ChartPoint> high;
  Colour fill = kPale;
  bool hatched = false;  ///< told from a plain one in grey too
};

enum class MarkForm { Disc, Ring, Square, Diamond };

struct ChartMark {
  ChartPoint at;
  MarkForm form = MarkForm::Disc;
  Colour colour = kInk;
  std::vector<std::string> lines{};  ///< the first is bold; none: no label
  std::optional<double> x_low{};     ///< spread, drawn as a bar
  std::optional<double> x_high{};
  double size_mm = 1.1;
};

struct Chart {
  std::string title;
  std::string subtitle;
  std::string description;  ///< for who cannot see it
  ChartAxis x;
  ChartAxis y;
  std::vector<ChartRibbon> ribbons{};
  std::vector<ChartCurve> curves{};
  std::vector<ChartMark> marks{};
  std::vector<std::string> notes{};  ///< below the chart
};

struct ChartSize {
  double width_mm = 180;
  double height_mm = 110;
};

/// Where the axes lie in a picture that was drawn, for reading values back from it.
struct ChartFrame {
  Box plot_mm;       ///< empty where there is nothing to show
  double x_low = 0;  ///< at its left and right, in the shown units
  double x_high = 0;
  double y_low = 0;  ///< at its bottom and top
  double y_high = 0;
};

/// Points that are not finite are left out; a chart without any says so.
Picture drawChart(const Chart& chart, base::UnitSystem units, ChartSize size = {},
                  ChartFrame* frame = nullptr);

/// A chart's heading; returns the place below it [mm].
double drawHeading(const std::string& title, const std::string& subtitle, double width_mm,
                   std::vector<Shape>& out);

}  // namespace kerfdraft::drawing
