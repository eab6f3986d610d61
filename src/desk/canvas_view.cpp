// Which part of the shop is in sight, and how large.
#include <QShowEvent>
#include <algorithm>
#include <utility>

#include "desk/canvas.h"
#include "desk/models/extent.h"
#include "drawing/geometry.h"

namespace kerfdraft::desk {
namespace {

constexpr int kSettle_ms = 60;
constexpr int kMarked_ms = 2500;

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

drawing::Box Canvas::boxOf(base::Id id) {
  drawing::Box box;
  addElement(picture().shapes, id.text(), false, box);
  return box;
}

QRect Canvas::rectOf(base::Id id) {
  const drawing::Box box = boxOf(id);
  if (box.empty()) {
    return {};
  }
  // Until the wheel rests the picture is that of the view before.
  const double s = picture_view_.px_per_mm;
  const double factor = view_.px_per_m / picture_view_.px_per_m;
  const QPointF corner =
      view_.origin_px + (QPointF(box.left * s, box.top * s) - picture_view_.origin_px) * factor;
  // A thin line has an inside too.
  return QRectF(corner, QSizeF(box.width() * s, box.height() * s) * factor)
      .toAlignedRect()
      .adjusted(-1, -1, 1, 1);
}

shop::PlanPoint Canvas::handPlace() const {
  const bool over = pointer_px_ && QRectF(rect()).contains(*pointer_px_);
  return view_.toPlan(over ? *pointer_px_ : QPointF(width() / 2.0, height() / 2.0));
}

void Canvas::setView(const PlanView& view) {
  view_ = view;
  settle_.start(kSettle_ms);
  emit viewChanged();
  update();
}

void Canvas::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (std::exchange(fit_when_shown_, false)) {
    showAll();
  }
}

void Canvas::showAll() {
  // Behind the first page it has no size worth fitting into.
  fit_when_shown_ = !isVisible();
  const shop::Project& project = bench_.document.project();
  drawing::Box box = extentOf(project);
  const std::shared_ptr<const SheetContent>& content = bench_.look.sheet().content();
  if (project.underlay && !project.underlay->hidden && content && content->ok()) {
    const SheetSize size = content->size();
    for (const SheetPoint& corner :
         {size.low, size.high, SheetPoint{size.low.x, size.high.y}, SheetPoint{size.high.x, size.low.y}}) {
      const shop::PlanPoint p = toShop(*project.underlay, corner);
      box.add(drawing::At{static_cast<double>(p.x_um) * 1e-6, static_cast<double>(p.y_um) * 1e-6});
    }
  }
  fit(box, {});
}

void Canvas::showPicked() {
  const drawing::Box box = extentOf(bench_.document.project(), bench_.look.selection());
  if (box.empty()) {
    showAll();
  } else {
    fit(box, bench_.look.selection());
  }
}

void Canvas::fit(const drawing::Box& floor_m, const std::set<base::Id>& only) {
  const drawing::Box box = floor_m.empty() ? drawing::Box{0, 0, 8, 6} : floor_m;
  constexpr double kRim_px = 50;
  PlanView view = view_;
  view.px_per_m = std::clamp(std::min((width() - 2 * kRim_px) / std::max(box.width(), 0.5),
                                      (height() - 2 * kRim_px) / std::max(box.height(), 0.5)),
                             2.0, 4000.0);
  view.origin_px = {width() / 2.0 - box.centre().x * view.px_per_m,
                    height() / 2.0 + box.centre().y * view.px_per_m};
  view_ = view;
  if (bench_.look.isometric()) {
    fitSketch(kRim_px, only);
  }
  emit viewChanged();
  invalidate();
}

void Canvas::fitSketch(double rim_px, const std::set<base::Id>& only) {
  // What lies where is known once it is drawn; words do not grow with it, so it is done twice.
  for (int k = 0; k < 2; ++k) {
    invalidate();
    drawing::Box box;
    for (const base::Id id : only) {
      box.add(boxOf(id));
    }
    if (box.empty()) {
      for (const drawing::Shape& shape : picture().shapes) {
        box.add(drawing::boundsOf(shape));
      }
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
  const QRectF at = rectOf(id);
  if (!at.isEmpty() && !QRectF(rect()).adjusted(30, 30, -30, -30).contains(at.center())) {
    PlanView view = view_;
    view.origin_px += QPointF(width() / 2.0, height() / 2.0) - at.center();
    setView(view);
  }
  update();
}

}  // namespace kerfdraft::desk
