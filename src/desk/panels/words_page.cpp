// The table of models/glossary, narrowed by what is typed.
#include "desk/panels/words_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include "desk/models/glossary.h"

namespace kerfdraft::desk {

WordsPage::WordsPage(QWidget* parent)
    : QWidget(parent), search_(new QLineEdit(this)), text_(new QTextBrowser(this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  auto* row = new QHBoxLayout;
  auto* label = new QLabel(tr("Look &for"), this);
  label->setBuddy(search_);
  search_->setObjectName(QStringLiteral("search-words"));
  search_->setPlaceholderText(tr("a word, or part of what it means"));
  search_->setClearButtonEnabled(true);
  row->addWidget(label);
  row->addWidget(search_, 1);
  text_->setObjectName(QStringLiteral("words"));
  text_->setAccessibleName(tr("Words of the trade and what they mean"));
  text_->setFrameShape(QFrame::NoFrame);
  column->addLayout(row);
  column->addWidget(text_, 1);
  connect(search_, &QLineEdit::textChanged, this, &WordsPage::fill);
  fill();
}

void WordsPage::begin() {
  search_->setFocus();
  search_->selectAll();
}

void WordsPage::fill() {
  QString page;
  for (const Term& term : searchGlossary(search_->text().toStdString())) {
    QStringList words;
    for (const std::string& word : term.words) {
      words << QString::fromStdString(word).toHtmlEscaped();
    }
    page += QStringLiteral("<p><b>%1</b><br>%2</p>")
                .arg(words.join(QStringLiteral(", ")), QString::fromStdString(term.meaning).toHtmlEscaped());
  }
  text_->setHtml(page.isEmpty() ? tr("No word of the list, and no meaning, holds this.") : page);
}

}  // namespace kerfdraft::desk
