// What is refused of the fields of a form, each sentence in a row below its field: for the eye there, for a
// screen reader as the field's description.
#pragma once

#include <QFormLayout>
#include <QLabel>
#include <QString>
#include <QStringList>
#include <QWidget>
#include <vector>

namespace kerfdraft::desk {

class RefusalsBeside {
 public:
  /// Adds the row that holds the sentence; called right after the field's own row.
  void add(const QString& question, QWidget* field, QFormLayout* form);
  /// False where no field has this question: then it is for the caller to say.
  bool say(const QString& question, const QString& sentence);
  /// What was refused is being changed: the sentence is about what stood there before.
  void clear(const QString& question) { say(question, {}); }
  void clear();
  /// All that stands there, in the order of the fields.
  QStringList said() const;
  /// Puts the keys into the first field that is wrong, and brings it into sight.
  void focusFirst() const;

 private:
  struct Beside {
    QString question;
    QWidget* field = nullptr;
    QLabel* sentence = nullptr;
  };
  std::vector<Beside> all_;
};

}  // namespace kerfdraft::desk
