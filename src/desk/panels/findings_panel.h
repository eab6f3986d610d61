// What is wrong with the shop, the gravest first: a finding leads to its place, a remedy can be tried, and
// what one lives with is kept with its reason.
#pragma once

#include <QLabel>
#include <QString>
#include <QVBoxLayout>
#include <QWidget>
#include <memory>
#include <optional>

#include "desk/bench.h"
#include "desk/models/finding_list.h"

namespace kerfdraft::desk {

class FindingsPanel : public QWidget {
  Q_OBJECT

 public:
  explicit FindingsPanel(Bench bench, QWidget* parent = nullptr);

  const FindingList& shown() const { return list_; }

  /// As the buttons do; a refusal stands in the panel as a sentence.
  void leadTo(std::size_t finding);
  bool accept(std::size_t finding, const QString& reason);
  bool withdraw(std::size_t finding);
  bool attempt(std::size_t finding, std::size_t remedy);

 private:
  void refresh();
  QWidget* card(const FindingRow& row, bool lived_with);
  void addFolded(const QString& words, const std::vector<FindingRow>& rows, bool lived_with, bool& open);
  bool make(const base::Result<Change>& change);

  Bench bench_;
  FindingList list_;
  std::shared_ptr<const Solved> solved_;        ///< of which the list is
  std::optional<judge::FindingKey> reasoning_;  ///< the finding whose reason is being typed
  bool reason_focus_ = false;                   ///< the field of the reason takes the keys
  QString reason_;
  bool rest_open_ = false;
  bool lived_with_open_ = false;
  QLabel* headline_ = nullptr;
  QLabel* refused_ = nullptr;
  QWidget* inside_ = nullptr;
  QVBoxLayout* rows_ = nullptr;
};

}  // namespace kerfdraft::desk
