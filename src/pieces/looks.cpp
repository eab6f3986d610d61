// Notes on the drawing, and where chips travel.
#include "pieces/looks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "catalogue/ducts.h"
#include "physics/fittings.h"

namespace kerfdraft::pieces {

namespace {

using base::Kind;

/// Bores that differ by less than this are the same size sold.
constexpr double kSameBore_m = 0.5e-3;

void closeElbows(Draft& draft, const Run& run) {
  const Piece* last = nullptr;
  double spacing_m = 0;
  for (const Piece& piece : run.pieces) {
    if (piece.key.role == Role::Elbow) {
      if (last != nullptr && physics::elbowsDisturb(spacing_m, piece.bore_m)) {
        draft.note(piece.key,
                   fmt::format("{}: only {} behind the elbow before it, less than two bores; the table "
                               "values need not add",
                               piece.label, draft.say(Kind::Length, spacing_m)));
      }
      last = &piece;
      spacing_m = 0;
    }
    spacing_m += piece.length_m;
  }
}

base::Result<std::vector<double>> boresSold(const catalogue::Catalogue& catalogue) {
  std::vector<double> out;
  for (const char* system : {"inch", "metric", "plastic"}) {
    for (const catalogue::Bore& bore : catalogue::boresOf(catalogue, system)) {
      out.push_back(bore.bore_m);
    }
  }
  return out;
}

}  // namespace

base::Result<void> addNotes(Draft& draft, const Drawing& drawing) {
  const auto sold = boresSold(draft.catalogue);
  if (!sold) {
    return base::Failure(sold.error());
  }
  for (const Run& run : draft.out.runs) {
    closeElbows(draft, run);
  }
  for (const DrawnDuct& duct : drawing.ducts) {
    for (std::size_t k = 0; k < duct.legs.size(); ++k) {
      const DrawnLeg& leg = duct.legs[k];
      if (leg.given_at != k || leg.isHose()) {
        continue;
      }
      const bool known = std::any_of(sold->begin(), sold->end(), [&](double bore_m) {
        return std::abs(bore_m - leg.bore_m) < kSameBore_m;
      });
      if (!known) {
        draft.note(
            {Role::Straight, duct.duct->corners[k].id, duct.duct->corners[k + 1].id},
            fmt::format("{}: {} is in no list of bores", cornerPlace(draft, duct, k), leg.leg->bore.text()));
      }
    }
    for (std::size_t k = 0; k < duct.legs.size();) {
      std::size_t end = k;
      double built_m = 0;
      while (end < duct.legs.size() && duct.legs[end].given_at == duct.legs[k].given_at) {
        built_m += duct.legs[end].length_m;
        ++end;
      }
      const double reach_m = shop::distance(duct.duct->corners[k].at, duct.duct->corners[end].at);
      if (duct.legs[k].isHose() && built_m < 0.98 * reach_m) {
        draft.note({Role::Hose, duct.duct->corners[k].id, duct.duct->corners[k + 1].id},
                   fmt::format("{}: a hose of {} cannot reach over {}", cornerPlace(draft, duct, k),
                               draft.say(Kind::Length, built_m), draft.say(Kind::Length, reach_m)));
      }
      k = end;
    }
  }
  return {};
}

void markChips(Draft& draft) {
  Pieces& out = draft.out;
  const auto stops = [](const Run& run) {
    return std::any_of(run.pieces.begin(), run.pieces.end(), [](const Piece& piece) {
      return piece.key.role == Role::Separator || piece.key.role == Role::Filter;
    });
  };
  // A unit whose separator is part of its curve stops chips too.
  std::set<Id> stopping_fans;
  for (const shop::Collector& collector : draft.project.collectors) {
    if (!collector.separators.empty() || !collector.filters.empty()) {
      stopping_fans.insert(collector.id);
    }
  }
  std::vector<std::vector<std::size_t>> touching(out.nodes.size());
  for (std::size_t r = 0; r < out.runs.size(); ++r) {
    touching[out.runs[r].from].push_back(r);
    touching[out.runs[r].to].push_back(r);
  }
  std::vector<char> node_seen(out.nodes.size(), 0);
  std::vector<char> run_seen(out.runs.size(), 0);
  std::vector<std::size_t> open;
  const auto reach = [&](std::size_t node) {
    const NodeKind kind = out.nodes[node].kind;
    const bool passes = kind == NodeKind::Joint || kind == NodeKind::Junction;
    if (passes && node_seen[node] == 0) {
      node_seen[node] = 1;
      open.push_back(node);
    }
  };
  for (std::size_t r = 0; r < out.runs.size(); ++r) {
    const Run& run = out.runs[r];
    if (!run.pieces.empty() && run.pieces.front().key.role == Role::Entry) {
      const NodeKind from = out.nodes[run.from].kind;
      // The housing behind a filter is a joint: nothing starts there.
      if (from != NodeKind::Joint || std::any_of(out.ports.begin(), out.ports.end(),
                                                 [&](const PortPlace& port) { return port.run == r; })) {
        run_seen[r] = 1;
        reach(run.to);
      }
    }
  }
  while (!open.empty()) {
    const std::size_t node = open.back();
    open.pop_back();
    for (const std::size_t r : touching[node]) {
      if (run_seen[r] == 0 && !stops(out.runs[r])) {
        run_seen[r] = 1;
        reach(out.runs[r].from);
        reach(out.runs[r].to);
      }
    }
    for (const Fan& fan : out.fans) {
      if (fan.from == node && !stopping_fans.contains(fan.id)) {
        reach(fan.to);
      }
    }
  }
  for (std::size_t r = 0; r < out.runs.size(); ++r) {
    out.runs[r].carries_chips = run_seen[r] != 0;
  }
}

}  // namespace kerfdraft::pieces
