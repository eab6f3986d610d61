// Puts the underlay where it belongs: two known places and their distance, dragging, turning.
#pragma once

#include <memory>
#include <optional>

#include "desk/models/underlay.h"
#include "desk/tool.h"
#include "desk/tools/typed_line.h"

namespace kerfdraft::desk {

class UnderlayTool final : public Tool {
  Q_OBJECT

 public:
  using Tool::Tool;

  QString key() const override { return QStringLiteral("underlay"); }
  QString name() const override { return tr("Underlay"); }
  QString hint() const override;

  void begin() override;
  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void release(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  QString typedText() const override { return line_.text; }
  void paint(QPainter& painter, const PlanView& view) const override;

  const std::optional<shop::PlanPoint>& first() const { return first_; }
  const std::optional<shop::PlanPoint>& second() const { return second_; }
  const QString& problem() const { return line_.problem; }

 private:
  struct Drag {
    shop::PlanPoint from;
    QPointF from_px;
    std::shared_ptr<const shop::Project> before;
    int gesture = 0;  ///< 0 until it is more than a click
  };

  void apply(const UnderlayTyped& typed);
  bool put(const QString& words, const base::Result<shop::Underlay>& underlay, int gesture = 0);
  void forgetPlaces();

  std::optional<shop::PlanPoint> first_;
  std::optional<shop::PlanPoint> second_;
  std::optional<Drag> drag_;
  QPointF pointer_px_;
  shop::PlanPoint pointer_;
  TypedLine line_;
};

}  // namespace kerfdraft::desk
