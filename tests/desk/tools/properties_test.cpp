// "This thing" through its fields: typed, refused, given up, undone, and left for another thing.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QTest>
#include <QWheelEvent>

#include "desk/panels/properties_panel.h"
#include "desk/panels/tick_list.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

class ThisThing : public ::testing::Test {
 protected:
  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  std::unique_ptr<PropertiesPanel> panel;

  void SetUp() override {
    const auto read = files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/two-car-garage.json");
    ASSERT_TRUE(read.has_value());
    document.startNew(*read);
    look.setUnits(base::UnitSystem::Us);
    panel = std::make_unique<PropertiesPanel>(Bench{document, look, live, catalogue});
    panel->resize(360, 700);
    panel->show();
    panel->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(panel.get()));
    look.select({machine(0).id});
  }

  const shop::Machine& machine(std::size_t k) const { return document.project().machines.at(k); }
  std::string bore(std::size_t k = 0) const { return machine(k).ports.at(0).bore.text(); }
  QLineEdit* line(const char* path) const { return qobject_cast<QLineEdit*>(panel->editor(path)); }
  QComboBox* box(const char* path) const { return qobject_cast<QComboBox*>(panel->editor(path)); }
  static void type(QLineEdit* field, const char* text) {
    ASSERT_NE(field, nullptr);
    field->setFocus();
    field->selectAll();
    QTest::keyClicks(field, QString::fromUtf8(text));
  }
  static constexpr const char* kBore = "ports/0/bore";
};

TEST_F(ThisThing, ATypedBoreIsTakenWithEnterAndUndoneInOneStep) {
  const shop::Project before = document.project();
  type(line(kBore), "100 mm");
  EXPECT_EQ(document.project(), before) << "nothing is taken while it is typed";
  QTest::keyClick(line(kBore), Qt::Key_Return);
  EXPECT_EQ(bore(), "100 mm");
  EXPECT_EQ(document.undoStack().count(), 1);
  EXPECT_TRUE(line(kBore)->hasFocus());
  document.undoStack().undo();
  EXPECT_EQ(document.project(), before);
  EXPECT_EQ(line(kBore)->text().toStdString(), bore());
}

TEST_F(ThisThing, LeavingAFieldTakesIt) {
  type(line(kBore), "5.5 in");
  line("label")->setFocus();
  EXPECT_EQ(bore(), "5.5 in");
  EXPECT_EQ(document.undoStack().count(), 1);
}

TEST_F(ThisThing, BadTextStaysWithASentenceAndLosesNothing) {
  const shop::Project before = document.project();
  for (const char* bad : {"wide", "100 kg", "9 m", "-4 in", "nan in"}) {
    type(line(kBore), bad);
    QTest::keyClick(line(kBore), Qt::Key_Return);
    EXPECT_EQ(document.project(), before) << bad;
    EXPECT_EQ(line(kBore)->text(), QString::fromUtf8(bad));
    EXPECT_FALSE(panel->refusal(kBore).isEmpty()) << bad;
  }
  EXPECT_EQ(document.undoStack().count(), 0);
  type(line(kBore), "4.5 in");
  QTest::keyClick(line(kBore), Qt::Key_Return);
  EXPECT_EQ(bore(), "4.5 in");
  EXPECT_TRUE(panel->refusal(kBore).isEmpty());
}

TEST_F(ThisThing, EscapeBringsBackWhatStood) {
  const std::string stood = bore();
  type(line(kBore), "wide");
  QTest::keyClick(line(kBore), Qt::Key_Return);
  ASSERT_FALSE(panel->refusal(kBore).isEmpty());
  QTest::keyClick(line(kBore), Qt::Key_Escape);
  EXPECT_EQ(line(kBore)->text().toStdString(), stood);
  EXPECT_TRUE(panel->refusal(kBore).isEmpty());
  line("label")->setFocus();
  EXPECT_EQ(document.undoStack().count(), 0);
}

TEST_F(ThisThing, TypingOutlivesAChangeOfTheProjectUnderIt) {
  type(line(kBore), "4 in o");
  shop::Setting setting = document.project().setting;
  setting.name = "Another name";
  ASSERT_TRUE(document.make(QStringLiteral("Rename"), shop::SetSetting{setting}));
  EXPECT_EQ(line(kBore)->text(), QStringLiteral("4 in o"));
  EXPECT_TRUE(line(kBore)->hasFocus());
}

