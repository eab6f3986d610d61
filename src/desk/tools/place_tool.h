// Puts down the machine or collector that the panel of machines gave into the hand.
#pragma once

#include "desk/models/snap.h"
#include "desk/tool.h"
#include "desk/tools/typed_line.h"

namespace kerfdraft::desk {

class PlaceTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("place"); }
  QString name() const override { return tr("Machine"); }
  QString hint() const override;
  void begin() override;
  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  QString typedText() const override { return line_.text; }
  void paint(QPainter& painter, const PlanView& view) const override;

 private:
  void turn(double rad);

  Snapped aimed_;
  QPointF pointer_px_;
  double turned_rad_ = 0;
  TypedLine line_;  ///< a collector's inlet height
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
