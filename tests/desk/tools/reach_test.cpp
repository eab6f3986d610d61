// What hand and keyboard reach on the canvas: moving the view, walking, nudging, typing by other means, and
// the plan as it is heard.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QInputMethodEvent>
#include <QMouseEvent>
#include <QNativeGestureEvent>
#include <QPointingDevice>
#include <QTest>
#include <QWheelEvent>

#include "catalogue/catalogue.h"
#include "desk/canvas.h"
#include "desk/models/extent.h"
#include "desk/rulers.h"
#include "desk/tools/duct_tool.h"
#include "desk/tools/outline_tool.h"
#include "desk/tools/select_tool.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using support::at;
using ::testing::HasSubstr;

class Reach : public ::testing::Test {
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
  SelectTool pick{bench()};
  QString refused;
  QString panel;

  void SetUp() override {
    document.startNew(builder.project);
    canvas.resize(1000, 700);
    canvas.setView(viewOf(80));
    QObject::connect(&canvas, &Canvas::refused, &canvas, [this](const QString& s) { refused = s; });
    QObject::connect(&look, &Look::panelAsked, &canvas, [this](const QString& key) { panel = key; });
    canvas.take(&pick);
  }
  void TearDown() override { canvas.take(nullptr); }
  Bench bench() { return {document, look, live, catalogue}; }
  const shop::Project& project() const { return document.project(); }
  static PlanView viewOf(double px_per_m) {
    PlanView view;
    view.px_per_m = px_per_m;
    view.origin_px = {60, 600};
    return view;
  }
  QPointF px(double x_m, double y_m) const { return canvas.view().toPx(at(x_m, y_m, 0)); }
  void mouse(QEvent::Type type, QPointF at_px, Qt::MouseButton button, Qt::MouseButtons buttons,
             Qt::KeyboardModifiers keys = {}) {
    QMouseEvent event(type, at_px, at_px, button, buttons, keys);
    QApplication::sendEvent(&canvas, &event);
  }
  void drag(QPointF from, QPointF to, Qt::MouseButton button, Qt::KeyboardModifiers keys = {},
            bool let_go = true) {
    mouse(QEvent::MouseButtonPress, from, button, button, keys);
    for (const double share : {0.3, 0.7, 1.0}) {
      mouse(QEvent::MouseMove, from + (to - from) * share, Qt::NoButton, button, keys);
    }
    if (let_go) {
      mouse(QEvent::MouseButtonRelease, to, button, Qt::NoButton, keys);
    }
  }
  void key(int which, Qt::KeyboardModifiers keys = {}, QEvent::Type type = QEvent::KeyPress) {
    QKeyEvent event(type, which, keys);
    QApplication::sendEvent(&canvas, &event);
  }
  void commit(const QString& words) {
    QInputMethodEvent event;
    event.setCommitString(words);
    QApplication::sendEvent(&canvas, &event);
  }
  /// What an input method is told.
  QVariant asked(Qt::InputMethodQuery query) const {
    return static_cast<const QWidget&>(canvas).inputMethodQuery(query);
  }
  void scroll(QPoint pixels, QPoint angle, Qt::KeyboardModifiers keys = {}) {
    QWheelEvent event(QPointF(300, 300), QPointF(300, 300), pixels, angle, Qt::NoButton, keys,
                      Qt::NoScrollPhase, false);
    QApplication::sendEvent(&canvas, &event);
  }
  const shop::Point& sawAt() const { return machineOf(project(), saw.machine)->at; }
};

// ----------------------------------------------------------------------------------------------------- view

TEST_F(Reach, FingersPushTheDrawingAndAWheelZooms) {
  scroll({15, -30}, {15, -30});
  EXPECT_EQ(canvas.view().origin_px, QPointF(75, 570));
  EXPECT_EQ(canvas.view().px_per_m, 80);
  scroll({}, {0, 120});
  EXPECT_GT(canvas.view().px_per_m, 80);
  canvas.setView(viewOf(80));
  scroll({0, 30}, {0, 120}, Qt::ControlModifier);
  EXPECT_GT(canvas.view().px_per_m, 80) << "with Ctrl fingers zoom too";
}

