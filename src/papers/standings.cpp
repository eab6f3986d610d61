// Walks every entered value once.
#include "papers/standings.h"

#include <numeric>
#include <optional>

namespace kerfdraft::papers {
namespace {

class Counter {
 public:
  explicit Counter(std::string part) { count_.part = std::move(part); }

  template <class Q>
  void add(const base::Given<Q>& given) {
    // A value without text was never entered.
    count_.values[static_cast<std::size_t>(given.standing())] += given.text().empty() ? 0U : 1U;
  }
  template <class Q>
  void add(const std::optional<base::Given<Q>>& given) {
    if (given) {
      add(*given);
    }
  }
  template <class... All>
  void all(const All&... given) {
    (add(given), ...);
  }

  void rating(const shop::FanRating& rating) {
    for (const shop::CurvePoint& point : rating.points) {
      all(point.flow, point.pressure, point.power);
    }
    all(rating.free_air_flow, rating.greatest_suction, rating.test_bore, rating.density, rating.speed);
  }
  void motor(const shop::Motor& motor) { all(motor.power, motor.speed, motor.wheel); }

  void into(std::vector<StandingCount>& out) {
    if (count_.total() > 0) {
      out.push_back(std::move(count_));
    }
  }

 private:
  StandingCount count_;
};

void countPort(const shop::Port& port, Counter& machines, Counter& needs) {
  machines.all(port.bore, port.entry);
  if (port.maker) {
    machines.all(port.maker->flow, port.maker->suction);
  }
  needs.all(port.floor, port.target);
}

void countDuct(const shop::Duct& duct, Counter& ducts) {
  for (const shop::Corner& corner : duct.corners) {
    ducts.add(corner.loss);
    if (corner.leg) {
      ducts.all(corner.leg->bore, corner.leg->taper);
      if (corner.leg->hose) {
        ducts.all(corner.leg->hose->length, corner.leg->hose->compression);
      }
    }
    if (corner.elbow) {
      ducts.add(corner.elbow->radius);
    }
  }
  for (const shop::Gate& gate : duct.gates) {
    ducts.add(gate.distance);
  }
  for (const auto* list : {&duct.taps, &duct.cleanouts}) {
    for (const shop::Access& access : *list) {
      ducts.add(access.distance);
    }
  }
}

void countParts(const shop::Collector& collector, Counter& parts) {
  for (const shop::Separator& separator : collector.separators) {
    parts.all(separator.heads, separator.inlet_bore, separator.rated_flow, separator.rated_loss,
              separator.bin);
  }
  for (const shop::Filter& filter : collector.filters) {
    parts.add(filter.area);
    for (const auto* point : {&filter.clean, &filter.seasoned, &filter.due}) {
      if (*point) {
        parts.all((*point)->flow, (*point)->loss);
      }
    }
  }
}

}  // namespace

std::size_t StandingCount::total() const {
  return std::accumulate(values.begin(), values.end(), std::size_t{0});
}

std::vector<StandingCount> countStandings(const shop::Project& project) {
  Counter air("the air of the day");
  Counter room("room and openings");
  Counter machines("machines and ports");
  Counter needs("what the machines need");
  Counter ducts("ducts and hoses");
  Counter fans("collectors and blowers");
  Counter parts("separators and filters");
  Counter power("electric circuits");
  air.all(project.air.temperature, project.air.altitude, project.air.barometer, project.air.humidity);
  for (const shop::Room& each : project.rooms) {
    room.add(each.height);
    for (const shop::Opening& opening : each.openings) {
      room.all(opening.area, opening.flow);
    }
    for (const shop::Obstacle& obstacle : each.obstacles) {
      room.all(obstacle.bottom, obstacle.top);
    }
  }
  for (const shop::Machine& machine : project.machines) {
    machines.all(machine.width, machine.depth, machine.height, machine.turned, machine.openings,
                 machine.waste, machine.motor);
    needs.all(machine.floor, machine.target);
    for (const shop::Port& port : machine.ports) {
      countPort(port, machines, needs);
    }
    if (machine.blower) {
      fans.rating(machine.blower->rating);
      fans.motor(machine.blower->motor);
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    countDuct(duct, ducts);
  }
  for (const shop::Collector& collector : project.collectors) {
    fans.all(collector.inlet_bore, collector.outlet_bore);
    fans.rating(collector.rating);
    fans.motor(collector.motor);
    countParts(collector, parts);
  }
  for (const shop::Circuit& circuit : project.circuits) {
    power.all(circuit.voltage, circuit.breaker);
  }
  std::vector<StandingCount> out;
  for (Counter* counter : {&air, &room, &machines, &needs, &ducts, &fans, &parts, &power}) {
    counter->into(out);
  }
  return out;
}

}  // namespace kerfdraft::papers
