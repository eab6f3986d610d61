// The fan's panel through its fields, and the tracing of a picture that the test draws itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QComboBox>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QTableWidget>
#include <QTest>
#include <QWheelEvent>

#include "desk/panels/curve_tracing.h"
#include "desk/panels/fan_panel.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

class Fan : public ::testing::Test {
 protected:
  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  Bench bench() { return {document, look, live, catalogue}; }
  const shop::FanRating& rating() const { return document.project().collectors.at(0).rating; }

  static void waitFor(const FanPanel& panel) {
    constexpr int kLongest_ms = 20000;
    EXPECT_TRUE(QTest::qWaitFor([&] { return !panel.isComparing(); }, kLongest_ms));
  }

  void SetUp() override {
    const auto read = files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/two-car-garage.json");
    ASSERT_TRUE(read.has_value());
    document.startNew(*read);
    look.setUnits(base::UnitSystem::Us);
  }
};

TEST_F(Fan, WhatIsTypedIsOneStepOfUndo) {
  FanPanel panel(bench());
  panel.resize(480, 700);
  panel.show();
  const shop::FanRating before = rating();
  panel.findChild<QTableWidget*>("points")->item(1, 1)->setText("13 in w.g.");
  EXPECT_EQ(rating(), before);
  QTest::mouseClick(panel.findChild<QPushButton*>("apply"), Qt::LeftButton);
  EXPECT_EQ(rating().points.at(1).pressure.text(), "13 in w.g.");
  document.undoStack().undo();
  EXPECT_EQ(rating(), before);
  EXPECT_EQ(panel.findChild<QTableWidget*>("points")->item(1, 1)->text().toStdString(),
            before.points.at(1).pressure.text());
}

TEST_F(Fan, ASlipIsToldAndNothingIsTaken) {
  FanPanel panel(bench());
  const shop::FanRating before = rating();
  panel.findChild<QTableWidget*>("points")->item(1, 1)->setText("13");
  EXPECT_TRUE(panel.says().contains("point 2, pressure"));
  EXPECT_FALSE(panel.findChild<QPushButton*>("apply")->isEnabled());
  EXPECT_FALSE(panel.apply());
  EXPECT_EQ(rating(), before);
}

TEST_F(Fan, TheWheelChangesNoAnswer) {
  FanPanel panel(bench());
  auto* basis = panel.findChild<QComboBox*>("basis");
  QWheelEvent turn({5, 5}, basis->mapToGlobal(QPointF(5, 5)), {}, {0, -240}, Qt::NoButton, Qt::NoModifier,
                   Qt::NoScrollPhase, false);
  const int before = basis->currentIndex();
  QApplication::sendEvent(basis, &turn);
  EXPECT_EQ(basis->currentIndex(), before);
}

TEST_F(Fan, AnotherBasisIsSolvedAndSaid) {
  FanPanel panel(bench());
  panel.compareBases();
  EXPECT_TRUE(panel.isComparing());
  waitFor(panel);
  const QString said = panel.findChild<QLabel*>("compared")->text();
  EXPECT_EQ(said.count("instead, the shop would get"), 3) << said.toStdString();
}

TEST_F(Fan, OfTwoQuestionsTheNewestIsAnswered) {
  FanPanel panel(bench());
  panel.compareBases();
  waitFor(panel);
  const QString before = panel.findChild<QLabel*>("compared")->text();
  panel.compareBases();
  panel.findChild<QTableWidget*>("points")->item(1, 1)->setText("13 in w.g.");
  // What was asked of other numbers is not answered below these.
  EXPECT_FALSE(panel.isComparing());
  EXPECT_TRUE(panel.findChild<QLabel*>("compared")->text().isEmpty());
  panel.compareBases();
  waitFor(panel);
  const QString after = panel.findChild<QLabel*>("compared")->text();
  EXPECT_NE(after, before);
  EXPECT_EQ(after.count("instead, the shop would get"), 3) << after.toStdString();
  // Nothing more arrives.
  QTest::qWait(50);
  EXPECT_EQ(panel.findChild<QLabel*>("compared")->text(), after);
}

