// Nothing is lost, and nothing that was given up comes back.
#include <QPushButton>
#include <QSettings>

#include "desk/output.h"
#include "window_story.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

using FilesStory = WindowStory;

std::string strips(const Window& window) {
  return window.stripText().toStdString();
}

TEST_F(FilesStory, WorkOfAProgramThatEndedComesBack) {
  const QString path = copyOf("one-car-garage.json");
  {
    auto killed = windowOn(path);
    rename(*killed, "Half done");
    killed->document().autosave();
    ASSERT_TRUE(exists(autosaveOf(path)));
    // It ends without being asked: nothing is saved, nothing is given up.
  }
  auto next = windowOn(path);
  EXPECT_EQ(next->document().project().setting.name, "Half done");
  EXPECT_TRUE(next->document().isUnsaved());
  EXPECT_TRUE(exists(autosaveOf(path)));
  EXPECT_THAT(strips(*next), HasSubstr("brought back"));
  next->document().undoStack().undo();
  EXPECT_NE(next->document().project().setting.name, "Half done");
  // Undone to what is saved: there is no work left to keep.
  EXPECT_FALSE(exists(autosaveOf(path)));
}

TEST_F(FilesStory, SavingUnderAnotherNameForgetsWhatWasKeptUnderTheOld) {
  const QString path = copyOf("one-car-garage.json");
  const QString other = folder.filePath(QStringLiteral("other.json"));
  auto window = windowOn(path);
  rename(*window, "Elsewhere");
  window->document().autosave();
  ASSERT_TRUE(exists(autosaveOf(path)));
  ASSERT_TRUE(window->saveTo(other)) << strips(*window);
  EXPECT_FALSE(exists(autosaveOf(path)));
  EXPECT_FALSE(exists(autosaveOf(other)));
  EXPECT_FALSE(window->document().isUnsaved());
  EXPECT_EQ(files::loadProject(other.toStdString())->setting.name, "Elsewhere");
  EXPECT_NE(files::loadProject(path.toStdString())->setting.name, "Elsewhere");
}

TEST_F(FilesStory, GivenUpForAnotherProjectItIsForgotten) {
  const QString path = copyOf("one-car-garage.json");
  const QString other = copyOf("two-car-garage.json", "two.json");
  auto window = windowOn(path);
  rename(*window, "Given up");
  window->document().autosave();
  ASSERT_TRUE(exists(autosaveOf(path)));
  ASSERT_TRUE(window->openFile(other));
  EXPECT_FALSE(exists(autosaveOf(path)));
  window->openFile(path);
  EXPECT_NE(window->document().project().setting.name, "Given up");
}

TEST_F(FilesStory, AnUnnamedShopIsOfferedAtTheNextStart) {
  {
    auto killed = window();
    rename(*killed, "Without a name");
    killed->document().autosave();
    auto beside = window();
    EXPECT_EQ(strips(*beside), "") << "a running window has it";
  }
  QString key;
  {
    auto next = window();
    EXPECT_THAT(strips(*next), HasSubstr("without a name"));
    for (const QFileInfo& file : QDir(unnamedFolder()).entryInfoList({QStringLiteral("*.autosave")})) {
      key = file.completeBaseName();
    }
    ASSERT_TRUE(next->strips().press(key, QStringLiteral("Bring it back")));
    EXPECT_EQ(next->document().project().setting.name, "Without a name");
    EXPECT_TRUE(next->document().isUnsaved());
    EXPECT_EQ(strips(*next), "");
    EXPECT_EQ(QDir(unnamedFolder()).entryList({QStringLiteral("*.autosave")}).size(), 1);
  }
  auto last = window();
  for (const QFileInfo& file : QDir(unnamedFolder()).entryInfoList({QStringLiteral("*.autosave")})) {
    key = file.completeBaseName();
  }
  ASSERT_TRUE(last->strips().press(key, QStringLiteral("Forget it")));
  EXPECT_EQ(QDir(unnamedFolder()).entryList({QStringLiteral("*.autosave")}).size(), 0);
  EXPECT_EQ(strips(*window()), "");
}

