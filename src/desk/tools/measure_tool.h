// Measures between two places; changes nothing.
#pragma once

#include <optional>

#include "desk/models/measure.h"
#include "desk/tool.h"

namespace kerfdraft::desk {

class MeasureTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("measure"); }
  QString name() const override { return tr("Measure"); }
  QString hint() const override;

  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  void paint(QPainter& painter, const PlanView& view) const override;

  /// Between the two places, or to the pointer; nothing before the first click.
  std::optional<Measured> measured() const;

 private:
  void aim(const Pointer& pointer);

  std::optional<Snapped> from_;
  std::optional<Snapped> to_;
  Snapped aimed_;
  QPointF pointer_px_;
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
