// From standing to row; docs/theory/uncertainty.md lists the rules.
#include "doubt/known_as.h"

#include <algorithm>

namespace kerfdraft::doubt {
namespace {

using base::Given;
using base::Standing;
using pieces::Role;

template <class Q>
bool isMeasured(const std::optional<Given<Q>>& given) {
  return given && given->standing() == Standing::Measured;
}

/// The leg in force behind a corner.
const shop::Leg* legAt(const shop::Duct& duct, std::size_t corner) {
  for (std::size_t c = std::min(corner + 1, duct.corners.size()); c-- > 0;) {
    if (duct.corners[c].leg) {
      return &*duct.corners[c].leg;
    }
  }
  return nullptr;
}

std::string_view curve(Standing standing) {
  switch (standing) {
    case Standing::Measured:
      return "fan-measured";
    case Standing::Published:
      return "fan-certified";
    case Standing::Maker:
    case Standing::Assumed:
      return "fan-maker";
    case Standing::Estimated:
      return "fan-estimated";
  }
  return "fan-estimated";
}

/// Measured, by the maker, or neither.
std::string_view byStanding(Standing standing, std::string_view measured, std::string_view maker,
                            std::string_view otherwise) {
  switch (standing) {
    case Standing::Measured:
      return measured;
    case Standing::Published:
    case Standing::Maker:
      return maker;
    case Standing::Assumed:
    case Standing::Estimated:
      return otherwise;
  }
  return otherwise;
}

constexpr double kThrottledBelow = 0.30;

}  // namespace

KnownAs::KnownAs(const shop::Project& project) : project_(project) {
  for (const shop::Duct& duct : project.ducts) {
    for (std::size_t c = 0; c < duct.corners.size(); ++c) {
      corners_[duct.corners[c].id] = {&duct, c};
    }
    corners_[duct.id] = {&duct, 0};
  }
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& gate : duct.gates) {
      if (const auto before = corner(gate.corner)) {
        corners_[gate.id] = *before;
      }
    }
  }
  for (const shop::Machine& machine : project.machines) {
    for (const shop::Port& port : machine.ports) {
      ports_[port.id] = &port;
    }
  }
}

std::optional<KnownAs::Corner> KnownAs::corner(base::Id id) const {
  const auto found = corners_.find(id);
  return found == corners_.end() ? std::nullopt : std::optional(found->second);
}

std::string_view KnownAs::piece(const pieces::Piece& piece, const network::Situation& situation) const {
  switch (piece.key.role) {
    case Role::Entry:
      return entry(piece);
    case Role::Straight:
      return "friction";
    case Role::Hose:
      return hose(piece);
    case Role::HoseBend:
      return piece.group == pieces::Group::Hose ? hose(piece) : fitting(piece);
    case Role::Elbow:
    case Role::Reducer:
      return fitting(piece);
    case Role::Gate: {
      const bool throttled = situation.gate_travel[static_cast<std::size_t>(piece.gate)] < kThrottledBelow;
      return throttled ? "gate-throttled" : "gate-open";
    }
    case Role::Saddle:
      return "saddle";
    case Role::FanInlet:
      return "system-effect";
    case Role::Separator:
      return separator(piece.key.a);
    case Role::Filter:
      return filter(piece.key.a, situation.filter);
    case Role::Outlet:
      return "outlet";
    default:
      return {};
  }
}

std::string_view KnownAs::entry(const pieces::Piece& piece) const {
  if (!(piece.k_forward > 0)) {
    return {};
  }
  const auto found = ports_.find(piece.key.a);
  if (found == ports_.end()) {
    return "hood-form";  // an open duct end, or a duct that begins in a filter's housing
  }
  const shop::Port& port = *found->second;
  if (port.entry) {
    return isMeasured(port.entry) ? "hood-measured" : "hood-form";
  }
  if (port.maker) {
    const bool measured = port.maker->flow.standing() == Standing::Measured &&
                          port.maker->suction.standing() == Standing::Measured;
    return measured ? "hood-measured" : "hood-maker";
  }
  return port.hood.empty() || port.hood == "unknown" ? "hood-unknown" : "hood-form";
}

