// The drop of the machine farthest from the collector runs on as the main; the others enter it at 45 degrees,
// so that no leg is dead. Where machines stand on both sides of the collector, each side has its own main.
#include "pieces/starter.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "catalogue/ducts.h"
#include "catalogue/machines.h"
#include "pieces/from_catalogue.h"
#include "pieces/starter_layout.h"

namespace kerfdraft::pieces {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Result;
using base::UnitSystem;

// Heights, all ours, in steps of a foot or of 0.3 m, so that coordinates are round in either system.
constexpr double kFoot_m = 0.3048;
constexpr double kMetricStep_m = 0.3;
constexpr double kPortHeight = 2;
constexpr double kMainBelowCeiling = 1;
constexpr double kHose = 3;
constexpr double kInletHeight = 4;
constexpr double kGateAbove = 0.5;
constexpr double kMainSpeed_m_s = 20.32;  // 4000 fpm, advised for dry chips (transport_rules)

std::int64_t um(double metres) {
  return std::llround(metres * 1e6);
}
shop::Point point(double x, double y, double z) {
  return {um(x), um(y), um(z)};
}

class Starter {
 public:
  Starter(const StarterRequest& request, const catalogue::Catalogue& catalogue, base::IdSource& ids)
      : request_(request), catalogue_(catalogue), ids_(ids) {}

  Result<shop::Project> make() {
    if (const Result<void> fine = readCatalogue(); !fine) {
      return Failure(fine.error());
    }
    if (const Result<void> fine = layOut(); !fine) {
      return Failure(fine.error());
    }
    setting();
    room();
    for (std::size_t m = 0; m < kinds_.size(); ++m) {
      if (const Result<void> fine = machine(m); !fine) {
        return Failure(fine.error());
      }
    }
    collector();
    // The farthest machine of each side first: its duct is the main of that side.
    const std::size_t farthest = *layout_.main.front().machine;
    duct(farthest, &layout_.main);
    if (!layout_.second.empty()) {
      duct(*layout_.second.front().machine, &layout_.second);
    }
    for (std::size_t m = kinds_.size(); m-- > 0;) {
      if (duct_of_.count(m) == 0) {
        duct(m, nullptr);
      }
    }
    states();
    return std::move(project_);
  }

 private:
  bool us() const { return request_.units == UnitSystem::Us; }
  /// So many steps in metres.
  double steps(double count) const { return count * (us() ? kFoot_m : kMetricStep_m); }
  double stepLength() const { return steps(1); }
  double inUnit(double m) const { return us() ? m / kFoot_m : m; }
  Given<base::Length> length(double m) const { return lengthAsTyped(m, request_.units); }

  Result<void> readCatalogue() {
    if (request_.machines.empty()) {
      return fail(ErrorCode::Parse, "a starter needs at least one machine", "--machine");
    }
    for (const std::string& key : request_.machines) {
      Result<catalogue::MachineKind> kind = catalogue::machineKind(catalogue_, key);
      if (!kind) {
        return fail(kind.error().code, kind.error().message, "--machine");
      }
      kinds_.push_back(std::move(*kind));
    }
    Result<catalogue::TestFan> fan = catalogue::testFan(catalogue_, request_.fan);
    if (!fan) {
      return fail(fan.error().code, fan.error().message, "--collector");
    }
    fan_ = std::move(*fan);
    return {};
  }

  Result<void> layOut() {
    const std::string_view unit = us() ? "ft" : "m";
    const StarterRoom least = leastStarterRoom(request_.units);
    if (request_.width_m < least.width_m || request_.depth_m < least.depth_m ||
        request_.height_m < least.height_m) {
      return fail(ErrorCode::Range,
                  fmt::format("a collector and a machine need a room of at least {:.1f} x {:.1f} x {:.1f} {}",
                              inUnit(least.width_m), inUnit(least.depth_m), inUnit(least.height_m), unit),
                  "--room");
    }
    StarterFit fit =
        layOutStarter(request_.width_m / stepLength(), request_.depth_m / stepLength(), kinds_.size());
    if (!fit.layout) {
      return fail(ErrorCode::Range,
                  fmt::format("{} machines do not fit along the walls of a room of {:.1f} x {:.1f} {} with "
                              "{:.1f} {} to work before each; {} do: fewer machines, or a larger room",
                              kinds_.size(), inUnit(request_.width_m), inUnit(request_.depth_m), unit,
                              inUnit(steps(kLeastRoomToWork)), unit, fit.most),
                  "--room");
    }
    layout_ = std::move(*fit.layout);
    return {};
  }

