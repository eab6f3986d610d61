// The panels of words through mouse and keys: findings lead, are lived with and tried; numbers say why.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QTableWidget>
#include <QTest>
#include <QTextBrowser>

#include "catalogue/catalogue.h"
#include "desk/explain_terms.h"
#include "desk/models/explanation.h"
#include "desk/panels/findings_panel.h"
#include "desk/panels/why_panel.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

class Words : public ::testing::Test {
 protected:
  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  Bench bench() { return {document, look, live, catalogue}; }
  QString asked;
  base::Id led_to;

  void open(const char* name) {
    auto read = files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/" + name + ".json");
    ASSERT_TRUE(read.has_value());
    QObject::connect(&document, &Document::projectChanged, &live, [this] { solve(); });
    QObject::connect(&look, &Look::whyAsked, &live, [this](const QString& key) { asked = key; });
    QObject::connect(&look, &Look::placeAsked, &live, [this](base::Id id) { led_to = id; });
    document.startNew(*read);
    solve();
    live.waitUntilIdle();
  }
  void solve() { live.request(document.snapshot(), look.trial()); }

  template <class W>
  static W* child(QWidget* in, const char* name) {
    return in->findChild<W*>(QString::fromLatin1(name));
  }
  static void press(QWidget* button) {
    ASSERT_NE(button, nullptr);
    QTest::mouseClick(button, Qt::LeftButton);
  }
  /// The first row on top for which this holds.
  template <class Holds>
  static const FindingRow* rowThat(const FindingsPanel& panel, Holds holds) {
    for (const FindingRow& row : panel.shown().on_top) {
      if (holds(row)) {
        return &row;
      }
    }
    return nullptr;
  }
  static bool canBeTried(const FindingRow& row) {
    return !row.remedies.empty() && std::any_of(row.remedies.begin(), row.remedies.end(),
                                                [](const RemedyRow& r) { return r.can_be_tried; });
  }
};

TEST_F(Words, AFindingLeadsToItsPlaceAndState) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const FindingRow* row =
      rowThat(panel, [](const FindingRow& each) { return each.state.value_or(0) > 0 && each.place.valid(); });
  ASSERT_NE(row, nullptr);
  press(child<QPushButton>(panel.card(row->key), "place"));
  EXPECT_EQ(look.state(), *row->state);
  EXPECT_EQ(led_to, row->place);
}

TEST_F(Words, AFoldedFindingLeadsToItsOwnState) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const FindingRow* row = rowThat(panel, [](const FindingRow& each) { return each.folded.size() > 4; });
  ASSERT_NE(row, nullptr);
  QLabel* folded = child<QLabel>(panel.card(row->key), "folded");
  const FoldedRow under = row->folded.front();
  ASSERT_TRUE(under.state);
  ASSERT_NE(under.state, row->state);
  EXPECT_THAT(folded->text().toStdString(), HasSubstr(under.text));
  const QString fewer = folded->text();
  emit folded->linkActivated(QStringLiteral("all"));
  EXPECT_GT(folded->text().size(), fewer.size());
  emit folded->linkActivated(QString::number(under.finding));
  EXPECT_EQ(look.state(), *under.state);
  EXPECT_EQ(led_to, under.place);
}

