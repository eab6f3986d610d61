// Words come from models/glossary; here they are only hung under the pointer.
#include "desk/explain_terms.h"

#include <QAbstractButton>
#include <QGroupBox>
#include <QLabel>
#include <QTabWidget>
#include <QTableWidget>

#include "desk/models/glossary.h"

namespace kerfdraft::desk {

namespace {

void explainOne(QWidget* widget) {
  QString words;
  if (const auto* label = qobject_cast<QLabel*>(widget)) {
    words = label->text();
  } else if (const auto* button = qobject_cast<QAbstractButton*>(widget)) {
    words = button->text();
  } else if (const auto* box = qobject_cast<QGroupBox*>(widget)) {
    words = box->title();
  } else if (auto* table = qobject_cast<QTableWidget*>(widget)) {
    for (int c = 0; c < table->columnCount(); ++c) {
      if (QTableWidgetItem* head = table->horizontalHeaderItem(c);
          head != nullptr && head->toolTip().isEmpty()) {
        head->setToolTip(tooltipFor(head->text()));
      }
    }
  } else if (auto* tabs = qobject_cast<QTabWidget*>(widget)) {
    for (int t = 0; t < tabs->count(); ++t) {
      if (tabs->tabToolTip(t).isEmpty()) {
        tabs->setTabToolTip(t, tooltipFor(tabs->tabText(t)));
      }
    }
  }
  if (!words.isEmpty() && widget->toolTip().isEmpty()) {
    widget->setToolTip(tooltipFor(words));
  }
}

}  // namespace

QString tooltipFor(const QString& text) {
  QString plain = text;
  plain.remove(QLatin1Char('&'));  // marks of keys to press
  return QString::fromStdString(explainTermsIn(plain.toStdString()));
}

void explainTerms(QWidget* inside) {
  explainOne(inside);
  for (QWidget* child : inside->findChildren<QWidget*>()) {
    explainOne(child);
  }
}

}  // namespace kerfdraft::desk
