// Pieces → the compiled network: stretches, unknowns, the structure of the matrix.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "network/compiled.h"
#include "network/solve.h"
#include "physics/friction.h"

namespace kerfdraft::network {
namespace {

using pieces::Group;
using pieces::Pieces;
using pieces::Role;

constexpr double kSameBore = 1e-12;

class Compiler {
 public:
  explicit Compiler(std::shared_ptr<const Pieces> source)
      : net_(std::make_shared<Network>()), from_(*source) {
    net_->pieces = std::move(source);
  }

  base::Result<std::shared_ptr<const Network>> compile() {
    net_->air = {from_.air.density_kg_m3, from_.air.pressure_pa, from_.air.viscosity_pa_s,
                 from_.local_density};
    if (auto bad = checkRanges()) {
      return base::Failure(*bad);
    }
    numberNodes();
    net_->gate_stretch.resize(from_.gates.size());
    net_->gate_run.resize(from_.gates.size());
    for (std::size_t r = 0; r < from_.runs.size(); ++r) {
      addRun(r);
    }
    for (const pieces::Fan& fan : from_.fans) {
      net_->fans.push_back(link(fan.from, fan.to));
      net_->flow_scale_kg_s =
          std::max(net_->flow_scale_kg_s,
                   fan.rating->speed_ratio * fan.rating->curve.lastFlow() * net_->air.room_density_kg_m3);
    }
    if (net_->fans.empty()) {
      net_->flow_scale_kg_s = 1;
    }
    for (const pieces::Opening& opening : from_.openings) {
      net_->openings.push_back(link(opening.from, opening.to));
    }
    addJunctions();
    orderByDrawing();
    buildMatrix();
    return std::shared_ptr<const Network>(net_);
  }

 private:
  std::optional<base::Error> checkRanges() const {
    for (const pieces::Run& run : from_.runs) {
      for (const pieces::Piece& p : run.pieces) {
        if (!(p.bore_m > 0) || !std::isfinite(p.bore_m) || !(p.length_m >= 0) || !(p.k_forward >= 0) ||
            !(p.k_reverse >= 0) || !std::isfinite(p.k_forward + p.k_reverse + p.length_m)) {
          return base::Error{
              base::ErrorCode::Range,
              fmt::format("\"{}\" has a bore of {} m, a length of {} m and coefficients {} and {}; "
                          "bores are positive and the others not negative",
                          p.label, p.bore_m, p.length_m, p.k_forward, p.k_reverse),
              run.label};
        }
        if (p.roughness_m / p.bore_m > physics::kMaxRelativeRoughness) {
          return base::Error{
              base::ErrorCode::Range,
              fmt::format("the roughness of {} m is over 5 % of the bore of {} m, where no friction "
                          "law is measured",
                          p.roughness_m, p.bore_m),
              p.label};
        }
      }
    }
    for (const pieces::Opening& o : from_.openings) {
      if (!(o.area_m2 > 0)) {
        return base::Error{base::ErrorCode::Range,
                           fmt::format("an opening's area of {} m2 is not positive", o.area_m2), o.label};
      }
    }
    return std::nullopt;
  }

  void numberNodes() {
    int next = static_cast<int>(from_.runs.size() + from_.fans.size() + from_.openings.size());
    for (std::size_t n = 0; n < from_.nodes.size(); ++n) {
      const pieces::Node& node = from_.nodes[n];
      const bool known = node.fixed || node.kind == pieces::NodeKind::Outdoors;
      net_->unknown_of_node.push_back(known ? -1 : next);
      net_->known_pa.push_back(node.fixed ? node.fixed_pa : 0);
      next += known ? 0 : 1;
    }
    size_ = static_cast<std::size_t>(next);
  }

  void openStretch(double bore_m) {
    Stretch s;
    s.area_m2 = physics::roundArea(bore_m);
    s.inverse_area = 1 / s.area_m2;
    s.inverse_2a2 = 0.5 / (s.area_m2 * s.area_m2);
    s.re_per_kg_s = physics::reynolds(1.0, bore_m, net_->air.viscosity_pa_s);
    s.friction_begin = net_->frictions.size();
    s.friction_end = s.friction_begin;
    net_->stretches.push_back(s);
    bore_ = bore_m;
  }

