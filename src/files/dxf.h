// Lines and curves of a DXF drawing, to be drawn over: flat, as open or closed chains of points on layers.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace kerfdraft::files {

struct DxfPoint {
  double x = 0;  ///< in the drawing's own unit, x to the right and y up
  double y = 0;
  bool operator==(const DxfPoint&) const = default;
};

/// A line, polyline, arc, circle or ellipse. Curves are chords of at most kChord_rad, so that they lie within
/// a thousandth of their radius.
struct DxfStroke {
  std::size_t layer = 0;  ///< index into DxfDrawing::layers
  std::vector<DxfPoint> points;
  bool closed = false;
};
inline constexpr double kChord_rad = 0.07;

struct DxfLayer {
  std::string name;
  std::size_t strokes = 0;
  bool off = false;  ///< switched off or frozen in the file
};

struct DxfDrawing {
  std::vector<DxfLayer> layers;  ///< only those with something on them, by name
  std::vector<DxfStroke> strokes;
  std::optional<double> unit_m{};              ///< metres in one unit, where the header says it
  std::string unit_name;                       ///< "mm", "in", …; empty where the header does not say it
  std::map<std::string, std::size_t> skipped;  ///< kinds that are not read (texts, hatches, …), with number
  std::size_t on_paper = 0;                    ///< entities of the printed sheet, left out
  DxfPoint low;                                ///< the corners of everything
  DxfPoint high;
};

/// Greater drawings are refused with a sentence.
inline constexpr std::size_t kMost_dxf_bytes = 100'000'000;
inline constexpr std::size_t kMost_dxf_points = 4'000'000;

/// Errors name the line; `place` is the file's name for them.
base::Result<DxfDrawing> readDxf(std::string_view text, const std::string& place);
base::Result<DxfDrawing> loadDxf(const std::filesystem::path& path);

}  // namespace kerfdraft::files
