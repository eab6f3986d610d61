// A main along the room and a branch from every machine to it.
#include "random_shop.h"

#include <fmt/format.h>

#include <random>

#include "drawing/duct_legs.h"

namespace kerfdraft::drawing {
namespace {

using base::Id;

template <class Q>
base::Given<Q> given(const std::string& text) {
  return base::Given<Q>::parse(text).value();
}

class Maker {
 public:
  explicit Maker(std::uint64_t seed) : random_(seed), ids_(seed) {}

  shop::Project make(int machines) {
    project_.setting.name = fmt::format("Shop {}, invented", number(1, 99));
    project_.setting.units = number(0, 1) == 0 ? base::UnitSystem::Us : base::UnitSystem::Metric;
    project_.air.temperature = given<base::Temperature>("20 °C");
    width_ = number(40, 180);
    depth_ = number(40, 140);
    room();
    collector();
    main();
    for (int k = 0; k < machines; ++k) {
      machine(k);
    }
    state();
    return std::move(project_);
  }

 private:
  int number(int least, int most) { return std::uniform_int_distribution<int>(least, most)(random_); }
  /// Decimetres to a place.
  static shop::Point at(int x, int y, int z) {
    return {x * std::int64_t{100000}, y * std::int64_t{100000}, z * std::int64_t{100000}};
  }
  static std::string mm(int value) { return fmt::format("{} mm", value); }

  void room() {
    shop::Room room;
    room.id = ids_.next();
    room.label = "Shop";
    const auto corner = [](int x, int y) {
      return shop::PlanPoint{x * std::int64_t{100000}, y * std::int64_t{100000}};
    };
    if (number(0, 1) == 0) {
      room.outline = {corner(0, 0), corner(width_, 0), corner(width_, depth_), corner(0, depth_)};
    } else {
      room.outline = {corner(0, 0),
                      corner(width_, 0),
                      corner(width_, depth_ / 2),
                      corner(width_ / 2, depth_ / 2),
                      corner(width_ / 2, depth_),
                      corner(0, depth_)};
    }
    room.height = given<base::Length>("3 m");
    for (int k = number(1, 5); k > 0; --k) {
      shop::Opening opening;
      opening.id = ids_.next();
      opening.label = fmt::format("DR{}", k);
      opening.kind = static_cast<shop::OpeningKind>(number(0, 4));
      if (opening.kind == shop::OpeningKind::Exhaust) {
        opening.flow = given<base::VolumeFlow>("400 m3/h");
      } else {
        opening.area = given<base::Area>("0.5 m2");
      }
      const int from = number(0, width_ - 12);
      opening.from = corner(from, 0);
      opening.to = corner(from + number(5, 12), 0);
      room.openings.push_back(opening);
    }
    for (int k = number(0, 3); k > 0; --k) {
      shop::Obstacle obstacle;
      obstacle.id = ids_.next();
      obstacle.label = "Cupboard with a long name";
      const int x = number(0, width_ - 10);
      const int y = number(0, depth_ - 10);
      obstacle.outline = {corner(x, y), corner(x + number(1, 9), y), corner(x + 9, y + number(1, 9)),
                          corner(x, y + 5)};
      obstacle.bottom = given<base::Length>("0 m");
      obstacle.top = given<base::Length>("2 m");
      room.obstacles.push_back(obstacle);
    }
    project_.rooms.push_back(room);
  }

  void collector() {
    shop::Collector collector;
    collector.id = ids_.next();
    collector.label = "C1";
    collector.name = "cyclone";
    collector.room = project_.rooms.front().id;
    collector.at = at(width_ - 5, depth_ / 3, 27);
    collector.inlet_bore = given<base::Length>("250 mm");
    collector.rating.free_air_flow = given<base::VolumeFlow>("4000 m3/h");
    collector.rating.greatest_suction = given<base::Pressure>("2500 Pa");
    project_.collectors.push_back(collector);
  }

  shop::Leg leg(int bore, bool hose) {
    shop::Leg leg;
    leg.bore = given<base::Length>(mm(bore));
    leg.construction = "spiral-galvanized";
    if (hose) {
      leg.hose = shop::Hose{};
    }
    return leg;
  }

  void main() {
    shop::Duct duct;
    duct.id = ids_.next();
    duct.label = "D1";
    duct.from = shop::OpenEnd{};
    duct.to = shop::CollectorInlet{project_.collectors.front().id};
    shop::Corner start{ids_.next(), at(3, depth_ / 3, 27), leg(250, false), {}, {}};
    duct.corners.push_back(start);
    duct.corners.push_back({ids_.next(), at(width_ - 5, depth_ / 3, 27), {}, {}, {}});
    project_.ducts.push_back(duct);
  }

