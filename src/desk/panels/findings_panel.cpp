// Cards are kept by the key of their finding; a new verdict changes their texts and their order.
#include "desk/panels/findings_panel.h"

#include <QDate>
#include <QFrame>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QSignalBlocker>
#include <utility>

#include "desk/models/explanation.h"
#include "desk/models/outcome.h"

namespace kerfdraft::desk {

namespace {

QString q(const std::string& text) {
  return QString::fromStdString(text);
}

QLabel* wrapped(QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return label;
}

}  // namespace

FindingsPanel::FindingsPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setAccessibleName(tr("Findings"));
  auto* column = new QVBoxLayout(this);
  headline_ = wrapped(this);
  QFont strong = headline_->font();
  strong.setBold(true);
  headline_->setFont(strong);
  headline_->setAccessibleName(tr("How the shop stands"));

  auto* choices = new QHBoxLayout;
  auto* for_whom = new QLabel(tr("&For"), this);
  reader_ = new QComboBox(this);
  reader_->setObjectName(QStringLiteral("reader"));
  reader_->setToolTip(
      tr("The owner reads plain words, the adviser every number that one defends, the inspector hoods and "
         "what was intended for them."));
  reader_->addItem(tr("owner"), static_cast<int>(judge::Reader::Owner));
  reader_->addItem(tr("adviser"), static_cast<int>(judge::Reader::Adviser));
  reader_->addItem(tr("inspector"), static_cast<int>(judge::Reader::Inspector));
  for_whom->setBuddy(reader_);
  auto* in = new QLabel(tr("&in"), this);
  states_ = new QComboBox(this);
  states_->setObjectName(QStringLiteral("states"));
  states_->setAccessibleName(tr("State of use of which findings are shown"));
  states_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  states_->setMinimumContentsLength(12);
  in->setBuddy(states_);
  choices->addWidget(for_whom);
  choices->addWidget(reader_);
  choices->addWidget(in);
  choices->addWidget(states_, 1);

  note_ = new QFrame(this);
  note_->setAutoFillBackground(true);
  note_->setBackgroundRole(QPalette::ToolTipBase);
  auto* note = new QHBoxLayout(note_);
  said_ = wrapped(note_);
  said_->setForegroundRole(QPalette::ToolTipText);
  said_->setAccessibleName(tr("What was done here, and what it brought"));
  undo_ = new QPushButton(tr("Take it back"), note_);
  undo_->setObjectName(QStringLiteral("undo"));
  undo_->setToolTip(tr("Undoes this step"));
  note->addWidget(said_, 1);
  note->addWidget(undo_, 0, Qt::AlignTop);
  note_->hide();

  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  inside_ = new QWidget(scroll);
  rows_ = new QVBoxLayout(inside_);
  rows_->setContentsMargins(0, 0, 0, 0);
  rest_ = new QPushButton(inside_);
  rest_->setObjectName(QStringLiteral("rest"));
  rest_->setFlat(true);
  lived_with_ = new QPushButton(inside_);
  lived_with_->setObjectName(QStringLiteral("lived-with"));
  lived_with_->setFlat(true);
  rows_->addWidget(rest_);
  rows_->addWidget(lived_with_);
  rows_->addStretch(1);
  scroll->setWidget(inside_);
  column->addWidget(headline_);
  column->addLayout(choices);
  column->addWidget(note_);
  column->addWidget(scroll, 1);

