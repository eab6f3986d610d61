// Rulers along two edges of the plan, in the reader's units, with the pointer's place.
#pragma once

#include <QPainter>
#include <QSize>
#include <optional>

#include "base/units.h"
#include "desk/plan_view.h"
#include "paint/tones.h"

namespace kerfdraft::desk {

inline constexpr int kRuler_px = 18;
/// Figures are at least so far apart.
inline constexpr double kFigures_px = 70;

/// Distance of marks or grid lines [m]: a round number of the reader's unit, at least `apart_px` on the
/// canvas.
double rulerStep(double px_per_m, base::UnitSystem units, double apart_px);

void paintRulers(QPainter& painter, const PlanView& view, QSize size, base::UnitSystem units,
                 paint::Tones tones, const std::optional<QPointF>& pointer_px);

}  // namespace kerfdraft::desk
