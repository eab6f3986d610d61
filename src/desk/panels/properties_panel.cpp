// Widgets are made anew only where other rows are shown: a field that is being typed in keeps its cursor
// while the project changes around it.
#include "desk/panels/properties_panel.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollBar>
#include <QSignalBlocker>

#include "desk/models/figures.h"
#include "desk/panels/tick_list.h"
#include "desk/tools/sketching.h"

namespace kerfdraft::desk {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

PropertiesPanel::PropertiesPanel(Bench bench, QWidget* parent, About about)
    : QWidget(parent), bench_(std::move(bench)), about_(about) {
  title_ = new QLabel(this);
  QFont bold = title_->font();
  bold.setBold(true);
  title_->setFont(bold);
  title_->setWordWrap(true);
  doc_ = new QLabel(this);
  doc_->setWordWrap(true);
  remove_ = new QPushButton(tr("Take it away"), this);
  auto* head = new QHBoxLayout;
  head->addWidget(title_, 1);
  head->addWidget(remove_);
  left_behind_ = new QLabel(this);
  left_behind_->setWordWrap(true);
  left_behind_->setAccessibleName(tr("What was not taken"));
  left_behind_->hide();
  scroll_ = new QScrollArea(this);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* column = new QVBoxLayout(this);
  column->addLayout(head);
  column->addWidget(left_behind_);
  column->addWidget(doc_);
  column->addWidget(scroll_, 1);
  connect(remove_, &QPushButton::clicked, this, [this] {
    const auto gone = removeThings(bench_.document.project(), bench_.look.selection());
    const base::Result<void> made =
        gone ? bench_.document.make(text(gone->words), gone->edits) : base::Failure(gone.error());
    if (made) {
      bench_.look.select({});
    } else {
      doc_->setText(text(made.error().text()));
    }
  });
  connect(&bench_.look, &Look::selectionChanged, this, &PropertiesPanel::refresh);
  connect(&bench_.document, &Document::projectChanged, this, &PropertiesPanel::refresh);
  connect(&bench_.look, &Look::unitsChanged, this, &PropertiesPanel::showFigures);
  connect(&bench_.look, &Look::stateChanged, this,
          about_ == About::State ? &PropertiesPanel::refresh : &PropertiesPanel::showFigures);
  connect(&bench_.live, &Live::judged, this, &PropertiesPanel::showFigures);
  refresh();
}

PropertiesPanel::~PropertiesPanel() {
  // A field that loses the keys as it goes would take what is typed, when the rows are no longer there.
  showing_ = true;
  delete scroll_;
}

QWidget* PropertiesPanel::editor(const std::string& path) const {
  const auto at = rows_.find(path);
  return at == rows_.end() ? nullptr : at->second.editor;
}

QString PropertiesPanel::refusal(const std::string& path) const {
  const auto at = rows_.find(path);
  return at == rows_.end() || at->second.refused == nullptr ? QString() : at->second.refused->text();
}

std::vector<Thing> PropertiesPanel::things() const {
  std::vector<Thing> out;
  if (about_ == About::State) {
    return out;
  }
  for (const base::Id id : bench_.look.selection()) {
    if (const auto thing = thingOf(bench_.document.project(), id)) {
      out.push_back(*thing);
    }
  }
  return out;
}

base::Id PropertiesPanel::state() const {
  const std::vector<shop::State>& states = bench_.document.project().states;
  return about_ == About::State && bench_.look.state() < states.size() ? states[bench_.look.state()].id
                                                                       : base::Id();
}

std::optional<PropertyForm> PropertiesPanel::form() const {
  if (about_ == About::Picked) {
    return formOf(bench_.document.project(), *bench_.catalogue, things());
  }
  if (state().valid()) {
    return formOfState(bench_.document.project(), state());
  }
  return PropertyForm{tr("No state of use is shown").toStdString(),
                      tr("Choose one below the plan, or make one there.").toStdString(),
                      {}};
}

void PropertiesPanel::takeTyped() {
  const auto [path, part] = focused();
  const auto at = rows_.find(path);
  if (at == rows_.end()) {
    return;
  }
  const auto typed_in = [](const QWidget* field) -> std::optional<QString> {
    if (const auto* line = qobject_cast<const QLineEdit*>(field)) {
      return line->isModified() ? std::optional(line->text()) : std::nullopt;
    }
    if (const auto* lines = qobject_cast<const QPlainTextEdit*>(field)) {
      return lines->document()->isModified() ? std::optional(lines->toPlainText()) : std::nullopt;
    }
    return std::nullopt;
  };
  const std::optional<QString> typed = typed_in(part == 2 ? at->second.source : at->second.editor);
  if (!typed) {
    return;
  }
  taking_ = true;
  change(part == 2 ? path + "#source" : path, *typed);
  taking_ = false;
  if (const QString why = refusal(path); !why.isEmpty()) {
    left_behind_->setText(
        tr("Not taken for %1, %2: \"%3\". %4").arg(title_->text(), text(at->second.shown.name), *typed, why));
    left_behind_->show();
  }
}

std::pair<std::string, int> PropertiesPanel::focused() const {
  const QWidget* keys = focusWidget();
  if (keys != nullptr) {
    for (const auto& [path, row] : rows_) {
      if (keys == row.editor) {
        return {path, 0};
      }
      if (keys == row.standing) {
        return {path, 1};
      }
      if (keys == row.source) {
        return {path, 2};
      }
    }
  }
  return {};
}

bool PropertiesPanel::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride) {
    const auto* key = static_cast<QKeyEvent*>(event);
    if (key->key() == Qt::Key_Escape && key->modifiers() == Qt::NoModifier) {
      for (auto& [path, row] : rows_) {
        if (watched != row.editor && watched != row.source) {
          continue;
        }
        auto* line = qobject_cast<QLineEdit*>(watched);
        auto* lines = qobject_cast<QPlainTextEdit*>(watched);
        const QString stood = text(watched == row.source ? row.shown.source : row.shown.value);
        const QString typed = line != nullptr    ? line->text()
                              : lines != nullptr ? lines->toPlainText()
                                                 : stood;
        if (typed == stood) {
          break;  // nothing to give up here: Escape means what it means elsewhere
        }
        if (event->type() == QEvent::ShortcutOverride) {
          event->accept();
          return true;
        }
        if (line != nullptr) {
          line->setText(stood);
          line->setModified(false);
        } else {
          lines->setPlainText(stood);
          lines->document()->setModified(false);
        }
        refuse(row, {});
        return true;
      }
    }
  }
  return QWidget::eventFilter(watched, event);
}

