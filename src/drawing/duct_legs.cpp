// Bores are inherited along a duct; nothing is joined here, the drawing says what is.
#include "drawing/duct_legs.h"

#include <algorithm>
#include <cmath>

namespace kerfdraft::drawing {
namespace {

using base::Id;

const shop::Port* portOf(const shop::Project& project, const shop::PortRef& ref) {
  for (const shop::Machine& machine : project.machines) {
    if (machine.id == ref.machine) {
      for (const shop::Port& port : machine.ports) {
        if (port.id == ref.port) {
          return &port;
        }
      }
    }
  }
  return nullptr;
}

shop::Point along(const shop::Point& a, const shop::Point& b, double share) {
  const auto mix = [&](std::int64_t from, std::int64_t to) {
    return from + std::llround(static_cast<double>(to - from) * share);
  };
  return {mix(a.x_um, b.x_um), mix(a.y_um, b.y_um), mix(a.z_um, b.z_um)};
}

/// Cuts a leg at its gates, as pieces/legs.cpp does, so that each part has the key of its piece.
void addParts(std::vector<DuctLeg>& legs, const DuctLeg& whole) {
  const Id corner = whole.key.a;
  std::vector<const shop::Gate*> gates;
  for (const shop::Gate& gate : whole.duct->gates) {
    if (gate.corner == corner) {
      gates.push_back(&gate);
    }
  }
  std::stable_sort(gates.begin(), gates.end(), [](const shop::Gate* a, const shop::Gate* b) {
    return a->distance.si() < b->distance.si();
  });
  const double drawn_m = whole.drawnLength();
  DuctLeg part = whole;
  double at_m = 0;
  for (const shop::Gate* gate : gates) {
    const double here_m = std::clamp(gate->distance.si(), 0.0, drawn_m);
    if (here_m > at_m) {
      part.key.b = gate->id;
      part.to = along(whole.from, whole.to, here_m / drawn_m);
      part.last_part = false;
      legs.push_back(part);
      part.from = part.to;
    }
    part.key.a = gate->id;
    part.start_m = here_m;
    part.first_part = false;
    at_m = here_m;
  }
  if (drawn_m > at_m || gates.empty()) {
    part.key.b = whole.key.b;
    part.to = whole.to;
    part.last_part = true;
    legs.push_back(part);
  } else if (!legs.empty()) {
    legs.back().last_part = true;
  }
}

}  // namespace

std::vector<DuctLeg> ductLegs(const shop::Project& project, const Overlay& overlay) {
  std::vector<DuctLeg> legs;
  for (const shop::Duct& duct : project.ducts) {
    const shop::Leg* current = nullptr;
    for (std::size_t k = 0; k + 1 < duct.corners.size(); ++k) {
      const shop::Corner& corner = duct.corners[k];
      DuctLeg leg;
      if (corner.leg) {
        current = &*corner.leg;
        leg.given = current;
      }
      if (current == nullptr) {
        continue;
      }
      leg.duct = &duct;
      leg.corner = k;
      leg.hose = current->hose ? &*current->hose : nullptr;
      leg.key = {leg.hose != nullptr ? pieces::Role::Hose : pieces::Role::Straight, corner.id,
                 duct.corners[k + 1].id};
      leg.from = corner.at;
      leg.to = duct.corners[k + 1].at;
      leg.bore_m = current->bore.si();
      const auto* moved = std::get_if<shop::MovedEnd>(&duct.from);
      const auto place = overlay.hose_place.find(duct.id);
      if (k == 0 && moved != nullptr && place != overlay.hose_place.end() &&
          place->second < moved->places.size()) {
        if (const shop::Port* port = portOf(project, moved->places[place->second])) {
          leg.from = port->at;
        }
      }
      addParts(legs, leg);
    }
  }
  return legs;
}

std::map<pieces::PieceKey, std::size_t> legsByKey(const std::vector<DuctLeg>& legs) {
  std::map<pieces::PieceKey, std::size_t> out;
  for (std::size_t k = 0; k < legs.size(); ++k) {
    out.emplace(legs[k].key, k);
  }
  return out;
}

}  // namespace kerfdraft::drawing
