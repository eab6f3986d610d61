// How figures of a thing are known, and the first page, through mouse and keys: what is refused stays.
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPlainTextEdit>

#include "desk/models/states_table.h"
#include "desk/panels/properties_panel.h"
#include "desk/panels/start_panel.h"
#include "panel_hand.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

// ----------------------------------------------------------------------------------------------- this thing

class FiguresOfAThing : public PanelHand {
 protected:
  static constexpr const char* kBore = "ports/0/bore";
  void pick(std::size_t machine) { look.select({project().machines[machine].id}); }
};

TEST_F(FiguresOfAThing, HowAFigureIsKnownAndWhoSaysSoAreKept) {
  open("two-car-garage");
  PropertiesPanel panel(bench());
  panel.show();
  pick(0);
  ASSERT_NE(panel.editor(kBore), nullptr);
  const QString name = panel.editor(kBore)->accessibleName();
  auto* standing = named<QComboBox>(&panel, ("How " + name + " is known").toLatin1());
  ASSERT_NE(standing, nullptr);
  const int other = standing->currentIndex() == standing->findData("maker") ? standing->findData("measured")
                                                                            : standing->findData("maker");
  ASSERT_GE(other, 0);
  standing->setCurrentIndex(other);
  emit standing->activated(other);
  EXPECT_EQ(base::toText(project().machines[0].ports[0].bore.standing()),
            standing->itemData(other).toString().toStdString());
  typeOver(named<QLineEdit>(&panel, ("Source of " + name).toLatin1()), "caliper, at the port");
  EXPECT_EQ(project().machines[0].ports[0].bore.source(), "caliper, at the port");
  EXPECT_EQ(document.undoStack().count(), 2);
}

// ---------------------------------------------------------------------------------------------- first page

class FirstPage : public PanelHand {
 protected:
  std::optional<shop::Project> made;
  void listen(const StartPanel& panel) {
    QObject::connect(&panel, &StartPanel::shopMade, &live,
                     [this](const shop::Project& project, bool /*unsaved*/) { made = project; });
  }
  static QLineEdit* field(StartPanel& panel, const char* name) { return panel.findChild<QLineEdit*>(name); }
};

TEST_F(FirstPage, AnswersBecomeAShopThatSolves) {
  StartPanel panel(bench());
  listen(panel);
  panel.resize(900, 700);
  panel.show();
  panel.begin();
  panel.showPage(1);
  QTest::keyClicks(field(panel, "name"), "Invented shop");
  QTest::keyClicks(field(panel, "width"), "30 ft");
  auto* kind = panel.findChild<QComboBox*>("kind");
  ASSERT_NE(kind, nullptr);
  kind->setCurrentIndex(0);
  press(&panel, "Add");
  kind->setCurrentIndex(3);
  press(&panel, "Add");
  QTest::keyClicks(field(panel, "label-flow"), "1200 cfm");
  QTest::keyClicks(field(panel, "label-suction"), "10 in w.g.");
  press(&panel, "Make the shop");
  ASSERT_TRUE(made.has_value()) << panel.said().toStdString();
  EXPECT_EQ(made->setting.name, "Invented shop");
  EXPECT_EQ(made->machines.size(), 2U);
  document.startNew(*made);
  live.waitUntilIdle();
  ASSERT_TRUE(live.latest() && live.latest()->assessment);
  EXPECT_FALSE(live.latest()->problem.has_value());
  ASSERT_GE(live.latest()->states(), 2U);
  for (const auto& row : stateRows(*live.latest(), base::UnitSystem::Us)) {
    EXPECT_NE(row.verdict, "no solution") << row.name;
    EXPECT_FALSE(row.cells.empty()) << row.name;
  }
}

TEST_F(FirstPage, ABadAnswerIsNamedAndEverythingStays) {
  StartPanel panel(bench());
  listen(panel);
  panel.show();
  panel.begin();
  panel.showPage(1);
  QTest::keyClicks(field(panel, "name"), "Invented shop");
  QTest::keyClicks(field(panel, "depth"), "twenty");
  auto* machines = named<QListWidget>(&panel, "Machines in the shop");
  press(&panel, "Add");
  ASSERT_EQ(machines->count(), 1);
  press(&panel, "Make the shop");
  EXPECT_FALSE(made.has_value());
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("twenty"));
  // Below its field, for the eye and for a reader; the keys are there already.
  auto* beside = panel.findChild<QLabel*>("refused-depth");
  ASSERT_NE(beside, nullptr);
  EXPECT_TRUE(beside->isVisible());
  EXPECT_THAT(beside->text().toStdString(), HasSubstr("twenty"));
  EXPECT_EQ(beside->y() > field(panel, "depth")->y(), true);
  EXPECT_LT(beside->y(), field(panel, "height")->y());
  EXPECT_EQ(field(panel, "depth")->accessibleDescription(), beside->text());
  EXPECT_EQ(panel.focusWidget(), field(panel, "depth"));
  EXPECT_FALSE(panel.findChild<QLabel*>("refused-width")->isVisible());
  EXPECT_EQ(field(panel, "name")->text(), "Invented shop");
  EXPECT_EQ(field(panel, "depth")->text(), "twenty");
  EXPECT_EQ(machines->count(), 1);
  QTest::keyClicks(field(panel, "depth"), "!");
  EXPECT_FALSE(beside->isVisible()) << "it was about what stood there before";
  EXPECT_EQ(field(panel, "depth")->accessibleDescription(), QString());
  auto* kind = panel.findChild<QComboBox*>("kind");
  kind->setEditText("zzqx");
  press(&panel, "Add");
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("zzqx"));
  EXPECT_THAT(kind->accessibleDescription().toStdString(), HasSubstr("zzqx"));
  EXPECT_EQ(machines->count(), 1);
  // Several wrong answers are all said; the first has the keys.
  QTest::keyClicks(field(panel, "height"), "high");
  press(&panel, "Make the shop");
  EXPECT_FALSE(made.has_value());
  EXPECT_TRUE(panel.findChild<QLabel*>("refused-depth")->isVisible());
  EXPECT_TRUE(panel.findChild<QLabel*>("refused-height")->isVisible());
  EXPECT_EQ(panel.focusWidget(), field(panel, "depth"));
}

TEST_F(FirstPage, TheLineAnswersWhileItIsTypedAndNamesAPieceThatIsNone) {
  StartPanel panel(bench());
  listen(panel);
  panel.show();
  panel.showPage(2);
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("through"));
  auto* pieces = named<QPlainTextEdit>(&panel, "Pieces from the machine to the collector");
  const QString good = pieces->toPlainText();
  pieces->setPlainText(good + "\nbrick 4 in");
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("brick"));
  EXPECT_THAT(pieces->accessibleDescription().toStdString(), HasSubstr("brick"));
  EXPECT_TRUE(panel.findChild<QLabel*>("refused-pieces")->isVisible());
  pieces->setPlainText(good);
  press(&panel, "Go on with it as a drawing");
  ASSERT_TRUE(made.has_value());
  EXPECT_FALSE(made->ducts.empty());
}

}  // namespace
}  // namespace kerfdraft::desk
