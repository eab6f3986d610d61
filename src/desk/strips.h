// What concerns the whole project, above the drawing: a sentence each, with what can be done about it. A
// lasting one stays until its cause is gone, a passing one for some seconds.
#pragma once

#include <QString>
#include <QTimer>
#include <QWidget>
#include <functional>
#include <map>
#include <utility>
#include <vector>

namespace kerfdraft::desk {

class Strips : public QWidget {
  Q_OBJECT

 public:
  explicit Strips(QWidget* parent);

  using Button = std::pair<QString, std::function<void()>>;
  /// Puts a lasting strip, or replaces the one of this key. Its buttons take it away.
  void put(const QString& key, const QString& sentence, const std::vector<Button>& buttons = {});
  void take(const QString& key);
  bool has(const QString& key) const { return strips_.contains(key); }
  /// A passing one.
  void pass(const QString& sentence);
  /// Everything that stands there, a line each.
  QString text() const;
  /// Presses a button of a strip, as a click does; false where there is none.
  bool press(const QString& key, const QString& button);

 private:
  std::map<QString, QWidget*> strips_;
  QTimer passes_;
};

}  // namespace kerfdraft::desk
