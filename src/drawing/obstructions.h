// What a label should not cover: thick lines and boxes, each with what a millimetre of it costs, found by a
// grid over the paper.
#pragma once

#include <cstdint>
#include <vector>

#include "drawing/geometry.h"

namespace kerfdraft::drawing {

class Obstructions {
 public:
  explicit Obstructions(const Box& paper);

  /// A line of some width; covering one millimetre of its length costs `weight`.
  void addLine(At a, At b, double width_mm, double weight);
  /// An area; covering one square millimetre costs `weight`.
  void addBox(const Box& box, double weight);

  /// What a label in this box would cost.
  double cost(const Box& label) const;
  /// What a thin line from a to b would cost: for each thing it crosses a share of its weight.
  double crossingCost(At a, At b) const;

 private:
  struct Thing {
    bool is_line = false;
    At a;
    At b;
    Box box;  ///< of a line: its bounds
    double half_width = 0;
    double weight = 0;
  };

  void add(const Thing& thing);
  template <class Visit>
  void visit(const Box& where, Visit&& each) const;

  Box paper_;
  int columns_ = 1;
  int rows_ = 1;
  std::vector<std::vector<std::uint32_t>> cells_;
  std::vector<Thing> things_;
  mutable std::vector<std::uint32_t> seen_;  ///< stamp of the last visit, by thing
  mutable std::uint32_t stamp_ = 0;
};

}  // namespace kerfdraft::drawing
