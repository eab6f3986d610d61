// Texts are set anew where the row has changed; widgets are made once.
#include "desk/panels/finding_card.h"

#include <QHBoxLayout>
#include <QKeyEvent>

#include "desk/explain_terms.h"
#include "desk/links.h"

namespace kerfdraft::desk {

namespace {

constexpr std::size_t kFoldedShown = 4;

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

/// Text with links that the keyboard reaches too.
QLabel* linked(QWidget* parent) {
  QLabel* label = wrapped(parent);
  label->setTextFormat(Qt::RichText);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::LinksAccessibleByMouse |
                                 Qt::LinksAccessibleByKeyboard);
  label->setFocusPolicy(Qt::StrongFocus);
  return label;
}

void setShown(QLabel* label, const QString& text) {
  label->setText(text);
  label->setVisible(!text.isEmpty());
}

QFont bold(QFont font) {
  font.setBold(true);
  return font;
}

}  // namespace

FindingCard::FindingCard(QWidget* parent) : QFrame(parent), column_(new QVBoxLayout(this)) {
  setFrameShape(QFrame::StyledPanel);
  auto* head = new QHBoxLayout;
  sign_ = wrapped(this);
  unfold_ = new QPushButton(this);
  unfold_->setObjectName(QStringLiteral("unfold"));
  unfold_->setFlat(true);
  head->addWidget(sign_, 1);
  head->addWidget(unfold_, 0, Qt::AlignTop);
  title_ = wrapped(this);
  title_->setFont(bold(title_->font()));
  column_->addLayout(head);
  column_->addWidget(title_);
  connect(unfold_, &QPushButton::clicked, this, [this] { setOpen(!open_); });
}

void FindingCard::makeBody() {
  body_ = new QWidget(this);
  auto* column = new QVBoxLayout(body_);
  column->setContentsMargins(0, 0, 0, 0);
  what_ = linked(body_);
  what_->setObjectName(QStringLiteral("what"));
  limit_ = wrapped(body_);
  defer_ = wrapped(body_);
  reason_given_ = wrapped(body_);
  remedies_ = new QVBoxLayout;
  folded_ = linked(body_);
  folded_->setObjectName(QStringLiteral("folded"));
  for (QWidget* each : std::initializer_list<QWidget*>{what_, limit_, defer_, reason_given_}) {
    column->addWidget(each);
  }
  column->addLayout(remedies_);
  column->addWidget(folded_);

  auto* buttons = new QHBoxLayout;
  show_ = new QPushButton(tr("Show the place"), body_);
  show_->setObjectName(QStringLiteral("place"));
  live_with_ = new QPushButton(tr("Live with it …"), body_);
  live_with_->setObjectName(QStringLiteral("live-with"));
  live_with_->setToolTip(
      tr("Folds it away with your reason, which is printed on the papers. It comes back when it grows worse "
         "by a tenth."));
  back_ = new QPushButton(tr("Take back"), body_);
  back_->setObjectName(QStringLiteral("take-back"));
  buttons->addWidget(show_);
  buttons->addWidget(live_with_);
  buttons->addWidget(back_);
  buttons->addStretch(1);
  column->addLayout(buttons);

  asking_ = new QWidget(body_);
  auto* ask = new QVBoxLayout(asking_);
  ask->setContentsMargins(0, 0, 0, 0);
  auto* label = new QLabel(tr("&Why do you live with it?"), asking_);
  reason_ = new QLineEdit(asking_);
  reason_->setObjectName(QStringLiteral("reason"));
  reason_->setPlaceholderText(tr("for whoever reads the papers"));
  label->setBuddy(reason_);
  auto* row = new QHBoxLayout;
  auto* keep = new QPushButton(tr("Live with it"), asking_);
  auto* leave = new QPushButton(tr("Leave"), asking_);
  row->addWidget(keep);
  row->addWidget(leave);
  row->addStretch(1);
  ask->addWidget(label);
  ask->addWidget(reason_);
  ask->addLayout(row);
  asking_->hide();
  column->addWidget(asking_);
  column_->addWidget(body_);

  connect(what_, &QLabel::linkActivated, this, &FindingCard::whyAsked);
  connect(folded_, &QLabel::linkActivated, this, [this](const QString& link) {
    if (link == QStringLiteral("all")) {
      all_folded_ = !all_folded_;
      fillFolded();
    } else {
      emit placeAsked(static_cast<std::size_t>(link.toULongLong()));
    }
  });
  connect(show_, &QPushButton::clicked, this, [this] { emit placeAsked(finding()); });
  connect(live_with_, &QPushButton::clicked, this, [this] { askReason(true); });
  connect(back_, &QPushButton::clicked, this, [this] { emit withdrawAsked(finding()); });
  connect(leave, &QPushButton::clicked, this, [this] { askReason(false); });
  connect(keep, &QPushButton::clicked, this, [this] { emit acceptAsked(finding(), reason_->text()); });
  connect(reason_, &QLineEdit::returnPressed, this, [this] { emit acceptAsked(finding(), reason_->text()); });
}

