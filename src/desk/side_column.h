// The column beside the canvas: one panel at a time, chosen by a row of words above it.
#pragma once

#include <QAction>
#include <QButtonGroup>
#include <QStackedWidget>
#include <QWidget>
#include <vector>

#include "desk/parts.h"

namespace kerfdraft::desk {

class SideColumn : public QWidget {
  Q_OBJECT

 public:
  SideColumn(const Bench& bench, QWidget* parent);

  /// False where there is no such panel.
  bool open(const QString& key);
  QString opened() const;
  /// "Ctrl+1: What is wrong", one for each panel.
  QStringList keys() const;
  QWidget* panel(const QString& key) const;

 private:
  std::vector<PanelPart> parts_;
  QButtonGroup* buttons_ = nullptr;
  QStackedWidget* stack_ = nullptr;
};

}  // namespace kerfdraft::desk
