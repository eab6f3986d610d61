// Mouse and keys through a real canvas: what a hand does, and what the project is afterwards.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QImage>
#include <QMouseEvent>

#include "catalogue/catalogue.h"
#include "desk/canvas.h"
#include "desk/models/places.h"
#include "desk/tools/cleanout_tool.h"
#include "desk/tools/duct_tool.h"
#include "desk/tools/gate_tool.h"
#include "desk/tools/hose_tool.h"
#include "desk/tools/measure_tool.h"
#include "desk/tools/select_tool.h"
#include "desk/tools/tap_tool.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using ::testing::HasSubstr;

class Hand : public ::testing::Test {
 protected:
  support::ProjectBuilder builder;
  base::Id room = builder.room(10, 6, 3);
  shop::PortRef saw = builder.machine("", at(1, 1, 0.5), "100 mm", room);
  shop::PortRef planer = builder.machine("", at(4, 4, 0.5), "100 mm", room);
  base::Id unit = builder.collector(at(9, 1, 2.0), "150 mm", room);

  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  Canvas canvas{Bench{document, look, live, catalogue}};
  QString refused;

  void SetUp() override {
    document.startNew(builder.project);
    canvas.resize(1000, 700);
    PlanView view;
    view.px_per_m = 80;
    view.origin_px = {60, 600};
    canvas.setView(view);
    QObject::connect(&canvas, &Canvas::refused, &canvas, [this](const QString& s) { refused = s; });
  }
  Bench bench() { return {document, look, live, catalogue}; }
  const shop::Project& project() const { return document.project(); }

  QPointF px(double x_m, double y_m) const {
    return canvas.view().toPx(shop::PlanPoint{std::llround(x_m * 1e6), std::llround(y_m * 1e6)});
  }
  void mouse(QEvent::Type type, QPointF at_px, Qt::MouseButton button, Qt::MouseButtons buttons,
             Qt::KeyboardModifiers keys = {}) {
    QMouseEvent event(type, at_px, at_px, button, buttons, keys);
    QApplication::sendEvent(&canvas, &event);
  }
  void hover(double x_m, double y_m) { mouse(QEvent::MouseMove, px(x_m, y_m), Qt::NoButton, Qt::NoButton); }
  void click(double x_m, double y_m, Qt::KeyboardModifiers keys = {}) {
    hover(x_m, y_m);
    mouse(QEvent::MouseButtonPress, px(x_m, y_m), Qt::LeftButton, Qt::LeftButton, keys);
    mouse(QEvent::MouseButtonRelease, px(x_m, y_m), Qt::LeftButton, Qt::NoButton, keys);
  }
  void drag(double x_m, double y_m, double to_x_m, double to_y_m, bool let_go = true) {
    mouse(QEvent::MouseButtonPress, px(x_m, y_m), Qt::LeftButton, Qt::LeftButton);
    for (const double share : {0.3, 0.7, 1.0}) {
      mouse(QEvent::MouseMove, px(x_m + share * (to_x_m - x_m), y_m + share * (to_y_m - y_m)), Qt::NoButton,
            Qt::LeftButton);
    }
    if (let_go) {
      mouse(QEvent::MouseButtonRelease, px(to_x_m, to_y_m), Qt::LeftButton, Qt::NoButton);
    }
  }
  void key(int which, const QString& text = {}, Qt::KeyboardModifiers keys = {}) {
    QKeyEvent event(QEvent::KeyPress, which, keys, text);
    QApplication::sendEvent(&canvas, &event);
  }
  void type(const QString& words) {
    for (const QChar c : words) {
      key(0, c);
    }
    key(Qt::Key_Return);
  }
  /// The main from the saw to the collector, drawn by hand.
  void drawMain(DuctTool& tool) {
    canvas.take(&tool);
    click(1, 1);
    click(9, 1);
  }
};

