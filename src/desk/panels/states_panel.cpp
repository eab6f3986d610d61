// Rows come from models/states_table; a click only says which state is looked at.
#include "desk/panels/states_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QShortcut>
#include <QToolBar>
#include <QVBoxLayout>
#include <algorithm>

#include "desk/models/comparison.h"
#include "desk/models/properties.h"
#include "desk/models/trial.h"
#include "desk/tools/sketching.h"

namespace kerfdraft::desk {
namespace {

constexpr int kFixedColumns = 4;  ///< before those of the ports
constexpr int kSlowestColumn = 3;
constexpr int kWhyRole = Qt::UserRole + 1;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

StatesPanel::StatesPanel(Bench bench, QWidget* parent)
    : QWidget(parent),
      bench_(std::move(bench)),
      table_(new QTableWidget(0, kFixedColumns, this)),
      says_(new QLabel(this)),
      name_(new QLineEdit(this)),
      keep_(new QPushButton(tr("Keep this trial"), this)),
      drop_(new QPushButton(tr("Drop it"), this)),
      each_(new QPushButton(tr("One for each machine"), this)),
      copy_(new QPushButton(tr("Copy"), this)),
      remove_(new QPushButton(tr("Take away"), this)),
      up_(new QPushButton(tr("Up"), this)),
      down_(new QPushButton(tr("Down"), this)),
      filter_(new QComboBox(this)),
      used_(new QCheckBox(tr("in use"), this)),
      compare_(new QPushButton(this)) {
  table_->setObjectName(QStringLiteral("states"));
  table_->setAccessibleName(tr("States of use"));
  table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table_->horizontalHeader()->setHighlightSections(false);
  constexpr int kWidestColumn_px = 190;
  table_->horizontalHeader()->setMaximumSectionSize(kWidestColumn_px);
  table_->verticalHeader()->hide();
  table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  table_->verticalHeader()->setDefaultSectionSize(table_->fontMetrics().height() + 8);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::EditKeyPressed);
  table_->setTabKeyNavigation(false);
  says_->setWordWrap(true);
  name_->setPlaceholderText(tr("name of the state"));
  name_->setAccessibleName(tr("Name under which the trial is kept"));
  name_->setMaximumWidth(180);
  auto* fresh = new QPushButton(tr("New"), this);
  fresh->setToolTip(tr("A new state with every gate shut"));
  each_->setToolTip(tr("A state for each machine, with only the gates on the way of its air open"));
  copy_->setToolTip(tr("A new state like the one shown"));
  up_->setToolTip(tr("One place up in the list"));
  down_->setToolTip(tr("One place down in the list"));
  filter_->setAccessibleName(tr("Filter in this state"));
  filter_->setToolTip(tr("Whether the filter is clean, seasoned (in ordinary use) or due to be cleaned"));
  for (const auto& [key, words] :
       {std::pair{"clean", tr("filter clean")}, std::pair{"seasoned", tr("filter seasoned")},
        std::pair{"due", tr("filter due")}}) {
    filter_->addItem(words, QString::fromLatin1(key));
  }
  used_->setToolTip(tr("Off: it is kept to look at, and nothing is called wrong because of it"));
  // Where it is narrow, or the text is large, what does not fit stands behind an arrow at its end.
  auto* row = new QToolBar(this);
  row->setAccessibleName(tr("States of use: what can be done"));
  for (QWidget* widget :
       std::initializer_list<QWidget*>{fresh, each_, copy_, remove_, up_, down_, filter_, used_, compare_}) {
    QAction* in_row = row->addWidget(widget);
    if (widget == each_) {
      for_each_ = in_row;
    }
  }
  auto* below = new QHBoxLayout;
  below->addWidget(says_, 1);
  below->addWidget(name_);
  below->addWidget(keep_);
  below->addWidget(drop_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(8, 4, 8, 4);
  column->addWidget(row);
  column->addLayout(below);
  column->addWidget(table_, 1);
  connect(table_, &QTableWidget::itemSelectionChanged, this, &StatesPanel::pick);
  connect(table_, &QTableWidget::itemChanged, this, &StatesPanel::rename);
  connect(table_, &QTableWidget::itemDoubleClicked, this, [this](QTableWidgetItem* item) {
    if (item->column() == 0) {
      table_->editItem(item);
    } else {
      ask();
    }
  });
  auto* question = new QShortcut(QKeySequence(Qt::Key_Question), table_);
  question->setContext(Qt::WidgetShortcut);
  connect(question, &QShortcut::activated, this, &StatesPanel::ask);
  connect(keep_, &QPushButton::clicked, this, &StatesPanel::keepTrial);
  connect(name_, &QLineEdit::returnPressed, this, &StatesPanel::keepTrial);
  connect(drop_, &QPushButton::clicked, this, [this] { bench_.look.setTrial(std::nullopt); });
  connect(fresh, &QPushButton::clicked, this, [this] { addState(false); });
  connect(each_, &QPushButton::clicked, this, &StatesPanel::addForMachines);
  connect(copy_, &QPushButton::clicked, this, [this] { addState(true); });
  connect(remove_, &QPushButton::clicked, this, &StatesPanel::removeState);
  connect(up_, &QPushButton::clicked, this, [this] { moveState(-1); });
  connect(down_, &QPushButton::clicked, this, [this] { moveState(1); });
  connect(filter_, &QComboBox::activated, this,
          [this] { change("filter", filter_->currentData().toString()); });
  connect(used_, &QCheckBox::clicked, this,
          [this](bool on) { change("unused", on ? QStringLiteral("no") : QStringLiteral("yes")); });
  connect(compare_, &QPushButton::clicked, this,
          [this] { bench_.look.keep(bench_.look.kept() ? nullptr : bench_.live.latest()); });
  connect(&bench_.live, &Live::solved, this, &StatesPanel::refill);
  connect(&bench_.live, &Live::judged, this, &StatesPanel::refill);
  connect(&bench_.look, &Look::unitsChanged, this, &StatesPanel::refill);
  connect(&bench_.look, &Look::stateChanged, this, &StatesPanel::refill);
  connect(&bench_.look, &Look::keptChanged, this, &StatesPanel::refill);
  refill();
}

const shop::State* StatesPanel::shownState() const {
  const std::vector<shop::State>& states = bench_.document.project().states;
  return bench_.look.state() < states.size() ? &states[bench_.look.state()] : nullptr;
}

void StatesPanel::refill() {
  filling_ = true;
  const auto& solved = bench_.live.latest();
  const Solved* kept = bench_.look.kept().get();
  const base::UnitSystem units = bench_.look.units();
  rows_ = solved ? stateRows(*solved, units, kept) : std::vector<StateRow>{};
  const std::vector<PortColumn> columns = solved ? portColumns(*solved, units) : std::vector<PortColumn>{};
  QStringList heads{tr("state of use"), tr("filter"), tr("air"), tr("slowest chips")};
  for (const PortColumn& column : columns) {
    heads << text(column.name + ", " + column.unit);
  }
  table_->setColumnCount(static_cast<int>(heads.size()));
  table_->setHorizontalHeaderLabels(heads);
  for (std::size_t c = 0; c < columns.size(); ++c) {
    table_->horizontalHeaderItem(kFixedColumns + static_cast<int>(c))
        ->setToolTip(tr("Air that %1 gets, in %2").arg(text(columns[c].name), text(columns[c].unit)));
  }
  table_->setRowCount(static_cast<int>(rows_.size()));
  bool tried = false;
  for (int r = 0; r < table_->rowCount(); ++r) {
    const StateRow& row = rows_[static_cast<std::size_t>(r)];
    tried = tried || row.tried;
    const auto put = [&](int column, const QString& words, bool strong) {
      QTableWidgetItem* item = table_->item(r, column);
      if (item == nullptr) {
        item = new QTableWidgetItem;
        table_->setItem(r, column, item);
      }
      item->setText(words);
      QFont font = table_->font();
      font.setBold(strong);
      item->setFont(font);
      item->setFlags(column == 0 && !row.tried && row.declared
                         ? Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable
                         : Qt::ItemIsEnabled | Qt::ItemIsSelectable);
      item->setToolTip({});
      item->setData(kWhyRole, QString());
      return item;
    };
    QTableWidgetItem* name = put(0, text(row.name), false);
    name->setToolTip(row.tried    ? tr("A trial: it is shown and not kept.")
                     : row.unused ? tr("Nobody works so.")
                                  : tr("F2 or a double click gives it another name."));
    if (!row.changed.empty()) {
      name->setToolTip(tr("Against what was kept:") + QStringLiteral("\n") + text(row.changed));
    }
    put(1, text(row.filter), false);
    put(2,
        row.tried    ? tr("%1 (a trial)").arg(text(row.verdict))
        : row.unused ? tr("%1 (not in use)").arg(text(row.verdict))
                     : text(row.verdict),
        !row.good)
        ->setToolTip(text(row.worst));
    put(kSlowestColumn, text(row.slowest), false)->setData(kWhyRole, text(row.slowest_why));
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const StateCell cell = c < row.cells.size() ? row.cells[c] : StateCell{};
      QTableWidgetItem* item =
          put(kFixedColumns + static_cast<int>(c), text(cell.text), cell.open && !cell.good);
      item->setToolTip(text(cell.tip));
      item->setData(kWhyRole, text(cell.why));
    }
  }
  if (bench_.look.state() < rows_.size() && table_->currentRow() != static_cast<int>(bench_.look.state())) {
    table_->selectRow(static_cast<int>(bench_.look.state()));
  }
  for (QWidget* widget :
       {static_cast<QWidget*>(name_), static_cast<QWidget*>(keep_), static_cast<QWidget*>(drop_)}) {
    widget->setVisible(tried);
  }
  const shop::State* state = shownState();
  // Offered while a shop is young; a list that somebody keeps is not added to by one click.
  for_each_->setVisible(bench_.document.project().states.size() < 2);
  const std::size_t count = bench_.document.project().states.size();
  for (QWidget* widget : std::initializer_list<QWidget*>{copy_, remove_, filter_, used_}) {
    widget->setEnabled(state != nullptr);
  }
  up_->setEnabled(state != nullptr && bench_.look.state() > 0);
  down_->setEnabled(state != nullptr && bench_.look.state() + 1 < count);
  if (state != nullptr) {
    filter_->setCurrentIndex(static_cast<int>(state->filter));
    used_->setChecked(!state->unused);
  }
  compare_->setEnabled(solved != nullptr && solved->assessment != nullptr);
  compare_->setText(kept == nullptr ? tr("Compare from here") : tr("End comparing"));
  compare_->setToolTip(tr("Keeps the present result; what changes from now on is shown beside it."));
  const QString compared = solved ? text(comparisonText(*solved, kept, units)) : QString();
  const shop::Project& project = bench_.document.project();
  says_->setText(
      !compared.isEmpty() ? compared
      : project.collectors.empty() || project.machines.empty() || project.ducts.empty()
          ? tr("Once a machine, a duct and a collector are drawn, the air of each state stands here.")
      : tried ? tr("You see a trial. Keep it by a name, or drop it.")
              : tr("Take Try gates and click gates on the plan to try another set. Double-click a "
                   "number to see where it comes from."));
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

bool StatesPanel::make(const QString& words, const shop::Edit& edit) {
  const base::Result<void> made = bench_.document.make(words, edit);
  if (!made) {
    says_->setText(text(made.error().text()));
  }
  return made.has_value();
}

void StatesPanel::keepTrial() {
  if (!bench_.look.trial()) {
    return;
  }
  const shop::State kept =
      keptTrial(bench_.document.project(), *bench_.look.trial(), name_->text().trimmed().toStdString());
  if (!make(tr("Keep state %1").arg(text(kept.name)), shop::PutState{kept})) {
    name_->setFocus();
    return;
  }
  name_->clear();
  const std::size_t last = bench_.document.project().states.size() - 1;
  bench_.look.setTrial(std::nullopt);
  bench_.look.setState(last);
}

void StatesPanel::addState(bool copy) {
  const shop::State* shown = shownState();
  shop::State state = copy && shown != nullptr ? *shown : shop::State{};
  state.id = bench_.document.newId();
  const std::string stem = copy && shown != nullptr ? shown->name + ", copy" : std::string("New state");
  const std::vector<shop::State>& states = bench_.document.project().states;
  state.name = stem;
  for (int n = 2; std::any_of(states.begin(), states.end(),
                              [&](const shop::State& each) { return each.name == state.name; });
       ++n) {
    state.name = stem + " " + std::to_string(n);
  }
  if (make(tr("New state %1").arg(text(state.name)), shop::PutState{state})) {
    bench_.look.setState(bench_.document.project().states.size() - 1);
  }
}

void StatesPanel::addForMachines() {
  DocumentIds ids(bench_.document);
  std::vector<shop::Edit> edits;
  for (shop::State& state : statesForMachines(bench_.document.project(), ids)) {
    edits.emplace_back(shop::PutState{std::move(state)});
  }
  if (edits.empty()) {
    says_->setText(tr("Every machine with a duct has its state already."));
    return;
  }
  const base::Result<void> made = bench_.document.make(tr("States of use"), edits);
  if (!made) {
    says_->setText(text(made.error().text()));
  } else {
    bench_.look.setState(0);
  }
}

void StatesPanel::removeState() {
  if (const shop::State* state = shownState()) {
    const std::size_t at = bench_.look.state();
    if (make(tr("Take away state %1").arg(text(state->name)), shop::RemoveState{state->id})) {
      const std::size_t count = bench_.document.project().states.size();
      bench_.look.setState(count == 0 ? 0 : std::min(at, count - 1));
    }
  }
}

void StatesPanel::moveState(int by) {
  if (const shop::State* state = shownState()) {
    const std::size_t to = bench_.look.state() + static_cast<std::size_t>(by);
    if (make(tr("Move state %1").arg(text(state->name)), shop::OrderState{state->id, to})) {
      bench_.look.setState(to);
    }
  }
}

void StatesPanel::change(const char* path, const QString& typed) {
  const shop::State* state = shownState();
  if (state == nullptr) {
    return;
  }
  const auto change = changeStateProperty(bench_.document.project(), state->id, path, typed.toStdString());
  if (!change) {
    says_->setText(text(change.error().text()));
    return;
  }
  make(text(change->words), change->edits.front());
}

void StatesPanel::rename(QTableWidgetItem* item) {
  if (filling_ || item->column() != 0 ||
      static_cast<std::size_t>(item->row()) >= bench_.document.project().states.size()) {
    return;
  }
  const shop::State& state = bench_.document.project().states[static_cast<std::size_t>(item->row())];
  const auto change =
      changeStateProperty(bench_.document.project(), state.id, "name", item->text().toStdString());
  if (!change || !make(text(change->words), change->edits.front())) {
    const QString why = change ? says_->text() : text(change.error().text());
    refill();
    says_->setText(why);
  }
}

void StatesPanel::ask() {
  const QTableWidgetItem* item = table_->currentItem();
  const QString key = item == nullptr ? QString() : item->data(kWhyRole).toString();
  if (!key.isEmpty()) {
    bench_.look.askWhy(key);
  }
}

}  // namespace kerfdraft::desk
