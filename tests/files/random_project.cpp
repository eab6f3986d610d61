// Random projects, drawn piece by piece.
#include "files/random_project.h"

#include <fmt/format.h>
#include <rapidcheck.h>

#include <array>
#include <initializer_list>

#include "files/field_table.h"
#include "files/json.h"
#include "files/words.h"

namespace kerfdraft::files {
namespace {

using namespace shop;

int number(int least, int greatest) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(least, greatest + 1));
}
bool chance(int percent) {
  return number(1, 100) <= percent;
}
std::string_view oneOf(std::initializer_list<std::string_view> texts) {
  return *(texts.begin() + number(0, static_cast<int>(texts.size()) - 1));
}

template <Worded E>
E anyWord() {
  const auto& words = Words<E>::kWords;
  return words[static_cast<std::size_t>(number(0, static_cast<int>(words.size()) - 1))].value;
}

class Maker {
 public:
  Project make() {
    project_.setting.name = name();
    project_.setting.note = chance(50) ? "two\nlines\t" + name() : "";
    project_.setting.who = anyWord<Who>();
    project_.setting.country = chance(50) ? "GB" : "";
    project_.setting.units = anyWord<base::UnitSystem>();
    project_.setting.density = anyWord<DensityMode>();
    project_.setting.leakage = chance(50);
    for (int i = number(0, 2); i > 0; --i) {
      project_.setting.policies.push_back({key(), key()});
    }
    for (int i = number(0, 2); i > 0; --i) {
      project_.setting.woods.push_back(key());
    }
    for (int i = number(0, 2); i > 0; --i) {
      project_.circuits.push_back({fresh(), label('K'), given<base::Voltage>({"120 V", "0.4 kV"}),
                                   maybe<base::Current>({"20 A", "16 A"}), chance(30)});
    }
    project_.air.temperature = given<base::Temperature>({"70 °F", "-40 °F", "21.5 °C", "293 K"});
    project_.air.altitude = maybe<base::Length>({"1900 m", "-1 ft", "2 km"});
    project_.air.barometer = maybe<base::AbsolutePressure>({"965 hPa", "29.92 in Hg"});
    project_.air.humidity = maybe<base::Ratio>({"0", "1", "45 %"});
    for (int i = number(0, 3); i > 0; --i) {
      addRoom();
    }
    for (int i = number(0, 4); i > 0; --i) {
      addMachine();
    }
    for (int i = number(0, 2); i > 0; --i) {
      addCollector();
    }
    for (int i = number(0, 6); i > 0; --i) {
      addDuct();
    }
    for (int i = number(0, 3); i > 0; --i) {
      addState();
    }
    addAccepted();
    if (chance(30)) {
      project_.underlay = shop::Underlay{
          std::string(oneOf({"plan.dxf", "/a/b c/sketch.png", "ö.jpg"})),
          planPoint(),
          maybe<base::Ratio>({"-12.5", "500000.25"}),
          maybe<base::Ratio>({"3", "-999999999"}),
          maybe<base::Length>({"1 mm", "0.0833 ft"}),
          maybe<base::Angle>({"90 deg", "-12.5 deg"}),
          maybe<base::Ratio>({"5 %", "1"}),
          chance(30),
          chance(50) ? std::vector<std::string>{"TEXT", "Wände 2"} : std::vector<std::string>{}};
    }
    if (chance(30)) {
      project_.extensions = R"({"other.program":{"a":[1,2.50,null],"b":"ö\n"}})";
    }
    return std::move(project_);
  }

 private:
  Id fresh() { return ids_.next(); }
  std::string label(char kind) { return fmt::format("{}{}", kind, ++labels_); }
  std::string maybeLabel(char kind) { return chance(50) ? label(kind) : std::string(); }
  static std::string name() {
    return std::string(oneOf({"a", "Säge „groß“", "\"quoted\" \\ slash/", "☃ m³/h", " spaces ", "x"}));
  }
  static std::string maybeName() { return chance(50) ? name() : std::string(); }
  static std::string key() { return std::string(oneOf({"snap-lock", "in-2.5", "a_b", "7"})); }
  static std::string maybeKey() { return chance(50) ? key() : std::string(); }