TEST_F(Hand, DrawsAMainWithTwoClicksAsOneStepOfUndo) {
  DuctTool tool(bench());
  drawMain(tool);
  ASSERT_EQ(project().ducts.size(), 1U) << refused.toStdString();
  EXPECT_EQ(std::get<shop::PortRef>(project().ducts[0].from), saw);
  EXPECT_EQ(std::get<shop::CollectorInlet>(project().ducts[0].to).collector, unit);
  EXPECT_EQ(document.undoStack().count(), 1);
  EXPECT_EQ(look.selection(), std::set{project().ducts[0].id});
  document.undoStack().undo();
  EXPECT_EQ(project(), builder.project);
}

TEST_F(Hand, DrawsABranchThatEntersWithTheAir) {
  DuctTool tool(bench());
  drawMain(tool);
  click(4, 4);
  click(4, 1);
  ASSERT_EQ(project().ducts.size(), 2U) << refused.toStdString();
  const shop::Duct& branch = project().ducts[1];
  const auto& on = std::get<shop::OnCorner>(branch.to);
  EXPECT_EQ(on.duct, project().ducts[0].id);
  EXPECT_GT(branch.corners.back().at.x_um, 4'000'000);
  EXPECT_EQ(branch.gates.size(), 1U);
}

TEST_F(Hand, TypesALengthThenAHeightThenABore) {
  DuctTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  hover(5, 1);
  type("3.2 m");
  EXPECT_EQ(tool.places(), 2U);
  hover(5, 3);
  type("bore 5 in");
  type("height 7 ft 6");
  hover(4.2, 3);
  type("10 ft 6");
  key(Qt::Key_Return);
  ASSERT_EQ(project().ducts.size(), 1U) << refused.toStdString();
  const shop::Duct& duct = project().ducts[0];
  EXPECT_EQ(duct.corners[2].at, at(4.2, 1, 2.7));
  EXPECT_EQ(duct.corners[3].at, at(4.2, 1, 2.286));
  EXPECT_EQ(duct.corners[4].at, at(4.2, 1 + 3.2004, 2.286));
  EXPECT_EQ(legInForce(duct, 3)->bore.text(), "5 in");
}

TEST_F(Hand, TheUsualBoreIsOfTheReadersUnitsUntilOneIsTyped) {
  DuctTool tool(bench());
  look.setUnits(base::UnitSystem::Us);
  canvas.take(&tool);
  EXPECT_EQ(tool.habits().bore.text(), "4 in");
  click(1, 1);
  type("bore 6 in");
  look.setUnits(base::UnitSystem::Metric);
  canvas.take(&tool);
  EXPECT_EQ(tool.habits().bore.text(), "6 in");
}

TEST_F(Hand, TypedNonsenseIsRefusedWithASentenceAndNothingIsLost) {
  DuctTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  hover(5, 1);
  type("12");
  EXPECT_THAT(refused.toStdString(), HasSubstr("no unit"));
  EXPECT_EQ(tool.typed(), "12");
  EXPECT_EQ(tool.places(), 1U);
  EXPECT_TRUE(project().ducts.empty());
}

TEST_F(Hand, EscapeDropsWhatIsHalfDrawnAndLeavesTheProjectAlone) {
  DuctTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  click(3, 1);
  key('4', "4");
  key(Qt::Key_Escape);
  EXPECT_TRUE(tool.typed().isEmpty());
  EXPECT_EQ(tool.places(), 2U);
  key(Qt::Key_Escape);
  EXPECT_EQ(tool.places(), 0U);
  EXPECT_EQ(project(), builder.project);
  EXPECT_EQ(document.undoStack().count(), 0);
}

TEST_F(Hand, BackspaceTakesAPlaceBack) {
  DuctTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  click(3, 1);
  key(Qt::Key_Backspace);
  EXPECT_EQ(tool.places(), 1U);
}

TEST_F(Hand, ATakenPortIsRefusedAtTheFirstClick) {
  DuctTool tool(bench());
  drawMain(tool);
  look.select({});
  // Port and riser's corner lie at one place; the port comes first.
  click(1, 1);
  EXPECT_THAT(refused.toStdString(), HasSubstr("this port has duct D1 already"));
  EXPECT_EQ(tool.places(), 0U);
}

