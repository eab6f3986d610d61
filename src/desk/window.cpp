// Puts the parts together; what each does is its own business.
#include "desk/window.h"

#include <QActionGroup>
#include <QCursor>
#include <QDockWidget>
#include <QSettings>
#include <QStandardPaths>
#include <QStatusBar>
#include <QVBoxLayout>
#include <algorithm>
#include <array>
#include <utility>

#include "base/units.h"
#include "desk/explain_terms.h"
#include "desk/panels/states_panel.h"
#include "desk/theme.h"

namespace kerfdraft::desk {
namespace {

constexpr int kBubbleRests_ms = 6000;
constexpr int kAutosave_ms = 30000;
constexpr double kPxPerMm = 4;  ///< of pictures at the usual text size

/// In the settings; a number would change its meaning with the enumeration.
constexpr std::array<std::pair<judge::Reader, const char*>, 3> kReaderWords = {
    {{judge::Reader::Owner, "owner"},
     {judge::Reader::Adviser, "adviser"},
     {judge::Reader::Inspector, "inspector"}}};

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
  document_.setUnnamedFolder(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation).toStdString());
  auto* centre = new QWidget(this);
  auto* column = new QVBoxLayout(centre);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  strips_ = new Strips(centre);
  keys_ = new KeysPage(this);
  middle_ = new QStackedWidget(centre);
  canvas_ = new Canvas(bench(), middle_);
  start_ = new StartPanel(bench(), middle_);
  middle_->addWidget(canvas_);
  middle_->addWidget(start_);
  column->addWidget(strips_);
  column->addWidget(middle_, 1);
  setCentralWidget(centre);
  setAcceptDrops(true);

  bubble_ = new QLabel(canvas_);
  bubble_->setWordWrap(true);
  bubble_->setMargin(6);
  bubble_->setAutoFillBackground(true);
  bubble_->setBackgroundRole(QPalette::ToolTipBase);
  bubble_->setForegroundRole(QPalette::ToolTipText);
  bubble_->setFrameShape(QFrame::Box);
  bubble_->setAttribute(Qt::WA_TransparentForMouseEvents);
  bubble_->hide();
  bubble_rests_.setSingleShot(true);

  hint_ = new QLabel(this);
  hint_->setAccessibleName(tr("What is expected next"));
  // A long hint is cut, it does not make the window wide.
  hint_->setMinimumWidth(1);
  hint_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  working_ = new QLabel(this);
  place_ = new QLabel(this);
  statusBar()->addPermanentWidget(hint_, 1);
  statusBar()->addPermanentWidget(place_);
  statusBar()->addPermanentWidget(working_);
  makeTools();
  makePanels();
  explainTerms(this);
  makeMenus();
  connectParts();
  takeTool(QStringLiteral("select"));
  resize(1360, 860);
  readSettings();
  showTitle();
  startNew();
  offerForsaken();
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
      hint_->setText(tool->hint());  // also where the first page was left with the same tool
      middle_->setCurrentWidget(canvas_);
      canvas_->setFocus();
      return true;
    }
  }
  return false;
}

void Window::makePanels() {
  // In the order in which Tab goes: canvas, side, states.
  auto* side = new QDockWidget(this);
  side->setObjectName(QStringLiteral("side-dock"));
  side->setFeatures(QDockWidget::NoDockWidgetFeatures);
  side->setTitleBarWidget(new QWidget(side));
  side_ = new SideColumn(bench(), side);
  side->setWidget(side_);
  addDockWidget(Qt::RightDockWidgetArea, side);
  auto* states = new QDockWidget(tr("States of use"), this);
  states->setObjectName(QStringLiteral("states-dock"));
  states->setFeatures(QDockWidget::NoDockWidgetFeatures);
  states->setTitleBarWidget(new QWidget(states));
  states->setWidget(new StatesPanel(bench(), states));
  states_ = states;
  addDockWidget(Qt::BottomDockWidgetArea, states);
  setCorner(Qt::BottomRightCorner, Qt::RightDockWidgetArea);
  resizeDocks({states}, {210}, Qt::Vertical);
  resizeDocks({side}, {380}, Qt::Horizontal);
}

