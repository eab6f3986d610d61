// Pictures need an application object for fonts; offscreen, so that no display is asked for.
#include <gtest/gtest.h>

#include <QGuiApplication>

#include "paint/painter.h"

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QGuiApplication application(argc, argv);
  testing::InitGoogleTest(&argc, argv);
  if (!kerfdraft::paint::loadFonts()) {
    return 1;
  }
  return RUN_ALL_TESTS();
}