TEST_F(Words, LivingWithAFindingWantsAReasonAndCanBeUndone) {
  open("one-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const shop::Project before = document.project();
  const FindingRow row = panel.shown().on_top.at(0);
  FindingCard* card = panel.card(row.key);
  press(child<QPushButton>(card, "live-with"));
  auto* reason = child<QLineEdit>(card, "reason");
  ASSERT_TRUE(reason->isVisible());
  QTest::keyClick(reason, Qt::Key_Return);
  EXPECT_THAT(panel.said().toStdString(), HasSubstr("Say why"));
  EXPECT_EQ(document.project(), before);
  QTest::keyClicks(reason, "It is sold in spring.");
  QTest::keyClick(reason, Qt::Key_Return);
  ASSERT_EQ(document.project().accepted.size(), before.accepted.size() + 1);
  EXPECT_EQ(document.project().accepted.back().reason, "It is sold in spring.");
  live.waitUntilIdle();
  EXPECT_FALSE(std::any_of(panel.shown().on_top.begin(), panel.shown().on_top.end(),
                           [&](const FindingRow& each) { return each.key == row.key; }));
  ASSERT_FALSE(panel.shown().lived_with.empty());
  press(child<QPushButton>(&panel, "undo"));
  live.waitUntilIdle();
  EXPECT_EQ(document.project(), before);
  EXPECT_NE(panel.card(row.key), nullptr);
  EXPECT_TRUE(panel.said().isEmpty());
}

TEST_F(Words, EscapeLeavesTheReasonAndChangesNothing) {
  open("one-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  FindingCard* card = panel.card(panel.shown().on_top.at(0).key);
  press(child<QPushButton>(card, "live-with"));
  auto* reason = child<QLineEdit>(card, "reason");
  QTest::keyClicks(reason, "no");
  QTest::keyClick(reason, Qt::Key_Escape);
  EXPECT_FALSE(reason->isVisible());
  EXPECT_EQ(document.undoStack().count(), 0);
  EXPECT_TRUE(child<QPushButton>(card, "live-with")->isVisible());
}

TEST_F(Words, WhatIsLivedWithIsTakenBackFromItsFold) {
  open("one-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const shop::Project before = document.project();
  const FindingRow row = panel.shown().on_top.at(0);
  ASSERT_TRUE(panel.accept(row.finding, "Known."));
  live.waitUntilIdle();
  press(child<QPushButton>(&panel, "lived-with"));
  FindingCard* card = panel.card(row.key);
  ASSERT_NE(card, nullptr);
  card->setOpen(true);
  press(child<QPushButton>(card, "take-back"));
  EXPECT_EQ(document.project(), before);
}

TEST_F(Words, ATriedRemedyKeepsTheResultBeforeAndSaysWhatItBrought) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const shop::Project before = document.project();
  const FindingRow* row = rowThat(panel, &Words::canBeTried);
  ASSERT_NE(row, nullptr);
  const std::string title = row->title;
  const auto which =
      static_cast<std::size_t>(std::find_if(row->remedies.begin(), row->remedies.end(),
                                            [](const RemedyRow& r) { return r.can_be_tried; }) -
                               row->remedies.begin());
  const auto solved_before = live.latest();
  press(panel.card(row->key)->findChild<QPushButton*>(QStringLiteral("try-%1").arg(which)));
  EXPECT_NE(document.project(), before);
  EXPECT_EQ(look.kept(), solved_before);
  live.waitUntilIdle();
  EXPECT_THAT(panel.said().toStdString(), HasSubstr(title));
  EXPECT_THAT(panel.said().toStdString(), ::testing::ContainsRegex("from .* to "));
  EXPECT_THAT(panel.said().toStdString(),
              ::testing::AnyOf(HasSubstr("Worse now"), HasSubstr("Nothing else")));
  document.undoStack().undo();
  EXPECT_EQ(document.project(), before);
  EXPECT_TRUE(panel.said().isEmpty());
}

TEST_F(Words, CardsFocusAndHalfTypedReasonsOutliveAVerdict) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  panel.resize(380, 500);
  panel.show();
  panel.activateWindow();
  QApplication::setActiveWindow(&panel);
  const FindingRow row = panel.shown().on_top.at(1);
  FindingCard* card = panel.card(row.key);
  press(child<QPushButton>(card, "live-with"));
  auto* reason = child<QLineEdit>(card, "reason");
  QTest::keyClicks(reason, "half");
  auto* bar = panel.findChild<QScrollArea*>()->verticalScrollBar();
  QApplication::processEvents();
  bar->setValue(bar->maximum() / 2);
  const int at = bar->value();
  ASSERT_GT(at, 0);
  solve();
  live.waitUntilIdle();
  look.setUnits(base::UnitSystem::Us);
  look.setUnits(base::UnitSystem::Metric);
  QApplication::processEvents();
  EXPECT_EQ(panel.card(row.key), card);
  EXPECT_EQ(reason->text(), "half");
  EXPECT_TRUE(reason->isVisible());
  EXPECT_TRUE(reason->hasFocus());
  EXPECT_EQ(bar->value(), at);
}

TEST_F(Words, FindingsOfOneStateAndForOneReader) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  panel.show();
  const std::string all = panel.shown().on_top.at(0).what;
  auto* states = child<QComboBox>(&panel, "states");
  ASSERT_EQ(static_cast<std::size_t>(states->count()), document.project().states.size() + 1);
  states->setFocus();
  QTest::keyClick(states, Qt::Key_Down);
  QTest::keyClick(states, Qt::Key_Down);
  EXPECT_EQ(look.state(), 1U);
  for (const auto* rows : {&panel.shown().on_top, &panel.shown().rest}) {
    for (const FindingRow& row : *rows) {
      EXPECT_TRUE(!row.state || *row.state == 1U) << row.title;
    }
  }
  QTest::keyClick(states, Qt::Key_Home);
  auto* reader = child<QComboBox>(&panel, "reader");
  reader->setFocus();
  QTest::keyClick(reader, Qt::Key_Down);
  EXPECT_EQ(look.reader(), judge::Reader::Adviser);
  EXPECT_NE(panel.shown().on_top.at(0).what, all);
}

