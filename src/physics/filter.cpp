// Resistances of a filter's three states from whatever is known, and the refusals.
#include "physics/filter.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace kerfdraft::physics {

namespace {

using base::ErrorCode;
using base::fail;

bool positive(double x) {
  return std::isfinite(x) && x > 0;
}

/// The first thing wrong with the entries, or nothing.
std::optional<std::string> whatIsWrong(const FilterData& data, std::optional<double> unit_flow_m3_s) {
  if (data.area_m2 && !positive(*data.area_m2)) {
    return fmt::format("the area of a filter must be above zero, not {:.6g} m2", *data.area_m2);
  }
  const std::array<std::pair<const std::optional<DropAtFlow>*, FilterState>, 3> readings{
      {{&data.clean, FilterState::Clean},
       {&data.seasoned, FilterState::Seasoned},
       {&data.due, FilterState::Due}}};
  for (const auto& [reading, state] : readings) {
    if (!*reading) {
      continue;
    }
    if (!positive((*reading)->flow_m3_s)) {
      return fmt::format(
          "the flow at which the {} filter's pressure holds must be above zero, not {:.6g} m3/s",
          toText(state), (*reading)->flow_m3_s);
    }
    if (!positive((*reading)->dp_pa)) {
      return fmt::format("the pressure through the {} filter must be above zero, not {:.6g} Pa",
                         toText(state), (*reading)->dp_pa);
    }
  }
  if (data.medium) {
    if (!data.area_m2) {
      return "a filter known by its medium needs its area";
    }
    const FilterMedium& medium = *data.medium;
    if (!positive(medium.medium_pa_s_m)) {
      return fmt::format("the resistance of a filter medium must be above zero, not {:.6g} Pa s/m",
                         medium.medium_pa_s_m);
    }
    for (const double x : {medium.dust_per_s, medium.clean_kg_m2, medium.seasoned_kg_m2, medium.due_kg_m2}) {
      if (!std::isfinite(x) || x < 0) {
        return fmt::format("the dust on a filter and its resistance must be numbers from zero up, not {:.6g}",
                           x);
      }
    }
  }
  if (unit_flow_m3_s && !positive(*unit_flow_m3_s)) {
    return fmt::format(
        "the flow at which a filter's default pressure holds must be above zero, not {:.6g} m3/s",
        *unit_flow_m3_s);
  }
  return std::nullopt;
}

/// The flow at which the default pressures hold, if anything gives one.
std::optional<double> referenceFlow(const FilterData& data, std::optional<double> unit_flow_m3_s) {
  if (data.area_m2) {
    return kFilterReferenceSpeed_m_s * *data.area_m2;
  }
  if (unit_flow_m3_s) {
    return unit_flow_m3_s;
  }
  for (const auto* reading : {&data.clean, &data.seasoned, &data.due}) {
    if (*reading) {
      return (*reading)->flow_m3_s;
    }
  }
  return std::nullopt;
}

std::optional<double> known(const std::optional<DropAtFlow>& reading, const FilterData& data,
                            double FilterMedium::*dust) {
  if (reading) {
    return reading->dp_pa / reading->flow_m3_s;
  }
  if (data.medium) {
    return filterResistance(data.medium->medium_pa_s_m, data.medium->dust_per_s, *data.medium.*dust,
                            *data.area_m2);
  }
  return std::nullopt;
}

}  // namespace

std::string_view toText(FilterState state) {
  switch (state) {
    case FilterState::Clean:
      return "clean";
    case FilterState::Seasoned:
      return "seasoned";
    case FilterState::Due:
      return "due";
  }
  return "";
}

base::Result<FilterResistances> filterResistances(const FilterData& data,
                                                  std::optional<double> unit_flow_m3_s, std::string where) {
  if (auto wrong = whatIsWrong(data, unit_flow_m3_s)) {
    return fail(ErrorCode::Range, std::move(*wrong), std::move(where));
  }
  const auto clean = known(data.clean, data, &FilterMedium::clean_kg_m2);
  const auto seasoned = known(data.seasoned, data, &FilterMedium::seasoned_kg_m2);
  const auto due = known(data.due, data, &FilterMedium::due_kg_m2);
  const auto flow_m3_s = referenceFlow(data, unit_flow_m3_s);
  if (!flow_m3_s) {
    return fail(
        ErrorCode::Range,
        "nothing is known of this filter: its area, a pressure at a flow, or the unit's flow is needed",
        std::move(where));
  }
  FilterResistances out;
  out.clean_assumed = !clean;
  out.seasoned_assumed = !seasoned;
  out.due_assumed = !due;
  // A default must leave room for what is known of the dirtier states.
  const double most_seasoned = due ? *due / kFilterDueOverSeasoned : HUGE_VAL;
  const double most_clean = seasoned ? *seasoned : most_seasoned;
  out.clean =
      clean.value_or(std::min(kFilterCleanDrop_pa / *flow_m3_s, most_clean / kFilterSeasonedOverClean));
  out.seasoned =
      seasoned.value_or(std::max(out.clean, std::min(kFilterSeasonedOverClean * out.clean, most_seasoned)));
  out.due = due.value_or(std::max(kFilterDueDrop_pa / *flow_m3_s, kFilterDueOverSeasoned * out.seasoned));
  if (out.seasoned < out.clean || out.due < out.seasoned) {
    const bool first = out.seasoned < out.clean;
    return fail(
        ErrorCode::Conflict,
        fmt::format("at the same flow this filter would lose less when {} ({:.4g} Pa s/m3) than when {} "
                    "({:.4g} Pa s/m3); compare the pressures and the flows at which they hold",
                    first ? "seasoned" : "due", first ? out.seasoned : out.due, first ? "clean" : "seasoned",
                    first ? out.clean : out.seasoned),
        std::move(where));
  }
  return out;
}

}  // namespace kerfdraft::physics