  template <class Q>
  static Given<Q> given(std::initializer_list<std::string_view> texts) {
    const auto standing = anyWord<base::Standing>();
    return Given<Q>::parse(oneOf(texts), standing, chance(30) ? name() : std::string()).value();
  }
  template <class Q>
  static std::optional<Given<Q>> maybe(std::initializer_list<std::string_view> texts) {
    return chance(50) ? std::optional(given<Q>(texts)) : std::nullopt;
  }
  static Given<base::Length> bore() {
    return given<base::Length>({"4 in", "150mm", " 2 1/2 in", "0.1 m", "6.08 in"});
  }
  static std::optional<Given<base::VolumeFlow>> maybeFlow() {
    return maybe<base::VolumeFlow>({"0 cfm", "1 cfm", "12 m³/h", "1e-3 m3/s"});
  }

  static std::int64_t coordinate() {
    return chance(70) ? number(-400, 400) * std::int64_t{25400} / 2
                      : *rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'001);
  }
  static Point point() { return {coordinate(), coordinate(), coordinate()}; }
  static PlanPoint planPoint() { return {coordinate(), coordinate()}; }
  /// A rectangle, so that no edges cross.
  static std::vector<PlanPoint> outline() {
    const std::int64_t x = number(-1000, 1000) * std::int64_t{1001};
    const std::int64_t y = number(-1000, 1000) * std::int64_t{30480};
    const std::int64_t w = number(1, 10'000'000);
    const std::int64_t d = number(1, 10'000'000);
    return {{x, y}, {x + w, y}, {x + w, y + d}, {x, y + d}};
  }

  template <class T>
  static Id anyId(const std::vector<T>& list) {
    return list[static_cast<std::size_t>(number(0, static_cast<int>(list.size()) - 1))].id;
  }
  Id maybeRoom() const { return project_.rooms.empty() || chance(30) ? Id() : anyId(project_.rooms); }

  Id maybeCircuit() const {
    return project_.circuits.empty() || chance(50) ? Id() : anyId(project_.circuits);
  }

  /// Of different rules, so that none is accepted twice.
  void addAccepted() {
    for (int i = number(0, 2); i > 0; --i) {
      shop::Acceptance accepted;
      accepted.rule = fmt::format("rule-{}", i);
      accepted.about = chance(70) ? "run:" + fresh().text() + (chance(50) ? ":" + fresh().text() : "") : "";
      accepted.state = project_.states.empty() || chance(50) ? Id() : anyId(project_.states);
      accepted.badness = given<base::Ratio>({"0", "0.4", "12 %"});
      accepted.reason = name() + "\nsecond line";
      accepted.on = chance(50) ? "2026-02-03" : "";
      project_.accepted.push_back(accepted);
    }
  }

  void addRoom() {
    Room room;
    room.id = fresh();
    room.label = label('R');
    room.outline = outline();
    room.height = given<base::Length>({"8 ft", "2.2 m"});
    room.natural_draft_appliance = chance(30);
    for (int i = number(0, 3); i > 0; --i) {
      Opening opening;
      opening.id = fresh();
      opening.label = maybeLabel('O');
      opening.kind = anyWord<OpeningKind>();
      opening.from = planPoint();
      opening.to = planPoint();
      if (opening.kind == OpeningKind::Exhaust) {
        opening.flow = given<base::VolumeFlow>({"100 cfm", "200 m3/h"});
      } else {
        opening.area = maybe<base::Area>({"20 ft2", "1.8 m²", "3 in2"});
        opening.leads_to = maybeRoom();
        if (opening.kind == OpeningKind::Door) {
          doors_.push_back(opening.id);
        }
      }
      opening.usually_open = chance(50);
      room.openings.push_back(opening);
    }
    for (int i = number(0, 1); i > 0; --i) {
      room.obstacles.push_back({fresh(), maybeLabel('K'), outline(), given<base::Length>({"0 m", "1 ft"}),
                                given<base::Length>({"2 m", "9 ft"})});
    }
    project_.rooms.push_back(room);
  }

