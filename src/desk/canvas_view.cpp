// Which part of the shop is in sight, and how large.
#include <algorithm>

#include "desk/canvas.h"
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
  const drawing::Box box = boxOf(id);
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

}  // namespace kerfdraft::desk
