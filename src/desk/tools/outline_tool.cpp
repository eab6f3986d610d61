// A drag makes a rectangle, clicks an outline: which one it was is seen when the button comes up.
#include "desk/tools/outline_tool.h"

#include <cmath>

#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDragBegins_px = 6;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

QString shownLength(double m, base::UnitSystem units) {
  return text(base::formatQuantity(base::Kind::Length, m, units));
}

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

}  // namespace

void OutlineTool::cancel() {
  corners_.clear();
  line_.clear();
  pressed_px_.reset();
  emit hintChanged();
  emit repaintAsked();
}

void OutlineTool::aim(const Pointer& pointer) {
  SnapRequest request;
  request.pointer = pointer.at;
  pointer_px_ = pointer.px;
  request.reach_m = kSnapReach_px / px_per_m_;
  request.units = bench_.look.units();
  request.wall_gap_m = 0;
  request.things = false;
  request.lines = request.grid = !pointer.keys.testFlag(Qt::AltModifier);
  if (!corners_.empty()) {
    request.from = corners_.back();
  }
  aimed_ = snap(bench_.document.project(), request);
  if (closes(pointer.at)) {
    aimed_.at = corners_.front();
    aimed_.says = tr("closes the outline").toStdString();
    aimed_.guides.clear();
  }
}

bool OutlineTool::closes(const shop::PlanPoint& at) const {
  return corners_.size() > 2 &&
         std::hypot(metres(at.x_um - corners_.front().x_um), metres(at.y_um - corners_.front().y_um)) *
                 px_per_m_ <=
             kSnapReach_px;
}

void OutlineTool::say(const base::Error& error) {
  line_.problem = text(error.text());
  emit refused(line_.problem);
  emit repaintAsked();
}

void OutlineTool::finish(std::vector<shop::PlanPoint> outline) {
  DocumentIds ids(bench_.document);
  const auto change = changeOf(std::move(outline), ids);
  if (!change) {
    say(change.error());
    return;
  }
  if (make(text(change->words), change->edits)) {
    cancel();
    made();
  }
}

void OutlineTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  aim(pointer);
  line_.problem.clear();
  pressed_px_ = pointer.px;
  if (closes(aimed_.at)) {
    finish(corners_);
  } else if (corners_.empty() || corners_.back() != aimed_.at) {
    corners_.push_back(aimed_.at);
  }
  emit hintChanged();
  emit repaintAsked();
}

void OutlineTool::move(const Pointer& pointer) {
  aim(pointer);
  emit repaintAsked();
}

void OutlineTool::release(const Pointer& pointer) {
  const bool dragged = pressed_px_ && corners_.size() == 1 &&
                       std::abs(pointer.px.x() - pressed_px_->x()) > kDragBegins_px &&
                       std::abs(pointer.px.y() - pressed_px_->y()) > kDragBegins_px;
  pressed_px_.reset();
  if (dragged) {
    aim(pointer);
    finish(rectangle(corners_.front(), aimed_.at));
  }
}

void OutlineTool::doubleClick(const Pointer& /*pointer*/) {
  if (corners_.size() > 2) {
    finish(corners_);
  }
}

void OutlineTool::apply(const OutlineTyped& typed) {
  const auto um = [](double m) { return static_cast<std::int64_t>(std::llround(m * 1e6)); };
  switch (typed.what) {
    case OutlineTyped::What::Size: {
      const shop::PlanPoint from = corners_.empty() ? shop::PlanPoint{0, 0} : corners_.back();
      finish(rectangle(from, {from.x_um + um(typed.a_m), from.y_um + um(typed.b_m)}));
      return;
    }
    case OutlineTyped::What::Length: {
      if (corners_.empty()) {
        say({base::ErrorCode::Range, "click the first corner, or type a size like 20 ft x 24 ft", {}});
        return;
      }
      const double x = metres(aimed_.at.x_um - corners_.back().x_um);
      const double y = metres(aimed_.at.y_um - corners_.back().y_um);
      const double far = std::hypot(x, y);
      if (far < 1e-6) {
        say({base::ErrorCode::Range, "move the pointer to the side where the length goes", {}});
        return;
      }
      corners_.push_back(
          {corners_.back().x_um + um(typed.a_m * x / far), corners_.back().y_um + um(typed.a_m * y / far)});
      break;
    }
    case OutlineTyped::What::Height:
    case OutlineTyped::What::Bottom:
      if (const auto taken = take(typed); !taken) {
        say(taken.error());
        return;
      }
      break;
  }
  emit hintChanged();
  emit repaintAsked();
}

bool OutlineTool::wantsKey(const QKeyEvent& event) const {
  // Letters are shortcuts of other tools until something is begun; figures always mean a size.
  return TypedLine::takes(event) && (!corners_.empty() || !line_.empty() || event.text().at(0).isDigit() ||
                                     event.text() == QStringLiteral("h"));
}

