// Machines, rooms, doors and obstacles put on the floor through a real canvas.
#include <QListWidget>
#include <QMouseEvent>
#include <algorithm>

#include "desk/canvas.h"
#include "desk/panels/machines_panel.h"
#include "desk/tools/opening_tool.h"
#include "desk/tools/outline_tool.h"
#include "desk/tools/place_tool.h"
#include "panel_hand.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

// ------------------------------------------------------------------------------------------------- machines

class OnTheFloor : public PanelHand {
 protected:
  std::unique_ptr<Canvas> canvas;
  QString refused;

  void start(const shop::Project& shop) {
    document.startNew(shop);
    canvas = std::make_unique<Canvas>(bench());
    canvas->resize(1000, 700);
    PlanView view;
    view.px_per_m = 80;
    view.origin_px = {60, 640};
    canvas->setView(view);
    QObject::connect(canvas.get(), &Canvas::refused, canvas.get(), [this](const QString& s) { refused = s; });
  }
  QPointF px(double x_m, double y_m) const { return canvas->view().toPx(support::at(x_m, y_m, 0)); }
  void mouse(QEvent::Type type, QPointF at_px, Qt::MouseButton button, Qt::MouseButtons buttons) {
    QMouseEvent event(type, at_px, at_px, button, buttons, Qt::NoModifier);
    QApplication::sendEvent(canvas.get(), &event);
  }
  void click(double x_m, double y_m) { drag(x_m, y_m, x_m, y_m); }
  void drag(double x_m, double y_m, double to_x_m, double to_y_m) {
    mouse(QEvent::MouseMove, px(x_m, y_m), Qt::NoButton, Qt::NoButton);
    mouse(QEvent::MouseButtonPress, px(x_m, y_m), Qt::LeftButton, Qt::LeftButton);
    if (x_m != to_x_m || y_m != to_y_m) {
      mouse(QEvent::MouseMove, px(to_x_m, to_y_m), Qt::NoButton, Qt::LeftButton);
    }
    mouse(QEvent::MouseButtonRelease, px(to_x_m, to_y_m), Qt::LeftButton, Qt::NoButton);
  }
  void type(const QString& words, bool enter = true) {
    QTest::keyClicks(canvas.get(), words);
    if (enter) {
      QTest::keyClick(canvas.get(), Qt::Key_Return);
    }
  }
  static shop::Project withRoom() {
    support::ProjectBuilder builder;
    builder.room(10, 6, 3);
    return builder.project;
  }
};

TEST_F(OnTheFloor, ASearchedMachineStandsWhereItIsClicked) {
  start(withRoom());
  MachinesPanel panel(bench());
  panel.show();
  auto* search = named<QLineEdit>(&panel, "Search machines and collectors");
  QTest::keyClicks(search, "planer");
  ASSERT_FALSE(panel.shown().empty());
  for (const Offer& offer : panel.shown()) {
    const QString all = QString::fromStdString(offer.name + offer.wants + offer.says + offer.key);
    EXPECT_TRUE(all.contains("planer", Qt::CaseInsensitive)) << offer.name;
  }
  QTest::keyClick(search, Qt::Key_Return);
  EXPECT_EQ(tool_asked, "place");
  PlaceTool tool(bench());
  canvas->take(&tool);
  click(4, 3);
  ASSERT_EQ(project().machines.size(), 1U) << refused.toStdString();
  const shop::Machine& machine = project().machines[0];
  EXPECT_NEAR(static_cast<double>(machine.at.x_um), 4e6, 2e5);
  EXPECT_EQ(machine.room, project().rooms[0].id);
  EXPECT_FALSE(machine.ports.empty());
  EXPECT_EQ(look.selection(), std::set{machine.id});
  QTest::keyClick(canvas.get(), Qt::Key_R);
  click(7, 3);
  ASSERT_EQ(project().machines.size(), 2U);
  EXPECT_NEAR(std::abs(project().machines[1].turned.si() - machine.turned.si()), 1.5708, 1e-3);
  undo();
  undo();
  EXPECT_EQ(project(), withRoom());
  canvas->take(nullptr);
}

TEST_F(OnTheFloor, NonsenseFindsNoMachineAndSaysSo) {
  start(withRoom());
  MachinesPanel panel(bench());
  panel.show();
  auto* search = named<QLineEdit>(&panel, "Search machines and collectors");
  QTest::keyClicks(search, "zzqx");
  EXPECT_TRUE(panel.shown().empty());
  EXPECT_FALSE(panel.said().isEmpty());
  QTest::keyClick(search, Qt::Key_Return);
  EXPECT_TRUE(tool_asked.isEmpty());
}

