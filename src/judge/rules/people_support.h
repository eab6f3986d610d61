// What the rules about rooms and people share: which machines hang on the same ducts, where the air of a
// collector comes out, how deep a room is drawn. Private to judge/rules.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "catalogue/policies.h"
#include "judge/evidence.h"
#include "judge/finding.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

/// Things of a project by their labels, "T2" before "T10": what a finding lists, and what it is about, must
/// not hang on the order of the file.
template <class T>
std::vector<const T*> printed(const std::vector<T>& things) {
  std::vector<const T*> out;
  out.reserve(things.size());
  for (const T& thing : things) {
    out.push_back(&thing);
  }
  std::sort(out.begin(), out.end(), [](const T* a, const T* b) {
    return std::tuple(a->label.size(), a->label, a->id) < std::tuple(b->label.size(), b->label, b->id);
  });
  return out;
}

/// Ducts that are joined to each other as drawn, whatever gates are open, with all that hangs on them.
struct DuctSystem {
  std::vector<std::size_t> fans;   ///< of collectors and boosters, by label
  std::vector<std::size_t> ports;  ///< in their order
  std::vector<base::Id> machines;  ///< of those ports, each once, by label
  std::vector<base::Id> sweeps;    ///< ducts that begin in the open air of a room, by label
};

/// Those with at least one collector, by the label of the first.
std::vector<DuctSystem> ductSystems(const Evidence& evidence);

/// A machine that throws wood, and of it only the dust of sanding.
bool throwsWood(const Evidence& evidence, base::Id machine);
bool throwsSanderDust(const Evidence& evidence, base::Id machine);

/// Sanders on a system, by label.
std::vector<base::Id> sandersOn(const Evidence& evidence, const DuctSystem& system);

/// "T1 saw" of each.
std::vector<std::string> machineNames(const Evidence& evidence, const std::vector<base::Id>& machines);

/// A fan as printed; "the collector" where nobody named it.
std::string fanName(const pieces::Pieces& drawing, std::size_t fan);

/// Where the air behind a fan comes out, as drawn, before it comes to another fan.
enum class Outlet { Nowhere, Room, Outdoors };
Outlet outletOf(const pieces::Pieces& drawing, std::size_t fan);

/// A room and how far it is drawn below the outdoors in the state in which that is most.
struct RoomDepth {
  double depth_pa = 0;               ///< magnitude; zero where no state draws on it
  std::optional<std::size_t> state;  ///< nothing where no state draws on it
  double inflow_kg_s = 0;            ///< through its openings in that state
  bool all_solved = true;            ///< every state has a solution
};
RoomDepth deepest(const Evidence& evidence, base::Id room);

/// Free area [m2] to add so that the same air comes in at `limit_pa`; by the law of a sharp opening.
double areaToAdd(const Evidence& evidence, const RoomDepth& depth, double limit_pa);

/// Rooms that share air with this one through openings between rooms, itself first.
std::vector<base::Id> joinedRooms(const shop::Project& project, base::Id room);

/// The choice that a project made on a subject where rules disagree, else the usual one. Nothing where the
/// catalogue has no such choice.
std::optional<catalogue::PolicyChoice> policyTaken(const Evidence& evidence, std::string_view subject);
/// What it says, in words: a key of a subject would read as the key of a rule.
std::string policyName(const catalogue::PolicyChoice& choice);

/// What a finding is about that is true of the whole shop: its first room.
pieces::PieceKey shopKey(const shop::Project& project);

/// Words of a finding in two lists: the first `count` of them, and the rest.
std::vector<std::string> firstWords(const Finding& finding, std::size_t from, std::size_t count);

/// Most flow of a fan in any state, at its inlet, and in which.
struct MostFlow {
  double flow_m3_s = 0;
  std::size_t state = 0;
};
std::optional<MostFlow> mostFlow(const Evidence& evidence, std::size_t fan);

/// Suction of a room: "12 Pa", for readers in inches "12 Pa (0.048 in of water)". Draft is judged in pascal
/// everywhere.
std::string roomPressure(double pressure_pa, const Voice& voice);

/// Dust in air: "2 mg/m³".
std::string dustText(double dust_kg_m3);

}  // namespace kerfdraft::judge
