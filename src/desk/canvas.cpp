// Pointer, wheel and keys; what is painted is in canvas_painting.cpp, what is in sight in canvas_view.cpp.
#include "desk/canvas.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QToolTip>
#include <QWheelEvent>
#include <cmath>

#include "desk/models/figures.h"
#include "desk/rulers.h"

namespace kerfdraft::desk {
namespace {

constexpr double kReach_px = 5;

}  // namespace

Canvas::Canvas(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setFocusPolicy(Qt::StrongFocus);
  setMouseTracking(true);
  setAccessibleName(tr("Drawing of the shop"));
  setMinimumSize(200, 150);
  settle_.setSingleShot(true);
  connect(&settle_, &QTimer::timeout, this, [this] { invalidate(); });
  unmark_.setSingleShot(true);
  connect(&unmark_, &QTimer::timeout, this, [this] {
    marked_ = {};
    update();
  });
  connect(&bench_.document, &Document::projectChanged, this, &Canvas::invalidate);
  connect(&bench_.live, &Live::solved, this, &Canvas::invalidate);
  connect(&bench_.live, &Live::judged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::stateChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::unitsChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::viewChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::tonesChanged, this, [this] { update(); });
  connect(&bench_.look, &Look::selectionChanged, this, [this] { update(); });
  connect(&bench_.look, &Look::placeAsked, this, &Canvas::showPlace);
  connect(&bench_.look, &Look::allAsked, this, &Canvas::showAll);
}

void Canvas::invalidate() {
  picture_.reset();
  update();
}

void Canvas::take(Tool* tool) {
  if (tool_ != nullptr) {
    tool_->cancel();
    tool_->disconnect(this);
  }
  tool_ = tool;
  if (tool_ != nullptr) {
    connect(tool_, &Tool::hintChanged, this, [this] { emit hintChanged(tool_->hint()); });
    connect(tool_, &Tool::repaintAsked, this, [this] { update(); });
    connect(tool_, &Tool::refused, this, &Canvas::refused);
    connect(tool_, &Tool::done, this, &Canvas::toolDone);
    setCursor(tool_->cursor());
    tool_->begin();
    emit hintChanged(tool_->hint());
  }
  update();
}

void Canvas::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  paintAll(painter);
}

void Canvas::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  invalidate();
}

Pointer Canvas::pointerAt(QPointF px, Qt::KeyboardModifiers keys, Qt::MouseButtons buttons) {
  Pointer pointer{px, view_.toPlan(px), {}, keys, buttons};
  const double s = picture_view_.px_per_mm;
  pointer.under = paint::elementsAt(picture(), {px.x() / s, px.y() / s}, kReach_px / s);
  return pointer;
}

void Canvas::wheelEvent(QWheelEvent* event) {
  const double steps = event->angleDelta().y() / 120.0;
  if (event->modifiers().testFlag(Qt::ShiftModifier) && bench_.look.isometric()) {
    constexpr double kTurn_rad = 0.13;
    bench_.look.setTurned(bench_.look.turned() + steps * kTurn_rad);
  } else {
    constexpr double kPerStep = 1.2;
    setView(view_.zoomed(std::pow(kPerStep, steps), event->position()));
  }
  event->accept();
}

void Canvas::mousePressEvent(QMouseEvent* event) {
  if (event->button() == Qt::MiddleButton || event->button() == Qt::RightButton) {
    panning_from_ = event->position();
    setCursor(Qt::ClosedHandCursor);
  } else if (tool_ != nullptr) {
    tool_->press(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseMoveEvent(QMouseEvent* event) {
  pointer_px_ = event->position();
  update(0, 0, width(), kRuler_px);
  update(0, 0, kRuler_px, height());
  emit pointerMoved(view_.toPlan(event->position()));
  if (panning_from_) {
    PlanView view = view_;
    view.origin_px += event->position() - *panning_from_;
    panning_from_ = event->position();
    setView(view);
  } else if (tool_ != nullptr) {
    tool_->move(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseReleaseEvent(QMouseEvent* event) {
  if (panning_from_) {
    panning_from_.reset();
    setCursor(tool_ != nullptr ? tool_->cursor() : Qt::ArrowCursor);
  } else if (tool_ != nullptr) {
    tool_->release(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

void Canvas::mouseDoubleClickEvent(QMouseEvent* event) {
  if (tool_ != nullptr && event->button() == Qt::LeftButton) {
    tool_->doubleClick(pointerAt(event->position(), event->modifiers(), event->buttons()));
  }
}

std::vector<std::pair<QKeySequence, QString>> Canvas::keys() {
  return {{QKeySequence(Qt::Key_Escape), tr("Give up what is half drawn; back to Pick")},
          {QKeySequence(Qt::Key_Plus), tr("Nearer")},
          {QKeySequence(Qt::Key_Minus), tr("Farther")},
          {QKeySequence(Qt::Key_Left), tr("Look further west, and so with the other arrows")},
          {QKeySequence(Qt::Key_Tab), tr("The next thing under the pointer, or the next field")}};
}

void Canvas::keyPressEvent(QKeyEvent* event) {
  if (tool_ != nullptr && tool_->keyPress(event)) {
    return;
  }
  if ((event->modifiers() & (Qt::ControlModifier | Qt::AltModifier)) != 0) {
    QWidget::keyPressEvent(event);  // the window's, not ours
    return;
  }
  if (event->text() == QStringLiteral("?")) {
    askWhy();
    return;
  }
  constexpr double kStep = 1.25;
  constexpr double kMove_px = 60;
  PlanView view = view_;
  switch (event->key()) {
    case Qt::Key_Escape:
      if (tool_ != nullptr) {
        tool_->cancel();
        emit hintChanged(tool_->hint());
      }
      emit toolDone();
      update();
      return;
    case Qt::Key_Plus:
    case Qt::Key_Equal:
      setView(view_.zoomed(kStep, QPointF(width() / 2.0, height() / 2.0)));
      return;
    case Qt::Key_Minus:
      setView(view_.zoomed(1 / kStep, QPointF(width() / 2.0, height() / 2.0)));
      return;
    case Qt::Key_Left:
      view.origin_px.rx() += kMove_px;
      break;
    case Qt::Key_Right:
      view.origin_px.rx() -= kMove_px;
      break;
    case Qt::Key_Up:
      view.origin_px.ry() += kMove_px;
      break;
    case Qt::Key_Down:
      view.origin_px.ry() -= kMove_px;
      break;
    default:
      QWidget::keyPressEvent(event);
      return;
  }
  setView(view);
}

bool Canvas::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && tool_ != nullptr &&
      tool_->wantsKey(*static_cast<QKeyEvent*>(event))) {
    event->accept();
    return true;
  }
  if (event->type() == QEvent::KeyPress && tool_ != nullptr) {
    // Tab goes on to the next thing under the pointer where the tool knows one, else to the next field.
    auto* key = static_cast<QKeyEvent*>(event);
    if ((key->key() == Qt::Key_Tab || key->key() == Qt::Key_Backtab) && tool_->keyPress(key)) {
      event->accept();
      return true;
    }
  }
  if (event->type() == QEvent::ToolTip) {
    const auto* help = static_cast<QHelpEvent*>(event);
    const QString words = wordsAt(help->pos());
    if (!words.isEmpty()) {
      QToolTip::showText(help->globalPos(), words, this);
      return true;
    }
    QToolTip::hideText();
    return true;
  }
  return QWidget::event(event);
}

QString Canvas::wordsAt(QPointF px) {
  const std::shared_ptr<const Solved>& solved = bench_.live.latest();
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
