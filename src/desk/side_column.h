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
  /// The person wants the opened panel to stay whatever is picked.
  bool stays() const { return stay_->isChecked(); }
  QAction* stayAction() const { return stay_; }
  /// The key of each panel, and what it opens.
  std::vector<std::pair<QKeySequence, QString>> keys() const;
  QWidget* panel(const QString& key) const;

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void measure();

  std::vector<PanelPart> parts_;
  QButtonGroup* buttons_ = nullptr;
  QStackedWidget* stack_ = nullptr;
  QAction* stay_ = nullptr;
};

}  // namespace kerfdraft::desk
