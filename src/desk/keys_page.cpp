// Two columns: the key, and what it does; the name of a group stands across both.
#include "desk/keys_page.h"

#include <QHeaderView>
#include <QVBoxLayout>

namespace kerfdraft::desk {

KeysPage::KeysPage(QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("All keys"));
  table_ = new QTableWidget(0, 2, this);
  table_->setAccessibleName(tr("All keys"));
  table_->setHorizontalHeaderLabels({tr("Key"), tr("What it does")});
  table_->verticalHeader()->hide();
  table_->horizontalHeader()->setStretchLastSection(true);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setShowGrid(false);
  table_->setTabKeyNavigation(false);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(table_);
  resize(460, 640);
}

void KeysPage::showKeys(const std::vector<KeyGroup>& groups) {
  table_->setRowCount(0);
  table_->clearSpans();
  const auto row_of = [this](const QString& first, const QString& second) {
    const int row = table_->rowCount();
    table_->insertRow(row);
    table_->setItem(row, 0, new QTableWidgetItem(first));
    table_->setItem(row, 1, new QTableWidgetItem(second));
    return row;
  };
  for (const KeyGroup& group : groups) {
    if (group.keys.empty()) {
      continue;
    }
    const int row = row_of(group.name, {});
    QFont bold = table_->font();
    bold.setBold(true);
    table_->item(row, 0)->setFont(bold);
    table_->setSpan(row, 0, 1, 2);
    for (const auto& [key, words] : group.keys) {
      row_of(key.toString(QKeySequence::NativeText), words);
    }
  }
  table_->resizeColumnToContents(0);
  show();
  raise();
  activateWindow();
  table_->setFocus();
}

}  // namespace kerfdraft::desk