TEST_F(Hand, TabTakesTheRisersCornerInsteadOfThePort) {
  DuctTool tool(bench());
  drawMain(tool);
  hover(1, 1);
  key(Qt::Key_Tab);
  mouse(QEvent::MouseButtonPress, px(1, 1), Qt::LeftButton, Qt::LeftButton);
  EXPECT_EQ(tool.places(), 1U) << refused.toStdString();
}

TEST_F(Hand, DraggingAMachineIsOneStepAndItsDuctFollows) {
  DuctTool duct(bench());
  drawMain(duct);
  look.select({});
  SelectTool tool(bench());
  canvas.take(&tool);
  drag(0.8, 0.8, 1.3, 1.3);
  EXPECT_EQ(document.undoStack().count(), 2);
  const shop::Machine& machine = *machineOf(project(), saw.machine);
  EXPECT_EQ(machine.at, at(1.5, 1.5, 0));
  EXPECT_EQ(project().ducts[0].corners[0].at, at(1.5, 1.5, 0.5));
  document.undoStack().undo();
  EXPECT_EQ(machineOf(project(), saw.machine)->at, at(1, 1, 0));
}

TEST_F(Hand, SeveralPickedThingsAreDraggedTogetherAndAClickPicksOneOfThem) {
  SelectTool tool(bench());
  canvas.take(&tool);
  look.select({saw.machine, planer.machine});
  drag(0.8, 0.8, 1.8, 1.3);
  EXPECT_EQ(document.undoStack().count(), 1);
  EXPECT_EQ(machineOf(project(), saw.machine)->at, at(2, 1.5, 0));
  EXPECT_EQ(machineOf(project(), planer.machine)->at, at(5, 4.5, 0));
  EXPECT_EQ(look.selection().size(), 2U);
  document.undoStack().undo();
  EXPECT_EQ(project(), builder.project);
  canvas.picture();
  click(0.8, 0.8);
  EXPECT_EQ(look.selection(), std::set{saw.machine});
}

TEST_F(Hand, ALegIsDraggedAsideAndItsBoreAndHeightAreTyped) {
  DuctTool duct(bench());
  drawMain(duct);
  look.select({});
  SelectTool tool(bench());
  canvas.take(&tool);
  const int steps = document.undoStack().count();
  drag(5, 1, 5, 2);
  EXPECT_EQ(document.undoStack().count(), steps + 1) << refused.toStdString();
  const auto& corners = project().ducts[0].corners;
  ASSERT_EQ(corners.size(), 6U) << "its riser and its drop stay where port and inlet are";
  EXPECT_EQ(corners[2].at.y_um, 2'000'000);
  EXPECT_EQ(corners[3].at.y_um, 2'000'000);
  EXPECT_EQ(std::get<shop::PortRef>(project().ducts[0].from), saw);
  // The typed line begins with a figure, since letters are the window's.
  click(5, 2);
  type(QStringLiteral("125 mm"));
  EXPECT_EQ(legInForce(project().ducts[0], 2)->bore.text(), "125 mm") << refused.toStdString();
  type(QStringLiteral("2.6 m high"));
  EXPECT_EQ(project().ducts[0].corners[2].at.z_um, 2'600'000) << refused.toStdString();
  const shop::Project before = project();
  type(QStringLiteral("125 kg"));
  EXPECT_THAT(refused.toStdString(), HasSubstr("125 kg"));
  EXPECT_EQ(project(), before);
  key(Qt::Key_Escape);
  EXPECT_EQ(tool.typedText(), QString());
}

TEST_F(Hand, ADuctEndsInTheAirWhereThatIsTyped) {
  DuctTool tool(bench());
  canvas.take(&tool);
  click(9, 1);
  click(6, 3);
  type(QStringLiteral("free bellmuth"));
  EXPECT_THAT(refused.toStdString(), HasSubstr("bellmouth")) << "the near one is offered";
  EXPECT_TRUE(project().ducts.empty());
  key(Qt::Key_Escape);
  type(QStringLiteral("free bellmouth"));
  ASSERT_EQ(project().ducts.size(), 1U) << refused.toStdString();
  EXPECT_EQ(std::get<shop::FreeAir>(project().ducts[0].from).form, "bellmouth");
  EXPECT_EQ(std::get<shop::FreeAir>(project().ducts[0].from).room, room);
}

