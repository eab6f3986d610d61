// The window: canvas in the middle, tools beside it, panels round it, one line that says what is expected
// next.
#pragma once

#include <QAction>
#include <QCloseEvent>
#include <QLabel>
#include <QMainWindow>
#include <QTimer>
#include <QToolBar>
#include <memory>
#include <vector>

#include "desk/bench.h"
#include "desk/canvas.h"
#include "desk/side_column.h"

namespace kerfdraft::desk {

class Window : public QMainWindow {
  Q_OBJECT

 public:
  explicit Window(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent = nullptr);
  ~Window() override;

  Bench bench() { return {document_, look_, live_, catalogue_}; }
  Canvas& canvas() { return *canvas_; }
  Document& document() { return document_; }
  Look& look() { return look_; }
  Live& live() { return live_; }
  SideColumn& side() { return *side_; }

  /// Opens a file; what is wrong with it is said in the strip above the canvas. False where it is not opened.
  bool openFile(const QString& path);
  /// Takes a tool by its key ("duct"); false where there is none.
  bool takeTool(const QString& key);
  /// What the strip above the canvas says; empty where it is hidden.
  QString stripText() const;

 protected:
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void makeTools();
  void makeMenus();
  void makePanels();
  void say(const QString& sentence);
  void showTitle();
  void paintTones();
  bool save();
  bool saveAs();
  bool mayLoseChanges();
  void exportPicture();
  void exportPlan(const QString& path);

  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  Document document_;
  Look look_;
  Live live_;
  Canvas* canvas_ = nullptr;
  SideColumn* side_ = nullptr;
  QToolBar* tool_bar_ = nullptr;
  QLabel* strip_ = nullptr;
  QLabel* place_ = nullptr;
  QLabel* working_ = nullptr;
  std::vector<std::pair<Tool*, QAction*>> tools_;
  QTimer strip_rests_;
  QTimer autosave_;
};

}  // namespace kerfdraft::desk
