// The body follows the pointer in its true size, with its ports, until it is put down.
#include "desk/tools/place_tool.h"

#include <cmath>
#include <numbers>

#include "desk/models/duct_draft.h"
#include "desk/models/placing.h"
#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {

QString PlaceTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Machines are put down on the plan; go back to the plan first.");
  }
  const InHand& hand = bench_.look.inHand();
  if (hand.machine) {
    return tr("Click where %1 stands. R turns it by 90 degrees, Shift+R by 15.")
        .arg(QString::fromStdString(hand.machine->name));
  }
  if (hand.collector) {
    return tr("Click where the inlet of %1 is. Type the inlet's height above the floor, like 4 ft.")
        .arg(QString::fromStdString(hand.collector->name));
  }
  return tr("Choose a machine or a collector in the panel on the right, with Enter or a double click.");
}

void PlaceTool::begin() {
  if (!bench_.look.inHand().machine && !bench_.look.inHand().collector) {
    bench_.look.askPanel(QStringLiteral("machines"));
  }
}

void PlaceTool::cancel() {
  line_.clear();
  turned_rad_ = 0;
  emit repaintAsked();
}

void PlaceTool::move(const Pointer& pointer) {
  pointer_px_ = pointer.px;
  SnapRequest request;
  request.pointer = pointer.at;
  request.reach_m = kSnapReach_px / px_per_m_;
  request.units = bench_.look.units();
  request.things = false;
  request.wall_gap_m = 0;
  if (bench_.look.inHand().machine) {
    // Its back or side against a wall.
    const shop::Machine& machine = *bench_.look.inHand().machine;
    const bool across = std::abs(std::sin(machine.turned.si() + turned_rad_)) > std::numbers::sqrt2 / 2;
    request.wall_gap_m = (across ? machine.width : machine.depth).si() / 2;
  }
  request.lines = request.grid = !pointer.keys.testFlag(Qt::AltModifier);
  aimed_ = snap(bench_.document.project(), request);
  emit repaintAsked();
}

void PlaceTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  const InHand& hand = bench_.look.inHand();
  if (bench_.look.isometric() || (!hand.machine && !hand.collector)) {
    emit refused(hint());
    return;
  }
  move(pointer);
  DocumentIds ids(bench_.document);
  const shop::Project& project = bench_.document.project();
  const base::Result<Change> change =
      hand.machine ? placeMachine(project, *hand.machine, aimed_.at, turned_rad_, ids)
                   : placeCollector(project, *hand.collector, aimed_.at, hand.inlet_height_m, ids);
  if (!change) {
    emit refused(QString::fromStdString(change.error().text()));
    return;
  }
  if (make(QString::fromStdString(change->words), change->edits)) {
    const shop::Edit& edit = change->edits.front();
    bench_.look.select({hand.machine ? std::get<shop::PutMachine>(edit).machine.id
                                     : std::get<shop::PutCollector>(edit).collector.id});
  }
}

void PlaceTool::turn(double rad) {
  turned_rad_ = std::remainder(turned_rad_ + rad, 2 * std::numbers::pi);
  emit repaintAsked();
}

bool PlaceTool::wantsKey(const QKeyEvent& event) const {
  if (bench_.look.inHand().machine) {
    return event.key() == Qt::Key_R;
  }
  return bench_.look.inHand().collector && TypedLine::takes(event) &&
         (!line_.empty() || event.text().at(0).isDigit());
}

bool PlaceTool::keyPress(QKeyEvent* event) {
  const InHand& hand = bench_.look.inHand();
  if (hand.machine && event->key() == Qt::Key_R) {
    constexpr double kDegree = std::numbers::pi / 180;
    turn(event->modifiers().testFlag(Qt::ShiftModifier) ? 15 * kDegree : 90 * kDegree);
    return true;
  }
  if (!hand.collector || (TypedLine::takes(*event) && !wantsKey(*event))) {
    return false;
  }
  switch (line_.key(*event)) {
    case TypedLine::Use::None:
      return false;
    case TypedLine::Use::Taken:
      break;
    case TypedLine::Use::Entered: {
      const auto height = parseLength(line_.text.toStdString());
      constexpr double kHighest_m = 20;
      if (height && *height >= 0 && *height <= kHighest_m) {
        InHand other = hand;
        other.inlet_height_m = *height;
        line_.clear();
        bench_.look.setInHand(std::move(other));
      } else {
        line_.problem = height ? tr("an inlet is between 0 and 20 m above the floor")
                               : QString::fromStdString(height.error().text());
        emit refused(line_.problem);
      }
      break;
    }
  }
  emit repaintAsked();
  return true;
}

void PlaceTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  const InHand& hand = bench_.look.inHand();
  if (bench_.look.isometric() || (!hand.machine && !hand.collector)) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  const QColor blue = paint::shown(drawing::kBlue, tones);
  QColor body = blue;
  body.setAlpha(60);
  painter.setPen(QPen(blue, 2));
  painter.setBrush(body);
  std::vector<QString> words;
  if (!line_.empty()) {
    words.push_back(line_.text + QStringLiteral("▏"));
  }
  if (!line_.problem.isEmpty()) {
    words.push_back(line_.problem);
  }
  const base::UnitSystem units = bench_.look.units();
  if (hand.machine) {
    const shop::Machine placed = machineAt(*hand.machine, {aimed_.at.x_um, aimed_.at.y_um, 0}, turned_rad_);
    painter.save();
    painter.translate(view.toPx(placed.at));
    painter.rotate(-placed.turned.si() * 180 / std::numbers::pi);
    const double w = placed.width.si() * view.px_per_m;
    const double d = placed.depth.si() * view.px_per_m;
    painter.drawRect(QRectF(-w / 2, -d / 2, w, d));
    painter.restore();
    for (const shop::Port& port : placed.ports) {
      const double r = std::max(4.0, port.bore.si() * view.px_per_m / 2);
      painter.drawEllipse(view.toPx(port.at), r, r);
    }
    words.push_back(QString::fromStdString(placed.name));
  } else {
    const double r = std::max(8.0, hand.collector->inlet_bore.si() * view.px_per_m);
    painter.drawEllipse(view.toPx(aimed_.at), r, r);
    words.push_back(QString::fromStdString(hand.collector->name));
    words.push_back(tr("inlet %1 up")
                        .arg(QString::fromStdString(
                            base::formatQuantity(base::Kind::Length, hand.inlet_height_m, units))));
  }
  if (!aimed_.says.empty()) {
    words.push_back(QString::fromStdString(aimed_.says));
  }
  paintAim(painter, view, aimed_, tones);
  paintWords(painter, pointer_px_, words, tones, true);
}

}  // namespace kerfdraft::desk