TEST_F(Hand, EscapeInTheMiddleOfADragPutsItBack) {
  SelectTool tool(bench());
  canvas.take(&tool);
  drag(1.15, 1.15, 2.15, 1.15, false);
  EXPECT_NE(project(), builder.project);
  key(Qt::Key_Escape);
  EXPECT_EQ(project(), builder.project);
}

TEST_F(Hand, EscapeInADragThatCameBackLeavesTheStepBeforeItAlone) {
  SelectTool tool(bench());
  canvas.take(&tool);
  look.select({planer.machine});
  key(Qt::Key_Right);
  const shop::Project before = project();
  look.select({});
  drag(1.15, 1.15, 2.15, 1.15, false);
  ASSERT_NE(project(), before);
  mouse(QEvent::MouseMove, px(1.15, 1.15), Qt::NoButton, Qt::LeftButton);
  ASSERT_EQ(project(), before);
  key(Qt::Key_Escape);
  EXPECT_EQ(project(), before);
}

TEST_F(Hand, DeleteRemovesWhatIsPicked) {
  DuctTool duct(bench());
  drawMain(duct);
  SelectTool tool(bench());
  canvas.take(&tool);
  look.select({project().ducts[0].id});
  key(Qt::Key_Delete);
  EXPECT_TRUE(project().ducts.empty());
  EXPECT_TRUE(look.selection().empty());
}

TEST_F(Hand, ArrowKeysNudgeByAStepOfTheGridInTheReadersUnits) {
  SelectTool tool(bench());
  canvas.take(&tool);
  look.select({saw.machine});
  key(Qt::Key_Right);
  EXPECT_EQ(machineOf(project(), saw.machine)->at, at(1.05, 1, 0));
  look.setUnits(base::UnitSystem::Us);
  key(Qt::Key_Up);
  EXPECT_EQ(machineOf(project(), saw.machine)->at, at(1.05, 1.0762, 0)) << "three inches";
}

TEST_F(Hand, ArrowKeysMoveTheViewWhereNothingIsPicked) {
  SelectTool tool(bench());
  canvas.take(&tool);
  const QPointF before = canvas.view().origin_px;
  key(Qt::Key_Left);
  EXPECT_NE(canvas.view().origin_px, before);
}

TEST_F(Hand, ADoubleClickPutsACornerIntoADuctAndItsHandleIsDragged) {
  DuctTool duct(bench());
  drawMain(duct);
  SelectTool tool(bench());
  canvas.take(&tool);
  const std::size_t before = project().ducts[0].corners.size();
  mouse(QEvent::MouseButtonDblClick, px(5, 1), Qt::LeftButton, Qt::LeftButton);
  ASSERT_EQ(project().ducts[0].corners.size(), before + 1) << refused.toStdString();
  EXPECT_EQ(look.selection(), std::set{project().ducts[0].id});
  drag(5, 1, 5, 2);
  const auto& corners = project().ducts[0].corners;
  EXPECT_EQ(corners[2].at.y_um, 2'000'000);
}

TEST_F(Hand, TabCyclesWhatLiesUnderThePointer) {
  DuctTool duct(bench());
  drawMain(duct);
  look.select({});
  SelectTool tool(bench());
  canvas.take(&tool);
  click(1.15, 1.0);
  const std::set<base::Id> first = look.selection();
  ASSERT_EQ(first.size(), 1U);
  key(Qt::Key_Tab);
  EXPECT_NE(look.selection(), first);
}

TEST_F(Hand, ShiftAddsToWhatIsPicked) {
  SelectTool tool(bench());
  canvas.take(&tool);
  click(1.15, 1.15);
  click(4.15, 4.15, Qt::ShiftModifier);
  EXPECT_EQ(look.selection(), (std::set{saw.machine, planer.machine}));
}