TEST_F(Fan, AnotherStateWhileItSolvesTakesTheQuestionBack) {
  FanPanel panel(bench());
  panel.compareBases();
  look.setState(1);
  EXPECT_FALSE(panel.isComparing());
  QTest::qWait(100);
  EXPECT_TRUE(panel.findChild<QLabel*>("compared")->text().isEmpty());
}

TEST_F(Fan, ThePanelMayGoWhileItSolves) {
  for (int n = 0; n < 5; ++n) {
    FanPanel panel(bench());
    panel.compareBases();
    panel.compareBases();
    QTest::qWait(n);
  }
  QCoreApplication::processEvents();
}

TEST_F(Fan, TheReadingBecomesMeasured) {
  FanPanel panel(bench());
  auto* reading = panel.findChild<QLineEdit*>("reading");
  reading->setText("13.6 in w.g.");
  QTest::keyClick(reading, Qt::Key_Return);
  EXPECT_EQ(rating().points.front().pressure.text(), "13.6 in w.g.");
  EXPECT_EQ(rating().points.front().pressure.standing(), base::Standing::Measured);
}

TEST_F(Fan, ADrawnCurveIsTracedBack) {
  // Axes from (100, 500): 2 pixels to 5 cfm, 40 pixels to 1 in w.g.
  QImage image(600, 560, QImage::Format_RGB32);
  image.fill(Qt::white);
  const auto place = [](double cfm) { return QPointF(100 + 0.4 * cfm, 500 - 40 * (9 - 8e-6 * cfm * cfm)); };
  {
    QPainter painter(&image);
    painter.drawLine(100, 500, 580, 500);
    painter.drawLine(100, 500, 100, 20);
    for (int cfm = 0; cfm < 1000; cfm += 10) {
      painter.drawLine(place(cfm), place(cfm + 10));
    }
  }
  CurveTracing window(bench());
  std::vector<TypedPoint> got;
  QObject::connect(&window, &CurveTracing::traced, &window,
                   [&](const std::vector<TypedPoint>& points) { got = points; });
  window.resize(900, 800);
  window.show();
  window.picture().setImage(image);
  const std::array<const char*, 4> values{"0 cfm", "1000 cfm", "0 in w.g.", "10 in w.g."};
  const QList<QLineEdit*> fields = window.findChildren<QLineEdit*>();
  ASSERT_EQ(fields.size(), 4);
  for (int i = 0; i < 4; ++i) {
    fields[i]->setText(values.at(static_cast<std::size_t>(i)));
  }
  const auto click = [&](QPointF at) {
    QTest::mouseClick(&window.picture(), Qt::LeftButton, {},
                      window.picture().shownAt({at.x(), at.y()}).toPoint());
  };
  // The corner is the first place of both axes.
  for (const QPointF at : {QPointF(100, 500), QPointF(500, 500), QPointF(100, 500), QPointF(100, 100)}) {
    click(at);
  }
  ASSERT_EQ(window.picture().places().size(), 4U);
  for (const int cfm : {100, 400, 600, 800, 1000}) {
    click(place(cfm));
  }
  for (QPushButton* button : window.findChildren<QPushButton*>()) {
    if (button->text().startsWith("Take these")) {
      ASSERT_TRUE(button->isEnabled()) << window.says().toStdString();
      QTest::mouseClick(button, Qt::LeftButton);
    }
  }
  ASSERT_EQ(got.size(), 5U);
  for (std::size_t i = 0; i < got.size(); ++i) {
    const double cfm = QString::fromStdString(got[i][0]).section(' ', 0, 0).toDouble();
    const double wg = QString::fromStdString(got[i][1]).section(' ', 0, 0).toDouble();
    // A pixel is 2.5 cfm and 0.025 in w.g.; sideways it moves the pressure by the curve's slope.
    EXPECT_NEAR(wg, 9 - 8e-6 * cfm * cfm, 0.025 + 2.5 * 16e-6 * cfm + 0.01) << i;
  }
}

}  // namespace
}  // namespace kerfdraft::desk
