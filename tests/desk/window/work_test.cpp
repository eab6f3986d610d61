// A day's work through mouse and keys: what the window says is what the command line says.
#include <QApplication>
#include <QClipboard>
#include <QLineEdit>
#include <set>

#include "desk/models/places.h"
#include "judge/assessment.h"
#include "window_story.h"

namespace kerfdraft::desk {
namespace {

using WorkStory = WindowStory;

const shop::Gate& firstGate(const shop::Project& project) {
  for (const shop::Duct& duct : project.ducts) {
    if (!duct.gates.empty()) {
      return duct.gates.front();
    }
  }
  throw std::runtime_error("no gate");
}

/// Where a thing lies on the canvas, found as the pointer finds it.
QPoint placeOf(Window& window, base::Id id) {
  const drawing::Picture& picture = window.canvas().picture();
  const double px_per_mm = window.canvas().view().px_per_mm;
  constexpr int kStep_px = 3;
  for (int y = 0; y < window.canvas().height(); y += kStep_px) {
    for (int x = 0; x < window.canvas().width(); x += kStep_px) {
      const auto under = paint::elementsAt(picture, {x / px_per_mm, y / px_per_mm}, 0);
      if (!under.empty() && under.front().element == id.text()) {
        return {x, y};
      }
    }
  }
  return {-1, -1};
}

/// Flows of every port in every state, as the window has them and as the judging room has them.
void expectSameFlows(const judge::Assessment& ours, const judge::Assessment& theirs) {
  ASSERT_EQ(ours.states.size(), theirs.states.size());
  ASSERT_FALSE(ours.states.empty());
  for (std::size_t s = 0; s < ours.states.size(); ++s) {
    ASSERT_EQ(ours.states[s].solution.ports.size(), theirs.states[s].solution.ports.size());
    for (std::size_t p = 0; p < ours.states[s].solution.ports.size(); ++p) {
      EXPECT_EQ(ours.states[s].solution.ports[p].flow_m3_s, theirs.states[s].solution.ports[p].flow_m3_s)
          << s << " " << p;
    }
  }
}

TEST_F(WorkStory, ATriedGateHasTheNumbersOfTheCommandLine) {
  const QString path = copyOf("two-car-garage.json");
  auto window = windowOn(path);
  const shop::Project file = *files::loadProject(path.toStdString());
  const auto from_file = judge::assess(file, *catalogue());
  ASSERT_TRUE(from_file.has_value());
  expectSameFlows(*window->live().latest()->assessment, *from_file);

  QTest::keyClick(&window->canvas(), Qt::Key_T);
  ASSERT_EQ(window->canvas().tool()->key(), "try");
  const QPoint at = placeOf(*window, firstGate(file).id);
  ASSERT_GE(at.x(), 0);
  QTest::mouseClick(&window->canvas(), Qt::LeftButton, {}, at);
  ASSERT_TRUE(window->look().trial().has_value());
  window->live().waitUntilIdle();
  // The file with the tried state written into it, by the judging room alone.
  shop::Project with = file;
  with.states.push_back(*window->look().trial());
  const auto tried = judge::assess(with, *catalogue());
  ASSERT_TRUE(tried.has_value());
  expectSameFlows(*window->live().latest()->assessment, *tried);
  EXPECT_EQ(window->document().project(), file) << "trying changes nothing";
}

TEST_F(WorkStory, UndoLeadsBackToTheStart) {
  const QString path = copyOf("two-car-garage.json");
  auto window = windowOn(path);
  const shop::Project before = window->document().project();
  ASSERT_FALSE(before.machines.empty());
  window->look().select({before.machines.front().id});
  QTest::keyClick(window.get(), Qt::Key_R);
  QTest::keyClick(window.get(), Qt::Key_R, Qt::ShiftModifier);
  QTest::keyClick(window.get(), Qt::Key_D, Qt::ControlModifier);
  EXPECT_EQ(window->document().project().machines.size(), before.machines.size() + 1);
  EXPECT_GE(window->document().undoStack().count(), 3);
  while (window->document().undoStack().canUndo()) {
    QTest::keyClick(window.get(), Qt::Key_Z, Qt::ControlModifier);
  }
  EXPECT_EQ(window->document().project(), before);
  EXPECT_FALSE(window->document().isUnsaved());
}

TEST_F(WorkStory, EveryToolIsTakenByItsKeyAndEscapeLeavesIt) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  const shop::Project before = window->document().project();
  std::set<QString> keys;
  for (const auto& [tool, action] : window->tools()) {
    ASSERT_FALSE(action->shortcut().isEmpty()) << tool->key().toStdString();
    EXPECT_TRUE(keys.insert(action->shortcut().toString()).second) << "two with one key";
    QTest::keySequence(window.get(), action->shortcut());
    EXPECT_EQ(window->canvas().tool(), tool) << tool->key().toStdString();
    EXPECT_EQ(window->hint(), tool->hint());
    // Something begun is given up too.
    QTest::mouseClick(&window->canvas(), Qt::LeftButton, {}, {20, 20});
    QTest::keyClick(&window->canvas(), Qt::Key_Escape);
    QTest::keyClick(&window->canvas(), Qt::Key_Escape);
    EXPECT_EQ(window->canvas().tool()->key(), "select") << tool->key().toStdString();
    window->look().setTrial(std::nullopt);
  }
  EXPECT_EQ(window->document().project(), before);
}

TEST_F(WorkStory, EveryPanelOpensByItsKeyAndIsOnThePageOfKeys) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  std::set<QString> opened;
  for (const auto& [key, words] : window->side().keys()) {
    QTest::keySequence(window.get(), key);
    // A button that is pressed by its key shows it for a moment first.
    EXPECT_TRUE(QTest::qWaitFor([&] { return !opened.contains(window->side().opened()); }, 2000))
        << key.toString().toStdString();
    opened.insert(window->side().opened());
  }
  EXPECT_GE(opened.size(), 5U);

