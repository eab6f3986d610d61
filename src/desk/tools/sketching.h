// What the drawing tools share: ids from the document, reach in pixels, words at the pointer.
#pragma once

#include <QPainter>
#include <QString>
#include <vector>

#include "base/id.h"
#include "desk/document.h"
#include "desk/models/snap.h"
#include "desk/plan_view.h"
#include "paint/tones.h"

namespace kerfdraft::desk {

inline constexpr double kSnapReach_px = 10;

class DocumentIds final : public base::IdSource {
 public:
  explicit DocumentIds(Document& document) : document_(document) {}
  base::Id next() override { return document_.newId(); }

 private:
  Document& document_;
};

/// Lines of text on a plate beside a place, kept on the canvas. The first is bold where `strong`.
void paintWords(QPainter& painter, QPointF beside_px, const std::vector<QString>& lines, paint::Tones tones,
                bool strong = false);
/// A ring round a place that something snapped to, and its guide lines.
void paintAim(QPainter& painter, const PlanView& view, const Snapped& aimed, paint::Tones tones);

}  // namespace kerfdraft::desk
