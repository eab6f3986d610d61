// What a rating means: the same points in each basis, as the ducts see them.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "base/units.h"
#include "desk/models/fan_entry.h"
#include "doubt/prior.h"
#include "drawing/style.h"
#include "judge/assessment.h"
#include "judge/remedy_cautions.h"
#include "physics/velocity_pressure.h"
#include "pieces/rating_basis.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Kind;

constexpr int kCurveSteps = 40;

bool isLabel(const shop::FanRating& rating) {
  return rating.points.empty();
}

/// How far the pressure of a label's curve may be off, as everywhere else.
double labelBand(const shop::FanRating& rating) {
  const bool measured =
      rating.greatest_suction && rating.greatest_suction->standing() == base::Standing::Measured;
  return doubt::prior(measured ? "fan-label-shut" : "fan-label").spread;
}

double runningShare(const FanThing& thing, const shop::FanRating& rating) {
  return thing.motor.speed && rating.speed && rating.speed->si() > 0
             ? thing.motor.speed->si() / rating.speed->si()
             : 1.0;
}

std::vector<drawing::ChartPoint> along(double from, double to, const auto& value) {
  std::vector<drawing::ChartPoint> out;
  out.reserve(kCurveSteps + 1);
  for (int i = 0; i <= kCurveSteps; ++i) {
    const double flow = from + (to - from) * i / kCurveSteps;
    out.push_back({flow, std::max(0.0, value(flow))});
  }
  return out;
}

std::vector<drawing::ChartPoint> scaled(std::vector<drawing::ChartPoint> points, double share) {
  for (drawing::ChartPoint& point : points) {
    point.y *= share;
  }
  return points;
}

}  // namespace

AskedChoice askedBasis(shop::RatingBasis basis) {
  switch (basis) {
    case shop::RatingBasis::StaticAtInlet:
      return {"suction read in the inlet pipe (static)",
              "A gauge on a hole in the wall of the pipe before the unit. This is what most tests of "
              "collectors give. The bore of that pipe is needed."};
    case shop::RatingBasis::TotalAtInlet:
      return {"total pressure at the inlet",
              "Read with a tube that faces the air, in the pipe before the unit."};
    case shop::RatingBasis::FanStatic:
      return {
          "fan static pressure",
          "From a fan maker's test stand: total pressure out less total in, less what the air's own speed "
          "is worth at the outlet. The outlet's bore is needed to make full use of it."};
    case shop::RatingBasis::FanTotal:
      return {"fan total pressure", "From a fan maker's test stand: total pressure out less total in."};
  }
  return {};
}

AskedChoice askedFitted(shop::Fitted fitted) {
  switch (fitted) {
    case shop::Fitted::Unknown:
      return {"not known", "The whole loss of each filter that is drawn is then taken off: the safe side."};
    case shop::Fitted::Nothing:
      return {"nothing: the bare fan", "What is drawn with it is taken off in full."};
    case shop::Fitted::Bag:
      return {"a clean bag",
              "The clean bag's loss is in the numbers already; only what dust adds is taken off."};
    case shop::Fitted::Filter:
      return {"a clean filter",
              "The clean filter's loss is in the numbers already; only what dust adds is taken off."};
    case shop::Fitted::Cyclone:
      return {"a cyclone", "The cyclone's loss is in the numbers already."};
    case shop::Fitted::CycloneAndFilter:
      return {"a cyclone and a clean filter",
              "Both losses are in the numbers already; only what dust adds is taken off."};
  }
  return {};
}

base::Result<physics::FanRating> physicsRating(const FanThing& thing, const shop::FanRating& rating) {
  const double density_kg_m3 = rating.density ? rating.density->si() : physics::kStandardDensity_kg_m3;
  std::optional<double> bore_m = thing.inlet_bore_m;
  if (rating.test_bore) {
    bore_m = rating.test_bore->si();
  }
  if (!isLabel(rating)) {
    std::vector<physics::FanPoint> points;
    points.reserve(rating.points.size());
    for (const shop::CurvePoint& point : rating.points) {
      points.push_back({point.flow.si(), point.pressure.si()});
    }
    physics::RatingConditions conditions;
    conditions.basis = pieces::basisOf(rating.basis);
    conditions.density_kg_m3 = density_kg_m3;
    conditions.test_bore_m = bore_m;
    conditions.outlet_bore_m = thing.outlet_bore_m;
    conditions.speed_ratio = runningShare(thing, rating);
    return physics::makeFanRating(points, conditions);
  }
  if (!rating.free_air_flow || !rating.greatest_suction) {
    return fail(ErrorCode::Conflict, "a label needs both its flow and its suction");
  }
  if (!bore_m) {
    return fail(ErrorCode::Conflict, "a label needs the bore of the inlet beside it",
                "bore of the test pipe");
  }
  auto made = physics::makeLabelRating(rating.free_air_flow->si(), rating.greatest_suction->si(), *bore_m,
                                       density_kg_m3);
  if (made) {
    made->speed_ratio = runningShare(thing, rating);
  }
  return made;
}

