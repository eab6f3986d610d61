// A list of which any may be ticked, for a field that names several things of a table.
#pragma once

#include <QListWidget>
#include <string>
#include <utility>
#include <vector>

namespace kerfdraft::desk {

class TickList : public QListWidget {
  Q_OBJECT

 public:
  /// Keys and their names, in the order in which they are shown.
  explicit TickList(const std::vector<std::pair<std::string, std::string>>& choices,
                    QWidget* parent = nullptr);

  /// Ticks these keys, with ", " between them, and no others.
  void tick(const QString& keys);
  /// What is ticked: first what was shown, in its order, then what was ticked since.
  QString keys() const;

 signals:
  void ticked();  ///< by a person

 private:
  QStringList shown_;
};

}  // namespace kerfdraft::desk