  const auto again = [this] { refresh(); };
  connect(&bench_.live, &Live::judged, this, [this] {
    refresh();
    tellOutcome();
  });
  connect(&bench_.live, &Live::solved, this, [this] {
    // An older list stays until the new one is judged, so the eye keeps its place; only a shop that cannot
    // be solved empties it.
    if (const auto& latest = bench_.live.latest(); latest && latest->problem) {
      refresh();
    }
  });
  connect(&bench_.look, &Look::unitsChanged, this, again);
  connect(&bench_.look, &Look::readerChanged, this, again);
  connect(&bench_.document.undoStack(), &QUndoStack::indexChanged, this, [this](int index) {
    // What was said is of a step that is no longer the last.
    if (undo_step_ >= 0 && index != undo_step_) {
      say({}, false);
      tried_.reset();
    }
  });
  connect(reader_, &QComboBox::activated, this,
          [this] { bench_.look.setReader(static_cast<judge::Reader>(reader_->currentData().toInt())); });
  connect(states_, &QComboBox::activated, this, [this](int at) {
    only_state_.reset();
    const auto state = static_cast<std::size_t>(at) - 1;
    if (at > 0 && solved_ && state < solved_->states()) {
      only_state_ = solved_->assessment->states[state].id;
      bench_.look.setState(state);
    }
    refresh();
  });
  connect(undo_, &QPushButton::clicked, this, [this] {
    if (bench_.document.undoStack().index() == undo_step_) {
      bench_.document.undoStack().undo();
    }
  });
  connect(rest_, &QPushButton::clicked, this, [this] {
    rest_open_ = !rest_open_;
    refresh();
  });
  connect(lived_with_, &QPushButton::clicked, this, [this] {
    lived_with_open_ = !lived_with_open_;
    refresh();
  });
  refresh();
}

FindingCard* FindingsPanel::card(const judge::FindingKey& key) const {
  const auto found = cards_.find(key);
  return found == cards_.end() ? nullptr : found->second;
}

void FindingsPanel::refresh() {
  const auto& latest = bench_.live.latest();
  if (!solved_ || (latest && (latest->verdict || latest->problem))) {
    solved_ = latest;
  }
  fillStates();
  reader_->setCurrentIndex(reader_->findData(static_cast<int>(bench_.look.reader())));
  std::optional<std::size_t> only;
  if (states_->currentIndex() > 0) {
    only = static_cast<std::size_t>(states_->currentIndex()) - 1;
  }
  list_ = listFindings(solved_.get(), bench_.look.reader(), bench_.look.units(), only);
  headline_->setText(q(list_.headline));

  std::map<judge::FindingKey, FindingCard*> kept;
  int at = 0;
  place(list_.on_top, false, true, at, kept);
  rest_->setVisible(!list_.rest.empty());
  const QString rest = tr("%1 more").arg(list_.rest.size());
  rest_->setText(rest_open_ ? tr("Fold away: %1").arg(rest) : tr("Show: %1").arg(rest));
  put(rest_, at);
  if (rest_open_) {
    place(list_.rest, false, false, at, kept);
  }
  lived_with_->setVisible(!list_.lived_with.empty());
  const QString lived = tr("what you live with (%1)").arg(list_.lived_with.size());
  lived_with_->setText(lived_with_open_ ? tr("Fold away: %1").arg(lived) : tr("Show: %1").arg(lived));
  put(lived_with_, at);
  if (lived_with_open_) {
    place(list_.lived_with, true, false, at, kept);
  }
  for (const auto& [key, card] : cards_) {
    if (!kept.contains(key)) {
      card->hide();
      card->deleteLater();  // its button may be what asked for this
    }
  }
  cards_ = std::move(kept);
}

void FindingsPanel::put(QWidget* widget, int& at) {
  const QLayoutItem* there = rows_->itemAt(at);
  if (there == nullptr || there->widget() != widget) {
    rows_->removeWidget(widget);
    rows_->insertWidget(at, widget);
  }
  ++at;
}

