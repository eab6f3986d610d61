// What is typed stays in the panel until it is applied; every slip is told below it at once.
#include "desk/panels/fan_panel.h"

#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QPainter>
#include <QScrollArea>
#include <algorithm>

#include "desk/panels/curve_tracing.h"
#include "drawing/chart.h"
#include "drawing/style.h"
#include "paint/painter.h"

namespace kerfdraft::desk {
namespace {

constexpr double kPxPerMm = 4.0;
constexpr int kSpareRows = 2;
constexpr qint64 kLargestTable = 1'000'000;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

QLabel* wrapped(QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  return label;
}

QLabel* heading(const QString& words, QWidget* parent) {
  auto* label = wrapped(parent);
  label->setText(words);
  QFont font = label->font();
  font.setBold(true);
  label->setFont(font);
  return label;
}

QString lines(const std::vector<std::string>& all) {
  QStringList out;
  out.reserve(static_cast<qsizetype>(all.size()));
  for (const std::string& one : all) {
    out << text(one);
  }
  return out.join(QStringLiteral("\n"));
}

}  // namespace

FanPicture::FanPicture(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setMinimumHeight(230);
  setAccessibleName(tr("The fan's curve"));
  connect(&bench_.look, &Look::tonesChanged, this, [this] { update(); });
  connect(&bench_.look, &Look::unitsChanged, this, [this] { update(); });
}

void FanPicture::show(std::optional<drawing::Chart> chart) {
  chart_ = std::move(chart);
  setVisible(chart_.has_value());
  setAccessibleDescription(chart_ ? text(chart_->description) : QString());
  update();
}

void FanPicture::paintEvent(QPaintEvent* /*event*/) {
  if (!chart_) {
    return;
  }
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), paint::shown(drawing::kWhite, bench_.look.tones()));
  const drawing::ChartSize size{std::max(60.0, width() / kPxPerMm), std::max(50.0, height() / kPxPerMm)};
  paint::draw(painter, drawing::drawChart(*chart_, bench_.look.units(), size), kPxPerMm, bench_.look.tones());
}

FanPanel::FanPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  auto* outer = new QVBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  outer->addWidget(scroll);
  auto* inside = new QWidget(scroll);
  scroll->setWidget(inside);
  auto* top = new QVBoxLayout(inside);
  title_ = heading({}, inside);
  top->addWidget(title_);
  body_ = new QWidget(inside);
  top->addWidget(body_);
  top->addStretch(1);
  auto* column = new QVBoxLayout(body_);
  column->setContentsMargins(0, 0, 0, 0);
  buildTable(column);
  buildQuestions(column);
  says_ = wrapped(body_);
  says_->setObjectName(QStringLiteral("says"));
  column->addWidget(says_);
  picture_ = new FanPicture(bench_, body_);
  column->addWidget(picture_);
  auto* row = new QHBoxLayout;
  apply_ = new QPushButton(tr("Put it in the project"), body_);
  apply_->setObjectName(QStringLiteral("apply"));
  undo_typed_ = new QPushButton(tr("Back to what is there"), body_);
  row->addWidget(apply_);
  row->addWidget(undo_typed_);
  column->addLayout(row);
  auto* compare = new QPushButton(tr("What if the pressure was another?"), body_);
  compare->setToolTip(tr("Solves the state that is shown with these numbers read in each of the four ways."));
  column->addWidget(compare);
  compared_ = wrapped(body_);
  compared_->setObjectName(QStringLiteral("compared"));
  column->addWidget(compared_);
  buildTest(column);
  connect(apply_, &QPushButton::clicked, this, &FanPanel::apply);
  connect(undo_typed_, &QPushButton::clicked, this, [this] { showFan(true); });
  connect(compare, &QPushButton::clicked, this, &FanPanel::compareBases);
  connect(&bench_.document, &Document::projectChanged, this, [this] { showFan(false); });
  connect(&bench_.look, &Look::selectionChanged, this, [this] { showFan(false); });
  connect(&bench_.look, &Look::stateChanged, this, &FanPanel::forgetCompared);
  connect(&bench_.look, &Look::trialChanged, this, &FanPanel::forgetCompared);
  connect(&bench_.look, &Look::unitsChanged, this, [this] {
    forgetCompared();
    explain();
  });
  showFan(true);
}

