// A fire that breathes the air of a room from which a fan takes air: flue gas comes back into the room, and
// nobody smells carbon monoxide. Severe wherever air is blown outdoors, whatever is computed, since a shut
// door changes what is computed.
#include <fmt/format.h>

#include <algorithm>

#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Share of free area that an opening gets beside what is computed, since the fan draws a little more through
/// it (ours).
constexpr double kSpare = 1.15;
/// Openings of a room are known to a factor of two, so its suction to a factor of four (ours).
constexpr double kUnsure = 4;

struct Units {
  std::vector<std::string> outdoors;
  std::vector<std::string> returning;
};

/// Collectors that take air from one of these rooms, by where they give it.
Units unitsOf(const Evidence& evidence, const std::vector<base::Id>& rooms) {
  Units out;
  const pieces::Pieces& drawing = evidence.pieces();
  const auto among = [&](base::Id room) {
    return room.valid() && std::find(rooms.begin(), rooms.end(), room) != rooms.end();
  };
  for (const DuctSystem& system : ductSystems(evidence)) {
    const bool drawn_by_machine =
        std::any_of(system.machines.begin(), system.machines.end(), [&](base::Id id) {
          const shop::Machine* machine = evidence.machine(id);
          return machine != nullptr && among(machine->room);
        });
    const bool swept = std::any_of(system.sweeps.begin(), system.sweeps.end(), [&](base::Id id) {
      const shop::Duct* duct = evidence.duct(id);
      const auto* open = duct == nullptr ? nullptr : std::get_if<shop::FreeAir>(&duct->from);
      return open != nullptr && among(open->room);
    });
    for (const std::size_t fan : system.fans) {
      const shop::Collector* collector = evidence.collector(drawing.fans[fan].id);
      const bool stands_here = collector != nullptr && among(collector->room);
      if (!drawn_by_machine && !swept && !stands_here) {
        continue;
      }
      switch (outletOf(drawing, fan)) {
        case Outlet::Outdoors:
          out.outdoors.push_back(fanName(drawing, fan));
          break;
        case Outlet::Room:
          out.returning.push_back(fanName(drawing, fan));
          break;
        case Outlet::Nowhere:
          break;
      }
    }
  }
  return out;
}

void lookAt(const Evidence& evidence, const shop::Room& room, const catalogue::PolicyChoice& policy,
            std::vector<Finding>& out) {
  const double low_pa = *policy.pressure_pa;
  const double high_pa = policy.pressure_to_pa.value_or(low_pa);
  const Units units = unitsOf(evidence, joinedRooms(evidence.project(), room.id));
  const RoomDepth depth = deepest(evidence, room.id);
  const bool deep = depth.depth_pa > low_pa;
  const bool near = depth.depth_pa * kUnsure > low_pa;
  if (units.outdoors.empty() && units.returning.empty() && !near) {
    return;
  }
  Finding finding;
  finding.key = {pieces::Role::Room, room.id, {}};
  finding.label = room.label;
  finding.state = near ? depth.state : std::nullopt;
  if (deep || !units.outdoors.empty()) {
    finding.severity = Severity::Severe;
  } else {
    finding.severity = near ? Severity::Serious : Severity::Note;
  }
  const double area_m2 = kSpare * areaToAdd(evidence, depth, low_pa);
  finding.figures = {{"depth", depth.depth_pa, base::Kind::Pressure},
                     {"low", low_pa, base::Kind::Pressure},
                     {"high", high_pa, base::Kind::Pressure},
                     {"area", area_m2, base::Kind::Area},
                     {"area-high", areaToAdd(evidence, depth, high_pa), base::Kind::Area}};
  const char* still = depth.all_solved ? "shallow" : "unknown";
  finding.words = {deep ? "deep" : (near ? "near" : still), units.outdoors.empty() ? "inside" : "outdoors"};
  const auto& named = units.outdoors.empty() ? units.returning : units.outdoors;
  finding.words.insert(finding.words.end(), named.begin(), named.end());
  finding.limit = limitOf(policy.origin, low_pa, base::Kind::Pressure, policyName(policy));
  finding.limit->words = fmt::format("{:.3g} Pa below the outdoors", low_pa);
  finding.badness = deep ? std::max(1.0, std::min(depth.depth_pa / low_pa, 10.0)) : 1;
  finding.defers = true;
  if (area_m2 > 0) {
    finding.remedies.push_back({"room-opening",
                                {{"area", area_m2, base::Kind::Area}},
                                {room.label},
                                Change{ChangeKind::RoomOpening, room.id, {}, area_m2},
                                {},
                                {}});
  }
  finding.remedies.push_back({"carbon-monoxide-alarm", {}, {room.label}, {}, {}, {}});
  finding.remedies.push_back({"test-draft", {}, {room.label}, {}, {}, {}});
  if (finding.severity != Severity::Note) {
    finding.remedies.push_back({"sealed-appliance", {}, {room.label}, {}, {}, {}});
  }
  out.push_back(std::move(finding));
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const auto policy = policyTaken(evidence, "room-suction");
  if (!policy || !policy->pressure_pa) {
    return;
  }
  for (const shop::Room& room : evidence.project().rooms) {
    if (room.natural_draft_appliance) {
      lookAt(evidence, room, *policy, out);
    }
  }
}

