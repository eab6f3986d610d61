// Widgets without a screen.
#include <gtest/gtest.h>

#include <QApplication>

#include "paint/painter.h"

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  ::testing::InitGoogleTest(&argc, argv);
  QApplication application(argc, argv);
  kerfdraft::paint::loadFonts();
  return RUN_ALL_TESTS();
}
