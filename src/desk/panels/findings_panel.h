// What is wrong with the shop, the gravest first: a finding leads to its place, a remedy can be tried, and
// what one lives with is kept with its reason.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QString>
#include <QVBoxLayout>
#include <QWidget>
#include <map>
#include <memory>
#include <optional>

#include "desk/bench.h"
#include "desk/models/finding_list.h"
#include "desk/panels/finding_card.h"

namespace kerfdraft::desk {

class FindingsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit FindingsPanel(Bench bench, QWidget* parent = nullptr);

  const FindingList& shown() const { return list_; }
  /// The card of a finding that is shown, or null.
  FindingCard* card(const judge::FindingKey& key) const;
  /// What the last thing done here brought, or why it was refused; empty where nothing was done.
  QString said() const { return said_->text(); }

  /// As the buttons do; a refusal stands in the panel as a sentence.
  void leadTo(std::size_t finding);
  bool accept(std::size_t finding, const QString& reason);
  bool withdraw(std::size_t finding);
  bool attempt(std::size_t finding, std::size_t remedy);

 private:
  /// A remedy that was tried and is being judged.
  struct Tried {
    std::shared_ptr<const Solved> before;
    std::size_t finding = 0;
    int step = 0;  ///< of the undo stack, once it is made
  };

  void refresh();
  void fillStates();
  void tellOutcome();
  void say(const QString& sentence, bool can_undo);
  /// Puts these rows' cards into place behind what is there already, `at` counting on.
  void place(const std::vector<FindingRow>& rows, bool lived_with, bool open, int& at,
             std::map<judge::FindingKey, FindingCard*>& kept);
  void put(QWidget* widget, int& at);
  bool make(const base::Result<Change>& change, const QString& done);

  Bench bench_;
  FindingList list_;
  std::shared_ptr<const Solved> solved_;  ///< of which the list is
  std::map<judge::FindingKey, FindingCard*> cards_;
  std::optional<Tried> tried_;
  std::optional<base::Id> only_state_;  ///< the list is of this state alone
  int undo_step_ = -1;                  ///< the step that "take it back" undoes
  bool rest_open_ = false;
  bool lived_with_open_ = false;
  QLabel* headline_ = nullptr;
  QComboBox* reader_ = nullptr;
  QComboBox* states_ = nullptr;
  QWidget* note_ = nullptr;
  QLabel* said_ = nullptr;
  QPushButton* undo_ = nullptr;
  QWidget* inside_ = nullptr;
  QVBoxLayout* rows_ = nullptr;
  QPushButton* rest_ = nullptr;
  QPushButton* lived_with_ = nullptr;
};

}  // namespace kerfdraft::desk
