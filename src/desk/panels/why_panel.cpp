// Words come from models/explanation; here they become a page with links.
#include "desk/panels/why_panel.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QScrollBar>
#include <QVBoxLayout>
#include <utility>

#include "desk/links.h"
#include "desk/models/glossary.h"
#include "desk/models/places.h"

namespace kerfdraft::desk {

namespace {

QString q(const std::string& text) {
  return QString::fromStdString(text);
}

QString html(const std::string& text) {
  return q(text).toHtmlEscaped();
}

QString small(const QString& words) {
  return QStringLiteral("<br><small>%1</small>").arg(words);
}

QString placeLink(const QWidget& on, base::Id place, const QString& words) {
  return linkHtml(on, QStringLiteral("place:") + q(place.text()), words);
}

QString inputRow(const QWidget& on, const WhyInput& input) {
  const QString words = input.link.empty()
                            ? html(input.words)
                            : linkHtml(on, QStringLiteral("why:") + q(input.link), q(input.words));
  QString origin = html(input.origin);
  if (input.place.valid()) {
    origin += QStringLiteral(" · ") + placeLink(on, input.place, WhyPanel::tr("show the place"));
  }
  const QString symbol =
      input.symbol.empty() ? QString() : QStringLiteral("<i>%1</i>: ").arg(html(input.symbol));
  return QStringLiteral("<tr><td>%1%2%3</td><td align=\"right\">&nbsp;&nbsp;%4</td></tr>")
      .arg(symbol, words, small(origin), html(input.value));
}

QString stepText(const WhyStep& step) {
  QString out = QStringLiteral("<p><b>%1</b><br>%2").arg(html(step.name), html(step.formula));
  if (!step.with.empty()) {
    out += QStringLiteral("<br>") + WhyPanel::tr("with %1").arg(html(step.with));
  }
  return out + QStringLiteral("<br>%1").arg(html(step.result)) +
         small(WhyPanel::tr("Source: %1").arg(html(step.source))) + QStringLiteral("</p>");
}

}  // namespace

WhyPanel::WhyPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setAccessibleName(tr("Where a number comes from"));
  auto* column = new QVBoxLayout(this);
  auto* row = new QHBoxLayout;
  back_ = new QPushButton(tr("&Back"), this);
  back_->setToolTip(tr("To the number before (Alt+B)"));
  all_ = new QPushButton(tr("Choose a &number"), this);
  all_->setToolTip(tr("A list of the numbers of what is picked on the plan, or of the whole shop (Alt+N)"));
  row->addWidget(back_);
  row->addWidget(all_);
  words_ = new QPushButton(tr("W&ords"), this);
  words_->setToolTip(tr("The words of the trade and what they mean (Alt+O)"));
  row->addWidget(words_);
  row->addStretch(1);
  pages_ = new QStackedWidget(this);

  auto* choosing = new QWidget(pages_);
  auto* choices = new QVBoxLayout(choosing);
  choices->setContentsMargins(0, 0, 0, 0);
  of_ = new QLabel(choosing);
  of_->setWordWrap(true);
  auto* line = new QHBoxLayout;
  auto* label = new QLabel(tr("&Look for"), choosing);
  search_ = new QLineEdit(choosing);
  search_->setObjectName(QStringLiteral("search"));
  search_->setPlaceholderText(tr("words, such as: slowest, loss, hood"));
  search_->setClearButtonEnabled(true);
  label->setBuddy(search_);
  line->addWidget(label);
  line->addWidget(search_, 1);
  table_ = new QTableWidget(0, 2, choosing);
  table_->setObjectName(QStringLiteral("numbers"));
  table_->setAccessibleName(tr("Numbers; Enter says where one comes from"));
  table_->setHorizontalHeaderLabels({tr("number"), tr("value")});
  table_->verticalHeader()->hide();
  table_->verticalHeader()->setMinimumSectionSize(table_->fontMetrics().height() + 4);
  table_->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
  table_->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table_->setTabKeyNavigation(false);
  table_->setWordWrap(true);
  more_ = new QLabel(choosing);
  more_->setWordWrap(true);
  choices->addWidget(of_);
  choices->addLayout(line);
  choices->addWidget(table_, 1);
  choices->addWidget(more_);
  pages_->addWidget(choosing);

