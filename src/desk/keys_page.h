// A page with every key of the window. It is filled from the actions themselves each time it is asked for.
#pragma once

#include <QDialog>
#include <QKeySequence>
#include <QString>
#include <QTableWidget>
#include <utility>
#include <vector>

namespace kerfdraft::desk {

struct KeyGroup {
  QString name;
  std::vector<std::pair<QKeySequence, QString>> keys;
};

/// Not modal: work goes on beside it. Escape closes it.
class KeysPage : public QDialog {
  Q_OBJECT

 public:
  explicit KeysPage(QWidget* parent);

  void showKeys(const std::vector<KeyGroup>& groups);
  const QTableWidget& table() const { return *table_; }

 private:
  QTableWidget* table_ = nullptr;
};

}  // namespace kerfdraft::desk