void FanPanel::buildTable(QVBoxLayout* column) {
  table_ = new QTableWidget(0, 3, body_);
  table_->setObjectName(QStringLiteral("points"));
  table_->setAccessibleName(tr("Points of the curve, by rising flow"));
  table_->setHorizontalHeaderLabels({tr("Flow"), tr("Pressure"), tr("Power, if known")});
  table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  table_->verticalHeader()->setDefaultSectionSize(table_->fontMetrics().height() + 8);
  table_->setMinimumHeight(170);
  table_->setToolTip(
      tr("Points of the maker's curve, in the order of rising flow, each with its unit: 400 cfm, "
         "8 in w.g. or 700 m3/h, 2000 Pa. Power is that at the shaft."));
  table_->setTabKeyNavigation(false);
  column->addWidget(table_);
  auto* row = new QHBoxLayout;
  auto* open = new QPushButton(tr("Open a table …"), body_);
  open->setToolTip(tr("A text file of flow, pressure and power; units in the cells or in the head."));
  auto* paste = new QPushButton(tr("Paste a table"), body_);
  auto* trace_button = new QPushButton(tr("Trace a picture …"), body_);
  trace_button->setToolTip(tr("Click along the curve in a picture of the maker's chart."));
  row->addWidget(open);
  row->addWidget(paste);
  row->addWidget(trace_button);
  column->addLayout(row);
  connect(table_, &QTableWidget::cellChanged, this, &FanPanel::edited);
  connect(open, &QPushButton::clicked, this, &FanPanel::openTable);
  connect(trace_button, &QPushButton::clicked, this, &FanPanel::trace);
  connect(paste, &QPushButton::clicked, this,
          [this] { takeTable(QApplication::clipboard()->text(), tr("what was copied")); });
}

void FanPanel::buildQuestions(QVBoxLayout* column) {
  auto* form = new QFormLayout;
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  const auto line = [&](const QString& label, const char* name, const QString& tip) {
    auto* edit = new QLineEdit(body_);
    edit->setObjectName(QString::fromLatin1(name));
    edit->setAccessibleName(label);
    edit->setToolTip(tip);
    form->addRow(label, edit);
    connect(edit, &QLineEdit::textEdited, this, &FanPanel::edited);
    return edit;
  };
  const auto choice = [&](const QString& label, const char* name) {
    auto* box = new QComboBox(body_);
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(label);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->installEventFilter(this);
    form->addRow(label, box);
    connect(box, &QComboBox::currentIndexChanged, this, &FanPanel::edited);
    return box;
  };
  free_air_ = line(tr("Label: flow"), "free-air",
                   tr("Air with nothing connected, as the label says. Used only where there are no points."));
  suction_ = line(tr("Label: suction"), "suction",
                  tr("Suction with the inlet shut, as the label says. Used only where there are no points."));
  filling_ = true;
  basis_ = choice(tr("The pressure is"), "basis");
  for (const shop::RatingBasis basis : kBases) {
    basis_->addItem(text(askedBasis(basis).name));
  }
  basis_help_ = wrapped(body_);
  form->addRow(basis_help_);
  bore_ = line(tr("Bore of the test pipe"), "bore", tr("Inside of the pipe that the gauge sat in."));
  fitted_ = choice(tr("Fitted in the test"), "fitted");
  for (const shop::Fitted fitted : kFittings) {
    fitted_->addItem(text(askedFitted(fitted).name));
  }
  fitted_help_ = wrapped(body_);
  form->addRow(fitted_help_);
  density_ = line(tr("Density of the air"), "density",
                  tr("Of the test, 1.1 kg/m3 or 0.07 lb/ft3. Empty: standard air, 0.075 lb/ft3."));
  speed_ = line(tr("Speed of the wheel"), "speed",
                tr("In the test, 3450 rpm. Needed only where it runs at another speed here."));
  standing_ = choice(tr("New numbers are"), "standing");
  standing_->setToolTip(tr("Of what you change here; the rest keeps where it comes from."));
  for (const QString& word : {tr("measured here"), tr("from a published test"), tr("from its maker"),
                              tr("assumed"), tr("estimated")}) {
    standing_->addItem(word);
  }
  source_ = line(tr("Where it stands"), "source", tr("Leaflet, page, date: so that it can be found again."));
  filling_ = false;
  column->addLayout(form);
}

void FanPanel::buildTest(QVBoxLayout* column) {
  column->addWidget(heading(tr("Two minutes with the inlet shut"), body_));
  auto* steps = wrapped(body_);
  steps->setText(lines(shutInletSteps()));
  column->addWidget(steps);
  auto* row = new QHBoxLayout;
  reading_ = new QLineEdit(body_);
  reading_->setObjectName(QStringLiteral("reading"));
  reading_->setAccessibleName(tr("Suction read with the inlet shut"));
  auto* label = new QLabel(tr("It &showed"), body_);
  label->setBuddy(reading_);
  auto* add = new QPushButton(tr("Take this reading"), body_);
  row->addWidget(label);
  row->addWidget(reading_, 1);
  row->addWidget(add);
  column->addLayout(row);
  connect(add, &QPushButton::clicked, this, &FanPanel::addReading);
  connect(reading_, &QLineEdit::returnPressed, this, &FanPanel::addReading);
}

