// Gates, taps and cleanouts on the ducts that carry them.
#include <fmt/format.h>

#include "drawing/plan_parts.h"

namespace kerfdraft::drawing {
namespace {

struct Place {
  At at;
  At along;
  double width = 0;
  bool upright = false;
};

/// Where on a duct something sits, `distance_m` behind a corner.
std::optional<Place> placeOn(const PlanDraft& draft, const shop::Duct& duct, base::Id corner,
                             double distance_m) {
  for (const DuctLeg& leg : draft.legs) {
    if (leg.duct != &duct || duct.corners[leg.corner].id != corner) {
      continue;
    }
    const double part_m = leg.drawnLength();
    if (distance_m > leg.start_m + part_m && !leg.last_part) {
      continue;
    }
    const double share = part_m > 0 ? std::clamp((distance_m - leg.start_m) / part_m, 0.0, 1.0) : 0;
    Place place;
    const At a = draft.frame.at(leg.from);
    const At b = draft.frame.at(leg.to);
    const At whole =
        draft.frame.at(duct.corners[leg.corner + 1].at) - draft.frame.at(duct.corners[leg.corner].at);
    place.at = between(a, b, share);
    place.upright = length(whole) < 0.35;
    place.along = place.upright ? At{0, -1} : unit(whole);
    place.width = std::max(leg.bore_m * draft.frame.mm_per_m, 0.9);
    return place;
  }
  return std::nullopt;
}

void addTag(PlanDraft& draft, const char* kind, base::Id element, const std::string& words,
            const Place& place, int rank, bool inverted) {
  Label label{kind, element.text(), {{words, true, false}}, kSmall_mm, {place.at}};
  label.on_plate = true;
  label.inverted = inverted;
  label.clear_mm = place.width / 2 + 1.3;
  label.rank = rank;
  label.may_be_left_out = rank == kRankTap;
  label.reach_mm = rank == kRankTap ? 14 : 40;
  draft.labels.push_back(std::move(label));
}

void drawGate(PlanDraft& draft, const shop::Duct& duct, const shop::Gate& gate) {
  const auto place = placeOn(draft, duct, gate.corner, gate.distance.si());
  if (!place) {
    return;
  }
  const auto travel = draft.overlay.gate_travel.find(gate.id);
  const bool known = travel != draft.overlay.gate_travel.end();
  const double open = known ? travel->second : 1;
  const std::string how = !known      ? "gate"
                          : open <= 0 ? "gate, shut"
                          : open >= 1 ? "gate, open"
                                      : fmt::format("gate, {:.0f} % open", open * 100);
  Group group{"gate", gate.id.text(), fmt::format("{} {} on {}", gate.label, how, duct.label), {}};
  append(group.shapes, gateSign(place->at, place->along, place->width, open));
  for (const Shape& shape : group.shapes) {
    draft.keep_clear.addBox(boundsOf(shape), 1.2);
  }
  draft.fittings.push_back({std::move(group)});
  draft.signs.insert(open > 0 ? Sign::GateOpen : Sign::GateShut);
  const std::string words =
      known && open > 0 && open < 1 ? fmt::format("{} {:.0f} %", gate.label, open * 100) : gate.label;
  addTag(draft, "gate-label", gate.id, words, *place, kRankGate, known && open <= 0);
}

void drawAccess(PlanDraft& draft, const shop::Duct& duct, const shop::Access& access, bool tap) {
  const auto place = placeOn(draft, duct, access.corner, access.distance.si());
  if (!place) {
    return;
  }
  const At outward = leftOf(place->along);
  const At edge = place->at + outward * (place->width / 2);
  Group group{tap ? "tap" : "cleanout",
              access.id.text(),
              fmt::format("{} {} on {}", access.label, tap ? "hole to measure at" : "door to clean through",
                          duct.label),
              {}};
  append(group.shapes, tap ? tapSign(edge, outward) : cleanoutSign(edge, outward));
  for (const Shape& shape : group.shapes) {
    draft.keep_clear.addBox(boundsOf(shape), 1.2);
  }
  draft.fittings.push_back({std::move(group)});
  draft.signs.insert(tap ? Sign::Tap : Sign::Cleanout);
  Label label{tap ? "tap-label" : "cleanout-label",
              access.id.text(),
              {{access.label, false, true}},
              kSmall_mm,
              {edge + outward * 0.8}};
  label.clear_mm = 0.9;
  label.rank = kRankTap;
  label.may_be_left_out = true;
  label.reach_mm = 14;
  draft.labels.push_back(std::move(label));
}

}  // namespace

void drawDevices(PlanDraft& draft) {
  for (const shop::Duct& duct : draft.project.ducts) {
    if (draft.options.measuring_points) {
      for (const shop::Access& cleanout : duct.cleanouts) {
        drawAccess(draft, duct, cleanout, false);
      }
      for (const shop::Access& tap : duct.taps) {
        drawAccess(draft, duct, tap, true);
      }
    }
    for (const shop::Gate& gate : duct.gates) {
      drawGate(draft, duct, gate);
    }
  }
}

}  // namespace kerfdraft::drawing