  FanRating rating() {
    FanRating rating;
    rating.basis = anyWord<RatingBasis>();
    if (chance(60)) {
      rating.points = {
          {given<base::VolumeFlow>({"0 cfm"}), given<base::Pressure>({"7 in w.g.", "1 kPa"}),
           maybe<base::Power>({"1.5 hp", "900 W"})},
          {given<base::VolumeFlow>({"300 cfm"}), given<base::Pressure>({"8 in w.g.", "500 Pa"}), {}},
          {given<base::VolumeFlow>({"1000 m3/h"}), given<base::Pressure>({"0 Pa", "10 Pa"}), {}}};
    } else {
      rating.free_air_flow = given<base::VolumeFlow>({"650 cfm", "2000 m3/h"});
      rating.greatest_suction = given<base::Pressure>({"7 in w.g.", "2 kPa"});
    }
    rating.test_bore = chance(50) ? std::optional(bore()) : std::nullopt;
    rating.fitted = anyWord<Fitted>();
    rating.density = maybe<base::Density>({"1.2 kg/m3", "0.075 lb/ft3"});
    rating.speed = maybe<base::RotationalSpeed>({"3450 rpm"});
    return rating;
  }
  static Motor motor() {
    return {maybe<base::Power>({"5 hp", "4 kW"}), maybe<base::RotationalSpeed>({"2900 rpm"}),
            maybe<base::Length>({"12 in", "400 mm"})};
  }

  void addMachine() {
    Machine machine;
    machine.id = fresh();
    machine.label = label('T');
    machine.name = maybeName();
    machine.kind = maybeKey();
    machine.chips = maybeKey();
    machine.room = maybeRoom();
    machine.at = point();
    machine.width = given<base::Length>({"24 in", "1 m"});
    machine.depth = given<base::Length>({"24 in", "0.5 m"});
    machine.height = given<base::Length>({"40 in", "90 cm"});
    if (chance(50)) {
      machine.turned = given<base::Angle>({"-90 deg", "30°", "1 rad"});
    }
    machine.openings = maybe<base::Area>({"30 in2", "300 cm2"});
    machine.waste = maybe<base::MassFlow>({"0 kg/s", "20 kg/h", "3 lb/min"});
    machine.floor = maybeFlow();
    machine.target = maybeFlow();
    machine.throws_what = anyWord<Throws>();
    machine.guard = anyWord<Guard>();
    machine.circuit = maybeCircuit();
    machine.motor = maybe<base::Power>({"2 hp", "3 kW"});
    for (int i = number(0, 3); i > 0; --i) {
      Port port;
      port.id = fresh();
      port.label = fmt::format("P{}", i);
      port.name = maybeName();
      port.at = point();
      port.bore = bore();
      port.hood = maybeKey();
      port.entry = maybe<base::Ratio>({"0.5", "1.5", "0"});
      if (chance(30)) {
        port.maker = RatedPoint{given<base::VolumeFlow>({"10 cfm", "20 m3/h"}),
                                given<base::Pressure>({"6 in w.g.", "1.2 kPa"})};
      }
      port.floor = maybeFlow();
      port.target = maybeFlow();
      machine.ports.push_back(port);
      free_ports_.push_back({{machine.id, port.id}, port.at});
    }
    if (machine.ports.empty()) {
      machine.floor.reset();
      machine.target.reset();
    }
    if (chance(20)) {
      machine.blower = Blower{fresh(), maybeLabel('B'), rating(), motor()};
      fans_.push_back(machine.blower->id);
    }
    project_.machines.push_back(machine);
  }

