// The sheet is turned and scaled about one point of its own, so that drawings that count from far away (a
// survey's coordinates) stay within the shop's.
#include "desk/models/underlay.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/trim.h"
#include "desk/models/duct_draft.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Given;
using base::Result;
using base::trimmed;
using shop::PlanPoint;
using shop::Underlay;

constexpr double kUnscaled_m = 0.01;
constexpr double kFirstSize_m = 10;
constexpr double kNear_m = 1e-3;
constexpr double kFarthest_m = 1000;  // coordinates of the format end there
constexpr double kLeast_unit_m = 1e-7;
constexpr double kMost_unit_m = 1000;
constexpr double kTurn = 2 * std::numbers::pi;

double metres(std::int64_t um) {
  return static_cast<double>(um) * 1e-6;
}

PlanPoint placed(double x_m, double y_m) {
  return {std::llround(x_m * 1e6), std::llround(y_m * 1e6)};
}

double fromX(const Underlay& underlay) {
  return underlay.from_x ? underlay.from_x->si() : 0;
}
double fromY(const Underlay& underlay) {
  return underlay.from_y ? underlay.from_y->si() : 0;
}
double turnOf(const Underlay& underlay) {
  return underlay.turned ? underlay.turned->si() : 0;
}

double distanceOf(const PlanPoint& a, const PlanPoint& b) {
  return std::hypot(metres(b.x_um - a.x_um), metres(b.y_um - a.y_um));
}

/// Where its point lies once a place keeps still while the sheet is scaled and turned about it.
Result<PlanPoint> about(const Underlay& underlay, const PlanPoint& still, double factor, double rad) {
  const double x = metres(underlay.at.x_um - still.x_um) * factor;
  const double y = metres(underlay.at.y_um - still.y_um) * factor;
  const double to_x = metres(still.x_um) + x * std::cos(rad) - y * std::sin(rad);
  const double to_y = metres(still.y_um) + x * std::sin(rad) + y * std::cos(rad);
  if (!(std::abs(to_x) <= kFarthest_m && std::abs(to_y) <= kFarthest_m)) {
    return fail(ErrorCode::Range,
                fmt::format("the underlay would lie {:.3g} m from the shop's origin; a shop "
                            "reaches {} m",
                            std::max(std::abs(to_x), std::abs(to_y)), kFarthest_m));
  }
  return placed(to_x, to_y);
}

std::optional<Given<base::Ratio>> coordinate(double value) {
  // A thousandth of a unit: of millimetres a micrometre, of pixels nothing that can be seen.
  const double rounded = std::round(value * 1000) / 1000;
  return rounded == 0 ? std::nullopt
                      : std::optional(*Given<base::Ratio>::parse(fmt::format("{:.3f}", rounded)));
}

Given<base::Length> unitGiven(double unit_m, base::Standing standing, std::string_view source) {
  return *Given<base::Length>::parse(fmt::format("{:.7g} mm", unit_m * 1000), standing, source);
}

/// A spelling that its parser reads; one unit only.
std::string lengthWords(double length_m, base::UnitSystem units) {
  return base::formatQuantity(base::Kind::Length, length_m, units);
}

}  // namespace

double unitOf(const Underlay& underlay) {
  return underlay.unit ? underlay.unit->si() : kUnscaled_m;
}

PlanPoint toShop(const Underlay& underlay, const SheetPoint& sheet) {
  const double unit_m = unitOf(underlay);
  const double x = (sheet.x - fromX(underlay)) * unit_m;
  const double y = (sheet.y - fromY(underlay)) * unit_m;
  const double turn = turnOf(underlay);
  return placed(metres(underlay.at.x_um) + x * std::cos(turn) - y * std::sin(turn),
                metres(underlay.at.y_um) + x * std::sin(turn) + y * std::cos(turn));
}

SheetPoint toSheet(const Underlay& underlay, const PlanPoint& at) {
  const double unit_m = unitOf(underlay);
  const double turn = turnOf(underlay);
  const double x = metres(at.x_um - underlay.at.x_um) / unit_m;
  const double y = metres(at.y_um - underlay.at.y_um) / unit_m;
  return {fromX(underlay) + x * std::cos(turn) + y * std::sin(turn),
          fromY(underlay) - x * std::sin(turn) + y * std::cos(turn)};
}