void PropertiesPanel::refuse(Row& row, const QString& sentence) const {
  if (row.refused != nullptr) {
    row.refused->setText(sentence);
    row.refused->setVisible(!sentence.isEmpty());
  }
}

void PropertiesPanel::refresh() {
  if (taking_) {
    return;
  }
  if (things() != built_for_ || state() != built_for_state_) {
    left_behind_->hide();
    left_behind_->clear();
    takeTyped();
  }
  const std::vector<Thing> now = things();
  const auto form = this->form();
  remove_->setVisible(!now.empty());
  if (!form) {
    built_.clear();
    built_for_ = now;
    rows_.clear();
    dropForm();
    form_ = nullptr;
    figures_ = nullptr;
    title_->setText(tr("%n things of several kinds", nullptr, static_cast<int>(now.size())));
    doc_->setText(tr("Pick things of one kind to change them together."));
    return;
  }
  std::vector<std::pair<std::string, RowEditor>> wanted;
  wanted.reserve(form->rows.size());
  for (const PropertyRow& row : form->rows) {
    wanted.emplace_back(row.path, row.editor);
  }
  if (form_ == nullptr || wanted != built_ || now != built_for_ || state() != built_for_state_) {
    // Where the same thing has got or lost a part, the keys and the place in the form stay.
    const bool same = form_ != nullptr && now == built_for_ && state() == built_for_state_;
    const auto [path, part] = same ? focused() : std::pair<std::string, int>{};
    const int place = same ? scroll_->verticalScrollBar()->value() : 0;
    build(*form);
    built_for_state_ = state();
    built_ = std::move(wanted);
    built_for_ = now;
    if (const auto at = rows_.find(path); at != rows_.end()) {
      QWidget* field = part == 1 ? at->second.standing : part == 2 ? at->second.source : at->second.editor;
      field->setFocus();
    }
    scroll_->verticalScrollBar()->setValue(place);
  }
  title_->setText(text(form->title));
  doc_->setText(text(form->doc));
  for (const PropertyRow& row : form->rows) {
    showRow(rows_.at(row.path), row);
  }
  showFigures();
}

void PropertiesPanel::dropForm() {
  // One of its fields may be the one whose signal is being answered: it goes when that is done.
  if (QWidget* old = scroll_->takeWidget()) {
    old->hide();
    old->deleteLater();
  }
}

