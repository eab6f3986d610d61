// The shop on the screen: the picture of the drawing room, what the tool in hand draws over it, and the way
// of pointer and wheel into the shop.
#pragma once

#include <QKeySequence>
#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <vector>

#include "desk/bench.h"
#include "desk/plan_view.h"
#include "desk/tool.h"
#include "drawing/display_list.h"
#include "drawing/geometry.h"

namespace kerfdraft::desk {

class Canvas : public QWidget {
  Q_OBJECT

 public:
  explicit Canvas(Bench bench, QWidget* parent = nullptr);

  const PlanView& view() const { return view_; }
  void setView(const PlanView& view);
  /// Everything in sight, with a rim.
  void showAll();
  /// Brings a thing into sight and marks it for a while.
  void showPlace(base::Id id);
  /// What is picked, as large as it goes; everything where nothing is.
  void showPicked();

  /// The tool in hand; the canvas does not own it. The one before is cancelled.
  void take(Tool* tool);
  Tool* tool() const { return tool_; }

  /// The keys that the canvas itself takes, and what each does.
  static std::vector<std::pair<QKeySequence, QString>> keys();

  const Bench& bench() const { return bench_; }
  /// Where the hand is on the plan: under the pointer, or in the middle of what is in sight.
  shop::PlanPoint handPlace() const;
  /// Where a thing lies on the canvas; empty where it is not shown.
  QRect rectOf(base::Id id);
  /// The state of the work in words, for whoever hears it: what is expected, typed and picked.
  QString spoken() const;
  /// Text that comes from elsewhere than single keys (an input method, a pen, speech) goes to the tool as if
  /// typed. What the tool does not take is said.
  void typeText(const QString& text);

  /// The picture as it is painted now, made anew where something changed.
  const drawing::Picture& picture();
  /// What lies at a place, in a few lines: its air, and what it is.
  QString wordsAt(QPointF px);
  /// Asks where the number under the pointer comes from.
  void askWhy();
  /// Paints everything into a painter of this widget's size: also for tests and for measuring.
  void paintAll(QPainter& painter);

 signals:
  void viewChanged();
  void hintChanged(const QString& hint);
  void refused(const QString& sentence);
  void pointerMoved(kerfdraft::shop::PlanPoint at);
  void toolDone();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void showEvent(QShowEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void inputMethodEvent(QInputMethodEvent* event) override;
  QVariant inputMethodQuery(Qt::InputMethodQuery query) const override;
  bool event(QEvent* event) override;

 private:
  /// What a hand that holds the drawing does with it.
  enum class Moving { Nothing, Pan, Turn };

  Pointer pointerAt(QPointF px, Qt::KeyboardModifiers keys, Qt::MouseButtons buttons);
  void invalidate();
  void pan(QPointF by_px);
  bool gesture(QEvent* event);
  bool holdsDrawing(const QKeyEvent& event) const;
  void showCursor();
  /// Whether a figure would now be typed into the tool.
  bool takesTyping() const;
  /// Tells input methods and screen readers what has changed.
  void tellTyping();
  void tellPicked();
  /// Brings a part of the floor [m], or in space the things themselves, into sight.
  void fit(const drawing::Box& floor_m, const std::set<base::Id>& only);
  void fitSketch(double rim_px, const std::set<base::Id>& only);
  /// Where the shapes of a thing lie in the picture [mm]; empty where it shows none.
  drawing::Box boxOf(base::Id id);
  void paintGrid(QPainter& painter) const;
  void paintShapes(QPainter& painter, std::span<const drawing::Shape> shapes) const;
  void paintSelection(QPainter& painter);

  Bench bench_;
  PlanView view_;
  Tool* tool_ = nullptr;
  std::optional<drawing::Picture> picture_;
  PlanView picture_view_;  ///< for which the picture was made; while zooming it is only stretched
  QTimer settle_;          ///< labels are placed anew once the wheel rests
  Moving moving_ = Moving::Nothing;
  Qt::MouseButton moving_by_ = Qt::NoButton;
  QPointF moved_to_px_;
  bool space_ = false;     ///< held down
  bool pinching_ = false;  ///< two fingers are on it, whose first is no click
  std::optional<QPointF> pointer_px_;
  QString preedit_;  ///< what an input method is still composing
  QString told_;     ///< what screen readers were told last
  base::Id marked_;
  bool fit_when_shown_ = false;
  QTimer unmark_;
};

}  // namespace kerfdraft::desk