TEST_F(ThisThing, WhatIsHalfTypedBelongsToTheThingItWasTypedFor) {
  const std::string other = bore(1);
  type(line(kBore), "7 in");
  look.select({machine(1).id});
  EXPECT_EQ(bore(0), "7 in");
  EXPECT_EQ(bore(1), other);
  EXPECT_EQ(line(kBore)->text().toStdString(), other);
  EXPECT_TRUE(panel->leftBehind().isEmpty());
}

TEST_F(ThisThing, WhatCouldNotBeTakenIsSaidOverTheNextThing) {
  const shop::Project before = document.project();
  type(line(kBore), "wide");
  look.select({machine(1).id});
  EXPECT_EQ(document.project(), before);
  EXPECT_TRUE(panel->leftBehind().contains(QStringLiteral("wide"))) << panel->leftBehind().toStdString();
  EXPECT_TRUE(panel->leftBehind().contains(QString::fromStdString(machine(0).label)));
  look.select({});
  EXPECT_TRUE(panel->leftBehind().isEmpty());
}

TEST_F(ThisThing, AWordIsChosenAndTheWheelChoosesNothing) {
  QComboBox* guard = box("guard");
  ASSERT_NE(guard, nullptr);
  guard->setFocus();
  const int before = guard->currentIndex();
  QWheelEvent turn({5, 5}, guard->mapToGlobal(QPointF(5, 5)), {}, {0, -240}, Qt::NoButton, Qt::NoModifier,
                   Qt::NoScrollPhase, false);
  QApplication::sendEvent(guard, &turn);
  EXPECT_EQ(guard->currentIndex(), before);
  EXPECT_EQ(document.undoStack().count(), 0);
  QTest::keyClick(guard, Qt::Key_End);
  EXPECT_EQ(machine(0).guard, shop::Guard::Missing);
}

TEST_F(ThisThing, APartPutInKeepsTheKeysAndIsOneStep) {
  const std::size_t ports = machine(0).ports.size();
  auto* add = qobject_cast<QPushButton*>(panel->editor("ports/add"));
  ASSERT_NE(add, nullptr);
  add->setFocus();
  QTest::keyClick(add, Qt::Key_Space);
  EXPECT_EQ(machine(0).ports.size(), ports + 1);
  EXPECT_EQ(document.undoStack().count(), 1);
  EXPECT_TRUE(panel->editor("ports/add")->hasFocus());
  document.undoStack().undo();
  EXPECT_EQ(machine(0).ports.size(), ports);
}

TEST_F(ThisThing, AHoseAppearsWithItsTwoQuestionsWhileItsBoxAnswers) {
  const base::Id duct = document.project().ducts.at(0).id;
  look.select({duct});
  QComboBox* hose = box("corners/0/leg/hose");
  ASSERT_NE(hose, nullptr);
  hose->setFocus();
  const bool had = document.project().ducts.at(0).corners.at(0).leg->hose.has_value();
  QTest::keyClick(hose, had ? Qt::Key_End : Qt::Key_Home);
  EXPECT_NE(document.project().ducts.at(0).corners.at(0).leg->hose.has_value(), had);
  EXPECT_EQ(panel->editor("corners/0/leg/hose/inside") != nullptr, !had);
  EXPECT_EQ(panel->editor("corners/0/leg/hose/hung") != nullptr, !had);
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  EXPECT_TRUE(box("corners/0/leg/hose")->hasFocus());
}

TEST_F(ThisThing, WithoutAPickTheShopIsChanged) {
  look.select({});
  type(line("air/altitude"), "1600 m");
  QTest::keyClick(line("air/altitude"), Qt::Key_Return);
  EXPECT_EQ(document.project().air.altitude->text(), "1600 m");
  QTest::mouseClick(panel->editor("circuits/add"), Qt::LeftButton);
  EXPECT_FALSE(document.project().circuits.empty());
}

