// Times of the window: from an edit to the picture painted without a screen, for shops of 20 and 100
// machines, and from an example's file to its first picture. Medians of so many repetitions.
//   desk_bench [EXAMPLE]
#include <QApplication>
#include <QElapsedTimer>
#include <QImage>
#include <QPainter>
#include <QStandardPaths>
#include <algorithm>
#include <cstdio>
#include <functional>
#include <vector>

#include "catalogue/catalogue.h"
#include "desk/window.h"
#include "files/save.h"
#include "paint/painter.h"
#include "pieces/starter.h"

namespace {

using namespace kerfdraft;

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

shop::Project shopOf(int machines, const catalogue::Catalogue& catalogue) {
  pieces::StarterRequest request;
  request.name = "Bench";
  request.width_m = 2.5 * machines + 10;
  request.depth_m = 8;
  request.height_m = 3;
  request.fan = "t5";
  for (int k = 0; k < machines; ++k) {
    request.machines.emplace_back(k % 3 == 0 ? "table-saw" : k % 3 == 1 ? "planer" : "band-saw");
  }
  base::SeededIds ids(1);
  auto project = pieces::starterProject(request, catalogue, ids);
  if (!project) {
    std::printf("%s\n", project.error().text().c_str());
    std::exit(2);
  }
  // As many states as a person keeps, not one for each machine.
  constexpr std::size_t kStates = 12;
  project->states.resize(std::min(project->states.size(), kStates));
  return *project;
}

void paintOnce(desk::Canvas& canvas, QImage& image) {
  QPainter painter(&image);
  canvas.paintAll(painter);
}

/// Lets the event loop run until a signal of `live` came that was not there before.
template <class Signal>
void waitFor(desk::Live& live, Signal signal, const std::function<void()>& act) {
  bool came = false;
  const auto connection = QObject::connect(&live, signal, [&] { came = true; });
  act();
  while (!came) {
    QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 5);
  }
  QObject::disconnect(connection);
}

/// Moves a machine to and fro; each time until the shown state is solved and the picture is painted.
void edits(int machines, const std::shared_ptr<const catalogue::Catalogue>& catalogue) {
  desk::Document document;
  desk::Look look;
  desk::Live live(catalogue);
  desk::Canvas canvas(desk::Bench{document, look, live, catalogue});
  canvas.resize(1200, 800);
  document.startNew(shopOf(machines, *catalogue));
  canvas.showAll();
  live.request(document.snapshot(), std::nullopt);
  live.waitUntilIdle();
  QImage image(1200, 800, QImage::Format_RGB32);
  paintOnce(canvas, image);
  // The two halves alone, with nothing solved beside them.
  std::vector<double> drawing;
  std::vector<double> painting;
  for (int n = 0; n < 5; ++n) {
    look.setState(n % 2 == 0 ? 1 : 0);
    QElapsedTimer clock;
    clock.start();
    canvas.picture();
    drawing.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
    clock.restart();
    paintOnce(canvas, image);
    painting.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
  }
  std::printf("%3d machines: drawing %.1f ms, painting %.1f ms\n", machines, median(drawing),
              median(painting));
  std::vector<double> to_picture;
  std::vector<double> to_air;
  std::vector<double> to_verdict;
  constexpr int kRepeats = 15;
  for (int n = 0; n < kRepeats; ++n) {
    const shop::Machine& machine = document.project().machines.front();
    shop::Point to = machine.at;
    to.y_um += n % 2 == 0 ? 10000 : -10000;
    QElapsedTimer clock;
    clock.start();
    const auto made = document.make("Move", shop::Edit(shop::MoveMachine{machine.id, to, machine.turned}));
    if (!made) {
      std::printf("%s\n", made.error().text().c_str());
      std::exit(2);
    }
    waitFor(live, &desk::Live::shown, [&] {
      live.request(document.snapshot(), std::nullopt, look.state());
      // The hand sees its edit at once, in the colours of the last result.
      paintOnce(canvas, image);
      to_picture.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
    });
    paintOnce(canvas, image);
    to_air.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
    live.waitUntilIdle();
    to_verdict.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
  }
  std::printf(
      "%3d machines, %zu states: edit to picture %.1f ms, to its air %.1f ms, to the verdict %.0f ms\n",
      machines, document.project().states.size(), median(to_picture), median(to_air), median(to_verdict));
}

void opening(const QString& example, const std::shared_ptr<const catalogue::Catalogue>& catalogue) {
  std::vector<double> times;
  constexpr int kRepeats = 5;
  for (int n = 0; n < kRepeats; ++n) {
    QElapsedTimer clock;
    clock.start();
    desk::Window window(catalogue);
    window.resize(1360, 860);
    window.show();
    if (!window.openFile(example)) {
      std::printf("%s\n", qPrintable(window.stripText()));
      std::exit(2);
    }
    bool solved = false;
    QObject::connect(&window.live(), &desk::Live::shown, [&] { solved = true; });
    while (!solved) {
      QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 5);
    }
    const QPixmap shown = window.grab();
    times.push_back(static_cast<double>(clock.nsecsElapsed()) * 1e-6);
  }
  std::printf("window with %s, air shown: %.0f ms\n", qPrintable(example), median(times));
}

}  // namespace

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QStandardPaths::setTestModeEnabled(true);
  QApplication application(argc, argv);
  paint::loadFonts();
  auto shipped = catalogue::Catalogue::shipped();
  if (!shipped) {
    std::printf("%s\n", shipped.error().text().c_str());
    return 2;
  }
  const auto catalogue = std::make_shared<const catalogue::Catalogue>(std::move(*shipped));
  edits(20, catalogue);
  edits(100, catalogue);
  if (argc > 1) {
    opening(QString::fromLocal8Bit(argv[1]), catalogue);
  }
  return 0;
}
