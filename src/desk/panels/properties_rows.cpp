// The widgets of the form: which one a row is changed with, and what hangs on it.
#include "desk/panels/properties_panel.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollBar>
#include <QSignalBlocker>

#include "desk/models/property_words.h"
#include "desk/panels/tick_list.h"

namespace kerfdraft::desk {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

/// A tooltip of plain text would be one long line.
QString wrapped(const QString& plain) {
  if (plain.isEmpty()) {
    return plain;
  }
  return QStringLiteral("<p>%1</p>")
      .arg(plain.toHtmlEscaped().replace(QLatin1Char('\n'), QStringLiteral("<br/>")));
}

/// Applies when Enter is pressed or the field is left.
class Lines final : public QPlainTextEdit {
 public:
  using QPlainTextEdit::QPlainTextEdit;
  std::function<void()> left;

 protected:
  void focusOutEvent(QFocusEvent* event) override {
    QPlainTextEdit::focusOutEvent(event);
    if (left) {
      left();
    }
  }
};

/// The wheel scrolls the form and changes nothing by accident.
class Choices final : public QComboBox {
 public:
  using QComboBox::QComboBox;

 protected:
  void wheelEvent(QWheelEvent* event) override { event->ignore(); }
};

QComboBox* choiceBox(QWidget* parent) {
  auto* box = new Choices(parent);
  // Long texts must not make the column wide.
  box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  box->setMinimumContentsLength(8);
  box->setFocusPolicy(Qt::StrongFocus);
  return box;
}

}  // namespace

void PropertiesPanel::build(const PropertyForm& form) {
  rows_.clear();
  dropForm();
  form_ = new QWidget(scroll_);
  auto* column = new QVBoxLayout(form_);
  column->setContentsMargins(0, 0, 6, 0);
  QFormLayout* layout = nullptr;
  std::optional<std::string> group;
  for (const PropertyRow& row : form.rows) {
    if (!group || *group != row.group) {
      group = row.group;
      if (!row.group.empty()) {
        QString name = text(row.group);
        name[0] = name[0].toUpper();
        auto* heading = new QLabel(name, form_);
        QFont bold = heading->font();
        bold.setBold(true);
        heading->setFont(bold);
        heading->setWordWrap(true);
        heading->setContentsMargins(0, 8, 0, 0);
        column->addWidget(heading);
      }
      layout = new QFormLayout;
      layout->setRowWrapPolicy(QFormLayout::DontWrapRows);
      layout->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
      layout->setVerticalSpacing(4);
      column->addLayout(layout);
    }
    addRow(layout, row);
  }
  figures_ = new QLabel(form_);
  figures_->setWordWrap(true);
  figures_->setTextFormat(Qt::RichText);
  figures_->setTextInteractionFlags(Qt::TextBrowserInteraction);
  figures_->setAccessibleName(tr("Solved figures"));
  connect(figures_, &QLabel::linkActivated, this, [this](const QString& key) {
    // Without a key the numbers of what is picked are listed.
    bench_.look.askWhy(key == QStringLiteral("all") ? QString() : key);
  });
  column->addWidget(figures_);
  column->addStretch(1);
  scroll_->setWidget(form_);
}

