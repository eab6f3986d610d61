// Shapes are drawn one by one; text is set in the shipped font without hinting, so that it takes the width
// that drawing/text_measure.h promised.
#include "paint/painter.h"

#include <fmt/format.h>

#include <QFontDatabase>
#include <QGlyphRun>
#include <QPaintEngine>
#include <QPainterPath>
#include <QPdfWriter>
#include <QRawFont>
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <utility>

#include "drawing/embedded_fonts.h"
#include "drawing/style.h"

namespace kerfdraft::paint {
namespace {

using drawing::At;

/// Fonts are set at this size and scaled: sizes in millimetres are no whole pixels.
constexpr int kSetAt_px = 64;

QFont shippedFont(bool bold) {
  QFont font(QStringLiteral("Kerfdraft Sans"));
  font.setPixelSize(kSetAt_px);
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  font.setStyleStrategy(QFont::StyleStrategy(QFont::PreferAntialias | QFont::PreferQuality));
  return font;
}

class Drawer {
 public:
  Drawer(QPainter& painter, Tones tones)
      : painter_(painter),
        tones_(tones),
        pixels_(painter.paintEngine() != nullptr && painter.paintEngine()->type() == QPaintEngine::Raster),
        regular_(shippedFont(false)),
        bold_(shippedFont(true)) {}

  void all(std::span<const drawing::Shape> shapes) {
    for (const drawing::Shape& shape : shapes) {
      std::visit(*this, shape.what);
    }
  }

  void operator()(const drawing::Group& group) { all(group.shapes); }

  void operator()(const drawing::Path& path) {
    if (path.points.empty()) {
      return;
    }
    QPainterPath on;
    on.moveTo(path.points.front().x, path.points.front().y);
    for (std::size_t k = 1; k < path.points.size(); ++k) {
      on.lineTo(path.points[k].x, path.points[k].y);
    }
    if (path.closed) {
      on.closeSubpath();
    }
    if (path.fill) {
      painter_.fillPath(on, shown(*path.fill, tones_));
    }
    if (path.stroke) {
      painter_.strokePath(on, pen(*path.stroke));
    }
  }

  void operator()(const drawing::Circle& circle) {
    painter_.setBrush(circle.fill ? QBrush(shown(*circle.fill, tones_)) : QBrush(Qt::NoBrush));
    painter_.setPen(circle.stroke ? pen(*circle.stroke) : QPen(Qt::NoPen));
    painter_.drawEllipse(QPointF(circle.centre.x, circle.centre.y), circle.radius_mm, circle.radius_mm);
  }

  void operator()(const drawing::Arc& arc) {
    const QRectF box(arc.centre.x - arc.radius_mm, arc.centre.y - arc.radius_mm, 2 * arc.radius_mm,
                     2 * arc.radius_mm);
    constexpr double kDegree = 180 / std::numbers::pi;
    QPainterPath on;
    on.arcMoveTo(box, arc.from_rad * kDegree);
    on.arcTo(box, arc.from_rad * kDegree, (arc.to_rad - arc.from_rad) * kDegree);
    painter_.strokePath(on, pen(arc.stroke));
  }

  void operator()(const drawing::Text& text) {
    if (pixels_ && text.turned_rad == 0) {
      inPixels(text);
      return;
    }
    const QFont& font = text.bold ? bold_ : regular_;
    const QString words = QString::fromStdString(text.text);
    const double scale = text.size_mm / kSetAt_px;
    painter_.save();
    painter_.translate(text.at.x, text.at.y);
    painter_.rotate(-text.turned_rad * 180 / std::numbers::pi);
    painter_.scale(scale, scale);
    double x = 0;
    if (text.anchor != drawing::Anchor::Start) {
      const double width = QFontMetricsF(font).horizontalAdvance(words);
      x = text.anchor == drawing::Anchor::Middle ? -width / 2 : -width;
    }
    if (text.halo) {
      QPainterPath outline;
      outline.addText(x, 0, font, words);
      painter_.strokePath(outline, QPen(shown(*text.halo, tones_), kHalo_em * kSetAt_px, Qt::SolidLine,
                                        Qt::RoundCap, Qt::RoundJoin));
    }
    painter_.setFont(font);
    painter_.setPen(shown(text.colour, tones_));
    painter_.drawText(QPointF(x, 0), words);
    painter_.restore();
  }

