// Blocks are kept as they are read and unfolded at the end, since one may be used before it stands there.
#include "files/dxf.h"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <set>
#include <sstream>

#include "files/dxf_text.h"
#include "files/save.h"

namespace kerfdraft::files {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr int kDeepest = 16;

/// As read: layer by name, in the coordinates of the block it stands in.
struct Raw {
  std::string layer;
  std::vector<DxfPoint> points;
  bool closed = false;
};
struct Use {
  std::string layer;
  std::string block;
  DxfPoint at;
  double scale_x = 1;
  double scale_y = 1;
  double turned_rad = 0;
  int columns = 1;
  int rows = 1;
  double column_step = 0;
  double row_step = 0;
  bool mirrored = false;
};
struct Block {
  DxfPoint base;
  std::vector<Raw> strokes;
  std::vector<Use> uses;
};

/// Chords of an arc from one angle over a sweep, ends included.
void addArc(std::vector<DxfPoint>& to, DxfPoint centre, DxfPoint along, DxfPoint across, double from_rad,
            double sweep_rad) {
  const int chords = std::max(1, static_cast<int>(std::ceil(std::abs(sweep_rad) / kChord_rad)));
  to.reserve(to.size() + static_cast<std::size_t>(chords) + 1);
  for (int k = 0; k <= chords; ++k) {
    const double a = from_rad + sweep_rad * k / chords;
    to.push_back({centre.x + along.x * std::cos(a) + across.x * std::sin(a),
                  centre.y + along.y * std::cos(a) + across.y * std::sin(a)});
  }
}

/// From one angle anticlockwise to another: more than 0 and at most a whole turn.
double sweepOf(double from_rad, double to_rad) {
  constexpr double kTurn = 2 * std::numbers::pi;
  const double sweep = std::fmod(to_rad - from_rad, kTurn);
  return sweep <= 0 ? sweep + kTurn : sweep;
}

/// A bulge is the tangent of a quarter of the arc's angle, positive to the left of the chord.
void addBulge(std::vector<DxfPoint>& to, DxfPoint a, DxfPoint b, double bulge) {
  constexpr double kFlat = 1e-6;
  const double half_x = (b.x - a.x) / 2;
  const double half_y = (b.y - a.y) / 2;
  if (std::abs(bulge) < kFlat || std::abs(bulge) > 1 / kFlat || (half_x == 0 && half_y == 0)) {
    to.push_back(b);
    return;
  }
  const double off = (1 - bulge * bulge) / (2 * bulge);
  const DxfPoint centre{a.x + half_x - half_y * off, a.y + half_y + half_x * off};
  const double radius = std::hypot(a.x - centre.x, a.y - centre.y);
  std::vector<DxfPoint> arc;
  addArc(arc, centre, {radius, 0}, {0, radius}, std::atan2(a.y - centre.y, a.x - centre.x),
         4 * std::atan(bulge));
  arc.back() = b;
  to.insert(to.end(), arc.begin() + 1, arc.end());
}

class Reader : public DL_CreationAdapter {
 public:
  void addLayer(const DL_LayerData& data) override {
    constexpr int kFrozen = 1;
    if ((data.flags & kFrozen) != 0 || attributes.getColor() < 0) {
      off_.insert(data.name);
    }
  }
  void setVariableInt(const std::string& key, int value, int /*code*/) override {
    if (key == "$INSUNITS") {
      unit_ = value;
    }
  }

  void addBlock(const DL_BlockData& data) override {
    flush();
    into_ = &blocks_[data.name];
    into_->base = {data.bpx, data.bpy};
  }
  void endBlock() override {
    flush();
    into_ = &drawing_;
  }

  void addLine(const DL_LineData& data) override {
    add({{data.x1, data.y1}, {data.x2, data.y2}}, false, false);
  }
  void addArc(const DL_ArcData& data) override {
    std::vector<DxfPoint> points;
    files::addArc(points, {data.cx, data.cy}, {data.radius, 0}, {0, data.radius}, data.angle1 * kDegree,
                  sweepOf(data.angle1 * kDegree, data.angle2 * kDegree));
    add(std::move(points), false, mirrored());
  }
  void addCircle(const DL_CircleData& data) override {
    std::vector<DxfPoint> points;
    files::addArc(points, {data.cx, data.cy}, {data.radius, 0}, {0, data.radius}, 0, 2 * std::numbers::pi);
    points.pop_back();
    add(std::move(points), true, mirrored());
  }
  void addEllipse(const DL_EllipseData& data) override {
    const double side = mirrored() ? -1 : 1;
    std::vector<DxfPoint> points;
    files::addArc(points, {data.cx, data.cy}, {data.mx, data.my},
                  {-data.my * data.ratio * side, data.mx * data.ratio * side}, data.angle1,
                  sweepOf(data.angle1, data.angle2));
    add(std::move(points), false, false);
  }

