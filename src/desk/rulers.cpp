// Figures are whole feet, inches, metres or centimetres, whichever the zoom has room for.
#include "desk/rulers.h"

#include <QFontMetricsF>
#include <array>
#include <cmath>

#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;

QString figure(double m, double step_m, base::UnitSystem units) {
  if (units == base::UnitSystem::Us) {
    const long inches = std::lround(m / kInch_m);
    const long feet = std::abs(inches) / 12;
    const long rest = std::abs(inches) % 12;
    const QString sign = inches < 0 ? QStringLiteral("-") : QString();
    if (step_m > kFoot_m - 1e-9 || rest == 0) {
      return QStringLiteral("%1%2 ft").arg(sign).arg(feet);
    }
    return feet == 0 ? QStringLiteral("%1%2 in").arg(sign).arg(rest)
                     : QStringLiteral("%1%2 ft %3 in").arg(sign).arg(feet).arg(rest);
  }
  return step_m < 1 - 1e-9 ? QStringLiteral("%1 cm").arg(std::round(m * 100))
                           : QStringLiteral("%1 m").arg(std::round(m));
}

}  // namespace

double rulerStep(double px_per_m, base::UnitSystem units, double apart_px) {
  // Each that has figures is a whole number of those that the grid shows between them (five times nearer).
  constexpr std::array kUs{kInch_m,      3 * kInch_m,  6 * kInch_m,  kFoot_m,       2 * kFoot_m,  5 * kFoot_m,
                           10 * kFoot_m, 20 * kFoot_m, 50 * kFoot_m, 100 * kFoot_m, 500 * kFoot_m};
  constexpr std::array kMetric{0.01, 0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0, 200.0, 1000.0};
  for (const double step : units == base::UnitSystem::Us ? kUs : kMetric) {
    if (step * px_per_m >= apart_px) {
      return step;
    }
  }
  return units == base::UnitSystem::Us ? kUs.back() : kMetric.back();
}

void paintRulers(QPainter& painter, const PlanView& view, QSize size, base::UnitSystem units,
                 paint::Tones tones, const std::optional<QPointF>& pointer_px) {
  QColor ground = paint::shown(drawing::kBody, tones);
  ground.setAlpha(225);
  painter.fillRect(QRectF(0, 0, size.width(), kRuler_px), ground);
  painter.fillRect(QRectF(0, 0, kRuler_px, size.height()), ground);
  painter.setPen(QPen(paint::shown(drawing::kFaint, tones), 1));
  QFont font = painter.font();
  font.setPointSizeF(font.pointSizeF() * 0.75);
  painter.setFont(font);
  const double step_m = rulerStep(view.px_per_m, units, kFigures_px);
  const double step_px = step_m * view.px_per_m;
  const double ascent = QFontMetricsF(font).ascent();
  const auto first = [step_px](double origin_px) {
    return static_cast<long>(std::floor((kRuler_px - origin_px) / step_px));
  };
  for (long k = first(view.origin_px.x());
       view.origin_px.x() + static_cast<double>(k) * step_px < size.width(); ++k) {
    const double x = view.origin_px.x() + static_cast<double>(k) * step_px;
    if (x >= kRuler_px) {
      painter.drawLine(QPointF(x, 0), QPointF(x, kRuler_px));
      painter.drawText(QPointF(x + 3, ascent + 1), figure(static_cast<double>(k) * step_m, step_m, units));
    }
  }
  // North is up: figures grow against the pixels.
  for (long k = first(view.origin_px.y());
       view.origin_px.y() + static_cast<double>(k) * step_px < size.height(); ++k) {
    const double y = view.origin_px.y() + static_cast<double>(k) * step_px;
    if (y >= kRuler_px) {
      painter.drawLine(QPointF(0, y), QPointF(kRuler_px, y));
      painter.save();
      painter.translate(ascent + 1, y - 3);
      painter.rotate(-90);
      painter.drawText(QPointF(0, 0), figure(-static_cast<double>(k) * step_m, step_m, units));
      painter.restore();
    }
  }
  if (pointer_px) {
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 2));
    painter.drawLine(QPointF(pointer_px->x(), 0), QPointF(pointer_px->x(), kRuler_px));
    painter.drawLine(QPointF(0, pointer_px->y()), QPointF(kRuler_px, pointer_px->y()));
  }
}

}  // namespace kerfdraft::desk