std::string_view KnownAs::hose(const pieces::Piece& piece) const {
  const auto at = corner(piece.key.a);
  const shop::Leg* leg = at ? legAt(*at->duct, at->index) : nullptr;
  if (leg == nullptr || !leg->hose || !leg->hose->compression) {
    return "hose";
  }
  return isMeasured(leg->hose->compression) ? "hose-compression" : "hose";
}

std::string_view KnownAs::fitting(const pieces::Piece& piece) const {
  const auto at = corner(piece.key.a);
  const bool measured = at && isMeasured(at->duct->corners[at->index].loss);
  return measured ? "fitting-measured" : "fitting";
}

std::string_view KnownAs::filter(base::Id id, shop::FilterState state) const {
  for (const shop::Collector& unit : project_.collectors) {
    for (const shop::Filter& filter : unit.filters) {
      if (filter.id != id) {
        continue;
      }
      const auto& point = state == shop::FilterState::Clean      ? filter.clean
                          : state == shop::FilterState::Seasoned ? filter.seasoned
                                                                 : filter.due;
      return point ? byStanding(point->loss.standing(), "filter-measured", "filter-maker", "filter")
                   : "filter";
    }
  }
  return "filter";
}

std::string_view KnownAs::separator(base::Id id) const {
  for (const shop::Collector& unit : project_.collectors) {
    for (const shop::Separator& separator : unit.separators) {
      if (separator.id != id) {
        continue;
      }
      if (separator.heads) {
        return byStanding(separator.heads->standing(), "separator-measured", "separator-maker", "separator");
      }
      if (separator.rated_loss) {
        return byStanding(separator.rated_loss->standing(), "separator-measured", "separator-maker",
                          "separator");
      }
    }
  }
  return "separator";
}

std::string_view KnownAs::bores(const pieces::Run& run) const {
  const auto first = corner(run.key.a);
  if (!first) {
    return {};
  }
  const auto last = corner(run.key.b);
  const std::size_t end = last && last->duct == first->duct ? last->index : first->duct->corners.size() - 1;
  std::string_view worst = "bore-measured";
  for (std::size_t c = first->index; c < std::max(end, first->index + 1); ++c) {
    const shop::Leg* leg = legAt(*first->duct, c);
    const Standing standing = leg == nullptr ? Standing::Assumed : leg->bore.standing();
    if (standing == Standing::Published) {
      worst = "bore-published";
    } else if (standing != Standing::Measured) {
      return "bore";
    }
  }
  return worst;
}

std::string_view KnownAs::fan(const pieces::Fan& fan) const {
  const shop::FanRating* rating = nullptr;
  for (const shop::Collector& unit : project_.collectors) {
    rating = unit.id == fan.id ? &unit.rating : rating;
  }
  for (const shop::Machine& machine : project_.machines) {
    rating = machine.blower && machine.blower->id == fan.id ? &machine.blower->rating : rating;
  }
  if (fan.label_only) {
    return rating != nullptr && isMeasured(rating->greatest_suction) ? "fan-label-shut" : "fan-label";
  }
  Standing worst = Standing::Measured;
  if (rating != nullptr) {
    for (const shop::CurvePoint& point : rating->points) {
      worst = std::max({worst, point.pressure.standing(), point.flow.standing()});
    }
  }
  return rating == nullptr ? "fan-maker" : curve(worst);
}

std::string_view KnownAs::opening(const pieces::Opening& opening) const {
  for (const shop::Machine& machine : project_.machines) {
    if (machine.id == opening.key.a && machine.openings) {
      return isMeasured(machine.openings) ? "body-measured" : "body";
    }
  }
  for (const shop::Room& room : project_.rooms) {
    for (const shop::Opening& each : room.openings) {
      if (each.id == opening.key.a) {
        return isMeasured(each.area)                   ? "room-measured"
               : each.kind == shop::OpeningKind::Crack ? "cracks"
                                                       : "room";
      }
    }
  }
  return "cracks";  // those that are assumed for a room
}

}  // namespace kerfdraft::doubt
