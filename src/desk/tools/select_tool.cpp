// What is on top is meant.
#include "desk/tools/select_tool.h"

namespace kerfdraft::desk {

QString SelectTool::hint() const {
  return tr("Click a thing to see and change it; drag to move it.");
}

void SelectTool::press(const Pointer& pointer) {
  std::set<base::Id> picked;
  if (pointer.keys.testFlag(Qt::ShiftModifier)) {
    picked = bench_.look.selection();
  }
  for (const paint::Found& found : pointer.under) {
    if (const auto id = base::Id::parse(found.element)) {
      picked.insert(*id);
      break;
    }
  }
  bench_.look.select(std::move(picked));
}

}  // namespace kerfdraft::desk