  void addPolyline(const DL_PolylineData& data) override {
    flush();
    constexpr int kClosed = 1;
    constexpr int kInSpace = 8;
    open_ = true;
    closed_ = (data.flags & kClosed) != 0;
    layer_ = attributes.getLayer();
    mirror_ = (data.flags & kInSpace) == 0 && mirrored();
  }
  void addVertex(const DL_VertexData& data) override {
    if (open_) {
      corners_.push_back(data);
    }
  }
  void endEntity() override { flush(); }
  void endSequence() override { flush(); }

  void addInsert(const DL_InsertData& data) override {
    flush();
    into_->uses.push_back({attributes.getLayer(),
                           data.name,
                           {data.ipx, data.ipy},
                           data.sx,
                           data.sy,
                           data.angle * kDegree,
                           std::max(data.cols, 1),
                           std::max(data.rows, 1),
                           data.colSp,
                           data.rowSp,
                           mirrored()});
  }

  base::Result<DxfDrawing> finish(const std::string& place);

 private:
  bool mirrored() {
    std::array<double, 3> direction{0, 0, 1};
    extrusion->getDirection(direction.data());
    return direction[2] < 0;
  }

  void add(std::vector<DxfPoint> points, bool closed, bool mirror) {
    flush();
    put(attributes.getLayer(), std::move(points), closed, mirror);
  }

  void put(const std::string& layer, std::vector<DxfPoint> points, bool closed, bool mirror) {
    if (mirror) {
      for (DxfPoint& p : points) {
        p.x = -p.x;
      }
    }
    into_->strokes.push_back({layer, std::move(points), closed});
  }

  /// The polyline whose corners came, if there is one.
  void flush() {
    if (!open_) {
      return;
    }
    open_ = false;
    std::vector<DxfPoint> points;
    points.reserve(corners_.size() + 1);
    for (std::size_t k = 0; k < corners_.size(); ++k) {
      const DxfPoint here{corners_[k].x, corners_[k].y};
      if (k == 0) {
        points.push_back(here);
      } else {
        addBulge(points, {corners_[k - 1].x, corners_[k - 1].y}, here, corners_[k - 1].bulge);
      }
    }
    if (closed_ && corners_.size() > 1) {
      addBulge(points, {corners_.back().x, corners_.back().y}, points.front(), corners_.back().bulge);
      points.pop_back();
    }
    if (points.size() > 1) {
      put(layer_, std::move(points), closed_, mirror_);
    }
    corners_.clear();
  }

  /// From a block's coordinates to the drawing's.
  struct Placing {
    double xx = 1, xy = 0, yx = 0, yy = 1, x = 0, y = 0;
    DxfPoint operator()(DxfPoint p) const { return {xx * p.x + xy * p.y + x, yx * p.x + yy * p.y + y}; }
  };
  base::Result<void> unfold(const Block& block, const Placing& placing, const std::string* layer, int depth,
                            const std::string& place);

  Block drawing_;
  std::map<std::string, Block> blocks_;
  Block* into_ = &drawing_;
  std::set<std::string> off_;
  int unit_ = 0;

  bool open_ = false;
  bool closed_ = false;
  bool mirror_ = false;
  std::string layer_;
  std::vector<DL_VertexData> corners_;

