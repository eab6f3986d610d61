// The table of spreads; docs/theory/uncertainty.md says why each figure is what it is.
#include "doubt/prior.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/result.h"

namespace kerfdraft::doubt {
namespace {

using base::SourceStatus;
constexpr auto kOurs = SourceStatus::Ours;
constexpr auto kCommon = SourceStatus::CommonPractice;

constexpr std::string_view kPage = "docs/theory/uncertainty.md";

constexpr std::array kPriors{
    Prior{"friction", "duct friction", Shape::Share, 0.08, "by its construction, 8 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"hose", "hose friction", Shape::Factor, 1.6, "common practice, factor 1.6", kCommon, kPage,
          Measure::HosePressure, "hose-measured"},
    Prior{"hose-compression", "hose friction", Shape::Factor, 1.3, "by its compression, factor 1.3", kOurs,
          kPage, Measure::HosePressure, "hose-measured"},
    Prior{"hose-measured", "hose friction", Shape::Share, 0.10, "measured, 10 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"fitting", "elbows and changes of bore", Shape::Share, 0.20, "by tables, 20 %", kOurs, kPage,
          Measure::Elbows, "fitting-measured"},
    Prior{"fitting-measured", "elbows and changes of bore", Shape::Share, 0.10, "measured, 10 %", kOurs,
          kPage, Measure::Nothing, ""},
    Prior{"junction", "branch entries", Shape::Share, 1.0,
          "20 % of what the legs lose, at least 0.1 velocity pressures of the main", kOurs, kPage,
          Measure::Branches, ""},
    Prior{"saddle", "hand-cut branch entries", Shape::Factor, 1.5, "common practice, factor 1.5", kOurs,
          kPage, Measure::Branches, ""},
    Prior{"hood-unknown", "entry into the machine", Shape::Factor, 1.7, "nothing is known, factor 1.7", kOurs,
          kPage, Measure::HoodStatic, "hood-measured"},
    Prior{"hood-form", "entry into the hood", Shape::Share, 0.20, "by its form, 20 %", kOurs, kPage,
          Measure::HoodStatic, "hood-measured"},
    Prior{"hood-maker", "entry into the machine", Shape::Share, 0.15, "maker's pair, 15 %", kOurs, kPage,
          Measure::HoodStatic, "hood-measured"},
    Prior{"hood-measured", "entry into the machine", Shape::Share, 0.07, "measured, 7 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"body", "gaps of machine bodies", Shape::Factor, 1.7, "estimated, factor 1.7", kOurs, kPage,
          Measure::BodyGaps, "body-measured"},
    Prior{"body-measured", "gaps of machine bodies", Shape::Share, 0.15, "area measured, 15 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"room", "doors and grilles", Shape::Factor, 1.5, "by their size, factor 1.5", kOurs, kPage,
          Measure::RoomPressure, "room-measured"},
    Prior{"room-measured", "doors and grilles", Shape::Share, 0.15, "free area measured, 15 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"cracks", "cracks of the room", Shape::Factor, 4.0,
          "common practice, factor 2 of the area and so 4 of the loss", kCommon, kPage, Measure::RoomPressure,
          ""},
    Prior{"gate-open", "open gates", Shape::Share, 0.20, "by their travel, 20 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"gate-throttled", "gates below 30 % travel", Shape::Factor, 2.0, "open less than 30 %, factor 2",
          kOurs, kPage, Measure::GateTravel, "gate-open"},
    Prior{"separator", "separator", Shape::Factor, 1.5, "common practice, 3 ± 1.5 velocity heads, factor 1.5",
          kCommon, kPage, Measure::SeparatorPressure, "separator-measured"},
    Prior{"separator-maker", "separator", Shape::Share, 0.20, "maker's figure, 20 %", kOurs, kPage,
          Measure::SeparatorPressure, "separator-measured"},
    Prior{"separator-measured", "separator", Shape::Share, 0.10, "measured, 10 %", kOurs, kPage,
          Measure::Nothing, ""},
    Prior{"filter", "filter", Shape::Factor, 1.6, "not measured, factor 1.6", kOurs, kPage,
          Measure::FilterGauge, "filter-measured"},
    Prior{"filter-maker", "filter", Shape::Factor, 1.3, "maker's figure, factor 1.3", kOurs, kPage,
          Measure::FilterGauge, "filter-measured"},
    Prior{"filter-measured", "filter", Shape::Share, 0.10, "measured, 10 %", kOurs, kPage, Measure::Nothing,
          ""},
    Prior{"system-effect", "elbow at the fan", Shape::Factor, 1.5, "factor 1.5", kOurs, kPage,
          Measure::InletStaticAndFlow, ""},
    Prior{"outlet", "outlets", Shape::Share, 0.10, "10 %", kOurs, kPage, Measure::Nothing, ""},
    Prior{"leakage", "leakage", Shape::Factor, 2.0, "by class, factor 2", kOurs, kPage, Measure::Joints,
          "leakage-measured"},
    Prior{"leakage-measured", "leakage", Shape::Share, 0.20, "measured, 20 %", kOurs, kPage, Measure::Nothing,
          ""},
    Prior{"bore", "bores", Shape::Share, 0.03, "typed as nominal, 3 %", kCommon, kPage, Measure::Bore,
          "bore-measured"},
    Prior{"bore-published", "bores", Shape::Share, 0.01, "true inside from a table, 1 %", kOurs, kPage,
          Measure::Bore, "bore-measured"},
    Prior{"bore-measured", "bores", Shape::Share, 0.005, "measured, 0.5 %", kOurs, kPage, Measure::Nothing,
          ""},
    Prior{"fan-label", "the fan, known by its label", Shape::Share, 0.30, "label, 30 % of pressure", kOurs,
          kPage, Measure::InletStaticAndFlow, "fan-measured"},
    // The shut end is sure then, the flow with nothing connected still the label's.
    Prior{"fan-label-shut", "the fan, its label and its measured suction", Shape::Share, 0.20,
          "label with the suction measured, 20 % of pressure", kOurs, kPage, Measure::InletStaticAndFlow,
          "fan-measured"},
    Prior{"fan-estimated", "the fan's curve", Shape::Share, 0.20, "estimated, 20 % of pressure", kOurs, kPage,
          Measure::InletStaticAndFlow, "fan-measured"},
    Prior{"fan-maker", "the fan's curve", Shape::Share, 0.12, "maker's curve, 12 % of pressure", kOurs, kPage,
          Measure::InletStaticAndFlow, "fan-measured"},
    Prior{"fan-certified", "the fan's curve", Shape::Share, 0.05, "published test, 5 % of pressure", kOurs,
          kPage, Measure::InletStaticAndFlow, "fan-measured"},
    Prior{"fan-measured", "the fan's curve", Shape::Share, 0.05, "measured here, 5 % of pressure", kOurs,
          kPage, Measure::Nothing, ""},
};

constexpr double kLeastShare = 0.05;

}  // namespace

double Prior::sigma() const {
  return shape == Shape::Share ? spread : std::log(spread);
}

double Prior::factorAt(double z) const {
  return shape == Shape::Share ? std::max(kLeastShare, 1 + spread * z) : std::pow(spread, z);
}

std::span<const Prior> priors() {
  return kPriors;
}

const Prior& prior(std::string_view key) {
  const auto found =
      std::find_if(kPriors.begin(), kPriors.end(), [key](const Prior& p) { return p.key == key; });
  base::check(found != kPriors.end(), "a spread that is not in the table");
  return *found;
}

}  // namespace kerfdraft::doubt
