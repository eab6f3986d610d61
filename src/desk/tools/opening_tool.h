// Doors, windows, grilles, cracks and exhaust fans: one click on a wall, the rest typed at the pointer.
#pragma once

#include <optional>

#include "desk/models/room_draft.h"
#include "desk/tool.h"
#include "desk/tools/typed_line.h"

namespace kerfdraft::desk {

class OpeningTool : public Tool {
  Q_OBJECT

 public:
  explicit OpeningTool(Bench bench, QObject* parent = nullptr);

  QString key() const override { return QStringLiteral("opening"); }
  QString name() const override { return tr("Door"); }
  QString hint() const override;
  void begin() override;
  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  QString typedText() const override { return line_.text; }
  void paint(QPainter& painter, const PlanView& view) const override;

  const OpeningHabits& habits() const { return habits_; }

 private:
  OpeningHabits habits_;
  bool own_width_ = false;
  std::optional<OnWall> wall_;
  QPointF pointer_px_;
  TypedLine line_;
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
