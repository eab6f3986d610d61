// A real window on a copy of an example, in a folder that goes with the test.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>
#include <filesystem>
#include <memory>

#include "catalogue/catalogue.h"
#include "desk/window.h"
#include "files/save.h"

namespace kerfdraft::desk {

class WindowStory : public ::testing::Test {
 protected:
  void SetUp() override {
    ASSERT_TRUE(folder.isValid());
    QDir(unnamedFolder()).removeRecursively();
  }

  static const std::shared_ptr<const catalogue::Catalogue>& catalogue() {
    static const auto kShipped =
        std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
    return kShipped;
  }
  static QString unnamedFolder() { return QStandardPaths::writableLocation(QStandardPaths::AppDataLocation); }
  /// A copy of an example that may be written to.
  QString copyOf(const char* example, const char* as = "shop.json") const {
    const QString to = folder.filePath(QString::fromLatin1(as));
    QFile::copy(QString::fromLatin1(KERFDRAFT_SOURCE_DIR "/examples/") + QLatin1String(example), to);
    QFile::setPermissions(to, QFile::ReadOwner | QFile::WriteOwner);
    return to;
  }
  static std::unique_ptr<Window> window() {
    auto out = std::make_unique<Window>(catalogue());
    out->resize(1360, 860);
    out->show();
    QCoreApplication::processEvents();
    return out;
  }
  std::unique_ptr<Window> windowOn(const QString& path) const {
    auto out = window();
    EXPECT_TRUE(out->openFile(path)) << out->stripText().toStdString();
    out->live().waitUntilIdle();
    return out;
  }
  /// A change that the panels could make: the shop's name.
  static void rename(Window& window, const char* name) {
    shop::Setting setting = window.document().project().setting;
    setting.name = name;
    shop::Project project = window.document().project();
    project.setting = setting;
    window.document().replace(QStringLiteral("Rename"), project);
  }
  static bool exists(const std::filesystem::path& path) { return std::filesystem::exists(path); }
  static std::filesystem::path autosaveOf(const QString& path) {
    return files::autosavePath(path.toStdString());
  }

  QTemporaryDir folder;
};

}  // namespace kerfdraft::desk
