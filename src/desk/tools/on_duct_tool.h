// One click on a duct: what gate, tap and cleanout tools share.
#pragma once

#include <optional>

#include "desk/models/change.h"
#include "desk/tool.h"

namespace kerfdraft::desk {

class OnDuctTool : public Tool {
  Q_OBJECT

 public:
  OnDuctTool(Bench bench, Hung what, QObject* parent) : Tool(std::move(bench), parent), what_(what) {}

  QString hint() const override;
  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  void paint(QPainter& painter, const PlanView& view) const override;

 protected:
  virtual QString thing() const = 0;  ///< "a gate"

 private:
  void aim();

  Hung what_;
  shop::PlanPoint pointer_;
  QPointF pointer_px_;
  std::optional<LegPlace> place_;
  std::size_t turn_ = 0;
  std::size_t choices_ = 0;
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