  text_ = new QTextBrowser(pages_);
  text_->setObjectName(QStringLiteral("explanation"));
  text_->setAccessibleName(tr("Where this number comes from"));
  text_->setOpenLinks(false);
  text_->setFrameShape(QFrame::NoFrame);
  pages_->addWidget(text_);
  dictionary_ = new WordsPage(pages_);
  pages_->addWidget(dictionary_);
  column->addLayout(row);
  column->addWidget(pages_, 1);

  connect(back_, &QPushButton::clicked, this, &WhyPanel::back);
  connect(all_, &QPushButton::clicked, this, &WhyPanel::showList);
  connect(words_, &QPushButton::clicked, this, &WhyPanel::showWords);
  connect(search_, &QLineEdit::textChanged, this, &WhyPanel::fillList);
  connect(search_, &QLineEdit::returnPressed, this, [this] { activate(table_->currentRow()); });
  connect(table_, &QTableWidget::cellActivated, this, [this](int at, int) { activate(at); });
  connect(text_, &QTextBrowser::anchorClicked, this, [this](const QUrl& url) {
    if (url.scheme() == QStringLiteral("why")) {
      explain(url.path());
    } else if (const auto id = base::Id::parse(url.path().toStdString())) {
      bench_.look.showPlace(*id);
    }
  });
  connect(&bench_.live, &Live::solved, this, &WhyPanel::follow);
  connect(&bench_.look, &Look::stateChanged, this, [this] {
    for (QString& key : asked_) {
      key = q(inState(key.toStdString(), bench_.look.state()));
    }
    refresh();
  });
  connect(&bench_.look, &Look::unitsChanged, this, &WhyPanel::refresh);
  connect(&bench_.look, &Look::selectionChanged, this, &WhyPanel::fillList);
  connect(&bench_.look, &Look::whyAsked, this, &WhyPanel::explain);
  solved_ = bench_.live.latest();
  refresh();
}

void WhyPanel::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange && text_ != nullptr && !asked_.isEmpty()) {
    fillExplanation();  // links have their colour in their text
  }
}

void WhyPanel::explain(const QString& key) {
  if (key.isEmpty()) {
    showList();
    return;
  }
  if (asked_.isEmpty() || asked_.last() != key) {
    asked_ << key;
  }
  gone_ = false;
  solved_ = bench_.live.latest();
  pages_->setCurrentIndex(1);
  refresh();
  text_->verticalScrollBar()->setValue(0);
}

void WhyPanel::back() {
  const bool words = pages_->currentWidget() == dictionary_;
  if (!asked_.isEmpty() && !words) {
    asked_.removeLast();
  }
  pages_->setCurrentIndex(0);
  gone_ = false;
  refresh();
  if (asked_.isEmpty()) {
    search_->setFocus();
  }
}

void WhyPanel::showWords() {
  pages_->setCurrentWidget(dictionary_);
  back_->setEnabled(true);
  all_->setEnabled(true);
  dictionary_->begin();
}

void WhyPanel::showList() {
  asked_.clear();
  pages_->setCurrentIndex(0);
  gone_ = false;
  refresh();
  search_->setFocus();
}

/// Keys count what is drawn: after an edit they are looked for anew.
void WhyPanel::follow() {
  const auto latest = bench_.live.latest();
  if (!latest || !latest->assessment) {
    refresh();
    return;
  }
  if (solved_ && solved_->assessment) {
    QStringList kept;
    for (const QString& key : asked_) {
      const auto now = followNumber(*solved_, *latest, bench_.look.state(), key.toStdString());
      if (now) {
        kept << q(*now);
      } else if (key == asked_.last()) {
        gone_ = true;
      }
    }
    if (gone_) {
      kept << asked_.last();
    }
    asked_ = kept;
  }
  if (!gone_) {
    solved_ = latest;
  }
  refresh();
}

void WhyPanel::refresh() {
  if (pages_->currentWidget() == dictionary_) {
    return;  // whoever looks a word up goes back when they like
  }
  pages_->setCurrentIndex(asked_.isEmpty() ? 0 : 1);
  back_->setEnabled(!asked_.isEmpty());
  all_->setEnabled(!asked_.isEmpty());
  if (asked_.isEmpty()) {
    solved_ = bench_.live.latest();
    fillList();
  } else {
    fillExplanation();
  }
}