TEST_F(Reach, APinchZoomsAndKeepsThePlaceUnderIt) {
  const QPointF fixed = px(4, 4);
  QNativeGestureEvent pinch(Qt::ZoomNativeGesture, QPointingDevice::primaryPointingDevice(), 2, fixed, fixed,
                            fixed, 0.5, {});
  QApplication::sendEvent(&canvas, &pinch);
  EXPECT_NEAR(canvas.view().px_per_m, 120, 1e-9);
  EXPECT_NEAR(QLineF(px(4, 4), fixed).length(), 0, 1e-6);
}

TEST_F(Reach, SpaceHeldDownDragsTheDrawingAndNotTheMachine) {
  key(Qt::Key_Space);
  EXPECT_EQ(canvas.cursor().shape(), Qt::OpenHandCursor);
  const QPointF on_saw = px(1.15, 1.15);
  drag(on_saw, on_saw + QPointF(50, 20), Qt::LeftButton);
  EXPECT_EQ(canvas.view().origin_px, QPointF(110, 620));
  EXPECT_EQ(project(), builder.project);
  EXPECT_TRUE(look.selection().empty());
  key(Qt::Key_Space, {}, QEvent::KeyRelease);
  EXPECT_EQ(canvas.cursor().shape(), pick.cursor());
  drag(px(1.15, 1.15), px(2.15, 1.15), Qt::LeftButton);
  EXPECT_NE(project(), builder.project);
}

TEST_F(Reach, ASpaceInWhatIsTypedIsASpace) {
  RoomTool room_tool(bench());
  canvas.take(&room_tool);
  QTest::keyClicks(&canvas, "20 ft x 24 ft");
  EXPECT_EQ(room_tool.typedText(), "20 ft x 24 ft");
  QTest::keyClick(&canvas, Qt::Key_Return);
  EXPECT_EQ(project().rooms.size(), 2U) << refused.toStdString();
  canvas.take(nullptr);
}

TEST_F(Reach, TheRightButtonTurnsInSpaceAndTheMiddleOnePans) {
  look.setIsometric(true);
  canvas.showAll();
  drag({300, 300}, {400, 300}, Qt::RightButton);
  EXPECT_GT(look.turned(), 0.3);
  drag({300, 300}, {700, 300}, Qt::RightButton);
  for (const base::Id id : {saw.machine, planer.machine, unit}) {
    EXPECT_TRUE(canvas.rect().contains(canvas.rectOf(id).center())) << "it turns about its middle";
  }
  const QPointF origin = canvas.view().origin_px;
  const double turned = look.turned();
  drag({300, 300}, {400, 320}, Qt::MiddleButton);
  EXPECT_EQ(look.turned(), turned);
  EXPECT_EQ(canvas.view().origin_px, origin + QPointF(100, 20));
  look.setIsometric(false);
  drag({300, 300}, {400, 300}, Qt::RightButton);
  EXPECT_EQ(look.turned(), turned) << "on the plan it pans";
  EXPECT_EQ(canvas.view().origin_px, origin + QPointF(200, 20));
}

TEST_F(Reach, WhatIsPickedIsMadeAsLargeAsItGoes) {
  look.select({saw.machine, planer.machine});
  canvas.showPicked();
  const double both = canvas.view().px_per_m;
  for (const base::Id id : look.selection()) {
    EXPECT_TRUE(canvas.rect().contains(canvas.rectOf(id).center()));
  }
  look.select({planer.machine});
  canvas.showPicked();
  EXPECT_GT(canvas.view().px_per_m, both);
  EXPECT_NEAR(px(4, 4).x(), 500, 1);
  EXPECT_NEAR(px(4, 4).y(), 350, 1);
  look.select({});
  canvas.showPicked();
  EXPECT_LT(canvas.view().px_per_m, both) << "nothing picked: everything";
  look.setIsometric(true);
  look.select({planer.machine});
  canvas.showPicked();
  EXPECT_TRUE(canvas.rect().contains(canvas.rectOf(planer.machine).center()));
}

