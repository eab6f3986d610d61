// Hands that do anything in any order, on every tool: the project stays whole, undo leads back to the
// start, Escape leaves nothing half done.
#include <gtest/gtest.h>

#include <QApplication>
#include <QImage>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <array>
#include <random>

#include "catalogue/catalogue.h"
#include "desk/canvas.h"
#include "desk/models/machine_list.h"
#include "desk/parts.h"
#include "desk/tools/sketching.h"
#include "files/save.h"
#include "shop/invariants.h"

namespace kerfdraft::desk {
namespace {

constexpr int kEvents = 650;  ///< in each sequence

/// What Qt complains about is a fault of ours.
QStringList& complaints() {
  static QStringList list;
  return list;
}
void note(QtMsgType type, const QMessageLogContext& /*where*/, const QString& text) {
  // A platform without a screen says so about several things that do not concern us.
  if (type != QtDebugMsg && type != QtInfoMsg && !text.contains(QStringLiteral("This plugin"))) {
    complaints() << text;
  }
}

struct Start {
  const char* shop;  ///< an example; empty: a shop without anything
  unsigned seed;
};

class RandomHands : public ::testing::TestWithParam<Start> {
 protected:
  std::shared_ptr<const catalogue::Catalogue> catalogue =
      std::make_shared<const catalogue::Catalogue>(*catalogue::Catalogue::shipped());
  Document document;
  Look look;
  Live live{catalogue};
  Canvas canvas{Bench{document, look, live, catalogue}};
  QObject owner;
  std::vector<ToolPart> tools;
  std::vector<Offer> offered;
  std::mt19937 random;
  QPointF pointer{300, 300};
  bool pressed = false;
  std::string last;  ///< what the hand did last

  void SetUp() override {
    complaints().clear();
    qInstallMessageHandler(note);
    random.seed(GetParam().seed);
    if (*GetParam().shop == 0) {
      document.startNew({});
    } else {
      auto read =
          files::loadProject(std::string(KERFDRAFT_SOURCE_DIR) + "/examples/" + GetParam().shop + ".json");
      ASSERT_TRUE(read.has_value());
      const std::filesystem::path plan(std::string(KERFDRAFT_SOURCE_DIR) +
                                       "/tests/published/vectors/plan.dxf");
      look.sheet().want(plan);
      look.sheet().waitUntilRead();
      read->underlay = *laidUnder(*read, plan.string(), look.sheet().content()->size());
      document.startNew(*read);
    }
    tools = makeTools({document, look, live, catalogue}, &owner);
    offered = *offers(document.project(), *catalogue, {}, "", base::UnitSystem::Us);
    canvas.resize(900, 640);
    canvas.showAll();
    live.request(document.snapshot(), {});
    live.waitUntilIdle();
    canvas.take(tools.front().tool);
  }
  void TearDown() override {
    canvas.take(nullptr);
    qInstallMessageHandler(nullptr);
  }

  int upTo(int below) { return std::uniform_int_distribution<int>(0, below - 1)(random); }
  bool once(int in) { return upTo(in) == 0; }

  void mouse(QEvent::Type type, Qt::MouseButton button, Qt::MouseButtons buttons,
             Qt::KeyboardModifiers keys = {}) {
    QMouseEvent event(type, pointer, pointer, button, buttons, keys);
    QApplication::sendEvent(&canvas, &event);
  }
  void key(int which, const QString& text = {}, Qt::KeyboardModifiers keys = {}) {
    QKeyEvent event(QEvent::KeyPress, which, keys, text);
    QApplication::sendEvent(&canvas, &event);
    if (!once(40)) {  // now and then it comes up elsewhere
      QKeyEvent up(QEvent::KeyRelease, which, keys, text);
      QApplication::sendEvent(&canvas, &up);
    }
  }
  void type(const QString& words) {
    for (const QChar c : words) {
      const QChar upper = c.toUpper();
      key(upper.unicode() < 0x80 ? upper.unicode() : 0, c);
    }
  }
  Qt::KeyboardModifiers someModifiers() {
    return once(5) ? Qt::ShiftModifier : once(8) ? Qt::AltModifier : Qt::NoModifier;
  }

