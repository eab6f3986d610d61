// The states of use below the plan: a row each, a column for each port. Click one to see its air; a trial
// stands last and can be kept by a name; a kept result stands beside every figure.
#pragma once

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QWidget>
#include <vector>

#include "desk/bench.h"
#include "desk/models/states_table.h"

namespace kerfdraft::desk {

class StatesPanel : public QWidget {
  Q_OBJECT

 public:
  explicit StatesPanel(Bench bench, QWidget* parent = nullptr);

  const std::vector<StateRow>& rows() const { return rows_; }
  QTableWidget& table() { return *table_; }
  QString said() const { return says_->text(); }

 private:
  void refill();
  void pick();
  void keepTrial();
  void addState(bool copy);
  void addForMachines();
  void removeState();
  void moveState(int by);
  void rename(QTableWidgetItem* item);
  void change(const char* path, const QString& text);
  void ask();
  bool make(const QString& words, const shop::Edit& edit);
  const shop::State* shownState() const;

  Bench bench_;
  std::vector<StateRow> rows_;
  QTableWidget* table_;
  QLabel* says_;
  QLineEdit* name_;
  QPushButton* keep_;
  QPushButton* drop_;
  QPushButton* each_;
  QAction* for_each_ = nullptr;  ///< it in the row
  QPushButton* copy_;
  QPushButton* remove_;
  QPushButton* up_;
  QPushButton* down_;
  QComboBox* filter_;
  QCheckBox* used_;
  QPushButton* compare_;
  bool filling_ = false;
};

}  // namespace kerfdraft::desk