 private:
  /// Upright text straight in pixels, whose letters the font system keeps ready: a stroked halo takes ten
  /// times as long, and the halo's eight words need no eight layouts.
  void inPixels(const drawing::Text& text) {
    const QTransform world = painter_.transform();
    const double px = text.size_mm * world.m11();
    constexpr double kLeast_px = 1;
    if (px < kLeast_px) {
      return;
    }
    const Face& face = faceOf(text.bold, px);
    const QString words = QString::fromStdString(text.text);
    const QList<quint32> glyphs = face.raw.glyphIndexesForString(words);
    // The shipped font has no kerning and no ligatures: a letter stands where the one before it ends.
    QList<QPointF> places;
    places.reserve(glyphs.size());
    double width = 0;
    for (const QPointF& advance : face.raw.advancesForGlyphIndexes(glyphs)) {
      places.append(QPointF(width, 0));
      width += advance.x();
    }
    // Letters that it does not have are the font system's; on paper words stay words, to be searched and
    // copied.
    const bool on_screen =
        painter_.paintEngine() != nullptr && painter_.paintEngine()->type() == QPaintEngine::Raster;
    const bool ours = on_screen && face.raw.isValid() && !glyphs.contains(0);
    if (!ours) {
      width = QFontMetricsF(face.font).horizontalAdvance(words);
    }
    QGlyphRun run;
    run.setRawFont(face.raw);
    run.setGlyphIndexes(glyphs);
    run.setPositions(places);
    QPointF at = world.map(QPointF(text.at.x, text.at.y));
    if (text.anchor != drawing::Anchor::Start) {
      at.rx() -= text.anchor == drawing::Anchor::Middle ? width / 2 : width;
    }
    const auto set = [&](QPointF where) {
      if (ours) {
        painter_.drawGlyphRun(where, run);
      } else {
        painter_.drawText(where, words);
      }
    };
    painter_.save();
    painter_.resetTransform();
    painter_.setFont(face.font);
    if (text.halo) {
      painter_.setPen(shown(*text.halo, tones_));
      const double r = kHalo_em / 2 * px;
      const double d = r * std::numbers::sqrt2 / 2;
      for (const QPointF& aside : {QPointF(r, 0), QPointF(-r, 0), QPointF(0, r), QPointF(0, -r),
                                   QPointF(d, d), QPointF(-d, d), QPointF(d, -d), QPointF(-d, -d)}) {
        set(at + aside);
      }
    }
    painter_.setPen(shown(text.colour, tones_));
    set(at);
    painter_.restore();
  }

  /// The font at one size. A picture has few sizes, and finding one takes longer than setting a word.
  struct Face {
    QFont font;
    QRawFont raw;
  };

  const Face& faceOf(bool bold, double px) {
    constexpr double kSteps = 64;  // to a pixel
    const std::pair<bool, std::int64_t> key(bold, std::llround(px * kSteps));
    const auto found = faces_.find(key);
    if (found != faces_.end()) {
      return found->second;
    }
    QFont font = bold ? bold_ : regular_;
    constexpr double kPointsPerInch = 72;
    font.setPointSizeF(px * kPointsPerInch / painter_.device()->logicalDpiY());
    return faces_.emplace(key, Face{font, QRawFont::fromFont(font)}).first->second;
  }

  QPen pen(const drawing::Stroke& stroke) const {
    QPen pen(shown(stroke.colour, tones_), stroke.width_mm);
    const bool round = stroke.ends == drawing::Ends::Round;
    pen.setCapStyle(round ? Qt::RoundCap : Qt::FlatCap);
    pen.setJoinStyle(round ? Qt::RoundJoin : Qt::MiterJoin);
    if (!stroke.dashes_mm.empty() && stroke.width_mm > 0) {
      QList<qreal> dashes;
      for (const double mm : stroke.dashes_mm) {
        dashes.append(mm / stroke.width_mm);
      }
      if (dashes.size() % 2 != 0) {
        dashes.append(dashes);
      }
      pen.setDashPattern(dashes);
    }
    return pen;
  }

  static constexpr double kHalo_em = 0.24;

  QPainter& painter_;
  Tones tones_;
  bool pixels_;
  QFont regular_;
  QFont bold_;
  std::map<std::pair<bool, std::int64_t>, Face> faces_;
};

double distanceToLine(At p, At a, At b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double l2 = dx * dx + dy * dy;
  const double t = l2 > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / l2, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

bool inside(const std::vector<At>& polygon, At p) {
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    if ((polygon[i].y > p.y) != (polygon[j].y > p.y) &&
        p.x < (polygon[j].x - polygon[i].x) * (p.y - polygon[i].y) / (polygon[j].y - polygon[i].y) +
                  polygon[i].x) {
      in = !in;
    }
  }
  return in;
}

struct Hits {
  At at;
  double reach_mm;