TEST(Grid, EveryFigureOfTheRulersStandsAtALineOfTheGrid) {
  for (const base::UnitSystem units : {base::UnitSystem::Us, base::UnitSystem::Metric}) {
    for (double px_per_m = 2; px_per_m <= 4000; px_per_m *= 1.03) {
      const double fine = rulerStep(px_per_m, units, 14);
      const double figures = rulerStep(px_per_m, units, kFigures_px);
      const double ratio = figures / fine;
      EXPECT_NEAR(ratio, std::round(ratio), 1e-6) << px_per_m;
      EXPECT_GE(figures * px_per_m, kFigures_px) << px_per_m;
      EXPECT_GE(fine * px_per_m, 14) << px_per_m;
    }
  }
  EXPECT_LT(rulerStep(400, base::UnitSystem::Us, 14), 0.3048 / 2) << "finer than a foot when near";
  EXPECT_LT(rulerStep(400, base::UnitSystem::Metric, 14), 0.5);
}

// ------------------------------------------------------------------------------------------------- keyboard

TEST_F(Reach, TabWalksThroughThePlanAndBringsEachThingIntoSight) {
  canvas.setView(viewOf(1500));  // very near: most lies out of sight
  std::vector<base::Id> walked;
  for (std::size_t k = 0; k < readingOrder(project()).size(); ++k) {
    key(Qt::Key_Tab);
    ASSERT_EQ(look.selection().size(), 1U);
    walked.push_back(*look.selection().begin());
    EXPECT_TRUE(canvas.rectOf(walked.back()).intersects(canvas.rect())) << k;
  }
  EXPECT_EQ(walked, (std::vector{room, planer.machine, saw.machine, unit}));
  QKeyEvent past(QEvent::KeyPress, Qt::Key_Tab, Qt::NoModifier);
  EXPECT_FALSE(pick.keyPress(&past)) << "after the last Tab goes on to the next field";
  key(Qt::Key_Backtab, Qt::ShiftModifier);
  EXPECT_EQ(look.selection(), std::set{saw.machine});
  key(Qt::Key_Return);
  EXPECT_EQ(panel, "thing");
}

TEST_F(Reach, AwayFromWhatWasClickedTabWalksAgain) {
  const QPointF place = px(1, 1);
  drag(place, place, Qt::LeftButton);  // port and machine lie there
  const std::set<base::Id> first = look.selection();
  key(Qt::Key_Tab);
  const std::set<base::Id> below = look.selection();
  EXPECT_NE(below, first);
  key(Qt::Key_Tab);
  mouse(QEvent::MouseMove, px(7, 3), Qt::NoButton, Qt::NoButton);
  look.select({saw.machine});
  key(Qt::Key_Tab);
  EXPECT_EQ(look.selection(), std::set{unit});
}

TEST_F(Reach, ArrowsMoveWhatIsPickedAndARunOfThemIsOneStep) {
  look.select({saw.machine});
  for (int k = 0; k < 4; ++k) {
    key(Qt::Key_Right);
  }
  key(Qt::Key_Up);
  EXPECT_EQ(sawAt(), at(1.2, 1.05, 0)) << "steps of 50 mm at this zoom";
  EXPECT_EQ(document.undoStack().count(), 1);
  key(Qt::Key_Right, Qt::ShiftModifier);
  EXPECT_EQ(sawAt(), at(1.21, 1.05, 0)) << "10 mm with Shift";
  EXPECT_EQ(document.undoStack().count(), 1);
  look.select({planer.machine});
  key(Qt::Key_Left);
  EXPECT_EQ(document.undoStack().count(), 2) << "another thing, another step";
  document.undoStack().undo();
  document.undoStack().undo();
  EXPECT_EQ(project(), builder.project);
}

TEST_F(Reach, AnUndoneRunIsNotTakenUpAgain) {
  look.select({saw.machine});
  key(Qt::Key_Right);
  document.undoStack().undo();
  key(Qt::Key_Right);
  EXPECT_EQ(sawAt(), at(1.05, 1, 0));
  document.undoStack().undo();
  EXPECT_EQ(project(), builder.project);
}

