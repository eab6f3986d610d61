// An underlay from the file to the canvas: chosen in its panel, scaled and dragged by its tool, kept by the
// project.
#include <QCheckBox>
#include <QLabel>
#include <QListWidget>
#include <QMouseEvent>
#include <QSlider>
#include <QTemporaryDir>
#include <filesystem>

#include "desk/canvas.h"
#include "desk/panels/underlay_panel.h"
#include "desk/tools/underlay_tool.h"
#include "panel_hand.h"
#include "support/projects.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

class UnderThePlan : public PanelHand {
 protected:
  QTemporaryDir folder;
  std::unique_ptr<UnderlayPanel> panel;
  std::unique_ptr<UnderlayTool> tool;
  std::unique_ptr<Canvas> canvas;

  void SetUp() override {
    PanelHand::SetUp();
    support::ProjectBuilder builder;
    builder.room(8, 6, 3);
    document.startNew(builder.project);
    panel = std::make_unique<UnderlayPanel>(bench());
    canvas = std::make_unique<Canvas>(bench());
    canvas->resize(1000, 700);
    PlanView view;
    view.px_per_m = 80;
    view.origin_px = {60, 640};
    canvas->setView(view);
    tool = std::make_unique<UnderlayTool>(bench());
    canvas->take(tool.get());
  }
  void TearDown() override { canvas->take(nullptr); }

  std::filesystem::path inFolder(const char* name) const {
    return std::filesystem::path(folder.path().toStdString()) / name;
  }
  /// A picture of 800 by 600 pixels with a black line along its lower rim.
  std::filesystem::path sketch() const {
    QImage image(800, 600, QImage::Format_RGB32);
    image.fill(Qt::white);
    for (int x = 0; x < image.width(); ++x) {
      for (int y = 590; y < 600; ++y) {
        image.setPixel(x, y, qRgb(0, 0, 0));
      }
    }
    const auto path = inFolder("sketch.png");
    image.save(QString::fromStdString(path.string()));
    return path;
  }
  void choose(const std::filesystem::path& path) {
    panel->choose(path);
    look.sheet().waitUntilRead();
    QCoreApplication::processEvents();
  }
  QPointF px(double x_m, double y_m) const { return canvas->view().toPx(support::at(x_m, y_m, 0)); }
  void mouse(QEvent::Type type, QPointF at_px, Qt::MouseButton button, Qt::MouseButtons buttons) {
    QMouseEvent event(type, at_px, at_px, button, buttons, Qt::NoModifier);
    QApplication::sendEvent(canvas.get(), &event);
  }
  void drag(double x_m, double y_m, double to_x_m, double to_y_m, bool let_go = true) {
    mouse(QEvent::MouseButtonPress, px(x_m, y_m), Qt::LeftButton, Qt::LeftButton);
    if (x_m != to_x_m || y_m != to_y_m) {
      mouse(QEvent::MouseMove, px((x_m + to_x_m) / 2, (y_m + to_y_m) / 2), Qt::NoButton, Qt::LeftButton);
      mouse(QEvent::MouseMove, px(to_x_m, to_y_m), Qt::NoButton, Qt::LeftButton);
    }
    if (let_go) {
      mouse(QEvent::MouseButtonRelease, px(to_x_m, to_y_m), Qt::LeftButton, Qt::NoButton);
    }
  }
  void click(double x_m, double y_m) { drag(x_m, y_m, x_m, y_m); }
  void type(const char* words) {
    QTest::keyClicks(canvas.get(), QString::fromUtf8(words));
    QTest::keyClick(canvas.get(), Qt::Key_Return);
  }
  /// The darkest within three pixels: a line may lie beside the middle of a pixel.
  int darkestAt(double x_m, double y_m) {
    constexpr double kBeside_m = 1.0 / 80;
    int out = 255;
    for (int k = -3; k <= 3; ++k) {
      out = std::min(out, seenAt(x_m + k * kBeside_m, y_m).lightness());
    }
    return out;
  }
  QColor seenAt(double x_m, double y_m) {
    QImage image(canvas->size(), QImage::Format_ARGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    canvas->paintAll(painter);
    return image.pixelColor(px(x_m, y_m).toPoint());
  }
};

TEST_F(UnderThePlan, APictureIsSeenScaledAndUndone) {
  const shop::Project before = project();
  choose(sketch());
  ASSERT_TRUE(project().underlay) << panel->said().toStdString();
  EXPECT_EQ(tool_asked, "underlay");
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("not known yet"));
  // As long as the room: its black rim lies along the room's south wall.
  const QColor rim = seenAt(4.03, 0.05);
  EXPECT_LT(rim.lightness(), 200);
  EXPECT_GT(seenAt(4.03, 3.03).lightness(), 230);
  // Two places 8 m apart on it are only 4 m apart.
  click(0, 3);
  EXPECT_TRUE(tool->first());
  click(8, 3);
  type("4 m");
  ASSERT_TRUE(project().underlay->unit);
  EXPECT_NEAR(project().underlay->unit->si(), 4.0 / 800, 1e-6);
  EXPECT_FALSE(tool->first());
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("two known points"));
  undo();
  undo();
  EXPECT_EQ(project(), before);
}

