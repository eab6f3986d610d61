// Each click on a port adds it to the hose's places or takes it out again.
#include "desk/tools/hose_tool.h"

#include "desk/models/change.h"
#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {

QString HoseTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("This is done on the plan; go back to the plan first.");
  }
  return duct_.valid()
             ? tr("Click each port that the hose is moved to; click again to take it out. Enter ends.")
             : tr("Click the duct whose hose is moved from machine to machine.");
}

void HoseTool::cancel() {
  duct_ = {};
  turn_ = 0;
  emit hintChanged();
  emit repaintAsked();
}

void HoseTool::aim(const Pointer& pointer) {
  pointer_ = pointer.at;
  pointer_px_ = pointer.px;
  SnapRequest request;
  request.pointer = pointer.at;
  request.reach_m = kSnapReach_px / px_per_m_;
  request.units = bench_.look.units();
  request.lines = request.grid = false;
  request.turn = turn_;
  if (duct_.valid()) {
    request.leave_out = duct_;
  }
  aimed_ = snap(bench_.document.project(), request);
}

void HoseTool::move(const Pointer& pointer) {
  aim(pointer);
  emit repaintAsked();
}

void HoseTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  aim(pointer);
  if (!duct_.valid()) {
    if (!aimed_.duct.valid()) {
      emit refused(tr("Click on a duct first: the one that the hose belongs to."));
      return;
    }
    duct_ = aimed_.duct;
    bench_.look.select({duct_});
    emit hintChanged();
  } else if (aimed_.to != SnapTo::Port) {
    emit refused(tr("The hose is moved to ports; click on one."));
  } else {
    const auto change = toggleHosePlace(bench_.document.project(), duct_, aimed_.port);
    if (!change) {
      emit refused(QString::fromStdString(change.error().text()));
    } else {
      make(QString::fromStdString(change->words), change->edits);
    }
  }
  emit repaintAsked();
}

bool HoseTool::keyPress(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Tab:
      if (aimed_.choices < 2) {
        return false;
      }
      ++turn_;
      aim({pointer_px_, pointer_, {}, {}, {}});
      emit repaintAsked();
      return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Escape:
      if (!duct_.valid()) {
        return false;
      }
      cancel();
      return true;
    default:
      return false;
  }
}

void HoseTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  const shop::Project& project = bench_.document.project();
  const shop::Duct* duct = ductOf(project, duct_);
  if (duct != nullptr && duct->corners.size() > 1) {
    const QPointF from = view.toPx(duct->corners[1].at);
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 2, Qt::DashLine));
    painter.setBrush(Qt::NoBrush);
    if (const auto* moved = std::get_if<shop::MovedEnd>(&duct->from)) {
      for (const shop::PortRef& place : moved->places) {
        if (const shop::Port* port = portOf(project, place)) {
          painter.drawLine(from, view.toPx(port->at));
          painter.drawEllipse(view.toPx(port->at), 9, 9);
        }
      }
    }
  }
  if (aimed_.to != SnapTo::Nothing) {
    paintAim(painter, view, aimed_, tones);
    std::vector<QString> words{QString::fromStdString(aimed_.says)};
    if (aimed_.choices > 1) {
      words.push_back(tr("Tab: the next of %1 things here").arg(aimed_.choices));
    }
    paintWords(painter, pointer_px_, words, tones);
  }
}

}  // namespace kerfdraft::desk
