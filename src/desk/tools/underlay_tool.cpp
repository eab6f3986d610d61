// A press that moves is a drag of the sheet, one that rests is a known place on it. Places are kept in the
// shop and follow what is done with the sheet.
#include "desk/tools/underlay_tool.h"

#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDragBegins_px = 4;

}  // namespace

QString UnderlayTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("The underlay lies under the plan; go back to the plan first.");
  }
  if (!bench_.document.project().underlay) {
    return tr("Choose a DXF drawing or a picture in the panel Underlay, or drop the file on the window.");
  }
  if (first_ && second_) {
    return tr("Type how far the two places are apart (12 ft 6, 3.2 m), or: square, turn 90.");
  }
  return first_ ? tr("Click a second place that you know the distance to.")
                : tr("Drag it into place, or click a place on it that you know. Type: turn 90, hide, show.");
}

void UnderlayTool::begin() {
  bench_.look.askPanel(QStringLiteral("underlay"));
}

void UnderlayTool::forgetPlaces() {
  first_.reset();
  second_.reset();
  line_.clear();
}

void UnderlayTool::cancel() {
  // As the picking tool does: the step of this drag alone.
  if (drag_ && drag_->gesture != 0 && bench_.document.project() != *drag_->before) {
    bench_.document.undoStack().undo();
  }
  drag_.reset();
  forgetPlaces();
  emit hintChanged();
  emit repaintAsked();
}

bool UnderlayTool::put(const QString& words, const base::Result<shop::Underlay>& underlay, int gesture) {
  if (!underlay) {
    line_.problem = QString::fromStdString(underlay.error().text());
    emit refused(line_.problem);
    return false;
  }
  const std::vector<shop::Edit> edits{shop::SetUnderlay{*underlay}};
  return make(words, edits, gesture);
}

void UnderlayTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric() || !bench_.document.project().underlay) {
    emit refused(hint());
    return;
  }
  drag_ = Drag{pointer.at, pointer.px, bench_.document.snapshot(), 0};
}

void UnderlayTool::move(const Pointer& pointer) {
  pointer_px_ = pointer.px;
  pointer_ = pointer.at;
  if (drag_ && pointer.buttons.testFlag(Qt::LeftButton)) {
    const QPointF by_px = pointer.px - drag_->from_px;
    if (drag_->gesture != 0 || std::hypot(by_px.x(), by_px.y()) >= kDragBegins_px) {
      if (drag_->gesture == 0) {
        drag_->gesture = bench_.document.newGesture();
        forgetPlaces();
      }
      put(tr("Move the underlay"), movedBy(*drag_->before->underlay, drag_->from, pointer.at),
          drag_->gesture);
    }
  }
  emit repaintAsked();
}

void UnderlayTool::release(const Pointer& pointer) {
  const bool clicked = drag_ && drag_->gesture == 0;
  drag_.reset();
  if (clicked) {
    if (first_ && !second_) {
      second_ = pointer.at;
    } else {
      forgetPlaces();
      first_ = pointer.at;
    }
    emit hintChanged();
  }
  emit repaintAsked();
}

bool UnderlayTool::wantsKey(const QKeyEvent& event) const {
  return bench_.document.project().underlay && !bench_.look.isometric() && TypedLine::takes(event);
}

bool UnderlayTool::keyPress(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape && line_.empty() && (first_ || drag_)) {
    cancel();
    return true;
  }
  if (!bench_.document.project().underlay || bench_.look.isometric()) {
    return false;
  }
  switch (line_.key(*event)) {
    case TypedLine::Use::None:
      return false;
    case TypedLine::Use::Taken:
      break;
    case TypedLine::Use::Entered:
      if (const auto typed = parseUnderlayTyped(line_.text.toStdString())) {
        apply(*typed);
      } else {
        line_.problem = QString::fromStdString(typed.error().text());
        emit refused(line_.problem);
      }
      break;
  }
  emit repaintAsked();
  return true;
}

void UnderlayTool::apply(const UnderlayTyped& typed) {
  const shop::Underlay& now = *bench_.document.project().underlay;
  const auto needs = [this] {
    line_.problem = tr("Click the two places first.");
    emit refused(line_.problem);
  };
  switch (typed.what) {
    case UnderlayTyped::What::Length:
      if (!first_ || !second_) {
        needs();
      } else if (put(tr("Scale the underlay"), scaledBy(now, *first_, *second_, typed.length))) {
        forgetPlaces();
      }
      break;
    case UnderlayTyped::What::Square:
      if (!first_ || !second_) {
        needs();
      } else if (put(tr("Square the underlay"), squared(now, *first_, *second_))) {
        forgetPlaces();
      }
      break;
    case UnderlayTyped::What::Turn:
      if (put(tr("Turn the underlay"), turnedBy(now, first_.value_or(now.at), typed.turn_rad))) {
        forgetPlaces();
      }
      break;
    case UnderlayTyped::What::Hide:
    case UnderlayTyped::What::Show: {
      shop::Underlay out = now;
      out.hidden = typed.what == UnderlayTyped::What::Hide;
      if (put(out.hidden ? tr("Hide the underlay") : tr("Show the underlay"), out)) {
        line_.clear();
      }
      break;
    }
  }
  emit hintChanged();
}

void UnderlayTool::paint(QPainter& painter, const PlanView& view) const {
  if (bench_.look.isometric() || !bench_.document.project().underlay) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1.5));
  painter.setBrush(Qt::NoBrush);
  const auto cross = [&](QPointF at) {
    constexpr double kArm_px = 9;
    painter.drawLine(at - QPointF(kArm_px, 0), at + QPointF(kArm_px, 0));
    painter.drawLine(at - QPointF(0, kArm_px), at + QPointF(0, kArm_px));
    painter.drawEllipse(at, 4, 4);
  };
  if (first_) {
    const QPointF to = view.toPx(second_.value_or(pointer_));
    cross(view.toPx(*first_));
    painter.drawLine(view.toPx(*first_), to);
    if (second_) {
      cross(to);
    }
  }
  std::vector<QString> words;
  if (!line_.empty()) {
    words.push_back(line_.text + QStringLiteral("▏"));
  }
  if (!line_.problem.isEmpty()) {
    words.push_back(line_.problem);
  }
  if (first_ && second_ && line_.empty()) {
    words.push_back(tr("how far apart are they?"));
  }
  if (!words.empty()) {
    paintWords(painter, pointer_px_, words, tones, !line_.empty());
  }
}

}  // namespace kerfdraft::desk
