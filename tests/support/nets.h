// Small networks built by hand, without a drawing: for the solver's own tests, benchmarks and published
// networks.
#pragma once

#include <cmath>
#include <memory>
#include <string>
#include <vector>

#include "base/result.h"
#include "network/solve.h"
#include "physics/junction.h"
#include "pieces/pieces.h"

namespace kerfdraft::test {

/// Builds pieces::Pieces step by step. Ids count up, so that keys differ.
class NetBuilder {
 public:
  explicit NetBuilder(double density_kg_m3 = 1.2, bool local = false) {
    p_.air.density_kg_m3 = density_kg_m3;
    p_.air.pressure_pa = 101325;
    p_.air.viscosity_pa_s = 1.8187e-5;
    p_.local_density = local;
    node(pieces::NodeKind::Outdoors, "outdoors");
  }

  pieces::Pieces& pieces() { return p_; }

  std::size_t node(pieces::NodeKind kind, std::string label) {
    pieces::Node n;
    n.kind = kind;
    n.label = std::move(label);
    n.key = {pieces::Role::Room, nextId(), {}};
    p_.nodes.push_back(n);
    return p_.nodes.size() - 1;
  }
  std::size_t joint(std::string label = "joint") { return node(pieces::NodeKind::Joint, std::move(label)); }
  std::size_t reservoir(double pa) {
    const std::size_t n = node(pieces::NodeKind::Joint, "reservoir");
    p_.nodes[n].fixed = true;
    p_.nodes[n].fixed_pa = pa;
    return n;
  }

  std::size_t run(std::size_t from, std::size_t to, std::vector<pieces::Piece> list,
                  std::string label = "run") {
    pieces::Run r;
    r.from = from;
    r.to = to;
    r.pieces = std::move(list);
    r.label = std::move(label);
    r.key = {pieces::Role::Run, nextId(), {}};
    r.start_bore_m = r.pieces.empty() ? 0.1 : r.pieces.front().bore_m;
    r.end_bore_m = r.pieces.empty() ? 0.1 : r.pieces.back().bore_m;
    p_.runs.push_back(std::move(r));
    return p_.runs.size() - 1;
  }

  pieces::Piece fitting(double bore_m, double k, pieces::Role role = pieces::Role::Elbow) {
    pieces::Piece piece;
    piece.key = {role, nextId(), {}};
    piece.bore_m = bore_m;
    piece.k_forward = k;
    piece.k_reverse = k;
    piece.group = role == pieces::Role::Entry ? pieces::Group::Hood : pieces::Group::Fitting;
    piece.label = "fitting";
    return piece;
  }
  pieces::Piece entry(double bore_m, double k) {
    pieces::Piece piece = fitting(bore_m, k, pieces::Role::Entry);
    piece.k_reverse = 1;
    return piece;
  }
  pieces::Piece duct(double bore_m, double length_m, double roughness_m = 0.09e-3, double multiplier = 1) {
    pieces::Piece piece = fitting(bore_m, 0, pieces::Role::Straight);
    piece.group = multiplier == 1 ? pieces::Group::Friction : pieces::Group::Hose;
    piece.length_m = length_m;
    piece.roughness_m = roughness_m;
    piece.multiplier = multiplier;
    return piece;
  }
  pieces::Piece filter(double bore_m, double linear_pa_s_m3) {
    pieces::Piece piece = fitting(bore_m, 0, pieces::Role::Filter);
    piece.group = pieces::Group::Filter;
    piece.linear_pa_s_m3 = linear_pa_s_m3;
    return piece;
  }
  /// A piece that loses r m|m| Pa (m in kg/s) in air of the network's density.
  pieces::Piece quadratic(double r, double bore_m = 0.2) {
    const double area = physics::roundArea(bore_m);
    return fitting(bore_m, 2 * r * p_.air.density_kg_m3 * area * area);
  }
  /// A gate at the end of the pieces so far; the run index is the next one.
  pieces::Piece gate(double bore_m, double leak_fraction) {
    pieces::Piece piece = fitting(bore_m, 0, pieces::Role::Gate);
    piece.group = pieces::Group::Gate;
    piece.gate = static_cast<int>(p_.gates.size());
    pieces::GatePlace place;
    place.id = nextId();
    place.label = "G" + std::to_string(p_.gates.size() + 1);
    place.bore_m = bore_m;
    place.leak_fraction = leak_fraction;
    place.run = p_.runs.size();
    p_.gates.push_back(place);
    return piece;
  }

