// Words stand on a plate of the paper's own tone, so that they are read over any duct.
#include "desk/tools/sketching.h"

#include <QFontMetricsF>

#include "desk/models/snap.h"
#include "drawing/style.h"

namespace kerfdraft::desk {

void paintWords(QPainter& painter, QPointF beside_px, const std::vector<QString>& lines, paint::Tones tones,
                bool strong) {
  if (lines.empty()) {
    return;
  }
  QFont font = painter.font();
  QFont bold = font;
  bold.setBold(true);
  const QFontMetricsF plain_size(font);
  const QFontMetricsF bold_size(bold);
  double width = 0;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    width = std::max(width, (strong && k == 0 ? bold_size : plain_size).horizontalAdvance(lines[k]));
  }
  constexpr double kRim_px = 6;
  constexpr double kApart_px = 18;
  const double line_px = plain_size.lineSpacing();
  const QSizeF size(width + 2 * kRim_px, line_px * static_cast<double>(lines.size()) + 2 * kRim_px);
  QPointF at = beside_px + QPointF(kApart_px, kApart_px);
  const QRectF canvas = painter.viewport();
  if (at.x() + size.width() > canvas.right()) {
    at.setX(beside_px.x() - kApart_px - size.width());
  }
  if (at.y() + size.height() > canvas.bottom()) {
    at.setY(beside_px.y() - kApart_px - size.height());
  }
  QColor ground = paint::shown(drawing::kWhite, tones);
  ground.setAlpha(235);
  painter.setPen(QPen(paint::shown(drawing::kPale, tones), 1));
  painter.setBrush(ground);
  painter.drawRoundedRect(QRectF(at, size), 4, 4);
  painter.setPen(paint::shown(drawing::kInk, tones));
  double y = at.y() + kRim_px + plain_size.ascent();
  for (std::size_t k = 0; k < lines.size(); ++k) {
    painter.setFont(strong && k == 0 ? bold : font);
    painter.drawText(QPointF(at.x() + kRim_px, y), lines[k]);
    y += line_px;
  }
  painter.setFont(font);
}

void paintAim(QPainter& painter, const PlanView& view, const Snapped& aimed, paint::Tones tones) {
  const QColor blue = paint::shown(drawing::kBlue, tones);
  painter.setPen(QPen(blue, 1, Qt::DashLine));
  for (const Guide& guide : aimed.guides) {
    painter.drawLine(view.toPx(guide.a), view.toPx(guide.b));
  }
  painter.setPen(QPen(blue, 2));
  painter.setBrush(Qt::NoBrush);
  const QPointF at = view.toPx(aimed.at);
  if (aimed.to == SnapTo::Port || aimed.to == SnapTo::Inlet || aimed.to == SnapTo::OpenEnd) {
    painter.drawEllipse(at, 9, 9);
  } else if (aimed.to == SnapTo::Corner || aimed.to == SnapTo::Duct) {
    painter.drawRect(QRectF(at - QPointF(6, 6), QSizeF(12, 12)));
  } else {
    painter.drawLine(at - QPointF(6, 0), at + QPointF(6, 0));
    painter.drawLine(at - QPointF(0, 6), at + QPointF(0, 6));
  }
}

}  // namespace kerfdraft::desk
