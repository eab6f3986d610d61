// Pointer, wheel and fingers: what the tool in hand is told, and what moves the view.
#include <QGestureEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QPinchGesture>
#include <QWheelEvent>
#include <cmath>
#include <numbers>

#include "desk/canvas.h"
#include "desk/models/figures.h"
#include "desk/rulers.h"

namespace kerfdraft::desk {
namespace {

constexpr double kReach_px = 5;

/// Turns the shop by so much; how far its middle goes by that [px], for the view to follow. `made_for` is the
/// view that the picture of the moment was made for.
QPointF turnBy(Canvas& canvas, const PlanView& made_for, Look& look, double rad) {
  const auto middle = [&] {
    drawing::Box box;
    for (const drawing::Shape& shape : canvas.picture().shapes) {
      box.add(drawing::boundsOf(shape));
    }
    const double s = made_for.px_per_mm;
    const QPointF at = box.empty() ? QPointF() : QPointF(box.centre().x * s, box.centre().y * s);
    return canvas.view().origin_px + (at - made_for.origin_px) * (canvas.view().px_per_m / made_for.px_per_m);
  };
  const QPointF before = middle();
  look.setTurned(look.turned() + rad);
  return middle() - before;
}

}  // namespace

Pointer Canvas::pointerAt(QPointF px, Qt::KeyboardModifiers keys, Qt::MouseButtons buttons) {
  Pointer pointer{px, view_.toPlan(px), {}, keys, buttons};
  const drawing::Picture& now = picture();
  // Until the wheel rests the picture is that of the view before.
  const double s = picture_view_.px_per_mm;
  const double factor = view_.px_per_m / picture_view_.px_per_m;
  const QPointF there = picture_view_.origin_px + (px - view_.origin_px) / factor;
  pointer.under = paint::elementsAt(now, {there.x() / s, there.y() / s}, kReach_px / s);
  return pointer;
}

void Canvas::showCursor() {
  if (moving_ != Moving::Nothing) {
    setCursor(moving_ == Moving::Turn ? Qt::SizeHorCursor : Qt::ClosedHandCursor);
  } else if (space_) {
    setCursor(Qt::OpenHandCursor);
  } else {
    setCursor(tool_ != nullptr ? tool_->cursor() : Qt::ArrowCursor);
  }
}

void Canvas::pan(QPointF by_px) {
  PlanView view = view_;
  view.origin_px += by_px;
  setView(view);
}

void Canvas::wheelEvent(QWheelEvent* event) {
  const double steps = event->angleDelta().y() / 120.0;
  if (event->modifiers().testFlag(Qt::ShiftModifier) && bench_.look.isometric()) {
    constexpr double kTurn_rad = 0.13;
    pan(-turnBy(*this, picture_view_, bench_.look, steps * kTurn_rad));
  } else if (!event->pixelDelta().isNull() && !event->modifiers().testFlag(Qt::ControlModifier)) {
    // Only what is pushed about with fingers tells pixels: the drawing goes along with them.
    pan(event->pixelDelta());
  } else {
    constexpr double kPerStep = 1.2;
    setView(view_.zoomed(std::pow(kPerStep, steps), event->position()));
  }
  event->accept();
}

bool Canvas::gesture(QEvent* event) {
  if (event->type() == QEvent::NativeGesture) {
    const auto* native = static_cast<QNativeGestureEvent*>(event);
    if (native->gestureType() == Qt::ZoomNativeGesture) {
      setView(view_.zoomed(1 + native->value(), native->position()));
      return true;
    }
    if (native->gestureType() == Qt::RotateNativeGesture && bench_.look.isometric()) {
      constexpr double kDegree = std::numbers::pi / 180;
      pan(-turnBy(*this, picture_view_, bench_.look, -native->value() * kDegree));
      return true;
    }
    return QWidget::event(event);
  }
  auto* gestures = static_cast<QGestureEvent*>(event);
  auto* pinch = static_cast<QPinchGesture*>(gestures->gesture(Qt::PinchGesture));
  if (pinch == nullptr) {
    return QWidget::event(event);
  }
  pinching_ = pinch->state() == Qt::GestureStarted || pinch->state() == Qt::GestureUpdated;
  const QPointF centre = mapFromGlobal(pinch->centerPoint());
  if (pinch->changeFlags().testFlag(QPinchGesture::CenterPointChanged) &&
      pinch->state() == Qt::GestureUpdated) {
    pan(pinch->centerPoint() - pinch->lastCenterPoint());
  }
  if (pinch->changeFlags().testFlag(QPinchGesture::ScaleFactorChanged) && pinch->scaleFactor() > 0) {
    setView(view_.zoomed(pinch->scaleFactor(), centre));
  }
  gestures->accept(pinch);
  return true;
}

void Canvas::mousePressEvent(QMouseEvent* event) {
  if (moving_ != Moving::Nothing || pinching_) {
    return;
  }
  const bool right = event->button() == Qt::RightButton;
  if (right || event->button() == Qt::MiddleButton || (event->button() == Qt::LeftButton && space_)) {
    moving_ = right && bench_.look.isometric() ? Moving::Turn : Moving::Pan;
    moving_by_ = event->button();
    moved_to_px_ = event->position();
    showCursor();
  } else if (tool_ != nullptr) {
    tool_->press(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseMoveEvent(QMouseEvent* event) {
  pointer_px_ = event->position();
  update(0, 0, width(), kRuler_px);
  update(0, 0, kRuler_px, height());
  emit pointerMoved(view_.toPlan(event->position()));
  if (moving_ != Moving::Nothing) {
    const QPointF by_px = event->position() - moved_to_px_;
    moved_to_px_ = event->position();
    if (moving_ == Moving::Turn) {
      // The near side goes along with the hand.
      constexpr double kRadPerPx = 0.008;
      pan(-turnBy(*this, picture_view_, bench_.look, by_px.x() * kRadPerPx));
    } else {
      pan(by_px);
    }
  } else if (tool_ != nullptr && !pinching_) {
    tool_->move(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseReleaseEvent(QMouseEvent* event) {
  if (moving_ != Moving::Nothing) {
    if (event->button() == moving_by_) {
      moving_ = Moving::Nothing;
      showCursor();
    }
  } else if (tool_ != nullptr) {
    tool_->release(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseDoubleClickEvent(QMouseEvent* event) {
  if (space_) {
    mousePressEvent(event);
  } else if (tool_ != nullptr && event->button() == Qt::LeftButton) {
    tool_->doubleClick(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

QString Canvas::wordsAt(QPointF px) {
  const std::shared_ptr<const Solved>& solved = bench_.live.of(bench_.look.state());
  const Pointer pointer = pointerAt(px, {}, {});
  for (const paint::Found& found : pointer.under) {
    QStringList lines;
    if (solved) {
      for (const std::string& line :
           readout(*solved, bench_.look.state(), found.element, bench_.look.units())) {
        lines << QString::fromStdString(line);
      }
    }
    if (!lines.isEmpty()) {
      lines << tr("? : where does this come from");
      return lines.join(QStringLiteral("\n"));
    }
    if (!found.title.empty()) {
      return QString::fromStdString(found.title);
    }
  }
  return {};
}

void Canvas::askWhy() {
  const std::shared_ptr<const Solved>& solved = bench_.live.latest();
  if (solved && pointer_px_) {
    for (const paint::Found& found : pointerAt(*pointer_px_, {}, {}).under) {
      if (const auto key = numberOfElement(*solved, bench_.look.state(), found.element)) {
        bench_.look.askWhy(QString::fromStdString(*key));
        return;
      }
    }
  }
  // Nothing lies there: the numbers of what is picked, to choose from.
  bench_.look.askWhy(QString());
}

}  // namespace kerfdraft::desk
