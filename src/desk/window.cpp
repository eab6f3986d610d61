// Puts the parts together; what each does is its own business.
#include "desk/window.h"

#include <QActionGroup>
#include <QApplication>
#include <QDockWidget>
#include <QDragEnterEvent>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QPalette>
#include <QStatusBar>
#include <QVBoxLayout>

#include "base/units.h"
#include "desk/panels/states_panel.h"
#include "desk/panels/why_panel.h"
#include "drawing/plan.h"
#include "drawing/style.h"
#include "drawing/svg.h"
#include "files/save.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::desk {
namespace {

constexpr int kStripRests_ms = 8000;
constexpr int kAutosave_ms = 30000;

QString placeText(const shop::PlanPoint& at, base::UnitSystem units) {
  const auto text = [&](std::int64_t um) {
    return QString::fromStdString(
        base::formatQuantity(base::Kind::Length, static_cast<double>(um) * 1e-6, units));
  };
  return Window::tr("east %1, north %2").arg(text(at.x_um), text(at.y_um));
}

}  // namespace

Window::Window(std::shared_ptr<const catalogue::Catalogue> catalogue, QWidget* parent)
    : QMainWindow(parent), catalogue_(std::move(catalogue)), live_(catalogue_) {
  auto* middle = new QWidget(this);
  auto* column = new QVBoxLayout(middle);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  strip_ = new QLabel(middle);
  strip_->setObjectName(QStringLiteral("strip"));
  strip_->setWordWrap(true);
  strip_->setMargin(6);
  strip_->setAutoFillBackground(true);
  strip_->setBackgroundRole(QPalette::ToolTipBase);
  strip_->setForegroundRole(QPalette::ToolTipText);
  strip_->hide();
  canvas_ = new Canvas(bench(), middle);
  column->addWidget(strip_);
  column->addWidget(canvas_, 1);
  setCentralWidget(middle);
  setAcceptDrops(true);

  working_ = new QLabel(this);
  place_ = new QLabel(this);
  statusBar()->addPermanentWidget(place_);
  statusBar()->addPermanentWidget(working_);
  makeTools();
  makeMenus();
  makePanels();

  const auto solve = [this] {
    working_->setText(tr("solving …"));
    live_.request(document_.snapshot(), look_.trial());
  };
  connect(&document_, &Document::projectChanged, this, solve);
  connect(&look_, &Look::trialChanged, this, solve);
  connect(&live_, &Live::judged, this, [this] {
    const auto& solved = live_.latest();
    working_->setText(solved->problem ? tr("not solved") : tr("as drawn"));
    if (solved->problem) {
      say(QString::fromStdString(solved->problem->text()));
    }
  });
  connect(&document_, &Document::fileChanged, this, &Window::showTitle);
  connect(canvas_, &Canvas::hintChanged, this,
          [this](const QString& hint) { statusBar()->showMessage(hint); });
  connect(canvas_, &Canvas::refused, this, &Window::say);
  connect(canvas_, &Canvas::toolDone, this, [this] { takeTool(QStringLiteral("select")); });
  connect(canvas_, &Canvas::pointerMoved, this,
          [this](shop::PlanPoint at) { place_->setText(placeText(at, look_.units())); });
  // What is picked is shown, unless its numbers are being read.
  connect(&look_, &Look::selectionChanged, this, [this] {
    if (!look_.selection().empty() && canvas_->tool() != nullptr &&
        canvas_->tool()->key() == QStringLiteral("select") && side_->opened() != QStringLiteral("why")) {
      side_->open(QStringLiteral("thing"));
    }
  });
  connect(&look_, &Look::toolAsked, this, [this](const QString& key) { takeTool(key); });
  connect(&look_, &Look::tonesChanged, this, &Window::paintTones);
  strip_rests_.setSingleShot(true);
  connect(&strip_rests_, &QTimer::timeout, strip_, &QLabel::hide);
  connect(&autosave_, &QTimer::timeout, &document_, &Document::autosave);
  autosave_.start(kAutosave_ms);
  takeTool(QStringLiteral("select"));
  paintTones();
  showTitle();
  resize(1360, 860);
}

