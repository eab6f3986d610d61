// Four places on the axes first, then the curve; what comes next is always said.
#include "desk/panels/curve_tracing.h"

#include <QApplication>
#include <QClipboard>
#include <QFileDialog>
#include <QFileInfo>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QMouseEvent>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "desk/read_picture.h"
#include "physics/fan_curve.h"

namespace kerfdraft::desk {
namespace {

constexpr double kReach_px = 8;
constexpr double kDragBegins_px = 3;
constexpr std::size_t kAxisPlaces = 4;
constexpr int kCurveSteps = 80;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

TracedPicture::TracedPicture(QWidget* parent) : QWidget(parent) {
  setMinimumSize(480, 320);
  setFocusPolicy(Qt::StrongFocus);
  setCursor(Qt::CrossCursor);
  setAccessibleName(tr("Picture of the chart; drag a place, or move it with the arrow keys"));
}

void TracedPicture::setImage(const QImage& image) {
  image_ = image;
  places_.clear();
  curve_.clear();
  held_.reset();
  chosen_.reset();
  emit placesChanged();
  update();
}

void TracedPicture::setCurve(std::vector<drawing::At> curve) {
  curve_ = std::move(curve);
  update();
}

void TracedPicture::removeLast() {
  if (places_.empty()) {
    return;
  }
  places_.pop_back();
  chosen_.reset();
  emit placesChanged();
  update();
}

double TracedPicture::share() const {
  return std::min(static_cast<double>(width()) / std::max(1, image_.width()),
                  static_cast<double>(height()) / std::max(1, image_.height()));
}

QPointF TracedPicture::origin() const {
  return {(width() - share() * image_.width()) / 2, (height() - share() * image_.height()) / 2};
}

QPointF TracedPicture::shownAt(drawing::At at) const {
  return origin() + QPointF(at.x, at.y) * share();
}

drawing::At TracedPicture::pictureAt(QPointF at) const {
  const QPointF in = (at - origin()) / share();
  return {in.x(), in.y()};
}

double TracedPicture::reachInPicture() const {
  return kReach_px / share();
}

void TracedPicture::paintEvent(QPaintEvent* /*event*/) {
  QPainter painter(this);
  painter.fillRect(rect(), palette().color(QPalette::Base));
  if (image_.isNull()) {
    painter.setPen(palette().color(QPalette::Text));
    painter.drawText(rect(), Qt::AlignCenter, tr("Open or paste a picture of the maker's chart."));
    return;
  }
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.drawImage(QRectF(origin(), QSizeF(image_.size()) * share()), image_);
  // On a white rim, so that it is seen on any picture.
  const auto twice = [&](const auto& draw_it) {
    painter.setPen(QPen(palette().color(QPalette::Base), 5));
    draw_it();
    painter.setPen(QPen(palette().color(QPalette::Highlight), 2));
    draw_it();
  };
  QPolygonF line;
  line.reserve(static_cast<qsizetype>(curve_.size()));
  for (const drawing::At& at : curve_) {
    line << shownAt(at);
  }
  painter.setBrush(Qt::NoBrush);
  twice([&] { painter.drawPolyline(line); });
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const QPointF at = shownAt(places_[i]);
    const bool on_axis = i < kAxisPlaces;
    const double half = chosen_ == i ? 7 : 5;
    twice([&] {
      if (on_axis) {
        painter.drawLine(at - QPointF(half, half), at + QPointF(half, half));
        painter.drawLine(at - QPointF(half, -half), at + QPointF(half, -half));
      } else {
        painter.drawEllipse(at, half, half);
      }
    });
    if (on_axis) {
      const QString name = i < 2 ? tr("flow %1").arg(i + 1) : tr("pressure %1").arg(i - 1);
      QRectF plate = painter.fontMetrics().boundingRect(name).adjusted(-3, -1, 3, 1);
      plate.moveBottomLeft(at + QPointF(8, -4));
      painter.fillRect(plate, palette().color(QPalette::Base));
      painter.setPen(palette().color(QPalette::Text));
      painter.drawText(plate, Qt::AlignCenter, name);
    }
  }
  if (hasFocus()) {
    painter.setPen(palette().color(QPalette::Highlight));
    painter.drawRect(rect().adjusted(0, 0, -1, -1));
  }
}

void TracedPicture::mousePressEvent(QMouseEvent* event) {
  if (image_.isNull()) {
    return;
  }
  const auto near = [&](const drawing::At& at) {
    const QPointF off = shownAt(at) - event->position();
    return std::hypot(off.x(), off.y()) <= kReach_px;
  };
  const auto hit = std::find_if(places_.begin(), places_.end(), near);
  const auto index = static_cast<std::size_t>(hit - places_.begin());
  if (event->button() == Qt::RightButton) {
    if (hit != places_.end() && index >= kAxisPlaces) {
      places_.erase(hit);
      chosen_.reset();
      emit placesChanged();
      update();
    }
    return;
  }
  if (event->button() != Qt::LeftButton) {
    return;
  }
  // A click on a place of the axes that is no drag puts another one there: the origin is often one of both
  // axes.
  again_ = hit != places_.end() && index < kAxisPlaces ? std::optional(event->position()) : std::nullopt;
  if (hit == places_.end()) {
    const drawing::At at = pictureAt(event->position());
    if (at.x < 0 || at.y < 0 || at.x > image_.width() || at.y > image_.height()) {
      return;
    }
    places_.push_back(at);
  }
  held_ = index;
  chosen_ = index;
  emit placesChanged();
  update();
}

void TracedPicture::moveHeld(double x, double y) {
  places_[*chosen_] = {std::clamp(x, 0.0, static_cast<double>(image_.width())),
                       std::clamp(y, 0.0, static_cast<double>(image_.height()))};
  emit placesChanged();
  update();
}

void TracedPicture::mouseMoveEvent(QMouseEvent* event) {
  if (again_) {
    const QPointF off = event->position() - *again_;
    if (std::hypot(off.x(), off.y()) < kDragBegins_px) {
      return;
    }
    again_.reset();
  }
  if (held_ && chosen_) {
    const drawing::At at = pictureAt(event->position());
    moveHeld(at.x, at.y);
  }
}

void TracedPicture::mouseReleaseEvent(QMouseEvent* /*event*/) {
  held_.reset();
  if (again_) {
    const drawing::At at = pictureAt(*again_);
    again_.reset();
    places_.push_back({std::clamp(at.x, 0.0, static_cast<double>(image_.width())),
                       std::clamp(at.y, 0.0, static_cast<double>(image_.height()))});
    chosen_ = places_.size() - 1;
    emit placesChanged();
    update();
  }
}

void TracedPicture::keyPressEvent(QKeyEvent* event) {
  const int key = event->key();
  if (key == Qt::Key_Backspace || key == Qt::Key_Delete) {
    removeLast();
    return;
  }
  const double x = key == Qt::Key_Left ? -1 : key == Qt::Key_Right ? 1 : 0;
  const double y = key == Qt::Key_Up ? -1 : key == Qt::Key_Down ? 1 : 0;
  if (!chosen_ || (x == 0 && y == 0)) {
    QWidget::keyPressEvent(event);
    return;
  }
  moveHeld(places_[*chosen_].x + x, places_[*chosen_].y + y);
}

CurveTracing::CurveTracing(Bench bench, QWidget* parent) : QWidget(parent), bench_(std::move(bench)) {
  setWindowTitle(tr("Trace a fan's curve"));
  picture_ = new TracedPicture(this);
  says_ = new QLabel(this);
  says_->setWordWrap(true);
  auto* open = new QPushButton(tr("Open a picture …"), this);
  auto* paste = new QPushButton(tr("Paste a picture"), this);
  auto* back = new QPushButton(tr("Take the last place away"), this);
  take_ = new QPushButton(tr("Take these points"), this);
  auto* buttons = new QHBoxLayout;
  for (QPushButton* button : {open, paste, back, take_}) {
    buttons->addWidget(button);
  }
  auto* grid = new QGridLayout;
  const bool us = bench_.look.units() == base::UnitSystem::Us;
  const std::array<QString, 4> names{tr("Flow at place 1"), tr("Flow at place 2"), tr("Pressure at place 1"),
                                     tr("Pressure at place 2")};
  const std::array<QString, 4> examples{
      us ? tr("0 cfm") : tr("0 m3/h"), us ? tr("1000 cfm") : tr("2000 m3/h"),
      us ? tr("0 in w.g.") : tr("0 Pa"), us ? tr("10 in w.g.") : tr("2500 Pa")};
  for (std::size_t axis = 0; axis < 2; ++axis) {
    const int row = static_cast<int>(axis);
    for (std::size_t k = 0; k < 2; ++k) {
      const std::size_t i = 2 * axis + k;
      values_[i] = new QLineEdit(this);
      values_[i]->setAccessibleName(names[i]);
      values_[i]->setPlaceholderText(examples[i]);
      auto* label = new QLabel(names[i], this);
      label->setBuddy(values_[i]);
      grid->addWidget(label, row, static_cast<int>(2 * k));
      grid->addWidget(values_[i], row, static_cast<int>(2 * k) + 1);
      connect(values_[i], &QLineEdit::textChanged, this, &CurveTracing::follow);
    }
    scales_[axis] = new QComboBox(this);
    scales_[axis]->setAccessibleName(axis == 0 ? tr("Steps along the flow") : tr("Steps along the pressure"));
    for (const AxisScale scale : kAxisScales) {
      scales_[axis]->addItem(QString::fromUtf8(toText(scale).data()));
    }
    grid->addWidget(scales_[axis], row, 4);
    connect(scales_[axis], &QComboBox::currentIndexChanged, this, &CurveTracing::follow);
  }
  auto* column = new QVBoxLayout(this);
  column->addLayout(buttons);
  column->addWidget(picture_, 1);
  column->addLayout(grid);
  column->addWidget(says_);
  connect(picture_, &TracedPicture::placesChanged, this, &CurveTracing::follow);
  connect(back, &QPushButton::clicked, picture_, &TracedPicture::removeLast);
  connect(paste, &QPushButton::clicked, this,
          [this] { take(QApplication::clipboard()->image(), tr("what was copied")); });
  connect(open, &QPushButton::clicked, this, [this] {
    const QString path = QFileDialog::getOpenFileName(this, tr("Open a picture of the chart"), {},
                                                      tr("Pictures (*.png *.jpg *.jpeg)"));
    if (!path.isEmpty()) {
      load(path);
    }
  });
  connect(take_, &QPushButton::clicked, this, [this] {
    if (const auto found = points()) {
      emit traced(*found);
      close();
    }
  });
  follow();
}

bool CurveTracing::load(const QString& path) {
  const base::Result<QImage> image = readPicture(path.toStdString());
  if (!image) {
    says_->setText(text(image.error().text()));
    return false;
  }
  take(*image, QFileInfo(path).fileName());
  return true;
}

void CurveTracing::take(const QImage& image, const QString& name) {
  if (image.isNull()) {
    says_->setText(tr("There is no picture in %1.").arg(name));
    return;
  }
  picture_->setImage(image);
}

base::Result<PictureScale> CurveTracing::scale() const {
  const std::vector<drawing::At>& places = picture_->places();
  const auto axis = [&](std::size_t a) {
    KnownAxis out;
    out.scale = kAxisScales.at(static_cast<std::size_t>(std::max(0, scales_[a]->currentIndex())));
    for (std::size_t k = 0; k < 2; ++k) {
      out.places[k] = {places[2 * a + k], values_[2 * a + k]->text().trimmed().toStdString()};
    }
    return out;
  };
  if (places.size() < kAxisPlaces) {
    return base::fail(base::ErrorCode::Conflict, "the four places on the axes come first");
  }
  return PictureScale::make(axis(0), axis(1));
}

base::Result<std::vector<TypedPoint>> CurveTracing::points() const {
  const auto known = scale();
  if (!known) {
    return base::Failure(known.error());
  }
  const std::vector<drawing::At>& places = picture_->places();
  return tracedPoints(*known, {places.begin() + kAxisPlaces, places.end()}, picture_->reachInPicture(),
                      bench_.look.units());
}

void CurveTracing::follow() {
  static const std::array<const char*, 4> kNext{
      QT_TR_NOOP("Click a place on the axis of flow whose value you can read."),
      QT_TR_NOOP("Click a second place on the axis of flow, far from the first."),
      QT_TR_NOOP("Click a place on the axis of pressure whose value you can read."),
      QT_TR_NOOP("Click a second place on the axis of pressure, far from the first.")};
  const std::size_t count = picture_->places().size();
  take_->setEnabled(false);
  picture_->setCurve({});
  if (!picture_->hasImage()) {
    says_->setText(tr("Four places on the axes with their values come first, then clicks along the curve."));
    return;
  }
  if (count < kAxisPlaces) {
    says_->setText(tr(kNext.at(count)));
    return;
  }
  const auto known = scale();
  const auto found = points();
  if (!found) {
    says_->setText(tr("Not yet: %1").arg(text(found.error().text())));
    return;
  }
  std::vector<physics::FanPoint> typed;
  typed.reserve(found->size());
  for (const TypedPoint& point : *found) {
    typed.push_back({base::parseQuantity(base::Kind::VolumeFlow, point[0]).value_or(0),
                     base::parseQuantity(base::Kind::Pressure, point[1]).value_or(0)});
  }
  const auto curve = physics::makeFanCurve(typed);
  if (!curve) {
    says_->setText(tr("Not yet: %1").arg(text(curve.error().text())));
    return;
  }
  std::vector<drawing::At> line;
  line.reserve(kCurveSteps + 1);
  for (int i = 0; i <= kCurveSteps; ++i) {
    const double q =
        curve->firstFlow() + (curve->lastFlow() - curve->firstFlow()) * i / static_cast<double>(kCurveSteps);
    line.push_back(known->placeOf({q, std::max(0.0, curve->value(q).p_pa)}));
  }
  // Zero has no place on an axis of tenfold steps.
  std::erase_if(line, [](const drawing::At& at) { return !std::isfinite(at.x) || !std::isfinite(at.y); });
  picture_->setCurve(std::move(line));
  take_->setEnabled(true);
  says_->setText(
      tr("%n points. The line is the curve that is taken. Drag a place, click another, or take one "
         "away with the right button.",
         nullptr, static_cast<int>(found->size())));
}

}  // namespace kerfdraft::desk