void WhyPanel::fillList() {
  if (!asked_.isEmpty()) {
    return;
  }
  const auto solved = bench_.live.latest();
  const std::set<base::Id>& picked = bench_.look.selection();
  list_ = solved ? numbersOf(*solved, bench_.look.state(), picked, search_->text().toStdString(),
                             bench_.look.units())
                 : NumberList{};
  QStringList names;
  for (const base::Id id : picked) {
    if (const auto thing = thingOf(bench_.document.project(), id)) {
      names << q(nameOf(bench_.document.project(), *thing));
    }
  }
  const QString of = names.isEmpty() ? tr("the whole shop (pick a thing on the plan to see its own)")
                                     : names.join(QStringLiteral(", "));
  of_->setText(tr("Numbers of %1. Enter or a double click says where one comes from.").arg(of));
  table_->setRowCount(static_cast<int>(list_.rows.size()));
  for (int r = 0; r < table_->rowCount(); ++r) {
    const NumberRow& number = list_.rows[static_cast<std::size_t>(r)];
    auto* name = new QTableWidgetItem(q(number.name));
    auto* value = new QTableWidgetItem(q(number.value));
    value->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    table_->setItem(r, 0, name);
    table_->setItem(r, 1, value);
  }
  table_->resizeRowsToContents();
  if (table_->rowCount() > 0 && table_->currentRow() < 0) {
    table_->setCurrentCell(0, 0);
  }
  more_->setVisible(list_.left_out > 0 || list_.rows.empty());
  more_->setText(!solved || !solved->assessment ? tr("Nothing is solved yet.")
                 : list_.rows.empty()           ? tr("No number here holds all these words.")
                                      : tr("… and %1 more; words narrow the list.").arg(list_.left_out));
}

void WhyPanel::activate(int row) {
  if (row >= 0 && static_cast<std::size_t>(row) < list_.rows.size()) {
    explain(q(list_.rows[static_cast<std::size_t>(row)].key));
    text_->setFocus();
  }
}

void WhyPanel::fillExplanation() {
  explanation_ = solved_ ? explainNumber(*solved_, key().toStdString(), bench_.look.units()) : Explanation{};
  const Explanation& of = explanation_;
  QString page;
  if (gone_) {
    page += QStringLiteral("<p><b>%1</b></p>")
                .arg(tr("What this number belonged to is no longer drawn. This is how it was."));
  }
  if (!solved_ || !of.problem.empty()) {
    page += QStringLiteral("<p>%1</p>").arg(solved_ ? html(of.problem) : tr("Nothing is solved yet."));
    text_->setHtml(page);
    return;
  }
  QString name = q(of.name);
  name.replace(0, 1, name.left(1).toUpper());
  page += QStringLiteral("<p>%1<br><big><b>%2</b></big>").arg(name.toHtmlEscaped(), html(of.value));
  if (!of.state.empty()) {
    page += small(tr("predicted, in state: %1").arg(html(of.state)));
  }
  if (of.place.valid()) {
    page += QStringLiteral("<br>") + placeLink(*this, of.place, tr("Show the place"));
  }
  page += QStringLiteral("</p>");
  if (!of.doubt.empty()) {
    page += QStringLiteral("<p>%1</p>").arg(html(of.doubt));
  }
  if (!of.steps.empty()) {
    page += QStringLiteral("<h4>%1</h4>").arg(tr("Its law")) + stepText(of.steps.front());
  }
  if (!of.inputs.empty()) {
    page += QStringLiteral("<h4>%1</h4><table width=\"100%\" cellpadding=\"2\">").arg(tr("Made from"));
    for (const WhyInput& input : of.inputs) {
      page += inputRow(*this, input);
    }
    page += QStringLiteral("</table>");
  }
  if (of.steps.size() > 1) {
    page += QStringLiteral("<h4>%1</h4>").arg(tr("Steps on the way, the last first"));
    for (std::size_t i = 1; i < of.steps.size(); ++i) {
      page += stepText(of.steps[i]);
    }
  }
  const std::vector<Term> terms = termsIn(of.name);
  if (!terms.empty()) {
    page += QStringLiteral("<h4>%1</h4>").arg(tr("Words"));
    for (const Term& term : terms) {
      page += QStringLiteral("<p>%1</p>").arg(html(term.sentence()));
    }
  }
  page += small(tr("Name of this number for the command line: %1").arg(html(of.key)));
  const int at = text_->verticalScrollBar()->value();
  text_->setHtml(page);
  text_->verticalScrollBar()->setValue(at);
}

}  // namespace kerfdraft::desk