TEST_F(OnTheFloor, ACollectorByItsLabelNeedsWhatTheLabelSays) {
  start(withRoom());
  MachinesPanel panel(bench());
  panel.show();
  const auto label = std::find_if(panel.shown().begin(), panel.shown().end(),
                                  [](const Offer& offer) { return offer.kind == OfferKind::LabelCollector; });
  ASSERT_NE(label, panel.shown().end());
  const auto row = static_cast<int>(label - panel.shown().begin());
  named<QListWidget>(&panel, "Machines and collectors")->setCurrentRow(row);
  press(&panel, "Put it in the shop");
  EXPECT_TRUE(tool_asked.isEmpty()) << "a label without figures was taken";
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("flow"));
  QTest::keyClicks(panel.findChild<QLineEdit*>("flow"), "1200 cfm");
  QTest::keyClicks(panel.findChild<QLineEdit*>("suction"), "much");
  press(&panel, "Put it in the shop");
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("much"));
  EXPECT_EQ(panel.findChild<QLineEdit*>("flow")->text(), "1200 cfm");
  typeOver(panel.findChild<QLineEdit*>("suction"), "10 in w.g.", false);
  typeOver(panel.findChild<QLineEdit*>("inlet"), "6 in", false);
  press(&panel, "Put it in the shop");
  EXPECT_EQ(tool_asked, "place") << panel.said().toStdString();
  PlaceTool tool(bench());
  canvas->take(&tool);
  type("5 ft");
  click(8, 2);
  ASSERT_EQ(project().collectors.size(), 1U) << refused.toStdString();
  EXPECT_NEAR(static_cast<double>(project().collectors[0].at.z_um), 1.524e6, 1);
  EXPECT_EQ(project().collectors[0].inlet_bore.text(), "6 in");
  canvas->take(nullptr);
}

// ---------------------------------------------------------------------------------- rooms, doors, obstacles

TEST_F(OnTheFloor, ATypedSizeMakesARoom) {
  start({});
  RoomTool tool(bench());
  canvas->take(&tool);
  type("height 9 ft");
  type("20 ft x 24 ft");
  ASSERT_EQ(project().rooms.size(), 1U) << refused.toStdString();
  const shop::Room& room = project().rooms[0];
  EXPECT_EQ(room.height.text(), "9 ft");
  EXPECT_EQ(room.outline,
            (std::vector<shop::PlanPoint>{{0, 0}, {6'096'000, 0}, {6'096'000, 7'315'200}, {0, 7'315'200}}));
  EXPECT_EQ(document.undoStack().count(), 1);
  undo();
  EXPECT_TRUE(project().rooms.empty());
  canvas->take(nullptr);
}

TEST_F(OnTheFloor, ARoomIsDraggedOrClickedCornerByCorner) {
  start({});
  RoomTool tool(bench());
  canvas->take(&tool);
  drag(0, 0, 5, 4);
  ASSERT_EQ(project().rooms.size(), 1U) << refused.toStdString();
  EXPECT_EQ(project().rooms[0].outline.size(), 4U);
  // An L beside it, closed by its first corner.
  for (const auto& [x, y] :
       {std::pair{6.0, 0.0}, {10.0, 0.0}, {10.0, 4.0}, {8.0, 4.0}, {8.0, 2.0}, {6.0, 2.0}}) {
    click(x, y);
  }
  EXPECT_EQ(tool.corners().size(), 6U);
  click(6, 0);
  ASSERT_EQ(project().rooms.size(), 2U) << refused.toStdString();
  EXPECT_EQ(project().rooms[1].outline.size(), 6U);
  EXPECT_TRUE(tool.corners().empty());
  canvas->take(nullptr);
}

TEST_F(OnTheFloor, ASizeThatIsNoneIsRefusedAndStays) {
  start({});
  RoomTool tool(bench());
  canvas->take(&tool);
  type("20 x 24");
  EXPECT_TRUE(project().rooms.empty());
  EXPECT_FALSE(refused.isEmpty());
  EXPECT_EQ(tool.typed(), "20 x 24");
  QTest::keyClick(canvas.get(), Qt::Key_Escape);
  EXPECT_TRUE(tool.typed().isEmpty());
  canvas->take(nullptr);
}

TEST_F(OnTheFloor, ADoorIsClickedIntoAWallAndWordsBeforeItSayWhatItIs) {
  start(withRoom());
  OpeningTool tool(bench());
  canvas->take(&tool);
  click(5, 0.1);
  ASSERT_EQ(project().rooms[0].openings.size(), 1U) << refused.toStdString();
  EXPECT_EQ(project().rooms[0].openings[0].kind, shop::OpeningKind::Door);
  type("grille");
  click(5, 6);
  EXPECT_EQ(project().rooms[0].openings.size(), 1U);
  EXPECT_THAT(refused.toStdString(), HasSubstr("area"));
  type("area 0.05 m2");
  type("wide 0.6 m");
  click(5, 6);
  ASSERT_EQ(project().rooms[0].openings.size(), 2U) << refused.toStdString();
  const shop::Opening& grille = project().rooms[0].openings[1];
  EXPECT_EQ(grille.kind, shop::OpeningKind::Grille);
  ASSERT_TRUE(grille.area.has_value());
  EXPECT_EQ(grille.area->text(), "0.05 m2");
  refused.clear();
  click(5, 3);
  EXPECT_FALSE(refused.isEmpty()) << "a door in the middle of the room";
  EXPECT_EQ(document.undoStack().count(), 2);
  canvas->take(nullptr);
}

TEST_F(OnTheFloor, AnObstacleHasBottomAndTop) {
  start(withRoom());
  ObstacleTool tool(bench());
  canvas->take(&tool);
  type("height 2.2 m");
  drag(2, 2, 3, 3);
  ASSERT_EQ(project().rooms[0].obstacles.size(), 1U) << refused.toStdString();
  EXPECT_EQ(project().rooms[0].obstacles[0].top.text(), "2.2 m");
  drag(12, 2, 13, 3);
  EXPECT_EQ(project().rooms[0].obstacles.size(), 1U);
  EXPECT_FALSE(refused.isEmpty()) << "an obstacle outside of every room";
  canvas->take(nullptr);
}

}  // namespace
}  // namespace kerfdraft::desk