  void addCollector() {
    Collector collector;
    collector.id = fresh();
    collector.label = label('C');
    collector.name = maybeName();
    collector.room = maybeRoom();
    collector.at = point();
    collector.inlet_bore = bore();
    collector.outlet_bore = chance(50) ? std::optional(bore()) : std::nullopt;
    collector.rating = rating();
    collector.motor = motor();
    for (int i = number(0, 2); i > 0; --i) {
      Separator separator;
      separator.id = fresh();
      separator.label = maybeLabel('S');
      separator.kind = maybeKey();
      separator.inside = chance(50);
      separator.side = anyWord<FanSide>();
      separator.heads = maybe<base::Ratio>({"3", "2.5"});
      separator.inlet_bore = chance(50) ? std::optional(bore()) : std::nullopt;
      if (chance(50)) {
        separator.rated_flow = given<base::VolumeFlow>({"800 cfm"});
        separator.rated_loss = given<base::Pressure>({"2 in w.g."});
      }
      separator.bin = maybe<base::Volume>({"55 gal", "200 l"});
      separator.bin_form = maybeKey();
      collector.separators.push_back(separator);
    }
    for (int i = number(0, 2); i > 0; --i) {
      Filter filter;
      filter.id = fresh();
      filter.label = maybeLabel('F');
      filter.inside = chance(50);
      filter.side = anyWord<FanSide>();
      filter.area = maybe<base::Area>({"16 ft2", "44 m2"});
      if (chance(50)) {
        filter.clean =
            FilterPoint{given<base::VolumeFlow>({"800 cfm"}), given<base::Pressure>({"0.5 in w.g."})};
      }
      if (chance(50)) {
        filter.due = FilterPoint{given<base::VolumeFlow>({"800 cfm"}), given<base::Pressure>({"1.1 kPa"})};
      }
      filter.housing = anyWord<Housing>();
      filter.cleaning = maybeKey();
      filter.gauge = chance(50);
      collector.filters.push_back(filter);
    }
    collector.non_return = chance(50);
    collector.isolation = chance(50);
    collector.circuit = maybeCircuit();
    collector.discharge.room = maybeRoom();
    fans_.push_back(collector.id);
    project_.collectors.push_back(collector);
  }

  struct FreePort {
    PortRef ref;
    Point at;
  };

  /// Where the duct starts; sets the first corner's place.
  DuctEnd start(Point& at) {
    const int kind = number(0, 4);
    if (kind == 0 && !free_ports_.empty()) {
      const FreePort port = free_ports_.back();
      free_ports_.pop_back();
      at = port.at;
      return port.ref;
    }
    if (kind == 1 && !free_ports_.empty()) {
      MovedEnd end;
      for (int i = number(1, 2); i > 0 && !free_ports_.empty(); --i) {
        end.places.push_back(free_ports_.back().ref);
        free_ports_.pop_back();
      }
      return end;
    }
    if (kind == 2 && !project_.collectors.empty()) {
      return CollectorOutlet{anyId(project_.collectors)};
    }
    if (kind == 3) {
      return FreeAir{maybeRoom(), maybeKey()};
    }
    return OpenEnd{};
  }

  DuctEnd end(Point& at) {
    const int kind = number(0, 3);
    if (kind == 0 && !project_.collectors.empty()) {
      const auto& all = project_.collectors;
      const Collector& collector = all[static_cast<std::size_t>(number(0, static_cast<int>(all.size()) - 1))];
      at = collector.at;
      return CollectorInlet{collector.id};
    }
    if (kind == 1) {
      for (const Duct& duct : project_.ducts) {
        if (duct.corners.size() > 2) {
          at = duct.corners[1].at;
          return OnCorner{duct.id, duct.corners[1].id, chance(50)};
        }
      }
    }
    if (kind == 2) {
      return FreeAir{maybeRoom(), maybeKey()};
    }
    return OpenEnd{};
  }