TEST_F(ThisThing, AWoodIsTickedByItsNameAndUntickedByUndo) {
  look.select({});
  const std::vector<std::string> before = document.project().setting.woods;
  auto* woods = qobject_cast<TickList*>(panel->editor("setting/woods"));
  ASSERT_NE(woods, nullptr);
  const auto found = woods->findItems(QStringLiteral("Black walnut"), Qt::MatchExactly);
  ASSERT_EQ(found.size(), 1);
  ASSERT_EQ(found.front()->checkState(), Qt::Unchecked);
  woods->setFocus();
  woods->setCurrentItem(found.front());
  EXPECT_EQ(document.project().setting.woods, before) << "passing by ticks nothing";
  QTest::keyClick(woods, Qt::Key_Space);
  std::vector<std::string> with = before;
  with.emplace_back("black-walnut");
  EXPECT_EQ(document.project().setting.woods, with);
  EXPECT_EQ(document.undoStack().count(), 1);
  document.undoStack().undo();
  EXPECT_EQ(document.project().setting.woods, before);
  EXPECT_EQ(found.front()->checkState(), Qt::Unchecked);
}

TEST_F(ThisThing, RowsReadInPlainWordsAndTellTheirKey) {
  QComboBox* guard = box("guard");
  ASSERT_NE(guard, nullptr);
  EXPECT_EQ(guard->accessibleName(), QStringLiteral("Guard over the cutter"));
  EXPECT_TRUE(guard->toolTip().contains(QStringLiteral("In the file: guard")))
      << guard->toolTip().toStdString();
  const int missing = guard->findData(QStringLiteral("missing"));
  ASSERT_GE(missing, 0);
  EXPECT_EQ(guard->itemText(missing), QStringLiteral("taken off or never there"));
  EXPECT_TRUE(
      guard->itemData(missing, Qt::ToolTipRole).toString().contains(QStringLiteral("In the file: missing")));
  EXPECT_TRUE(line(kBore)->toolTip().contains(QStringLiteral("true inside diameter")));
}

TEST_F(ThisThing, SeveralChangeTogetherAsOneStep) {
  const shop::Project before = document.project();
  look.select({machine(0).id, machine(1).id});
  type(line(kBore), "6 in");
  QTest::keyClick(line(kBore), Qt::Key_Return);
  EXPECT_EQ(bore(0), "6 in");
  EXPECT_EQ(bore(1), "6 in");
  EXPECT_EQ(document.undoStack().count(), 1);
  document.undoStack().undo();
  EXPECT_EQ(document.project(), before);
}

TEST_F(ThisThing, AHalfTypedGateBelongsToTheStateItWasTypedFor) {
  ASSERT_GE(document.project().states.size(), 2U);
  ASSERT_FALSE(document.project().ducts.empty());
  base::Id gate;
  for (const shop::Duct& duct : document.project().ducts) {
    gate = duct.gates.empty() ? gate : duct.gates.front().id;
  }
  ASSERT_TRUE(gate.valid());
  panel = std::make_unique<PropertiesPanel>(Bench{document, look, live, catalogue}, nullptr,
                                            PropertiesPanel::About::State);
  panel->show();
  panel->activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(panel.get()));
  const shop::State other = document.project().states[1];
  type(line(("gate/" + gate.text()).c_str()), "0.37");
  look.setState(1);
  const auto& settings = document.project().states[0].gates;
  const auto set = std::find_if(settings.begin(), settings.end(),
                                [&](const shop::GateSetting& each) { return each.gate == gate; });
  ASSERT_NE(set, settings.end());
  EXPECT_EQ(set->travel.text(), "0.37");
  EXPECT_EQ(document.project().states[1], other);
}

TEST_F(ThisThing, NothingIsWiderThanANarrowColumn) {
  for (const std::set<base::Id>& picked : {std::set<base::Id>{},
                                           {machine(0).id},
                                           {document.project().collectors.at(0).id},
                                           {document.project().ducts.at(0).id}}) {
    look.select(picked);
    QCoreApplication::processEvents();
    const auto* area = panel->findChild<QScrollArea*>();
    ASSERT_NE(area, nullptr);
    EXPECT_LE(area->widget()->minimumSizeHint().width(), area->viewport()->width())
        << panel->title().toStdString();
    for (const QLabel* label : area->widget()->findChildren<QLabel*>()) {
      if (label->isVisible()) {
        EXPECT_GE(label->height(), label->heightForWidth(label->width()))
            << "cut off: " << label->text().toStdString();
      }
    }
  }
}

}  // namespace
}  // namespace kerfdraft::desk
