// The solved figures of a thing: what its air does in a state, each with the key that explains it. Without
// Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "desk/models/places.h"
#include "desk/solved.h"

namespace kerfdraft::desk {

struct Figure {
  std::string name;   ///< "air into T2 P1"
  std::string value;  ///< "812 cfm (between 700 and 930), needs 800 cfm: met"
  std::string why;    ///< key of the number, for Look::askWhy()
};

/// Of a machine or port its air, of a duct or what hangs on it every run that passes there, of a collector
/// its fan, of a room or opening the air through its openings. Nothing where nothing is solved.
std::vector<Figure> figuresOf(const Solved& solved, std::size_t state, const Thing& thing,
                              base::UnitSystem units);

/// The run that a piece of the picture belongs to, and the piece in it.
struct PieceAt {
  std::size_t run = 0;
  std::size_t piece = 0;
};
std::optional<PieceAt> pieceOf(const pieces::Pieces& drawing, std::string_view element);

/// What lies under the pointer, in a few lines: flow, speed against need, static pressure; of a fan and a
/// port likewise. Empty where the element is none of these or nothing is solved.
std::vector<std::string> readout(const Solved& solved, std::size_t state, std::string_view element,
                                 base::UnitSystem units);

/// The number that an element of the picture asks about first: the speed in a piece, the air of a port, that
/// of a fan. Nothing for other elements.
std::optional<std::string> numberOfElement(const Solved& solved, std::size_t state, std::string_view element);

}  // namespace kerfdraft::desk