void FindingsPanel::place(const std::vector<FindingRow>& rows, bool lived_with, bool open, int& at,
                          std::map<judge::FindingKey, FindingCard*>& kept) {
  for (const FindingRow& row : rows) {
    FindingCard* card = this->card(row.key);
    if (card == nullptr) {
      card = new FindingCard(inside_);
      connect(card, &FindingCard::placeAsked, this, &FindingsPanel::leadTo);
      connect(card, &FindingCard::whyAsked, this, [this](const QString& key) {
        // The number stands in the finding's state; what is explained is what is shown.
        if (const auto state = stateOfNumber(key.toStdString())) {
          bench_.look.setState(*state);
        }
        bench_.look.askWhy(key);
      });
      connect(card, &FindingCard::tryAsked, this, &FindingsPanel::attempt);
      connect(card, &FindingCard::acceptAsked, this, &FindingsPanel::accept);
      connect(card, &FindingCard::withdrawAsked, this, &FindingsPanel::withdraw);
      card->setRow(row, lived_with, !bench_.document.isReadOnly());
      card->setOpen(open);
    } else {
      card->setRow(row, lived_with, !bench_.document.isReadOnly());
    }
    put(card, at);
    card->show();
    kept[row.key] = card;
  }
}

void FindingsPanel::fillStates() {
  const QSignalBlocker quiet(states_);
  QStringList names{tr("all states of use")};
  int current = 0;
  if (solved_ && solved_->assessment) {
    for (const judge::StateResult& state : solved_->assessment->states) {
      if (only_state_ && state.id == *only_state_) {
        current = static_cast<int>(names.size());
      }
      names << q(state.name);
    }
  }
  QStringList old;
  for (int i = 0; i < states_->count(); ++i) {
    old << states_->itemText(i);
  }
  if (old != names) {
    states_->clear();
    states_->addItems(names);
  }
  states_->setCurrentIndex(current);
  if (current == 0) {
    only_state_.reset();  // it is gone
  }
}

void FindingsPanel::leadTo(std::size_t finding) {
  if (!solved_) {
    return;
  }
  const Lead lead = leadOf(*solved_, finding);
  if (lead.state) {
    bench_.look.setState(*lead.state);
  }
  if (lead.place.valid()) {
    bench_.look.showPlace(lead.place);
  }
}

void FindingsPanel::say(const QString& sentence, bool can_undo) {
  said_->setText(sentence);
  note_->setVisible(!sentence.isEmpty());
  undo_->setVisible(can_undo);
  undo_step_ = can_undo ? bench_.document.undoStack().index() : -1;
}

bool FindingsPanel::make(const base::Result<Change>& change, const QString& done) {
  base::Result<void> made;
  if (!change) {
    made = tl::unexpected(change.error());
  } else {
    made = bench_.document.make(q(change->words), change->edits);
  }
  say(made ? done : q(made.error().text()), made.has_value());
  return made.has_value();
}

bool FindingsPanel::accept(std::size_t finding, const QString& reason) {
  const auto solved = solved_;
  if (!solved) {
    return false;
  }
  const std::string today = QDate::currentDate().toString(Qt::ISODate).toStdString();
  const base::Result<Change> change = acceptFinding(*solved, finding, reason.toStdString(), today);
  return make(change, change ? tr("%1.").arg(q(change->words)) : QString());
}

bool FindingsPanel::withdraw(std::size_t finding) {
  const auto solved = solved_;
  if (!solved) {
    return false;
  }
  const base::Result<Change> change = withdrawFinding(*solved, finding);
  return make(change, change ? tr("%1.").arg(q(change->words)) : QString());
}

bool FindingsPanel::attempt(std::size_t finding, std::size_t remedy) {
  const auto solved = solved_;
  if (!solved ||
      !make(tryRemedy(bench_.document.project(), *solved, finding, remedy), tr("Tried; being judged …"))) {
    return false;
  }
  bench_.look.keep(solved);
  tried_ = Tried{solved, findingHelped(*solved, finding, remedy), bench_.document.undoStack().index()};
  return true;
}

/// Once what was tried is judged, in one sentence what it brought.
void FindingsPanel::tellOutcome() {
  const auto& latest = bench_.live.latest();
  if (!tried_ || !latest || latest == tried_->before || !(latest->verdict || latest->problem) ||
      bench_.document.undoStack().index() != tried_->step) {
    return;
  }
  say(q(outcomeOf(*tried_->before, tried_->finding, *latest,
                  judge::Voice(bench_.look.reader(), bench_.look.units()))),
      true);
  tried_.reset();
}

}  // namespace kerfdraft::desk
