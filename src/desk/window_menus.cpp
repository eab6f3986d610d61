// Everything that can be done without pointing at it, with its key.
#include <QActionGroup>
#include <QFileDialog>
#include <QMenuBar>
#include <numbers>

#include "desk/models/placing.h"
#include "desk/panels/why_panel.h"
#include "desk/tools/sketching.h"
#include "desk/window.h"

namespace kerfdraft::desk {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kTurnView_rad = 15 * kDegree;
constexpr std::int64_t kCopyBeside_um = 600000;
constexpr double kTextStep = 1.1;

}  // namespace

void Window::makeMenus() {
  makeProjectMenu();
  makeChangeMenu();
  makeLookMenu();
}

void Window::makeProjectMenu() {
  QMenu* file = menuBar()->addMenu(tr("&Project"));
  file->addAction(tr("&New"), QKeySequence::New, this, [this] {
    if (mayLoseChanges()) {
      startNew();
    }
  });
  file->addAction(tr("&Open …"), QKeySequence::Open, this, [this] {
    if (mayLoseChanges()) {
      const QString path =
          QFileDialog::getOpenFileName(this, tr("Open a project"), {}, tr("Projects (*.json)"));
      if (!path.isEmpty()) {
        openFile(path);
      }
    }
  });
  recent_ = file->addMenu(tr("Opened &lately"));
  connect(recent_, &QMenu::aboutToShow, this, &Window::fillRecent);
  file->addSeparator();
  file->addAction(tr("&Save"), QKeySequence::Save, this, [this] { save(); });
  file->addAction(tr("Save &as …"), QKeySequence::SaveAs, this, [this] { saveAs(); });
  file->addAction(tr("Save the &picture …"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_P), this,
                  &Window::savePictureAs);
  file->addAction(tr("Save the &report …"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_R), this,
                  &Window::saveReportAs);
  file->addAction(tr("Prin&t …"), QKeySequence::Print, this, &Window::printSheet);
  file->addSeparator();
  file->addAction(tr("&Close"), QKeySequence::Quit, this, &QWidget::close);
}

void Window::change(const base::Result<Change>& change, std::set<base::Id> then_pick) {
  const base::Result<void> made = change
                                      ? document_.make(QString::fromStdString(change->words), change->edits)
                                      : base::Failure(change.error());
  if (!made) {
    showRefused(QString::fromStdString(made.error().text()));
  } else if (!then_pick.empty()) {
    look_.select(std::move(then_pick));
  }
}

void Window::makeChangeMenu() {
  QMenu* edit = menuBar()->addMenu(tr("&Change"));
  QAction* undo = document_.undoStack().createUndoAction(this, tr("Undo:"));
  undo->setShortcut(QKeySequence::Undo);
  QAction* redo = document_.undoStack().createRedoAction(this, tr("Again:"));
  redo->setShortcut(QKeySequence::Redo);
  edit->addActions({undo, redo});
  edit->addSeparator();
  edit->addAction(tr("Copy the picked beside"), QKeySequence(Qt::CTRL | Qt::Key_D), this, [this] {
    DocumentIds ids(document_);
    std::set<base::Id> made;
    const auto copies =
        copyThings(document_.project(), look_.selection(), kCopyBeside_um, kCopyBeside_um, ids, &made);
    change(copies, std::move(made));
  });
  // Only over the drawing: in a field and in a table these keys mean its text.
  QAction* copy = edit->addAction(tr("Copy the picked to put it elsewhere"), QKeySequence::Copy, this,
                                  &Window::copyPicked);
  QAction* put = edit->addAction(tr("Put what was copied at the pointer"), QKeySequence::Paste, this,
                                 &Window::putCopied);
  for (QAction* action : {copy, put}) {
    action->setShortcutContext(Qt::WidgetShortcut);
    canvas_->addAction(action);
  }
  edit->addAction(tr("Turn the picked by a quarter"), QKeySequence(Qt::Key_R), this,
                  [this] { change(turnThings(document_.project(), look_.selection(), 90 * kDegree), {}); });
  edit->addAction(tr("Turn the picked by 15 degrees"), QKeySequence(Qt::SHIFT | Qt::Key_R), this,
                  [this] { change(turnThings(document_.project(), look_.selection(), 15 * kDegree), {}); });
  QMenu* line = edit->addMenu(tr("Put the picked in line"));
  const auto align = [&](const QString& words, Align how) {
    line->addAction(words, this,
                    [this, how] { change(alignThings(document_.project(), look_.selection(), how), {}); });
  };
  align(tr("By the westernmost"), Align::West);
  align(tr("By the easternmost"), Align::East);
  align(tr("By the northernmost"), Align::North);
  align(tr("By the southernmost"), Align::South);
  align(tr("Evenly from west to east"), Align::AcrossEvenly);
  align(tr("Evenly from south to north"), Align::AlongEvenly);
}