void FindingCard::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape && asking_ != nullptr && asking_->isVisibleTo(this)) {
    askReason(false);
    return;
  }
  QFrame::keyPressEvent(event);
}

void FindingCard::changeEvent(QEvent* event) {
  QFrame::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) {
    fill();  // links have their colour in their text
  }
}

void FindingCard::askReason(bool ask) {
  asking_->setVisible(ask);
  live_with_->setVisible(!ask && !lived_with_);
  if (ask) {
    reason_->setFocus();
  } else {
    reason_->clear();
    live_with_->setFocus();
  }
}

void FindingCard::setOpen(bool open) {
  open_ = open;
  if (open && body_ == nullptr) {
    makeBody();
  }
  if (body_ != nullptr) {
    body_->setVisible(open);
  }
  fill();
}

void FindingCard::setRow(const FindingRow& row, bool lived_with, bool can_change) {
  if (row_ == row && lived_with_ == lived_with && can_change_ == can_change) {
    return;
  }
  const bool left = lived_with_ != lived_with;
  row_ = row;
  lived_with_ = lived_with;
  can_change_ = can_change;
  if (left && asking_ != nullptr) {
    asking_->hide();
    reason_->clear();
  }
  fill();
}

void FindingCard::fill() {
  if (!row_) {
    return;
  }
  const FindingRow& row = *row_;
  setAccessibleName(q(row.severity_word + ": " + row.title));
  QString sign = q(row.sign + "  " + row.severity_word);
  if (row.returned) {
    sign += tr("  ·  grown worse since you chose to live with it");
  }
  sign_->setText(sign);
  title_->setText(q(row.title));
  title_->setToolTip(tooltipFor(q(row.title)));
  unfold_->setText(open_ ? tr("Less") : tr("More"));
  unfold_->setAccessibleName((open_ ? tr("Less of: %1") : tr("More of: %1")).arg(q(row.title)));
  if (body_ == nullptr || !open_) {
    return;
  }
  QString what;
  for (const TextPart& part : row.what_parts) {
    const QString text = q(part.text).toHtmlEscaped();
    what += part.key.empty() ? text : linkHtml(*this, q(part.key), q(part.text));
  }
  what_->setText(what);
  what_->setFocusPolicy(what.contains(QStringLiteral("<a ")) ? Qt::StrongFocus : Qt::NoFocus);
  what_->setToolTip(what.contains(QStringLiteral("<a "))
                        ? tr("A number with a line under it says where it comes from.")
                        : QString());
  setShown(limit_, q(row.limit));
  setShown(defer_, q(row.defer));
  setShown(reason_given_, row.reason.empty() ? QString() : tr("Your reason: %1").arg(q(row.reason)));
  fillRemedies();
  fillFolded();
  show_->setVisible(row.place.valid() || row.state);
  show_->setAccessibleName(tr("Show the place: %1").arg(q(row.title)));
  live_with_->setVisible(!lived_with_ && can_change_ && !asking_->isVisibleTo(body_));
  live_with_->setAccessibleName(tr("Live with it: %1").arg(q(row.title)));
  back_->setVisible(lived_with_ && can_change_);
  back_->setAccessibleName(tr("No longer live with: %1").arg(q(row.title)));
}