  static Leg leg(bool hose) {
    Leg leg;
    leg.bore = bore();
    leg.construction = maybeKey();
    if (hose) {
      leg.hose = Hose{anyWord<HoseInside>(), anyWord<HoseHung>(), maybe<base::Length>({"6 ft", "900 mm"}),
                      maybe<base::Ratio>({"0.1", "20 %"})};
    }
    leg.taper = maybe<base::Angle>({"30 deg", "15°"});
    return leg;
  }

  void addDuct() {
    Duct duct;
    duct.id = fresh();
    duct.label = label('D');
    duct.name = maybeName();
    Point first = point();
    Point last = point();
    duct.from = start(first);
    duct.to = end(last);
    duct.elbow_form = maybeKey();
    const int inner = number(0, 3);
    for (int i = 0; i < inner + 2; ++i) {
      Corner corner;
      corner.id = fresh();
      corner.at = i == 0 ? first : (i == inner + 1 ? last : point());
      if (!duct.corners.empty() && corner.at == duct.corners.back().at) {
        corner.at.z_um += 1;  // far below what a join may be off
      }
      if (i == 0 || (i <= inner && chance(30))) {
        // Hose stays out of random places, which may be further apart than hose reaches.
        corner.leg = leg(false);
      }
      if (chance(30)) {
        corner.elbow = ElbowForm{maybeKey(), maybe<base::Ratio>({"1.5", "2"})};
      }
      corner.loss = maybe<base::Ratio>({"0", "0.3"});
      duct.corners.push_back(corner);
    }
    if (distance(duct.corners[0].at, duct.corners[1].at) < 50) {
      duct.corners[0].leg = leg(true);
      duct.corners[1].leg = inner > 0 ? std::optional(leg(false)) : std::nullopt;
    }
    for (int i = number(0, 2); i > 0; --i) {
      duct.gates.push_back({fresh(), label('G'), duct.corners[0].id, given<base::Length>({"0 in", "1 um"}),
                            anyWord<GateSlot>()});
      gates_.push_back(duct.gates.back().id);
    }
    for (int i = number(0, 1); i > 0; --i) {
      duct.taps.push_back({fresh(), label('M'), duct.corners[0].id, given<base::Length>({"0 m"})});
      duct.cleanouts.push_back({fresh(), label('N'), duct.corners[0].id, given<base::Length>({"0 ft"})});
    }
    project_.ducts.push_back(duct);
  }

  void addState() {
    State state;
    state.id = fresh();
    state.name = fmt::format("state {}", ++labels_);
    for (const Id gate : gates_) {
      if (chance(50)) {
        state.gates.push_back({gate, given<base::Ratio>({"1", "0", "80 %", "0.25"})});
      }
    }
    for (const Duct& duct : project_.ducts) {
      if (const auto* moved = std::get_if<MovedEnd>(&duct.from); moved != nullptr && chance(70)) {
        state.hoses.push_back({duct.id, moved->places.front()});
      }
    }
    for (const Id fan : fans_) {
      if (chance(30)) {
        state.off.push_back(fan);
      }
    }
    for (const Id door : doors_) {
      if (chance(30)) {
        state.swung.push_back(door);
      }
    }
    state.filter = anyWord<FilterState>();
    project_.states.push_back(state);
  }

  Project project_;
  base::SeededIds ids_{*rc::gen::arbitrary<std::uint64_t>()};
  int labels_ = 0;
  std::vector<FreePort> free_ports_;
  std::vector<Id> doors_;
  std::vector<Id> fans_;
  std::vector<Id> gates_;
};

}  // namespace

shop::Project randomProject() {
  return Maker().make();
}

}  // namespace kerfdraft::files