void Window::makeLookMenu() {
  QMenu* view = menuBar()->addMenu(tr("&Look"));
  view->addAction(tr("Everything in sight"), QKeySequence(Qt::Key_Home), this,
                  [this] { canvas_->showAll(); });
  view->addAction(tr("What is picked in sight"), QKeySequence(Qt::SHIFT | Qt::Key_Home), this,
                  [this] { canvas_->showPicked(); });
  QAction* space = view->addAction(tr("In space instead of from above"));
  space->setCheckable(true);
  space->setShortcut(QKeySequence(Qt::Key_F6));
  connect(space, &QAction::toggled, this, [this](bool on) {
    look_.setIsometric(on);
    canvas_->showAll();
    emit canvas_->hintChanged(canvas_->tool() != nullptr ? canvas_->tool()->hint() : QString());
  });
  connect(&look_, &Look::viewChanged, space, [this, space] { space->setChecked(look_.isometric()); });
  view->addAction(tr("Turn it to the left"), QKeySequence(Qt::CTRL | Qt::Key_Left), this,
                  [this] { look_.setTurned(look_.turned() + kTurnView_rad); });
  view->addAction(tr("Turn it to the right"), QKeySequence(Qt::CTRL | Qt::Key_Right), this,
                  [this] { look_.setTurned(look_.turned() - kTurnView_rad); });
  view->addSeparator();
  QAction* metric = view->addAction(tr("Metres and pascals instead of feet and inches"));
  metric->setCheckable(true);
  metric->setChecked(look_.units() == base::UnitSystem::Metric);
  metric->setShortcut(QKeySequence(Qt::Key_F7));
  connect(metric, &QAction::toggled, this,
          [this](bool on) { look_.setUnits(on ? base::UnitSystem::Metric : base::UnitSystem::Us); });
  connect(&look_, &Look::unitsChanged, metric,
          [this, metric] { metric->setChecked(look_.units() == base::UnitSystem::Metric); });
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
    connect(&look_, &Look::readerChanged, action,
            [this, action, reader = reader] { action->setChecked(reader == look_.reader()); });
  }
  QAction* dark = view->addAction(tr("Dark"));
  dark->setCheckable(true);
  dark->setShortcut(QKeySequence(Qt::Key_F8));
  connect(dark, &QAction::toggled, this,
          [this](bool on) { look_.setTones(on ? paint::Tones::Dark : paint::Tones::Light); });
  connect(&look_, &Look::tonesChanged, dark,
          [this, dark] { dark->setChecked(look_.tones() == paint::Tones::Dark); });
  QAction* larger =
      view->addAction(tr("Larger text"), this, [this] { setTextFactor(text_factor_ * kTextStep); });
  // On most keyboards plus is reached with Shift.
  larger->setShortcuts({QKeySequence(Qt::CTRL | Qt::Key_Plus), QKeySequence(Qt::CTRL | Qt::Key_Equal)});
  view->addAction(tr("Smaller text"), QKeySequence(Qt::CTRL | Qt::Key_Minus), this,
                  [this] { setTextFactor(text_factor_ / kTextStep); });
  view->addAction(side_->stayAction());
  view->addSeparator();
  view->addAction(tr("Words of the trade"), QKeySequence(Qt::SHIFT | Qt::Key_F1), this, [this] {
    if (auto* why = qobject_cast<WhyPanel*>(side_->panel(QStringLiteral("why")))) {
      side_->open(QStringLiteral("why"));
      why->showWords();
    }
  });
  view->addAction(tr("All keys"), QKeySequence(Qt::Key_F1), this, &Window::showKeys);
}

std::vector<KeyGroup> Window::keyGroups() const {
  std::vector<KeyGroup> out;
  KeyGroup tools{tr("Tools"), {}};
  for (const auto& [tool, action] : tools_) {
    tools.keys.emplace_back(action->shortcut(), action->text());
  }
  out.push_back(std::move(tools));
  for (const QAction* top : menuBar()->actions()) {
    KeyGroup group{top->text().remove(QLatin1Char('&')), {}};
    for (const QAction* action : top->menu()->actions()) {
      if (!action->shortcut().isEmpty()) {
        group.keys.emplace_back(action->shortcut(), action->text().remove(QLatin1Char('&')));
      }
    }
    out.push_back(std::move(group));
  }
  out.push_back({tr("Panels"), side_->keys()});
  out.push_back({tr("On the drawing"), Canvas::keys()});
  return out;
}

void Window::showKeys() {
  keys_->showKeys(keyGroups());
}

}  // namespace kerfdraft::desk
