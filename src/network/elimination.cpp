// Order by least fill, then the list of operations.
#include "network/elimination.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/result.h"

namespace kerfdraft::network {

Elimination::Elimination(std::size_t size, const std::vector<std::pair<int, int>>& entries,
                         const std::vector<char>& late, const std::vector<std::vector<int>>& wants)
    : size_(size) {
  const int n = static_cast<int>(size);
  std::vector<std::set<int>> rows(size);     // columns present in each remaining row
  std::vector<std::set<int>> columns(size);  // rows present in each remaining column
  std::map<std::pair<int, int>, int> address;
  const auto place = [&](int r, int c) {
    const auto [at, added] = address.try_emplace({r, c}, static_cast<int>(row_of_.size()));
    if (added) {
      row_of_.push_back(r);
      column_of_.push_back(c);
    }
    return at->second;
  };
  const auto add = [&](int r, int c) {
    place(r, c);
    rows[static_cast<std::size_t>(r)].insert(c);
    columns[static_cast<std::size_t>(c)].insert(r);
  };
  for (const auto& [r, c] : entries) {
    base::check(r >= 0 && r < n && c >= 0 && c < n, "an entry outside the matrix");
    add(r, c);
  }
  for (int i = 0; i < n; ++i) {
    add(i, i);
  }

  // Least growth of the rest (Markowitz) among those whose turn it may be; ties by index, so the order is
  // fixed.
  std::vector<char> gone(size, 0);
  std::vector<std::vector<int>> wanted_by(size);
  for (int i = 0; i < n; ++i) {
    for (const int w : wants[static_cast<std::size_t>(i)]) {
      wanted_by[static_cast<std::size_t>(w)].push_back(i);
    }
  }
  const auto costOf = [&](std::size_t i) {
    const bool ready = wants[i].empty() || std::any_of(wants[i].begin(), wants[i].end(), [&](int w) {
                         return gone[static_cast<std::size_t>(w)] != 0;
                       });
    return (rows[i].size() - 1) * (columns[i].size() - 1) + (ready ? 0U : 1000000000U) +
           (late[i] != 0 ? 100000000U : 0U);
  };
  std::vector<std::size_t> cost(size);
  std::set<std::pair<std::size_t, int>> queue;
  for (int i = 0; i < n; ++i) {
    cost[static_cast<std::size_t>(i)] = costOf(static_cast<std::size_t>(i));
    queue.emplace(cost[static_cast<std::size_t>(i)], i);
  }
  const auto refresh = [&](int i) {
    const auto at = static_cast<std::size_t>(i);
    if (gone[at] == 0) {
      queue.erase({cost[at], i});
      cost[at] = costOf(at);
      queue.emplace(cost[at], i);
    }
  };
  while (!queue.empty()) {
    const int best = queue.begin()->second;
    queue.erase(queue.begin());
    const auto k = static_cast<std::size_t>(best);
    gone[k] = 1;
    Pivot pivot;
    pivot.index = best;
    pivot.diagonal = place(best, best);
    pivot.lower_begin = static_cast<int>(lower_.size());
    pivot.upper_begin = static_cast<int>(upper_.size());
    pivot.target_begin = static_cast<int>(targets_.size());
    for (const int r : columns[k]) {
      if (r != best) {
        lower_.push_back({place(r, best), r});
      }
    }
    for (const int c : rows[k]) {
      if (c != best) {
        upper_.push_back({place(best, c), c});
      }
    }
    pivot.lower_end = static_cast<int>(lower_.size());
    pivot.upper_end = static_cast<int>(upper_.size());
    for (int l = pivot.lower_begin; l < pivot.lower_end; ++l) {
      for (int u = pivot.upper_begin; u < pivot.upper_end; ++u) {
        const int r = lower_[static_cast<std::size_t>(l)].index;
        const int c = upper_[static_cast<std::size_t>(u)].index;
        add(r, c);
        targets_.push_back(place(r, c));
      }
    }
    pivots_.push_back(pivot);
    for (const int r : columns[k]) {
      rows[static_cast<std::size_t>(r)].erase(best);
    }
    for (const int c : rows[k]) {
      columns[static_cast<std::size_t>(c)].erase(best);
    }
    for (const int r : columns[k]) {
      refresh(r);
    }
    for (const int c : rows[k]) {
      refresh(c);
    }
    for (const int i : wanted_by[k]) {
      refresh(i);
    }
  }

  by_row_.resize(size);
  for (const auto& [place_of, at] : address) {
    by_row_[static_cast<std::size_t>(place_of.first)].emplace_back(place_of.second, at);
  }
}

int Elimination::address(int row, int column) const {
  const auto& cells = by_row_[static_cast<std::size_t>(row)];
  const auto at = std::lower_bound(cells.begin(), cells.end(), std::pair(column, -1));
  base::check(at != cells.end() && at->first == column, "an entry that was not declared");
  return at->second;
}

bool Elimination::solve(double* values, double* rhs) const {
  constexpr double kLostDigits = 1e-10;
  const Entry* lower = lower_.data();
  const Entry* upper = upper_.data();
  const int* targets = targets_.data();
  for (const Pivot& p : pivots_) {
    const double diagonal = values[p.diagonal];
    double largest = 0;
    for (int u = p.upper_begin; u < p.upper_end; ++u) {
      largest = std::max(largest, std::abs(values[upper[u].address]));
    }
    if (!(std::abs(diagonal) > kLostDigits * largest) || diagonal == 0) {
      return false;
    }
    const double inverse = 1 / diagonal;
    const int* target = targets + p.target_begin;
    const double b = rhs[p.index];
    for (int l = p.lower_begin; l < p.lower_end; ++l) {
      double& below = values[lower[l].address];
      const double factor = below * inverse;
      below = factor;
      rhs[lower[l].index] -= factor * b;
      for (int u = p.upper_begin; u < p.upper_end; ++u) {
        values[*target++] -= factor * values[upper[u].address];
      }
    }
  }
  for (auto p = pivots_.rbegin(); p != pivots_.rend(); ++p) {
    double sum = rhs[p->index];
    for (int u = p->upper_begin; u < p->upper_end; ++u) {
      sum -= values[upper[u].address] * rhs[upper[u].index];
    }
    rhs[p->index] = sum / values[p->diagonal];
  }
  return true;
}

void Elimination::solveTransposed(const double* factors, double* rhs) const {
  for (const Pivot& p : pivots_) {
    const double y = rhs[p.index] / factors[p.diagonal];
    rhs[p.index] = y;
    for (int u = p.upper_begin; u < p.upper_end; ++u) {
      rhs[upper_[static_cast<std::size_t>(u)].index] -=
          factors[upper_[static_cast<std::size_t>(u)].address] * y;
    }
  }
  for (auto p = pivots_.rbegin(); p != pivots_.rend(); ++p) {
    double sum = rhs[p->index];
    for (int l = p->lower_begin; l < p->lower_end; ++l) {
      sum -= factors[lower_[static_cast<std::size_t>(l)].address] *
             rhs[lower_[static_cast<std::size_t>(l)].index];
    }
    rhs[p->index] = sum;
  }
}

}  // namespace kerfdraft::network