bool FanPanel::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::Wheel && qobject_cast<QComboBox*>(watched) != nullptr) {
    event->ignore();
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

void FanPanel::showFan(bool anew) {
  const auto found = fanThing(bench_.document.project(), bench_.look.selection());
  body_->setVisible(found.has_value());
  forgetCompared();
  if (!found) {
    thing_.reset();
    title_->setText(text(found.error().text()));
    return;
  }
  // What is half typed is not thrown away by an edit elsewhere.
  const bool another = !thing_ || thing_->id != found->id;
  const TypedFan now = typedFan(found->rating);
  const bool untouched = !another && typed() == shown_;
  thing_ = *found;
  title_->setText(tr("Fan of %1").arg(text(found->name)));
  if (anew || another || untouched) {
    shown_ = now;
    fill(now);
  }
  explain();
}

void FanPanel::fill(const TypedFan& typed) {
  filling_ = true;
  table_->setRowCount(static_cast<int>(typed.points.size()) + kSpareRows);
  for (int r = 0; r < table_->rowCount(); ++r) {
    for (int c = 0; c < 3; ++c) {
      const auto row = static_cast<std::size_t>(r);
      const bool given = row < typed.points.size();
      table_->setItem(
          r, c,
          new QTableWidgetItem(given ? text(typed.points[row][static_cast<std::size_t>(c)]) : QString()));
    }
  }
  free_air_->setText(text(typed.free_air_flow));
  suction_->setText(text(typed.greatest_suction));
  const auto index = [](const auto& all, auto value) {
    return static_cast<int>(std::find(all.begin(), all.end(), value) - all.begin());
  };
  basis_->setCurrentIndex(index(kBases, typed.basis));
  fitted_->setCurrentIndex(index(kFittings, typed.fitted));
  bore_->setText(text(typed.test_bore));
  density_->setText(text(typed.density));
  speed_->setText(text(typed.speed));
  standing_->setCurrentIndex(static_cast<int>(typed.standing));
  source_->setText(text(typed.source));
  filling_ = false;
}

TypedFan FanPanel::typed() const {
  const auto said = [](const QLineEdit* line) { return line->text().trimmed().toStdString(); };
  TypedFan out;
  out.basis = kBases.at(static_cast<std::size_t>(std::max(0, basis_->currentIndex())));
  out.fitted = kFittings.at(static_cast<std::size_t>(std::max(0, fitted_->currentIndex())));
  out.points.reserve(static_cast<std::size_t>(table_->rowCount()));
  for (int r = 0; r < table_->rowCount(); ++r) {
    TypedPoint point;
    for (int c = 0; c < 3; ++c) {
      const QTableWidgetItem* item = table_->item(r, c);
      point[static_cast<std::size_t>(c)] =
          item == nullptr ? std::string() : item->text().trimmed().toStdString();
    }
    out.points.push_back(std::move(point));
  }
  while (!out.points.empty() && out.points.back() == TypedPoint{}) {
    out.points.pop_back();
  }
  out.free_air_flow = said(free_air_);
  out.greatest_suction = said(suction_);
  out.test_bore = said(bore_);
  out.density = said(density_);
  out.speed = said(speed_);
  out.standing = static_cast<base::Standing>(std::max(0, standing_->currentIndex()));
  out.source = said(source_);
  return out;
}

void FanPanel::edited() {
  if (filling_) {
    return;
  }
  filling_ = true;
  const int used = static_cast<int>(typed().points.size());
  table_->setRowCount(std::max(table_->rowCount(), used + kSpareRows));
  filling_ = false;
  forgetCompared();
  explain();
}

void FanPanel::explain() {
  if (!thing_) {
    return;
  }
  const TypedFan now = typed();
  const bool us = bench_.look.units() == base::UnitSystem::Us;
  reading_->setPlaceholderText(us ? tr("8 in w.g.") : tr("2000 Pa"));
  bore_->setPlaceholderText(us ? tr("6 in") : tr("150 mm"));
  basis_help_->setText(text(askedBasis(now.basis).help));
  fitted_help_->setText(text(askedFitted(now.fitted).help));
  const bool changed = !(now == shown_);
  undo_typed_->setEnabled(changed);
  const auto rating = readFan(now, thing_->rating);
  apply_->setEnabled(rating && !(*rating == thing_->rating) && !bench_.document.isReadOnly());
  if (!rating) {
    QStringList slips;
    slips.reserve(static_cast<qsizetype>(rating.error().size()));
    for (const base::Error& error : rating.error()) {
      slips << tr("Not yet: %1").arg(text(error.text()));
    }
    says_->setText(slips.join(QStringLiteral("\n")));
    picture_->show(std::nullopt);
    return;
  }
  const auto chart = fanEntryChart(*thing_, *rating);
  std::vector<std::string> remarks = fanRemarks(*thing_, *rating, bench_.look.units());
  if (!chart) {
    remarks.push_back("Not yet: " + chart.error().text());
  }
  says_->setText(lines(remarks));
  picture_->show(chart ? std::optional(*chart) : std::nullopt);
}

bool FanPanel::takeTable(const QString& table, const QString& name) {
  const auto points = pointsFromTable(table.toStdString(), name.toStdString());
  if (!points) {
    says_->setText(text(points.error().text()));
    return false;
  }
  takePoints(*points);
  return true;
}

void FanPanel::openTable() {
  const QString path = QFileDialog::getOpenFileName(this, tr("Open a table of the curve"), {},
                                                    tr("Tables (*.csv *.txt *.tsv);;All files (*)"));
  if (path.isEmpty()) {
    return;
  }
  QFile file(path);
  const QString name = QFileInfo(path).fileName();
  if (!file.open(QIODevice::ReadOnly)) {
    says_->setText(tr("%1 cannot be read: %2").arg(name, file.errorString()));
  } else if (file.size() > kLargestTable) {
    says_->setText(tr("%1 is larger than 1 MB: no table of one fan.").arg(name));
  } else {
    takeTable(QString::fromUtf8(file.readAll()), name);
  }
}

void FanPanel::addReading() {
  if (!thing_) {
    return;
  }
  const auto rating = readFan(typed(), thing_->rating);
  if (!rating) {
    says_->setText(tr("First mend this: %1").arg(text(rating.error().front().text())));
    return;
  }
  const auto with =
      withShutInlet(*thing_, *rating, reading_->text().trimmed().toStdString(), bench_.look.units());
  if (!with) {
    says_->setText(text(with.error().text()));
    return;
  }
  if (make(*with)) {
    reading_->clear();
  }
}

bool FanPanel::make(const shop::FanRating& rating) {
  const auto change = applyFan(bench_.document.project(), *thing_, rating);
  const auto made = change ? bench_.document.make(text(change->words), change->edits)
                           : base::Result<void>(base::Failure(change.error()));
  if (!made) {
    says_->setText(text(made.error().text()));
    return false;
  }
  showFan(true);
  return true;
}

bool FanPanel::apply() {
  if (!thing_) {
    return false;
  }
  const auto rating = readFan(typed(), thing_->rating);
  if (!rating) {
    explain();
    return false;
  }
  return make(*rating);
}

void FanPanel::compareBases() {
  if (!thing_) {
    return;
  }
  const auto rating = readFan(typed(), thing_->rating);
  if (!rating) {
    explain();
    return;
  }
  shop::Project project = bench_.document.project();
  if (bench_.look.trial()) {
    project.states.push_back(*bench_.look.trial());
  }
  compared_->setText(tr("Solving the state that is shown, once for each way of reading …"));
  // Copies go along: the panel may change, or be gone, before the answer is there.
  compare_.ask(
      [project = std::move(project), catalogue = bench_.catalogue, thing = *thing_, rating = *rating,
       state = bench_.look.state(), units = bench_.look.units()](const Aside::Wanted& wanted) {
        return basisSentences(tryBases(project, *catalogue, thing, rating, state, wanted), rating.basis,
                              units);
      },
      [this](const std::vector<std::string>& sentences) { compared_->setText(lines(sentences)); });
}

void FanPanel::forgetCompared() {
  compare_.drop();
  compared_->clear();
}

void FanPanel::trace() {
  auto* window = new CurveTracing(bench_, this);
  window->setWindowFlag(Qt::Window);
  window->setAttribute(Qt::WA_DeleteOnClose);
  connect(window, &CurveTracing::traced, this, &FanPanel::takePoints);
  window->resize(820, 680);
  window->show();
}

void FanPanel::takePoints(const std::vector<TypedPoint>& points) {
  TypedFan now = typed();
  now.points = points;
  fill(now);
  edited();
}

}  // namespace kerfdraft::desk
