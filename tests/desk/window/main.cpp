// Widgets without a screen, and nothing of the person's own settings.
#include <gtest/gtest.h>

#include <QApplication>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>

#include "paint/painter.h"

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QTemporaryDir home;
  qputenv("XDG_DATA_HOME", home.path().toUtf8());
  qputenv("XDG_CONFIG_HOME", home.path().toUtf8());
  QStandardPaths::setTestModeEnabled(true);
  QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, home.path());
  ::testing::InitGoogleTest(&argc, argv);
  QApplication application(argc, argv);
  QApplication::setOrganizationName(QStringLiteral("kerfdraft-window-test"));
  QApplication::setApplicationName(QStringLiteral("kerfdraft-window-test"));
  kerfdraft::paint::loadFonts();
  return RUN_ALL_TESTS();
}
