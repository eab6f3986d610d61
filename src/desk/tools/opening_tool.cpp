// What the next opening is like stands at the pointer, and is changed by typing there.
#include "desk/tools/opening_tool.h"

#include "desk/tools/sketching.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kWallReach_px = 24;

QString text(std::string_view s) {
  return QString::fromUtf8(s.data(), static_cast<qsizetype>(s.size()));
}

}  // namespace

OpeningTool::OpeningTool(Bench bench, QObject* parent)
    : Tool(std::move(bench), parent), habits_(usualOpening(bench_.look.units())) {}

QString OpeningTool::hint() const {
  if (bench_.look.isometric()) {
    return tr("Doors and windows are put in on the plan; go back to the plan first.");
  }
  return tr(
      "Click a wall. Type before it what it is (door, window, grille, crack, exhaust), its width, open or "
      "shut, area or flow and a figure. Air that the collector blows outdoors must come in somewhere.");
}

void OpeningTool::begin() {
  if (!own_width_) {
    habits_.width = usualOpening(bench_.look.units()).width;
  }
}

void OpeningTool::cancel() {
  line_.clear();
  wall_.reset();
  emit repaintAsked();
}

void OpeningTool::move(const Pointer& pointer) {
  pointer_px_ = pointer.px;
  wall_ = onWall(bench_.document.project(), pointer.at, habits_.width.si(), kWallReach_px / px_per_m_);
  emit repaintAsked();
}

void OpeningTool::press(const Pointer& pointer) {
  if (!pointer.buttons.testFlag(Qt::LeftButton)) {
    return;
  }
  if (bench_.look.isometric()) {
    emit refused(hint());
    return;
  }
  move(pointer);
  DocumentIds ids(bench_.document);
  const auto change =
      newOpening(bench_.document.project(), pointer.at, habits_, kWallReach_px / px_per_m_, ids);
  if (!change) {
    line_.problem = QString::fromStdString(change.error().text());
    emit refused(line_.problem);
  } else if (make(QString::fromStdString(change->words), change->edits)) {
    line_.clear();
  }
  emit repaintAsked();
}

bool OpeningTool::wantsKey(const QKeyEvent& event) const {
  // Its words are typed before the click, so all letters are its own; another tool is a click or Escape away.
  return TypedLine::takes(event);
}

bool OpeningTool::keyPress(QKeyEvent* event) {
  switch (line_.key(*event)) {
    case TypedLine::Use::None:
      return false;
    case TypedLine::Use::Taken:
      break;
    case TypedLine::Use::Entered: {
      const auto changed = openingTyped(habits_, line_.text.toStdString());
      if (changed) {
        own_width_ = own_width_ || !(changed->width == habits_.width);
        habits_ = *changed;
        line_.clear();
      } else {
        line_.problem = QString::fromStdString(changed.error().text());
        emit refused(line_.problem);
      }
      break;
    }
  }
  emit repaintAsked();
  return true;
}

void OpeningTool::paint(QPainter& painter, const PlanView& view) const {
  px_per_m_ = view.px_per_m;
  if (bench_.look.isometric()) {
    return;
  }
  const paint::Tones tones = bench_.look.tones();
  if (wall_) {
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 6, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(view.toPx(wall_->from), view.toPx(wall_->to));
  }
  std::vector<QString> words;
  if (!line_.empty()) {
    words.push_back(line_.text + QStringLiteral("▏"));
  }
  if (!line_.problem.isEmpty()) {
    words.push_back(line_.problem);
  }
  QString what = tr("%1, %2 wide").arg(text(wordOf(habits_.kind)), text(habits_.width.text()));
  const bool shuts = habits_.kind == shop::OpeningKind::Door || habits_.kind == shop::OpeningKind::Window;
  if (shuts) {
    what += habits_.usually_open ? tr(", usually open") : tr(", usually shut");
  } else if (habits_.kind == shop::OpeningKind::Exhaust) {
    what += habits_.flow ? tr(", takes %1").arg(text(habits_.flow->text())) : tr(", flow not typed yet");
  } else {
    what += habits_.area ? tr(", %1 free").arg(text(habits_.area->text())) : tr(", area not typed yet");
  }
  words.push_back(what);
  if (wall_) {
    words.push_back(tr("%1 from the corner")
                        .arg(QString::fromStdString(base::formatQuantity(
                            base::Kind::Length, wall_->from_corner_m, bench_.look.units()))));
  }
  paintWords(painter, pointer_px_, words, tones, !line_.empty());
}

}  // namespace kerfdraft::desk
