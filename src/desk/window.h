// The window: canvas in the middle, tools beside it, panels round it, one line that says what is expected
// next.
#pragma once

#include <QAction>
#include <QCloseEvent>
#include <QLabel>
#include <QMainWindow>
#include <QMenu>
#include <QStackedWidget>
#include <QTimer>
#include <QToolBar>
#include <memory>
#include <vector>

#include "desk/bench.h"
#include "desk/canvas.h"
#include "desk/keys_page.h"
#include "desk/models/change.h"
#include "desk/panels/start_panel.h"
#include "desk/side_column.h"
#include "desk/strips.h"

namespace kerfdraft::desk {

/// With Pick in hand, picking a thing opens the panel "thing", unless numbers are being read ("why" or
/// "charts" is open) or the person keeps the open panel (SideColumn::stays()). What asks for a panel by its
/// key always gets it.
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
  StartPanel& start() { return *start_; }
  Strips& strips() { return *strips_; }

  /// Opens a file; what is wrong with it is said in a strip above the canvas. False where it is not opened.
  bool openFile(const QString& path);
  /// Saves under a name; what refuses it is said in a strip.
  bool saveTo(const QString& path);
  /// An empty shop, with the first questions over the canvas.
  void startNew();
  /// A shop that has no file yet: an example, a starter, a recovered one.
  void startWith(const shop::Project& project, bool unsaved);
  /// Takes a tool by its key ("duct"); false where there is none.
  bool takeTool(const QString& key);
  const std::vector<std::pair<Tool*, QAction*>>& tools() const { return tools_; }
  /// What the strips above the canvas say; empty where there is none.
  QString stripText() const { return strips_->text(); }
  /// What the tool in hand expects next.
  QString hint() const { return hint_->text(); }
  /// What was refused last, as it stands over the canvas.
  QString refused() const { return bubble_->isVisibleTo(this) ? bubble_->text() : QString(); }
  /// Whether the first questions are asked.
  KeysPage& keysPage() { return *keys_; }
  bool asksFirst() const { return middle_->currentWidget() == start_; }
  /// What Tab goes through: canvas, side, states, and then the rest.
  std::vector<QWidget*> tabOrder() const;
  double textFactor() const { return text_factor_; }

 protected:
  bool focusNextPrevChild(bool next) override;
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  // window.cpp: parts and what connects them
  void makeTools();
  void makePanels();
  void connectParts();
  void solve();
  void showSolved();
  void showRefused(const QString& sentence);
  void showTitle();
  void setTextFactor(double factor);
  void readSettings();
  void writeSettings() const;
  // window_menus.cpp
  void makeMenus();
  void makeProjectMenu();
  void makeChangeMenu();
  void makeLookMenu();
  void showKeys();
  std::vector<KeyGroup> keyGroups() const;
  void change(const base::Result<Change>& change, std::set<base::Id> then_pick);
  // window_clipboard.cpp
  void copyPicked();
  void putCopied();
  // window_files.cpp
  bool save();
  bool saveAs();
  bool mayLoseChanges();
  void savePictureAs();
  void saveReportAs();
  void printSheet();
  void remember(const QString& path);
  void fillRecent();
  void offerForsaken();
  void showFileStrips();
  void showDiskStrip();
  void resetLook();

  std::shared_ptr<const catalogue::Catalogue> catalogue_;
  Document document_;
  Look look_;
  Live live_;
  Strips* strips_ = nullptr;
  QStackedWidget* middle_ = nullptr;
  Canvas* canvas_ = nullptr;
  StartPanel* start_ = nullptr;
  KeysPage* keys_ = nullptr;
  SideColumn* side_ = nullptr;
  QWidget* states_ = nullptr;
  QToolBar* tool_bar_ = nullptr;
  QMenu* recent_ = nullptr;
  QLabel* hint_ = nullptr;
  QLabel* place_ = nullptr;
  QLabel* working_ = nullptr;
  QLabel* bubble_ = nullptr;
  QTimer bubble_rests_;
  std::vector<std::pair<Tool*, QAction*>> tools_;
  double text_factor_ = 1;
  QTimer autosave_;
};

}  // namespace kerfdraft::desk