TEST_F(Words, ANumberOfAFindingIsAskedWhyInItsState) {
  open("two-car-garage");
  FindingsPanel panel(bench());
  WhyPanel why(bench());
  panel.show();
  why.show();
  const FindingRow* row = rowThat(panel, [](const FindingRow& each) {
    return each.state.value_or(0) > 0 && std::any_of(each.what_parts.begin(), each.what_parts.end(),
                                                     [](const TextPart& p) { return !p.key.empty(); });
  });
  ASSERT_NE(row, nullptr);
  const auto part = std::find_if(row->what_parts.begin(), row->what_parts.end(),
                                 [](const TextPart& p) { return !p.key.empty(); });
  QLabel* what = child<QLabel>(panel.card(row->key), "what");
  const std::size_t state = *row->state;
  emit what->linkActivated(QString::fromStdString(part->key));
  EXPECT_EQ(asked.toStdString(), part->key);
  EXPECT_EQ(look.state(), state);
  EXPECT_EQ(why.key().toStdString(), part->key);
  EXPECT_TRUE(why.shown().problem.empty()) << why.shown().problem;
  EXPECT_EQ(why.shown().state, document.project().states[state].name);
}

TEST_F(Words, WhyIsReachedAndLeftByKeysAlone) {
  open("one-car-garage");
  WhyPanel why(bench());
  why.show();
  QApplication::setActiveWindow(&why);
  auto* search = child<QLineEdit>(&why, "search");
  search->setFocus();
  QTest::keyClicks(search, "density");
  QTest::keyClick(search, Qt::Key_Return);
  ASSERT_FALSE(why.key().isEmpty());
  EXPECT_THAT(why.shown().name, HasSubstr("density"));
  const QString first = why.key();
  // Links are gone through with Tab and followed with Enter.
  auto* text = child<QTextBrowser>(&why, "explanation");
  text->setFocus();
  for (int i = 0; i < 12 && why.key() == first; ++i) {
    QTest::keyClick(text, Qt::Key_Tab);
    QTest::keyClick(text, Qt::Key_Return);
  }
  EXPECT_NE(why.key(), first);
  why.back();
  EXPECT_EQ(why.key(), first);
  why.back();
  EXPECT_TRUE(why.key().isEmpty());
}

