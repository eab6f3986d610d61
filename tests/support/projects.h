// Invented projects built by hand, small enough to calculate with a pencil. Any test may use them.
#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "base/given.h"
#include "base/id.h"
#include "shop/project.h"

namespace kerfdraft::support {

/// "4 in" as a person types it; throws where the text is not a quantity of that kind.
template <class Q>
base::Given<Q> given(const std::string& text, base::Standing standing = base::Standing::Measured) {
  auto parsed = base::Given<Q>::parse(text, standing);
  base::check(parsed.has_value(), text.c_str());
  return *parsed;
}

inline base::Given<base::Length> length(const std::string& text) {
  return given<base::Length>(text);
}
inline base::Given<base::Ratio> ratio(const std::string& text) {
  return given<base::Ratio>(text);
}

/// A point in metres.
inline shop::Point at(double x_m, double y_m, double z_m) {
  const auto um = [](double m) { return static_cast<std::int64_t>(std::llround(m * 1e6)); };
  return {um(x_m), um(y_m), um(z_m)};
}

/// Hands out ids and puts projects together. The same calls give the same ids.
class ProjectBuilder {
 public:
  ProjectBuilder() {
    project.setting.name = "Invented shop";
    project.setting.note = "Invented for a test.";
    project.setting.country = "US";
    project.setting.units = base::UnitSystem::Metric;
    project.air.temperature = given<base::Temperature>("20 °C");
  }

  shop::Project project;

  base::Id id() { return ids_.next(); }

  /// A room of this size from the origin, with what is asked open to the outdoors.
  base::Id room(double width_m, double depth_m, double height_m) {
    shop::Room room;
    room.id = id();
    room.label = "R" + std::to_string(project.rooms.size() + 1);
    const auto um = [](double m) { return static_cast<std::int64_t>(std::llround(m * 1e6)); };
    room.outline = {{0, 0}, {um(width_m), 0}, {um(width_m), um(depth_m)}, {0, um(depth_m)}};
    room.height = length(std::to_string(height_m) + " m");
    project.rooms.push_back(room);
    return room.id;
  }

  /// A machine with one port.
  shop::PortRef machine(const std::string& kind, shop::Point port_at, const std::string& bore,
                        base::Id room = {}) {
    shop::Machine machine;
    machine.id = id();
    machine.label = "T" + std::to_string(project.machines.size() + 1);
    machine.kind = kind;
    machine.room = room;
    machine.at = {port_at.x_um, port_at.y_um, 0};
    machine.width = machine.depth = machine.height = length("0.5 m");
    machine.turned = given<base::Angle>("0 deg");
    shop::Port port;
    port.id = id();
    port.label = "P1";
    port.at = port_at;
    port.bore = length(bore);
    machine.ports.push_back(port);
    project.machines.push_back(machine);
    return {machine.id, port.id};
  }

  shop::Port& port(const shop::PortRef& ref) {
    for (shop::Port& port : machineOf(ref).ports) {
      if (port.id == ref.port) {
        return port;
      }
    }
    throw base::InternalError("no such port");
  }

  shop::Machine& machineOf(const shop::PortRef& ref) {
    for (shop::Machine& machine : project.machines) {
      if (machine.id == ref.machine) {
        return machine;
      }
    }
    throw base::InternalError("no such machine");
  }

  /// A duct of one bore through these points.
  base::Id duct(shop::DuctEnd from, shop::DuctEnd to, const std::vector<shop::Point>& points,
                const std::string& bore, const std::string& construction = "spiral-galvanized") {
    shop::Duct duct;
    duct.id = id();
    duct.label = "D" + std::to_string(project.ducts.size() + 1);
    duct.from = std::move(from);
    duct.to = std::move(to);
    for (const shop::Point& point : points) {
      shop::Corner corner;
      corner.id = id();
      corner.at = point;
      duct.corners.push_back(corner);
    }
    shop::Leg leg;
    leg.bore = length(bore);
    leg.construction = construction;
    duct.corners.front().leg = leg;
    project.ducts.push_back(duct);
    return duct.id;
  }

  shop::Duct& ductOf(base::Id id_of_duct) {
    for (shop::Duct& duct : project.ducts) {
      if (duct.id == id_of_duct) {
        return duct;
      }
    }
    throw base::InternalError("no such duct");
  }

