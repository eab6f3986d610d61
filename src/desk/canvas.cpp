// The tool in hand and its keys. The pointer is in canvas_pointer.cpp, what is painted in
// canvas_painting.cpp, what is in sight in canvas_view.cpp.
#include "desk/canvas.h"
#include "desk/canvas_access.h"

#include <QHelpEvent>
#include <QToolTip>

namespace kerfdraft::desk {
Canvas::Canvas(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setFocusPolicy(Qt::StrongFocus);
  setMouseTracking(true);
  setAccessibleName(tr("Shop plan"));
  setAttribute(Qt::WA_InputMethodEnabled);
  installCanvasAccess();
  setMinimumSize(200, 150);
  grabGesture(Qt::PinchGesture);
  settle_.setSingleShot(true);
  connect(&settle_, &QTimer::timeout, this, [this] { invalidate(); });
  unmark_.setSingleShot(true);
  connect(&unmark_, &QTimer::timeout, this, [this] {
    marked_ = {};
    update();
  });
  connect(&bench_.document, &Document::projectChanged, this, &Canvas::invalidate);
  connect(&bench_.live, &Live::shown, this, &Canvas::invalidate);
  connect(&bench_.live, &Live::solved, this, &Canvas::invalidate);
  connect(&bench_.live, &Live::judged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::stateChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::keptChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::unitsChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::viewChanged, this, &Canvas::invalidate);
  connect(&bench_.look, &Look::tonesChanged, this, [this] { update(); });
  connect(&bench_.look, &Look::selectionChanged, this, [this] {
    update();
    tellPicked();
  });
  connect(&bench_.look, &Look::placeAsked, this, &Canvas::showPlace);
  connect(&bench_.look.sheet(), &UnderlaySheet::changed, this, [this] { update(); });
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
    connect(tool_, &Tool::hintChanged, this, [this] {
      emit hintChanged(tool_->hint());
      tellTyping();
    });
    connect(tool_, &Tool::repaintAsked, this, [this] {
      update();
      tellTyping();
    });
    connect(tool_, &Tool::refused, this, &Canvas::refused);
    connect(tool_, &Tool::done, this, &Canvas::toolDone);
    showCursor();
    tool_->begin();
    emit hintChanged(tool_->hint());
  }
  preedit_.clear();
  tellTyping();
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

std::vector<std::pair<QKeySequence, QString>> Canvas::keys() {
  return {{QKeySequence(Qt::Key_Escape), tr("Give up what is half drawn; back to Pick")},
          {QKeySequence(Qt::Key_Plus), tr("Nearer")},
          {QKeySequence(Qt::Key_Minus), tr("Farther")},
          {QKeySequence(Qt::Key_Left),
           tr("Move what is picked by a step, or look further west; so with the others")},
          {QKeySequence(Qt::SHIFT | Qt::Key_Left), tr("The same by a finer step")},
          {QKeySequence(Qt::Key_Space), tr("Held down: drag the drawing about")},
          {QKeySequence(Qt::Key_Tab),
           tr("The next thing under the pointer or on the plan; after the last, the next field")},
          {QKeySequence(Qt::SHIFT | Qt::Key_Tab), tr("The thing before")},
          {QKeySequence(Qt::Key_Return), tr("Open what is picked, to read and to change")}};
}

void Canvas::keyPressEvent(QKeyEvent* event) {
  if (holdsDrawing(*event)) {
    if (!event->isAutoRepeat()) {
      space_ = true;
      showCursor();
    }
    return;
  }
  if (space_) {
    // Another key: the space came up where nobody said so.
    space_ = false;
    showCursor();
  }
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

bool Canvas::holdsDrawing(const QKeyEvent& event) const {
  // In the middle of what is typed a space is a space.
  return event.key() == Qt::Key_Space && event.modifiers() == Qt::NoModifier &&
         (tool_ == nullptr || tool_->typedText().isEmpty());
}

void Canvas::keyReleaseEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space && !event->isAutoRepeat() && space_) {
    space_ = false;
    showCursor();
    return;
  }
  QWidget::keyReleaseEvent(event);
}

void Canvas::focusOutEvent(QFocusEvent* event) {
  // The key comes up elsewhere then, and nobody says so.
  space_ = false;
  showCursor();
  QWidget::focusOutEvent(event);
}

bool Canvas::event(QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride) {
    const auto& key = *static_cast<QKeyEvent*>(event);
    if (holdsDrawing(key) || (tool_ != nullptr && tool_->wantsKey(key))) {
      event->accept();
      return true;
    }
  }
  if (event->type() == QEvent::NativeGesture || event->type() == QEvent::Gesture) {
    return gesture(event);
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

}  // namespace kerfdraft::desk