TEST_F(Words, WhyFollowsStateUnitsAndEdits) {
  open("two-car-garage");
  WhyPanel why(bench());
  why.show();
  const std::string key = "state/0/fan/0/inlet-flow";
  look.askWhy(QString::fromStdString(key));
  const std::string metric = why.shown().value;
  look.setUnits(base::UnitSystem::Us);
  EXPECT_NE(why.shown().value, metric);
  EXPECT_THAT(why.shown().value, HasSubstr("cfm"));
  const std::string first = why.shown().value;
  look.setState(2);
  EXPECT_EQ(why.key().toStdString(), inState(key, 2));
  EXPECT_NE(why.shown().value, first);
  look.setState(0);
  // A colder day is another density, and another flow.
  shop::Air air = document.project().air;
  air.temperature = *base::Given<base::Temperature>::parse("-5 °C");
  ASSERT_TRUE(document.make(QStringLiteral("Colder"), shop::Edit(shop::SetAir{air})));
  live.waitUntilIdle();
  EXPECT_NE(why.shown().value, first);
  EXPECT_EQ(why.key().toStdString(), key);
}

TEST_F(Words, WhyOfAnEmptyShopAndOfNonsenseIsASentence) {
  WhyPanel why(bench());
  why.show();
  look.askWhy(QStringLiteral("nonsense"));
  EXPECT_FALSE(child<QTextBrowser>(&why, "explanation")->toPlainText().isEmpty());
  why.showList();
  EXPECT_TRUE(why.list().rows.empty());
}

TEST_F(Words, NumbersOfWhatIsPickedAreListed) {
  open("one-car-garage");
  WhyPanel why(bench());
  why.show();
  const auto all = why.list().rows.size() + why.list().left_out;
  look.select({document.project().machines.at(0).id});
  ASSERT_FALSE(why.list().rows.empty());
  EXPECT_LT(why.list().rows.size() + why.list().left_out, all);
  auto* table = child<QTableWidget>(&why, "numbers");
  table->setCurrentCell(0, 0);
  QTest::keyClick(table, Qt::Key_Return);
  EXPECT_EQ(why.key().toStdString(), why.list().rows.front().key);
}

TEST_F(Words, WordsAreSearchedAndLeft) {
  open("one-car-garage");
  WhyPanel why(bench());
  why.show();
  look.askWhy(QStringLiteral("air/density"));
  why.showWords();
  auto* search = child<QLineEdit>(&why, "search-words");
  QTest::keyClicks(search, "spins dust");
  auto* words = child<QTextBrowser>(&why, "words");
  EXPECT_THAT(words->toPlainText().toStdString(), HasSubstr("cyclone"));
  QTest::keyClicks(search, "zzz");
  EXPECT_THAT(words->toPlainText().toStdString(), HasSubstr("No word"));
  why.back();
  EXPECT_EQ(why.key(), QStringLiteral("air/density"));
  EXPECT_TRUE(child<QTextBrowser>(&why, "explanation")->isVisible());
}

TEST_F(Words, LabelsHeadersAndButtonsGetTheirWordsExplained) {
  QWidget all;
  auto* label = new QLabel(QStringLiteral("&Bore of the hose"), &all);
  auto* told = new QLabel(QStringLiteral("bore"), &all);
  told->setToolTip(QStringLiteral("its own"));
  auto* plain = new QLabel(QStringLiteral("name"), &all);
  auto* table = new QTableWidget(0, 1, &all);
  table->setHorizontalHeaderLabels({QStringLiteral("blast gate")});
  explainTerms(&all);
  EXPECT_THAT(label->toolTip().toStdString(), HasSubstr("inside diameter"));
  EXPECT_THAT(label->toolTip().toStdString(), HasSubstr("flexible"));
  EXPECT_EQ(told->toolTip(), "its own");
  EXPECT_TRUE(plain->toolTip().isEmpty());
  EXPECT_THAT(table->horizontalHeaderItem(0)->toolTip().toStdString(), HasSubstr("sliding plate"));
}

}  // namespace
}  // namespace kerfdraft::desk