TEST_F(FilesStory, ABadFileIsSaidAndNothingIsLost) {
  const QString path = copyOf("one-car-garage.json");
  auto window = windowOn(path);
  rename(*window, "Still here");
  QFile bad(folder.filePath(QStringLiteral("bad.json")));
  ASSERT_TRUE(bad.open(QFile::WriteOnly));
  bad.write("{\"rooms\": [");
  bad.close();
  EXPECT_FALSE(window->openFile(bad.fileName()));
  EXPECT_NE(strips(*window), "");
  EXPECT_EQ(window->document().project().setting.name, "Still here");
  EXPECT_TRUE(window->document().isUnsaved());
  EXPECT_EQ(window->document().path().string(), path.toStdString());
}

TEST_F(FilesStory, ASecondWindowOnlyReads) {
  const QString path = copyOf("one-car-garage.json");
  auto first = windowOn(path);
  auto second = windowOn(path);
  EXPECT_FALSE(first->document().isReadOnly());
  ASSERT_TRUE(second->document().isReadOnly());
  EXPECT_TRUE(second->strips().has(QStringLiteral("read-only")));
  EXPECT_THAT(second->windowTitle().toStdString(), HasSubstr("only to read"));
  // Under a name of its own it can be changed, and the strip goes with its cause.
  ASSERT_TRUE(second->saveTo(folder.filePath(QStringLiteral("second.json"))));
  EXPECT_FALSE(second->document().isReadOnly());
  EXPECT_FALSE(second->strips().has(QStringLiteral("read-only")));
  // What the first one keeps is not the second one's to remove.
  rename(*first, "Mine");
  first->document().autosave();
  auto third = windowOn(path);
  third->startNew();
  EXPECT_TRUE(exists(autosaveOf(path)));
}

TEST_F(FilesStory, AChangeOnDiskIsSaidAndEitherSideCanWin) {
  const QString path = copyOf("one-car-garage.json");
  auto window = windowOn(path);
  const auto write_elsewhere = [&](const char* name) {
    shop::Project other = *files::loadProject(path.toStdString());
    other.setting.name = name;
    ASSERT_TRUE(files::saveProject(other, path.toStdString()));
  };
  const auto said = [&] { return window->strips().has(QStringLiteral("disk")); };
  // Its own save is nobody else's.
  rename(*window, "Own");
  ASSERT_TRUE(window->document().save());
  QTest::qWait(800);
  EXPECT_FALSE(said());

  write_elsewhere("Theirs");
  ASSERT_TRUE(QTest::qWaitFor(said, 5000));
  EXPECT_EQ(window->document().project().setting.name, "Own");
  ASSERT_TRUE(window->strips().press(QStringLiteral("disk"), QStringLiteral("Read it anew")));
  EXPECT_EQ(window->document().project().setting.name, "Theirs");
  EXPECT_FALSE(window->document().isUnsaved());
  EXPECT_FALSE(said());

  rename(*window, "Mine again");
  write_elsewhere("Theirs again");
  ASSERT_TRUE(QTest::qWaitFor(said, 5000)) << "a file that was replaced is watched still";
  ASSERT_TRUE(window->strips().press(QStringLiteral("disk"), QStringLiteral("Keep mine")));
  EXPECT_EQ(window->document().project().setting.name, "Mine again");
  EXPECT_TRUE(window->document().isUnsaved());
  ASSERT_TRUE(window->document().save());
  EXPECT_EQ(files::loadProject(path.toStdString())->setting.name, "Mine again");

  ASSERT_TRUE(QFile::remove(path));
  ASSERT_TRUE(QTest::qWaitFor(said, 5000));
  EXPECT_THAT(strips(*window), HasSubstr("removed"));
  window->strips().press(QStringLiteral("disk"), QStringLiteral("Read it anew"));
  EXPECT_TRUE(said()) << "the cause is still there";
  EXPECT_EQ(window->document().project().setting.name, "Mine again");
}

