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
  QApplication::setApplicationName(QStringLiteral("kerfdraft"));
  paint::loadFonts();
  auto catalogue = catalogue::Catalogue::shipped();
  if (!catalogue) {
    std::cerr << catalogue.error().text() << "\n";
    return 2;
  }
  desk::Window window(std::make_shared<const catalogue::Catalogue>(std::move(*catalogue)));
  window.show();
  const QStringList arguments = QApplication::arguments();
  if (arguments.size() > 1) {
    const auto opened = window.document().open(arguments[1].toStdString());
    if (!opened) {
      for (const base::Error& error : opened.error()) {
        std::cerr << error.text() << "\n";
      }
      return 2;
    }
    window.look().setUnits(window.document().project().setting.units);
  }
  QTimer::singleShot(0, &window, [&window] { window.canvas().showAll(); });
  return QApplication::exec();
}
