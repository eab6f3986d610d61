// What tests read off a picture: its labels with their boxes, its groups by kind.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/geometry.h"

namespace kerfdraft::drawing {

struct LabelBox {
  std::string kind;
  std::string element;
  std::string words;  ///< all lines, parted by " | "
  Box box;            ///< of its text and plate, without its leader
};

/// Every group whose kind ends with "-label", anywhere in the picture.
std::vector<LabelBox> labelsOf(const Picture& picture);

/// Every group, the outer ones first.
std::vector<const Group*> groupsOf(const Picture& picture);

/// Every text.
std::vector<const Text*> textsOf(const Picture& picture);

/// Pairs of labels whose boxes overlap, as sentences; none in a good picture.
std::vector<std::string> overlaps(const Picture& picture);

}  // namespace kerfdraft::drawing
