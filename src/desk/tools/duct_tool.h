// Draws ducts: click by click, or with typed lengths; what it will become is shown all the while.
#pragma once

#include <memory>
#include <optional>

#include "desk/models/duct_draft.h"
#include "desk/tool.h"

namespace kerfdraft::desk {

class DuctTool : public Tool {
  Q_OBJECT

 public:
  explicit DuctTool(Bench bench, QObject* parent = nullptr);

  QString key() const override { return QStringLiteral("duct"); }
  QString name() const override { return tr("Duct"); }
  QString hint() const override;

  void begin() override;
  void cancel() override;
  void press(const Pointer& pointer) override;
  void move(const Pointer& pointer) override;
  void doubleClick(const Pointer& pointer) override;
  bool keyPress(QKeyEvent* event) override;
  bool wantsKey(const QKeyEvent& event) const override;
  void paint(QPainter& painter, const PlanView& view) const override;

  /// How the next duct is made: also set by typing "bore 5 in", "hose 3 ft".
  const DuctHabits& habits() const { return habits_; }
  void setHabits(const DuctHabits& habits);
  /// What is typed at the pointer.
  const QString& typed() const { return typed_; }
  QString typedText() const override { return typed_; }
  /// Places clicked so far.
  std::size_t places() const { return sketch_.points.size(); }

 private:
  void aim(const Pointer& pointer);
  void preview();
  void click(const Snapped& place);
  void apply(const Typed& typed);
  void endLoosely(const Typed& typed);
  void finish();
  void say(const base::Error& error);
  SketchPoint pointFrom(const Snapped& place) const;
  std::vector<QString> words() const;

  DuctHabits habits_;
  bool own_bore_ = false;    ///< a person has said how wide ducts are
  bool own_height_ = false;  ///< a person has said at which height runs hang
  DuctSketch sketch_;
  Snapped aimed_;
  shop::PlanPoint pointer_;
  QPointF pointer_px_;
  std::size_t turn_ = 0;
  std::optional<base::Result<DuctPlan>> plan_;  ///< with the aimed place as its end
  QString typed_;
  QString problem_;  ///< of what was typed
  mutable double px_per_m_ = 80;
};

}  // namespace kerfdraft::desk