  std::map<std::string, std::vector<Raw>> unfolded_;
  std::size_t points_ = 0;
  std::size_t steps_ = 0;
};

base::Result<void> Reader::unfold(const Block& block, const Placing& placing, const std::string* layer,
                                  int depth, const std::string& place) {
  const auto too_much = [&] {
    return base::fail(
        base::ErrorCode::Range,
        fmt::format("The drawing has more than {} points once its blocks are unfolded. Save only "
                    "the layers that are needed.",
                    kMost_dxf_points),
        place);
  };
  for (const Raw& raw : block.strokes) {
    points_ += raw.points.size();
    if (points_ > kMost_dxf_points) {
      return too_much();
    }
    // What stands on layer 0 of a block goes with the layer that the block is placed on.
    const std::string& on = layer != nullptr && raw.layer == "0" ? *layer : raw.layer;
    Raw& to = unfolded_[on].emplace_back(Raw{on, {}, raw.closed});
    to.points.reserve(raw.points.size());
    for (const DxfPoint& p : raw.points) {
      const DxfPoint put = placing(p);
      if (!std::isfinite(put.x) || !std::isfinite(put.y)) {
        return base::fail(base::ErrorCode::Range, "A block is enlarged out of all bounds.", place);
      }
      to.points.push_back(put);
    }
  }
  for (const Use& use : block.uses) {
    const auto found = blocks_.find(use.block);
    if (found == blocks_.end()) {
      return base::fail(base::ErrorCode::Reference,
                        fmt::format("The block \"{}\" is placed, and stands nowhere in the file.", use.block),
                        place);
    }
    if (depth == kDeepest) {
      return base::fail(base::ErrorCode::Conflict,
                        fmt::format("Blocks hold each other more than {} deep; \"{}\" seems to hold itself.",
                                    kDeepest, use.block),
                        place);
    }
    const double side = use.mirrored ? -1 : 1;
    const double c = std::cos(use.turned_rad);
    const double s = std::sin(use.turned_rad);
    const std::string& on = layer != nullptr && use.layer == "0" ? *layer : use.layer;
    for (int row = 0; row < use.rows; ++row) {
      for (int column = 0; column < use.columns; ++column) {
        if (++steps_ > kMost_dxf_points) {
          return too_much();
        }
        const double step_x = column * use.column_step;
        const double step_y = row * use.row_step;
        const DxfPoint& base = found->second.base;
        Placing own{side * c * use.scale_x, -side * s * use.scale_y, s * use.scale_x, c * use.scale_y, 0, 0};
        own.x = side * (use.at.x + c * step_x - s * step_y) - own.xx * base.x - own.xy * base.y;
        own.y = use.at.y + s * step_x + c * step_y - own.yx * base.x - own.yy * base.y;
        const DxfPoint origin = placing({own.x, own.y});
        const Placing both{placing.xx * own.xx + placing.xy * own.yx,
                           placing.xx * own.xy + placing.xy * own.yy,
                           placing.yx * own.xx + placing.yy * own.yx,
                           placing.yx * own.xy + placing.yy * own.yy,
                           origin.x,
                           origin.y};
        if (auto done = unfold(found->second, both, &on, depth + 1, place); !done) {
          return done;
        }
      }
    }
  }
  return {};
}

struct Unit {
  int code;
  const char* name;
  double metres;
};
/// $INSUNITS of the file format; others are not taken for a shop's unit.
constexpr auto kUnits = std::to_array<Unit>({{1, "in", 0.0254},
                                             {2, "ft", 0.3048},
                                             {4, "mm", 0.001},
                                             {5, "cm", 0.01},
                                             {6, "m", 1.0},
                                             {10, "yd", 0.9144},
                                             {14, "dm", 0.1}});

base::Result<DxfDrawing> Reader::finish(const std::string& place) {
  flush();
  if (auto done = unfold(drawing_, {}, nullptr, 0, place); !done) {
    return tl::unexpected(done.error());
  }
  DxfDrawing out;
  for (const Unit& unit : kUnits) {
    if (unit.code == unit_) {
      out.unit_m = unit.metres;
      out.unit_name = unit.name;
    }
  }
  bool first = true;
  out.layers.reserve(unfolded_.size());
  for (auto& [name, raws] : unfolded_) {
    out.layers.push_back({name, raws.size(), off_.contains(name)});
    for (Raw& raw : raws) {
      for (const DxfPoint& p : raw.points) {
        out.low = first ? p : DxfPoint{std::min(out.low.x, p.x), std::min(out.low.y, p.y)};
        out.high = first ? p : DxfPoint{std::max(out.high.x, p.x), std::max(out.high.y, p.y)};
        first = false;
      }
      out.strokes.push_back({out.layers.size() - 1, std::move(raw.points), raw.closed});
    }
  }
  if (out.strokes.empty()) {
    return base::fail(
        base::ErrorCode::Unsupported,
        "The drawing holds no line, polyline, arc, circle, ellipse or block of these, so there is "
        "nothing to draw over.",
        place);
  }
  return out;
}

}  // namespace

base::Result<DxfDrawing> readDxf(std::string_view text, const std::string& place) {
  base::Result<DxfText> checked = checkDxfText(text, place);
  if (!checked) {
    return tl::unexpected(checked.error());
  }
  std::istringstream stream(checked->clean);
  DL_Dxf library;
  Reader reader;
  if (!library.in(stream, &reader)) {
    return base::fail(base::ErrorCode::Parse, "The drawing could not be read.", place);
  }
  base::Result<DxfDrawing> out = reader.finish(place);
  if (out) {
    out->skipped = std::move(checked->skipped);
    out->on_paper = checked->on_paper;
  }
  return out;
}

base::Result<DxfDrawing> loadDxf(const std::filesystem::path& path) {
  base::Result<std::string> text = readFile(path, kMost_dxf_bytes);
  if (!text) {
    return tl::unexpected(text.error());
  }
  return readDxf(*text, path.filename().string());
}

}  // namespace kerfdraft::files
