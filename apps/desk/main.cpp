// kerfdraft-desk: the window.
#include <QApplication>
#include <QTimer>
#include <iostream>

#include "base/result.h"
#include "catalogue/catalogue.h"
#include "desk/window.h"
#include "paint/painter.h"

int main(int argc, char** argv) {
  using namespace kerfdraft;
  QApplication application(argc, argv);
  QApplication::setOrganizationName(QStringLiteral("kerfdraft"));
  QApplication::setApplicationName(QStringLiteral("kerfdraft"));
  paint::loadFonts();
  auto catalogue = catalogue::Catalogue::shipped();
  if (!catalogue) {
    std::cerr << catalogue.error().text() << "\n";
    return 2;
  }
  desk::Window window(std::make_shared<const catalogue::Catalogue>(std::move(*catalogue)));
  window.show();
  // Once the window has its size, so that everything comes into sight.
  QTimer::singleShot(0, &window, [&window] {
    const QStringList arguments = QApplication::arguments();
    if (arguments.size() > 1) {
      window.openFile(arguments[1]);
    }
  });
  return QApplication::exec();
}
