// Every move plans the whole duct anew: what is shown is what a click makes.
#include "desk/tools/duct_tool.h"

#include <cmath>
#include <numbers>

#include "desk/models/places.h"
#include "desk/models/room_draft.h"
#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kWallClearance_m = 0.05;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

DuctTool::DuctTool(Bench bench, QObject* parent) : Tool(std::move(bench), parent) {
  habits_ = usualHabits(bench_.document.project(), bench_.look.units());
}

QString DuctTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Ducts are drawn on the plan; go back to the plan first.");
  }
  if (sketch_.points.empty()) {
    return tr(
        "Click where the duct begins: a port, a collector's inlet, a duct or an open end; then type free "
        "where "
        "the air enters openly, outlet for that of a collector.");
  }
  return tr(
      "Click the next place, or the inlet or duct where it ends. Type a length (3.2 m, 10 ft 6), or up, "
      "down, height, bore, hose, entry and a size; free, outdoors or indoors where it ends in the air. Enter "
      "leaves the end open, Backspace takes a place back.");
}

void DuctTool::begin() {
  const DuctHabits usual = usualHabits(bench_.document.project(), bench_.look.units());
  if (!own_height_) {
    habits_.run_z_um = usual.run_z_um;
  }
  if (!own_bore_) {
    habits_.bore = usual.bore;
  }
}

void DuctTool::setHabits(const DuctHabits& habits) {
  habits_ = habits;
  own_height_ = own_bore_ = true;
  sketch_.habits = habits;
  preview();
}

void DuctTool::cancel() {
  sketch_.points.clear();
  typed_.clear();
  problem_.clear();
  plan_.reset();
  turn_ = 0;
  emit hintChanged();
  emit repaintAsked();
}

void DuctTool::aim(const Pointer& pointer) {
  SnapRequest request;
  request.pointer = pointer_ = pointer.at;
  pointer_px_ = pointer.px;
  request.reach_m = kSnapReach_px / px_per_m_;
  request.units = bench_.look.units();
  request.wall_gap_m = habits_.bore.si() / 2 + kWallClearance_m;
  request.lines = request.grid = !pointer.keys.testFlag(Qt::AltModifier);
  request.turn = turn_;
  if (!sketch_.points.empty()) {
    const Snapped& last = sketch_.points.back().place;
    request.from = last.at;
    if (last.to == SnapTo::OpenEnd) {
      request.leave_out = last.duct;
    }
    if (sketch_.points.size() > 1) {
      const Snapped& before = sketch_.points[sketch_.points.size() - 2].place;
      request.direction_rad = std::atan2(static_cast<double>(last.at.y_um - before.at.y_um),
                                         static_cast<double>(last.at.x_um - before.at.x_um));
    }
  }
  aimed_ = snap(bench_.document.project(), request);
}

SketchPoint DuctTool::pointFrom(const Snapped& place) const {
  const std::int64_t z = sketch_.points.empty() ? habits_.run_z_um : sketch_.points.back().z_um;
  return {place, z, sketch_.points.empty() ? habits_.bore : sketch_.points.back().bore};
}

void DuctTool::preview() {
  plan_.reset();
  if (!sketch_.points.empty()) {
    DuctSketch with = sketch_;
    with.habits = habits_;
    if (aimed_.at != with.points.back().place.at) {
      with.points.push_back(pointFrom(aimed_));
    }
    if (with.points.size() > 1) {
      base::SeededIds ids(1);
      plan_ = planDuct(bench_.document.project(), with, ids);
    }
  }
  emit repaintAsked();
}

void DuctTool::move(const Pointer& pointer) {
  if (std::hypot(pointer.px.x() - pointer_px_.x(), pointer.px.y() - pointer_px_.y()) > 3) {
    turn_ = 0;
  }
  aim(pointer);
  preview();
}

void DuctTool::say(const base::Error& error) {
  problem_ = text(error.text());
  emit refused(problem_);
  emit repaintAsked();
}

void DuctTool::press(const Pointer& pointer) {
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  aim(pointer);
  problem_.clear();
  click(aimed_);
}

void DuctTool::click(const Snapped& place) {
  if (sketch_.points.empty()) {
    // A taken inlet may still be meant for the outlet of its collector.
    if (const auto open = isFree(bench_.document.project(), place); !open && place.to != SnapTo::Inlet) {
      say(open.error());
      return;
    }
    sketch_.habits = habits_;
    sketch_.points.push_back(pointFrom(place));
    // A duct drawn on from another hangs as high as that.
    if (place.z_um &&
        (place.to == SnapTo::OpenEnd || place.to == SnapTo::Duct || place.to == SnapTo::Corner)) {
      sketch_.points.back().z_um = *place.z_um;
    }
  } else if (place.at == sketch_.points.back().place.at) {
    return;  // the second press of a double click
  } else {
    sketch_.points.push_back(pointFrom(place));
    if (endsThere(place)) {
      finish();
      return;
    }
  }
  turn_ = 0;
  preview();
  emit hintChanged();
}

