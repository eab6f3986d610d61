// Opens and shuts gates to see what happens; nothing in the project changes.
#pragma once

#include "desk/tool.h"

namespace kerfdraft::desk {

class TryTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("try"); }
  QString name() const override { return tr("Try gates"); }
  QString hint() const override { return tr("Click a gate to open or shut it and see what the air does."); }
  Qt::CursorShape cursor() const override { return Qt::PointingHandCursor; }

  void press(const Pointer& pointer) override;
};

}  // namespace kerfdraft::desk