TEST_F(UnderThePlan, ADragIsOneStepAndEscapeTakesItBack) {
  choose(sketch());
  const shop::Underlay laid = *project().underlay;
  const int steps = document.undoStack().index();
  drag(2, 2, 3, 2.5);
  EXPECT_EQ(document.undoStack().index(), steps + 1);
  EXPECT_NEAR(static_cast<double>(project().underlay->at.x_um - laid.at.x_um), 1e6, 2e4);
  undo();
  EXPECT_EQ(*project().underlay, laid);
  drag(2, 2, 3, 2.5, false);
  QTest::keyClick(canvas.get(), Qt::Key_Escape);
  EXPECT_EQ(*project().underlay, laid);
  EXPECT_EQ(document.undoStack().index(), steps);
}

TEST_F(UnderThePlan, ItIsTurnedSquaredHiddenAndShown) {
  choose(sketch());
  type("turn 10");
  ASSERT_TRUE(project().underlay->turned);
  EXPECT_NEAR(project().underlay->turned->si(), 0.17453, 1e-4);
  click(1, 1);
  click(5, 1.7);
  type("square");
  EXPECT_NEAR(project().underlay->turned ? project().underlay->turned->si() : 0, 0.17453 - std::atan2(0.7, 4),
              5e-3);
  type("hide");
  EXPECT_TRUE(project().underlay->hidden);
  EXPECT_GT(seenAt(4.03, 0.05).lightness(), 200);
  type("show");
  EXPECT_FALSE(project().underlay->hidden);
  const shop::Underlay before = *project().underlay;
  type("wobble");
  EXPECT_THAT(tool->problem().toStdString(), HasSubstr("wobble"));
  QTest::keyClick(canvas.get(), Qt::Key_Escape);
  type("4 m");
  EXPECT_THAT(tool->problem().toStdString(), HasSubstr("two places"));
  EXPECT_EQ(*project().underlay, before);
}