Result<Underlay> laidUnder(const shop::Project& project, std::string file, const SheetSize& size) {
  const double width = size.high.x - size.low.x;
  const double height = size.high.y - size.low.y;
  const double longest = std::max(width, height);
  if (!(longest > 0) || !std::isfinite(longest)) {
    return fail(ErrorCode::Unsupported, "nothing with a length is in it", file);
  }
  // The rooms' south-west corner, and how long they are.
  std::int64_t low_x = std::numeric_limits<std::int64_t>::max();
  std::int64_t low_y = low_x;
  std::int64_t high_x = std::numeric_limits<std::int64_t>::min();
  std::int64_t high_y = high_x;
  for (const shop::Room& room : project.rooms) {
    for (const PlanPoint& corner : room.outline) {
      low_x = std::min(low_x, corner.x_um);
      low_y = std::min(low_y, corner.y_um);
      high_x = std::max(high_x, corner.x_um);
      high_y = std::max(high_y, corner.y_um);
    }
  }
  const bool drawn = low_x < high_x;
  Underlay out;
  out.file = std::move(file);
  out.at = drawn ? PlanPoint{low_x, low_y} : PlanPoint{};
  out.from_x = coordinate(size.low.x);
  out.from_y = coordinate(size.low.y);
  const double as_long_m = drawn ? std::max(metres(high_x - low_x), metres(high_y - low_y)) : kFirstSize_m;
  const bool named = size.unit_m && longest * *size.unit_m <= kFarthest_m && *size.unit_m >= kLeast_unit_m;
  const double unit_m = std::clamp(named ? *size.unit_m : as_long_m / longest, kLeast_unit_m, kMost_unit_m);
  out.unit = named ? unitGiven(unit_m, base::Standing::Published, "unit of the drawing file")
                   : unitGiven(unit_m, base::Standing::Assumed, "");
  return out;
}

Result<Underlay> scaledBy(const Underlay& underlay, const PlanPoint& a, const PlanPoint& b,
                          std::string_view length) {
  const Result<double> wanted_m = parseLength(length);
  if (!wanted_m) {
    return base::Failure(wanted_m.error());
  }
  if (!(*wanted_m > 0) || *wanted_m > kFarthest_m) {
    return fail(ErrorCode::Range, fmt::format("{} is not between 0 and {} m", trimmed(length), kFarthest_m));
  }
  const double apart_m = distanceOf(a, b);
  if (apart_m < kNear_m) {
    return fail(ErrorCode::Range, "the two places are in one point; click two that you know the distance of");
  }
  const double factor = *wanted_m / apart_m;
  const double unit_m = unitOf(underlay) * factor;
  if (!(unit_m >= kLeast_unit_m && unit_m <= kMost_unit_m)) {
    return fail(ErrorCode::Range,
                fmt::format("one unit of the underlay would be {:.3g} m; it may be {:.0e} m to {} m", unit_m,
                            kLeast_unit_m, kMost_unit_m));
  }
  const Result<PlanPoint> at = about(underlay, a, factor, 0);
  if (!at) {
    return base::Failure(at.error());
  }
  Underlay out = underlay;
  out.at = *at;
  out.unit =
      unitGiven(unit_m, base::Standing::Measured, fmt::format("two known points, {} apart", trimmed(length)));
  return out;
}

Result<Underlay> movedBy(const Underlay& underlay, const PlanPoint& from, const PlanPoint& to) {
  Underlay out = underlay;
  out.at.x_um += to.x_um - from.x_um;
  out.at.y_um += to.y_um - from.y_um;
  const Result<PlanPoint> at = about(out, out.at, 1, 0);
  if (!at) {
    return base::Failure(at.error());
  }
  return out;
}

Result<Underlay> turnedBy(const Underlay& underlay, const PlanPoint& still, double rad) {
  const Result<PlanPoint> at = about(underlay, still, 1, rad);
  if (!at) {
    return base::Failure(at.error());
  }
  Underlay out = underlay;
  out.at = *at;
  double turned = std::remainder(turnOf(underlay) + rad, kTurn);
  constexpr double kDegree = std::numbers::pi / 180;
  // A millionth of a degree is a fiftieth of a millimetre at a kilometre.
  turned = std::round(turned / kDegree * 1e6) / 1e6;
  out.turned = turned == 0 ? std::nullopt
                           : std::optional(*Given<base::Angle>::parse(fmt::format("{:.9g} deg", turned)));
  return out;
}

