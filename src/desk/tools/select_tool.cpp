// What is on top is meant; Tab goes on to what lies below. A drag is one gesture, counted from the project
// before it, so that it does not gather roundings.
#include "desk/tools/select_tool.h"

#include <algorithm>
#include <cmath>

#include "desk/models/extent.h"
#include "desk/models/reshape.h"
#include "desk/models/snap.h"
#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDragBegins_px = 4;
/// Presses of arrow keys that are further apart are two steps of undo.
constexpr qint64 kRunEnds_ms = 1500;

bool hangs(ThingKind kind) {
  return kind == ThingKind::Gate || kind == ThingKind::Tap || kind == ThingKind::Cleanout;
}

}  // namespace

QString SelectTool::hint() const {
  if (bench_.look.selection().empty()) {
    return tr(
        "Click a thing to see and change it; Shift adds to it, Tab takes what lies below. Drag to move. "
        "Without a pointer, Tab goes from thing to thing.");
  }
  return tr(
      "Drag or use the arrow keys to move it, Delete to take it away, Enter to change it. Of a duct: a "
      "double click "
      "puts a corner in; type its bore (5 in) or height (8 ft high).");
}

std::vector<Thing> SelectTool::thingsUnder(const Pointer& pointer) const {
  std::vector<Thing> things;
  const shop::Project& project = bench_.document.project();
  const auto add = [&things](const Thing& thing) {
    if (std::find(things.begin(), things.end(), thing) == things.end()) {
      things.push_back(thing);
    }
  };
  // Handles of a picked duct come first.
  if (!bench_.look.isometric()) {
    for (const shop::Duct& duct : project.ducts) {
      if (!bench_.look.selection().contains(duct.id)) {
        continue;
      }
      for (const shop::Corner& corner : duct.corners) {
        const double far_m = std::hypot(static_cast<double>(corner.at.x_um - pointer.at.x_um),
                                        static_cast<double>(corner.at.y_um - pointer.at.y_um)) *
                             1e-6;
        if (far_m * px_per_m_ <= kSnapReach_px) {
          add({ThingKind::Corner, corner.id, duct.id});
        }
      }
    }
  }
  for (const paint::Found& found : pointer.under) {
    if (const auto thing = thingOf(project, found.element)) {
      add(*thing);
    }
  }
  return things;
}

void SelectTool::cancel() {
  // A drag back to where it began is no step any more, and one may have been undone while the button was
  // down: then the last step is another's.
  if (drag_ && drag_->gesture != 0 && bench_.document.project() != *drag_->before) {
    bench_.document.undoStack().undo();
  }
  drag_.reset();
  line_.clear();
  emit repaintAsked();
}

void SelectTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  nudging_ = 0;
  line_.clear();
  leg_.reset();
  under_ = thingsUnder(pointer);
  under_px_ = pointer.px;
  turn_ = 0;
  alone_ = {};
  std::set<base::Id> picked;
  const bool more = pointer.keys.testFlag(Qt::ShiftModifier);
  if (more) {
    picked = bench_.look.selection();
  }
  if (!under_.empty()) {
    const Thing& thing = under_.front();
    if (more && picked.contains(thing.id)) {
      picked.erase(thing.id);
    } else if (!more && bench_.look.selection().size() > 1 && bench_.look.selection().contains(thing.id)) {
      picked = bench_.look.selection();  // all of them may be dragged
      alone_ = thing.id;
    } else if (thing.kind == ThingKind::Corner && bench_.look.selection().contains(thing.parent)) {
      picked = bench_.look.selection();  // its duct stays picked, with its handles
    } else {
      picked.insert(thing.id);
    }
    if (!bench_.look.isometric()) {
      drag_ = Drag{thing, pointer.at, pointer.px, bench_.document.snapshot(), 0, {}, pointer.px, {}, {}};
      if (thing.kind == ThingKind::Duct) {
        for (const LegPlace& place :
             legsNear(bench_.document.project(), pointer.at, kSnapReach_px / px_per_m_)) {
          if (place.duct == thing.id) {
            leg_ = PickedLeg{place.duct, place.corner};
            drag_->corners = {bench_.document.newId(), bench_.document.newId()};
            break;
          }
        }
      }
    }
  }
  bench_.look.select(std::move(picked));
  emit hintChanged();
}