void DuctTool::finish() {
  sketch_.habits = habits_;
  DocumentIds ids(bench_.document);
  const auto plan = planDuct(bench_.document.project(), sketch_, ids);
  if (!plan) {
    if (sketch_.points.back().loose) {
      sketch_.points.back().loose.reset();
    } else if (endsThere(sketch_.points.back().place) && sketch_.points.size() > 1) {
      sketch_.points.pop_back();
    }
    say(plan.error());
    preview();
    return;
  }
  if (make(text(plan->words), plan->edits)) {
    bench_.look.select({plan->duct});
    habits_.run_z_um = sketch_.points.back().z_um;
    cancel();
  } else {
    sketch_.points.pop_back();
    preview();
  }
}

void DuctTool::doubleClick(const Pointer& /*pointer*/) {
  if (sketch_.points.size() > 1) {
    finish();
  }
}

void DuctTool::apply(const Typed& typed) {
  SketchPoint& last = sketch_.points.back();
  const auto micrometres = [](double m) { return static_cast<std::int64_t>(std::llround(m * 1e6)); };
  const bool at_thing = sketch_.points.size() == 1 && last.place.z_um.has_value();
  const std::int64_t here_um = at_thing                    ? *last.place.z_um
                               : sketch_.points.size() > 1 ? sketch_.points[sketch_.points.size() - 2].z_um
                                                           : last.z_um;
  switch (typed.what) {
    case Typed::What::Length: {
      const double x = static_cast<double>(aimed_.at.x_um - last.place.at.x_um);
      const double y = static_cast<double>(aimed_.at.y_um - last.place.at.y_um);
      const double far = std::hypot(x, y);
      if (far < 1) {
        say({base::ErrorCode::Range, "move the pointer to the side where the length goes", {}});
        return;
      }
      Snapped place;
      place.to = SnapTo::Grid;
      place.at = {last.place.at.x_um + micrometres(typed.si * x / far),
                  last.place.at.y_um + micrometres(typed.si * y / far)};
      sketch_.points.push_back(pointFrom(place));
      break;
    }
    case Typed::What::Up:
    case Typed::What::Down: {
      const std::int64_t z = here_um + micrometres(typed.what == Typed::What::Up ? typed.si : -typed.si);
      if (z < 0) {
        say({base::ErrorCode::Range, "that is below the floor", {}});
        return;
      }
      last.z_um = z;
      break;
    }
    case Typed::What::Height:
      last.z_um = habits_.run_z_um = micrometres(typed.si);
      own_height_ = true;
      break;
    case Typed::What::Bore:
      last.bore = habits_.bore = *base::Given<base::Length>::parse(typed.text);
      own_bore_ = true;
      break;
    case Typed::What::Tail: {
      HoseTail tail = habits_.tail.value_or(HoseTail{});
      tail.length = *base::Given<base::Length>::parse(typed.text);
      tail.inside = typed.inside.value_or(tail.inside);
      tail.hung = typed.hung.value_or(tail.hung);
      habits_.tail = tail;
      break;
    }
    case Typed::What::NoTail:
      habits_.tail.reset();
      break;
    case Typed::What::Entry:
      habits_.entry = *base::Given<base::Angle>::parse(typed.text);
      break;
    case Typed::What::Mouth:
    case Typed::What::Outdoors:
    case Typed::What::Indoors:
      endLoosely(typed);
      return;
    case Typed::What::Outlet:
      if (last.place.to != SnapTo::Inlet) {
        say({base::ErrorCode::Conflict, "no collector is there; click its inlet, then type outlet", {}});
        return;
      }
      last.outlet = true;
      if (const shop::Collector* unit = collectorOf(bench_.document.project(), last.place.collector);
          unit != nullptr && unit->outlet_bore && !own_bore_) {
        last.bore = *unit->outlet_bore;
      }
      break;
  }
  preview();
}

void DuctTool::endLoosely(const Typed& typed) {
  SketchPoint& last = sketch_.points.back();
  if (endsThere(last.place)) {
    say({base::ErrorCode::Conflict, "something is at this place already; click where nothing is", {}});
    return;
  }
  const bool mouth = typed.what == Typed::What::Mouth;
  if (!typed.text.empty()) {
    const base::Result<void> known = looseForm(*bench_.catalogue, mouth, typed.text);
    if (!known) {
      say(known.error());
      return;
    }
  }
  const shop::Room* room = roomAt(bench_.document.project(), last.place.at);
  LooseEnd loose;
  loose.mouth = mouth;
  loose.air.form = typed.text;
  if (typed.what != Typed::What::Outdoors && room != nullptr) {
    loose.air.room = room->id;
  }
  if (typed.what == Typed::What::Indoors && room == nullptr) {
    say({base::ErrorCode::Conflict, "this place is in no room; type outdoors", {}});
    return;
  }
  last.loose = loose;
  if (sketch_.points.size() > 1) {
    finish();
  } else {
    preview();
    emit hintChanged();
  }
}

bool DuctTool::wantsKey(const QKeyEvent& event) const {
  return !sketch_.points.empty() && !event.text().isEmpty() && event.text().at(0).isPrint() &&
         !event.modifiers().testFlag(Qt::ControlModifier);
}