  /// Where there is something to hit, most often.
  void aim() {
    const shop::Project& project = document.project();
    std::vector<QPointF> places;
    for (const shop::Machine& machine : project.machines) {
      places.push_back(canvas.view().toPx(machine.at));
      for (const shop::Port& port : machine.ports) {
        places.push_back(canvas.view().toPx(port.at));
      }
    }
    for (const shop::Duct& duct : project.ducts) {
      for (const shop::Corner& corner : duct.corners) {
        places.push_back(canvas.view().toPx(corner.at));
      }
    }
    for (const shop::Collector& each : project.collectors) {
      places.push_back(canvas.view().toPx(each.at));
    }
    for (const shop::Room& room : project.rooms) {
      for (const shop::PlanPoint& corner : room.outline) {
        places.push_back(canvas.view().toPx(corner));
      }
    }
    if (!places.empty() && !once(3)) {
      const auto any = [&] {
        return places[static_cast<std::size_t>(upTo(static_cast<int>(places.size())))];
      };
      // On a thing, or half way between two.
      pointer = once(2) ? any() : (any() + any()) / 2;
      pointer += QPointF(upTo(9) - 4, upTo(9) - 4);
    } else {
      pointer = QPointF(upTo(canvas.width()), upTo(canvas.height()));
    }
  }
  void hover() {
    aim();
    mouse(QEvent::MouseMove, Qt::NoButton, pressed ? Qt::LeftButton : Qt::NoButton, someModifiers());
  }
  void press() {
    mouse(QEvent::MouseButtonPress, Qt::LeftButton, Qt::LeftButton, someModifiers());
    pressed = true;
  }
  void letGo() {
    mouse(QEvent::MouseButtonRelease, Qt::LeftButton, Qt::NoButton, someModifiers());
    pressed = false;
  }
  void click() {
    hover();
    press();
    letGo();
  }
  void typeSomething() {
    static constexpr std::array kWords{
        "3.2 m",     "10 ft 6",    "20 ft x 24 ft", "6 x 8 m",     "height 9 ft", "bottom 2 m",
        "bore 5 in", "bore wide",  "height",        "12",          "-3 m",        "1e308 ft",
        "0 m",       "window",     "grille",        "area 0.2 m2", "exhaust",     "flow 300 cfm",
        "open",      "wide 0.9 m", "door",          "crack",       "nan m",       "inf ft x 3 ft",
        "9999999 m", "4 ft",       "hose",          "45",          "x",           "height 1e300 m",
        "🪚 ft",     "1/0 in",     "3/4 in",        "spiral",      "wide 0 in",   "0.000001 mm",
        "square",    "turn 5",     "turn",          "hide",        "show",        "free",
        "free xyz",  "outdoors",   "indoors",       "outlet",      "5 in",        "7 ft high"};
    const char* words = kWords[static_cast<std::size_t>(upTo(static_cast<int>(kWords.size())))];
    last += std::string(" \"") + words + "\"";
    type(QString::fromUtf8(words));
    if (!once(6)) {
      key(Qt::Key_Return);
    }
  }
  void pressSomeKey() {
    static constexpr std::array kKeys{Qt::Key_Tab,    Qt::Key_Backtab, Qt::Key_Delete, Qt::Key_Backspace,
                                      Qt::Key_Return, Qt::Key_Escape,  Qt::Key_Left,   Qt::Key_Right,
                                      Qt::Key_Up,     Qt::Key_Down,    Qt::Key_R,      Qt::Key_Plus,
                                      Qt::Key_Minus};
    const Qt::Key which = kKeys[static_cast<std::size_t>(upTo(static_cast<int>(kKeys.size())))];
    last += " " + std::to_string(which);
    key(which, which == Qt::Key_R ? QStringLiteral("r") : QString(), someModifiers());
  }
  void takeInHand() {
    DocumentIds ids(document);
    const Offer& offer = offered[static_cast<std::size_t>(upTo(static_cast<int>(offered.size())))];
    const auto taken = takeOffer(offer, document.project(), *catalogue, {}, {"1100 cfm", "8 in w.g.", "5 in"},
                                 look.units(), ids);
    ASSERT_TRUE(taken.has_value()) << offer.name << ": " << taken.error().text();
    InHand hand;
    hand.machine = taken->machine;
    hand.collector = taken->collector;
    look.setInHand(hand);
  }
  void paint() {
    QImage image(canvas.size(), QImage::Format_RGB32);
    QPainter painter(&image);
    canvas.paintAll(painter);
  }