  void machine(int k) {
    shop::Machine machine;
    machine.id = ids_.next();
    machine.label = fmt::format("T{}", k + 1);
    machine.name = number(0, 2) == 0 ? "Planer-thicknesser 410 mm with power feed" : "Saw";
    machine.room = project_.rooms.front().id;
    const int x = number(8, width_ - 12);
    const int y = number(5, depth_ - 5);
    machine.at = at(x, y, 0);
    machine.width = given<base::Length>(mm(number(3, 30) * 100));
    machine.depth = given<base::Length>(mm(number(3, 20) * 100));
    machine.height = given<base::Length>("1 m");
    machine.turned = given<base::Angle>(fmt::format("{} deg", number(0, 3) * 30));
    const int bore = number(5, 20) * 10;
    for (int p = number(1, 2); p > 0; --p) {
      shop::Port port;
      port.id = ids_.next();
      port.label = fmt::format("P{}", p);
      port.name = "chip hood";
      port.at = at(x + p, y, number(2, 12));
      port.bore = given<base::Length>(mm(bore));
      machine.ports.push_back(port);
    }
    // To the main: hose, drop, level, and a corner of the main made for it.
    shop::Duct& main = project_.ducts.front();
    const int join = std::min(x + 4, width_ - 6);
    const shop::Point joint = at(join, depth_ / 3, 27);
    std::size_t before = 0;
    while (before + 2 < main.corners.size() && main.corners[before + 1].at.x_um < joint.x_um) {
      ++before;
    }
    const bool there = main.corners[before + 1].at == joint;
    const Id joint_id = there ? main.corners[before + 1].id : ids_.next();
    if (!there) {
      main.corners.insert(main.corners.begin() + static_cast<std::ptrdiff_t>(before) + 1,
                          {joint_id, joint, {}, {}, {}});
    }
    shop::Duct duct;
    duct.id = ids_.next();
    duct.label = fmt::format("D{}", k + 2);
    const shop::Port& port = machine.ports.front();
    duct.from = shop::PortRef{machine.id, port.id};
    duct.to = shop::OnCorner{main.id, joint_id};
    shop::Corner first{ids_.next(), port.at, leg(bore, number(0, 1) == 0), {}, {}};
    shop::Corner drop{ids_.next(), port.at, leg(bore, false), {}, {}};
    drop.at.z_um += 400000;
    shop::Corner top{ids_.next(), port.at, {}, {}, {}};
    top.at.z_um = 2700000;
    duct.corners = {first, drop, top, {ids_.next(), joint, {}, {}, {}}};
    duct.gates.push_back({ids_.next(), fmt::format("G{}", k + 1), duct.corners[2].id,
                          given<base::Length>("0.1 m"), shop::GateSlot::New});
    if (number(0, 1) == 0) {
      duct.taps.push_back(
          {ids_.next(), fmt::format("TP{}", k + 1), duct.corners[1].id, given<base::Length>("0.3 m")});
      duct.cleanouts.push_back(
          {ids_.next(), fmt::format("CO{}", k + 1), duct.corners[1].id, given<base::Length>("0.2 m")});
    }
    project_.machines.push_back(std::move(machine));
    project_.ducts.push_back(std::move(duct));
  }

  void state() {
    shop::State state;
    state.id = ids_.next();
    state.name = "all open";
    for (const shop::Duct& duct : project_.ducts) {
      for (const shop::Gate& gate : duct.gates) {
        state.gates.push_back({gate.id, given<base::Ratio>("1")});
      }
    }
    project_.states.push_back(state);
  }

  std::mt19937_64 random_;
  base::SeededIds ids_;
  shop::Project project_;
  int width_ = 0;
  int depth_ = 0;
};

}  // namespace

shop::Project randomShop(std::uint64_t seed, int machines) {
  return Maker(seed).make(machines);
}

Overlay randomOverlay(std::uint64_t seed, const shop::Project& project, const pieces::Pieces& pieces) {
  std::mt19937_64 random(seed);
  const auto grade = [&] { return static_cast<Grade>(std::uniform_int_distribution<int>(0, 6)(random)); };
  const auto number = [&] { return std::uniform_int_distribution<int>(1, 2000)(random); };
  Overlay out;
  out.judged = true;
  for (const DuctLeg& leg : ductLegs(project, out)) {
    out.pieces[leg.key] = {grade(), number() % 3 - 1.0, "made up"};
  }
  for (const pieces::Run& run : pieces.runs) {
    RunMark mark;
    mark.grade = grade();
    mark.lines = {fmt::format("{} cfm", number()), fmt::format("{} fpm, Ø 6 in", number()), "needs 3500 fpm"};
    out.runs[run.key] = mark;
  }
  for (const shop::Machine& machine : project.machines) {
    out.machines[machine.id] = {
        grade(), {fmt::format("{} cfm of {} cfm", number(), number()), "too little"}, "made up"};
    for (const shop::Port& port : machine.ports) {
      out.ports[port.id] = {grade(), {fmt::format("{} cfm", number())}, "made up"};
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& gate : duct.gates) {
      out.gate_travel[gate.id] = number() % 5 / 4.0;
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    out.fans[collector.id] = {number() % 4 != 0, {"780 cfm", "suction 7.4 in w.g."}};
  }
  return out;
}

}  // namespace kerfdraft::drawing
