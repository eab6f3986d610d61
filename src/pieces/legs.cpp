// Straight duct, hose and gates of one leg.
#include "pieces/legs.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "catalogue/collectors.h"
#include "catalogue/ducts.h"
#include "physics/friction.h"
#include "physics/gate.h"
#include "physics/hose.h"

namespace kerfdraft::pieces {

namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Kind;
using base::Result;

/// Wall of a leg: what all its pieces share.
struct Wall {
  Role role = Role::Straight;
  Group group = Group::Friction;
  double roughness_m = 0;
  double multiplier = 1;
  WallLeak leak;
  std::string name;
  Source source;
};

std::string_view word(shop::HoseInside inside) {
  return inside == shop::HoseInside::Smooth ? "smooth" : "ribbed";
}

std::string_view word(shop::HoseHung hung) {
  switch (hung) {
    case shop::HoseHung::Tight:
      return "tight";
    case shop::HoseHung::Hung:
      return "hung";
    case shop::HoseHung::Slack:
      return "slack";
  }
  return "";
}

Result<Wall> hoseWall(Draft& draft, const DrawnDuct& duct, std::size_t leg) {
  const DrawnLeg& drawn = duct.legs[leg];
  const shop::Hose& hose = *drawn.leg->hose;
  const bool pressed = hose.compression.has_value();
  // Where the compression is known it replaces the look: the tight value is corrected by it.
  const std::string key = fmt::format("{}-{}", word(hose.inside), pressed ? "tight" : word(hose.hung));
  const auto row = catalogue::hose(draft.catalogue, key);
  if (!row) {
    return Failure(row.error());
  }
  Wall wall;
  wall.role = Role::Hose;
  wall.group = Group::Hose;
  wall.roughness_m = row->reference_roughness_m;
  wall.multiplier = row->friction_factor;
  wall.name = row->name;
  wall.source = sourceOf(row->origin, fmt::format("{} x friction of duct", row->friction_factor));
  if (pressed) {
    const double compression = hose.compression->si();
    if (!(compression >= 0 && compression < 0.9)) {
      return fail(
          ErrorCode::Range,
          fmt::format("a hose can be pushed together by 0 to 90 %, not by {}", hose.compression->text()),
          cornerPlace(draft, duct, leg));
    }
    const physics::HoseMultiplier factor = physics::compressionFactor(compression, drawn.bore_m);
    wall.multiplier *= factor.value;
    wall.source.formula =
        fmt::format("{} x PDCF {:.4g} x friction of duct", row->friction_factor, factor.value);
    wall.source.key = fmt::format("{}; {}", wall.source.key, physics::kCompressionFactor.source);
    if (factor.extrapolated && leg == drawn.given_at) {
      draft.note(
          {Role::Hose, duct.duct->corners[leg].id, duct.duct->corners[leg + 1].id},
          fmt::format("{}: hose of {} pushed together by {:.0f} % lies outside the measurements (4 to "
                      "16 in, 0 to 45 %); the nearest end is taken",
                      cornerPlace(draft, duct, leg), draft.say(Kind::Bore, drawn.bore_m), 100 * compression));
    }
  }
  return wall;
}

Result<Wall> ductWall(const Draft& draft, const DrawnDuct& duct, std::size_t leg) {
  const DrawnLeg& drawn = duct.legs[leg];
  auto row = catalogue::construction(draft.catalogue, drawn.leg->construction);
  if (!row) {
    row.error().where = cornerPlace(draft, duct, drawn.given_at);
    return Failure(row.error());
  }
  Wall wall;
  wall.roughness_m = row->roughness_m;
  wall.leak = {row->leakage_class, row->origin.layer != catalogue::Layer::Shipped};
  wall.name = row->name;
  wall.source = sourceOf(row->origin, "f L/D, roughness of the construction");
  return wall;
}

Result<DraftPiece> gatePiece(Draft& draft, const DrawnDuct& duct, const DrawnLeg& leg,
                             const shop::Gate& gate) {
  double leak = 0;
  Source source{"travel and slot: physics/gate.h", "", base::SourceStatus::Ours};
  if (gate.slot != shop::GateSlot::None && draft.project.setting.leakage) {
    const auto row =
        catalogue::gate(draft.catalogue, gate.slot == shop::GateSlot::Worn ? "blade-worn" : "blade");
    if (!row) {
      return Failure(row.error());
    }
    leak = physics::gateLeak(row->leak_slot_m, leg.bore_m);
    source = sourceOf(row->origin, std::string(physics::kGate.formula));
  }
  GatePlace place;
  place.id = gate.id;
  place.label = gate.label;
  place.bore_m = leg.bore_m;
  place.leak_fraction = leak;
  DraftPiece out;
  out.piece.key = {Role::Gate, gate.id, {}};
  out.piece.label = fmt::format("{}: gate {}", duct.duct->label, gate.label);
  out.piece.group = Group::Gate;
  out.piece.bore_m = leg.bore_m;
  out.piece.gate = static_cast<int>(draft.out.gates.size());
  out.piece.source = std::move(source);
  draft.out.gates.push_back(std::move(place));
  draft.worn_gate.push_back(gate.slot == shop::GateSlot::Worn ? 1 : 0);
  return out;
}

DraftPiece stretchPiece(const Draft& draft, const DrawnDuct& duct, const DrawnLeg& leg, const Wall& wall,
                        Id from, Id to, double length_m) {
  DraftPiece out;
  Piece& piece = out.piece;
  piece.key = {wall.role, from, to};
  piece.label = fmt::format("{}: {} of {} {}", duct.duct->label, draft.say(Kind::Length, length_m),
                            draft.say(Kind::Bore, leg.bore_m), wall.role == Role::Hose ? "hose" : "duct");
  piece.group = wall.group;
  piece.bore_m = leg.bore_m;
  piece.length_m = length_m;
  piece.roughness_m = wall.roughness_m;
  piece.multiplier = wall.multiplier;
  piece.source = wall.source;
  out.leak = wall.leak;
  return out;
}

}  // namespace

