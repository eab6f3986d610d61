// From the shop's floor to pixels and back. Without widgets.
#pragma once

#include <QPointF>
#include <QSizeF>
#include <cmath>

#include "drawing/page.h"
#include "shop/geometry.h"

namespace kerfdraft::desk {

/// Pictures are made in millimetres at so many pixels each; a metre of the shop is so many pixels wide.
struct PlanView {
  double px_per_mm = 4;
  double px_per_m = 80;
  QPointF origin_px{60, 400};  ///< where the shop's origin is on the canvas

  QPointF toPx(const shop::PlanPoint& p) const {
    return {origin_px.x() + static_cast<double>(p.x_um) * 1e-6 * px_per_m,
            origin_px.y() - static_cast<double>(p.y_um) * 1e-6 * px_per_m};
  }
  QPointF toPx(const shop::Point& p) const { return toPx(shop::PlanPoint{p.x_um, p.y_um}); }
  shop::PlanPoint toPlan(QPointF px) const {
    return {std::llround((px.x() - origin_px.x()) / px_per_m * 1e6),
            std::llround((origin_px.y() - px.y()) / px_per_m * 1e6)};
  }
  /// Length on the floor that a length on the canvas stands for [m].
  double metres(double px) const { return px / px_per_m; }

  /// What the drawing room is asked for.
  drawing::Window window(QSizeF size_px) const {
    return {size_px.width() / px_per_mm,
            size_px.height() / px_per_mm,
            px_per_m / px_per_mm,
            {origin_px.x() / px_per_mm, origin_px.y() / px_per_mm},
            0};
  }
  /// The same with the place under `fixed_px` kept where it is.
  PlanView zoomed(double factor, QPointF fixed_px) const {
    constexpr double kLeast_px_per_m = 2;
    constexpr double kMost_px_per_m = 4000;
    PlanView out = *this;
    out.px_per_m = std::clamp(px_per_m * factor, kLeast_px_per_m, kMost_px_per_m);
    out.origin_px = fixed_px + (origin_px - fixed_px) * (out.px_per_m / px_per_m);
    return out;
  }
};

}  // namespace kerfdraft::desk
