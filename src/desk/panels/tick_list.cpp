// The order in a file is kept: ticking one thing must not write the others anew.
#include "desk/panels/tick_list.h"

#include <QSignalBlocker>

#include <algorithm>

#include "desk/models/property_words.h"

namespace kerfdraft::desk {

TickList::TickList(const std::vector<std::pair<std::string, std::string>>& choices, QWidget* parent)
    : QListWidget(parent) {
  for (const auto& [key, name] : choices) {
    auto* item = new QListWidgetItem(QString::fromStdString(name), this);
    item->setData(Qt::UserRole, QString::fromStdString(key));
    item->setToolTip(QString::fromStdString(explained(name, {}, key)));
    item->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsUserCheckable);
    item->setCheckState(Qt::Unchecked);
  }
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setTextElideMode(Qt::ElideRight);
  setTabKeyNavigation(false);
  constexpr int kRows = 6;
  const int rows = std::clamp(count(), 1, kRows);
  setFixedHeight(rows * std::max(sizeHintForRow(0), fontMetrics().height()) + 2 * frameWidth());
  connect(this, &QListWidget::itemChanged, this, &TickList::ticked);
}

void TickList::tick(const QString& keys) {
  const QSignalBlocker quiet(this);
  shown_ = keys.split(QStringLiteral(", "), Qt::SkipEmptyParts);
  for (int k = 0; k < count(); ++k) {
    const bool on = shown_.contains(item(k)->data(Qt::UserRole).toString());
    item(k)->setCheckState(on ? Qt::Checked : Qt::Unchecked);
  }
}

QString TickList::keys() const {
  QStringList now;
  for (int k = 0; k < count(); ++k) {
    if (item(k)->checkState() == Qt::Checked) {
      now.append(item(k)->data(Qt::UserRole).toString());
    }
  }
  QStringList out;
  for (const QStringList& each : {shown_, now}) {
    for (const QString& key : each) {
      if (now.contains(key) && !out.contains(key)) {
        out.append(key);
      }
    }
  }
  return out.join(QStringLiteral(", "));
}

}  // namespace kerfdraft::desk