Window::~Window() {
  // The undo stack tells of its end, when the window is no more than half there.
  document_.disconnect(this);
  canvas_->take(nullptr);
}

void Window::makeTools() {
  tool_bar_ = new QToolBar(tr("Tools"), this);
  tool_bar_->setObjectName(QStringLiteral("tools"));
  tool_bar_->setMovable(false);
  addToolBar(Qt::LeftToolBarArea, tool_bar_);
  auto* group = new QActionGroup(this);
  for (const ToolPart& part : desk::makeTools(bench(), this)) {
    if (part.begins_group) {
      tool_bar_->addSeparator();
    }
    Tool* tool = part.tool;
    QAction* action = tool_bar_->addAction(tool->name());
    action->setCheckable(true);
    action->setShortcut(part.shortcut);
    action->setToolTip(tr("%1 (%2)").arg(tool->hint(), part.shortcut.toString()));
    group->addAction(action);
    connect(action, &QAction::triggered, this, [this, tool] { takeTool(tool->key()); });
    tools_.emplace_back(tool, action);
  }
}

bool Window::takeTool(const QString& key) {
  for (const auto& [tool, action] : tools_) {
    if (tool->key() == key) {
      action->setChecked(true);
      if (canvas_->tool() != tool) {
        canvas_->take(tool);
      }
      canvas_->setFocus();
      return true;
    }
  }
  return false;
}

void Window::makeMenus() {
  QMenu* file = menuBar()->addMenu(tr("&Project"));
  file->addAction(tr("&Open …"), QKeySequence::Open, this, [this] {
    if (mayLoseChanges()) {
      const QString path =
          QFileDialog::getOpenFileName(this, tr("Open a project"), {}, tr("Projects (*.json)"));
      if (!path.isEmpty()) {
        openFile(path);
      }
    }
  });
  file->addAction(tr("&Save"), QKeySequence::Save, this, [this] { save(); });
  file->addAction(tr("Save &as …"), QKeySequence::SaveAs, this, [this] { saveAs(); });
  file->addAction(tr("Save the &picture …"), this, &Window::exportPicture);
  file->addSeparator();
  file->addAction(tr("&Close"), QKeySequence::Quit, this, &QWidget::close);

  QMenu* edit = menuBar()->addMenu(tr("&Change"));
  QAction* undo = document_.undoStack().createUndoAction(this, tr("Undo:"));
  undo->setShortcut(QKeySequence::Undo);
  QAction* redo = document_.undoStack().createRedoAction(this, tr("Again:"));
  redo->setShortcut(QKeySequence::Redo);
  edit->addActions({undo, redo});

  QMenu* view = menuBar()->addMenu(tr("&Look"));
  view->addAction(tr("Everything in sight"), QKeySequence(Qt::Key_Home), this,
                  [this] { canvas_->showAll(); });
  QAction* space = view->addAction(tr("In space instead of from above"));
  space->setCheckable(true);
  space->setShortcut(QKeySequence(Qt::Key_F6));
  connect(space, &QAction::toggled, this, [this](bool on) {
    look_.setIsometric(on);
    canvas_->showAll();
  });
  QAction* metric = view->addAction(tr("Metres and pascals instead of feet and inches"));
  metric->setCheckable(true);
  metric->setChecked(true);
  metric->setShortcut(QKeySequence(Qt::Key_F7));
  connect(metric, &QAction::toggled, this,
          [this](bool on) { look_.setUnits(on ? base::UnitSystem::Metric : base::UnitSystem::Us); });
  connect(&look_, &Look::unitsChanged, metric,
          [this, metric] { metric->setChecked(look_.units() == base::UnitSystem::Metric); });
  view->addAction(tr("Words of the trade"), QKeySequence(Qt::Key_F1), this, [this] {
    if (auto* why = qobject_cast<WhyPanel*>(side_->panel(QStringLiteral("why")))) {
      side_->open(QStringLiteral("why"));
      why->showWords();
    }
  });
  QMenu* readers = view->addMenu(tr("For whom"));
  auto* reader_group = new QActionGroup(this);
  for (const auto& [reader, words] :
       {std::pair{judge::Reader::Owner, tr("Owner")}, std::pair{judge::Reader::Adviser, tr("Adviser")},
        std::pair{judge::Reader::Inspector, tr("Inspector")}}) {
    QAction* action = readers->addAction(words);
    action->setCheckable(true);
    action->setChecked(reader == look_.reader());
    reader_group->addAction(action);
    connect(action, &QAction::triggered, this, [this, reader = reader] { look_.setReader(reader); });
  }
  QAction* dark = view->addAction(tr("Dark"));
  dark->setCheckable(true);
  dark->setShortcut(QKeySequence(Qt::Key_F8));
  connect(dark, &QAction::toggled, this,
          [this](bool on) { look_.setTones(on ? paint::Tones::Dark : paint::Tones::Light); });
}