  /// Hose of the same bore as what it replaces, from a corner on.
  static shop::Leg hose(const std::string& bore, shop::HoseInside inside = shop::HoseInside::Ribbed,
                        shop::HoseHung hung = shop::HoseHung::Hung) {
    shop::Leg leg;
    leg.bore = length(bore);
    leg.hose = shop::Hose{inside, hung, {}, {}};
    return leg;
  }

  base::Id gate(base::Id id_of_duct, std::size_t corner, const std::string& distance,
                shop::GateSlot slot = shop::GateSlot::New) {
    shop::Duct& duct = ductOf(id_of_duct);
    shop::Gate gate;
    gate.id = id();
    ++gates_;
    gate.label = "G" + std::to_string(gates_);
    gate.corner = duct.corners[corner].id;
    gate.distance = length(distance);
    gate.slot = slot;
    duct.gates.push_back(gate);
    return gate.id;
  }

  /// A collector by fan total pressure, which blows back into `room`: no separator, no filter, no loss
  /// behind the fan.
  base::Id collector(shop::Point inlet_at, const std::string& inlet_bore, base::Id room = {}) {
    shop::Collector unit;
    unit.id = id();
    unit.label = "C" + std::to_string(project.collectors.size() + 1);
    unit.room = room;
    unit.at = inlet_at;
    unit.inlet_bore = length(inlet_bore);
    unit.discharge.room = room;
    unit.rating.basis = shop::RatingBasis::FanTotal;
    unit.rating.fitted = shop::Fitted::Nothing;
    for (const auto& [flow, pressure] :
         {std::pair{"0 m3/h", "2400 Pa"}, std::pair{"1000 m3/h", "2200 Pa"},
          std::pair{"2000 m3/h", "1600 Pa"}, std::pair{"3000 m3/h", "600 Pa"}}) {
      shop::CurvePoint point;
      point.flow = given<base::VolumeFlow>(flow);
      point.pressure = given<base::Pressure>(pressure);
      unit.rating.points.push_back(point);
    }
    project.collectors.push_back(unit);
    return unit.id;
  }

  shop::Collector& collectorOf(base::Id id_of_unit) {
    for (shop::Collector& unit : project.collectors) {
      if (unit.id == id_of_unit) {
        return unit;
      }
    }
    throw base::InternalError("no such collector");
  }

  /// A state with these gates open.
  base::Id state(const std::string& name, const std::vector<base::Id>& open) {
    shop::State state;
    state.id = id();
    state.name = name;
    for (const base::Id gate : open) {
      state.gates.push_back({gate, ratio("100 %")});
    }
    project.states.push_back(state);
    return state.id;
  }

