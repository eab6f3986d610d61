// The first machine's drop runs on as the main; the others enter it at 45 degrees, so that no leg is dead.
#include "pieces/starter.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "catalogue/ducts.h"
#include "catalogue/machines.h"
#include "pieces/from_catalogue.h"

namespace kerfdraft::pieces {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Result;
using base::UnitSystem;

// Placing, all ours, in steps of a foot or of 0.3 m, so that coordinates are round in either system: room
// between machines to work, the main along the wall, the usual height of ports.
constexpr double kFoot_m = 0.3048;
constexpr double kMetricStep_m = 0.3;
constexpr double kSpacing = 6;
constexpr double kWall = 1;
constexpr double kPortHeight = 2;
constexpr double kMainBelowCeiling = 1;
constexpr double kHose = 3;
constexpr double kSideStep = 1;
constexpr double kMachineDepth = 2;
constexpr double kInletHeight = 4;
constexpr double kRiserBack = 2;
constexpr double kGateAbove = 0.5;
constexpr double kLeastDepth = 8;
constexpr double kDoorHalf = 1.5;
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
    if (const Result<void> fine = checkRoom(); !fine) {
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
    // The machine farthest from the collector first: its duct is the main.
    for (std::size_t m = kinds_.size(); m-- > 0;) {
      duct(m);
    }
    states();
    return std::move(project_);
  }

 private:
  bool us() const { return request_.units == UnitSystem::Us; }
  /// So many steps in metres.
  double steps(double count) const { return count * (us() ? kFoot_m : kMetricStep_m); }
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

  Result<void> checkRoom() const {
    const double row_m = steps(kSpacing * static_cast<double>(kinds_.size()) + 2 * kWall + kSideStep);
    const double rise_m = steps(kPortHeight + kHose + kMainBelowCeiling + 1);
    if (request_.width_m < row_m || request_.depth_m < steps(kLeastDepth) || request_.height_m < rise_m) {
      return fail(ErrorCode::Range,
                  fmt::format("a row of {} machines needs a room of at least {:.1f} x {:.1f} x {:.1f} {}",
                              kinds_.size(), inUnit(row_m), inUnit(steps(kLeastDepth)), inUnit(rise_m),
                              us() ? "ft" : "m"),
                  "--room");
    }
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
    door.from = {um(request_.width_m / 2 - steps(kDoorHalf)), um(request_.depth_m)};
    door.to = {um(request_.width_m / 2 + steps(kDoorHalf)), um(request_.depth_m)};
    door.area = us() ? *Given<base::Area>::parse("20 ft2") : *Given<base::Area>::parse("1.8 m2");
    room.openings.push_back(std::move(door));
    project_.rooms.push_back(std::move(room));
  }

  double portX(std::size_t m) const {
    return steps(kWall + kSpacing * static_cast<double>(m + 1) - kSideStep);
  }
  double portY() const { return steps(kWall + kSideStep); }

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
    machine.at = point(portX(m), portY() + steps(kMachineDepth) / 2, 0);
    // One duct to each machine: one port, in the middle of its back.
    machine.ports.resize(1);
    machine.ports[0].at = point(portX(m), portY(), steps(kPortHeight));
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
    unit.at = point(steps(kWall), portY() + steps(kRiserBack), steps(kInletHeight));
    unit.discharge.room = project_.rooms[0].id;
    project_.collectors.push_back(std::move(unit));
  }

  shop::Corner corner(double x, double y, double z, std::optional<shop::Leg> leg = {}) {
    shop::Corner c;
    c.id = ids_.next();
    c.at = point(x, y, z);
    c.leg = std::move(leg);
    return c;
  }

  /// Hose up from the port, drop to the main's height, over to the main.
  void duct(std::size_t m) {
    const bool first = m + 1 == kinds_.size();
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
    duct.corners.push_back(corner(portX(m), portY(), steps(kPortHeight), hose));
    duct.corners.push_back(corner(portX(m), portY(), steps(kPortHeight + kHose), rigid));
    duct.corners.push_back(corner(portX(m), portY(), mainZ()));
    duct.from = shop::PortRef{project_.machines[m].id, project_.machines[m].ports[0].id};
    if (first) {
      continueAsMain(duct, m);
    } else {
      const shop::Corner& entry = entryOf(m);
      duct.corners.push_back(corner(portX(m) - steps(kSideStep), steps(kWall), mainZ()));
      duct.to = shop::OnCorner{project_.ducts[0].id, entry.id, false};
    }
    shop::Gate gate;
    gate.id = ids_.next();
    gate.label = fmt::format("G{}", m + 1);
    gate.corner = duct.corners[1].id;
    gate.distance = length(steps(kGateAbove));
    duct.gates.push_back(std::move(gate));
    project_.ducts.push_back(std::move(duct));
  }

  /// Along the wall with a corner for each other machine, then down to the collector.
  void continueAsMain(shop::Duct& duct, std::size_t m) {
    const shop::Collector& unit = project_.collectors[0];
    shop::Leg main;
    main.bore = unit.inlet_bore;
    main.construction = "snap-lock";
    main.taper = *Given<base::Angle>::parse("30 deg");
    duct.corners.push_back(corner(portX(m) - steps(kSideStep), steps(kWall), mainZ(), main));
    for (std::size_t other = m; other-- > 0;) {
      duct.corners.push_back(corner(portX(other) - steps(kSideStep), steps(kWall), mainZ()));
    }
    duct.corners.push_back(corner(steps(kWall), steps(kWall), mainZ()));
    duct.corners.push_back(corner(steps(kWall), portY() + steps(kRiserBack), mainZ()));
    duct.corners.push_back(corner(steps(kWall), portY() + steps(kRiserBack), steps(kInletHeight)));
    duct.to = shop::CollectorInlet{unit.id};
  }

  /// The main's corner at which machine m's branch enters.
  const shop::Corner& entryOf(std::size_t m) const {
    const shop::Point at = point(portX(m) - steps(kSideStep), steps(kWall), mainZ());
    const std::vector<shop::Corner>& corners = project_.ducts[0].corners;
    const auto found =
        std::find_if(corners.begin(), corners.end(), [&](const shop::Corner& c) { return c.at == at; });
    base::check(found != corners.end(), "the starter's main has no corner for a machine");
    return *found;
  }

  void states() {
    for (std::size_t m = 0; m < kinds_.size(); ++m) {
      const shop::Duct& duct = project_.ducts[kinds_.size() - 1 - m];
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
  shop::Project project_;
};

}  // namespace

Result<shop::Project> starterProject(const StarterRequest& request, const catalogue::Catalogue& catalogue,
                                     base::IdSource& ids) {
  return Starter(request, catalogue, ids).make();
}

}  // namespace kerfdraft::pieces
