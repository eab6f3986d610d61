// A room without a fire of its own that is drawn far below the outdoors: doors pull hard, any flame that
// shares the air spills, and the fan itself gets less air.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// From here on it is more than a note: five kilograms on the handle of a door (ours).
constexpr double kHard_pa = 50;
/// A door of 0.95 by 2 m, held at its edge: half of it pulls on the handle (ours).
constexpr double kDoor_m2 = 1.9;
/// Less on the handle than this is not worth a word (ours).
constexpr double kFelt_kg = 2;
constexpr double kGravity_m_s2 = 9.80665;
/// As for a room with a fire.
constexpr double kSpare = 1.15;

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto policy = policyTaken(evidence, "room-suction");
  if (!policy || !policy->pressure_pa) {
    return;
  }
  const double limit_pa = policy->pressure_to_pa.value_or(*policy->pressure_pa);
  for (const shop::Room& room : evidence.project().rooms) {
    const RoomDepth depth = deepest(evidence, room.id);
    if (room.natural_draft_appliance || !depth.state || !(depth.depth_pa > limit_pa)) {
      continue;
    }
    const double area_m2 = kSpare * areaToAdd(evidence, depth, limit_pa);
    Finding finding;
    finding.key = {pieces::Role::Room, room.id, {}};
    finding.label = room.label;
    finding.state = depth.state;
    finding.severity = depth.depth_pa > kHard_pa ? Severity::Caution : Severity::Note;
    finding.figures = {{"depth", depth.depth_pa, base::Kind::Pressure},
                       {"limit", limit_pa, base::Kind::Pressure},
                       {"door", 0.5 * depth.depth_pa * kDoor_m2 / kGravity_m_s2, base::Kind::Mass},
                       {"area", area_m2, base::Kind::Area}};
    finding.limit = limitOf(policy->origin, limit_pa, base::Kind::Pressure, policyName(*policy));
    finding.limit->words =
        fmt::format("{:.3g} Pa below the outdoors, where a flame shares the air", limit_pa);
    finding.badness = badnessOf(depth.depth_pa / limit_pa);
    if (area_m2 > 0) {
      finding.remedies.push_back({"room-opening",
                                  {{"area", area_m2, base::Kind::Area}},
                                  {room.label},
                                  Change{ChangeKind::RoomOpening, room.id, {}, area_m2},
                                  {},
                                  {}});
    }
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string depth = roomPressure(finding.figure("depth").value, voice);
  const std::string limit = roomPressure(finding.figure("limit").value, voice);
  const Figure& door = finding.figure("door");
  const bool felt = door.value > kFelt_kg;
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "Make-up air: the fans draw {} {} below the outdoors. {}Any flame that shares this air can spill "
          "flue "
          "gas, and the machines get less air.",
          finding.label, depth,
          felt ? fmt::format("A door pulls as if {} hung on its handle. ", voice.show(door)) : std::string());
    case Reader::Adviser:
      return fmt::format(
          "{} stands {} below the outdoors, against {} where a flame shares its air{}. What the "
          "room lacks in openings the fan lacks in pressure.",
          finding.label, depth, limit,
          felt ? fmt::format("; {} at the handle of a door of 1.9 m² (20 ft²)", voice.show(door))
               : std::string());
    case Reader::Inspector:
      return fmt::format("{}: depression {}; {} is asked only where a flame shares the air. Noted.",
                         finding.label, depth, limit);
  }
  return {};
}

}  // namespace

const Rule kRoomSuction{"room-suction", Topic::People, "Room drawn down by its fans", &look, &tell};

}  // namespace kerfdraft::judge
