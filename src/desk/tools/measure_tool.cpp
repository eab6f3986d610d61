// The second click holds the line until the next one begins another.
#include "desk/tools/measure_tool.h"

#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {

QString MeasureTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Measuring is done on the plan; go back to the plan first.");
  }
  return from_ && !to_ ? tr("Click where the measuring ends.") : tr("Click where the measuring begins.");
}

void MeasureTool::cancel() {
  from_.reset();
  to_.reset();
  emit hintChanged();
  emit repaintAsked();
}

void MeasureTool::aim(const Pointer& pointer) {
  pointer_px_ = pointer.px;
  SnapRequest request;
  request.pointer = pointer.at;
  request.reach_m = kSnapReach_px / px_per_m_;
  request.units = bench_.look.units();
  request.wall_gap_m = 0;
  request.lines = request.grid = !pointer.keys.testFlag(Qt::AltModifier);
  if (from_ && !to_) {
    request.from = from_->at;
  }
  aimed_ = snap(bench_.document.project(), request);
}

void MeasureTool::move(const Pointer& pointer) {
  aim(pointer);
  emit repaintAsked();
}

void MeasureTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  aim(pointer);
  if (from_ && !to_) {
    to_ = aimed_;
  } else {
    from_ = aimed_;
    to_.reset();
  }
  emit hintChanged();
  emit repaintAsked();
}

bool MeasureTool::keyPress(QKeyEvent* event) {
  if (event->key() != Qt::Key_Escape || !from_) {
    return false;
  }
  cancel();
  return true;
}

std::optional<Measured> MeasureTool::measured() const {
  return from_ ? std::optional(measure(*from_, to_.value_or(aimed_))) : std::nullopt;
}

void MeasureTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  if (!to_) {
    paintAim(painter, view, aimed_, tones);
  }
  if (!from_) {
    return;
  }
  const QPointF a = view.toPx(from_->at);
  const QPointF b = view.toPx(to_.value_or(aimed_).at);
  painter.setPen(QPen(paint::shown(drawing::kInk, tones), 1.5));
  painter.drawLine(a, b);
  const QLineF line(a, b);
  if (line.length() > 1) {
    const QLineF across = line.normalVector().unitVector();
    const QPointF n(across.dx() * 6, across.dy() * 6);
    painter.drawLine(a - n, a + n);
    painter.drawLine(b - n, b + n);
  }
  std::vector<QString> words;
  for (const std::string& each : toWords(*measured(), bench_.look.units())) {
    words.push_back(QString::fromStdString(each));
  }
  paintWords(painter, to_ ? b : pointer_px_, words, tones, true);
}

}  // namespace kerfdraft::desk