base::Result<Change> SelectTool::dragged(const Pointer& pointer) {
  const shop::Project& before = *drag_->before;
  const Thing& thing = drag_->thing;
  drag_->aligned = {};
  if (hangs(thing.kind)) {
    return slideThing(before, thing, pointer.at);
  }
  const bool freely = pointer.keys.testFlag(Qt::AltModifier);
  const double reach_m = kSnapReach_px / px_per_m_;
  const double step_um = gridStep(reach_m, bench_.look.units()) * 1e6;
  const auto stepped = [&](std::int64_t um) {
    return freely ? um : std::llround(std::round(static_cast<double>(um) / step_um) * step_um);
  };
  const std::int64_t by_x_um = pointer.at.x_um - drag_->from.x_um;
  const std::int64_t by_y_um = pointer.at.y_um - drag_->from.y_um;
  shop::PlanPoint by{stepped(by_x_um), stepped(by_y_um)};
  const shop::Machine* machine =
      thing.kind == ThingKind::Machine && !freely ? machineOf(before, thing.id) : nullptr;
  if (machine != nullptr) {
    const shop::PlanPoint from{machine->at.x_um, machine->at.y_um};
    const Aligned found = alignDragged(before, thing.id, {from.x_um + by_x_um, from.y_um + by_y_um}, reach_m);
    by.x_um = found.x_um ? *found.x_um - from.x_um : by.x_um;
    by.y_um = found.y_um ? *found.y_um - from.y_um : by.y_um;
    // What it is in line with where it now stands, also by the step of the grid.
    constexpr double kThere_m = 1e-3;
    drag_->aligned = alignDragged(before, thing.id, {from.x_um + by.x_um, from.y_um + by.y_um}, kThere_m);
  }
  if (bench_.look.selection().size() > 1 && bench_.look.selection().contains(thing.id)) {
    return moveThings(before, bench_.look.selection(), by.x_um, by.y_um);
  }
  if (thing.kind == ThingKind::Duct && leg_) {
    return moveLeg(before, leg_->duct, leg_->corner, by.x_um, by.y_um, drag_->corners);
  }
  return moveThing(before, thing, by.x_um, by.y_um);
}

