// From nothing to a judged shop, by mouse and keys alone; the numbers are those that the saved file gives to
// the command line's functions; undo leads back to nothing.
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableWidget>

#include "desk/models/places.h"
#include "judge/assessment.h"
#include "judge/margins.h"
#include "shop/invariants.h"
#include "window_story.h"

namespace kerfdraft::desk {
namespace {

class ShopStory : public WindowStory {
 protected:
  std::unique_ptr<Window> w = window();

  Canvas& canvas() { return w->canvas(); }
  const shop::Project& project() const { return w->document().project(); }

  void click(double x_m, double y_m) {
    const QPointF at =
        canvas().view().toPx(shop::PlanPoint{std::llround(x_m * 1e6), std::llround(y_m * 1e6)});
    QTest::mouseMove(&canvas(), at.toPoint());
    QTest::mouseClick(&canvas(), Qt::LeftButton, Qt::NoModifier, at.toPoint());
    w->live().waitUntilIdle();
  }
  void click(const shop::Point& at) {
    click(static_cast<double>(at.x_um) * 1e-6, static_cast<double>(at.y_um) * 1e-6);
  }
  /// Searches in the panel of machines, takes the first, puts it down.
  void put(const char* search, double x_m, double y_m) {
    ASSERT_TRUE(w->takeTool(QStringLiteral("place")));
    w->side().open(QStringLiteral("machines"));
    auto* line = w->side().panel(QStringLiteral("machines"))->findChild<QLineEdit*>();
    ASSERT_NE(line, nullptr);
    line->clear();
    QTest::keyClicks(line, QLatin1String(search));
    QTest::keyClick(line, Qt::Key_Return);
    click(x_m, y_m);
  }
  shop::Point portOf(std::size_t machine) const { return project().machines.at(machine).ports.at(0).at; }
};

TEST_F(ShopStory, AnEmptyShopBecomesAJudgedOneAndNothingAgain) {
  const shop::Project nothing = project();
  w->look().setUnits(base::UnitSystem::Metric);
  ASSERT_TRUE(w->takeTool(QStringLiteral("room")));
  QTest::keyClicks(&canvas(), QStringLiteral("8 m x 6 m"));
  QTest::keyClick(&canvas(), Qt::Key_Return);
  ASSERT_EQ(project().rooms.size(), 1U) << w->refused().toStdString();
  ASSERT_TRUE(w->takeTool(QStringLiteral("opening")));
  click(4, 0);
  ASSERT_EQ(project().rooms[0].openings.size(), 1U) << w->refused().toStdString();

  put("planer 15", 2, 3);
  put("cabinet table", 4, 3);
  put("band saw 14", 6, 3);
  ASSERT_EQ(project().machines.size(), 3U) << w->refused().toStdString();
  put("collector 5 hp", 1, 5);
  ASSERT_EQ(project().collectors.size(), 1U) << w->refused().toStdString();

  // The main from the farthest machine, then the others into it.
  ASSERT_TRUE(w->takeTool(QStringLiteral("duct")));
  click(portOf(2));
  click(6, 1.5);
  click(1, 1.5);
  click(project().collectors[0].at);
  ASSERT_EQ(project().ducts.size(), 1U) << w->refused().toStdString();
  for (const std::size_t machine : {1U, 0U}) {
    click(portOf(machine));
    click(static_cast<double>(portOf(machine).x_um) * 1e-6 - 0.3, 1.5);
  }
  ASSERT_EQ(project().ducts.size(), 3U) << w->refused().toStdString();
  for (const shop::Duct& duct : project().ducts) {
    EXPECT_FALSE(duct.gates.empty()) << duct.label;
  }
  QTest::keyClick(&canvas(), Qt::Key_Escape);

  // One state for each machine, by one click.
  for (QPushButton* button : w->findChildren<QPushButton*>()) {
    if (button->text() == Window::tr("One for each machine")) {
      button->click();
    }
  }
  w->live().waitUntilIdle();
  ASSERT_EQ(project().states.size(), 3U);
  EXPECT_TRUE(shop::checkProject(project()).empty());

  const std::filesystem::path file = folder.filePath(QStringLiteral("mine.json")).toStdString();
  ASSERT_TRUE(w->document().saveAs(file));
  const auto read = files::loadProject(file);
  ASSERT_TRUE(read);
  const auto assessment = judge::assess(*read, *catalogue());
  ASSERT_TRUE(assessment) << assessment.error().text();
  const auto margins = judge::margins(*assessment, *catalogue());
  ASSERT_TRUE(margins);
  const auto& live = w->live().latest();
  ASSERT_EQ(live->states(), assessment->states.size());
  for (std::size_t s = 0; s < live->states(); ++s) {
    ASSERT_TRUE((*margins)[s].solved) << assessment->states[s].name;
    for (std::size_t p = 0; p < (*margins)[s].ports.size(); ++p) {
      EXPECT_EQ(live->margins[s].ports[p].flow_m3_s, (*margins)[s].ports[p].flow_m3_s);
      EXPECT_EQ(live->margins[s].ports[p].open,
                live->margins[s].ports[p].ref.machine == project().machines[s].id);
    }
  }
  ASSERT_TRUE(live->verdict);
  EXPECT_TRUE(live->verdict->all_solved);

  while (w->document().undoStack().canUndo()) {
    w->document().undoStack().undo();
  }
  EXPECT_EQ(project(), nothing);
}

}  // namespace
}  // namespace kerfdraft::desk
