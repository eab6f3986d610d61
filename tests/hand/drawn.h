// Pieces put together by hand for tests: what a drawing would give, without a drawing.
#pragma once

#include <numbers>
#include <string>
#include <vector>

#include "pieces/pieces.h"

namespace kerfdraft::tests {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFeet_m = 0.3048;
inline constexpr double kCfm_m3_s = 0.3048 * 0.3048 * 0.3048 / 60;
inline constexpr double kFpm_m_s = 0.00508;
/// The inch of water of the trade's 4005: 68 F.
inline constexpr double kTradeInch_pa = 248.64;

inline double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

/// Gathers nodes and runs; ids are counted, labels are given.
class Drawn {
 public:
  pieces::Pieces pieces;

  Drawn() {
    pieces.local_density = false;
    node(pieces::NodeKind::Outdoors, "outdoors");
  }

  std::size_t node(pieces::NodeKind kind, const std::string& label) {
    pieces::Node node;
    node.kind = kind;
    node.label = label;
    node.key = {
        kind == pieces::NodeKind::Junction ? pieces::Role::Junction : pieces::Role::Body, nextId(), {}};
    pieces.nodes.push_back(node);
    return pieces.nodes.size() - 1;
  }

  std::size_t run(std::size_t from, std::size_t to, double bore_m, const std::string& label) {
    pieces::Run run;
    run.key = {pieces::Role::Run, nextId(), nextId()};
    run.label = label;
    run.from = from;
    run.to = to;
    run.start_bore_m = bore_m;
    run.end_bore_m = bore_m;
    pieces.runs.push_back(run);
    return pieces.runs.size() - 1;
  }

  pieces::Piece& fitting(std::size_t run, pieces::Role role, double k) {
    pieces::Piece piece;
    piece.key = {role, nextId(), {}};
    piece.label = std::string(pieces::toText(role));
    piece.bore_m = pieces.runs[run].end_bore_m;
    piece.k_forward = k;
    piece.k_reverse = k;
    piece.source = {"given by the test", "", base::SourceStatus::Ours};
    pieces.runs[run].pieces.push_back(piece);
    return pieces.runs[run].pieces.back();
  }

  pieces::Piece& straight(std::size_t run, double length_m, double roughness_m = 0.15e-3) {
    pieces::Piece& piece = fitting(run, pieces::Role::Straight, 0);
    piece.group = pieces::Group::Friction;
    piece.length_m = length_m;
    piece.roughness_m = roughness_m;
    return piece;
  }

  /// A junction of runs that end at `node` and one that starts there; cosines of the plain turns.
  void junction(std::size_t node, const std::vector<std::size_t>& inlets,
                const std::vector<double>& angles_rad, std::size_t outlet) {
    pieces::Junction junction;
    junction.node = node;
    for (std::size_t i = 0; i < inlets.size(); ++i) {
      junction.legs.push_back({inlets[i], true});
      junction.angle_rad.push_back(angles_rad[i]);
    }
    junction.legs.push_back({outlet, false});
    junction.angle_rad.push_back(0);
    junction.nominal_outlet = inlets.size();
    const std::size_t n = junction.legs.size();
    junction.cosine.assign(n * n, 0);
    for (std::size_t i = 0; i < inlets.size(); ++i) {
      junction.cosine[i * n + inlets.size()] = std::cos(angles_rad[i]);
      junction.cosine[inlets.size() * n + i] = std::cos(angles_rad[i]);
    }
    pieces.junctions.push_back(junction);
  }

  std::size_t fan(std::size_t from, std::size_t to, const std::string& label) {
    pieces::Fan fan;
    fan.label = label;
    fan.id = nextId();
    fan.key = {pieces::Role::Fan, fan.id, {}};
    fan.from = from;
    fan.to = to;
    pieces.fans.push_back(fan);
    return pieces.fans.size() - 1;
  }

  base::Id nextId() { return base::Id(++ids_); }

 private:
  std::uint64_t ids_ = 0;
};

/// What differs between the two-branch shops of the rows N3 to N6.
struct TwoBranches {
  double bore1_in = 4;
  double main_in = 7;
};

/// Rows N3 to N6: branch 1 (hood 0.49, 15 ft, elbows 0.36) and branch 2 of 5 in (hood 0.25, 25 ft, elbows
/// 0.48), both entering at 30 degrees, into a main; then a fan that blows outdoors. Runs 0, 1 and 2.
inline Drawn twoBranches(const TwoBranches& shop = {}) {
  using pieces::NodeKind;
  using pieces::Role;
  Drawn drawn;
  const std::size_t meet = drawn.node(NodeKind::Junction, "J1");
  const std::size_t inlet = drawn.node(NodeKind::Joint, "fan inlet");
  const std::size_t first = drawn.run(0, meet, shop.bore1_in * kInch_m, "B1");
  drawn.fitting(first, Role::Entry, 0.49).group = pieces::Group::Hood;
  drawn.straight(first, 15 * kFeet_m);
  drawn.fitting(first, Role::Elbow, 0.36);
  const std::size_t second = drawn.run(0, meet, 5 * kInch_m, "B2");
  drawn.fitting(second, Role::Entry, 0.25).group = pieces::Group::Hood;
  drawn.straight(second, 25 * kFeet_m);
  drawn.fitting(second, Role::Elbow, 0.48);
  const std::size_t main = drawn.run(meet, inlet, shop.main_in * kInch_m, "main");
  drawn.junction(meet, {first, second}, {radians(30), radians(30)}, main);
  drawn.fan(inlet, 0, "F1");
  drawn.pieces.ports.push_back({{}, "T1", first, shop.bore1_in * kInch_m, 0});
  drawn.pieces.ports.push_back({{}, "T2", second, 5 * kInch_m, 0});
  return drawn;
}

}  // namespace kerfdraft::tests
