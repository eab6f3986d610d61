// What is typed at the pointer while a tool is in hand.
#pragma once

#include <QKeyEvent>
#include <QString>

namespace kerfdraft::desk {

struct TypedLine {
  QString text;
  QString problem;  ///< of what was typed last

  enum class Use { None, Taken, Entered };

  bool empty() const { return text.isEmpty(); }
  void clear() {
    text.clear();
    problem.clear();
  }
  /// Printable keys, without Ctrl.
  static bool takes(const QKeyEvent& event) {
    return !event.text().isEmpty() && event.text().at(0).isPrint() &&
           !event.modifiers().testFlag(Qt::ControlModifier) && !event.modifiers().testFlag(Qt::AltModifier);
  }
  /// Entered: the text is complete, and is the caller's to read and clear. Escape clears what is there.
  Use key(const QKeyEvent& event) {
    constexpr qsizetype kLongest = 60;
    switch (event.key()) {
      case Qt::Key_Escape:
        if (text.isEmpty() && problem.isEmpty()) {
          return Use::None;
        }
        clear();
        return Use::Taken;
      case Qt::Key_Backspace:
        problem.clear();
        if (text.isEmpty()) {
          return Use::None;
        }
        text.chop(1);
        return Use::Taken;
      case Qt::Key_Return:
      case Qt::Key_Enter:
        return text.isEmpty() ? Use::None : Use::Entered;
      default:
        break;
    }
    if (!takes(event) || text.size() >= kLongest) {
      return Use::None;
    }
    problem.clear();
    text += event.text();
    return Use::Taken;
  }
};

}  // namespace kerfdraft::desk
