// A row that says nothing takes no room.
#include "desk/panels/refusals_beside.h"

#include <QScrollArea>
#include <algorithm>

namespace kerfdraft::desk {

void RefusalsBeside::add(const QString& question, QWidget* field, QFormLayout* form) {
  auto* sentence = new QLabel(form->parentWidget());
  sentence->setWordWrap(true);
  QFont strong = sentence->font();
  strong.setBold(true);
  sentence->setFont(strong);
  sentence->setTextFormat(Qt::PlainText);
  sentence->setObjectName(QStringLiteral("refused-") + question);
  sentence->hide();
  form->addRow(QString(), sentence);
  all_.push_back({question, field, sentence});
}

bool RefusalsBeside::say(const QString& question, const QString& sentence) {
  for (const Beside& each : all_) {
    if (each.question == question) {
      each.sentence->setText(sentence);
      each.sentence->setVisible(!sentence.isEmpty());
      // Empty, a reader is told the field's tool tip again.
      each.field->setAccessibleDescription(sentence);
      return true;
    }
  }
  return false;
}

void RefusalsBeside::clear() {
  for (const Beside& each : all_) {
    clear(each.question);
  }
}

QStringList RefusalsBeside::said() const {
  QStringList out;
  for (const Beside& each : all_) {
    if (!each.sentence->text().isEmpty()) {
      out << each.sentence->text();
    }
  }
  return out;
}

void RefusalsBeside::focusFirst() const {
  const auto wrong =
      std::find_if(all_.begin(), all_.end(), [](const Beside& b) { return !b.sentence->text().isEmpty(); });
  if (wrong == all_.end()) {
    return;
  }
  wrong->field->setFocus(Qt::OtherFocusReason);
  for (QWidget* up = wrong->field->parentWidget(); up != nullptr; up = up->parentWidget()) {
    if (up->layout() != nullptr) {
      up->layout()->activate();
    }
    if (auto* area = qobject_cast<QScrollArea*>(up)) {
      area->ensureWidgetVisible(wrong->sentence);
      area->ensureWidgetVisible(wrong->field);
      return;
    }
  }
}

}  // namespace kerfdraft::desk