void Window::makePanels() {
  auto* states = new QDockWidget(tr("States of use"), this);
  states->setObjectName(QStringLiteral("states-dock"));
  states->setFeatures(QDockWidget::NoDockWidgetFeatures);
  states->setWidget(new StatesPanel(bench(), states));
  addDockWidget(Qt::BottomDockWidgetArea, states);
  auto* side = new QDockWidget(this);
  side->setObjectName(QStringLiteral("side-dock"));
  side->setFeatures(QDockWidget::NoDockWidgetFeatures);
  side->setTitleBarWidget(new QWidget(side));
  side_ = new SideColumn(bench(), side);
  side->setWidget(side_);
  addDockWidget(Qt::RightDockWidgetArea, side);
  setCorner(Qt::BottomRightCorner, Qt::RightDockWidgetArea);
  resizeDocks({states}, {210}, Qt::Vertical);
  resizeDocks({side}, {380}, Qt::Horizontal);
}

void Window::say(const QString& sentence) {
  strip_->setText(sentence);
  strip_->show();
  strip_rests_.start(kStripRests_ms);
}

QString Window::stripText() const {
  return strip_->isVisibleTo(this) ? strip_->text() : QString();
}

void Window::showTitle() {
  const QString name = document_.path().empty()
                           ? tr("unnamed shop")
                           : QString::fromStdString(document_.path().filename().string());
  setWindowTitle(
      tr("%1[*]%2 - kerfdraft").arg(name, document_.isReadOnly() ? tr(" (only to read)") : QString()));
  setWindowModified(document_.isUnsaved());
}

void Window::paintTones() {
  // The roles that widgets use, from the tones of the drawings.
  const auto tone = [this](drawing::Colour colour) { return paint::shown(colour, look_.tones()); };
  QPalette palette;
  palette.setColor(QPalette::Window,
                   tone(drawing::kWhite).darker(look_.tones() == paint::Tones::Light ? 104 : 90));
  palette.setColor(QPalette::Base, tone(drawing::kWhite));
  palette.setColor(QPalette::AlternateBase, tone(drawing::kBody));
  palette.setColor(QPalette::Button, tone(drawing::kBody));
  for (const QPalette::ColorRole role :
       {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText}) {
    palette.setColor(role, tone(drawing::kInk));
  }
  palette.setColor(QPalette::PlaceholderText, tone(drawing::kFaint));
  palette.setColor(QPalette::ToolTipBase, tone(drawing::kBody));
  palette.setColor(QPalette::Highlight, tone(drawing::kBlue));
  palette.setColor(QPalette::Link, tone(drawing::kBlue));
  palette.setColor(QPalette::LinkVisited, tone(drawing::kBlue));
  palette.setColor(QPalette::HighlightedText, tone(drawing::kWhite));
  for (const QPalette::ColorRole role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, tone(drawing::kFaint));
  }
  setPalette(palette);
}

