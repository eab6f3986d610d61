// Nothing typed here is lost by a refusal: the sentence stands below its field, the fields stay.
#include "desk/panels/start_panel.h"

#include <QCompleter>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QVBoxLayout>

#include "catalogue/machines.h"
#include "desk/tools/sketching.h"

namespace kerfdraft::desk {
namespace {

constexpr int kPageWidth_px = 760;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

std::string typed(const QLineEdit* line) {
  return line->text().trimmed().toStdString();
}

QLabel* words(const QString& sentence, QWidget* parent) {
  auto* label = new QLabel(sentence, parent);
  label->setWordWrap(true);
  return label;
}

/// A page that scrolls where the window is small.
QWidget* scrolled(QWidget* page, QWidget* parent) {
  auto* area = new QScrollArea(parent);
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  page->setMaximumWidth(kPageWidth_px);
  area->setAlignment(Qt::AlignHCenter | Qt::AlignTop);
  area->setWidget(page);
  return area;
}

}  // namespace

StartPanel::StartPanel(Bench bench, QWidget* parent)
    : QWidget(parent), bench_(std::move(bench)), examples_(examples()) {
  setAccessibleName(tr("How to begin"));
  ways_ = new QButtonGroup(this);
  pages_ = new QStackedWidget(this);
  auto* row = new QHBoxLayout;
  row->addStretch();
  int at = 0;
  for (const QString& name :
       {tr("Look at an example"), tr("Answer a few questions"), tr("Two minutes, without drawing")}) {
    auto* button = new QPushButton(name, this);
    button->setCheckable(true);
    ways_->addButton(button, at++);
    row->addWidget(button);
  }
  auto* draw = new QPushButton(tr("Draw the room yourself"), this);
  row->addWidget(draw);
  row->addStretch();
  pages_->addWidget(scrolled(examplesPage(), pages_));
  pages_->addWidget(scrolled(questionsPage(), pages_));
  pages_->addWidget(scrolled(linePage(), pages_));
  // As rich text its size follows that of all text.
  auto* head = words(
      tr("<span style=\"font-size:x-large\">What air does every machine in a workshop get, and what is to "
         "be done about it?</span>"),
      this);
  head->setTextFormat(Qt::RichText);
  head->setAlignment(Qt::AlignHCenter);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(24, 24, 24, 12);
  column->setSpacing(14);
  column->addWidget(head);
  column->addLayout(row);
  column->addWidget(pages_, 1);
  connect(ways_, &QButtonGroup::idClicked, pages_, &QStackedWidget::setCurrentIndex);
  connect(draw, &QPushButton::clicked, this, &StartPanel::emptyAsked);
  showPage(0);
}

void StartPanel::begin() {
  units_->setCurrentIndex(bench_.look.units() == base::UnitSystem::Us ? 0 : 1);
  showUnits();
  showLineUnits();
  showPage(0);
  list_->setFocus();
}

void StartPanel::showPage(int page) {
  if (QAbstractButton* button = ways_->button(page)) {
    button->setChecked(true);
    pages_->setCurrentIndex(page);
  }
}

QString StartPanel::said() const {
  QStringList said;
  if (pages_->currentIndex() == 1) {
    said = beside_.said();
    said << refused_->text();
  } else if (pages_->currentIndex() == 2) {
    said = beside_line_.said();
    said << answer_->text();
  }
  said.removeAll(QString());
  return said.join(QLatin1Char('\n'));
}

// ------------------------------------------------------------------------------------------------ examples

QWidget* StartPanel::examplesPage() {
  auto* page = new QWidget(this);
  list_ = new QListWidget(page);
  list_->setAccessibleName(tr("Examples"));
  for (const ExampleRow& row : examples_) {
    list_->addItem(text(row.name));
  }
  teaches_ = words({}, page);
  teaches_->setMinimumHeight(teaches_->fontMetrics().height() * 5);
  teaches_->setAlignment(Qt::AlignTop);
  auto* open = new QPushButton(tr("Open it"), page);
  auto* column = new QVBoxLayout(page);
  column->addWidget(words(tr("All shops are invented. Close a gate, and see what happens."), page));
  column->addWidget(list_, 1);
  column->addWidget(teaches_);
  column->addWidget(open, 0, Qt::AlignRight);
  connect(list_, &QListWidget::currentRowChanged, this, [this](int at) {
    teaches_->setText(at < 0 ? QString() : text(examples_[static_cast<std::size_t>(at)].teaches));
  });
  connect(list_, &QListWidget::itemActivated, this, &StartPanel::openPicked);
  connect(open, &QPushButton::clicked, this, &StartPanel::openPicked);
  if (!examples_.empty()) {
    list_->setCurrentRow(static_cast<int>(examples_.size()) - 1);
  }
  return page;
}

void StartPanel::openPicked() {
  const int at = list_->currentRow();
  if (at >= 0) {
    if (const auto project = openExample(examples_[static_cast<std::size_t>(at)].file)) {
      emit shopMade(*project, false);
    } else {
      teaches_->setText(text(project.error().text()));
    }
  }
}

// ----------------------------------------------------------------------------------------------- questions

QWidget* StartPanel::questionsPage() {
  auto* page = new QWidget(this);
  auto* form = new QFormLayout(page);
  form->setRowWrapPolicy(QFormLayout::DontWrapRows);
  const auto line = [&](const QString& question, const QString& why, const char* object) {
    auto* edit = new QLineEdit(page);
    edit->setObjectName(QLatin1String(object));
    edit->setToolTip(why);
    form->addRow(question, edit);
    const QString name = edit->objectName();
    beside_.add(name, edit, form);
    connect(edit, &QLineEdit::textEdited, this, [this, name] { beside_.clear(name); });
    return edit;
  };
  form->addRow(
      words(tr("What is left empty is taken as it stands there in grey, and marked as assumed."), page));
  name_ = line(tr("Name of the shop"), tr("It stands on every paper."), "name");
  who_ = new QComboBox(page);
  who_->addItems({tr("a private shop"), tr("a business of one person"), tr("a business with employees"),
                  tr("a school or college")});
  who_->setToolTip(tr("It decides which rules bind and how severe a finding is."));
  form->addRow(tr("Who works there"), who_);
  country_ =
      line(tr("Country, two letters"), tr("It decides whose limits are held against the air."), "country");
  country_->setPlaceholderText(QStringLiteral("US, DE, GB …"));
  units_ = new QComboBox(page);
  units_->addItems({tr("feet, inches, cfm, inches of water"), tr("metres, millimetres, m³/h, pascals")});
  form->addRow(tr("Shown in"), units_);
  width_ =
      line(tr("Room, east to west"),
           tr("The collector stands in the middle of this wall, the machines along the walls."), "width");
  depth_ = line(tr("Room, north to south"), {}, "depth");
  height_ = line(tr("Ceiling"), tr("Ducts hang a foot below it; drops are as long as that."), "height");
  altitude_ = line(tr("Above the sea"), tr("Thin air carries fewer chips and gives a fan less pressure."),
                   "altitude");
  temperature_ =
      line(tr("Temperature there"), tr("With the altitude it gives the air's density."), "temperature");
  kind_ = new QComboBox(page);
  kind_->setEditable(true);
  kind_->setInsertPolicy(QComboBox::NoInsert);
  kind_->setObjectName(QStringLiteral("kind"));
  kind_->setAccessibleName(tr("Kind of machine"));
  if (const auto kinds = bench_.catalogue->table("machine_kinds")) {
    for (const catalogue::Row& each : (*kinds)->rows()) {
      kind_->addItem(text(each.name), text(each.key));
    }
  }
  if (QCompleter* completer = kind_->completer()) {
    completer->setFilterMode(Qt::MatchContains);
    completer->setCompletionMode(QCompleter::PopupCompletion);
  }
  count_ = new QSpinBox(page);
  count_->setRange(1, 12);
  count_->setAccessibleName(tr("How many of them"));
  auto* add = new QPushButton(tr("Add"), page);
  add->setObjectName(QStringLiteral("add"));
  auto* take = new QPushButton(tr("Take off"), page);
  auto* which = new QHBoxLayout;
  which->addWidget(kind_, 1);
  which->addWidget(count_);
  which->addWidget(add);
  which->addWidget(take);
  form->addRow(tr("Machines"), which);
  beside_.add(QStringLiteral("machines"), kind_, form);
  machines_ = new QListWidget(page);
  machines_->setAccessibleName(tr("Machines in the shop"));
  machines_->setMaximumHeight(90);
  form->addRow(QString(), machines_);
  fan_ = new QComboBox(page);
  fan_->addItem(tr("I know what its label says"), QString());
  if (const auto fans = bench_.catalogue->table("test_fans")) {
    for (const catalogue::Row& each : (*fans)->rows()) {
      if (const auto fan = catalogue::testFan(*bench_.catalogue, each.key)) {
        fan_->addItem(tr("like an invented one: %1").arg(text(fan->like)), text(fan->key));
      }
    }
  }
  // An answer that stands without knowing anything; who has the label chooses the first.
  fan_->setCurrentIndex(std::min(2, fan_->count() - 1));
  fan_->setToolTip(tr("The maker's curve is better than any of these: put it in afterwards."));
  form->addRow(tr("Collector"), fan_);
  beside_.add(QStringLiteral("fan"), fan_, form);
  label_flow_ = line(tr("Label: flow"), tr("Air with nothing connected."), "label-flow");
  label_suction_ = line(tr("Label: suction"), tr("With the inlet shut."), "label-suction");
  inlet_ = line(tr("Bore of its inlet"), tr("The main is as wide as that."), "inlet");
  refused_ = words({}, page);
  form->addRow(refused_);
  auto* make = new QPushButton(tr("Make the shop"), page);
  make->setObjectName(QStringLiteral("make"));
  form->addRow(make);
  const auto show_label = [this, form] {
    const bool label = fan_->currentData().toString().isEmpty();
    beside_.clear(QStringLiteral("fan"));
    for (QLineEdit* each : {label_flow_, label_suction_}) {
      beside_.clear(each->objectName());
      each->setVisible(label);
      form->labelForField(each)->setVisible(label);
    }
  };
  connect(fan_, &QComboBox::currentIndexChanged, page, show_label);
  connect(units_, &QComboBox::currentIndexChanged, this, &StartPanel::showUnits);
  connect(add, &QPushButton::clicked, this, &StartPanel::addMachine);
  connect(kind_->lineEdit(), &QLineEdit::returnPressed, this, &StartPanel::addMachine);
  connect(take, &QPushButton::clicked, this, [this] {
    delete machines_->currentItem();
    beside_.clear(QStringLiteral("machines"));
  });
  connect(make, &QPushButton::clicked, this, &StartPanel::makeShop);
  show_label();
  showUnits();
  return page;
}

void StartPanel::showUnits() {
  const StartAnswers usual =
      usualAnswers(units_->currentIndex() == 0 ? base::UnitSystem::Us : base::UnitSystem::Metric);
  name_->setPlaceholderText(text(usual.name));
  width_->setPlaceholderText(text(usual.width));
  depth_->setPlaceholderText(text(usual.depth));
  height_->setPlaceholderText(text(usual.height));
  altitude_->setPlaceholderText(text(usual.altitude));
  temperature_->setPlaceholderText(text(usual.temperature));
  label_flow_->setPlaceholderText(tr("as it says, like %1").arg(text(usual.label_flow)));
  label_suction_->setPlaceholderText(tr("as it says, like %1").arg(text(usual.label_suction)));
  inlet_->setPlaceholderText(tr("found from the machines; or like %1").arg(text(usual.inlet)));
}

void StartPanel::addMachine() {
  const QString asked = kind_->currentText().trimmed();
  int at = asked.isEmpty() ? -1 : kind_->findText(asked, Qt::MatchFixedString);
  if (at < 0 && !asked.isEmpty()) {
    at = kind_->findText(asked, Qt::MatchContains);
  }
  if (at < 0) {
    beside_.say(QStringLiteral("machines"),
                tr("No kind of machine is called \"%1\"; choose the nearest.").arg(asked));
    beside_.focusFirst();
    return;
  }
  kind_->setCurrentIndex(at);
  auto* item = new QListWidgetItem(tr("%1 x %2").arg(count_->value()).arg(kind_->itemText(at)), machines_);
  item->setData(Qt::UserRole, kind_->itemData(at));
  item->setData(Qt::UserRole + 1, count_->value());
  machines_->setCurrentItem(item);
  count_->setValue(1);
  beside_.clear(QStringLiteral("machines"));
}

void StartPanel::makeShop() {
  StartAnswers answers;
  answers.name = typed(name_);
  answers.who = static_cast<shop::Who>(who_->currentIndex());
  answers.country = country_->text().trimmed().toUpper().toStdString();
  answers.units = units_->currentIndex() == 0 ? base::UnitSystem::Us : base::UnitSystem::Metric;
  answers.width = typed(width_);
  answers.depth = typed(depth_);
  answers.height = typed(height_);
  answers.altitude = typed(altitude_);
  answers.temperature = typed(temperature_);
  for (int k = 0; k < machines_->count(); ++k) {
    const QListWidgetItem* item = machines_->item(k);
    answers.machines.emplace_back(item->data(Qt::UserRole).toString().toStdString(),
                                  item->data(Qt::UserRole + 1).toInt());
  }
  answers.fan = fan_->currentData().toString().toStdString();
  answers.label_flow = typed(label_flow_);
  answers.label_suction = typed(label_suction_);
  answers.inlet = typed(inlet_);
  DocumentIds ids(bench_.document);
  const auto project = shopFromAnswers(answers, *bench_.catalogue, ids);
  refuse(project ? Refusals() : project.error());
  if (project) {
    emit shopMade(*project, true);
  }
}

void StartPanel::refuse(const Refusals& refusals) {
  beside_.clear();
  QStringList rest;
  for (const Refused& each : refusals) {
    if (!beside_.say(text(each.question), text(each.sentence))) {
      rest << text(each.sentence);
    }
  }
  refused_->setText(rest.join(QLatin1Char('\n')));
  beside_.focusFirst();
}

// ----------------------------------------------------------------------------------------- without drawing

QWidget* StartPanel::linePage() {
  auto* page = new QWidget(this);
  pieces_ = new QPlainTextEdit(page);
  pieces_->setAccessibleName(tr("Pieces from the machine to the collector"));
  pieces_->setTabChangesFocus(true);
  pieces_->setMinimumHeight(pieces_->fontMetrics().height() * 8);
  curve_ = new QLineEdit(page);
  label_ = new QLineEdit(page);
  need_ = new QLineEdit(page);
  answer_ = words({}, page);
  answer_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  go_on_ = new QPushButton(tr("Go on with it as a drawing"), page);
  auto* form = new QFormLayout(page);
  like_ = words({}, page);
  form->addRow(like_);
  const auto field = [&](const QString& question, const char* name, QWidget* edit) {
    form->addRow(question, edit);
    beside_line_.add(QLatin1String(name), edit, form);
  };
  field(tr("Pieces"), "pieces", pieces_);
  field(tr("Fan's curve"), "fan", curve_);
  field(tr("or its label"), "label", label_);
  field(tr("Air it should get"), "need", need_);
  form->addRow(answer_);
  form->addRow(words(tr("Fine wood dust harms whoever breathes it, and enough of it in the air explodes: a "
                        "calculation is no protection, and local codes go before it."),
                     page));
  form->addRow(go_on_);
  connect(pieces_, &QPlainTextEdit::textChanged, this, &StartPanel::answer);
  for (QLineEdit* each : {curve_, label_, need_}) {
    connect(each, &QLineEdit::textChanged, this, &StartPanel::answer);
  }
  connect(go_on_, &QPushButton::clicked, this, [this] {
    if (answered_) {
      emit shopMade(answered_->project, true);
    }
  });
  showLineUnits();
  return page;
}

void StartPanel::showLineUnits() {
  const bool us = bench_.look.units() == base::UnitSystem::Us;
  QString like;
  for (const std::string& example : pieceExamples(bench_.look.units())) {
    like += (like.isEmpty() ? QString() : QStringLiteral("; ")) + text(example);
  }
  like_->setText(tr("One machine, one line to the collector. A piece in each line, in the order of the air, "
                    "in any unit: %1.")
                     .arg(like));
  curve_->setPlaceholderText(us ? QStringLiteral("0 cfm 6.3 in w.g., 350 cfm 4.7 in w.g., 700 cfm 0 in w.g.")
                                : QStringLiteral("0 m3/h 1570 Pa, 600 m3/h 1170 Pa, 1200 m3/h 0 Pa"));
  // What a person typed stays.
  if (!pieces_->document()->isModified()) {
    label_->setText(us ? QStringLiteral("1100 cfm 8 in w.g.") : QStringLiteral("1900 m3/h 2000 Pa"));
    need_->setText(us ? QStringLiteral("350 cfm") : QStringLiteral("600 m3/h"));
    pieces_->setPlainText(
        us ? QStringLiteral("hood 0.5\nhose 4 in 10 ft ribbed slack\nelbow 4 in\nduct 6 in 12 ft "
                            "spiral\nfilter")
           : QStringLiteral("hood 0.5\nhose 100 mm 3 m ribbed slack\nelbow 100 mm\nduct 150 mm "
                            "4 m spiral\nfilter"));
    pieces_->document()->setModified(false);
  }
}

void StartPanel::answer() {
  const auto found = answerLine(
      {pieces_->toPlainText().toStdString(), typed(curve_), typed(label_), typed(need_)}, *bench_.catalogue);
  answered_ = found ? std::optional(*found) : std::nullopt;
  go_on_->setEnabled(answered_.has_value());
  beside_line_.clear();
  if (!found) {
    // The keys stay where they are: an answer that is being typed is not wrong yet.
    const QString sentence = text(found.error().sentence);
    const bool beside = beside_line_.say(text(found.error().question), sentence);
    answer_->setText(beside ? tr("No answer yet: what is in the way stands beside its field.") : sentence);
    return;
  }
  QString shown = QStringLiteral("<p><b>%1</b></p>").arg(text(found->flow).toHtmlEscaped());
  if (!found->limit.empty()) {
    shown += QStringLiteral("<p><b>%1</b></p>").arg(text(found->limit).toHtmlEscaped());
  }
  for (const std::string& line : found->lines) {
    shown += QStringLiteral("<p>%1</p>").arg(text(line).toHtmlEscaped());
  }
  if (!found->unsure.empty()) {
    shown += QStringLiteral("<p>%1</p><ul>").arg(tr("What makes it unsure, and what would tell:"));
    for (const std::string& line : found->unsure) {
      shown += QStringLiteral("<li>%1</li>").arg(text(line).toHtmlEscaped());
    }
    shown += QStringLiteral("</ul>");
  }
  answer_->setText(shown);
}

}  // namespace kerfdraft::desk
