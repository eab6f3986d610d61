// The tool in hand when no other is: picks things, moves them, opens and shuts gates.
#pragma once

#include <optional>

#include "desk/tool.h"

namespace kerfdraft::desk {

class SelectTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("select"); }
  QString name() const override { return tr("Pick"); }
  QString hint() const override;
  Qt::CursorShape cursor() const override { return Qt::ArrowCursor; }

  void press(const Pointer& pointer) override;
};

}  // namespace kerfdraft::desk