TEST_F(Reach, AnArrowSlidesAGateAlongItsDuct) {
  const base::Id duct =
      builder.duct(saw, shop::CollectorInlet{unit}, {at(1, 1, 0.5), at(1, 1, 2), at(9, 1, 2)}, "100 mm");
  const base::Id gate = builder.gate(duct, 1, "2 m");
  document.startNew(builder.project);
  look.select({gate});
  key(Qt::Key_Right);
  EXPECT_NEAR(project().ducts[0].gates[0].distance.si(), 2.05, 1e-6);
  key(Qt::Key_Up);
  EXPECT_NEAR(project().ducts[0].gates[0].distance.si(), 2.05, 1e-6) << "across it does not go";
}

TEST_F(Reach, ADraggedMachineFallsInLineUnlessAltIsHeld) {
  // The saw to (4.03, 2): in line with the planer at x = 4.
  drag(px(1.15, 1.15), px(4.18, 2.15), Qt::LeftButton, {}, false);
  EXPECT_EQ(sawAt().x_um, 4'000'000);
  mouse(QEvent::MouseMove, px(4.18, 2.15), Qt::NoButton, Qt::LeftButton, Qt::AltModifier);
  EXPECT_NEAR(static_cast<double>(sawAt().x_um), 4.03e6, 2);
  mouse(QEvent::MouseButtonRelease, px(4.18, 2.15), Qt::LeftButton, Qt::NoButton);
  EXPECT_EQ(document.undoStack().count(), 1);
}

// --------------------------------------------------------------------------------------- typing by other
// means

TEST_F(Reach, CommittedTextGoesToTheToolAsIfTyped) {
  RoomTool room_tool(bench());
  canvas.take(&room_tool);
  EXPECT_TRUE(asked(Qt::ImEnabled).toBool());
  commit("5 m x ");
  commit(QString::fromUtf8("４ ｍ"));  // as wide as ideographs
  EXPECT_EQ(room_tool.typedText(), "5 m x 4 m");
  EXPECT_EQ(asked(Qt::ImSurroundingText).toString(), "5 m x 4 m");
  EXPECT_EQ(asked(Qt::ImCursorPosition).toInt(), 9);
  QInputMethodEvent correction;
  correction.setCommitString("3 m", -3, 3);
  QApplication::sendEvent(&canvas, &correction);
  EXPECT_EQ(room_tool.typedText(), "5 m x 3 m");
  commit("\n");
  ASSERT_EQ(project().rooms.size(), 2U) << refused.toStdString();
  EXPECT_EQ(project().rooms[1].outline[2].y_um - project().rooms[1].outline[0].y_um, 3'000'000);
  canvas.take(nullptr);
}

TEST_F(Reach, WhatNoToolTakesIsSaidAndChangesNothing) {
  EXPECT_FALSE(asked(Qt::ImEnabled).toBool()) << "single keys stay commands";
  commit("3.2 m");
  EXPECT_THAT(refused.toStdString(), HasSubstr("Nothing can be typed here now"));
  EXPECT_EQ(project(), builder.project);
}

TEST_F(Reach, WhatIsStillComposedIsNoText) {
  RoomTool room_tool(bench());
  canvas.take(&room_tool);
  QInputMethodEvent composing("ni", {});
  QApplication::sendEvent(&canvas, &composing);
  EXPECT_TRUE(room_tool.typedText().isEmpty());
  QImage image(canvas.size(), QImage::Format_RGB32);
  QPainter painter(&image);
  canvas.paintAll(painter);
  canvas.take(nullptr);
}