  void addPiece(const pieces::Piece& piece, bool break_before, CompiledRun& run, bool& accelerated) {
    const bool second_gate =
        piece.gate >= 0 && net_->stretches.size() > run.stretch_begin && net_->stretches.back().gate >= 0;
    if (break_before || second_gate || net_->stretches.size() == run.stretch_begin ||
        std::abs(piece.bore_m - bore_) > kSameBore) {
      openStretch(piece.bore_m);
    }
    Stretch& s = net_->stretches.back();
    PieceShare share;
    share.stretch = net_->stretches.size() - 1;
    share.group = piece.group;
    share.k_forward = piece.k_forward;
    share.k_reverse = piece.k_reverse;
    share.filter = piece.filter;
    share.linear = piece.linear_pa_s_m3;
    if (piece.length_m > 0) {
      const double e = piece.roughness_m / piece.bore_m;
      const double weight = piece.multiplier * piece.length_m / piece.bore_m * s.inverse_2a2 / s.re_per_kg_s;
      share.friction = -1;
      for (std::size_t f = s.friction_begin; f < s.friction_end; ++f) {
        if (net_->frictions[f].relative_roughness == e && net_->frictions[f].group == piece.group) {
          share.friction = static_cast<int>(f);
        }
      }
      if (share.friction < 0) {
        share.friction = static_cast<int>(net_->frictions.size());
        net_->frictions.push_back({e, 0, piece.group});
        s.friction_end = net_->frictions.size();
      }
      net_->frictions[static_cast<std::size_t>(share.friction)].weight += weight;
      if (!accelerated) {
        s.first_duct = 1;
        accelerated = true;
      }
    }
    if (piece.gate >= 0) {
      s.gate = piece.gate;
      net_->gate_stretch[static_cast<std::size_t>(piece.gate)] = share.stretch;
      net_->gate_run[static_cast<std::size_t>(piece.gate)] = net_->runs.size();
      run.gates.push_back(static_cast<std::size_t>(piece.gate));
    }
    net_->shares.push_back(share);
  }

  void addRun(std::size_t r) {
    const pieces::Run& source = from_.runs[r];
    CompiledRun run;
    run.stretch_begin = net_->stretches.size();
    run.share_begin = net_->shares.size();
    run.from.node = static_cast<int>(source.from);
    run.to.node = static_cast<int>(source.to);
    run.room = static_cast<int>(source.room);
    run.takes_solids = source.carries_chips;
    // Only air that comes from a hood has its dust to accelerate.
    bool accelerated = source.pieces.empty() || source.pieces.front().key.role != Role::Entry;
    std::size_t next_leak = 0;
    const auto leakAfter = [&](int index) {
      bool any = false;
      for (; next_leak < source.leaks.size() && source.leaks[next_leak].after == index; ++next_leak) {
        const pieces::LeakStation& leak = source.leaks[next_leak];
        if (!(leak.coefficient > 0)) {
          continue;
        }
        any = true;
        if (index < 0) {
          run.leak_before += leak.coefficient;
          run.leak_before_inverse_area = 1 / physics::roundArea(leak.bore_m);
        } else {
          Stretch& s = net_->stretches.back();
          s.leak_after += leak.coefficient;
          s.leak_inverse_area = 1 / physics::roundArea(leak.bore_m);
          s.leak_in_own_bore = std::abs(leak.bore_m - bore_) <= kSameBore;
        }
      }
      return any;
    };
    bool broken = leakAfter(-1);
    for (std::size_t i = 0; i < source.pieces.size(); ++i) {
      addPiece(source.pieces[i], broken, run, accelerated);
      broken = leakAfter(static_cast<int>(i));
    }
    base::check(next_leak == source.leaks.size(), "leak stations are not in the order of the pieces");
    run.stretch_end = net_->stretches.size();
    run.share_end = net_->shares.size();
    firstGuess(run, source);
    net_->runs.push_back(std::move(run));
  }

  /// A flow that a kilopascal or two would drive, so that shut gates do not start at full speed.
  void firstGuess(CompiledRun& run, const pieces::Run& source) const {
    constexpr double kGuessedFactor = 0.02;
    double weight = 0;
    run.start_limit_area = 1e9;
    for (std::size_t s = run.stretch_begin; s < run.stretch_end; ++s) {
      const Stretch& stretch = net_->stretches[s];
      run.start_limit_area = std::min(run.start_limit_area, stretch.area_m2);
      for (std::size_t f = stretch.friction_begin; f < stretch.friction_end; ++f) {
        weight += kGuessedFactor * net_->frictions[f].weight * stretch.re_per_kg_s;
      }
      weight += 0.3 * stretch.inverse_2a2;
    }
    for (std::size_t p = run.share_begin; p < run.share_end; ++p) {
      weight += net_->shares[p].k_forward * net_->stretches[net_->shares[p].stretch].inverse_2a2;
    }
    if (source.pieces.empty()) {
      run.start_limit_area = source.start_bore_m > 0 ? physics::roundArea(source.start_bore_m) : 0.01;
      weight = 1;
    }
    run.start_conductance = 1 / std::sqrt(weight);
  }

