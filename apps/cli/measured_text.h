// The result of a measurement as text and as JSON, for kerfdraft reading and kerfdraft traverse.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "field/measurement.h"

namespace kerfdraft::cli {

/// First the answer with ±, then pressure and density, then the notes, then the budget.
std::string measuredText(const field::Measured& measured, const field::AirOfDay& air, base::UnitSystem units,
                         bool steps);

/// Sentences, cautions first, one a line with its source.
std::string noticesText(const std::vector<field::Notice>& notices, base::UnitSystem units);

/// SI values with the unit in the name; notices with their sentence in `units`:
/// {"speed_m_s", "speed_expanded_m_s", "flow_m3_s", "flow_expanded_m3_s", "mass_flow_kg_s", "room_flow_m3_s",
/// "coverage", "pressure_pa", "density_kg_m3", "budget": {"speed": [line …], "flow": [line …]}, "notices":
/// […], "steps": […]}. A line: {"key", "name", "kind", "value", "standard", "spread", "freedom" (null:
/// infinite), "sensitivity", "contribution", "source"}. Flow and its parts are absent without a duct.
nlohmann::json measuredJson(const field::Measured& measured, base::UnitSystem units);

nlohmann::json noticesJson(const std::vector<field::Notice>& notices, base::UnitSystem units);

}  // namespace kerfdraft::cli
