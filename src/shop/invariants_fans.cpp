// Machines and collectors: ports that can take their air, ratings that describe a fan.
#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "shop/invariants.h"
#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

using base::ErrorCode;

/// Standard air of the trade, 0.075 lb/ft3, in which makers' pairs are given [kg/m3].
constexpr double kStandardDensity_kg_m3 = 1.2013848;

double boreArea(double bore_m) {
  return std::numbers::pi / 4 * bore_m * bore_m;
}

void refuseAbsurdSpeed(Survey& survey, std::string_view key, const std::string& entered, double flow_m3_s,
                       double area_m2, const std::string& through) {
  if (!(area_m2 > 0) || flow_m3_s / area_m2 <= kAbsurdSpeed_m_s) {
    return;
  }
  Survey::Place place(survey, key);
  survey.problem(
      ErrorCode::Conflict,
      fmt::format("{} through {} would need {}; above {} a figure is taken for a slip", entered, through,
                  survey.speedText(flow_m3_s / area_m2), survey.speedText(kAbsurdSpeed_m_s)));
}

void checkPort(Survey& survey, const Port& port) {
  const double area_m2 = boreArea(port.bore.si());
  const std::string through = fmt::format("a bore of {}", port.bore.text());
  if (port.floor) {
    refuseAbsurdSpeed(survey, "floor", port.floor->text(), port.floor->si(), area_m2, through);
  }
  if (port.target) {
    refuseAbsurdSpeed(survey, "target", port.target->text(), port.target->si(), area_m2, through);
  }
  if (!port.maker || !(area_m2 > 0)) {
    return;
  }
  Survey::Place place(survey, "maker");
  const double speed_m_s = port.maker->flow.si() / area_m2;
  refuseAbsurdSpeed(survey, "flow", port.maker->flow.text(), port.maker->flow.si(), area_m2, through);
  const double vp_pa = 0.5 * kStandardDensity_kg_m3 * speed_m_s * speed_m_s;
  if (port.maker->suction.si() < vp_pa) {
    survey.problem(
        ErrorCode::Conflict,
        fmt::format(
            "the maker's static suction of {} is below the velocity pressure of {} that {} has in a bore of "
            "{}; no port can do that (is the suction a total pressure, or the bore another?)",
            port.maker->suction.text(), survey.pressureText(vp_pa), port.maker->flow.text(),
            port.bore.text()));
  }
}

void checkCurve(Survey& survey, const std::vector<CurvePoint>& points) {
  if (points.size() == 1) {
    survey.problem(ErrorCode::Conflict, fmt::format("a curve needs at least two points, but this one has one "
                                                    "({} at {})",
                                                    points[0].pressure.text(), points[0].flow.text()));
    return;
  }
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (!(points[i].flow.si() > points[i - 1].flow.si())) {
      Survey::Place place(survey, "points", i);
      survey.problem(
          ErrorCode::Conflict,
          fmt::format("the flow {} does not come after {}; points stand in the order of rising flow",
                      points[i].flow.text(), points[i - 1].flow.text()));
      return;
    }
  }
  const auto greatest = std::max_element(
      points.begin(), points.end(),
      [](const CurvePoint& a, const CurvePoint& b) { return a.pressure.si() < b.pressure.si(); });
  if (!(points.back().pressure.si() < greatest->pressure.si())) {
    survey.problem(
        ErrorCode::Conflict,
        fmt::format("the curve never falls: it ends with {} at {}, its greatest pressure; a fan's pressure "
                    "falls toward free air",
                    points.back().pressure.text(), points.back().flow.text()));
  }
}

void checkRating(Survey& survey, const FanRating& rating) {
  Survey::Place place(survey, "rating");
  if (!rating.points.empty()) {
    checkCurve(survey, rating.points);
    return;
  }
  if (!rating.free_air_flow && !rating.greatest_suction) {
    survey.problem(
        ErrorCode::Conflict,
        "nothing is known of the fan: it needs the points of a curve, or the label's \"free-air-flow\" and "
        "\"greatest-suction\"");
  } else if (!rating.free_air_flow) {
    survey.problem(ErrorCode::Conflict,
                   fmt::format("the label's greatest suction of {} needs the \"free-air-flow\" beside it",
                               rating.greatest_suction->text()));
  } else if (!rating.greatest_suction) {
    survey.problem(ErrorCode::Conflict,
                   fmt::format("the label's free-air flow of {} needs the \"greatest-suction\" beside it",
                               rating.free_air_flow->text()));
  }
}

void checkSeparator(Survey& survey, const Separator& separator) {
  if (separator.rated_flow.has_value() != separator.rated_loss.has_value()) {
    survey.problem(ErrorCode::Conflict,
                   separator.rated_flow
                       ? fmt::format("the rated flow of {} needs the \"rated-loss\" beside it",
                                     separator.rated_flow->text())
                       : fmt::format("the rated loss of {} needs the \"rated-flow\" beside it",
                                     separator.rated_loss->text()));
  }
}

void checkFilter(Survey& survey, const Filter& filter) {
  if (filter.area && !(filter.area->si() > 0)) {
    Survey::Place place(survey, "area");
    survey.problem(ErrorCode::Range,
                   fmt::format("a filter area of {} lets no air through; leave it out where it is unknown",
                               filter.area->text()));
  }
}

}  // namespace

void checkMachines(Survey& survey) {
  const std::vector<Machine>& machines = survey.project().machines;
  for (std::size_t i = 0; i < machines.size(); ++i) {
    const Machine& machine = machines[i];
    Survey::Place place(survey, "machines", i, named("machine", machine.label));
    survey.expect(machine.room, Thing::Room, "room", true);
    survey.expect(machine.circuit, Thing::Circuit, "circuit", true);
    double area_m2 = 0;
    for (std::size_t k = 0; k < machine.ports.size(); ++k) {
      Survey::Place inner(survey, "ports", k, named("port", machine.ports[k].label));
      checkPort(survey, machine.ports[k]);
      area_m2 += boreArea(machine.ports[k].bore.si());
    }
    const std::string through = machine.ports.size() == 1 ? "its port" : "all its ports";
    if (machine.floor) {
      refuseAbsurdSpeed(survey, "floor", machine.floor->text(), machine.floor->si(), area_m2, through);
    }
    if (machine.target) {
      refuseAbsurdSpeed(survey, "target", machine.target->text(), machine.target->si(), area_m2, through);
    }
    if (machine.blower) {
      Survey::Place inner(survey, "blower");
      checkRating(survey, machine.blower->rating);
    }
  }
}

void checkCollectors(Survey& survey) {
  const std::vector<Collector>& collectors = survey.project().collectors;
  for (std::size_t i = 0; i < collectors.size(); ++i) {
    const Collector& collector = collectors[i];
    Survey::Place place(survey, "collectors", i, named("collector", collector.label));
    survey.expect(collector.room, Thing::Room, "room", true);
    survey.expect(collector.circuit, Thing::Circuit, "circuit", true);
    {
      Survey::Place discharge(survey, "discharge");
      survey.expect(collector.discharge.room, Thing::Room, "room", true);
    }
    checkRating(survey, collector.rating);
    for (std::size_t k = 0; k < collector.separators.size(); ++k) {
      Survey::Place inner(survey, "separators", k, named("separator", collector.separators[k].label));
      checkSeparator(survey, collector.separators[k]);
    }
    for (std::size_t k = 0; k < collector.filters.size(); ++k) {
      Survey::Place inner(survey, "filters", k, named("filter", collector.filters[k].label));
      checkFilter(survey, collector.filters[k]);
    }
  }
}

}  // namespace kerfdraft::shop
