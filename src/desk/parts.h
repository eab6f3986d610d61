// Every tool and every side panel of the window, in the order in which they stand there. Who adds one adds
// its line in parts.cpp and nothing elsewhere.
#pragma once

#include <QKeySequence>
#include <QString>
#include <QWidget>
#include <vector>

#include "desk/bench.h"
#include "desk/tool.h"

namespace kerfdraft::desk {

struct ToolPart {
  Tool* tool = nullptr;
  QKeySequence shortcut;
  bool begins_group = false;  ///< a line stands before its button
};

/// `parent` owns them.
std::vector<ToolPart> makeTools(const Bench& bench, QObject* parent);

struct PanelPart {
  QString key;   ///< "findings": for settings, tests and SideColumn::open()
  QString name;  ///< on its button
  QString tip;
  QKeySequence shortcut;
  QWidget* widget = nullptr;
};

/// `parent` owns them.
std::vector<PanelPart> makeSidePanels(const Bench& bench, QWidget* parent);

}  // namespace kerfdraft::desk
