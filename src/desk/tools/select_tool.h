// The tool in hand when no other is: picks things, drags, nudges and removes them.
#pragma once

#include <QElapsedTimer>
#include <array>
#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "desk/models/change.h"
#include "desk/models/guides.h"
#include "desk/models/places.h"
#include "desk/tool.h"
#include "desk/tools/typed_line.h"

namespace kerfdraft::desk {

class SelectTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("select"); }
  QString name() const override { return tr("Pick"); }
  QString hint() const override;
  Qt::CursorShape cursor() const override { return Qt::ArrowCursor; }

  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  void doubleClick(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  QString typedText() const override { return line_.text; }
  void paint(QPainter& painter, const PlanView& view) const override;

 private:
  struct Drag {
    Thing thing;
    shop::PlanPoint from;
    QPointF from_px;
    std::shared_ptr<const shop::Project> before;
    int gesture = 0;  ///< 0 until it has moved
    QString said;     ///< why it does not move; said once
    QPointF to_px;
    Aligned aligned;                    ///< what it is in line with
    std::array<base::Id, 2> corners{};  ///< that a dragged leg puts in
  };
  /// The leg of a duct that was clicked: a bore or height that is typed is meant for it.
  struct PickedLeg {
    base::Id duct;
    base::Id corner;
  };
  std::vector<Thing> thingsUnder(const Pointer& pointer) const;
  base::Result<Change> dragged(const Pointer& pointer);
  bool nudge(const QKeyEvent& event);
  bool walk(bool forward);
  bool typesFor(const QKeyEvent& event) const;
  void applyTyped();

  std::optional<Drag> drag_;
  std::vector<Thing> under_;
  std::size_t turn_ = 0;
  QPointF under_px_;  ///< where that was
  int nudging_ = 0;   ///< gesture of the presses of arrow keys that belong together
  std::set<base::Id> nudged_;
  QElapsedTimer last_nudge_;
  base::Id alone_;  ///< one of several picked things that was pressed
  std::optional<PickedLeg> leg_;
  TypedLine line_;
  QPointF pointer_px_;
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
