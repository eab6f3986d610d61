// What is on top is meant; Tab goes on to what lies below. A drag is one gesture, counted from the project
// before it, so that it does not gather roundings.
#include "desk/tools/select_tool.h"

#include <algorithm>
#include <cmath>

#include "desk/models/change.h"
#include "desk/models/snap.h"
#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDragBegins_px = 4;

bool hangs(ThingKind kind) {
  return kind == ThingKind::Gate || kind == ThingKind::Tap || kind == ThingKind::Cleanout;
}

}  // namespace

QString SelectTool::hint() const {
  if (bench_.look.selection().empty()) {
    return tr(
        "Click a thing to see and change it; Shift adds to it, Tab takes what lies below. Drag to move.");
  }
  return tr(
      "Drag or use the arrow keys to move it, Delete to take it away. A double click on a duct puts a "
      "corner in.");
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
  emit repaintAsked();
}

void SelectTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  nudging_ = 0;
  under_ = thingsUnder(pointer);
  turn_ = 0;
  std::set<base::Id> picked;
  const bool more = pointer.keys.testFlag(Qt::ShiftModifier);
  if (more) {
    picked = bench_.look.selection();
  }
  if (!under_.empty()) {
    const Thing& thing = under_.front();
    if (more && picked.contains(thing.id)) {
      picked.erase(thing.id);
    } else if (thing.kind == ThingKind::Corner && bench_.look.selection().contains(thing.parent)) {
      picked = bench_.look.selection();  // its duct stays picked, with its handles
    } else {
      picked.insert(thing.id);
    }
    if (!bench_.look.isometric()) {
      drag_ = Drag{thing, pointer.at, pointer.px, bench_.document.snapshot(), 0, {}};
    }
  }
  bench_.look.select(std::move(picked));
  emit hintChanged();
}

void SelectTool::move(const Pointer& pointer) {
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
  base::Result<Change> change = [&]() -> base::Result<Change> {
    if (hangs(kind)) {
      return slideThing(*drag_->before, drag_->thing, pointer.at);
    }
    const double step_um = gridStep(kSnapReach_px / px_per_m_, bench_.look.units()) * 1e6;
    const auto stepped = [&](std::int64_t um) {
      const double asked = static_cast<double>(um);
      return static_cast<std::int64_t>(
          pointer.keys.testFlag(Qt::AltModifier) ? asked : std::round(asked / step_um) * step_um);
    };
    return moveThing(*drag_->before, drag_->thing, stepped(pointer.at.x_um - drag_->from.x_um),
                     stepped(pointer.at.y_um - drag_->from.y_um));
  }();
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
  const bool us = bench_.look.units() == base::UnitSystem::Us;
  const bool far = event.modifiers().testFlag(Qt::ShiftModifier);
  constexpr std::int64_t kInch_um = 25'400;
  const std::int64_t step_um = us ? (far ? 12 * kInch_um : kInch_um) : (far ? 100'000 : 10'000);
  const shop::Project& project = bench_.document.project();
  std::vector<shop::Edit> edits;
  QString words;
  for (const base::Id id : bench_.look.selection()) {
    const auto thing = thingOf(project, id);
    if (!thing) {
      continue;
    }
    if (auto change = moveThing(project, *thing, x * step_um, y * step_um)) {
      words = edits.empty() ? QString::fromStdString(change->words) : tr("Move what is picked");
      edits.insert(edits.end(), change->edits.begin(), change->edits.end());
    }
  }
  if (edits.empty()) {
    return false;
  }
  if (nudging_ == 0 || !event.isAutoRepeat()) {
    nudging_ = bench_.document.newGesture();
  }
  make(words, edits, nudging_);
  return true;
}

bool SelectTool::keyPress(QKeyEvent* event) {
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
        return false;
      }
      turn_ = (turn_ + (event->key() == Qt::Key_Tab ? 1 : under_.size() - 1)) % under_.size();
      bench_.look.select({under_[turn_].id});
      return true;
    }
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
  painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1.5));
  painter.setBrush(paint::shown(drawing::kWhite, tones));
  for (const base::Id id : bench_.look.selection()) {
    if (const shop::Duct* duct = ductOf(bench_.document.project(), id)) {
      for (const shop::Corner& corner : duct->corners) {
        painter.drawRect(QRectF(view.toPx(corner.at) - QPointF(4, 4), QSizeF(8, 8)));
      }
    }
  }
}

}  // namespace kerfdraft::desk
