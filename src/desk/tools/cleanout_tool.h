// Puts doors to clean through with one click.
#pragma once

#include "desk/tools/on_duct_tool.h"

namespace kerfdraft::desk {

class CleanoutTool : public OnDuctTool {
  Q_OBJECT

 public:
  explicit CleanoutTool(Bench bench, QObject* parent = nullptr)
      : OnDuctTool(std::move(bench), Hung::Cleanout, parent) {}

  QString key() const override { return QStringLiteral("cleanout"); }
  QString name() const override { return tr("Cleanout"); }

 protected:
  QString thing() const override { return tr("a cleanout"); }
};

}  // namespace kerfdraft::desk
