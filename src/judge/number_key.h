// Names of numbers: "state/2/run/4/piece/3/loss". A key names one number of an assessment; explain() takes it
// apart, a panel or a paper carries it beside the number.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"
#include "judge/assessment.h"

namespace kerfdraft::judge {

enum class Element { Node, Run, Piece, Port, Fan, Opening, Air };

/// Indices are those of Assessment::states and of the vectors of pieces::Pieces.
struct NumberKey {
  Element element = Element::Air;
  std::size_t state = 0;  ///< not of Air
  std::size_t index = 0;  ///< node, run, port, fan or opening
  std::size_t piece = 0;  ///< of Piece, within its run
  std::string quantity;   ///< "loss"

  std::string text() const;
  bool operator==(const NumberKey&) const = default;
};

/// Reads a key. Refused: another shape, an unknown element, a number that is none.
base::Result<NumberKey> parseNumberKey(std::string_view text);

/// A number of a solution as it stands there, with its words.
struct Number {
  double value = 0;
  base::Kind kind = base::Kind::Ratio;
  std::string name;  ///< "loss of total pressure of D2: elbow 90°"
};

/// The number of a key, straight from the solution. Refused: a state, element or quantity that is not there
/// (those that are there are listed), a state without a solution.
base::Result<Number> numberOf(const Assessment& assessment, const NumberKey& key);

/// Keys of every number of a state, in a fixed order; none where it has no solution.
std::vector<NumberKey> numberKeys(const Assessment& assessment, std::size_t state);

}  // namespace kerfdraft::judge