TEST_F(Hand, OneClickHangsGateTapAndCleanout) {
  DuctTool duct(bench());
  drawMain(duct);
  GateTool gate(bench());
  TapTool tap(bench());
  CleanoutTool cleanout(bench());
  for (Tool* tool : std::initializer_list<Tool*>{&gate, &tap, &cleanout}) {
    canvas.take(tool);
    click(6, 1);
  }
  EXPECT_EQ(project().ducts[0].gates.size(), 2U) << refused.toStdString();
  EXPECT_EQ(project().ducts[0].taps.size(), 1U);
  EXPECT_EQ(project().ducts[0].cleanouts.size(), 1U);
  EXPECT_EQ(document.undoStack().count(), 4);
  click(6, 5);
  EXPECT_THAT(refused.toStdString(), HasSubstr("no duct lies here"));
}

TEST_F(Hand, AGateIsDraggedAlongItsDuct) {
  DuctTool duct(bench());
  drawMain(duct);
  GateTool gate(bench());
  canvas.take(&gate);
  click(6, 1);
  const base::Id id = project().ducts[0].gates.back().id;
  look.select({});
  SelectTool tool(bench());
  canvas.take(&tool);
  drag(6, 1, 4, 1.1);
  const shop::Gate& moved = project().ducts[0].gates.back();
  EXPECT_EQ(moved.id, id);
  EXPECT_NEAR(moved.distance.si(), 3, 0.02) << refused.toStdString();
}

TEST_F(Hand, TheMovedHoseGetsItsPlacesByClicks) {
  DuctTool duct(bench());
  drawMain(duct);
  HoseTool tool(bench());
  canvas.take(&tool);
  click(5, 1);
  EXPECT_EQ(tool.duct(), project().ducts[0].id) << refused.toStdString();
  click(4, 4);
  const auto& moved = std::get<shop::MovedEnd>(project().ducts[0].from);
  EXPECT_EQ(moved.places, (std::vector{saw, planer})) << refused.toStdString();
  key(Qt::Key_Return);
  EXPECT_FALSE(tool.duct().valid());
}

TEST_F(Hand, MeasuresBetweenTwoPortsWithoutChangingAnything) {
  MeasureTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  click(4, 4);
  ASSERT_TRUE(tool.measured());
  EXPECT_NEAR(tool.measured()->plan_m, std::hypot(3, 3), 1e-9);
  EXPECT_EQ(document.undoStack().count(), 0);
}

TEST_F(Hand, NoToolDrawsInTheTurnedView) {
  look.setIsometric(true);
  DuctTool tool(bench());
  canvas.take(&tool);
  click(1, 1);
  EXPECT_EQ(tool.places(), 0U);
  EXPECT_THAT(refused.toStdString(), HasSubstr("plan"));
}

TEST_F(Hand, TypedLettersAreNoShortcutsWhileDrawing) {
  DuctTool tool(bench());
  canvas.take(&tool);
  QKeyEvent before(QEvent::ShortcutOverride, Qt::Key_B, {}, "b");
  EXPECT_FALSE(tool.wantsKey(before));
  click(1, 1);
  before.ignore();
  QApplication::sendEvent(&canvas, &before);
  EXPECT_TRUE(before.isAccepted());
}

TEST_F(Hand, EveryToolPaintsInLightAndDark) {
  DuctTool duct(bench());
  drawMain(duct);
  look.select({});
  MeasureTool measuring(bench());
  GateTool gate(bench());
  HoseTool hose(bench());
  for (Tool* tool : std::initializer_list<Tool*>{&duct, &measuring, &gate, &hose}) {
    canvas.take(tool);
    click(1, 1);
    hover(4.05, 1);
    for (const paint::Tones tones : {paint::Tones::Light, paint::Tones::Dark}) {
      look.setTones(tones);
      const auto shown = [&] {
        QImage image(canvas.size(), QImage::Format_RGB32);
        QPainter painter(&image);
        canvas.paintAll(painter);
        return image;
      };
      const QImage with = shown();
      canvas.take(nullptr);
      const QImage without = shown();
      canvas.take(tool);
      hover(4.05, 1);
      EXPECT_NE(with, without) << tool->key().toStdString();
    }
  }
}

}  // namespace
}  // namespace kerfdraft::desk