Result<Underlay> squared(const Underlay& underlay, const PlanPoint& a, const PlanPoint& b) {
  if (distanceOf(a, b) < kNear_m) {
    return fail(ErrorCode::Range, "the two places are in one point; click two along one wall");
  }
  const double angle = std::atan2(metres(b.y_um - a.y_um), metres(b.x_um - a.x_um));
  return turnedBy(underlay, a, -std::remainder(angle, kTurn / 4));
}

Result<UnderlayTyped> parseUnderlayTyped(std::string_view raw) {
  const std::string_view text = trimmed(raw);
  UnderlayTyped out;
  if (text == "square") {
    out.what = UnderlayTyped::What::Square;
    return out;
  }
  if (text == "hide" || text == "show") {
    out.what = text == "hide" ? UnderlayTyped::What::Hide : UnderlayTyped::What::Show;
    return out;
  }
  if (text.starts_with("turn ")) {
    const std::string_view angle = trimmed(text.substr(4));
    // Degrees are meant where nothing else is said.
    Result<double> rad = base::parseQuantity(base::Kind::Angle, angle);
    if (!rad) {
      rad = base::parseQuantity(base::Kind::Angle, std::string(angle) + " deg");
    }
    if (!rad || !(std::abs(*rad) <= kTurn)) {
      return fail(ErrorCode::Parse, fmt::format("{} is not an angle up to 360 degrees; type turn 90", angle));
    }
    out.what = UnderlayTyped::What::Turn;
    out.turn_rad = *rad;
    return out;
  }
  const Result<double> length = parseLength(text);
  if (!length) {
    return fail(
        length.error().code,
        fmt::format("{}. Type how far the two places are apart (12 ft 6, 3.2 m), square, turn 90, hide "
                    "or show",
                    length.error().message));
  }
  out.length = std::string(text);
  return out;
}

std::vector<UnderlayLayer> layersOf(const files::DxfDrawing& drawing, const Underlay& underlay) {
  std::vector<UnderlayLayer> out;
  out.reserve(drawing.layers.size());
  for (const files::DxfLayer& layer : drawing.layers) {
    const bool off = std::find(underlay.layers_off.begin(), underlay.layers_off.end(), layer.name) !=
                     underlay.layers_off.end();
    out.push_back({layer.name, layer.strokes, !off});
  }
  return out;
}

Underlay withLayer(const Underlay& underlay, const std::string& layer, bool shown) {
  Underlay out = underlay;
  std::erase(out.layers_off, layer);
  if (!shown) {
    out.layers_off.push_back(layer);
    std::sort(out.layers_off.begin(), out.layers_off.end());
  }
  return out;
}

std::string scaleWords(const Underlay& underlay, const SheetSize& size, base::UnitSystem units) {
  const double unit_m = unitOf(underlay);
  const std::string is = fmt::format("{} × {}", lengthWords((size.high.x - size.low.x) * unit_m, units),
                                     lengthWords((size.high.y - size.low.y) * unit_m, units));
  if (!underlay.unit || underlay.unit->standing() == base::Standing::Assumed) {
    return is + ". Its scale is not known yet: click two places that you know the distance of, and type it.";
  }
  return fmt::format("{}. One unit of it is {}: {}.", is, underlay.unit->text(),
                     underlay.unit->source().empty() ? std::string(base::toText(underlay.unit->standing()))
                                                     : underlay.unit->source());
}

std::string skippedWords(const files::DxfDrawing& drawing) {
  std::string out;
  for (const auto& [kind, number] : drawing.skipped) {
    std::string word = kind;
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    out += fmt::format("{}{} {}", out.empty() ? "Not shown: " : ", ", number, word);
  }
  if (drawing.on_paper > 0) {
    out += fmt::format("{}{} of the printed sheet", out.empty() ? "Not shown: " : ", ", drawing.on_paper);
  }
  return out.empty() ? out : out + ".";
}

}  // namespace kerfdraft::desk
