// The shop on the screen: the picture of the drawing room, what the tool in hand draws over it, and the way
// of pointer and wheel into the shop.
#pragma once

#include <QKeySequence>
#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>
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

  /// The tool in hand; the canvas does not own it. The one before is cancelled.
  void take(Tool* tool);
  Tool* tool() const { return tool_; }

  /// The keys that the canvas itself takes, and what each does.
  static std::vector<std::pair<QKeySequence, QString>> keys();

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
  void wheelEvent(QWheelEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  bool event(QEvent* event) override;

 private:
  Pointer pointerAt(QPointF px, Qt::KeyboardModifiers keys, Qt::MouseButtons buttons);
  void invalidate();
  void fitSketch(double rim_px);
  /// Where the shapes of a thing lie in the picture [mm]; empty where it shows none.
  drawing::Box boxOf(base::Id id);
  void paintGrid(QPainter& painter) const;
  void paintSelection(QPainter& painter);

  Bench bench_;
  PlanView view_;
  Tool* tool_ = nullptr;
  std::optional<drawing::Picture> picture_;
  PlanView picture_view_;  ///< for which the picture was made; while zooming it is only stretched
  QTimer settle_;          ///< labels are placed anew once the wheel rests
  std::optional<QPointF> panning_from_;
  std::optional<QPointF> pointer_px_;
  base::Id marked_;
  QTimer unmark_;
};

}  // namespace kerfdraft::desk
