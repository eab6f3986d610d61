// The mark lies across the duct where the thing will be, before the click.
#include "desk/tools/on_duct_tool.h"

#include <cmath>

#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {

QString OnDuctTool::hint() const {
  return bench_.look.isometric()
             ? tr("This is done on the plan; go back to the plan first.")
             : tr("Click on a duct to put %1 there; Tab takes the duct below, Escape ends.").arg(thing());
}

void OnDuctTool::cancel() {
  place_.reset();
  turn_ = 0;
  emit repaintAsked();
}

void OnDuctTool::aim() {
  const double reach_m = kSnapReach_px / px_per_m_;
  choices_ = legsNear(bench_.document.project(), pointer_, reach_m).size();
  place_ = hangingPlace(bench_.document.project(), pointer_, reach_m, turn_);
  emit repaintAsked();
}

void OnDuctTool::move(const Pointer& pointer) {
  pointer_ = pointer.at;
  pointer_px_ = pointer.px;
  aim();
}

void OnDuctTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  pointer_ = pointer.at;
  pointer_px_ = pointer.px;
  DocumentIds ids(bench_.document);
  const auto change =
      hang(bench_.document.project(), what_, pointer.at, kSnapReach_px / px_per_m_, turn_, ids);
  if (!change) {
    emit refused(QString::fromStdString(change.error().text()));
  } else {
    make(QString::fromStdString(change->words), change->edits);
  }
  aim();
}

bool OnDuctTool::keyPress(QKeyEvent* event) {
  if (event->key() != Qt::Key_Tab || choices_ < 2) {
    return false;
  }
  ++turn_;
  aim();
  return true;
}

void OnDuctTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  const shop::Duct* duct = place_ ? ductOf(bench_.document.project(), place_->duct) : nullptr;
  if (duct == nullptr || bench_.look.isometric() || place_->leg + 1 >= duct->corners.size()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  const QPointF at = view.toPx(place_->at);
  const QPointF d = view.toPx(duct->corners[place_->leg + 1].at) - view.toPx(duct->corners[place_->leg].at);
  const double l = std::hypot(d.x(), d.y());
  const double half_px = place_->bore_m * view.px_per_m / 2 + 5;
  painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 3));
  painter.setBrush(Qt::NoBrush);
  if (l < 1) {
    painter.drawEllipse(at, half_px, half_px);
  } else {
    const QPointF n(-d.y() / l * half_px, d.x() / l * half_px);
    painter.drawLine(at - n, at + n);
  }
  const base::UnitSystem units = bench_.look.units();
  std::vector<QString> words{
      tr("%1 on %2, %3 along, %4 up")
          .arg(thing(), QString::fromStdString(duct->label),
               QString::fromStdString(base::formatQuantity(base::Kind::Length, place_->along_m, units)),
               QString::fromStdString(base::formatQuantity(
                   base::Kind::Length, static_cast<double>(place_->at.z_um) * 1e-6, units)))};
  if (choices_ > 1) {
    words.push_back(tr("Tab: the next of %1 stretches here").arg(choices_));
  }
  paintWords(painter, pointer_px_, words, tones);
}

}  // namespace kerfdraft::desk
