// Between two settled views the old picture is stretched, so that zoom and pan never wait for labels.
#include "desk/canvas.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>
#include <cmath>

#include "desk/models/figures.h"
#include "desk/rulers.h"
#include "drawing/geometry.h"
#include "drawing/isometric.h"
#include "drawing/plan.h"
#include "drawing/style.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::desk {
namespace {

constexpr double kReach_px = 5;
constexpr int kSettle_ms = 60;
constexpr int kMarked_ms = 2500;

const pieces::Pieces& nothing() {
  static const pieces::Pieces kEmpty;
  return kEmpty;
}

/// Where the shapes of an element lie [mm].
void addElement(const std::vector<drawing::Shape>& shapes, const std::string& element, bool inside,
                drawing::Box& box) {
  for (const drawing::Shape& shape : shapes) {
    if (const auto* group = std::get_if<drawing::Group>(&shape.what)) {
      addElement(group->shapes, element, inside || group->element.find(element) != std::string::npos, box);
    } else if (inside) {
      box.add(drawing::boundsOf(shape));
    }
  }
}

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

void Canvas::setView(const PlanView& view) {
  view_ = view;
  settle_.start(kSettle_ms);
  emit viewChanged();
  update();
}

void Canvas::showAll() {
  const shop::Project& project = bench_.document.project();
  drawing::Box box;  // metres, y up
  const auto add = [&](double x_um, double y_um) { box.add(drawing::At{x_um * 1e-6, y_um * 1e-6}); };
  for (const shop::Room& room : project.rooms) {
    for (const shop::PlanPoint& p : room.outline) {
      add(static_cast<double>(p.x_um), static_cast<double>(p.y_um));
    }
  }
  for (const shop::Machine& machine : project.machines) {
    add(static_cast<double>(machine.at.x_um), static_cast<double>(machine.at.y_um));
  }
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Corner& corner : duct.corners) {
      add(static_cast<double>(corner.at.x_um), static_cast<double>(corner.at.y_um));
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    add(static_cast<double>(collector.at.x_um), static_cast<double>(collector.at.y_um));
  }
  if (box.empty()) {
    box = {0, 0, 8, 6};
  }
  const double rim_px = 50;
  PlanView view = view_;
  view.px_per_m = std::clamp(std::min((width() - 2 * rim_px) / std::max(box.width(), 0.5),
                                      (height() - 2 * rim_px) / std::max(box.height(), 0.5)),
                             2.0, 4000.0);
  view.origin_px = {width() / 2.0 - box.centre().x * view.px_per_m,
                    height() / 2.0 + box.centre().y * view.px_per_m};
  view_ = view;
  if (bench_.look.isometric()) {
    fitSketch(rim_px);
  }
  emit viewChanged();
  invalidate();
}

void Canvas::fitSketch(double rim_px) {
  // What lies where is known once it is drawn; words do not grow with it, so it is done twice.
  for (int k = 0; k < 2; ++k) {
    invalidate();
    drawing::Box box;
    for (const drawing::Shape& shape : picture().shapes) {
      box.add(drawing::boundsOf(shape));
    }
    if (box.empty()) {
      return;
    }
    const double s = view_.px_per_mm;
    const double factor = std::min((width() - 2 * rim_px) / std::max(box.width() * s, 1.0),
                                   (height() - 2 * rim_px) / std::max(box.height() * s, 1.0));
    const QPointF centre(box.centre().x * s, box.centre().y * s);
    view_ = view_.zoomed(factor, centre);
    view_.origin_px += QPointF(width() / 2.0, height() / 2.0) - centre;
  }
}

void Canvas::showPlace(base::Id id) {
  marked_ = id;
  unmark_.start(kMarked_ms);
  const drawing::Picture& now = picture();
  drawing::Box box;
  addElement(now.shapes, id.text(), false, box);
  if (!box.empty()) {
    const QPointF centre(box.centre().x * view_.px_per_mm, box.centre().y * view_.px_per_mm);
    if (!QRectF(rect()).adjusted(30, 30, -30, -30).contains(centre)) {
      PlanView view = view_;
      view.origin_px += QPointF(width() / 2.0, height() / 2.0) - centre;
      setView(view);
    }
  }
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
    drawing::Box box;
    addElement(picture().shapes, id.text(), false, box);
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