void PropertiesPanel::showRow(Row& row, const PropertyRow& values) {
  showing_ = true;
  const bool changed = row.shown.value != values.value;
  row.shown = values;
  if (auto* line = qobject_cast<QLineEdit*>(row.editor)) {
    // What is being typed stays until it is taken or given up.
    if (changed || !line->isModified()) {
      line->setText(text(values.value));
      line->setModified(false);
    }
  } else if (auto* lines = qobject_cast<QPlainTextEdit*>(row.editor)) {
    if (changed || !lines->document()->isModified()) {
      const QSignalBlocker quiet(lines);
      if (lines->toPlainText() != text(values.value)) {
        lines->setPlainText(text(values.value));
      }
      lines->document()->setModified(false);
    }
  } else if (auto* box = qobject_cast<QComboBox*>(row.editor)) {
    const QSignalBlocker quiet(box);
    int at = box->findData(text(values.value));
    if (at < 0 && !values.value.empty()) {
      box->addItem(text(values.value), text(values.value));
      at = box->count() - 1;
    }
    box->setCurrentIndex(at);
  } else if (auto* list = qobject_cast<TickList*>(row.editor)) {
    list->tick(text(values.value));
  }
  if (row.standing != nullptr) {
    const QSignalBlocker quiet(row.standing);
    row.standing->setVisible(values.standing.has_value());
    if (values.standing) {
      row.standing->setCurrentIndex(static_cast<int>(*values.standing));
    }
    const bool sourced =
        values.standing && (*values.standing != base::Standing::Assumed || !values.source.empty());
    row.source->setVisible(sourced);
    if (!row.source->isModified()) {
      row.source->setText(text(values.source));
    }
    row.source->setToolTip(text(values.source));
  }
  if (changed) {
    refuse(row, {});
  }
  showing_ = false;
}

void PropertiesPanel::change(const std::string& path, const QString& typed) {
  if (showing_) {
    return;
  }
  const std::size_t mark = path.find('#');
  const std::string bare = path.substr(0, mark);
  const auto at = rows_.find(bare);
  if (at == rows_.end()) {
    return;
  }
  const PropertyRow& was = at->second.shown;
  if ((mark == std::string::npos && typed.toStdString() == was.value && was.editor != RowEditor::Add &&
       was.editor != RowEditor::Remove) ||
      (path.ends_with("#source") && typed.toStdString() == was.source)) {
    refuse(at->second, {});
    return;
  }
  if (at->second.source != nullptr) {
    at->second.source->setModified(false);
  }
  DocumentIds ids(bench_.document);
  // What the fields were made for, even where something else was picked since.
  const auto change =
      about_ == About::State
          ? changeStateProperty(bench_.document.project(), built_for_state_, path, typed.toStdString())
          : changeProperty(bench_.document.project(), *bench_.catalogue, built_for_, path,
                           typed.toStdString(), ids);
  const base::Result<void> made =
      change ? bench_.document.make(text(change->words), change->edits) : base::Failure(change.error());
  // The rows may be others now.
  const auto still = rows_.find(bare);
  if (still == rows_.end() || still->second.refused == nullptr) {
    return;
  }
  if (made) {
    refuse(still->second, {});
    if (auto* line = qobject_cast<QLineEdit*>(still->second.editor)) {
      line->setModified(false);
    }
    refresh();
  } else {
    refuse(still->second, text(made.error().text()));
    if (auto* box = qobject_cast<QComboBox*>(still->second.editor)) {
      box->setCurrentIndex(box->findData(text(still->second.shown.value)));
    } else if (auto* list = qobject_cast<TickList*>(still->second.editor)) {
      list->tick(text(still->second.shown.value));
    }
  }
}

void PropertiesPanel::showFigures() {
  if (figures_ == nullptr) {
    return;
  }
  QString html;
  const auto& solved = bench_.live.latest();
  if (solved) {
    for (const Thing& thing : things()) {
      for (const Figure& figure : figuresOf(*solved, bench_.look.state(), thing, bench_.look.units())) {
        html += QStringLiteral("<p>%1<br/><a href=\"%2\" title=\"%3\">%4</a></p>")
                    .arg(text(figure.name).toHtmlEscaped(), text(figure.why).toHtmlEscaped(),
                         tr("Where does this come from?"), text(figure.value).toHtmlEscaped());
      }
    }
  }
  if (!html.isEmpty()) {
    html += QStringLiteral("<p><a href=\"all\">%1</a></p>").arg(tr("Every number of this"));
  }
  figures_->setText(html.isEmpty() ? html
                                   : QStringLiteral("<b>%1</b>%2").arg(tr("As solved for this state"), html));
}

}  // namespace kerfdraft::desk