bool Window::openFile(const QString& path) {
  const std::filesystem::path file(path.toStdString());
  const std::optional<shop::Project> recovered = Document::recoverable(file);
  const auto opened = document_.open(file);
  if (!opened) {
    QStringList sentences;
    constexpr int kMostSaid = 3;
    for (const base::Error& error : opened.error()) {
      if (sentences.size() < kMostSaid) {
        sentences << QString::fromStdString(error.text());
      }
    }
    say(sentences.join(QStringLiteral("\n")));
    return false;
  }
  look_.setTrial(std::nullopt);
  look_.setState(0);
  look_.select({});
  look_.setUnits(document_.project().setting.units);
  if (document_.isReadOnly()) {
    say(tr("Another window has this project open, so it is shown only to read."));
  } else if (recovered && *recovered != document_.project()) {
    // One step of undo leads back to the file as it was saved.
    document_.replace(tr("Recover unsaved work"), *recovered);
    say(
        tr("Work that was not saved when the program ended has been recovered; undo leads back to the file "
           "as it "
           "was saved."));
  }
  canvas_->showAll();
  return true;
}

bool Window::save() {
  if (document_.path().empty() || document_.isReadOnly()) {
    return saveAs();
  }
  const base::Result<void> saved = document_.save();
  if (!saved) {
    say(QString::fromStdString(saved.error().text()));
  }
  return saved.has_value();
}

bool Window::saveAs() {
  const QString path =
      QFileDialog::getSaveFileName(this, tr("Save the project"), {}, tr("Projects (*.json)"));
  if (path.isEmpty()) {
    return false;
  }
  const base::Result<void> saved = document_.saveAs(path.toStdString());
  if (!saved) {
    say(QString::fromStdString(saved.error().text()));
  }
  return saved.has_value();
}

bool Window::mayLoseChanges() {
  if (!document_.isUnsaved()) {
    return true;
  }
  const auto answer = QMessageBox::question(
      this, tr("Unsaved changes"), tr("Save the changes of this project first?"),
      QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, QMessageBox::Save);
  return answer == QMessageBox::Discard || (answer == QMessageBox::Save && save());
}

void Window::closeEvent(QCloseEvent* event) {
  event->setAccepted(mayLoseChanges());
}

void Window::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) {
    event->acceptProposedAction();
  }
}

void Window::dropEvent(QDropEvent* event) {
  const QList<QUrl> urls = event->mimeData()->urls();
  if (!urls.isEmpty() && urls.front().isLocalFile() && mayLoseChanges()) {
    openFile(urls.front().toLocalFile());
  }
}

void Window::exportPicture() {
  const QString path =
      QFileDialog::getSaveFileName(this, tr("Save the picture"), {}, tr("Pictures (*.svg *.pdf *.png)"));
  if (!path.isEmpty()) {
    exportPlan(path);
  }
}

void Window::exportPlan(const QString& path) {
  const auto& solved = live_.latest();
  if (!solved || !solved->assessment || look_.state() >= solved->states()) {
    say(tr("There is nothing solved to draw yet."));
    return;
  }
  drawing::PlanOptions options;
  options.units = look_.units();
  options.title.shop = document_.project().setting.name;
  options.title.note = document_.project().setting.note;
  options.title.drawing = "Plan";
  options.title.state = solved->assessment->states[look_.state()].name;
  options.title.standing = "predicted";
  options.title.caution = std::string(drawing::kCaution);
  const drawing::Picture picture = drawing::drawPlan(
      *solved->project, *solved->assessment->pieces,
      papers::overlayOf(*solved->assessment, look_.state(), solved->margins[look_.state()], look_.units()),
      options);
  const std::filesystem::path file(path.toStdString());
  const QString kind = QFileInfo(path).suffix().toLower();
  const base::Result<void> written =
      kind == QStringLiteral("svg")   ? files::replaceFile(file, drawing::toSvg(picture), files::Backup::None)
      : kind == QStringLiteral("pdf") ? paint::writePdf({picture}, file)
      : kind == QStringLiteral("png")
          ? paint::writePng(picture, file)
          : base::fail(base::ErrorCode::Unsupported, "a picture is saved as .svg, .pdf or .png",
                       file.filename().string());
  if (!written) {
    say(QString::fromStdString(written.error().text()));
  }
}

}  // namespace kerfdraft::desk