std::vector<std::string> fanRemarks(const FanThing& thing, const shop::FanRating& rating,
                                    base::UnitSystem units) {
  std::vector<std::string> out;
  const bool needs_bore = isLabel(rating) || rating.basis == shop::RatingBasis::StaticAtInlet;
  if (needs_bore && !rating.test_bore && thing.inlet_bore_m) {
    out.push_back(fmt::format("The bore of the test pipe is not given: that of the inlet, {}, is assumed.",
                              base::formatQuantity(Kind::Bore, *thing.inlet_bore_m, units)));
  }
  if (rating.basis == shop::RatingBasis::FanStatic && !thing.outlet_bore_m && !isLabel(rating)) {
    out.emplace_back(
        "The bore of the outlet is not known, so the pressure of the air's speed there is not added.");
  }
  if (isLabel(rating) && rating.free_air_flow && rating.greatest_suction) {
    out.push_back(fmt::format(
        "Only the label is known. A free-air flow is moved in no shop: three quarters of it ({}) is taken as "
        "the flow at which all suction is used up (common practice, no source). The pressure of such a curve "
        "is one third of the time more than {:.0f} % off.",
        base::formatQuantity(Kind::VolumeFlow, physics::kLabelFlowShare * rating.free_air_flow->si(), units),
        100 * labelBand(rating)));
  }
  for (std::size_t i = 1; i < rating.points.size(); ++i) {
    const shop::CurvePoint& a = rating.points[i - 1];
    const shop::CurvePoint& b = rating.points[i];
    if (b.pressure.si() > a.pressure.si()) {
      out.push_back(
          fmt::format("The pressure rises from {} to {} between {} and {}. Some fans do that; their air may "
                      "surge there. Where it is a slip, mend it.",
                      a.pressure.text(), b.pressure.text(), a.flow.text(), b.flow.text()));
    }
  }
  const double share = runningShare(thing, rating);
  if (share != 1.0) {
    out.push_back(
        fmt::format("It runs at {:.2f} times the speed of the test: its flow is taken times {:.2f}, "
                    "its pressure times {:.2f} (fan laws).",
                    share, share, share * share));
  }
  if (thing.motor.power) {
    if (const auto made = physicsRating(thing, rating)) {
      const physics::MotorCheck check = physics::checkMotor(*made, thing.motor.power->si());
      if (check.above_motor) {
        out.push_back(fmt::format(
            "These numbers ask more of the air ({}) than the motor has ({}): no fan does that. Look at the "
            "units and at what the pressure was.",
            base::formatQuantity(Kind::Power, check.air_power_w, units), thing.motor.power->text()));
      }
    }
  }
  return out;
}

base::Result<drawing::Chart> fanEntryChart(const FanThing& thing, const shop::FanRating& rating) {
  const auto made = physicsRating(thing, rating);
  if (!made) {
    return base::Failure(made.error());
  }
  const double rho = made->density_kg_m3;
  const double n = made->speed_ratio;
  drawing::Chart chart;
  chart.description = "The fan's pressure against its flow, as typed and as the ducts get it.";
  chart.x = {Kind::VolumeFlow, "flow", 0.0, {}};
  chart.y = {Kind::Pressure, "pressure", 0.0, {}};
  const double last = made->curve.lastFlow();
  const auto total = along(0, n * last, [&](double q) { return physics::fanRise(*made, q, rho, rho).p_pa; });
  if (isLabel(rating)) {
    const double label_band = labelBand(rating);
    chart.ribbons.push_back({"what it may be", scaled(total, 1 - label_band), scaled(total, 1 + label_band),
                             drawing::kPale, true});
  } else {
    drawing::ChartCurve typed{"as typed",
                              along(0, last, [&](double q) { return made->curve.value(q).p_pa; })};
    typed.dash = drawing::Dash::Dashed;
    typed.colour = drawing::kFaint;
    typed.label_share = 0.35;
    chart.curves.push_back(std::move(typed));
  }
  drawing::ChartCurve rise{"what the ducts get", total};
  rise.colour = drawing::kBlue;
  rise.label_share = 0.6;
  chart.curves.push_back(std::move(rise));
  chart.marks.reserve(rating.points.size());
  for (const shop::CurvePoint& point : rating.points) {
    chart.marks.push_back({{point.flow.si(), point.pressure.si()}, drawing::MarkForm::Ring, drawing::kFaint});
  }
  return chart;
}

