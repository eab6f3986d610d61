// The canvas as it is painted. Between two settled views the old picture is stretched, so that zoom and pan
// never wait for labels.
#include <QPainter>
#include <cmath>

#include "desk/canvas.h"
#include "desk/rulers.h"
#include "drawing/isometric.h"
#include "drawing/plan.h"
#include "drawing/style.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::desk {
namespace {

const pieces::Pieces& nothing() {
  static const pieces::Pieces kEmpty;
  return kEmpty;
}

}  // namespace

const drawing::Picture& Canvas::picture() {
  if (picture_) {
    return *picture_;
  }
  const std::shared_ptr<const Solved>& solved = bench_.live.latest();
  const Look& look = bench_.look;
  // The newest drawing with the newest result: until an edit is solved, colours are those of before.
  const bool has_state = solved && solved->assessment && look.state() < solved->states();
  drawing::Overlay overlay;
  if (has_state) {
    const judge::StateBands* bands =
        look.state() < solved->bands.size() ? &solved->bands[look.state()] : nullptr;
    overlay = papers::overlayOf(*solved->assessment, look.state(), solved->margins[look.state()],
                                look.units(), bands);
  }
  drawing::Window window = view_.window(size());
  if (look.isometric()) {
    drawing::IsometricOptions options;
    options.units = look.units();
    options.window = window;
    options.turned_rad = look.turned();
    options.graded = true;
    options.lengths = false;
    picture_ = drawing::drawIsometric(bench_.document.project(), overlay, options);
  } else {
    drawing::PlanOptions options;
    options.units = look.units();
    window.rim_mm = kRuler_px / view_.px_per_mm;
    options.window = window;
    picture_ = drawing::drawPlan(bench_.document.project(),
                                 has_state ? *solved->assessment->pieces : nothing(), overlay, options);
  }
  picture_view_ = view_;
  return *picture_;
}

void Canvas::paintGrid(QPainter& painter) const {
  // Lines at a metre or a foot, parted further where there is room.
  const bool us = bench_.look.units() == base::UnitSystem::Us;
  constexpr double kFoot_m = 0.3048;
  const double base_m = us ? kFoot_m : 1.0;
  constexpr double kNear_px = 14;
  double step_m = base_m;
  while (step_m * view_.px_per_m < kNear_px) {
    step_m *= us ? 2 : 2.5;
  }
  QColor colour = paint::shown(drawing::kPale, bench_.look.tones());
  colour.setAlpha(90);
  painter.setPen(QPen(colour, 0));
  // Upright lines need no smoothing, and cost a tenth without it.
  painter.setRenderHint(QPainter::Antialiasing, false);
  const double step_px = step_m * view_.px_per_m;
  const double left = std::fmod(view_.origin_px.x(), step_px);
  const double top = std::fmod(view_.origin_px.y(), step_px);
  for (int k = 0; left + k * step_px < width(); ++k) {
    painter.drawLine(QPointF(left + k * step_px, 0), QPointF(left + k * step_px, height()));
  }
  for (int k = 0; top + k * step_px < height(); ++k) {
    painter.drawLine(QPointF(0, top + k * step_px), QPointF(width(), top + k * step_px));
  }
  painter.setRenderHint(QPainter::Antialiasing);
}

void Canvas::paintSelection(QPainter& painter) {
  const auto frame = [&](base::Id id, const QPen& pen) {
    const drawing::Box box = boxOf(id);
    if (box.empty()) {
      return;
    }
    const double s = view_.px_per_mm;
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(
        QRectF(box.left * s, box.top * s, box.width() * s, box.height() * s).adjusted(-4, -4, 4, 4), 4, 4);
  };
  const QColor blue = paint::shown(drawing::kBlue, bench_.look.tones());
  for (const base::Id id : bench_.look.selection()) {
    frame(id, QPen(blue, 2));
  }
  if (marked_.valid()) {
    frame(marked_, QPen(blue, 4, Qt::DashLine));
  }
}

void Canvas::paintAll(QPainter& painter) {
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), paint::shown(drawing::kWhite, bench_.look.tones()));
  if (!bench_.look.isometric()) {
    paintGrid(painter);
  }
  if (!settle_.isActive()) {
    picture();
  }
  if (picture_) {
    painter.save();
    // Stretched from the view it was made for.
    const double factor = view_.px_per_m / picture_view_.px_per_m;
    painter.translate(view_.origin_px - picture_view_.origin_px * factor);
    painter.scale(factor, factor);
    paint::draw(painter, *picture_, picture_view_.px_per_mm, bench_.look.tones());
    painter.restore();
  }
  if (!settle_.isActive()) {
    paintSelection(painter);
  }
  if (tool_ != nullptr) {
    painter.save();
    tool_->paint(painter, view_);
    painter.restore();
  }
  if (!bench_.look.isometric()) {
    painter.save();
    paintRulers(painter, view_, size(), bench_.look.units(), bench_.look.tones(), pointer_px_);
    painter.restore();
  }
}

}  // namespace kerfdraft::desk