TEST_F(UnderThePlan, LayersOfADrawingAreChosen) {
  choose(std::string(KERFDRAFT_SOURCE_DIR) + "/tests/published/vectors/plan.dxf");
  ASSERT_TRUE(project().underlay) << panel->said().toStdString();
  EXPECT_DOUBLE_EQ(project().underlay->unit->si(), 0.001);
  EXPECT_EQ(project().underlay->layers_off, std::vector<std::string>{"Old machines"}) << "off in the file";
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("Not shown"));
  auto* layers = named<QListWidget>(panel.get(), "Layers of the drawing");
  ASSERT_EQ(layers->count(), 4);
  // The wall that stands 2 m from the corner of the walls, as ink and not.
  const shop::PlanPoint wall = toShop(*project().underlay, {514000, 49000});
  const double east_m = static_cast<double>(wall.x_um) * 1e-6;
  const double north_m = static_cast<double>(wall.y_um) * 1e-6;
  const int dark = darkestAt(east_m, north_m);
  EXPECT_LT(dark, 190);
  for (int k = 0; k < layers->count(); ++k) {
    if (layers->item(k)->text().startsWith("Walls")) {
      layers->item(k)->setCheckState(Qt::Unchecked);
    }
  }
  EXPECT_EQ(project().underlay->layers_off, (std::vector<std::string>{"Old machines", "Walls"}));
  EXPECT_GT(darkestAt(east_m, north_m), dark + 20);
  undo();
  EXPECT_EQ(project().underlay->layers_off, std::vector<std::string>{"Old machines"});
}

TEST_F(UnderThePlan, WhatCannotBeReadIsSaidAndChangesNothing) {
  const shop::Project before = project();
  choose(inFolder("gone.dxf"));
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("gone.dxf"));
  const auto write = [&](const char* name, const QByteArray& bytes) {
    QFile file(QString::fromStdString(inFolder(name).string()));
    EXPECT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(bytes);
    return inFolder(name);
  };
  choose(write("broken.png", "\x89PNG\r\n and then nothing"));
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("broken.png"));
  choose(write("letter.txt", "Dear neighbour,\nthe dust was in the soup again.\n"));
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("letter.txt"));
  choose(write("empty.dxf", ""));
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("empty.dxf"));
  choose(folder.path().toStdString());
  EXPECT_FALSE(panel->said().isEmpty());
  EXPECT_EQ(project(), before);
  EXPECT_EQ(document.undoStack().count(), 0);
}

TEST_F(UnderThePlan, ItsFileIsFoundFromWhereverTheProjectIsSaved) {
  const auto picture = sketch();
  choose(picture);
  EXPECT_EQ(project().underlay->file, picture.generic_string()) << "a shop without a name has no folder";
  ASSERT_TRUE(document.saveAs(inFolder("shop.json")));
  EXPECT_EQ(project().underlay->file, "sketch.png");
  std::filesystem::create_directories(inFolder("below"));
  ASSERT_TRUE(document.saveAs(inFolder("below/shop.json")));
  EXPECT_EQ(std::filesystem::path(project().underlay->file), picture);
  undo();
  document.undoStack().redo();
  EXPECT_TRUE(std::filesystem::exists(document.besideProject(project().underlay->file)));
  ASSERT_TRUE(document.save());
  ASSERT_TRUE(document.open(inFolder("below/shop.json")));
  look.sheet().waitUntilRead();
  ASSERT_TRUE(look.sheet().content());
  EXPECT_TRUE(look.sheet().content()->ok()) << look.sheet().content()->problem;
  // It is gone: said, and the project stays as it is.
  std::filesystem::remove(picture);
  ASSERT_TRUE(document.open(inFolder("shop.json")));
  look.sheet().waitUntilRead();
  QCoreApplication::processEvents();
  EXPECT_THAT(panel->said().toStdString(), HasSubstr("sketch.png"));
  EXPECT_TRUE(project().underlay);
}

TEST_F(UnderThePlan, StrengthAndShowingAreSetInThePanel) {
  choose(sketch());
  auto* strength = named<QSlider>(panel.get(), "How strongly it is shown, in percent");
  const int before = seenAt(4.03, 0.05).lightness();
  strength->setValue(100);
  EXPECT_EQ(project().underlay->strength->text(), "100 %");
  EXPECT_LT(seenAt(4.03, 0.05).lightness(), before);
  panel->findChild<QCheckBox*>()->click();
  EXPECT_TRUE(project().underlay->hidden);
  press(panel.get(), "Take it away");
  EXPECT_FALSE(project().underlay);
  undo();
  EXPECT_TRUE(project().underlay);
}

}  // namespace
}  // namespace kerfdraft::desk
