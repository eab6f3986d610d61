// What a tool of the canvas is: it takes pointer and keys, paints what is being drawn, and says what it
// expects next. One file for each in desk/tools/.
#pragma once

#include <QKeyEvent>
#include <QObject>
#include <QPainter>
#include <QString>
#include <vector>

#include "desk/bench.h"
#include "desk/plan_view.h"
#include "paint/painter.h"

namespace kerfdraft::desk {

/// A place on the canvas as tools see it.
struct Pointer {
  QPointF px;                       ///< on the canvas
  shop::PlanPoint at;               ///< on the floor plan, not snapped
  std::vector<paint::Found> under;  ///< what lies there, on top first
  Qt::KeyboardModifiers keys;
  Qt::MouseButtons buttons;
};

class Tool : public QObject {
  Q_OBJECT

 public:
  explicit Tool(Bench bench, QObject* parent = nullptr) : QObject(parent), bench_(std::move(bench)) {}

  virtual QString key() const = 0;   ///< "duct": for settings and tests
  virtual QString name() const = 0;  ///< on its button
  virtual QString hint() const = 0;  ///< what is expected next, for the status line
  virtual Qt::CursorShape cursor() const { return Qt::CrossCursor; }

  virtual void begin() {}  ///< it becomes the tool in hand
  virtual void cancel() {
  }  ///< Escape or another tool: whatever was half drawn is dropped, the project unchanged
  virtual void press(const Pointer& /*pointer*/) {}
  virtual void move(const Pointer& /*pointer*/) {}
  virtual void release(const Pointer& /*pointer*/) {}
  virtual void doubleClick(const Pointer& /*pointer*/) {}
  /// True where it used the key.
  virtual bool keyPress(QKeyEvent* /*event*/) { return false; }
  /// True where a key is typed into the tool, and is no shortcut of the window meanwhile.
  virtual bool wantsKey(const QKeyEvent& /*event*/) const { return false; }
  /// What is typed into it and not yet entered.
  virtual QString typedText() const { return {}; }
  /// Over the picture, in canvas pixels.
  virtual void paint(QPainter& /*painter*/, const PlanView& /*view*/) const {}

 signals:
  void hintChanged();
  void repaintAsked();
  void refused(const QString& sentence);  ///< an edit was refused: said where the hand is
  void done();                            ///< the canvas goes back to selecting

 protected:
  /// Makes an edit; a refusal is said.
  bool make(const QString& words, std::span<const shop::Edit> edits, int gesture = 0) {
    const base::Result<void> made = bench_.document.make(words, edits, gesture);
    if (!made) {
      emit refused(QString::fromStdString(made.error().text()));
    }
    return made.has_value();
  }

  Bench bench_;
};

}  // namespace kerfdraft::desk