  QTest::keyClick(window.get(), Qt::Key_F1);
  ASSERT_TRUE(window->keysPage().isVisible());
  std::set<QString> said;
  const QTableWidget& table = window->keysPage().table();
  for (int row = 0; row < table.rowCount(); ++row) {
    said.insert(table.item(row, 0)->text());
  }
  for (const QAction* action : window->findChildren<QAction*>()) {
    if (!action->shortcut().isEmpty()) {
      EXPECT_TRUE(said.contains(action->shortcut().toString(QKeySequence::NativeText)))
          << action->text().toStdString();
    }
  }
  QTest::keyClick(&window->keysPage(), Qt::Key_Escape);
  EXPECT_FALSE(window->keysPage().isVisible());
}

TEST_F(WorkStory, TabGoesFromTheCanvasToTheSideAndThenToTheStates) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  const auto* states = window->findChild<QWidget*>(QStringLiteral("states-dock"));
  ASSERT_NE(states, nullptr);
  const std::vector<QWidget*> order = window->tabOrder();
  ASSERT_FALSE(order.empty());
  EXPECT_EQ(order.front(), &window->canvas());
  std::string areas;
  for (const QWidget* at : order) {
    const char area = at == &window->canvas()           ? 'c'
                      : window->side().isAncestorOf(at) ? 's'
                      : states->isAncestorOf(at)        ? 't'
                                                        : 'r';
    if (areas.empty() || areas.back() != area) {
      areas += area;
    }
  }
  EXPECT_THAT(areas, ::testing::AnyOf("cst", "cstr"));
  // And the key goes that way. Of words that exclude each other Tab knows the one that has it: the order is
  // asked for anew.
  QApplication::setActiveWindow(window.get());
  order[1]->setFocus();
  const std::vector<QWidget*> from_side = window->tabOrder();
  ASSERT_GT(from_side.size(), 2U);
  ASSERT_EQ(from_side[1], order[1]);
  QTest::keyClick(from_side[1], Qt::Key_Tab);
  EXPECT_EQ(window->focusWidget(), from_side[2]);
  QTest::keyClick(from_side[2], Qt::Key_Backtab);
  EXPECT_EQ(window->focusWidget(), from_side[1]);
}