std::string owner(const Finding& finding, const Voice& voice) {
  const std::string units = listedFrom(finding, 2);
  const bool one = finding.words.size() < 4;
  if (finding.words[0] == "deep") {
    return fmt::format(
        "Carbon monoxide: {} holds an appliance that takes its air from the room, and the fans draw the room "
        "{} below the outdoors. Such appliances can spill flue gas from about {}, and nobody smells it.",
        finding.label, roomPressure(finding.figure("depth").value, voice),
        roomPressure(finding.figure("low").value, voice));
  }
  if (finding.words[0] == "near") {
    return fmt::format(
        "Carbon monoxide: {} holds an appliance that takes its air from the room, and the fans draw the room "
        "{} below the outdoors as it is drawn here. Such appliances can spill flue gas from about {}: with a "
        "little less opening than drawn that is reached.",
        finding.label, roomPressure(finding.figure("depth").value, voice),
        roomPressure(finding.figure("low").value, voice));
  }
  if (finding.words[1] == "outdoors") {
    return fmt::format(
        "Carbon monoxide: {} holds an appliance that takes its air from the room, and {} {} air outdoors "
        "that must come from somewhere: it can come down the chimney. {}",
        finding.label, units, one ? "blows" : "blow",
        finding.words[0] == "unknown"
            ? "How far the room is drawn down is not known, since a state has no solution."
            : fmt::format("With the openings drawn here the room stays within {}; a shut door changes that.",
                          roomPressure(finding.figure("low").value, voice)));
  }
  return fmt::format(
      "Carbon monoxide: {} holds an appliance that takes its air from the room. {} {} back, so that does not "
      "draw the room down; never lead that air outdoors without as much make-up air.",
      finding.label, units, one ? "gives its air" : "give their air");
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string depth = roomPressure(finding.figure("depth").value, voice);
  const std::string low = roomPressure(finding.figure("low").value, voice);
  const std::string high = roomPressure(finding.figure("high").value, voice);
  const std::string range =
      low == high ? low : fmt::format("{:.2g} to {}", finding.figure("low").value, high);
  const std::string units = listedFrom(finding, 2);
  const bool outdoors = finding.words[1] == "outdoors";
  const bool unknown = finding.words[0] == "unknown";
  switch (voice.reader()) {
    case Reader::Owner:
      return owner(finding, voice);
    case Reader::Adviser: {
      const std::string area =
          finding.figure("area").value > 0
              ? fmt::format(" Free area to add: {} for {}{}.", voice.show(finding.figure("area")), low,
                            finding.figure("area-high").value > 0
                                ? fmt::format(", {} for {}", voice.show(finding.figure("area-high")), high)
                                : "")
              : "";
      return fmt::format(
          "{}: natural-draft appliance; {}; deepest {} below the outdoors{}, against spillage from {}.{} The "
          "openings of a real room differ: worst-case test on the spot.",
          finding.label,
          units.empty() ? std::string("no collector takes air here")
                        : fmt::format("{} {}", units, outdoors ? "blowing outdoors" : "giving the air back"),
          depth, unknown ? " among the states that have a solution" : "", range, area);
    }
    case Reader::Inspector:
      return fmt::format(
          "{}: appliance with natural draft in a room from which air is taken; computed depression {}{}, "
          "spillage limit {}. {}",
          finding.label, depth, unknown ? " (a state has no solution)" : "", range,
          finding.words[0] == "deep" ? "Not met." : "Cannot conclude without a draft test.");
  }
  return {};
}

}  // namespace

const Rule kFlueGas{"flue-gas", Topic::People, "Flue gas can be drawn into the room", &look, &tell};

}  // namespace kerfdraft::judge
