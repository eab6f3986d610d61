// The first page, over the canvas of an empty shop: look at an example, answer a few questions, or two
// minutes without drawing.
#pragma once

#include <QButtonGroup>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QStackedWidget>
#include <QWidget>
#include <optional>
#include <vector>

#include "desk/bench.h"
#include "desk/models/line_answer.h"
#include "desk/models/start.h"
#include "desk/panels/refusals_beside.h"

namespace kerfdraft::desk {

class StartPanel : public QWidget {
  Q_OBJECT

 public:
  explicit StartPanel(Bench bench, QWidget* parent = nullptr);

  /// Shows the examples, and takes the keys.
  void begin();
  /// 0 examples, 1 questions, 2 without drawing.
  void showPage(int page);
  /// What was refused, or answered, on the page.
  QString said() const;

 signals:
  /// `unsaved`: it is the person's own from now on, not an example to look at.
  void shopMade(const kerfdraft::shop::Project& project, bool unsaved);
  void emptyAsked();

 private:
  QWidget* examplesPage();
  QWidget* questionsPage();
  QWidget* linePage();
  void showUnits();
  void addMachine();
  void openPicked();
  void makeShop();
  void answer();
  void refuse(const Refusals& refusals);
  void showLineUnits();

  Bench bench_;
  std::vector<ExampleRow> examples_;
  QButtonGroup* ways_ = nullptr;
  QStackedWidget* pages_ = nullptr;
  QListWidget* list_ = nullptr;
  QLabel* teaches_ = nullptr;
  // questions
  QLineEdit* name_ = nullptr;
  QComboBox* who_ = nullptr;
  QLineEdit* country_ = nullptr;
  QComboBox* units_ = nullptr;
  QLineEdit* width_ = nullptr;
  QLineEdit* depth_ = nullptr;
  QLineEdit* height_ = nullptr;
  QLineEdit* altitude_ = nullptr;
  QLineEdit* temperature_ = nullptr;
  QComboBox* kind_ = nullptr;
  QSpinBox* count_ = nullptr;
  QListWidget* machines_ = nullptr;
  QComboBox* fan_ = nullptr;
  QLineEdit* label_flow_ = nullptr;
  QLineEdit* label_suction_ = nullptr;
  QLineEdit* inlet_ = nullptr;
  QLabel* refused_ = nullptr;  ///< what no single answer is to blame for
  RefusalsBeside beside_;
  // without drawing
  QLabel* like_ = nullptr;
  QPlainTextEdit* pieces_ = nullptr;
  QLineEdit* curve_ = nullptr;
  QLineEdit* label_ = nullptr;
  QLineEdit* need_ = nullptr;
  RefusalsBeside beside_line_;
  QLabel* answer_ = nullptr;
  QPushButton* go_on_ = nullptr;
  std::optional<LineAnswer> answered_;
};

}  // namespace kerfdraft::desk
