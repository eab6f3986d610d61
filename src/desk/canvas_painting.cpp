// The canvas as it is painted. Between two settled views the old picture is stretched, so that zoom and pan
// never wait for labels.
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "desk/canvas.h"
#include "desk/models/comparison.h"
#include "desk/rulers.h"
#include "desk/tools/sketching.h"
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
  const std::shared_ptr<const Solved>& solved = bench_.live.of(bench_.look.state());
  const Look& look = bench_.look;
  // The newest drawing with the newest result: until an edit is solved, colours are those of before.
  const bool has_state = solved && solved->has(look.state());
  drawing::Overlay overlay;
  if (has_state) {
    const judge::StateBands* bands =
        look.state() < solved->bands.size() ? &solved->bands[look.state()] : nullptr;
    overlay = papers::overlayOf(*solved->assessment, look.state(), solved->margins[look.state()],
                                look.units(), bands);
    markChanges(overlay, *solved, look.state(), look.kept().get(), look.units());
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
  // As fine as there is room for; where the rulers have a figure, stronger.
  const base::UnitSystem units = bench_.look.units();
  constexpr double kNear_px = 14;
  const double fine_m = rulerStep(view_.px_per_m, units, kNear_px);
  const double figures_m = rulerStep(view_.px_per_m, units, kFigures_px);
  const long each = std::max(1L, std::lround(figures_m / fine_m));
  const double step_px = fine_m * view_.px_per_m;
  const auto first = [step_px](double origin_px) {
    return static_cast<long>(std::ceil(-origin_px / step_px));
  };
  QColor colour = paint::shown(drawing::kPale, bench_.look.tones());
  // Upright lines need no smoothing, and cost a tenth without it.
  painter.setRenderHint(QPainter::Antialiasing, false);
  constexpr int kFineAlpha = 70;
  constexpr int kStrongAlpha = 150;
  for (const bool strong : {false, true}) {
    colour.setAlpha(strong ? kStrongAlpha : kFineAlpha);
    painter.setPen(QPen(colour, 0));
    const QPointF origin = view_.origin_px;
    for (long k = first(origin.x()); origin.x() + static_cast<double>(k) * step_px < width(); ++k) {
      if ((k % each == 0) == strong) {
        const double x = origin.x() + static_cast<double>(k) * step_px;
        painter.drawLine(QPointF(x, 0), QPointF(x, height()));
      }
    }
    for (long k = first(origin.y()); origin.y() + static_cast<double>(k) * step_px < height(); ++k) {
      if ((k % each == 0) == strong) {
        const double y = origin.y() + static_cast<double>(k) * step_px;
        painter.drawLine(QPointF(0, y), QPointF(width(), y));
      }
    }
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

void Canvas::paintShapes(QPainter& painter, std::span<const drawing::Shape> shapes) const {
  painter.save();
  // Stretched from the view they were made for.
  const double factor = view_.px_per_m / picture_view_.px_per_m;
  painter.translate(view_.origin_px - picture_view_.origin_px * factor);
  painter.scale(factor, factor);
  paint::draw(painter, shapes, picture_view_.px_per_mm, bench_.look.tones());
  painter.restore();
}

void Canvas::paintAll(QPainter& painter) {
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), paint::shown(drawing::kWhite, bench_.look.tones()));
  if (!settle_.isActive()) {
    picture();
  }
  // Floors first: the grid and the underlay are seen on them, and everything that stands there on these.
  const std::span<const drawing::Shape> shapes =
      picture_ ? std::span<const drawing::Shape>(picture_->shapes) : std::span<const drawing::Shape>();
  const auto* first = shapes.empty() ? nullptr : std::get_if<drawing::Group>(&shapes.front().what);
  const std::size_t floors = !bench_.look.isometric() && first != nullptr && first->kind == "floor" ? 1 : 0;
  paintShapes(painter, shapes.first(floors));
  if (!bench_.look.isometric()) {
    paintGrid(painter);
    if (const auto& underlay = bench_.document.project().underlay) {
      bench_.look.sheet().paint(painter, view_, size(), *underlay, bench_.look.tones());
    }
  }
  paintShapes(painter, shapes.subspan(floors));
  if (!settle_.isActive()) {
    paintSelection(painter);
  }
  if (tool_ != nullptr) {
    painter.save();
    tool_->paint(painter, view_);
    painter.restore();
  }
  if (!preedit_.isEmpty()) {
    constexpr double kAbove_px = 60;
    const QPointF at = pointer_px_.value_or(QPointF(width() / 2.0, height() / 2.0));
    paintWords(painter, at - QPointF(0, kAbove_px), {preedit_}, bench_.look.tones());
  }
  if (!bench_.look.isometric()) {
    painter.save();
    paintRulers(painter, view_, size(), bench_.look.units(), bench_.look.tones(), pointer_px_);
    painter.restore();
  }
}

}  // namespace kerfdraft::desk
