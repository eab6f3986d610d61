// A chart is made when it is to be seen, and anew after what it shows has changed.
#include "desk/panels/charts_panel.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QMouseEvent>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "drawing/style.h"
#include "drawing/svg.h"
#include "files/save.h"
#include "paint/painter.h"

namespace kerfdraft::desk {
namespace {

constexpr double kPxPerMm = 4.2;
constexpr double kLeast_mm = 60;

}  // namespace

ChartView::ChartView(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setMouseTracking(true);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumHeight(220);
  setAccessibleName(tr("Chart; the arrow keys read values along it"));
  connect(&bench_.live, &Live::shown, this, &ChartView::invalidate);
  connect(&bench_.live, &Live::solved, this, &ChartView::invalidate);
  connect(&bench_.live, &Live::judged, this, &ChartView::invalidate);
  connect(&bench_.look, &Look::stateChanged, this, &ChartView::invalidate);
  connect(&bench_.look, &Look::unitsChanged, this, &ChartView::invalidate);
  connect(&bench_.look, &Look::selectionChanged, this, &ChartView::invalidate);
  connect(&bench_.look, &Look::tonesChanged, this, [this] { update(); });
}

void ChartView::setKind(ChartKind kind) {
  kind_ = kind;
  pointer_.reset();
  invalidate();
}

void ChartView::invalidate() {
  chart_.reset();
  update();
}

const ShownChart& ChartView::chart() {
  if (!chart_) {
    const drawing::ChartSize size{std::max(kLeast_mm, width() / kPxPerMm),
                                  std::max(kLeast_mm, height() / kPxPerMm)};
    const auto& solved = bench_.live.of(bench_.look.state());
    chart_ = chartOf(solved ? *solved : Solved{}, bench_.look.state(), kind_, bench_.look.selection(),
                     bench_.look.units(), size);
    setAccessibleDescription(QString::fromStdString(chart_->picture.description));
    readBack(pointer_);
  }
  return *chart_;
}

void ChartView::readBack(std::optional<drawing::At> pointer) {
  pointer_ = pointer;
  reading_ = pointer && chart_ ? readAt(*chart_, *pointer) : std::nullopt;
  emit read(reading_ ? QString::fromStdString(reading_->text) : QString());
  update();
}

void ChartView::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const paint::Tones tones = bench_.look.tones();
  painter.fillRect(rect(), paint::shown(drawing::kWhite, tones));
  paint::draw(painter, chart().picture, kPxPerMm, tones);
  if (reading_) {
    const QPointF at(reading_->at_mm.x * kPxPerMm, reading_->at_mm.y * kPxPerMm);
    const drawing::Box& plot = chart_->frame->plot_mm;
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1, Qt::DashLine));
    painter.drawLine(QPointF(at.x(), plot.top * kPxPerMm), QPointF(at.x(), plot.bottom * kPxPerMm));
    painter.drawLine(QPointF(plot.left * kPxPerMm, at.y()), QPointF(plot.right * kPxPerMm, at.y()));
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 2));
    painter.drawEllipse(at, 4, 4);
  }
  if (hasFocus()) {
    painter.setPen(QPen(paint::shown(drawing::kBlue, tones), 1));
    painter.drawRect(rect().adjusted(0, 0, -1, -1));
  }
}

void ChartView::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  pointer_.reset();
  invalidate();
}

void ChartView::mouseMoveEvent(QMouseEvent* event) {
  chart();
  readBack(drawing::At{event->position().x() / kPxPerMm, event->position().y() / kPxPerMm});
}

void ChartView::leaveEvent(QEvent* event) {
  QWidget::leaveEvent(event);
  readBack(std::nullopt);
}

void ChartView::keyPressEvent(QKeyEvent* event) {
  const ShownChart& shown = chart();
  const bool sideways = event->key() == Qt::Key_Left || event->key() == Qt::Key_Right;
  if (!sideways || !shown.frame || shown.frame->plot_mm.empty()) {
    QWidget::keyPressEvent(event);
    return;
  }
  constexpr double kStep = 0.02;
  const drawing::Box& plot = shown.frame->plot_mm;
  drawing::At at = pointer_.value_or(drawing::At{plot.left, (plot.top + plot.bottom) / 2});
  at.x = std::clamp(at.x + (event->key() == Qt::Key_Right ? kStep : -kStep) * plot.width(), plot.left,
                    plot.right);
  readBack(at);
}

ChartsPanel::ChartsPanel(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  kind_ = new QComboBox(this);
  kind_->addItem(tr("What the fan does"));
  kind_->addItem(tr("Where the pressure goes"));
  kind_->addItem(tr("Speed against need"));
  kind_->setAccessibleName(tr("Which chart"));
  auto* save = new QPushButton(tr("Save it …"), this);
  view_ = new ChartView(bench_, this);
  reading_ = new QLabel(this);
  reading_->setWordWrap(true);
  auto* row = new QHBoxLayout;
  row->addWidget(kind_, 1);
  row->addWidget(save);
  auto* column = new QVBoxLayout(this);
  column->addLayout(row);
  column->addWidget(view_, 1);
  column->addWidget(reading_);
  const QString rest = tr("Move the pointer over the chart, or use the arrow keys, to read values.");
  reading_->setText(rest);
  connect(view_, &ChartView::read, this,
          [this, rest](const QString& text) { reading_->setText(text.isEmpty() ? rest : text); });
  connect(kind_, &QComboBox::currentIndexChanged, this,
          [this](int at) { view_->setKind(static_cast<ChartKind>(at)); });
  connect(save, &QPushButton::clicked, this, &ChartsPanel::save);
}

void ChartsPanel::save() {
  const QString path =
      QFileDialog::getSaveFileName(this, tr("Save the chart"), {}, tr("Pictures (*.svg *.pdf *.png)"));
  if (path.isEmpty()) {
    return;
  }
  const std::filesystem::path file(path.toStdString());
  const QString kind = QFileInfo(path).suffix().toLower();
  const drawing::Picture& picture = view_->chart().picture;
  const base::Result<void> written =
      kind == QStringLiteral("svg")   ? files::replaceFile(file, drawing::toSvg(picture), files::Backup::None)
      : kind == QStringLiteral("pdf") ? paint::writePdf({picture}, file)
      : kind == QStringLiteral("png")
          ? paint::writePng(picture, file)
          : base::fail(base::ErrorCode::Unsupported, "a picture is saved as .svg, .pdf or .png",
                       file.filename().string());
  reading_->setText(written ? tr("Saved as %1").arg(QFileInfo(path).fileName())
                            : QString::fromStdString(written.error().text()));
}

}  // namespace kerfdraft::desk
