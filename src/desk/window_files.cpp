// Opening, saving, and that nothing is lost.
#include <QDate>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QMimeData>
#include <QPrintDialog>
#include <QSettings>
#include <QStandardPaths>

#include "desk/output.h"
#include "desk/window.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

constexpr qsizetype kMostRecent = 10;

const char* const kRecentKey = "recent";

}  // namespace

void Window::resetLook() {
  look_.setTrial(std::nullopt);
  look_.setState(0);
  look_.select({});
  look_.keep(nullptr);
  look_.setUnits(document_.project().setting.units);
  canvas_->showAll();
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
    if (opened.error().size() > kMostSaid) {
      sentences << tr("And %1 more.").arg(opened.error().size() - kMostSaid);
    }
    strips_->put(QStringLiteral("unreadable"), sentences.join(QStringLiteral("\n")), {{tr("Good"), [] {}}});
    return false;
  }
  strips_->take(QStringLiteral("unreadable"));
  middle_->setCurrentWidget(canvas_);
  resetLook();
  showFileStrips();
  if (!document_.isReadOnly() && recovered && *recovered != document_.project()) {
    // One step of undo leads back to the file as it was saved.
    document_.replace(tr("Recover unsaved work"), *recovered);
    strips_->put(
        QStringLiteral("recovered"),
        tr("Work that was not saved when the program ended has been brought back; undo leads back to "
           "the file as it was saved."),
        {{tr("Good"), [] {}}});
    document_.autosave();  // it is as unsaved as before
  }
  remember(path);
  takeTool(QStringLiteral("select"));
  canvas_->showAll();
  return true;
}

void Window::showFileStrips() {
  strips_->take(QStringLiteral("disk"));
  strips_->take(QStringLiteral("recovered"));
  strips_->take(QStringLiteral("read-only"));
  if (!document_.isReadOnly()) {
    return;
  }
  // Another one has it, or this folder takes no lock.
  const base::Result<files::ProjectLock> lock = files::ProjectLock::take(document_.path());
  const bool elsewhere = lock || lock.error().code == base::ErrorCode::Conflict;
  const QString why =
      elsewhere
          ? tr("Another window has this project open, so it is shown only to read.")
          : tr("This project is shown only to read: %1.").arg(QString::fromStdString(lock.error().text()));
  strips_->put(QStringLiteral("read-only"), tr("%1 Saved under another name it can be changed.").arg(why),
               {{tr("Save under another name …"), [this] {
                   showFileStrips();  // until it is done, the cause is there
                   saveAs();
                 }}});
}

void Window::showDiskStrip() {
  if (strips_->has(QStringLiteral("disk"))) {
    return;
  }
  std::error_code ignored;
  const QString what = std::filesystem::exists(document_.path(), ignored)
                           ? tr("Another program has changed this file.")
                           : tr("Another program has removed this file.");
  strips_->put(QStringLiteral("disk"), tr("%1 Reading it anew gives up what is not saved here.").arg(what),
               {{tr("Read it anew"),
                 [this] {
                   if (const auto read = document_.readAnew(); !read) {
                     // The cause is still there, and so is the strip.
                     showDiskStrip();
                     strips_->pass(tr("It cannot be read, so nothing was given up: %1")
                                       .arg(QString::fromStdString(read.error().front().text())));
                   } else {
                     resetLook();
                   }
                 }},
                {tr("Keep mine"), [this] { document_.keepMine(); }}});
}

void Window::startNew() {
  shop::Project project;
  const bool metric = QLocale().measurementSystem() == QLocale::MetricSystem;
  project.setting.units = metric ? base::UnitSystem::Metric : base::UnitSystem::Us;
  project.setting.name = tr("My shop").toStdString();
  project.air.temperature = *base::Given<base::Temperature>::parse(metric ? "20 °C" : "70 °F");
  document_.startNew(project);
  resetLook();
  showFileStrips();
  middle_->setCurrentWidget(start_);
  start_->begin();
  hint_->setText(tr("Choose a way to begin. A project of your own opens from the menu Project."));
}

void Window::startWith(const shop::Project& project, bool unsaved) {
  shop::Project empty;
  empty.setting = project.setting;
  empty.air = project.air;
  document_.startNew(unsaved ? empty : project);
  if (unsaved) {
    // So that closing asks, and undo leads back to nothing.
    document_.replace(tr("New shop"), project);
  }
  middle_->setCurrentWidget(canvas_);
  resetLook();
  showFileStrips();
  takeTool(QStringLiteral("select"));
  side_->open(QStringLiteral("findings"));
}

void Window::offerForsaken() {
  const std::filesystem::path folder =
      QStandardPaths::writableLocation(QStandardPaths::AppDataLocation).toStdString();
  for (const std::filesystem::path& file : Document::forsaken(folder)) {
    const auto forget = [file] {
      std::error_code ignored;
      std::filesystem::remove(files::autosavePath(file), ignored);
    };
    strips_->put(QString::fromStdString(file.filename().string()),
                 tr("A shop without a name was not saved when the program ended."),
                 {{tr("Bring it back"),
                   [this, file, forget] {
                     const auto read = files::loadProject(files::autosavePath(file));
                     if (!read) {
                       strips_->pass(QString::fromStdString(read.error().front().text()));
                     } else if (mayLoseChanges()) {
                       startWith(*read, true);
                       document_.autosave();
                       forget();
                     }
                   }},
                  {tr("Forget it"), forget}});
  }
}