TEST_F(FilesStory, WhatIsSavedAsAPictureIsWhatIsSeen) {
  auto window = windowOn(copyOf("two-car-garage.json"));
  const auto plan = sheetOf(window->bench());
  ASSERT_TRUE(plan.has_value());
  window->look().setIsometric(true);
  const auto space = sheetOf(window->bench());
  ASSERT_TRUE(space.has_value());
  EXPECT_NE(plan->title, space->title);
  for (const char* name : {"a.svg", "a.pdf", "a.png"}) {
    const std::filesystem::path file = folder.filePath(QString::fromLatin1(name)).toStdString();
    ASSERT_TRUE(savePicture(*space, file)) << name;
    EXPECT_GT(std::filesystem::file_size(file), 1000U) << name;
  }
  EXPECT_FALSE(savePicture(*space, folder.filePath(QStringLiteral("a.txt")).toStdString()));
  // A change that is not solved yet is not drawn with the result of before.
  rename(*window, "Another name");
  EXPECT_FALSE(sheetOf(window->bench()).has_value());
  window->live().waitUntilIdle();
  EXPECT_TRUE(sheetOf(window->bench()).has_value());
  const std::filesystem::path page = folder.filePath(QStringLiteral("a.html")).toStdString();
  ASSERT_TRUE(saveReport(window->bench(), page, "2026-01-15"));
  EXPECT_THAT(*files::readFile(page, 100U << 20U), HasSubstr("Another name"));
}

TEST_F(FilesStory, ForWhomTheWindowSpeaksIsKeptForTheNextWindow) {
  EXPECT_EQ(window()->look().reader(), judge::Reader::Owner);
  for (const judge::Reader reader :
       {judge::Reader::Inspector, judge::Reader::Adviser, judge::Reader::Owner}) {
    auto first = window();
    first->look().setReader(reader);
    first->close();
    EXPECT_EQ(window()->look().reader(), reader);
  }
  QSettings().setValue(QStringLiteral("reader"), QStringLiteral("nobody"));
  EXPECT_EQ(window()->look().reader(), judge::Reader::Owner);
  QSettings().clear();
}

TEST_F(FilesStory, TextSizeAndDarkAreKeptForTheNextWindow) {
  {
    auto first = window();
    ASSERT_EQ(first->textFactor(), 1);
    QTest::keyClick(first.get(), Qt::Key_Plus, Qt::ControlModifier);
    QTest::keyClick(first.get(), Qt::Key_F8);
    EXPECT_EQ(first->look().tones(), paint::Tones::Dark);
    first->close();
  }
  auto second = window();
  EXPECT_GT(second->textFactor(), 1.05);
  EXPECT_EQ(second->look().tones(), paint::Tones::Dark);
  QTest::keyClick(second.get(), Qt::Key_Minus, Qt::ControlModifier);
  EXPECT_NEAR(second->textFactor(), 1, 1e-9);
  QSettings().clear();
}

TEST_F(FilesStory, WithTheLargestTextTheWindowStillFitsTheScreen) {
  auto large = windowOn(copyOf("two-car-garage.json"));
  for (int k = 0; k < 20; ++k) {
    QTest::keyClick(large.get(), Qt::Key_Plus, Qt::ControlModifier);
  }
  ASSERT_GT(large->textFactor(), 1.4);
  QCoreApplication::processEvents();
  constexpr int kUsualScreen_px = 1366;
  EXPECT_LE(large->minimumSizeHint().width(), kUsualScreen_px);
  QSettings().clear();
}

TEST_F(FilesStory, AnEmptyShopBeginsWithAViewAsLargeAsARoom) {
  auto fresh = window();
  for (QPushButton* button : fresh->findChildren<QPushButton*>()) {
    if (button->text() == QStringLiteral("Draw the room yourself")) {
      button->click();
    }
  }
  QCoreApplication::processEvents();
  ASSERT_TRUE(fresh->canvas().isVisible());
  EXPECT_GT(fresh->canvas().view().px_per_m, 40) << "eight metres fill the canvas";
}

}  // namespace
}  // namespace kerfdraft::desk
