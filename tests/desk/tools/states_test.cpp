// States of use and charts through mouse and keys.
#include <QCheckBox>
#include <QComboBox>

#include "desk/panels/charts_panel.h"
#include "desk/panels/states_panel.h"
#include "panel_hand.h"

namespace kerfdraft::desk {
namespace {

// ------------------------------------------------------------------------------------------------- states

class States : public PanelHand {};

TEST_F(States, AreMadeCopiedRenamedOrderedAndTakenAway) {
  open("two-car-garage");
  const shop::Project start = project();
  const std::size_t count = start.states.size();
  ASSERT_GE(count, 2U);
  StatesPanel panel(bench());
  panel.resize(1300, 300);
  panel.show();
  press(&panel, "New");
  ASSERT_EQ(project().states.size(), count + 1);
  EXPECT_TRUE(project().states.back().gates.empty());
  EXPECT_EQ(look.state(), count);
  press(&panel, "New");
  ASSERT_EQ(project().states.size(), count + 2);
  EXPECT_NE(project().states[count].name, project().states[count + 1].name);
  undo();
  undo();
  EXPECT_EQ(project(), start);

  panel.table().selectRow(1);
  EXPECT_EQ(look.state(), 1U);
  press(&panel, "Copy");
  ASSERT_EQ(project().states.size(), count + 1);
  EXPECT_EQ(project().states.back().gates, start.states[1].gates);
  undo();

  panel.table().selectRow(1);
  panel.table().item(1, 0)->setText("Bandsaw and nothing else");
  live.waitUntilIdle();
  EXPECT_EQ(project().states[1].name, "Bandsaw and nothing else") << panel.said().toStdString();
  undo();
  EXPECT_EQ(project(), start);
  EXPECT_EQ(panel.table().item(1, 0)->text().toStdString(), start.states[1].name);

  panel.table().selectRow(1);
  press(&panel, "Up");
  EXPECT_EQ(project().states[0].name, start.states[1].name);
  EXPECT_EQ(look.state(), 0U);
  press(&panel, "Down");
  EXPECT_EQ(project(), start);
  EXPECT_EQ(look.state(), 1U);
  undo();
  undo();

  press(&panel, "Take away");
  EXPECT_EQ(project().states.size(), count - 1);
  undo();
  EXPECT_EQ(project(), start);
}

TEST_F(States, ANameThatIsNoneIsRefusedAndTheOldOneStays) {
  open("two-car-garage");
  const shop::Project start = project();
  StatesPanel panel(bench());
  panel.show();
  for (const QString& bad : {QString(), QString::fromStdString(start.states[0].name)}) {
    panel.table().item(1, 0)->setText(bad);
    live.waitUntilIdle();
    EXPECT_EQ(project(), start) << "taken: \"" << bad.toStdString() << "\"";
    EXPECT_EQ(panel.table().item(1, 0)->text().toStdString(), start.states[1].name);
  }
}

TEST_F(States, FilterAndUseAreChangedAndUndone) {
  open("two-car-garage");
  const shop::Project start = project();
  StatesPanel panel(bench());
  panel.resize(1300, 300);
  panel.show();
  panel.table().selectRow(1);
  auto* filter = named<QComboBox>(&panel, "Filter in this state");
  const int other = start.states[1].filter == shop::FilterState::Due ? 0 : 2;
  filter->setCurrentIndex(other);
  emit filter->activated(other);
  live.waitUntilIdle();
  EXPECT_EQ(static_cast<int>(project().states[1].filter), other);
  undo();
  EXPECT_EQ(project(), start);
  auto* used = panel.findChild<QCheckBox*>();
  ASSERT_NE(used, nullptr);
  const bool was = start.states[1].unused;
  used->click();
  live.waitUntilIdle();
  EXPECT_NE(project().states[1].unused, was);
  undo();
  EXPECT_EQ(project(), start);
  EXPECT_EQ(used->isChecked(), !was);
}

TEST_F(States, ADoubleClickOnANumberAsksWhereItComesFrom) {
  open("two-car-garage");
  StatesPanel panel(bench());
  panel.resize(1400, 400);
  panel.show();
  int numbers = 0;
  for (int row = 0; row < panel.table().rowCount(); ++row) {
    for (int column = 4; column < panel.table().columnCount(); ++column) {
      if (!panel.rows()[static_cast<std::size_t>(row)].cells[static_cast<std::size_t>(column - 4)].open) {
        continue;
      }
      asked.clear();
      panel.table().setCurrentCell(row, column);
      emit panel.table().itemDoubleClicked(panel.table().item(row, column));
      EXPECT_FALSE(asked.isEmpty()) << row << ", " << column;
      ++numbers;
    }
  }
  EXPECT_GT(numbers, 3);
  asked.clear();
  panel.activateWindow();
  panel.table().setFocus();
  QCoreApplication::processEvents();
  panel.table().setCurrentCell(1, 3);
  QTest::keyClicks(&panel.table(), "?");
  EXPECT_FALSE(asked.isEmpty()) << "the key does not ask";
}

TEST_F(States, ATrialIsKeptByItsName) {
  open("two-car-garage");
  const shop::Project start = project();
  StatesPanel panel(bench());
  panel.resize(1300, 300);
  panel.show();
  shop::State trial = start.states[0];
  trial.id = document.newId();
  trial.name.clear();
  look.setTrial(trial);
  live.waitUntilIdle();
  ASSERT_EQ(panel.rows().size(), start.states.size() + 1);
  EXPECT_TRUE(panel.rows().back().tried);
  auto* name = named<QLineEdit>(&panel, "Name under which the trial is kept");
  ASSERT_TRUE(name->isVisible());
  QTest::keyClicks(name, "Tried out");
  QTest::keyClick(name, Qt::Key_Return);
  live.waitUntilIdle();
  ASSERT_EQ(project().states.size(), start.states.size() + 1) << panel.said().toStdString();
  EXPECT_EQ(project().states.back().name, "Tried out");
  EXPECT_FALSE(look.trial().has_value());
  EXPECT_FALSE(name->isVisible());
  undo();
  EXPECT_EQ(project(), start);
}

// -------------------------------------------------------------------------------------------------- charts

TEST_F(PanelHand, EveryChartIsDrawnInEveryStateAndReadByTheArrowKeys) {
  open("two-car-garage");
  ChartsPanel panel(bench());
  panel.resize(420, 460);
  panel.show();
  auto* kind = named<QComboBox>(&panel, "Which chart");
  const QString rest = panel.reading();
  for (std::size_t state = 0; state < live.latest()->states(); ++state) {
    look.setState(state);
    for (int k = 0; k < kind->count(); ++k) {
      kind->setCurrentIndex(k);
      const ShownChart& chart = panel.view().chart();
      EXPECT_FALSE(chart.picture.description.empty()) << state << ", " << k;
      EXPECT_EQ(panel.reading(), rest);
      QTest::keyClick(&panel.view(), Qt::Key_Right);
      QTest::keyClick(&panel.view(), Qt::Key_Right);
      if (chart.frame) {
        EXPECT_NE(panel.reading(), rest) << state << ", " << k;
        EXPECT_FALSE(panel.reading().contains("nan")) << panel.reading().toStdString();
        const QString at = panel.reading();
        for (int n = 0; n < 8; ++n) {
          QTest::keyClick(&panel.view(), Qt::Key_Right);
        }
        EXPECT_NE(panel.reading(), at) << "the arrow key reads one place only";
      }
    }
  }
  // Nothing solved: the picture says why.
  document.startNew({});
  live.waitUntilIdle();
  for (int k = 0; k < kind->count(); ++k) {
    kind->setCurrentIndex(k);
    EXPECT_FALSE(panel.view().chart().picture.description.empty()) << k;
    panel.grab();
  }
}

}  // namespace
}  // namespace kerfdraft::desk
