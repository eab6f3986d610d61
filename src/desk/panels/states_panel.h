// The states of use below the plan: click one to see its air; a trial stands last and can be kept by a name.
#pragma once

#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QWidget>

#include "desk/bench.h"

namespace kerfdraft::desk {

class StatesPanel : public QWidget {
  Q_OBJECT

 public:
  explicit StatesPanel(Bench bench, QWidget* parent = nullptr);

 private:
  void refill();
  void pick();
  void keepTrial();

  Bench bench_;
  QTableWidget* table_;
  QLineEdit* name_;
  QPushButton* keep_;
  QPushButton* drop_;
  bool filling_ = false;
};

}  // namespace kerfdraft::desk