Result<std::vector<DraftPiece>> legPieces(Draft& draft, const DrawnDuct& duct, std::size_t leg) {
  const DrawnLeg& drawn = duct.legs[leg];
  const auto wall = drawn.isHose() ? hoseWall(draft, duct, leg) : ductWall(draft, duct, leg);
  if (!wall) {
    return Failure(wall.error());
  }
  const auto rough = physics::relativeRoughness(base::Length(wall->roughness_m), base::Length(drawn.bore_m),
                                                cornerPlace(draft, duct, leg));
  if (!rough) {
    return Failure(rough.error());
  }
  const shop::Corner& from = duct.duct->corners[leg];
  const shop::Corner& to = duct.duct->corners[leg + 1];
  std::vector<const shop::Gate*> gates;
  for (const shop::Gate& gate : duct.duct->gates) {
    if (gate.corner == from.id) {
      gates.push_back(&gate);
    }
  }
  std::stable_sort(gates.begin(), gates.end(), [](const shop::Gate* a, const shop::Gate* b) {
    return a->distance.si() < b->distance.si();
  });
  std::vector<DraftPiece> out;
  Id start = from.id;
  double at_m = 0;
  const double stretch = drawn.length_m / drawn.drawn_m;
  for (const shop::Gate* gate : gates) {
    const double distance_m = gate->distance.si();
    // A millimetre of slack, as in shop/invariants.h: the gate may have been entered at the leg's very end.
    if (!(distance_m >= 0 && distance_m <= drawn.drawn_m + 1e-3)) {
      return fail(ErrorCode::Range,
                  fmt::format("the gate stands {} from its corner, but the leg is only {} long",
                              gate->distance.text(), draft.say(Kind::Length, drawn.drawn_m)),
                  fmt::format("{} {}", duct.duct->label, gate->label));
    }
    const double here_m = std::min(distance_m, drawn.drawn_m) * stretch;
    if (here_m > at_m) {
      out.push_back(stretchPiece(draft, duct, drawn, *wall, start, gate->id, here_m - at_m));
    }
    auto piece = gatePiece(draft, duct, drawn, *gate);
    if (!piece) {
      return Failure(piece.error());
    }
    out.push_back(std::move(*piece));
    start = gate->id;
    at_m = here_m;
  }
  if (drawn.length_m > at_m) {
    out.push_back(stretchPiece(draft, duct, drawn, *wall, start, to.id, drawn.length_m - at_m));
  }
  return out;
}

void addTaps(Draft& draft, const DrawnDuct& duct, const std::vector<std::size_t>& run_of_leg) {
  for (const shop::Access& tap : duct.duct->taps) {
    std::size_t leg = 0;
    while (leg < duct.legs.size() && duct.duct->corners[leg].id != tap.corner) {
      ++leg;
    }
    base::check(leg < duct.legs.size(), "a tap on no leg of its duct came through the checks");
    const Run& run = draft.out.runs[run_of_leg[leg]];
    // The leg's pieces lie in a row, between its two corners; gates may have split it.
    const Id from = duct.duct->corners[leg].id;
    const Id to = duct.duct->corners[leg + 1].id;
    const auto of_leg = [&](const Piece& piece) {
      const auto is_gate = [&](Id id) {
        return std::any_of(duct.duct->gates.begin(), duct.duct->gates.end(),
                           [&](const shop::Gate& gate) { return gate.id == id && gate.corner == from; });
      };
      return (piece.key.role == Role::Straight || piece.key.role == Role::Hose) &&
             (piece.key.a == from || is_gate(piece.key.a)) && (piece.key.b == to || is_gate(piece.key.b));
    };
    TapPlace place;
    place.id = tap.id;
    place.label = tap.label;
    place.run = run_of_leg[leg];
    double left_m = tap.distance.si() * duct.legs[leg].length_m / duct.legs[leg].drawn_m;
    for (std::size_t i = 0; i < run.pieces.size(); ++i) {
      if (!of_leg(run.pieces[i])) {
        continue;
      }
      place.piece = i;
      place.along_m = std::min(left_m, run.pieces[i].length_m);
      if (left_m <= run.pieces[i].length_m) {
        break;
      }
      left_m -= run.pieces[i].length_m;
    }
    draft.out.taps.push_back(std::move(place));
  }
}

}  // namespace kerfdraft::pieces