  /// Legs in order: drawn inlets (run ends), then one drawn outlet (run start). Angles of the inlets to the
  /// outlet.
  void junction(std::size_t node, const std::vector<std::size_t>& inlets, const std::vector<double>& turn_deg,
                std::size_t outlet) {
    const std::size_t n = inlets.size() + 1;
    pieces::Junction j;
    j.node = node;
    std::vector<double> area;
    std::vector<double> turns(n * n, 0);
    for (std::size_t i = 0; i < inlets.size(); ++i) {
      j.legs.push_back({inlets[i], true});
      area.push_back(physics::roundArea(p_.runs[inlets[i]].end_bore_m));
      const double t = turn_deg[i] * M_PI / 180;
      turns[i * n + n - 1] = turns[(n - 1) * n + i] = t;
      for (std::size_t k = 0; k < i; ++k) {
        turns[i * n + k] = turns[k * n + i] = M_PI - std::abs(t - turn_deg[k] * M_PI / 180);
      }
    }
    j.legs.push_back({outlet, false});
    area.push_back(physics::roundArea(p_.runs[outlet].start_bore_m));
    j.nominal_outlet = n - 1;
    // Single mitre of SMACNA Table A-7 (airflow.md 4.1, R10).
    static constexpr std::array<double, 7> kAngle{0, 20, 30, 45, 60, 75, 90};
    static constexpr std::array<double, 7> kK{0, 0.08, 0.16, 0.34, 0.55, 0.81, 1.2};
    static const std::array<double, 7> radians = [] {
      std::array<double, 7> r{};
      for (std::size_t i = 0; i < r.size(); ++i) {
        r[i] = kAngle[i] * M_PI / 180;
      }
      return r;
    }();
    const auto geometry = physics::junctionGeometry(area, turns, j.nominal_outlet, {radians, kK});
    base::check(geometry.has_value(), "a junction of a test is impossible");
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t o = 0; o < n; ++o) {
        j.cosine.push_back(geometry->cosine[i][o]);
      }
    }
    p_.junctions.push_back(j);
  }

  std::size_t fan(std::size_t from, std::size_t to, physics::FanRating rating, double bore_m = 0) {
    pieces::Fan f;
    f.id = nextId();
    f.key = {pieces::Role::Fan, f.id, {}};
    f.label = "F" + std::to_string(p_.fans.size() + 1);
    f.from = from;
    f.to = to;
    f.rating = std::move(rating);
    f.inlet_bore_m = bore_m;
    f.stopped_bore_m = bore_m;
    p_.fans.push_back(std::move(f));
    return p_.fans.size() - 1;
  }
  /// p = shutoff (1 − (Q/free)²) in total pressure at the network's density.
  std::size_t lawFan(std::size_t from, std::size_t to, double shutoff_pa, double free_m3_s,
                     double bore_m = 0) {
    physics::FanRating rating{physics::makeLawCurve(shutoff_pa, free_m3_s).value(),
                              physics::RatingBasis::FanTotal, p_.air.density_kg_m3, 0, 1};
    return fan(from, to, std::move(rating), bore_m);
  }

  std::size_t opening(std::size_t from, std::size_t to, double area_m2) {
    pieces::Opening o;
    o.from = from;
    o.to = to;
    o.area_m2 = area_m2;
    o.id = nextId();
    o.key = {pieces::Role::Opening, o.id, {}};
    p_.openings.push_back(o);
    return p_.openings.size() - 1;
  }

  void port(std::size_t run_index, std::size_t body_node) {
    pieces::PortPlace place;
    place.ref = {nextId(), nextId()};
    place.run = run_index;
    place.bore_m = p_.runs[run_index].start_bore_m;
    place.body_node = body_node;
    p_.ports.push_back(place);
  }

  std::shared_ptr<const pieces::Pieces> share() const { return std::make_shared<const pieces::Pieces>(p_); }
  std::shared_ptr<const network::Network> compile() const {
    auto net = network::compileNetwork(share());
    base::check(net.has_value(), "a network of a test does not compile");
    return *net;
  }
  network::Solution solve() const {
    const auto net = compile();
    return network::solveFully(*net, network::restingSituation(p_));
  }

 private:
  base::Id nextId() { return base::Id(++last_id_); }

  pieces::Pieces p_;
  std::uint64_t last_id_ = 0;
};

/// A comb: `machines` branches of 4 in with gates into a main of growing bore, one fan, a filter and an
/// outlet.
inline NetBuilder comb(int machines, double leak_coefficient = 0, bool local = true) {
  NetBuilder b(1.2, local);
  const auto bore = [](int served) { return 0.1 * std::sqrt(std::min(served, 6)); };
  std::size_t main_run = 0;
  const std::size_t end = b.joint("fan inlet");
  std::vector<std::size_t> nodes;
  for (int i = 1; i < machines; ++i) {
    nodes.push_back(b.node(pieces::NodeKind::Junction, "J" + std::to_string(i)));
  }
  for (int i = 0; i < machines; ++i) {
    std::vector<pieces::Piece> branch{b.entry(0.1, 1.5),   b.duct(0.1, 1.5, 0.09e-3, 2.5),
                                      b.fitting(0.1, 0.3), b.duct(0.1, 2),
                                      b.gate(0.1, 0.01),   b.duct(0.1, 0.4)};
    const std::size_t to = machines == 1 ? end : nodes[static_cast<std::size_t>(std::max(0, i - 1))];
    const std::size_t run = b.run(0, to, branch, "branch " + std::to_string(i + 1));
    b.pieces().gates.back().run = run;
    b.pieces().gates.back().piece = 4;
    if (leak_coefficient > 0) {
      for (const int after : {0, 3, 4, 5}) {
        b.pieces().runs[run].leaks.push_back({after, 0.1, leak_coefficient});
      }
    }
    b.port(run, 0);
    if (i == 0) {
      main_run = run;
      continue;
    }
    const double d = bore(i + 1);
    const std::size_t next = i + 1 < machines ? nodes[static_cast<std::size_t>(i)] : end;
    const std::size_t out = b.run(nodes[static_cast<std::size_t>(i - 1)], next,
                                  {b.duct(d, 3), b.fitting(d, i % 3 == 0 ? 0.25 : 0)}, "main");
    b.junction(nodes[static_cast<std::size_t>(i - 1)], {main_run, run}, {0, 45}, out);
    main_run = out;
  }
  const std::size_t out = b.joint("fan outlet");
  const double d = bore(machines);
  b.lawFan(end, out, 3500, 1.2, d);
  b.run(out, 0, {b.filter(d, 500), b.fitting(d, 1)}, "outlet");
  return b;
}

}  // namespace kerfdraft::test