  static CompiledLink link(std::size_t from, std::size_t to) {
    CompiledLink l;
    l.from = static_cast<int>(from);
    l.to = static_cast<int>(to);
    return l;
  }

  void addJunctions() {
    for (std::size_t j = 0; j < from_.junctions.size(); ++j) {
      const pieces::Junction& source = from_.junctions[j];
      CompiledJunction junction;
      junction.node = static_cast<int>(source.node);
      const std::size_t n = source.legs.size();
      base::check(n >= 2 && n <= physics::kMaxLegs && source.cosine.size() == n * n,
                  "a junction of an impossible shape");
      junction.geometry.legs = n;
      junction.geometry.nominal_outlet = source.nominal_outlet;
      for (std::size_t i = 0; i < n; ++i) {
        const pieces::JunctionLeg& leg = source.legs[i];
        const pieces::Run& run = from_.runs[leg.run];
        junction.geometry.area_m2[i] = physics::roundArea(leg.at_end ? run.end_bore_m : run.start_bore_m);
        for (std::size_t o = 0; o < n; ++o) {
          junction.geometry.cosine[i][o] = source.cosine[i * n + o];
        }
        junction.run.push_back(leg.run);
        junction.at_end.push_back(leg.at_end ? 1 : 0);
        RunEnd& end = leg.at_end ? net_->runs[leg.run].to : net_->runs[leg.run].from;
        base::check(static_cast<std::size_t>(end.node) == source.node, "a junction leg that ends elsewhere");
        end.junction = static_cast<int>(j);
        end.leg = static_cast<int>(i);
      }
      net_->junctions.push_back(junction);
    }
  }

  void orderByDrawing() {
    std::vector<int> waits(net_->junctions.size(), 0);  // inlets that are not yet reached
    std::vector<char> placed(net_->junctions.size(), 0);
    std::vector<char> run_placed(net_->runs.size(), 0);
    std::vector<std::size_t> ready;
    const auto placeRun = [&](std::size_t r) {
      run_placed[r] = 1;
      net_->order.push_back(static_cast<int>(r));
      const int j = net_->runs[r].to.junction;
      net_->runs[r].after_its_junction = j >= 0 && placed[static_cast<std::size_t>(j)] != 0;
      if (j >= 0 && --waits[static_cast<std::size_t>(j)] == 0) {
        ready.push_back(static_cast<std::size_t>(j));
      }
    };
    for (const CompiledRun& run : net_->runs) {
      if (run.to.junction >= 0) {
        ++waits[static_cast<std::size_t>(run.to.junction)];
      }
    }
    for (std::size_t j = 0; j < waits.size(); ++j) {
      if (waits[j] == 0) {
        ready.push_back(j);
      }
    }
    for (std::size_t r = 0; r < net_->runs.size(); ++r) {
      if (net_->runs[r].from.junction < 0) {
        placeRun(r);
      }
    }
    std::vector<std::vector<std::size_t>> starting(net_->junctions.size());
    for (std::size_t r = 0; r < net_->runs.size(); ++r) {
      if (net_->runs[r].from.junction >= 0) {
        starting[static_cast<std::size_t>(net_->runs[r].from.junction)].push_back(r);
      }
    }
    std::size_t next_in_ring = 0;
    for (std::size_t at = 0;; ++at) {
      if (at == ready.size()) {
        while (next_in_ring < placed.size() && placed[next_in_ring] != 0) {
          ++next_in_ring;
        }
        if (next_in_ring == placed.size()) {
          break;
        }
        ready.push_back(next_in_ring);
      }
      const std::size_t j = ready[at];
      if (placed[j] != 0) {
        continue;
      }
      placed[j] = 1;
      net_->order.push_back(-1 - static_cast<int>(j));
      for (const std::size_t r : starting[j]) {
        if (run_placed[r] == 0) {
          placeRun(r);
        }
      }
    }
    base::check(net_->order.size() == net_->runs.size() + net_->junctions.size(),
                "a run or junction was left out");
  }