TEST_F(Reach, ThePlaceOfTypingIsAtThePointer) {
  DuctTool duct(bench());
  canvas.take(&duct);
  EXPECT_FALSE(asked(Qt::ImEnabled).toBool());
  mouse(QEvent::MouseMove, px(1, 1), Qt::NoButton, Qt::NoButton);
  mouse(QEvent::MouseButtonPress, px(1, 1), Qt::LeftButton, Qt::LeftButton);
  mouse(QEvent::MouseButtonRelease, px(1, 1), Qt::LeftButton, Qt::NoButton);
  mouse(QEvent::MouseMove, px(3, 1), Qt::NoButton, Qt::NoButton);
  EXPECT_TRUE(asked(Qt::ImEnabled).toBool()) << "a duct is begun";
  EXPECT_EQ(asked(Qt::ImCursorRectangle).toRectF().topLeft(), px(3, 1));
  canvas.take(nullptr);
}

// ---------------------------------------------------------------------------------------------- as it is
// heard

TEST_F(Reach, ThePlanIsAListOfThingsWithNamesAndAir) {
  builder.duct(saw, shop::CollectorInlet{unit}, {at(1, 1, 0.5), at(1, 1, 2), at(9, 1, 2)}, "100 mm");
  builder.state("saw", {});
  document.startNew(builder.project);
  live.request(document.snapshot(), {});
  live.waitUntilIdle();
  QAccessibleInterface* plan = QAccessible::queryAccessibleInterface(&canvas);
  ASSERT_NE(plan, nullptr);
  EXPECT_EQ(plan->text(QAccessible::Name), "Shop plan");
  ASSERT_EQ(plan->childCount(), 5);
  QStringList names;
  for (int k = 0; k < plan->childCount(); ++k) {
    QAccessibleInterface* child = plan->child(k);
    ASSERT_NE(child, nullptr);
    EXPECT_EQ(plan->child(k), child) << "the same each time";
    EXPECT_EQ(plan->indexOfChild(child), k);
    EXPECT_EQ(child->parent(), plan);
    names << child->text(QAccessible::Name);
  }
  EXPECT_EQ(names, QStringList({"room R1", "machine T2", "machine T1", "duct D1", "collector C1"}));
  EXPECT_THAT(plan->child(3)->text(QAccessible::Description).toStdString(),
              ::testing::AllOf(HasSubstr("from port P1 of T1"), HasSubstr("m³/h")));
  EXPECT_EQ(plan->childAt(plan->child(1)->rect().center().x(), plan->child(1)->rect().center().y()),
            plan->child(1));
}

TEST_F(Reach, WhatIsTypedAndPickedIsHeard) {
  QAccessibleInterface* plan = QAccessible::queryAccessibleInterface(&canvas);
  EXPECT_THAT(plan->text(QAccessible::Value).toStdString(),
              ::testing::AllOf(HasSubstr(pick.hint().toStdString()), HasSubstr("nothing is picked")));
  QAccessibleInterface* first = plan->child(1);
  ASSERT_NE(first->actionInterface(), nullptr);
  first->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
  EXPECT_EQ(look.selection(), std::set{planer.machine});
  EXPECT_TRUE(first->state().selected);
  EXPECT_FALSE(plan->child(0)->state().selected);
  EXPECT_THAT(plan->text(QAccessible::Value).toStdString(), HasSubstr("machine T2 is picked"));
  RoomTool room_tool(bench());
  canvas.take(&room_tool);
  QTest::keyClicks(&canvas, "20 f");
  EXPECT_THAT(plan->text(QAccessible::Description).toStdString(), HasSubstr("typed: 20 f"));
  canvas.take(nullptr);
}

TEST_F(Reach, AThingThatIsGoneSaysSo) {
  QAccessibleInterface* plan = QAccessible::queryAccessibleInterface(&canvas);
  QAccessibleInterface* gone = plan->child(1);
  ASSERT_TRUE(gone->isValid());
  look.select({planer.machine});
  key(Qt::Key_Delete);
  EXPECT_EQ(plan->childCount(), 3);
  EXPECT_FALSE(gone->isValid());
  EXPECT_TRUE(gone->state().invalid);
  EXPECT_TRUE(gone->text(QAccessible::Name).isEmpty());
  gone->actionInterface()->doAction(QAccessibleActionInterface::pressAction());
  EXPECT_TRUE(look.selection().empty());
  EXPECT_EQ(plan->indexOfChild(gone), -1);
}

}  // namespace
}  // namespace kerfdraft::desk