  void setting() {
    project_.setting.name = request_.name;
    project_.setting.note =
        "A starter made by kerfdraft new: machines, places and ducts are assumed, the fan's curve is "
        "invented. Put in "
        "what you know.";
    project_.setting.units = request_.units;
    project_.setting.who = request_.who;
    project_.setting.country = request_.country;
    project_.air.temperature = *Given<base::Temperature>::parse(us() ? "70 °F" : "20 °C");
  }

  void room() {
    shop::Room room;
    room.id = ids_.next();
    room.label = "Shop";
    room.outline = {{0, 0},
                    {um(request_.width_m), 0},
                    {um(request_.width_m), um(request_.depth_m)},
                    {0, um(request_.depth_m)}};
    room.height = length(request_.height_m);
    shop::Opening door;
    door.id = ids_.next();
    door.label = "Door";
    door.kind = shop::OpeningKind::Door;
    door.from = {um(steps(layout_.door_middle - kDoorHalf)), um(request_.depth_m)};
    door.to = {um(steps(layout_.door_middle + kDoorHalf)), um(request_.depth_m)};
    door.area = us() ? *Given<base::Area>::parse("20 ft2") : *Given<base::Area>::parse("1.8 m2");
    room.openings.push_back(std::move(door));
    project_.rooms.push_back(std::move(room));
  }

  Result<void> machine(std::size_t m) {
    const catalogue::MachineKind& kind = kinds_[m];
    const Result<std::vector<catalogue::Requirement>> asked =
        catalogue::requirements(catalogue_, kind.key, "small-shop");
    if (!asked) {
      return Failure(asked.error());
    }
    shop::Machine machine = machineOfKind(kind, firstAsked(*asked), request_.units, ids_);
    machine.label = fmt::format("T{}", m + 1);
    machine.room = project_.rooms[0].id;
    const Stand& stand = layout_.stands[m];
    const double half_depth_m = machine.depth.si() / 2;
    machine.at = point(steps(stand.port.x) + stand.inward.x * half_depth_m,
                       steps(stand.port.y) + stand.inward.y * half_depth_m, 0);
    machine.turned = *Given<base::Angle>::parse(fmt::format("{:.0f} deg", stand.turned_deg));
    // One duct to each machine: one port, in the middle of its back.
    machine.ports.resize(1);
    machine.ports[0].at = point(steps(stand.port.x), steps(stand.port.y), steps(kPortHeight));
    project_.machines.push_back(std::move(machine));
    return {};
  }

  double mainZ() const { return request_.height_m - steps(kMainBelowCeiling); }

  /// The largest bore sold in which the greatest single target still makes the advised speed, 4 in at least.
  Given<base::Length> mainBore() const {
    if (request_.main) {
      return *request_.main;
    }
    double greatest_m3_s = 0;
    for (const shop::Machine& machine : project_.machines) {
      greatest_m3_s = std::max({greatest_m3_s, machine.target ? machine.target->si() : 0.0,
                                machine.floor ? machine.floor->si() : 0.0});
    }
    double chosen_m = 0.1016;
    for (const catalogue::Bore& bore : catalogue::boresOf(catalogue_, us() ? "inch" : "metric")) {
      const double speed_m_s = greatest_m3_s / (std::numbers::pi / 4 * bore.bore_m * bore.bore_m);
      if (speed_m_s >= kMainSpeed_m_s && bore.bore_m > chosen_m) {
        chosen_m = bore.bore_m;
      }
    }
    return length(chosen_m);
  }

  void collector() {
    shop::Collector unit = collectorOfFan(fan_, mainBore(), request_.units, ids_);
    unit.label = "C1";
    unit.room = project_.rooms[0].id;
    unit.at = point(steps(layout_.inlet.x), steps(layout_.inlet.y), steps(kInletHeight));
    unit.discharge.room = project_.rooms[0].id;
    project_.collectors.push_back(std::move(unit));
  }

  shop::Corner corner(const Spot& at, double z_m, std::optional<shop::Leg> leg = {}) {
    shop::Corner c;
    c.id = ids_.next();
    c.at = point(steps(at.x), steps(at.y), z_m);
    c.leg = std::move(leg);
    return c;
  }

