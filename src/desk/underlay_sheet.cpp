// One worker; a file that was asked for before another one gives no answer.
#include "desk/underlay_sheet.h"

#include <QCoreApplication>
#include <QEventLoop>
#include <QMetaObject>
#include <QPainterPath>
#include <algorithm>
#include <fstream>
#include <set>

#include "desk/read_picture.h"
#include "drawing/style.h"

namespace kerfdraft::desk {
namespace {

constexpr double kUsualStrength = 0.5;

/// Whatever no picture reader knows by its first bytes may be a drawing.
bool isPicture(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::string head(12, '\0');
  in.read(head.data(), static_cast<std::streamsize>(head.size()));
  // PNG, JPEG, GIF, BMP and WEBP begin so (their published formats).
  return head.starts_with("\x89PNG") || head.starts_with("\xFF\xD8\xFF") || head.starts_with("GIF8") ||
         head.starts_with("BM") || (head.starts_with("RIFF") && head.substr(8) == "WEBP");
}

/// From the sheet's own coordinates, counted from `base`, to the canvas.
QTransform toCanvas(const shop::Underlay& underlay, const PlanView& view, const SheetPoint& base,
                    double reach) {
  const QPointF o = view.toPx(toShop(underlay, base));
  const QPointF x = (view.toPx(toShop(underlay, {base.x + reach, base.y})) - o) / reach;
  const QPointF y = (view.toPx(toShop(underlay, {base.x, base.y + reach})) - o) / reach;
  return {x.x(), x.y(), y.x(), y.y(), o.x(), o.y()};
}

void paintDrawing(QPainter& painter, const PlanView& view, QSize size, const shop::Underlay& underlay,
                  const files::DxfDrawing& drawing, paint::Tones tones) {
  std::set<std::size_t> off;
  for (std::size_t k = 0; k < drawing.layers.size(); ++k) {
    const auto& names = underlay.layers_off;
    if (std::find(names.begin(), names.end(), drawing.layers[k].name) != names.end()) {
      off.insert(k);
    }
  }
  const double reach = std::max({drawing.high.x - drawing.low.x, drawing.high.y - drawing.low.y, 1e-6});
  const QTransform to_canvas = toCanvas(underlay, view, drawing.low, reach);
  const QRectF seen(QPointF(-2, -2), QSizeF(size.width() + 4, size.height() + 4));
  painter.setPen(QPen(paint::shown(drawing::kInk, tones), 1));
  QPolygonF line;
  for (const files::DxfStroke& stroke : drawing.strokes) {
    if (off.contains(stroke.layer)) {
      continue;
    }
    line.clear();
    for (const SheetPoint& p : stroke.points) {
      const QPointF px = to_canvas.map(QPointF(p.x - drawing.low.x, p.y - drawing.low.y));
      // What lies within one pixel of the last point cannot be seen apart from it.
      if (line.isEmpty() || (px - line.back()).manhattanLength() >= 1) {
        line << px;
      }
    }
    if (stroke.closed && line.size() > 1) {
      line << line.front();
    }
    if (line.size() == 1) {
      line << line.front();
    }
    const QRectF box = line.boundingRect();
    if (box.right() < seen.left() || box.left() > seen.right() || box.bottom() < seen.top() ||
        box.top() > seen.bottom()) {
      continue;
    }
    painter.drawPolyline(line);
  }
}

void paintPicture(QPainter& painter, const PlanView& view, const shop::Underlay& underlay,
                  const QImage& picture, paint::Tones tones) {
  const double height = picture.height();
  const double reach = std::max(height, static_cast<double>(picture.width()));
  QTransform to_canvas = toCanvas(underlay, view, {0, height}, reach);
  // Its rows run down.
  to_canvas = QTransform(1, 0, 0, -1, 0, 0) * to_canvas;
  painter.setTransform(to_canvas, true);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  if (tones == paint::Tones::Dark) {
    QImage dark = picture.convertToFormat(QImage::Format_ARGB32);
    dark.invertPixels();
    painter.drawImage(QPointF(0, 0), dark);
  } else {
    painter.drawImage(QPointF(0, 0), picture);
  }
}

bool same(const PlanView& a, const PlanView& b) {
  return a.px_per_mm == b.px_per_mm && a.px_per_m == b.px_per_m && a.origin_px == b.origin_px;
}

}  // namespace

SheetSize SheetContent::size() const {
  if (drawing) {
    return {drawing->low, drawing->high, drawing->unit_m};
  }
  return {{0, 0}, {static_cast<double>(picture.width()), static_cast<double>(picture.height())}, {}};
}

SheetContent readSheet(const std::filesystem::path& path) {
  SheetContent out;
  std::error_code error;
  if (!std::filesystem::exists(path, error)) {
    out.problem = base::Error{base::ErrorCode::Io, "this file is not there", path.filename().string()}.text();
    return out;
  }
  if (isPicture(path)) {
    base::Result<QImage> picture = readPicture(path);
    if (picture) {
      out.picture = std::move(*picture);
    } else {
      out.problem = picture.error().text();
    }
    return out;
  }
  base::Result<files::DxfDrawing> drawing = files::loadDxf(path);
  if (drawing) {
    out.drawing = std::move(*drawing);
  } else {
    out.problem = drawing.error().text();
  }
  return out;
}

UnderlaySheet::UnderlaySheet(QObject* parent) : QObject(parent) {
  pool_.setMaxThreadCount(1);
}

UnderlaySheet::~UnderlaySheet() {
  pool_.clear();
  pool_.waitForDone();
}

void UnderlaySheet::want(const std::filesystem::path& path) {
  std::error_code gone;
  const auto written =
      path.empty() ? std::filesystem::file_time_type{} : std::filesystem::last_write_time(path, gone);
  const auto stamp = gone ? std::filesystem::file_time_type{} : written;
  if (path == path_ && stamp == written_) {
    return;
  }
  // The old picture of the same file stays until the new one is read.
  if (path != path_) {
    content_.reset();
  }
  path_ = path;
  written_ = stamp;
  const std::uint64_t serial = ++asked_;
  reading_ = !path.empty();
  if (reading_) {
    pool_.start([this, serial, path] {
      auto content = std::make_shared<const SheetContent>(readSheet(path));
      QMetaObject::invokeMethod(
          this,
          [this, serial, content = std::move(content)] {
            if (serial == asked_) {
              reading_ = false;
              content_ = content;
              emit changed();
            }
          },
          Qt::QueuedConnection);
    });
  }
  // Not from within whoever asks: it may be painting.
  QMetaObject::invokeMethod(
      this, [this] { emit changed(); }, Qt::QueuedConnection);
}

void UnderlaySheet::waitUntilRead() const {
  while (reading_) {
    QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 50);
  }
}

