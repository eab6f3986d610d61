// What rooms and obstacles have in common: an outline clicked corner by corner, a rectangle by dragging from
// corner to corner, or sizes typed at the pointer.
#pragma once

#include <optional>
#include <vector>

#include "desk/models/room_draft.h"
#include "desk/models/snap.h"
#include "desk/tool.h"
#include "desk/tools/typed_line.h"

namespace kerfdraft::desk {

class OutlineTool : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  void doubleClick(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  void paint(QPainter& painter, const PlanView& view) const override;

  const std::vector<shop::PlanPoint>& corners() const { return corners_; }
  const QString& typed() const { return line_.text; }
  QString typedText() const override { return line_.text; }

 protected:
  /// The edit that an outline becomes.
  virtual base::Result<Change> changeOf(std::vector<shop::PlanPoint> outline, base::IdSource& ids) = 0;
  /// Takes "height …" or "bottom …"; a sentence where that makes no sense here.
  virtual base::Result<void> take(const OutlineTyped& typed) = 0;
  /// What the next one will be like, for the plate at the pointer.
  virtual QString habits() const = 0;
  /// Called after one was made.
  virtual void made() {}

 private:
  void aim(const Pointer& pointer);
  void finish(std::vector<shop::PlanPoint> outline);
  void apply(const OutlineTyped& typed);
  void say(const base::Error& error);
  bool closes(const shop::PlanPoint& at) const;

  std::vector<shop::PlanPoint> corners_;
  std::optional<QPointF> pressed_px_;
  Snapped aimed_;
  QPointF pointer_px_;
  TypedLine line_;
  mutable double px_per_m_ = 80;
};

class RoomTool final : public OutlineTool {
  Q_OBJECT

 public:
  explicit RoomTool(Bench bench, QObject* parent = nullptr);
  QString key() const override { return QStringLiteral("room"); }
  QString name() const override { return tr("Room"); }
  QString hint() const override;
  void begin() override;

 protected:
  base::Result<Change> changeOf(std::vector<shop::PlanPoint> outline, base::IdSource& ids) override;
  base::Result<void> take(const OutlineTyped& typed) override;
  QString habits() const override;
  void made() override;

 private:
  std::optional<base::Given<base::Length>> height_;  ///< the usual one until a height is typed
};

class ObstacleTool final : public OutlineTool {
  Q_OBJECT

 public:
  explicit ObstacleTool(Bench bench, QObject* parent = nullptr);
  QString key() const override { return QStringLiteral("obstacle"); }
  QString name() const override { return tr("Obstacle"); }
  QString hint() const override;

 protected:
  base::Result<Change> changeOf(std::vector<shop::PlanPoint> outline, base::IdSource& ids) override;
  base::Result<void> take(const OutlineTyped& typed) override;
  QString habits() const override;

 private:
  base::Given<base::Length> topOf() const;

  base::Given<base::Length> bottom_;
  std::optional<base::Given<base::Length>> top_;
};

}  // namespace kerfdraft::desk