TEST_F(WorkStory, WhatIsPickedIsShownUnlessAPanelIsKept) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  const auto& machines = window->document().project().machines;
  window->side().open(QStringLiteral("findings"));
  window->look().select({machines[0].id});
  EXPECT_EQ(window->side().opened(), "thing");
  window->side().open(QStringLiteral("findings"));
  QTest::keyClick(window.get(), Qt::Key_0, Qt::ControlModifier);
  ASSERT_TRUE(window->side().stays());
  window->look().select({machines[1].id});
  EXPECT_EQ(window->side().opened(), "findings");
  window->look().askPanel(QStringLiteral("thing"));
  EXPECT_EQ(window->side().opened(), "thing");
}

TEST_F(WorkStory, EnterGoesOnInThePanelOfWhatIsPicked) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  QApplication::setActiveWindow(window.get());
  window->canvas().setFocus();
  QTest::keyClick(&window->canvas(), Qt::Key_Tab);
  ASSERT_EQ(window->look().selection().size(), 1U);
  EXPECT_EQ(window->focusWidget(), &window->canvas());
  window->side().open(QStringLiteral("findings"));
  QTest::keyClick(&window->canvas(), Qt::Key_Return);
  EXPECT_EQ(window->side().opened(), "thing");
  EXPECT_TRUE(window->side().panel(QStringLiteral("thing"))->isAncestorOf(window->focusWidget()));
}

TEST_F(WorkStory, CopiedThingsArePutInInAnotherWindow) {
  auto from = windowOn(copyOf("two-car-garage.json"));
  auto to = windowOn(copyOf("moved-hose.json", "other.json"));
  const std::size_t before = to->document().project().machines.size();
  from->look().select({from->document().project().machines[0].id});
  const auto press = [](Window& window, Qt::Key key) {
    QApplication::setActiveWindow(&window);
    window.canvas().setFocus();
    QTest::keyClick(&window.canvas(), key, Qt::ControlModifier);
  };
  press(*from, Qt::Key_C);
  press(*to, Qt::Key_V);
  const auto& machines = to->document().project().machines;
  ASSERT_EQ(machines.size(), before + 1) << to->refused().toStdString();
  EXPECT_EQ(machines.back().name, from->document().project().machines[0].name);
  EXPECT_EQ(to->look().selection(), std::set{machines.back().id});
  EXPECT_EQ(to->document().undoStack().count(), 1);
  QApplication::clipboard()->setText(QStringLiteral("a shopping list"));
  press(*to, Qt::Key_V);
  EXPECT_THAT(to->refused().toStdString(), ::testing::HasSubstr("no part of a shop"));
  EXPECT_EQ(to->document().undoStack().count(), 1);
}

TEST_F(WorkStory, ARefusalIsSaidOverTheCanvasAndInTheStatusLine) {
  const QString path = copyOf("two-car-garage.json");
  auto first = windowOn(path);
  auto second = windowOn(path);
  second->look().select({second->document().project().machines.front().id});
  QTest::keyClick(second.get(), Qt::Key_R);
  EXPECT_THAT(second->refused().toStdString(), ::testing::HasSubstr("reading only"));
  EXPECT_EQ(second->hint(), second->refused());
  EXPECT_EQ(second->document().project(), first->document().project());
}

TEST_F(WorkStory, NewAsksTheFirstQuestionsAndTheRoomToolLeavesThem) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  EXPECT_FALSE(window->asksFirst());
  QTest::keyClick(window.get(), Qt::Key_N, Qt::ControlModifier);
  EXPECT_TRUE(window->asksFirst());
  EXPECT_TRUE(window->document().path().empty());
  window->live().waitUntilIdle();
  EXPECT_FALSE(window->strips().has(QStringLiteral("unsolved"))) << "nothing is wrong with nothing";
  window->takeTool(QStringLiteral("room"));
  EXPECT_FALSE(window->asksFirst());
}

}  // namespace
}  // namespace kerfdraft::desk
