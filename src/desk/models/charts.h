// The charts of the verdict for what is looked at, and the values under a pointer. Without Qt.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/id.h"
#include "desk/solved.h"
#include "drawing/chart.h"

namespace kerfdraft::desk {

enum class ChartKind { Fan, Pressure, Speed };

struct ShownChart {
  drawing::Picture picture;
  std::optional<drawing::ChartFrame> frame;  ///< nothing where values are not read back: bars
  base::Kind x_kind = base::Kind::Ratio;
  base::Kind y_kind = base::Kind::Ratio;
  base::UnitSystem units = base::UnitSystem::Us;
  std::vector<drawing::ChartPoint> curve;  ///< SI, rising x: which a reading follows
  std::string curve_name;
};

/// A chart of the state that is shown. Fan: of the picked collector or blower, else of the first that has
/// one. Pressure: the path of the picked port or machine, else of the port that is worst off. Where there is
/// nothing to show the picture says why.
ShownChart chartOf(const Solved& solved, std::size_t state, ChartKind kind, const std::set<base::Id>& picked,
                   base::UnitSystem units, drawing::ChartSize size);

/// A place on a chart in the reader's units.
struct ChartReading {
  drawing::At at_mm;  ///< on the curve where there is one
  std::string text;   ///< "420 cfm, 4.7 in w.g. on the fan's curve"
};
/// Nothing outside the axes.
std::optional<ChartReading> readAt(const ShownChart& chart, drawing::At pointer_mm);

}  // namespace kerfdraft::desk