bool Window::save() {
  if (document_.path().empty() || document_.isReadOnly()) {
    return saveAs();
  }
  const base::Result<void> saved = document_.save();
  if (!saved) {
    strips_->pass(QString::fromStdString(saved.error().text()));
  } else {
    showFileStrips();
  }
  return saved.has_value();
}

bool Window::saveTo(const QString& path) {
  const base::Result<void> saved = document_.saveAs(path.toStdString());
  if (!saved) {
    strips_->pass(QString::fromStdString(saved.error().text()));
    return false;
  }
  showFileStrips();
  remember(path);
  return true;
}

bool Window::saveAs() {
  const QString path =
      QFileDialog::getSaveFileName(this, tr("Save the project"), {}, tr("Projects (*.json)"));
  return !path.isEmpty() && saveTo(path);
}

bool Window::mayLoseChanges() {
  if (!document_.isUnsaved()) {
    return true;
  }
  const auto answer = QMessageBox::question(
      this, tr("Unsaved changes"), tr("Save the changes of this project first?"),
      QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, QMessageBox::Save);
  if (answer == QMessageBox::Discard) {
    document_.forgetAutosave();
  }
  return answer == QMessageBox::Discard || (answer == QMessageBox::Save && save());
}

void Window::closeEvent(QCloseEvent* event) {
  const bool may = mayLoseChanges();
  if (may) {
    writeSettings();
  }
  event->setAccepted(may);
}

void Window::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) {
    event->acceptProposedAction();
  }
}

void Window::dropEvent(QDropEvent* event) {
  const QList<QUrl> urls = event->mimeData()->urls();
  if (urls.isEmpty() || !urls.front().isLocalFile()) {
    return;
  }
  const QString path = urls.front().toLocalFile();
  if (!path.endsWith(QStringLiteral(".json"), Qt::CaseInsensitive) && middle_->currentWidget() == canvas_) {
    // Whatever is no project can only be something to draw over; what it is, its reader says.
    side_->open(QStringLiteral("underlay"));
    look_.offerUnderlay(path.toStdString());
  } else if (mayLoseChanges()) {
    openFile(path);
  }
}

void Window::savePictureAs() {
  const auto sheet = sheetOf(bench());
  if (!sheet) {
    strips_->pass(QString::fromStdString(sheet.error().text()));
    return;
  }
  const QString path =
      QFileDialog::getSaveFileName(this, tr("Save the picture"), {}, tr("Pictures (*.svg *.pdf *.png)"));
  if (!path.isEmpty()) {
    const base::Result<void> saved = savePicture(*sheet, path.toStdString());
    strips_->pass(saved ? tr("Saved as %1.").arg(QFileInfo(path).fileName())
                        : QString::fromStdString(saved.error().text()));
  }
}

void Window::saveReportAs() {
  const QString path = QFileDialog::getSaveFileName(this, tr("Save the report"), {}, tr("Pages (*.html)"));
  if (!path.isEmpty()) {
    const base::Result<void> saved =
        saveReport(bench(), path.toStdString(), QDate::currentDate().toString(Qt::ISODate).toStdString());
    strips_->pass(saved
                      ? tr("Saved as %1; it opens in any browser and prints.").arg(QFileInfo(path).fileName())
                      : QString::fromStdString(saved.error().text()));
  }
}

void Window::printSheet() {
  const auto sheet = sheetOf(bench());
  if (!sheet) {
    strips_->pass(QString::fromStdString(sheet.error().text()));
    return;
  }
  QPrinter printer(QPrinter::HighResolution);
  QPrintDialog dialog(&printer, this);
  if (dialog.exec() == QDialog::Accepted) {
    if (const auto printed = printPicture(*sheet, printer); !printed) {
      strips_->pass(QString::fromStdString(printed.error().text()));
    }
  }
}

void Window::remember(const QString& path) {
  QSettings settings;
  QStringList recent = settings.value(QLatin1String(kRecentKey)).toStringList();
  const QString whole = QFileInfo(path).absoluteFilePath();
  recent.removeAll(whole);
  recent.prepend(whole);
  settings.setValue(QLatin1String(kRecentKey), recent.mid(0, kMostRecent));
}

void Window::fillRecent() {
  recent_->clear();
  const QSettings settings;
  for (const QString& path : settings.value(QLatin1String(kRecentKey)).toStringList()) {
    if (QFileInfo::exists(path)) {
      QAction* action = recent_->addAction(QFileInfo(path).fileName(), this, [this, path] {
        if (mayLoseChanges()) {
          openFile(path);
        }
      });
      action->setToolTip(path);
    }
  }
  recent_->setEnabled(true);
  if (recent_->isEmpty()) {
    recent_->addAction(tr("none yet"))->setEnabled(false);
  }
}

}  // namespace kerfdraft::desk