  void buildMatrix() {
    std::vector<std::pair<int, int>> entries;
    std::vector<char> late(size_, 0);
    std::vector<std::vector<int>> wants(size_);
    const auto unknown = [&](int node) { return net_->unknown_of_node[static_cast<std::size_t>(node)]; };
    const auto add = [&](int row, int column) {
      if (row >= 0 && column >= 0) {
        entries.emplace_back(row, column);
      }
    };
    const auto legColumns = [&](int row, const RunEnd& end) {
      if (end.junction >= 0) {
        for (const std::size_t other : net_->junctions[static_cast<std::size_t>(end.junction)].run) {
          add(row, static_cast<int>(other));
        }
      }
    };
    const auto flowAtNode = [&](int flow, int node) {
      if (unknown(node) >= 0) {
        wants[static_cast<std::size_t>(unknown(node))].push_back(flow);
      }
    };
    for (std::size_t r = 0; r < net_->runs.size(); ++r) {
      const CompiledRun& run = net_->runs[r];
      const int row = static_cast<int>(r);
      add(row, row);
      add(row, unknown(run.from.node));
      add(row, unknown(run.to.node));
      legColumns(row, run.from);
      legColumns(row, run.to);
      add(unknown(run.from.node), row);
      add(unknown(run.to.node), row);
      add(unknown(run.to.node), unknown(run.from.node));
      flowAtNode(row, run.from.node);
      flowAtNode(row, run.to.node);
    }
    const auto addLink = [&](const CompiledLink& l, int row) {
      add(row, row);
      add(row, unknown(l.from));
      add(row, unknown(l.to));
      add(unknown(l.from), row);
      add(unknown(l.to), row);
    };
    for (std::size_t f = 0; f < net_->fans.size(); ++f) {
      const int row = static_cast<int>(net_->fanUnknown(f));
      addLink(net_->fans[f], row);
      late[static_cast<std::size_t>(row)] = 1;
    }
    for (std::size_t o = 0; o < net_->openings.size(); ++o) {
      const int row = static_cast<int>(net_->openingUnknown(o));
      addLink(net_->openings[o], row);
      flowAtNode(row, net_->openings[o].from);
      flowAtNode(row, net_->openings[o].to);
    }
    net_->elimination = Elimination(size_, entries, late, wants);

    const auto at = [&](int row, int column) {
      return row >= 0 && column >= 0 ? net_->elimination.address(row, column) : -1;
    };
    for (std::size_t r = 0; r < net_->runs.size(); ++r) {
      CompiledRun& run = net_->runs[r];
      const int row = static_cast<int>(r);
      const int from = unknown(run.from.node);
      const int to = unknown(run.to.node);
      run.law_self = at(row, row);
      run.law_from = at(row, from);
      run.law_to = at(row, to);
      run.from_flow = at(from, row);
      run.from_from = at(from, from);
      run.to_flow = at(to, row);
      run.to_from = at(to, from);
      run.to_to = at(to, to);
      for (RunEnd* end : {&run.from, &run.to}) {
        if (end->junction >= 0) {
          for (const std::size_t other : net_->junctions[static_cast<std::size_t>(end->junction)].run) {
            end->leg_addresses.push_back(at(row, static_cast<int>(other)));
          }
        }
      }
    }
    const auto addressLink = [&](CompiledLink& l, int row) {
      l.law_self = at(row, row);
      l.law_from = at(row, unknown(l.from));
      l.law_to = at(row, unknown(l.to));
      l.from_flow = at(unknown(l.from), row);
      l.to_flow = at(unknown(l.to), row);
    };
    for (std::size_t f = 0; f < net_->fans.size(); ++f) {
      addressLink(net_->fans[f], static_cast<int>(net_->fanUnknown(f)));
    }
    for (std::size_t o = 0; o < net_->openings.size(); ++o) {
      addressLink(net_->openings[o], static_cast<int>(net_->openingUnknown(o)));
    }
    for (std::size_t n = 0; n < from_.nodes.size(); ++n) {
      net_->balance_self.push_back(at(net_->unknown_of_node[n], net_->unknown_of_node[n]));
    }
  }

  std::shared_ptr<Network> net_;
  const Pieces& from_;
  std::size_t size_ = 0;
  double bore_ = 0;
};

}  // namespace

base::Result<std::shared_ptr<const Network>> compileNetwork(std::shared_ptr<const pieces::Pieces> pieces) {
  return Compiler(std::move(pieces)).compile();
}

}  // namespace kerfdraft::network
