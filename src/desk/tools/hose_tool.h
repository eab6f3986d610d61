// The one hose that is moved from machine to machine: first its duct, then each port that it reaches.
#pragma once

#include "desk/models/snap.h"
#include "desk/tool.h"

namespace kerfdraft::desk {

class HoseTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("hose"); }
  QString name() const override { return tr("Moved hose"); }
  QString hint() const override;

  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  void paint(QPainter& painter, const PlanView& view) const override;

  base::Id duct() const { return duct_; }

 private:
  void aim(const Pointer& pointer);

  base::Id duct_;
  Snapped aimed_;
  shop::PlanPoint pointer_;
  QPointF pointer_px_;
  std::size_t turn_ = 0;
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
