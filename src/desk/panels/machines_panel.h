// What can be put down: search, choose, Enter, and click where it stands.
#pragma once

#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QWidget>
#include <vector>

#include "desk/bench.h"
#include "desk/models/machine_list.h"

namespace kerfdraft::desk {

class MachinesPanel : public QWidget {
  Q_OBJECT

 public:
  explicit MachinesPanel(Bench bench, QWidget* parent = nullptr);

  const std::vector<Offer>& shown() const { return offers_; }
  /// Takes an offer into the hand, as Enter does; a refusal stands in the panel.
  bool take(std::size_t offer);
  QString said() const { return says_->text(); }

 private:
  void refill();
  void showChosen();
  void keepPicked();

  Bench bench_;
  std::vector<Offer> offers_;
  std::vector<shop::Machine> own_;
  QLineEdit* search_ = nullptr;
  QListWidget* list_ = nullptr;
  QLabel* says_ = nullptr;
  QWidget* label_ = nullptr;  ///< fields of a collector
  QWidget* label_only_ = nullptr;
  QLineEdit* flow_ = nullptr;
  QLineEdit* suction_ = nullptr;
  QLineEdit* inlet_ = nullptr;
  QPushButton* put_ = nullptr;
  QPushButton* keep_ = nullptr;
};

}  // namespace kerfdraft::desk