 private:
  base::SeededIds ids_{20};
  int gates_ = 0;
};

/// One machine of known entry (0.5), 3 m up and 4 m along 100 mm spiral duct with one elbow, one gate 1 m
/// above the port, and a collector with a 100 mm inlet. One state: its gate open.
struct OneMachine {
  ProjectBuilder builder;
  base::Id room, duct, gate, collector, state;
  shop::PortRef port;
};

inline OneMachine oneMachine() {
  OneMachine shop;
  ProjectBuilder& b = shop.builder;
  shop.room = b.room(8, 6, 3.5);
  shop.port = b.machine("", at(1, 1, 0.2), "100 mm", shop.room);
  b.port(shop.port).entry = ratio("0.5");
  shop.collector = b.collector(at(5, 1, 3.2), "100 mm", shop.room);
  shop.duct = b.duct(shop.port, shop::CollectorInlet{shop.collector},
                     {at(1, 1, 0.2), at(1, 1, 3.2), at(5, 1, 3.2)}, "100 mm");
  shop.gate = b.gate(shop.duct, 0, "1 m");
  shop.state = b.state("saw", {shop.gate});
  return shop;
}

/// Two machines: a 125 mm drop that turns into a 160 mm main at its second corner, and a 100 mm branch that
/// drops beside it and enters the main from above at 45 degrees, 3 m before the collector (160 mm inlet).
struct TwoBranchTree {
  ProjectBuilder builder;
  base::Id room, main, branch, main_gate, branch_gate, collector;
  shop::PortRef main_port, branch_port;
  base::Id both, main_alone, branch_alone;  ///< states
};

inline TwoBranchTree twoBranchTree() {
  TwoBranchTree shop;
  ProjectBuilder& b = shop.builder;
  shop.room = b.room(10, 6, 3.5);
  shop.main_port = b.machine("", at(1, 2, 0.3), "125 mm", shop.room);
  shop.branch_port = b.machine("", at(4, 2, 0.3), "100 mm", shop.room);
  b.port(shop.main_port).entry = ratio("0.5");
  b.port(shop.branch_port).entry = ratio("1.5");
  shop.collector = b.collector(at(8, 2, 2.5), "160 mm", shop.room);
  shop.main = b.duct(shop.main_port, shop::CollectorInlet{shop.collector},
                     {at(1, 2, 0.3), at(1, 2, 2.5), at(5, 2, 2.5), at(8, 2, 2.5)}, "125 mm");
  shop::Leg wide;
  wide.bore = length("160 mm");
  wide.construction = "spiral-galvanized";
  b.ductOf(shop.main).corners[2].leg = wide;
  const base::Id corner = b.ductOf(shop.main).corners[2].id;
  shop.branch = b.duct(shop.branch_port, shop::OnCorner{shop.main, corner, false},
                       {at(4, 2, 0.3), at(4, 2, 1.5), at(5, 2, 2.5)}, "100 mm");
  shop.main_gate = b.gate(shop.main, 0, "1 m");
  shop.branch_gate = b.gate(shop.branch, 0, "0.6 m");
  shop.both = b.state("both", {shop.main_gate, shop.branch_gate});
  shop.main_alone = b.state("first alone", {shop.main_gate});
  shop.branch_alone = b.state("second alone", {shop.branch_gate});
  return shop;
}

/// A ring of 160 mm duct, 6 m by 4 m: the first half passes machine 1, the second machine 2, and both meet
/// again where the collector's lead begins. Each machine joins by a 100 mm drop at right angles.
struct RingMain {
  ProjectBuilder builder;
  base::Id room, left, right, lead, collector;
  std::vector<base::Id> drops, gates;
  std::vector<shop::PortRef> ports;
  base::Id all;
};

inline RingMain ringMain() {
  RingMain shop;
  ProjectBuilder& b = shop.builder;
  shop.room = b.room(10, 8, 3.5);
  shop.collector = b.collector(at(9, 4, 2.5), "160 mm", shop.room);
  // The lead has the two corners that the ring's halves name: where they part and where they meet again.
  shop.lead = b.duct(shop::OpenEnd{}, shop::CollectorInlet{shop.collector},
                     {at(7, 4, 2.5), at(8, 4, 2.5), at(9, 4, 2.5)}, "160 mm");
  const base::Id meet = b.ductOf(shop.lead).corners[1].id;
  shop.left = b.duct(shop::OpenEnd{}, shop::OnCorner{shop.lead, meet, false},
                     {at(1, 4, 2.5), at(2, 2, 2.5), at(4, 2, 2.5), at(8, 2, 2.5), at(8, 4, 2.5)}, "160 mm");
  const base::Id part = b.ductOf(shop.left).corners[1].id;
  shop.right = b.duct(shop::OnCorner{shop.left, part, false}, shop::OnCorner{shop.lead, meet, false},
                      {at(2, 2, 2.5), at(2, 6, 2.5), at(4, 6, 2.5), at(8, 6, 2.5), at(8, 4, 2.5)}, "160 mm");
  for (const bool first : {true, false}) {
    const double y_m = first ? 2 : 6;
    const shop::PortRef port = b.machine("", at(4, y_m, 0.5), "100 mm", shop.room);
    b.port(port).entry = ratio("0.5");
    const base::Id target = first ? shop.left : shop.right;
    const base::Id corner = b.ductOf(target).corners[2].id;
    const base::Id drop =
        b.duct(port, shop::OnCorner{target, corner, false}, {at(4, y_m, 0.5), at(4, y_m, 2.5)}, "100 mm");
    shop.ports.push_back(port);
    shop.drops.push_back(drop);
    shop.gates.push_back(b.gate(drop, 0, "0.5 m"));
  }
  shop.all = b.state("all", shop.gates);
  return shop;
}

}  // namespace kerfdraft::support
