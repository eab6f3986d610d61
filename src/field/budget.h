// The uncertainty budget of a measurement, after the guide of the metrology bodies (GUM): every input with
// its standard uncertainty, its sensitivity and its contribution, combined, and doubled for about 95 %.
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "base/quantity.h"
#include "field/graded.h"

namespace kerfdraft::field {

/// Form of an input's distribution.
enum class Spread {
  Normal,
  Rectangular,  ///< anywhere within a half width: standard = half width / √3
};

std::string_view toText(Spread spread);

/// One input of a measurement. Inputs are independent of each other; what acts on several readings in the
/// same way (liquid, scale, calibration) is one input.
struct Uncertain {
  std::string key;    ///< "graduation-1"; lines with the same `group` are added up when shown
  std::string group;  ///< "" stands for the key
  std::string name;   ///< in words
  base::Kind kind = base::Kind::Ratio;
  double value = 0;
  double standard = 0;  ///< standard uncertainty, in the unit of the value
  Spread spread = Spread::Normal;
  double freedom = std::numeric_limits<double>::infinity();  ///< degrees of freedom, finite for scatter
  std::string source;                                        ///< of the value and of its spread
};

/// `u` with a rectangular spread of this half width.
Uncertain rectangular(Uncertain u, double half_width);

/// Gives an evaluation its inputs and writes them down, with derivatives.
class Listing {
 public:
  using Real = Graded;
  Graded operator()(Uncertain u) {
    list_.push_back(std::move(u));
    return Graded::variable(list_.back().value, list_.size() - 1);
  }
  const std::vector<Uncertain>& list() const { return list_; }

 private:
  std::vector<Uncertain> list_;
};

/// Gives an evaluation other values for the inputs that a Listing wrote down, in the same order.
class Replay {
 public:
  using Real = double;
  explicit Replay(std::span<const double> values) : values_(values) {}
  double operator()(const Uncertain&) { return values_[next_++]; }

 private:
  std::span<const double> values_;
  std::size_t next_ = 0;
};

/// Gives an evaluation its inputs as they stand.
struct AsEntered {
  using Real = double;
  double operator()(const Uncertain& u) const { return u.value; }
};

struct BudgetLine {
  Uncertain input;
  double sensitivity = 0;   ///< derivative of the result by this input, SI
  double contribution = 0;  ///< |sensitivity| × standard uncertainty, in the unit of the result
  int inputs = 1;           ///< how many inputs this line stands for (grouped lines)
};

/// Result with combined standard uncertainty u = √Σ(c_i u_i)² (GUM eq. 10, independent inputs) and expanded
/// uncertainty U = k u, k = 2. Accuracy against sampling: tests/field/budget_test.cpp.
struct Budget {
  base::Kind kind = base::Kind::Ratio;
  double value = 0;
  double combined = 0;
  double coverage = 2;
  double expanded = 0;
  double freedom = std::numeric_limits<double>::infinity();  ///< effective, Welch–Satterthwaite (GUM G.2b)
  std::vector<BudgetLine> lines;                             ///< in the order of evaluation
};

Budget makeBudget(const std::vector<Uncertain>& inputs, const Graded& result, base::Kind kind);

/// Lines of a group as one (contributions in quadrature, value and standard uncertainty the mean), largest
/// contribution first. The combined uncertainty is the same.
std::vector<BudgetLine> groupedLines(const Budget& budget);

}  // namespace kerfdraft::field
