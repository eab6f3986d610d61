// A thing has no widget of its own: its interface looks it up by its id each time, so that it says what is
// now.
#include "desk/canvas_access.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QPointer>
#include <map>

#include "desk/canvas.h"
#include "desk/models/extent.h"
#include "desk/models/spoken.h"

namespace kerfdraft::desk {
namespace {

class ThingAccess final : public QAccessibleInterface, public QAccessibleActionInterface {
 public:
  ThingAccess(Canvas* canvas, base::Id id) : canvas_(canvas), id_(id) {}

  base::Id id() const { return id_; }
  bool isValid() const override { return canvas_ != nullptr && thing().has_value(); }
  QObject* object() const override { return nullptr; }
  QWindow* window() const override {
    return canvas_ == nullptr ? nullptr : canvas_->window()->windowHandle();
  }
  QAccessibleInterface* parent() const override {
    return QAccessible::queryAccessibleInterface(canvas_.data());
  }
  QAccessibleInterface* child(int /*index*/) const override { return nullptr; }
  QAccessibleInterface* childAt(int /*x*/, int /*y*/) const override { return nullptr; }
  int childCount() const override { return 0; }
  int indexOfChild(const QAccessibleInterface* /*child*/) const override { return -1; }
  QAccessible::Role role() const override { return QAccessible::ListItem; }
  void setText(QAccessible::Text /*which*/, const QString& /*text*/) override {}

  QString text(QAccessible::Text which) const override {
    const auto what = canvas_ == nullptr ? std::nullopt : thing();
    if (!what) {
      return {};
    }
    const Bench& bench = canvas_->bench();
    switch (which) {
      case QAccessible::Name:
        return QString::fromStdString(spokenName(project(), *what));
      case QAccessible::Description:
      case QAccessible::Value:
        return QString::fromStdString(spokenState(project(), bench.live.of(bench.look.state()).get(),
                                                  bench.look.state(), *what, bench.look.units()));
      default:
        return {};
    }
  }
  QRect rect() const override {
    const QRect at = canvas_ == nullptr ? QRect() : canvas_->rectOf(id_);
    return at.isEmpty() ? QRect() : QRect(canvas_->mapToGlobal(at.topLeft()), at.size());
  }
  QAccessible::State state() const override {
    QAccessible::State out;
    if (!isValid()) {
      out.invalid = true;
      return out;
    }
    const std::set<base::Id>& picked = canvas_->bench().look.selection();
    out.focusable = true;
    out.selectable = true;
    out.multiSelectable = true;
    out.selected = picked.contains(id_);
    out.focused = out.selected && picked.size() == 1 && canvas_->hasFocus();
    out.offscreen = !canvas_->rectOf(id_).intersects(canvas_->rect());
    return out;
  }
  void* interface_cast(QAccessible::InterfaceType type) override {
    return type == QAccessible::ActionInterface ? static_cast<QAccessibleActionInterface*>(this) : nullptr;
  }

  QStringList actionNames() const override { return {pressAction(), setFocusAction()}; }
  void doAction(const QString& /*name*/) override {
    if (isValid()) {
      canvas_->setFocus();
      canvas_->bench().look.select({id_});
      canvas_->bench().look.showPlace(id_);
    }
  }
  QStringList keyBindingsForAction(const QString& /*name*/) const override { return {}; }

 private:
  const shop::Project& project() const { return canvas_->bench().document.project(); }
  std::optional<Thing> thing() const { return thingOf(project(), id_); }

  QPointer<Canvas> canvas_;
  base::Id id_;
};

class CanvasAccess final : public QAccessibleWidget {
 public:
  explicit CanvasAccess(Canvas* canvas) : QAccessibleWidget(canvas, QAccessible::Canvas) {}
  CanvasAccess(const CanvasAccess&) = delete;
  CanvasAccess& operator=(const CanvasAccess&) = delete;

  int childCount() const override {
    return static_cast<int>(things().size()) + QAccessibleWidget::childCount();
  }
  QAccessibleInterface* child(int index) const override {
    const std::vector<Thing> all = things();
    if (index < 0 || index >= static_cast<int>(all.size())) {
      return QAccessibleWidget::child(index - static_cast<int>(all.size()));
    }
    return access(all[static_cast<std::size_t>(index)].id);
  }
  int indexOfChild(const QAccessibleInterface* child) const override {
    if (const auto* thing = dynamic_cast<const ThingAccess*>(child)) {
      return accessibleChildOf(canvas(), thing->id());
    }
    const int beside = QAccessibleWidget::indexOfChild(child);
    return beside < 0 ? -1 : beside + static_cast<int>(things().size());
  }
  QAccessibleInterface* childAt(int x, int y) const override {
    const QPoint at = canvas().mapFromGlobal(QPoint(x, y));
    // The smallest that holds the place: a gate before its duct before the room.
    std::optional<base::Id> best;
    qint64 best_area = 0;
    for (const Thing& thing : things()) {
      const QRect where = canvas().rectOf(thing.id);
      const qint64 area = static_cast<qint64>(where.width()) * where.height();
      if (where.contains(at) && (!best || area < best_area)) {
        best = thing.id;
        best_area = area;
      }
    }
    return best ? access(*best) : QAccessibleWidget::childAt(x, y);
  }
  QAccessibleInterface* focusChild() const override {
    const std::set<base::Id>& picked = canvas().bench().look.selection();
    if (canvas().hasFocus() && picked.size() == 1 && accessibleChildOf(canvas(), *picked.begin()) >= 0) {
      return access(*picked.begin());
    }
    return QAccessibleWidget::focusChild();
  }
  QString text(QAccessible::Text which) const override {
    // Not every reader asks for the value of what is no field: the description says the same.
    return which == QAccessible::Value || which == QAccessible::Description ? canvas().spoken()
                                                                            : QAccessibleWidget::text(which);
  }

 protected:
  ~CanvasAccess() override {
    for (const auto& [id, known] : known_) {
      QAccessible::deleteAccessibleInterface(known);
    }
  }

 private:
  Canvas& canvas() const { return *static_cast<Canvas*>(widget()); }
  std::vector<Thing> things() const { return readingOrder(canvas().bench().document.project()); }
  QAccessibleInterface* access(base::Id id) const {
    if (const auto at = known_.find(id); at != known_.end()) {
      return QAccessible::accessibleInterface(at->second);
    }
    auto* made = new ThingAccess(&canvas(), id);
    known_[id] = QAccessible::registerAccessibleInterface(made);
    return made;
  }

  mutable std::map<base::Id, QAccessible::Id> known_;
};

QAccessibleInterface* makeAccess(const QString& /*key*/, QObject* object) {
  auto* canvas = qobject_cast<Canvas*>(object);
  return canvas == nullptr ? nullptr : new CanvasAccess(canvas);
}

}  // namespace

void installCanvasAccess() {
  QAccessible::installFactory(makeAccess);
}

int accessibleChildOf(const Canvas& canvas, base::Id id) {
  const std::vector<Thing> all = readingOrder(canvas.bench().document.project());
  const auto at = std::find_if(all.begin(), all.end(), [id](const Thing& each) { return each.id == id; });
  return at == all.end() ? -1 : static_cast<int>(at - all.begin());
}

}  // namespace kerfdraft::desk
