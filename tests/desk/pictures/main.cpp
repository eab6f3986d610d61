// Paints the real window, without a screen, in the situations that the documents show.
//   desk_pictures EXAMPLES_FOLDER OUT_FOLDER [NAME ...]
#include <QApplication>
#include <QDir>
#include <QPixmap>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>
#include <array>
#include <functional>
#include <iostream>
#include <string>
#include <vector>

#include "desk/models/trial.h"
#include "desk/window.h"
#include "paint/painter.h"

namespace {

using namespace kerfdraft;

/// One picture: what is opened, how it is looked at, and what is done before it is taken.
struct Scene {
  std::string name;
  std::string example;  ///< empty: the window as it first opens
  base::UnitSystem units = base::UnitSystem::Us;
  paint::Tones tones = paint::Tones::Light;
  std::string panel;  ///< key of the side panel
  std::function<void(desk::Window&)> act;
};

void showState(desk::Window& window, const std::string& name) {
  const std::vector<shop::State>& states = window.document().project().states;
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (states[i].name == name) {
      window.look().setState(i);
      return;
    }
  }
  throw std::runtime_error("no state " + name);
}

void toggleGate(desk::Window& window, const std::string& label) {
  const shop::Project& project = window.document().project();
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& gate : duct.gates) {
      if (gate.label == label) {
        window.look().setTrial(desk::withGateToggled(
            desk::trialFrom(project, window.look().trial(), window.look().state(), window.document().newId()),
            gate.id));
        window.live().waitUntilIdle();
        window.look().setState(window.live().latest()->states() - 1);
        return;
      }
    }
  }
  throw std::runtime_error("no gate " + label);
}

/// An invented floor plan, and the room drawn over it.
void drawOver(desk::Window& window) {
  shop::Project project;
  project.setting.name = "Invented shop";
  project.setting.units = base::UnitSystem::Metric;
  project.air.temperature = *base::Given<base::Temperature>::parse("20 °C");
  window.startWith(project, false);
  window.side().open(QStringLiteral("underlay"));
  window.look().offerUnderlay(std::string(KERFDRAFT_SOURCE_DIR) + "/tests/published/vectors/plan.dxf");
  window.look().sheet().waitUntilRead();
  QCoreApplication::processEvents();
  const shop::Underlay& underlay = *window.document().project().underlay;
  shop::Room room;
  room.id = window.document().newId();
  room.label = "R1";
  room.height = *base::Given<base::Length>::parse("2.6 m");
  for (const desk::SheetPoint& corner : {desk::SheetPoint{512000, 48000}, desk::SheetPoint{519300, 48000},
                                         desk::SheetPoint{519300, 54100}, desk::SheetPoint{512000, 54100}}) {
    room.outline.push_back(desk::toShop(underlay, corner));
  }
  if (!window.document().make(QStringLiteral("Draw room R1"), shop::Edit(shop::PutRoom{room}))) {
    throw std::runtime_error("no room");
  }
}

std::vector<Scene> scenes() {
  using base::UnitSystem;
  using paint::Tones;
  return {
      {"window-start", "", UnitSystem::Us, Tones::Light, "", [](desk::Window& w) { w.start().showPage(1); }},
      {"window-verdict", "two-car-garage.json", UnitSystem::Us, Tones::Light, "findings",
       [](desk::Window& w) { showState(w, "Planer alone"); }},
      {"window-trial", "two-car-garage.json", UnitSystem::Metric, Tones::Dark, "charts",
       [](desk::Window& w) {
         showState(w, "Planer and lathe together");
         toggleGate(w, "G8");
       }},
      {"window-why", "one-car-garage.json", UnitSystem::Us, Tones::Dark, "why",
       [](desk::Window& w) { w.look().askWhy(QStringLiteral("state/0/run/1/slowest")); }},
      {"window-machines", "small-joinery.json", UnitSystem::Metric, Tones::Light, "machines", nullptr},
      {"window-underlay", "", UnitSystem::Metric, Tones::Light, "underlay", drawOver},
      {"window-space", "basement-studio.json", UnitSystem::Us, Tones::Light, "fan",
       [](desk::Window& w) { w.look().setIsometric(true); }},
  };
}

bool take(const Scene& scene, const QString& examples, const QString& out,
          const std::shared_ptr<const catalogue::Catalogue>& catalogue) {
  desk::Window window(catalogue);
  window.resize(1360, 860);
  window.show();
  QCoreApplication::processEvents();
  if (!scene.example.empty() &&
      !window.openFile(QDir(examples).filePath(QString::fromStdString(scene.example)))) {
    std::cerr << scene.name << ": " << window.stripText().toStdString() << "\n";
    return false;
  }
  window.look().setUnits(scene.units);
  window.look().setTones(scene.tones);
  window.live().waitUntilIdle();
  if (scene.act) {
    scene.act(window);
  }
  if (!scene.panel.empty() && !window.side().open(QString::fromStdString(scene.panel))) {
    std::cerr << scene.name << ": no panel " << scene.panel << "\n";
    return false;
  }
  window.live().waitUntilIdle();
  window.canvas().showAll();
  QTest::qWait(400);            // the canvas places its labels anew once it rests
  constexpr int kSmallest = 0;  // as hard as PNG packs
  return window.grab().save(QDir(out).filePath(QString::fromStdString(scene.name + ".png")), "PNG",
                            kSmallest);
}

}  // namespace

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QStandardPaths::setTestModeEnabled(true);
  // Neither the person's settings in the pictures, nor these in the person's settings.
  const QTemporaryDir settings;
  QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings.path());
  QApplication application(argc, argv);
  const QStringList arguments = QApplication::arguments();
  if (arguments.size() < 3) {
    std::cerr << "desk_pictures EXAMPLES_FOLDER OUT_FOLDER [NAME ...]\n";
    return 2;
  }
  paint::loadFonts();
  auto shipped = catalogue::Catalogue::shipped();
  if (!shipped) {
    std::cerr << shipped.error().text() << "\n";
    return 2;
  }
  const auto catalogue = std::make_shared<const catalogue::Catalogue>(std::move(*shipped));
  bool good = true;
  for (const Scene& scene : scenes()) {
    if (arguments.size() == 3 || arguments.contains(QString::fromStdString(scene.name))) {
      good = take(scene, arguments[1], arguments[2], catalogue) && good;
    }
  }
  return good ? 0 : 1;
}