FindingCard::RemedyLine& FindingCard::remedyLine(std::size_t at) {
  while (lines_.size() <= at) {
    RemedyLine line;
    line.all = new QWidget(body_);
    auto* both = new QVBoxLayout(line.all);
    both->setContentsMargins(0, 0, 0, 0);
    auto* row = new QHBoxLayout;
    line.text = wrapped(line.all);
    line.caution = wrapped(line.all);
    QFont slanted = line.caution->font();
    slanted.setItalic(true);
    line.caution->setFont(slanted);
    line.attempt = new QPushButton(tr("Try this"), line.all);
    line.attempt->setObjectName(QStringLiteral("try-%1").arg(lines_.size()));
    line.attempt->setToolTip(
        tr("Changes the drawing as one step that can be undone; the result before is kept to compare."));
    row->addWidget(line.text, 1);
    row->addWidget(line.attempt, 0, Qt::AlignTop);
    both->addLayout(row);
    both->addWidget(line.caution);
    remedies_->addWidget(line.all);
    const std::size_t index = lines_.size();
    connect(line.attempt, &QPushButton::clicked, this,
            [this, index] { emit tryAsked(finding(), lines_[index].remedy); });
    lines_.push_back(line);
  }
  return lines_[at];
}

void FindingCard::fillRemedies() {
  QString last_caution;
  for (std::size_t i = 0; i < row_->remedies.size(); ++i) {
    const RemedyRow& remedy = row_->remedies[i];
    RemedyLine& line = remedyLine(i);
    line.remedy = remedy.remedy;
    line.text->setText(QStringLiteral("–  ") + q(remedy.text));
    // The same caution is told once for remedies that follow each other.
    const QString caution = q(remedy.caution);
    setShown(line.caution, caution == last_caution ? QString() : caution);
    last_caution = caution;
    line.attempt->setVisible(remedy.can_be_tried && can_change_ && !lived_with_);
    line.attempt->setAccessibleName(tr("Try this: %1").arg(q(remedy.text)));
    line.all->show();
  }
  for (std::size_t i = row_->remedies.size(); i < lines_.size(); ++i) {
    lines_[i].all->hide();
  }
}

void FindingCard::fillFolded() {
  QString text;
  std::string how;
  const std::vector<FoldedRow>& folded = row_->folded;
  const std::size_t shown = all_folded_ ? folded.size() : std::min(folded.size(), kFoldedShown);
  for (std::size_t i = 0; i < shown; ++i) {
    if (folded[i].how != how) {
      how = folded[i].how;
      text += QStringLiteral("%1<b>%2:</b>").arg(i > 0 ? QStringLiteral("<br>") : QString(), q(how));
    }
    text += QStringLiteral("<br>");
    const QString words = q(folded[i].text);
    text += folded[i].place.valid() || folded[i].state
                ? linkHtml(*this, QString::number(folded[i].finding), words)
                : words.toHtmlEscaped();
  }
  if (folded.size() > kFoldedShown) {
    text += QStringLiteral("<br>") +
            linkHtml(*this, QStringLiteral("all"),
                     all_folded_ ? tr("fewer of these") : tr("and %1 more").arg(folded.size() - shown));
  }
  setShown(folded_, text);
  folded_->setFocusPolicy(text.contains(QStringLiteral("<a ")) ? Qt::StrongFocus : Qt::NoFocus);
}

}  // namespace kerfdraft::desk