  bool operator()(const drawing::Path& path) const {
    if (path.fill && path.points.size() > 2 && inside(path.points, at)) {
      return true;
    }
    if (!path.stroke) {
      return false;
    }
    const double near = reach_mm + path.stroke->width_mm / 2;
    for (std::size_t k = 0; k + 1 < path.points.size(); ++k) {
      if (distanceToLine(at, path.points[k], path.points[k + 1]) <= near) {
        return true;
      }
    }
    return path.closed && path.points.size() > 2 &&
           distanceToLine(at, path.points.back(), path.points.front()) <= near;
  }
  bool operator()(const drawing::Circle& circle) const {
    const double far = std::hypot(at.x - circle.centre.x, at.y - circle.centre.y);
    return circle.fill ? far <= circle.radius_mm + reach_mm : std::abs(far - circle.radius_mm) <= reach_mm;
  }
  bool operator()(const drawing::Arc& arc) const {
    return std::abs(std::hypot(at.x - arc.centre.x, at.y - arc.centre.y) - arc.radius_mm) <= reach_mm;
  }
  bool operator()(const drawing::Text& /*text*/) const { return false; }
  bool operator()(const drawing::Group& group) const {
    return std::any_of(group.shapes.begin(), group.shapes.end(),
                       [&](const drawing::Shape& shape) { return std::visit(*this, shape.what); });
  }
};

void collect(const std::vector<drawing::Shape>& shapes, const Hits& hits, std::vector<Found>& out) {
  for (auto shape = shapes.rbegin(); shape != shapes.rend(); ++shape) {
    const auto* group = std::get_if<drawing::Group>(&shape->what);
    if (group == nullptr) {
      continue;
    }
    collect(group->shapes, hits, out);
    if (!group->element.empty() && hits(*group)) {
      out.push_back({group->kind, group->element, group->title});
    }
  }
}

}  // namespace

bool loadFonts() {
  bool all = true;
  for (const drawing::EmbeddedFile& file : drawing::embeddedFiles()) {
    const QByteArray bytes(file.text.data(), static_cast<qsizetype>(file.text.size()));
    all = QFontDatabase::addApplicationFontFromData(bytes) >= 0 && all;
  }
  return all;
}

void draw(QPainter& painter, const drawing::Picture& picture, double px_per_mm, Tones tones) {
  draw(painter, std::span(picture.shapes), px_per_mm, tones);
}

void draw(QPainter& painter, std::span<const drawing::Shape> shapes, double px_per_mm, Tones tones) {
  painter.save();
  painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
  painter.scale(px_per_mm, px_per_mm);
  Drawer(painter, tones).all(shapes);
  painter.restore();
}

QImage toImage(const drawing::Picture& picture, double px_per_mm, Tones tones) {
  QImage image(static_cast<int>(std::ceil(picture.width_mm * px_per_mm)),
               static_cast<int>(std::ceil(picture.height_mm * px_per_mm)), QImage::Format_RGB32);
  if (image.isNull()) {
    return image;
  }
  image.fill(shown(drawing::kWhite, tones));
  QPainter painter(&image);
  draw(painter, picture, px_per_mm, tones);
  return image;
}

base::Result<void> writePdf(const std::vector<drawing::Picture>& pictures,
                            const std::filesystem::path& path) {
  QPdfWriter pdf(QString::fromStdString(path.string()));
  constexpr int kDotsPerInch = 1200;
  pdf.setResolution(kDotsPerInch);
  pdf.setCreator(QStringLiteral("kerfdraft"));
  pdf.setPageMargins(QMarginsF(0, 0, 0, 0));
  QPainter painter;
  for (std::size_t k = 0; k < pictures.size(); ++k) {
    pdf.setTitle(QString::fromStdString(pictures[k].title));
    pdf.setPageSize(QPageSize(QSizeF(pictures[k].width_mm, pictures[k].height_mm), QPageSize::Millimeter, {},
                              QPageSize::ExactMatch));
    const bool begun = k == 0 ? painter.begin(&pdf) : pdf.newPage();
    if (!begun) {
      return base::fail(base::ErrorCode::Io, "the PDF cannot be written", path.string());
    }
    draw(painter, pictures[k], kDotsPerInch / 25.4);
  }
  painter.end();
  return {};
}

base::Result<void> writePng(const drawing::Picture& picture, const std::filesystem::path& path,
                            double dots_per_inch) {
  QImage image = toImage(picture, dots_per_inch / 25.4);
  if (image.isNull()) {
    return base::fail(base::ErrorCode::Range,
                      fmt::format("a picture of {:.0f} by {:.0f} mm at {:.0f} dots per inch is too large",
                                  picture.width_mm, picture.height_mm, dots_per_inch),
                      path.string());
  }
  image.setDotsPerMeterX(static_cast<int>(std::lround(dots_per_inch / 0.0254)));
  image.setDotsPerMeterY(image.dotsPerMeterX());
  if (!image.save(QString::fromStdString(path.string()), "PNG")) {
    return base::fail(base::ErrorCode::Io, "the picture cannot be written", path.string());
  }
  return {};
}

std::vector<Found> elementsAt(const drawing::Picture& picture, At at, double reach_mm) {
  std::vector<Found> out;
  collect(picture.shapes, Hits{at, reach_mm}, out);
  return out;
}

}  // namespace kerfdraft::paint