void SelectTool::move(const Pointer& pointer) {
  pointer_px_ = pointer.px;
  const QPointF off_px = pointer.px - under_px_;
  if (!drag_ && std::hypot(off_px.x(), off_px.y()) > kSnapReach_px) {
    under_.clear();  // the pointer has left what was clicked
  }
  if (!drag_ || !pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  const QPointF by_px = pointer.px - drag_->from_px;
  if (drag_->gesture == 0 && std::hypot(by_px.x(), by_px.y()) < kDragBegins_px) {
    return;
  }
  const ThingKind kind = drag_->thing.kind;
  if (kind == ThingKind::Room || kind == ThingKind::Opening || kind == ThingKind::Obstacle) {
    return;  // other tools shape rooms
  }
  drag_->to_px = pointer.px;
  const base::Result<Change> change = dragged(pointer);
  if (!change) {
    const QString sentence = QString::fromStdString(change.error().text());
    if (drag_->said != sentence) {
      drag_->said = sentence;
      emit refused(sentence);
    }
    return;
  }
  if (drag_->gesture == 0) {
    drag_->gesture = bench_.document.newGesture();
  }
  make(QString::fromStdString(change->words), change->edits, drag_->gesture);
}

void SelectTool::release(const Pointer& /*pointer*/) {
  // Several are picked and one of them was only clicked: it alone is meant.
  if (drag_ && drag_->gesture == 0 && alone_.valid()) {
    bench_.look.select({alone_});
    emit hintChanged();
  }
  alone_ = {};
  drag_.reset();
  emit repaintAsked();
}

void SelectTool::doubleClick(const Pointer& pointer) {
  drag_.reset();
  if (bench_.look.isometric()) {
    return;
  }
  const bool on_duct = std::any_of(pointer.under.begin(), pointer.under.end(), [](const paint::Found& found) {
    return found.kind == "duct" || found.kind == "hose";
  });
  if (!on_duct) {
    return;
  }
  DocumentIds ids(bench_.document);
  const auto change = insertCorner(bench_.document.project(), pointer.at, kSnapReach_px / px_per_m_, ids);
  if (!change) {
    emit refused(QString::fromStdString(change.error().text()));
  } else if (make(QString::fromStdString(change->words), change->edits)) {
    const auto& put = std::get<shop::InsertCorner>(change->edits.front());
    bench_.look.select({put.duct});
  }
}

bool SelectTool::nudge(const QKeyEvent& event) {
  int x = 0;
  int y = 0;
  switch (event.key()) {
    case Qt::Key_Left:
      x = -1;
      break;
    case Qt::Key_Right:
      x = 1;
      break;
    case Qt::Key_Up:
      y = 1;
      break;
    default:
      y = -1;
      break;
  }
  const bool fine = event.modifiers().testFlag(Qt::ShiftModifier);
  constexpr double kFiner = 5;
  const double reach_m = kSnapReach_px / px_per_m_ / (fine ? kFiner : 1);
  const std::int64_t step_um = std::llround(gridStep(reach_m, bench_.look.units()) * 1e6);
  const shop::Project& project = bench_.document.project();
  std::vector<shop::Edit> edits;
  QString words;
  for (const base::Id id : bench_.look.selection()) {
    const auto thing = thingOf(project, id);
    if (!thing) {
      continue;
    }
    const auto at = placeOf(project, *thing);
    const base::Result<Change> change =
        hangs(thing->kind) && at
            ? slideThing(project, *thing, {at->x_um + x * step_um, at->y_um + y * step_um})
            : moveThing(project, *thing, x * step_um, y * step_um);
    if (change) {
      words = edits.empty() ? QString::fromStdString(change->words) : tr("Move what is picked");
      edits.insert(edits.end(), change->edits.begin(), change->edits.end());
    }
  }
  if (edits.empty()) {
    return false;
  }
  const bool goes_on = nudging_ != 0 && nudged_ == bench_.look.selection() && last_nudge_.isValid() &&
                       last_nudge_.elapsed() < kRunEnds_ms;
  if (!goes_on) {
    nudging_ = bench_.document.newGesture();
    nudged_ = bench_.look.selection();
  }
  last_nudge_.start();
  make(words, edits, nudging_);
  return true;
}

bool SelectTool::walk(bool forward) {
  const auto next = nextInOrder(bench_.document.project(), bench_.look.selection(), forward);
  if (!next) {
    return false;  // past the last one Tab goes on to the next field
  }
  bench_.look.select({next->id});
  bench_.look.showPlace(next->id);
  emit hintChanged();
  return true;
}

bool SelectTool::typesFor(const QKeyEvent& event) const {
  // Letters are the window's shortcuts, so a line for what is picked begins with a figure.
  const bool begins = !event.text().isEmpty() && (event.text().at(0).isDigit() || event.text().at(0) == u'.');
  return !bench_.look.selection().empty() && TypedLine::takes(event) && (begins || !line_.text.isEmpty());
}

bool SelectTool::wantsKey(const QKeyEvent& event) const {
  return typesFor(event);
}

void SelectTool::applyTyped() {
  const auto typed = parsePickedTyped(line_.text.toStdString());
  const auto refuse = [this](const base::Error& error) {
    line_.problem = QString::fromStdString(error.text());
    emit refused(line_.problem);
  };
  if (!typed) {
    refuse(typed.error());
    return;
  }
  // One after the other: a branch that went up with its main is there already.
  shop::Project project = bench_.document.project();
  DocumentIds ids(bench_.document);
  std::vector<shop::Edit> edits;
  std::string words;
  for (const base::Id id : bench_.look.selection()) {
    const auto thing = thingOf(project, id);
    if (!thing || thing->kind != ThingKind::Duct) {
      continue;
    }
    const base::Id corner = leg_ && leg_->duct == id ? leg_->corner : base::Id();
    const auto change = typed->what == PickedTyped::What::Bore
                            ? boreOf(project, id, corner, *base::Given<base::Length>::parse(typed->text))
                            : hangAt(project, id, corner, std::llround(typed->si * 1e6), ids);
    if (!change) {
      refuse(change.error());
      return;
    }
    const auto changed = shop::applyEdits(project, change->edits);
    if (!changed) {
      refuse(changed.error());
      return;
    }
    project = *changed;
    words = change->words;
    edits.insert(edits.end(), change->edits.begin(), change->edits.end());
  }
  if (words.empty()) {
    refuse({base::ErrorCode::Unsupported, "a bore or a height is typed for a duct; pick one", {}});
  } else if (make(QString::fromStdString(words), edits)) {
    line_.clear();
  } else {
    line_.text.clear();
  }
}

bool SelectTool::keyPress(QKeyEvent* event) {
  const bool typing = !line_.empty() || !line_.problem.isEmpty();
  if (typing || typesFor(*event)) {
    switch (line_.key(*event)) {
      case TypedLine::Use::None:
        break;
      case TypedLine::Use::Entered:
        applyTyped();
        emit repaintAsked();
        return true;
      case TypedLine::Use::Taken:
        emit repaintAsked();
        return true;
    }
  }
  switch (event->key()) {
    case Qt::Key_Escape:
      if (drag_) {
        cancel();
        return true;
      }
      if (!bench_.look.selection().empty()) {
        bench_.look.select({});
        emit hintChanged();
        return true;
      }
      return false;
    case Qt::Key_Tab:
    case Qt::Key_Backtab: {
      if (under_.size() < 2 || bench_.look.selection().empty()) {
        return walk(event->key() == Qt::Key_Tab);
      }
      turn_ = (turn_ + (event->key() == Qt::Key_Tab ? 1 : under_.size() - 1)) % under_.size();
      bench_.look.select({under_[turn_].id});
      return true;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (bench_.look.selection().empty()) {
        return false;
      }
      bench_.look.askPanel(QStringLiteral("thing"));
      return true;
    case Qt::Key_Delete:
    case Qt::Key_Backspace: {
      if (bench_.look.selection().empty()) {
        return false;
      }
      const auto change = removeThings(bench_.document.project(), bench_.look.selection());
      if (!change) {
        emit refused(QString::fromStdString(change.error().text()));
      } else if (make(QString::fromStdString(change->words), change->edits)) {
        under_.clear();
        bench_.look.select({});
        emit hintChanged();
      }
      return true;
    }
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down:
      return nudge(*event);
    default:
      return false;
  }
}

void SelectTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  if (drag_ && drag_->gesture != 0) {
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1));
    for (const Guide& guide : drag_->aligned.guides) {
      painter.drawLine(view.toPx(guide.a), view.toPx(guide.b));
    }
    if (!drag_->aligned.says.empty()) {
      paintWords(painter, drag_->to_px, {QString::fromStdString(drag_->aligned.says)}, tones);
    }
  }
  painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1.5));
  painter.setBrush(paint::shown(drawing::kWhite, tones));
  for (const base::Id id : bench_.look.selection()) {
    if (const shop::Duct* duct = ductOf(bench_.document.project(), id)) {
      for (const shop::Corner& corner : duct->corners) {
        painter.drawRect(QRectF(view.toPx(corner.at) - QPointF(4, 4), QSizeF(8, 8)));
      }
    }
  }
  if (!line_.empty() || !line_.problem.isEmpty()) {
    paintWords(painter, pointer_px_, {line_.text + QStringLiteral("▏"), line_.problem}, tones, true);
  }
}

}  // namespace kerfdraft::desk