std::vector<BasisTrial> tryBases(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                 const FanThing& thing, const shop::FanRating& rating, std::size_t state,
                                 const std::function<bool()>& wanted) {
  std::vector<BasisTrial> out;
  for (const shop::RatingBasis basis : kBases) {
    if (!wanted()) {
      break;
    }
    BasisTrial trial;
    trial.basis = basis;
    shop::FanRating read = rating;
    read.basis = basis;
    const auto change = applyFan(project, thing, read);
    const auto changed = change ? shop::applyEdits(project, change->edits) : base::Failure(change.error());
    const auto solved =
        changed ? judge::assessOne(*changed, catalogue, state) : base::Failure(changed.error());
    if (!solved) {
      trial.problem = solved.error().text();
    } else {
      const network::Solution& solution = solved->states[state].solution;
      const auto& fans = solved->pieces->fans;
      const auto fan = std::find_if(fans.begin(), fans.end(),
                                    [&](const pieces::Fan& candidate) { return candidate.id == thing.id; });
      const auto index = static_cast<std::size_t>(fan - fans.begin());
      if (fan == fans.end() || !solution.solved() || index >= solution.fans.size()) {
        trial.problem = solution.why.empty() ? "the air has no solution" : solution.why;
      } else if (!solution.fans[index].running) {
        trial.problem = "the fan stands still in this state";
      } else {
        trial.flow_m3_s = solution.fans[index].inlet_flow_m3_s;
      }
    }
    out.push_back(std::move(trial));
    if (isLabel(rating)) {
      break;
    }
  }
  return out;
}

std::vector<std::string> basisSentences(const std::vector<BasisTrial>& trials, shop::RatingBasis basis,
                                        base::UnitSystem units) {
  std::vector<std::string> out;
  const auto own = std::find_if(trials.begin(), trials.end(),
                                [&](const BasisTrial& trial) { return trial.basis == basis; });
  if (own == trials.end() || !own->flow_m3_s) {
    out.push_back("There is no flow to compare: " +
                  (own == trials.end() ? std::string("a label has one reading only") : own->problem) + ".");
    return out;
  }
  const auto flow = [&](double m3_s) { return base::formatQuantity(Kind::VolumeFlow, m3_s, units); };
  out.push_back(fmt::format("As entered, {}, the fan moves {} in the state that is shown.",
                            askedBasis(basis).name, flow(*own->flow_m3_s)));
  for (const BasisTrial& trial : trials) {
    if (trial.basis == basis) {
      continue;
    }
    const std::string name = askedBasis(trial.basis).name;
    if (!trial.flow_m3_s) {
      out.push_back(fmt::format("As {} it cannot be read: {}.", name, trial.problem));
      continue;
    }
    const double more = *trial.flow_m3_s - *own->flow_m3_s;
    if (flow(std::abs(more)) == flow(0)) {
      out.push_back(fmt::format("If it were {} instead, nothing would change here.", name));
    } else {
      out.push_back(fmt::format("If it were {} instead, the shop would get {} {}.", name,
                                flow(std::abs(more)), more < 0 ? "less" : "more"));
    }
  }
  return out;
}

std::vector<std::string> shutInletSteps() {
  return {std::string(judge::remedyCaution("shut-inlet-test")) +
              " Put the cover on while the collector stands, and take it off after it has run down. Two "
              "minutes at most: the motor of some units gets little cooling air then.",
          "1. Collector off. Lay a flat board over the inlet, larger than it, with a hole of 6 mm (1/4 in) "
          "for the hose of the "
          "gauge. Seal the hose in the hole. A gauge or a water tube does.",
          "2. Collector on, nobody near the inlet. Read when the needle stands still. Collector off.",
          "3. Type what it showed, with its unit."};
}

base::Result<shop::FanRating> withShutInlet(const FanThing& thing, shop::FanRating rating,
                                            std::string_view reading, base::UnitSystem units) {
  const std::string where = "reading with the inlet shut";
  const std::string source = "inlet shut, read here";
  auto read = base::Given<base::Pressure>::parse(reading, base::Standing::Measured, source, where);
  if (!read) {
    return base::Failure(read.error());
  }
  if (!(read->si() > 0)) {
    return fail(ErrorCode::Range,
                fmt::format("a running fan pulls at a shut inlet; {} is no suction (type it without a minus)",
                            read->text()),
                where);
  }
  const double share = runningShare(thing, rating);
  if (share != 1.0) {
    return fail(ErrorCode::Conflict,
                fmt::format("the fan runs at {:.2f} times the speed of its rating, so that a reading here is "
                            "not one of its rating; take out the speed of the test first",
                            share),
                where);
  }
  if (isLabel(rating)) {
    rating.greatest_suction = std::move(*read);
    return rating;
  }
  shop::CurvePoint still;
  auto none = base::Given<base::VolumeFlow>::parse(units == base::UnitSystem::Us ? "0 cfm" : "0 m3/h",
                                                   base::Standing::Measured, source);
  if (!none) {
    return base::Failure(none.error());
  }
  still.flow = std::move(*none);
  still.pressure = std::move(*read);
  if (rating.points.front().flow.si() > 0) {
    rating.points.insert(rating.points.begin(), std::move(still));
  } else {
    still.power = rating.points.front().power;
    rating.points.front() = std::move(still);
  }
  return rating;
}

}  // namespace kerfdraft::desk
