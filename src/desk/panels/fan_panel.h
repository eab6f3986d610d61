// The fan's curve: typed, pasted, traced or from its label; what the numbers were; what becomes of them.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <QWidget>
#include <optional>

#include "desk/aside.h"
#include "desk/bench.h"
#include "desk/models/fan_entry.h"
#include "drawing/display_list.h"

namespace kerfdraft::desk {

/// One picture at the width it has.
class FanPicture : public QWidget {
  Q_OBJECT

 public:
  FanPicture(Bench bench, QWidget* parent);
  /// Nothing to show where there is no chart.
  void show(std::optional<drawing::Chart> chart);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Bench bench_;
  std::optional<drawing::Chart> chart_;
};

class FanPanel : public QWidget {
  Q_OBJECT

 public:
  explicit FanPanel(Bench bench, QWidget* parent = nullptr);

  /// Takes a table as typed points; false and a sentence where it cannot.
  bool takeTable(const QString& text, const QString& name);
  bool apply();
  /// Asks what the other ways of reading would give; the answer follows beside the event loop.
  void compareBases();
  bool isComparing() const { return compare_.isBusy(); }
  QString says() const { return says_->text(); }

 protected:
  /// Turning the wheel scrolls the panel and never changes an answer on the way.
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void buildTable(QVBoxLayout* column);
  void buildQuestions(QVBoxLayout* column);
  void buildTest(QVBoxLayout* column);
  void showFan(bool anew);
  void fill(const TypedFan& typed);
  TypedFan typed() const;
  void edited();
  void explain();
  void forgetCompared();
  void openTable();
  void trace();
  void takePoints(const std::vector<TypedPoint>& points);
  void addReading();
  bool make(const shop::FanRating& rating);

  Bench bench_;
  std::optional<FanThing> thing_;
  TypedFan shown_;  ///< as the project has it
  bool filling_ = false;
  QLabel* title_ = nullptr;
  QWidget* body_ = nullptr;
  QTableWidget* table_ = nullptr;
  QLineEdit* free_air_ = nullptr;
  QLineEdit* suction_ = nullptr;
  QComboBox* basis_ = nullptr;
  QLabel* basis_help_ = nullptr;
  QLineEdit* bore_ = nullptr;
  QComboBox* fitted_ = nullptr;
  QLabel* fitted_help_ = nullptr;
  QLineEdit* density_ = nullptr;
  QLineEdit* speed_ = nullptr;
  QComboBox* standing_ = nullptr;
  QLineEdit* source_ = nullptr;
  FanPicture* picture_ = nullptr;
  QLabel* says_ = nullptr;
  QPushButton* apply_ = nullptr;
  QPushButton* undo_typed_ = nullptr;
  QLabel* compared_ = nullptr;
  QLineEdit* reading_ = nullptr;
  Aside compare_;
};

}  // namespace kerfdraft::desk
