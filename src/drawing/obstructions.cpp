// The grid behind the label placer.
#include "drawing/obstructions.h"

#include "base/result.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kCell_mm = 8;
constexpr int kMostCells = 400;  // along one side

}  // namespace

Obstructions::Obstructions(const Box& paper) : paper_(paper) {
  base::check(!paper.empty(), "labels need paper");
  columns_ = std::clamp(static_cast<int>(paper.width() / kCell_mm) + 1, 1, kMostCells);
  rows_ = std::clamp(static_cast<int>(paper.height() / kCell_mm) + 1, 1, kMostCells);
  cells_.resize(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_));
}

template <class Visit>
void Obstructions::visit(const Box& where, Visit&& each) const {
  const auto place = [](double value, double from, double size, int count) {
    return std::clamp(static_cast<int>((value - from) / size * count), 0, count - 1);
  };
  const double w = std::max(paper_.width(), 1e-9);
  const double h = std::max(paper_.height(), 1e-9);
  const int left = place(where.left, paper_.left, w, columns_);
  const int right = place(where.right, paper_.left, w, columns_);
  const int top = place(where.top, paper_.top, h, rows_);
  const int bottom = place(where.bottom, paper_.top, h, rows_);
  for (int row = top; row <= bottom; ++row) {
    for (int column = left; column <= right; ++column) {
      each(static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
           static_cast<std::size_t>(column));
    }
  }
}

void Obstructions::add(const Thing& thing) {
  const auto index = static_cast<std::uint32_t>(things_.size());
  visit(thing.box, [&](std::size_t cell) { cells_[cell].push_back(index); });
  things_.push_back(thing);
  seen_.push_back(0);
}

void Obstructions::addLine(At a, At b, double width_mm, double weight) {
  Thing thing;
  thing.is_line = true;
  thing.a = a;
  thing.b = b;
  thing.half_width = width_mm / 2;
  thing.weight = weight;
  thing.box.add(a);
  thing.box.add(b);
  thing.box = thing.box.grown(thing.half_width);
  add(thing);
}

void Obstructions::addBox(const Box& box, double weight) {
  if (box.empty()) {
    return;
  }
  Thing thing;
  thing.box = box;
  thing.weight = weight;
  add(thing);
}

double Obstructions::cost(const Box& label) const {
  double sum = 0;
  ++stamp_;
  visit(label, [&](std::size_t cell) {
    for (const std::uint32_t index : cells_[cell]) {
      if (seen_[index] == stamp_) {
        continue;
      }
      seen_[index] = stamp_;
      const Thing& thing = things_[index];
      if (!overlap(thing.box, label)) {
        continue;
      }
      sum += thing.weight * (thing.is_line ? lengthInside(label.grown(thing.half_width), thing.a, thing.b)
                                           : sharedArea(thing.box, label));
    }
  });
  return sum;
}

double Obstructions::crossingCost(At a, At b) const {
  Box where;
  where.add(a);
  where.add(b);
  double sum = 0;
  ++stamp_;
  visit(where, [&](std::size_t cell) {
    for (const std::uint32_t index : cells_[cell]) {
      if (seen_[index] == stamp_) {
        continue;
      }
      seen_[index] = stamp_;
      const Thing& thing = things_[index];
      if (thing.is_line && linesCross(a, b, thing.a, thing.b)) {
        sum += thing.weight;
      }
    }
  });
  return sum;
}

}  // namespace kerfdraft::drawing
