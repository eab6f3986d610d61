// One finding: what is wrong, what to do, where else; it stays the same widget while the finding is there, so
// that focus, scroll and a half-typed reason stay too.
#pragma once

#include <QFrame>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <cstddef>
#include <optional>
#include <vector>

#include "desk/models/finding_list.h"

namespace kerfdraft::desk {

class FindingCard : public QFrame {
  Q_OBJECT

 public:
  explicit FindingCard(QWidget* parent);

  /// Shows a row; `can_change` is false for a project that is only read.
  void setRow(const FindingRow& row, bool lived_with, bool can_change);
  /// Whether more than sign and title are seen.
  bool isOpen() const { return open_; }
  void setOpen(bool open);
  std::size_t finding() const { return row_ ? row_->finding : 0; }

 signals:
  void placeAsked(std::size_t finding);
  void whyAsked(const QString& key);
  void tryAsked(std::size_t finding, std::size_t remedy);
  void acceptAsked(std::size_t finding, const QString& reason);
  void withdrawAsked(std::size_t finding);

 protected:
  void changeEvent(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  struct RemedyLine {
    QWidget* all = nullptr;
    QLabel* text = nullptr;
    QLabel* caution = nullptr;
    QPushButton* attempt = nullptr;
    std::size_t remedy = 0;
  };

  void makeBody();
  void fill();
  void fillRemedies();
  void fillFolded();
  void askReason(bool ask);
  RemedyLine& remedyLine(std::size_t at);

  std::optional<FindingRow> row_;
  bool lived_with_ = false;
  bool can_change_ = true;
  bool open_ = false;
  bool all_folded_ = false;

  QVBoxLayout* column_ = nullptr;
  QLabel* sign_ = nullptr;
  QPushButton* unfold_ = nullptr;
  QLabel* title_ = nullptr;
  QWidget* body_ = nullptr;  ///< made when it is first opened
  QLabel* what_ = nullptr;
  QLabel* limit_ = nullptr;
  QLabel* defer_ = nullptr;
  QLabel* reason_given_ = nullptr;
  QVBoxLayout* remedies_ = nullptr;
  std::vector<RemedyLine> lines_;
  QLabel* folded_ = nullptr;
  QPushButton* show_ = nullptr;
  QPushButton* live_with_ = nullptr;
  QPushButton* back_ = nullptr;
  QWidget* asking_ = nullptr;
  QLineEdit* reason_ = nullptr;
};

}  // namespace kerfdraft::desk