bool OutlineTool::keyPress(QKeyEvent* event) {
  if (TypedLine::takes(*event) && !wantsKey(*event)) {
    return false;
  }
  switch (line_.key(*event)) {
    case TypedLine::Use::Entered: {
      const auto typed = parseOutlineTyped(line_.text.toStdString());
      if (typed) {
        line_.clear();
        apply(*typed);
      } else {
        say(typed.error());
      }
      return true;
    }
    case TypedLine::Use::Taken:
      emit repaintAsked();
      return true;
    case TypedLine::Use::None:
      break;
  }
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (corners_.empty()) {
        return false;
      }
      finish(corners_);
      return true;
    case Qt::Key_Backspace:
      if (corners_.empty()) {
        return false;
      }
      corners_.pop_back();
      emit hintChanged();
      emit repaintAsked();
      return true;
    case Qt::Key_Escape:
      if (corners_.empty()) {
        return false;
      }
      cancel();
      return true;
    default:
      return false;
  }
}

void OutlineTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  const QColor blue = paint::shown(drawing::kBlue, tones);
  QColor body = blue;
  body.setAlpha(40);
  const bool dragging = pressed_px_.has_value() && corners_.size() == 1;
  std::vector<shop::PlanPoint> shown = dragging ? rectangle(corners_.front(), aimed_.at) : corners_;
  if (!dragging && !corners_.empty()) {
    shown.push_back(aimed_.at);
  }
  QPolygonF polygon;
  for (const shop::PlanPoint& p : shown) {
    polygon << view.toPx(p);
  }
  painter.setPen(QPen(blue, 2));
  painter.setBrush(body);
  if (polygon.size() > 2) {
    painter.drawPolygon(polygon);
  } else {
    painter.drawPolyline(polygon);
  }
  paintAim(painter, view, aimed_, tones);
  std::vector<QString> words;
  if (!line_.empty()) {
    words.push_back(line_.text + QStringLiteral("▏"));
  }
  if (!line_.problem.isEmpty()) {
    words.push_back(line_.problem);
  }
  const base::UnitSystem units = bench_.look.units();
  if (!corners_.empty()) {
    const double x = metres(aimed_.at.x_um - corners_.back().x_um);
    const double y = metres(aimed_.at.y_um - corners_.back().y_um);
    words.push_back(dragging
                        ? tr("%1 x %2").arg(shownLength(std::abs(x), units), shownLength(std::abs(y), units))
                        : tr("%1 long").arg(shownLength(std::hypot(x, y), units)));
  }
  if (!aimed_.says.empty()) {
    words.push_back(text(aimed_.says));
  }
  words.push_back(habits());
  paintWords(painter, pointer_px_, words, tones, !line_.empty());
}

// --------------------------------------------------------------------------------------------------- rooms

RoomTool::RoomTool(Bench bench, QObject* parent) : OutlineTool(std::move(bench), parent) {}

QString RoomTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Rooms are drawn on the plan; go back to the plan first.");
  }
  return corners().empty()
             ? tr("Click the first corner of the room, drag from corner to corner, or type its size: 20 ft x "
                  "24 ft. Type height and a figure for the ceiling.")
             : tr("Click the next corner, or type a length toward the pointer (3.2 m, 10 ft 6). Enter or the "
                  "first corner closes it, Backspace takes a corner back.");
}

void RoomTool::begin() {
  emit repaintAsked();
}

base::Result<Change> RoomTool::changeOf(std::vector<shop::PlanPoint> outline, base::IdSource& ids) {
  return newRoom(bench_.document.project(), std::move(outline),
                 height_.value_or(usualRoomHeight(bench_.look.units())), ids);
}

base::Result<void> RoomTool::take(const OutlineTyped& typed) {
  if (typed.what == OutlineTyped::What::Bottom) {
    return base::fail(base::ErrorCode::Unsupported, "a room begins at the floor; type its height");
  }
  height_ = *base::Given<base::Length>::parse(typed.text, base::Standing::Measured);
  return {};
}

QString RoomTool::habits() const {
  return height_ ? tr("%1 high").arg(text(height_->text()))
                 : tr("%1 high (assumed; type height and a figure)")
                       .arg(text(usualRoomHeight(bench_.look.units()).text()));
}

void RoomTool::made() {
  if (bench_.document.project().rooms.size() == 1) {
    bench_.look.showAll();
  }
}

// ----------------------------------------------------------------------------------------------- obstacles

ObstacleTool::ObstacleTool(Bench bench, QObject* parent)
    : OutlineTool(std::move(bench), parent), bottom_(*base::Given<base::Length>::parse("0 m")) {}

QString ObstacleTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Obstacles are drawn on the plan; go back to the plan first.");
  }
  return tr(
      "Posts, cupboards, beams: drag from corner to corner or click the outline. Type bottom or height and a "
      "figure for how far up it stands.");
}

base::Given<base::Length> ObstacleTool::topOf() const {
  return top_.value_or(
      *base::Given<base::Length>::parse(bench_.look.units() == base::UnitSystem::Us ? "6 ft" : "1.8 m"));
}

base::Result<Change> ObstacleTool::changeOf(std::vector<shop::PlanPoint> outline, base::IdSource& ids) {
  return newObstacle(bench_.document.project(), std::move(outline), bottom_, topOf(), ids);
}

base::Result<void> ObstacleTool::take(const OutlineTyped& typed) {
  auto given = *base::Given<base::Length>::parse(typed.text, base::Standing::Measured);
  if (typed.what == OutlineTyped::What::Bottom) {
    bottom_ = std::move(given);
  } else {
    top_ = std::move(given);
  }
  return {};
}

QString ObstacleTool::habits() const {
  return tr("from %1 to %2 above the floor").arg(text(bottom_.text()), text(topOf().text()));
}

}  // namespace kerfdraft::desk