void PropertiesPanel::addRow(QFormLayout* layout, const PropertyRow& row) {
  Row& made = rows_[row.path];
  made.shown = row;
  const std::string path = row.path;
  const QString help = wrapped(text(tooltipOf(row)));
  const QString name = text(row.name);
  switch (row.editor) {
    case RowEditor::Add:
    case RowEditor::Remove: {
      auto* button = new QPushButton(name, form_);
      button->setToolTip(help);
      made.editor = button;
      connect(button, &QPushButton::clicked, this, [this, path] { change(path, {}); });
      made.refused = new QLabel(form_);
      layout->addRow(button);
      layout->addRow(made.refused);
      made.refused->setWordWrap(true);
      made.refused->hide();
      return;
    }
    case RowEditor::Choice:
    case RowEditor::YesNo: {
      QComboBox* box = choiceBox(form_);
      if (row.editor == RowEditor::YesNo) {
        box->addItem(tr("yes"), QStringLiteral("yes"));
        box->addItem(tr("no"), QStringLiteral("no"));
      } else {
        for (const auto& [key, words] : row.choices) {
          box->addItem(text(words), text(key));
          const std::string in_file = row.keys_in_file ? key : std::string();
          box->setItemData(box->count() - 1, wrapped(text(explained(words, {}, in_file))), Qt::ToolTipRole);
        }
      }
      made.editor = box;
      connect(box, &QComboBox::activated, this,
              [this, path, box] { change(path, box->currentData().toString()); });
      break;
    }
    case RowEditor::Several: {
      auto* list = new TickList(row.choices, form_);
      made.editor = list;
      connect(list, &TickList::ticked, this, [this, path, list] { change(path, list->keys()); });
      break;
    }
    case RowEditor::Lines: {
      auto* lines = new Lines(form_);
      lines->setTabChangesFocus(true);
      lines->setMaximumHeight(110);
      lines->setPlaceholderText(text(row.example));
      lines->left = [this, path, lines] { change(path, lines->toPlainText()); };
      made.editor = lines;
      break;
    }
    case RowEditor::Text:
    case RowEditor::Quantity:
    case RowEditor::Fixed: {
      auto* line = new QLineEdit(form_);
      line->setPlaceholderText(row.example.empty() ? QString()
                               : row.optional      ? tr("not said (%1)").arg(text(row.example))
                                                   : text(row.example));
      line->setReadOnly(row.editor == RowEditor::Fixed);
      made.editor = line;
      connect(line, &QLineEdit::editingFinished, this, [this, path, line] { change(path, line->text()); });
      break;
    }
  }
  made.editor->setToolTip(help);
  made.editor->setAccessibleName(name);
  made.editor->setObjectName(text(path));
  made.editor->installEventFilter(this);
  auto* label = new QLabel(name, form_);
  label->setToolTip(help);
  label->setWordWrap(true);
  label->setBuddy(made.editor);
  // A form cuts off what wraps beside its field: a long name stands above it.
  constexpr int kBeside = 120;
  const bool above =
      row.editor == RowEditor::Several || label->fontMetrics().horizontalAdvance(name) > kBeside;
  QWidget* field = made.editor;
  if (row.editor == RowEditor::Quantity) {
    field = new QWidget(form_);
    auto* both = new QHBoxLayout(field);
    both->setContentsMargins(0, 0, 0, 0);
    both->addWidget(made.editor, 1);
    made.standing = choiceBox(field);
    for (const base::Standing standing :
         {base::Standing::Measured, base::Standing::Published, base::Standing::Maker, base::Standing::Assumed,
          base::Standing::Estimated}) {
      const QString word = text(std::string(base::toText(standing)));
      made.standing->addItem(word, word);
      made.standing->setItemData(made.standing->count() - 1,
                                 text(std::string(choiceWords("standing", base::toText(standing)))),
                                 Qt::ToolTipRole);
    }
    made.standing->setAccessibleName(tr("How %1 is known").arg(name));
    made.standing->setToolTip(tr("How it is known: it decides how sure the answer is."));
    both->addWidget(made.standing);
    connect(made.standing, &QComboBox::activated, this,
            [this, path] { change(path + "#standing", rows_.at(path).standing->currentData().toString()); });
  }
  if (above) {
    layout->addRow(label);
    layout->addRow(field);
  } else {
    layout->addRow(label, field);
  }
  if (row.editor == RowEditor::Quantity) {
    made.source = new QLineEdit(form_);
    made.source->setPlaceholderText(tr("source: who says so, read with what"));
    made.source->setAccessibleName(tr("Source of %1").arg(name));
    made.source->installEventFilter(this);
    connect(made.source, &QLineEdit::editingFinished, this,
            [this, path] { change(path + "#source", rows_.at(path).source->text()); });
    layout->addRow(made.source);
  }
  made.refused = new QLabel(form_);
  made.refused->setWordWrap(true);
  made.refused->hide();
  layout->addRow(made.refused);
}

}  // namespace kerfdraft::desk
