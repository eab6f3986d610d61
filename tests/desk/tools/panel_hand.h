// A project with everything that panels need, and a hand that types and presses.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QLineEdit>
#include <QPushButton>
#include <QStandardPaths>
#include <QTest>

#include "catalogue/catalogue.h"
#include "desk/bench.h"
#include "files/save.h"

namespace kerfdraft::desk {

class PanelHand : public ::testing::Test {
 protected:
  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  QString asked;
  QString tool_asked;

  void SetUp() override {
    // One's own machines are kept there: never those of whoever runs the test.
    QStandardPaths::setTestModeEnabled(true);
    QObject::connect(&document, &Document::projectChanged, &live, [this] { solve(); });
    QObject::connect(&look, &Look::trialChanged, &live, [this] { solve(); });
    QObject::connect(&look, &Look::whyAsked, &live, [this](const QString& key) { asked = key; });
    QObject::connect(&look, &Look::toolAsked, &live, [this](const QString& key) { tool_asked = key; });
  }
  Bench bench() { return {document, look, live, catalogue}; }
  const shop::Project& project() const { return document.project(); }
  void solve() { live.request(document.snapshot(), look.trial()); }
  void open(const char* name) {
    auto read = files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/" + name + ".json");
    ASSERT_TRUE(read.has_value());
    document.startNew(*read);
    live.waitUntilIdle();
  }
  void undo() {
    document.undoStack().undo();
    live.waitUntilIdle();
  }

  template <class W>
  static W* named(QWidget* in, const char* accessible) {
    for (W* each : in->findChildren<W*>()) {
      if (each->accessibleName() == QLatin1String(accessible)) {
        return each;
      }
    }
    ADD_FAILURE() << "nothing is called " << accessible;
    return nullptr;
  }
  void press(QWidget* in, const char* words) {
    for (QPushButton* each : in->findChildren<QPushButton*>()) {
      if (each->text() == QLatin1String(words)) {
        ASSERT_TRUE(each->isEnabled()) << words;
        QTest::mouseClick(each, Qt::LeftButton);
        live.waitUntilIdle();
        return;
      }
    }
    ADD_FAILURE() << "no button says " << words;
  }
  /// As a hand does: everything that stood there is typed over.
  static void typeOver(QWidget* field, const QString& words, bool enter = true) {
    auto* line = qobject_cast<QLineEdit*>(field);
    ASSERT_NE(line, nullptr);
    line->setFocus();
    line->selectAll();
    QTest::keyClicks(line, words);
    if (enter) {
      QTest::keyClick(line, Qt::Key_Return);
    }
  }
};

}  // namespace kerfdraft::desk