  void doAnything() {
    const int what = upTo(100);
    if (what < 12) {
      const ToolPart& part = tools[static_cast<std::size_t>(upTo(static_cast<int>(tools.size())))];
      last = "take " + part.tool->key().toStdString();
      canvas.take(part.tool);
    } else if (what < 50) {
      last = "click";
      click();
    } else if (what < 58) {
      last = "drag";
      hover();
      press();
      for (int k = 0; k < 3; ++k) {
        hover();
        if (once(12)) {
          last += " undo in it";
          document.undoStack().undo();
        }
      }
      if (once(4)) {
        last += " escape in it";
        key(Qt::Key_Escape);
      }
      if (!once(8)) {
        letGo();
      }
    } else if (what < 62) {
      last = "double click";
      hover();
      mouse(QEvent::MouseButtonDblClick, Qt::LeftButton, Qt::LeftButton);
      letGo();
    } else if (what < 72) {
      last = "type";
      typeSomething();
    } else if (what < 84) {
      last = "key";
      pressSomeKey();
    } else if (what < 88) {
      last = "undo or redo";
      once(2) ? document.undoStack().undo() : document.undoStack().redo();
    } else if (what < 92) {
      last = "take in hand";
      takeInHand();
    } else if (what < 94) {
      last = "units and tones";
      look.setUnits(once(2) ? base::UnitSystem::Us : base::UnitSystem::Metric);
      look.setTones(once(2) ? paint::Tones::Light : paint::Tones::Dark);
    } else if (what < 95) {
      last = "turned view";
      look.setIsometric(!look.isometric());
    } else if (what < 96) {
      last = "everything in sight";
      look.setIsometric(false);
      canvas.showAll();
    } else if (what < 97) {
      last = "solve";
      live.request(document.snapshot(), look.trial());
      live.waitUntilIdle();
    } else if (what < 99) {
      last = "paint";
      paint();
    } else {
      last = "pick gone and present things";
      look.select({base::Id(4711),
                   document.project().machines.empty() ? base::Id(1) : document.project().machines[0].id});
    }
    last += " with " + canvas.tool()->key().toStdString();
  }

  void leaveWithEscape() {
    for (int k = 0; k < 4; ++k) {
      key(Qt::Key_Escape);
    }
    const auto then = document.snapshot();
    const QString hint = canvas.tool()->hint();
    letGo();
    hover();
    key(Qt::Key_Return);
    EXPECT_EQ(*then, document.project()) << "something was still half done after: " << last;
    Tool* tool = canvas.tool();
    canvas.take(nullptr);
    canvas.take(tool);
    EXPECT_EQ(hint, tool->hint()) << "the tool still waited for something after: " << last;
  }
};

TEST_P(RandomHands, KeepTheProjectWholeAndUndoLeadsBack) {
  const auto start = document.snapshot();
  ASSERT_TRUE(shop::checkProject(*start).empty());
  auto seen = start;
  int changes = 0;
  for (int k = 0; k < kEvents; ++k) {
    doAnything();
    if (document.snapshot() != seen) {
      seen = document.snapshot();
      ++changes;
      const auto problems = shop::checkProject(*seen);
      ASSERT_TRUE(problems.empty()) << "event " << k << ", " << last << ": " << problems.front().text();
    }
    if (once(25)) {
      leaveWithEscape();
    }
    ASSERT_TRUE(complaints().isEmpty())
        << "event " << k << ", " << last << ": " << complaints().join(u'\n').toStdString();
    ASSERT_FALSE(HasFailure()) << "event " << k << ", " << last;
  }
  EXPECT_GT(changes, kEvents / 20) << "the hands did next to nothing";
  leaveWithEscape();
  const auto end = document.snapshot();
  const int steps = document.undoStack().index();  // some of the last ones may be undone already
  while (document.undoStack().canUndo()) {
    document.undoStack().undo();
  }
  EXPECT_EQ(*start, document.project());
  document.undoStack().setIndex(steps);
  EXPECT_EQ(*end, document.project());
}

INSTANTIATE_TEST_SUITE_P(Shops, RandomHands,
                         ::testing::Values(Start{"", 8}, Start{"", 9}, Start{"two-car-garage", 3},
                                           Start{"two-car-garage", 4}, Start{"moved-hose", 5},
                                           Start{"moved-hose", 6}),
                         [](const auto& each) { return "seed" + std::to_string(each.param.seed); });

}  // namespace
}  // namespace kerfdraft::desk