bool DuctTool::keyPress(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Escape:
      // One step back at a time: what is typed, then the duct, then the tool.
      if (!typed_.isEmpty() || !problem_.isEmpty()) {
        typed_.clear();
        problem_.clear();
        emit repaintAsked();
        return true;
      }
      if (!sketch_.points.empty()) {
        cancel();
        return true;
      }
      return false;
    case Qt::Key_Tab:
      if (aimed_.choices < 2) {
        return false;
      }
      ++turn_;
      aim({pointer_px_, pointer_, {}, {}, {}});
      preview();
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (typed_.isEmpty()) {
        if (sketch_.points.size() > 1) {
          finish();
        }
        return !sketch_.points.empty();
      }
      if (const auto typed = parseTyped(typed_.toStdString())) {
        typed_.clear();
        problem_.clear();
        apply(*typed);
      } else {
        say(typed.error());
      }
      return true;
    case Qt::Key_Backspace:
      problem_.clear();
      if (!typed_.isEmpty()) {
        typed_.chop(1);
      } else if (!sketch_.points.empty()) {
        sketch_.points.pop_back();
        emit hintChanged();
      } else {
        return false;
      }
      preview();
      return true;
    default:
      break;
  }
  if (wantsKey(*event) && typed_.size() < 60) {
    problem_.clear();
    typed_ += event->text();
    emit repaintAsked();
    return true;
  }
  return false;
}

std::vector<QString> DuctTool::words() const {
  std::vector<QString> lines;
  const base::UnitSystem units = bench_.look.units();
  const auto length = [units](double m) { return text(base::formatQuantity(base::Kind::Length, m, units)); };
  if (!typed_.isEmpty()) {
    lines.push_back(typed_ + QStringLiteral("▏"));
  }
  if (!problem_.isEmpty()) {
    lines.push_back(problem_);
  }
  if (!sketch_.points.empty()) {
    const SketchPoint& last = sketch_.points.back();
    const double m = std::hypot(static_cast<double>(aimed_.at.x_um - last.place.at.x_um),
                                static_cast<double>(aimed_.at.y_um - last.place.at.y_um)) *
                     1e-6;
    lines.push_back(tr("%1 long, %2 up, bore %3")
                        .arg(length(m), length(static_cast<double>(last.z_um) * 1e-6),
                             text(base::formatQuantity(base::Kind::Bore, last.bore.si(), units))));
  }
  if (!aimed_.says.empty()) {
    lines.push_back(text(aimed_.says));
  }
  if (aimed_.choices > 1) {
    lines.push_back(tr("Tab: the next of %1 things here").arg(aimed_.choices));
  }
  if (plan_ && *plan_) {
    for (const std::string& note : (*plan_)->notes) {
      lines.push_back(text(note));
    }
  } else if (plan_ && endsThere(aimed_)) {
    lines.push_back(text(plan_->error().text()));
  }
  return lines;
}

void DuctTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  const QColor blue = paint::shown(drawing::kBlue, tones);
  if (plan_ && *plan_) {
    const DuctPlan& plan = **plan_;
    QColor body = blue;
    body.setAlpha(80);
    for (std::size_t k = 0; k + 1 < plan.path.size(); ++k) {
      const QPointF a = view.toPx(plan.path[k]);
      const QPointF b = view.toPx(plan.path[k + 1]);
      const double width = std::max(2.0, plan.bores_m[k] * view.px_per_m);
      const QPointF d = b - a;
      const double l = std::hypot(d.x(), d.y());
      if (l < 1) {
        // A rise or drop: a ring as wide as the bore.
        painter.setPen(QPen(blue, 1.5));
        painter.setBrush(body);
        painter.drawEllipse(a, width / 2, width / 2);
        continue;
      }
      painter.setPen(QPen(body, width, Qt::SolidLine, Qt::FlatCap));
      painter.drawLine(a, b);
      const QPointF n(-d.y() / l * width / 2, d.x() / l * width / 2);
      painter.setPen(QPen(blue, 1));
      painter.drawLine(a + n, b + n);
      painter.drawLine(a - n, b - n);
      if (l > 24) {
        // Which way the air goes.
        const QPointF u = d / l;
        const QPointF tip = (a + b) / 2 + u * 5;
        painter.setPen(QPen(blue, 2));
        painter.drawLine(tip, tip - u * 9 + QPointF(-u.y(), u.x()) * 5);
        painter.drawLine(tip, tip - u * 9 - QPointF(-u.y(), u.x()) * 5);
      }
    }
  } else if (!sketch_.points.empty()) {
    painter.setPen(QPen(blue, 1.5, Qt::DashLine));
    for (std::size_t k = 0; k + 1 < sketch_.points.size(); ++k) {
      painter.drawLine(view.toPx(sketch_.points[k].place.at), view.toPx(sketch_.points[k + 1].place.at));
    }
    painter.drawLine(view.toPx(sketch_.points.back().place.at), view.toPx(aimed_.at));
  }
  paintAim(painter, view, aimed_, tones);
  paintWords(painter, pointer_px_, words(), tones, !typed_.isEmpty());
}

}  // namespace kerfdraft::desk
