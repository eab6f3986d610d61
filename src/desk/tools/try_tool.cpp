// The trial is shown as one more state, the last.
#include "desk/tools/try_tool.h"

#include "desk/models/trial.h"

namespace kerfdraft::desk {

void TryTool::press(const Pointer& pointer) {
  for (const paint::Found& found : pointer.under) {
    const auto id = base::Id::parse(found.element);
    if (found.kind.starts_with("gate") && id) {
      const shop::Project& project = bench_.document.project();
      const shop::State trial =
          trialFrom(project, bench_.look.trial(), bench_.look.state(), bench_.document.newId());
      bench_.look.setTrial(withGateToggled(trial, *id));
      // A project without states gets one for itself, which the trial then replaces.
      bench_.look.setState(project.states.size());
      return;
    }
  }
}

}  // namespace kerfdraft::desk