  /// Hose up from the port, drop to the main's height, over to the main; with `arm` it runs on as that.
  void duct(std::size_t m, const Arm* arm) {
    const Stand& stand = layout_.stands[m];
    shop::Duct duct;
    duct.id = ids_.next();
    duct.label = fmt::format("D{}", project_.ducts.size() + 1);
    duct.name = kinds_[m].name;
    const Given<base::Length> bore = project_.machines[m].ports[0].bore;
    shop::Leg hose;
    hose.bore = bore;
    hose.hose = shop::Hose{};
    shop::Leg rigid;
    rigid.bore = bore;
    rigid.construction = "snap-lock";
    duct.corners.push_back(corner(stand.port, steps(kPortHeight), hose));
    duct.corners.push_back(corner(stand.port, steps(kPortHeight + kHose), rigid));
    duct.corners.push_back(corner(stand.port, mainZ()));
    duct.from = shop::PortRef{project_.machines[m].id, project_.machines[m].ports[0].id};
    if (arm != nullptr) {
      continueAs(duct, *arm);
    } else {
      duct.corners.push_back(corner(stand.entry, mainZ()));
      duct.to = entryAt(stand.entry);
    }
    shop::Gate gate;
    gate.id = ids_.next();
    gate.label = fmt::format("G{}", m + 1);
    gate.corner = duct.corners[1].id;
    gate.distance = length(steps(kGateAbove));
    duct.gates.push_back(std::move(gate));
    duct_of_[m] = project_.ducts.size();
    project_.ducts.push_back(std::move(duct));
  }

  /// Along the walls with a corner for each other machine; then down to the collector, or into the main.
  void continueAs(shop::Duct& duct, const Arm& arm) {
    const shop::Collector& unit = project_.collectors[0];
    shop::Leg main;
    main.bore = unit.inlet_bore;
    main.construction = "snap-lock";
    main.taper = *Given<base::Angle>::parse("30 deg");
    for (const MainCorner& each : arm) {
      duct.corners.push_back(
          corner(each.at, mainZ(), &each == &arm.front() ? std::optional(main) : std::nullopt));
    }
    if (&arm == &layout_.second) {
      duct.corners.push_back(corner(*layout_.joins, mainZ()));
      duct.to = entryAt(*layout_.joins);
      return;
    }
    duct.corners.push_back(corner(layout_.inlet, steps(kInletHeight)));
    duct.to = shop::CollectorInlet{unit.id};
  }

  /// The corner of a main that lies there.
  shop::OnCorner entryAt(const Spot& spot) const {
    const shop::Point at = point(steps(spot.x), steps(spot.y), mainZ());
    for (const shop::Duct& duct : project_.ducts) {
      const auto found = std::find_if(duct.corners.begin(), duct.corners.end(),
                                      [&](const shop::Corner& c) { return c.at == at; });
      if (found != duct.corners.end()) {
        return shop::OnCorner{duct.id, found->id, false};
      }
    }
    throw base::InternalError("the starter's main has no corner for a machine");
  }

  void states() {
    for (std::size_t m = 0; m < kinds_.size(); ++m) {
      const shop::Duct& duct = project_.ducts[duct_of_.at(m)];
      shop::State state;
      state.id = ids_.next();
      state.name = fmt::format("{} {}", project_.machines[m].label, kinds_[m].name);
      state.gates.push_back({duct.gates[0].id, *Given<base::Ratio>::parse("100 %")});
      project_.states.push_back(std::move(state));
    }
  }

  const StarterRequest& request_;
  const catalogue::Catalogue& catalogue_;
  base::IdSource& ids_;
  std::vector<catalogue::MachineKind> kinds_;
  catalogue::TestFan fan_;
  StarterLayout layout_;
  std::map<std::size_t, std::size_t> duct_of_;
  shop::Project project_;
};

}  // namespace

StarterRoom leastStarterRoom(UnitSystem units) {
  const double step_m = units == UnitSystem::Us ? kFoot_m : kMetricStep_m;
  return {step_m * kLeastWidth, step_m * kLeastDepth, step_m * (kPortHeight + kHose + kMainBelowCeiling + 1)};
}

Result<shop::Project> starterProject(const StarterRequest& request, const catalogue::Catalogue& catalogue,
                                     base::IdSource& ids) {
  return Starter(request, catalogue, ids).make();
}

}  // namespace kerfdraft::pieces
