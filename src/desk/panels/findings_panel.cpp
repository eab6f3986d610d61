// One card for each finding, made anew with each verdict.
#include "desk/panels/findings_panel.h"

#include <QDate>
#include <QFrame>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QTimer>
#include <utility>

namespace kerfdraft::desk {

namespace {

QString q(const std::string& text) {
  return QString::fromStdString(text);
}

QLabel* wrapped(const QString& text, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return label;
}

}  // namespace

FindingsPanel::FindingsPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setAccessibleName(tr("Findings"));
  auto* column = new QVBoxLayout(this);
  headline_ = wrapped({}, this);
  QFont strong = headline_->font();
  strong.setBold(true);
  headline_->setFont(strong);
  headline_->setAccessibleName(tr("How the shop stands"));
  refused_ = wrapped({}, this);
  refused_->setAccessibleName(tr("What was refused"));
  refused_->hide();
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  inside_ = new QWidget(scroll);
  rows_ = new QVBoxLayout(inside_);
  rows_->setContentsMargins(0, 0, 0, 0);
  scroll->setWidget(inside_);
  column->addWidget(headline_);
  column->addWidget(refused_);
  column->addWidget(scroll, 1);
  const auto again = [this] { refresh(); };
  connect(&bench_.live, &Live::judged, this, again);
  connect(&bench_.live, &Live::solved, this, [this] {
    // An older list stays until the new one is judged, so the eye keeps its place; only a shop that cannot
    // be solved empties it.
    if (const auto& latest = bench_.live.latest(); latest && latest->problem) {
      refresh();
    }
  });
  connect(&bench_.look, &Look::unitsChanged, this, again);
  connect(&bench_.look, &Look::readerChanged, this, again);
  refresh();
}

void FindingsPanel::refresh() {
  const auto& latest = bench_.live.latest();
  if (!solved_ || (latest && (latest->verdict || latest->problem))) {
    solved_ = latest;
  }
  if (const auto* typing = inside_->findChild<QLineEdit*>(); typing != nullptr && typing->hasFocus()) {
    reason_focus_ = true;
  }
  list_ = listFindings(solved_.get(), bench_.look.reader(), bench_.look.units());
  headline_->setText(q(list_.headline));
  while (QLayoutItem* item = rows_->takeAt(0)) {
    if (item->widget() != nullptr) {
      item->widget()->hide();
      item->widget()->deleteLater();  // a button may be what asked for this
    }
    delete item;
  }
  for (const FindingRow& row : list_.on_top) {
    rows_->addWidget(card(row, false));
  }
  addFolded(tr("%1 more").arg(list_.rest.size()), list_.rest, false, rest_open_);
  addFolded(tr("Lived with: %1").arg(list_.lived_with.size()), list_.lived_with, true, lived_with_open_);
  rows_->addStretch(1);
}

void FindingsPanel::addFolded(const QString& words, const std::vector<FindingRow>& rows, bool lived_with,
                              bool& open) {
  if (rows.empty()) {
    return;
  }
  auto* unfold = new QPushButton(open ? tr("Fold away: %1").arg(words) : tr("Show: %1").arg(words), inside_);
  unfold->setFlat(true);
  connect(unfold, &QPushButton::clicked, this, [this, &open] {
    open = !open;
    refresh();
  });
  rows_->addWidget(unfold);
  if (open) {
    for (const FindingRow& row : rows) {
      rows_->addWidget(card(row, lived_with));
    }
  }
}

