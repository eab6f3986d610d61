// The words of the trade, to look through.
#pragma once

#include <QLineEdit>
#include <QTextBrowser>
#include <QWidget>

namespace kerfdraft::desk {

class WordsPage : public QWidget {
  Q_OBJECT

 public:
  explicit WordsPage(QWidget* parent);

  void begin();  ///< the field of the search takes the keys

 private:
  void fill();

  QLineEdit* search_ = nullptr;
  QTextBrowser* text_ = nullptr;
};

}  // namespace kerfdraft::desk
