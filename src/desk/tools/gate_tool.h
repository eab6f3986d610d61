// Puts gates with one click.
#pragma once

#include "desk/tools/on_duct_tool.h"

namespace kerfdraft::desk {

class GateTool : public OnDuctTool {
  Q_OBJECT

 public:
  explicit GateTool(Bench bench, QObject* parent = nullptr)
      : OnDuctTool(std::move(bench), Hung::Gate, parent) {}

  QString key() const override { return QStringLiteral("gate"); }
  QString name() const override { return tr("Gate"); }

 protected:
  QString thing() const override { return tr("a gate"); }
};

}  // namespace kerfdraft::desk