QPixmap UnderlaySheet::paintAnew(const PlanView& view, QSize size, qreal ratio,
                                 const shop::Underlay& underlay, paint::Tones tones) const {
  QPixmap pixels(size * ratio);
  pixels.setDevicePixelRatio(ratio);
  pixels.fill(Qt::transparent);
  QPainter painter(&pixels);
  painter.setOpacity(underlay.strength ? underlay.strength->si() : kUsualStrength);
  if (content_->drawing) {
    paintDrawing(painter, view, size, underlay, *content_->drawing, tones);
  } else {
    paintPicture(painter, view, underlay, content_->picture, tones);
  }
  return pixels;
}

void UnderlaySheet::paint(QPainter& painter, const PlanView& view, QSize size, const shop::Underlay& underlay,
                          paint::Tones tones) {
  if (!content_ || !content_->ok() || underlay.hidden || size.isEmpty()) {
    return;
  }
  const qreal ratio = painter.device()->devicePixelRatioF();
  const bool fresh = painted_ && painted_->content == content_ && painted_->tones == tones &&
                     painted_->size == size && painted_->ratio == ratio && same(painted_->view, view) &&
                     painted_->underlay == underlay;
  if (!fresh) {
    painted_ =
        Painted{view, size, ratio, underlay, tones, content_, paintAnew(view, size, ratio, underlay, tones)};
  }
  painter.drawPixmap(0, 0, painted_->pixels);
}

}  // namespace kerfdraft::desk
