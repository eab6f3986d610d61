// Sparse elimination with a fixed order: the structure of a network never changes between solves, so the
// order, the fill and every address are found once and a solve is a straight pass over a list. KLU on the
// same matrix is the second way: it pivots by size, for the few points where a fixed order loses digits
// (docs/decisions/0011, measured in bench/).
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace kerfdraft::network {

/// Unknown i has equation i as its pivot. `late` unknowns (fans, whose own slope may vanish) are eliminated
/// last; `wants` gives for an unknown those of which one must be eliminated before it (a node needs one of
/// its flows).
class Elimination {
 public:
  Elimination() = default;
  Elimination(std::size_t size, const std::vector<std::pair<int, int>>& entries,
              const std::vector<char>& late, const std::vector<std::vector<int>>& wants);

  std::size_t size() const { return size_; }
  /// Number of stored values, fill included.
  std::size_t valueCount() const { return row_of_.size(); }
  /// Address of an entry named in the constructor.
  int address(int row, int column) const;

  /// Solves A x = b in place: `values` are destroyed, `rhs` becomes x. Returns false where a pivot is smaller
  /// than 1e-10 of what its row held, so that digits would be lost.
  bool solve(double* values, double* rhs) const;

  /// Solves Aᵀ y = c with the factors that solve() left in `values`; for adjoint sensitivities.
  void solveTransposed(const double* factors, double* rhs) const;

  /// Row and column of each stored value, fill included.
  const std::vector<int>& rows() const { return row_of_; }
  const std::vector<int>& columns() const { return column_of_; }

 private:
  struct Pivot {
    int index = 0;
    int diagonal = 0;
    int lower_begin = 0;  // entries below the pivot: (address, row)
    int lower_end = 0;
    int upper_begin = 0;  // entries right of it: (address, column)
    int upper_end = 0;
    int target_begin = 0;  // lower × upper addresses
  };
  struct Entry {
    int address = 0;
    int index = 0;
  };

  std::size_t size_ = 0;
  std::vector<int> row_of_;
  std::vector<int> column_of_;
  std::vector<Pivot> pivots_;
  std::vector<Entry> lower_;
  std::vector<Entry> upper_;
  std::vector<int> targets_;
  std::vector<std::vector<std::pair<int, int>>> by_row_;  // (column, address), sorted
};

}  // namespace kerfdraft::network