std::vector<QWidget*> Window::tabOrder() const {
  // Panels make their rows anew and again, which puts them last in the order that Qt keeps; so the areas are
  // put in order when Tab is pressed.
  const std::array<const QWidget*, 3> areas = {middle_, side_, states_};
  const auto area_of = [&areas](const QWidget* widget) {
    return std::find_if(areas.begin(), areas.end(),
                        [widget](const QWidget* area) { return area->isAncestorOf(widget); }) -
           areas.begin();
  };
  std::vector<QWidget*> out;
  for (QWidget* at = nextInFocusChain(); at != this; at = at->nextInFocusChain()) {
    if ((at->focusPolicy() & Qt::TabFocus) != 0 && at->isVisible() && at->isEnabled() &&
        at->focusProxy() == nullptr && at->window() == this) {
      out.push_back(at);
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [&](const QWidget* a, const QWidget* b) { return area_of(a) < area_of(b); });
  return out;
}

bool Window::focusNextPrevChild(bool next) {
  std::vector<QWidget*> order = tabOrder();
  if (order.empty()) {
    return false;
  }
  if (!next) {
    std::reverse(order.begin(), order.end());
  }
  const auto at = std::find(order.begin(), order.end(), focusWidget());
  QWidget* to = at == order.end() || at + 1 == order.end() ? order.front() : *(at + 1);
  to->setFocus(next ? Qt::TabFocusReason : Qt::BacktabFocusReason);
  return true;
}

void Window::connectParts() {
  connect(&document_, &Document::projectChanged, this, &Window::solve);
  connect(&look_, &Look::trialChanged, this, &Window::solve);
  connect(&live_, &Live::judged, this, &Window::showSolved);
  connect(&document_, &Document::fileChanged, this, &Window::showTitle);
  connect(&document_, &Document::changedOnDisk, this, &Window::showDiskStrip);
  connect(canvas_, &Canvas::hintChanged, hint_, &QLabel::setText);
  connect(canvas_, &Canvas::hintChanged, hint_, &QLabel::setToolTip);
  connect(canvas_, &Canvas::refused, this, &Window::showRefused);
  connect(canvas_, &Canvas::toolDone, this, [this] { takeTool(QStringLiteral("select")); });
  connect(canvas_, &Canvas::pointerMoved, this,
          [this](shop::PlanPoint at) { place_->setText(placeText(at, look_.units())); });
  connect(&bubble_rests_, &QTimer::timeout, this, [this] {
    bubble_->hide();
    hint_->setText(canvas_->tool() != nullptr ? canvas_->tool()->hint() : QString());
  });
  connect(&look_, &Look::selectionChanged, this, [this] {
    if (!look_.selection().empty() && canvas_->tool() != nullptr &&
        canvas_->tool()->key() == QStringLiteral("select") && !side_->stays() &&
        side_->opened() != QStringLiteral("why") && side_->opened() != QStringLiteral("charts")) {
      side_->open(QStringLiteral("thing"));
    }
  });
  connect(&look_, &Look::toolAsked, this, [this](const QString& key) { takeTool(key); });
  connect(&look_, &Look::panelAsked, this, [this](const QString& key) {
    // Whoever opens a thing by the keyboard goes on there.
    const QWidget* panel =
        key == QStringLiteral("thing") && canvas_->hasFocus() ? side_->panel(key) : nullptr;
    const std::vector<QWidget*> order = panel != nullptr ? tabOrder() : std::vector<QWidget*>();
    const auto first = std::find_if(order.begin(), order.end(),
                                    [panel](const QWidget* each) { return panel->isAncestorOf(each); });
    if (first != order.end()) {
      (*first)->setFocus(Qt::TabFocusReason);
    }
  });
  connect(&look_, &Look::tonesChanged, this, [this] { applyTheme(look_.tones(), text_factor_); });
  connect(start_, &StartPanel::shopMade, this, [this](const shop::Project& project, bool unsaved) {
    if (mayLoseChanges()) {
      startWith(project, unsaved);
    }
  });
  connect(start_, &StartPanel::emptyAsked, this, [this] { takeTool(QStringLiteral("room")); });
  // The first page has the window for itself.
  connect(middle_, &QStackedWidget::currentChanged, this, [this] {
    for (QDockWidget* dock : findChildren<QDockWidget*>()) {
      dock->setVisible(!asksFirst());
    }
    tool_bar_->setVisible(!asksFirst());
  });
  connect(&autosave_, &QTimer::timeout, &document_, &Document::autosave);
  autosave_.start(kAutosave_ms);
}

void Window::solve() {
  working_->setText(tr("solving …"));
  live_.request(document_.snapshot(), look_.trial(), look_.state());
}

void Window::showSolved() {
  const auto& solved = live_.latest();
  working_->setText(solved->problem ? tr("not solved") : tr("as drawn"));
  const shop::Project& project = document_.project();
  // Of a shop that is not there yet nothing is wrong.
  if (solved->problem && !(project.machines.empty() && project.ducts.empty() && project.collectors.empty())) {
    strips_->put(QStringLiteral("unsolved"), QString::fromStdString(solved->problem->text()));
  } else {
    strips_->take(QStringLiteral("unsolved"));
  }
}

void Window::showRefused(const QString& sentence) {
  bubble_->setText(sentence);
  hint_->setText(sentence);
  constexpr int kWidth_px = 320;
  constexpr int kApart_px = 16;
  bubble_->setFixedWidth(kWidth_px);
  bubble_->adjustSize();
  QPoint at = canvas_->mapFromGlobal(QCursor::pos()) + QPoint(kApart_px, kApart_px);
  if (!canvas_->rect().contains(at)) {
    at = QPoint(kApart_px, kApart_px);
  }
  at.setX(std::min(at.x(), std::max(0, canvas_->width() - bubble_->width() - kApart_px)));
  at.setY(std::min(at.y(), std::max(0, canvas_->height() - bubble_->height() - kApart_px)));
  bubble_->move(at);
  bubble_->show();
  bubble_->raise();
  bubble_rests_.start(kBubbleRests_ms);
}

void Window::showTitle() {
  const QString name = document_.path().empty()
                           ? tr("unnamed shop")
                           : QString::fromStdString(document_.path().filename().string());
  setWindowTitle(
      tr("%1[*]%2 - kerfdraft").arg(name, document_.isReadOnly() ? tr(" (only to read)") : QString()));
  setWindowModified(document_.isUnsaved());
}

void Window::setTextFactor(double factor) {
  text_factor_ = std::clamp(factor, kLeastText, kMostText);
  applyTheme(look_.tones(), text_factor_);
  PlanView view = canvas_->view();
  view.px_per_mm = kPxPerMm * text_factor_;
  canvas_->setView(view);
}

void Window::readSettings() {
  const QSettings settings;
  restoreGeometry(settings.value(QStringLiteral("window")).toByteArray());
  look_.setTones(settings.value(QStringLiteral("dark")).toBool() ? paint::Tones::Dark : paint::Tones::Light);
  setTextFactor(settings.value(QStringLiteral("text"), 1.0).toDouble());
  const QString reader = settings.value(QStringLiteral("reader")).toString();
  for (const auto& [each, word] : kReaderWords) {
    if (reader == QLatin1String(word)) {
      look_.setReader(each);
    }
  }
}

void Window::writeSettings() const {
  QSettings settings;
  settings.setValue(QStringLiteral("window"), saveGeometry());
  settings.setValue(QStringLiteral("dark"), look_.tones() == paint::Tones::Dark);
  settings.setValue(QStringLiteral("text"), text_factor_);
  for (const auto& [each, word] : kReaderWords) {
    if (each == look_.reader()) {
      settings.setValue(QStringLiteral("reader"), QLatin1String(word));
    }
  }
}

}  // namespace kerfdraft::desk
