// Where a number comes from: its law, what it is made from, each with its source; what is a number itself
// leads on. Else the numbers of what is picked, to choose from.
#pragma once

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QTextBrowser>
#include <QWidget>
#include <memory>

#include "desk/bench.h"
#include "desk/models/explanation.h"
#include "desk/panels/words_page.h"

namespace kerfdraft::desk {

class WhyPanel : public QWidget {
  Q_OBJECT

 public:
  explicit WhyPanel(Bench bench, QWidget* parent = nullptr);

  /// Key of the number that is explained; empty while the list is shown.
  QString key() const { return asked_.isEmpty() ? QString() : asked_.last(); }
  const Explanation& shown() const { return explanation_; }
  const NumberList& list() const { return list_; }

  /// Explains a number; the one before is kept for back().
  void explain(const QString& key);
  /// To the number before; from the first to the list.
  void back();
  void showList();
  /// The words of the trade.
  void showWords();

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void follow();
  void refresh();
  void fillList();
  void fillExplanation();
  void activate(int row);

  Bench bench_;
  QStringList asked_;                     ///< the last is shown
  std::shared_ptr<const Solved> solved_;  ///< to which these keys belong
  std::size_t state_ = 0;                 ///< in which they were asked
  bool gone_ = false;                     ///< what the number belonged to is no longer drawn
  Explanation explanation_;
  NumberList list_;
  QPushButton* back_ = nullptr;
  QPushButton* all_ = nullptr;
  QPushButton* words_ = nullptr;
  WordsPage* dictionary_ = nullptr;
  QStackedWidget* pages_ = nullptr;
  QLabel* of_ = nullptr;
  QLineEdit* search_ = nullptr;
  QTableWidget* table_ = nullptr;
  QLabel* more_ = nullptr;
  QTextBrowser* text_ = nullptr;
};

}  // namespace kerfdraft::desk
