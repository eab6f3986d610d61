// Shortcuts are those of the parts; a panel that is asked for from elsewhere comes to the front.
#include "desk/side_column.h"

#include <QEvent>
#include <QGridLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace kerfdraft::desk {

SideColumn::SideColumn(const Bench& bench, QWidget* parent)
    : QWidget(parent), parts_(makeSidePanels(bench, this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  auto* rows = new QGridLayout;
  rows->setSpacing(2);
  buttons_ = new QButtonGroup(this);
  stack_ = new QStackedWidget(this);
  int at = 0;
  for (const PanelPart& part : parts_) {
    auto* button = new QPushButton(part.name, this);
    button->setCheckable(true);
    button->setShortcut(part.shortcut);
    button->setToolTip(part.shortcut.isEmpty() ? part.tip
                                               : tr("%1 (%2)").arg(part.tip, part.shortcut.toString()));
    button->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    constexpr int kInARow = 4;
    rows->addWidget(button, at / kInARow, at % kInARow);
    buttons_->addButton(button, at++);
    stack_->addWidget(part.widget);
  }
  column->addLayout(rows);
  stay_ = new QAction(tr("Keep this panel open whatever is picked"), this);
  stay_->setCheckable(true);
  stay_->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_0));
  column->addWidget(stack_, 1);
  connect(buttons_, &QButtonGroup::idToggled, this, [this](int id, bool on) {
    // The pressed one is hard to tell from the others on a dark ground.
    QFont font = buttons_->button(id)->font();
    font.setBold(on);
    buttons_->button(id)->setFont(font);
  });
  connect(buttons_, &QButtonGroup::idClicked, stack_, &QStackedWidget::setCurrentIndex);
  connect(&bench.look, &Look::panelAsked, this, [this](const QString& key) { open(key); });
  connect(&bench.look, &Look::whyAsked, this, [this] { open(QStringLiteral("why")); });
  // Tab goes along the words and then into the panel, which was made before them.
  QWidget* before = nullptr;
  for (QAbstractButton* button : buttons_->buttons()) {
    if (before != nullptr) {
      setTabOrder(before, button);
    }
    before = button;
  }
  for (const PanelPart& part : parts_) {
    const QList<QWidget*> inside = part.widget->findChildren<QWidget*>();
    for (QWidget* each : inside) {
      if ((each->focusPolicy() & Qt::TabFocus) != 0 && each->window() == window()) {
        setTabOrder(before, each);
        before = each;
      }
    }
  }
  measure();
  if (!parts_.empty()) {
    open(parts_.front().key);
  }
}

void SideColumn::measure() {
  // Room for the bold word, and no more: four of them stand in a row.
  QFont bold = font();
  bold.setBold(true);
  const QFontMetrics metrics(bold);
  constexpr int kRim_px = 12;
  for (QAbstractButton* button : buttons_->buttons()) {
    button->setMinimumWidth(metrics.horizontalAdvance(button->text()) + kRim_px);
  }
}

void SideColumn::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange && buttons_ != nullptr) {
    measure();
  }
}

bool SideColumn::open(const QString& key) {
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    if (parts_[i].key == key) {
      buttons_->button(static_cast<int>(i))->setChecked(true);
      stack_->setCurrentIndex(static_cast<int>(i));
      return true;
    }
  }
  return false;
}

QString SideColumn::opened() const {
  const int at = stack_->currentIndex();
  return at < 0 ? QString() : parts_[static_cast<std::size_t>(at)].key;
}

QWidget* SideColumn::panel(const QString& key) const {
  for (const PanelPart& part : parts_) {
    if (part.key == key) {
      return part.widget;
    }
  }
  return nullptr;
}

std::vector<std::pair<QKeySequence, QString>> SideColumn::keys() const {
  std::vector<std::pair<QKeySequence, QString>> out;
  for (const PanelPart& part : parts_) {
    if (!part.shortcut.isEmpty()) {
      out.emplace_back(part.shortcut, part.tip);
    }
  }
  return out;
}

}  // namespace kerfdraft::desk