QWidget* FindingsPanel::card(const FindingRow& row, bool lived_with) {
  const std::size_t finding = row.finding;
  auto* frame = new QFrame(inside_);
  frame->setFrameShape(QFrame::StyledPanel);
  frame->setAccessibleName(q(row.severity_word + ": " + row.title));
  auto* column = new QVBoxLayout(frame);

  QString sign = q(row.sign + "  " + row.severity_word);
  if (!row.where.empty()) {
    sign += tr("  ·  %1").arg(q(row.where));
  }
  if (row.returned) {
    sign += tr("  ·  grown worse since you chose to live with it");
  }
  column->addWidget(wrapped(sign, frame));
  auto* title = wrapped(q(row.title), frame);
  QFont strong = title->font();
  strong.setBold(true);
  title->setFont(strong);
  column->addWidget(title);
  column->addWidget(wrapped(q(row.what), frame));
  for (const std::string* text : {&row.limit, &row.defer}) {
    if (!text->empty()) {
      column->addWidget(wrapped(q(*text), frame));
    }
  }
  if (!row.reason.empty()) {
    column->addWidget(wrapped(tr("Your reason: %1").arg(q(row.reason)), frame));
  }
  for (const RemedyRow& remedy : row.remedies) {
    auto* line = new QHBoxLayout;
    line->addWidget(wrapped(QStringLiteral("–  ") + q(remedy.text), frame), 1);
    if (remedy.can_be_tried && !bench_.document.isReadOnly()) {
      auto* attempt_it = new QPushButton(tr("Try this"), frame);
      attempt_it->setAccessibleName(tr("Try this: %1").arg(q(remedy.text)));
      attempt_it->setToolTip(
          tr("Changes the drawing as one step that can be undone; the result before is kept to compare."));
      connect(attempt_it, &QPushButton::clicked, this,
              [this, finding, which = remedy.remedy] { attempt(finding, which); });
      line->addWidget(attempt_it, 0, Qt::AlignTop);
    }
    column->addLayout(line);
  }
  for (const FoldedRow& under : row.folded) {
    column->addWidget(wrapped(q(under.text), frame));
  }

  auto* buttons = new QHBoxLayout;
  if (row.place.valid() || row.state) {
    auto* show = new QPushButton(tr("Show the place"), frame);
    show->setAccessibleName(tr("Show the place: %1").arg(q(row.title)));
    connect(show, &QPushButton::clicked, this, [this, finding] { leadTo(finding); });
    buttons->addWidget(show);
  }
  if (lived_with) {
    auto* back = new QPushButton(tr("Take back"), frame);
    back->setAccessibleName(tr("No longer live with: %1").arg(q(row.title)));
    connect(back, &QPushButton::clicked, this, [this, finding] { withdraw(finding); });
    buttons->addWidget(back);
  } else if (reasoning_ != row.key) {
    auto* live_with = new QPushButton(tr("Live with it …"), frame);
    live_with->setAccessibleName(tr("Live with it: %1").arg(q(row.title)));
    connect(live_with, &QPushButton::clicked, this, [this, key = row.key] {
      reasoning_ = key;
      reason_focus_ = true;
      reason_.clear();
      refresh();
    });
    buttons->addWidget(live_with);
  }
  buttons->addStretch(1);
  column->addLayout(buttons);

  if (!lived_with && reasoning_ == row.key) {
    auto* ask = new QHBoxLayout;
    auto* label = new QLabel(tr("&Why do you live with it?"), frame);
    auto* reason = new QLineEdit(reason_, frame);
    reason->setAccessibleName(tr("Reason to live with it"));
    label->setBuddy(reason);
    auto* keep = new QPushButton(tr("Live with it"), frame);
    auto* leave = new QPushButton(tr("Leave"), frame);
    connect(reason, &QLineEdit::textChanged, this, [this](const QString& text) { reason_ = text; });
    connect(reason, &QLineEdit::returnPressed, this, [this, finding] { accept(finding, reason_); });
    connect(keep, &QPushButton::clicked, this, [this, finding] { accept(finding, reason_); });
    connect(leave, &QPushButton::clicked, this, [this] {
      reasoning_.reset();
      refresh();
    });
    ask->addWidget(label);
    ask->addWidget(reason, 1);
    ask->addWidget(keep);
    ask->addWidget(leave);
    column->addLayout(ask);
    if (std::exchange(reason_focus_, false)) {
      QTimer::singleShot(0, reason, [reason] { reason->setFocus(); });
    }
  }
  return frame;
}

void FindingsPanel::leadTo(std::size_t finding) {
  for (const auto* rows : {&list_.on_top, &list_.rest, &list_.lived_with}) {
    for (const FindingRow& row : *rows) {
      if (row.finding != finding) {
        continue;
      }
      if (row.state) {
        bench_.look.setState(*row.state);
      }
      if (row.place.valid()) {
        bench_.look.showPlace(row.place);
      }
      return;
    }
  }
}

bool FindingsPanel::make(const base::Result<Change>& change) {
  base::Result<void> made;
  if (!change) {
    made = tl::unexpected(change.error());
  } else {
    made = bench_.document.make(q(change->words), change->edits);
  }
  refused_->setText(made ? QString() : q(made.error().text()));
  refused_->setVisible(!made);
  return made.has_value();
}

bool FindingsPanel::accept(std::size_t finding, const QString& reason) {
  const auto solved = solved_;
  if (!solved) {
    return false;
  }
  const std::string today = QDate::currentDate().toString(Qt::ISODate).toStdString();
  if (!make(acceptFinding(*solved, finding, reason.toStdString(), today))) {
    return false;
  }
  reasoning_.reset();
  return true;
}

bool FindingsPanel::withdraw(std::size_t finding) {
  const auto solved = solved_;
  return solved && make(withdrawFinding(*solved, finding));
}

bool FindingsPanel::attempt(std::size_t finding, std::size_t remedy) {
  const auto solved = solved_;
  if (!solved || !make(tryRemedy(bench_.document.project(), *solved, finding, remedy))) {
    return false;
  }
  bench_.look.keep(solved);
  return true;
}

}  // namespace kerfdraft::desk
