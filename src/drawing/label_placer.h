// Where the labels of a picture go: never over one another, rarely over ducts, near what they name, with a
// leader line where they stand apart. The same picture gives the same places.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "drawing/grade.h"
#include "drawing/obstructions.h"

namespace kerfdraft::drawing {

struct LabelLine {
  std::string text;
  bool bold = false;
  bool faint = false;  ///< set in grey
};

struct Label {
  std::string kind{};     ///< of its group: "machine-label"
  std::string element{};  ///< what it names
  std::vector<LabelLine> lines{};
  double size_mm = 2.3;
  std::vector<At> anchors{};     ///< places that it may name; the best one is taken
  double clear_mm = 0.8;         ///< room between an anchor and the label: half a duct's width and a little
  std::optional<Box> inside{};   ///< first tried inside this box, where no leader is needed
  std::optional<Grade> bar{};    ///< a bar of this grade before the text
  bool on_plate = false;         ///< on a white plate with a thin rim: short labels of gates and taps
  bool inverted = false;         ///< white on a dark plate
  int rank = 0;                  ///< smaller ones choose first
  bool may_be_left_out = false;  ///< where no place is free within `reach_mm`
  double reach_mm = 60;          ///< how far from its anchor
};

struct PlacedLabel {
  std::size_t label = 0;
  Box box;
  At anchor;
  std::optional<At> leader_from;  ///< on the edge of the box, where a leader is needed
  double covers = 0;              ///< cost of what lies under it
};

struct LabelPlaces {
  std::vector<PlacedLabel> placed;    ///< in the order of the labels
  std::vector<std::size_t> left_out;  ///< labels for which the paper has no room
};

/// Size of a label's box: its text, its bar, and a rim of `kLabelRim_mm` all round.
inline constexpr double kLabelRim_mm = 0.45;
At sizeOf(const Label& label);

/// Breaks a label into narrower lines, where that lets it stand inside its box and it does not fit as it is.
void fitInside(Label& label);

/// Quick: for a view on a screen, made anew with every edit. What finds no place near its thing is left out,
/// and labels are moved but once.
enum class PlaceEffort { Full, Quick };

/// Places for all labels within `paper`, outside `taken`. No two boxes overlap, none leaves the paper.
LabelPlaces placeLabels(const std::vector<Label>& labels, const Box& paper, const std::vector<Box>& taken,
                        const Obstructions& obstructions, PlaceEffort effort = PlaceEffort::Full);

/// A placed label as shapes: leader, plate, bar and text.
Shape drawLabel(const Label& label, const PlacedLabel& place);

}  // namespace kerfdraft::drawing
