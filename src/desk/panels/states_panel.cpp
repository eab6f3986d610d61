// Rows come from models/states_table; a click only says which state is looked at.
#include "desk/panels/states_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QVBoxLayout>

#include "desk/models/states_table.h"
#include "desk/models/trial.h"

namespace kerfdraft::desk {

StatesPanel::StatesPanel(Bench bench, QWidget* parent)
    : QWidget(parent),
      bench_(std::move(bench)),
      table_(new QTableWidget(0, 5, this)),
      name_(new QLineEdit(this)),
      keep_(new QPushButton(tr("Keep this trial"), this)),
      drop_(new QPushButton(tr("Drop it"), this)) {
  table_->setObjectName(QStringLiteral("states"));
  table_->setAccessibleName(tr("States of use"));
  table_->setHorizontalHeaderLabels(
      {tr("state of use"), tr("filter"), tr("air"), tr("worst off"), tr("slowest chips")});
  table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table_->horizontalHeader()->setStretchLastSection(true);
  table_->verticalHeader()->hide();
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  name_->setPlaceholderText(tr("name of the state"));
  name_->setAccessibleName(tr("Name under which the trial is kept"));
  auto* row = new QHBoxLayout;
  row->addWidget(new QLabel(tr("Click gates on the plan to try another set of them."), this));
  row->addStretch();
  row->addWidget(name_);
  row->addWidget(keep_);
  row->addWidget(drop_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(8, 4, 8, 4);
  column->addLayout(row);
  column->addWidget(table_);
  connect(table_, &QTableWidget::itemSelectionChanged, this, &StatesPanel::pick);
  connect(keep_, &QPushButton::clicked, this, &StatesPanel::keepTrial);
  connect(name_, &QLineEdit::returnPressed, this, &StatesPanel::keepTrial);
  connect(drop_, &QPushButton::clicked, this, [this] { bench_.look.setTrial(std::nullopt); });
  connect(&bench_.live, &Live::solved, this, &StatesPanel::refill);
  connect(&bench_.look, &Look::unitsChanged, this, &StatesPanel::refill);
  connect(&bench_.look, &Look::stateChanged, this, &StatesPanel::refill);
  refill();
}

void StatesPanel::refill() {
  filling_ = true;
  const auto& solved = bench_.live.latest();
  const std::vector<StateRow> rows =
      solved ? stateRows(*solved, bench_.look.units()) : std::vector<StateRow>{};
  table_->setRowCount(static_cast<int>(rows.size()));
  bool tried = false;
  for (int r = 0; r < table_->rowCount(); ++r) {
    const StateRow& row = rows[static_cast<std::size_t>(r)];
    tried = tried || row.tried;
    const QString name = QString::fromStdString(row.name);
    const QString shown = row.tried    ? tr("%1 (a trial)").arg(name)
                          : row.unused ? tr("%1 (nobody works so)").arg(name)
                                       : name;
    const QStringList cells{shown, QString::fromStdString(row.filter), QString::fromStdString(row.verdict),
                            QString::fromStdString(row.worst), QString::fromStdString(row.slowest)};
    for (int c = 0; c < cells.size(); ++c) {
      auto* item = new QTableWidgetItem(cells[c]);
      if (c == 2 && !row.good) {
        QFont bold = item->font();
        bold.setBold(true);
        item->setFont(bold);
      }
      table_->setItem(r, c, item);
    }
  }
  if (bench_.look.state() < rows.size()) {
    table_->selectRow(static_cast<int>(bench_.look.state()));
  }
  for (QWidget* widget :
       {static_cast<QWidget*>(name_), static_cast<QWidget*>(keep_), static_cast<QWidget*>(drop_)}) {
    widget->setEnabled(tried);
  }
  filling_ = false;
}

void StatesPanel::pick() {
  const int row = table_->currentRow();
  if (filling_ || row < 0) {
    return;
  }
  const auto index = static_cast<std::size_t>(row);
  // A state of the project is looked at in the place of a trial.
  if (bench_.look.trial() && index < bench_.document.project().states.size()) {
    bench_.look.setTrial(std::nullopt);
  }
  bench_.look.setState(index);
}

void StatesPanel::keepTrial() {
  if (!bench_.look.trial()) {
    return;
  }
  const shop::State kept =
      keptTrial(bench_.document.project(), *bench_.look.trial(), name_->text().trimmed().toStdString());
  const base::Result<void> made = bench_.document.make(
      tr("Keep state %1").arg(QString::fromStdString(kept.name)), shop::Edit(shop::PutState{kept}));
  if (!made) {
    name_->setToolTip(QString::fromStdString(made.error().text()));
    name_->setFocus();
    return;
  }
  name_->clear();
  const std::size_t last = bench_.document.project().states.size() - 1;
  bench_.look.setTrial(std::nullopt);
  bench_.look.setState(last);
}

}  // namespace kerfdraft::desk
