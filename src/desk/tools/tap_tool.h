// Puts holes to measure at with one click.
#pragma once

#include "desk/tools/on_duct_tool.h"

namespace kerfdraft::desk {

class TapTool : public OnDuctTool {
  Q_OBJECT

 public:
  explicit TapTool(Bench bench, QObject* parent = nullptr)
      : OnDuctTool(std::move(bench), Hung::Tap, parent) {}

  QString key() const override { return QStringLiteral("tap"); }
  QString name() const override { return tr("Measuring tap"); }

 protected:
  QString thing() const override { return tr("a tap"); }
};

}  // namespace kerfdraft::desk
