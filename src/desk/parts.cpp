// The order is that in which a shop comes about.
#include "desk/parts.h"

#include "desk/panels/charts_panel.h"
#include "desk/panels/fan_panel.h"
#include "desk/panels/findings_panel.h"
#include "desk/panels/machines_panel.h"
#include "desk/panels/properties_panel.h"
#include "desk/panels/underlay_panel.h"
#include "desk/panels/why_panel.h"
#include "desk/tools/cleanout_tool.h"
#include "desk/tools/duct_tool.h"
#include "desk/tools/gate_tool.h"
#include "desk/tools/hose_tool.h"
#include "desk/tools/measure_tool.h"
#include "desk/tools/opening_tool.h"
#include "desk/tools/outline_tool.h"
#include "desk/tools/place_tool.h"
#include "desk/tools/select_tool.h"
#include "desk/tools/tap_tool.h"
#include "desk/tools/try_tool.h"
#include "desk/tools/underlay_tool.h"

namespace kerfdraft::desk {

std::vector<ToolPart> makeTools(const Bench& bench, QObject* parent) {
  return {
      {new SelectTool(bench, parent), QKeySequence(Qt::Key_P), false},
      {new TryTool(bench, parent), QKeySequence(Qt::Key_T), false},
      {new RoomTool(bench, parent), QKeySequence(Qt::Key_N), true},
      {new OpeningTool(bench, parent), QKeySequence(Qt::Key_E), false},
      {new ObstacleTool(bench, parent), QKeySequence(Qt::Key_B), false},
      {new PlaceTool(bench, parent), QKeySequence(Qt::Key_A), true},
      {new DuctTool(bench, parent), QKeySequence(Qt::Key_D), true},
      {new GateTool(bench, parent), QKeySequence(Qt::Key_G), false},
      {new TapTool(bench, parent), QKeySequence(Qt::Key_H), false},
      {new CleanoutTool(bench, parent), QKeySequence(Qt::Key_C), false},
      {new HoseTool(bench, parent), QKeySequence(Qt::Key_O), false},
      {new MeasureTool(bench, parent), QKeySequence(Qt::Key_M), true},
      {new UnderlayTool(bench, parent), QKeySequence(Qt::Key_U), false},
  };
}

std::vector<PanelPart> makeSidePanels(const Bench& bench, QWidget* parent) {
  const auto tr = [](const char* text) { return QObject::tr(text); };
  return {
      {QStringLiteral("findings"), tr("What is wrong"), tr("What is wrong, and what to do"),
       QKeySequence(Qt::CTRL | Qt::Key_1), new FindingsPanel(bench, parent)},
      {QStringLiteral("machines"), tr("Machines"), tr("Machines and collectors to put in the shop"),
       QKeySequence(Qt::CTRL | Qt::Key_2), new MachinesPanel(bench, parent)},
      {QStringLiteral("thing"), tr("This thing"), tr("What is picked, to read and to change"),
       QKeySequence(Qt::CTRL | Qt::Key_3), new PropertiesPanel(bench, parent)},
      {QStringLiteral("state"), tr("State"),
       tr("The state of use that is shown: gates, doors, hoses, what runs"),
       QKeySequence(Qt::CTRL | Qt::Key_7), new PropertiesPanel(bench, parent, PropertiesPanel::About::State)},
      {QStringLiteral("why"), tr("Why"), tr("Where a number comes from"), QKeySequence(Qt::CTRL | Qt::Key_4),
       new WhyPanel(bench, parent)},
      {QStringLiteral("charts"), tr("Charts"), tr("Charts of the state that is shown"),
       QKeySequence(Qt::CTRL | Qt::Key_5), new ChartsPanel(bench, parent)},
      {QStringLiteral("fan"), tr("Fan"), tr("The fan's curve: typed, traced or from its label"),
       QKeySequence(Qt::CTRL | Qt::Key_6), new FanPanel(bench, parent)},
      {QStringLiteral("underlay"), tr("Underlay"), tr("A drawing or picture under the plan, to draw over"),
       QKeySequence(Qt::CTRL | Qt::Key_8), new UnderlayPanel(bench, parent)},
  };
}

}  // namespace kerfdraft::desk
