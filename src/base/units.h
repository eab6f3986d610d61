// Text of quantities: "0.75 in", "350 cfm", "6 in w.g." read into SI and written in either system.
// Mixed entry is normal: every quantity a person types carries its unit.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/result.h"

namespace kerfdraft::base {

enum class UnitSystem { Us, Metric };

/// SI value of "350 cfm", "1 1/2 in", "0.09 mm", "25 %", "-3 in w.g.". The unit is required, except that a
/// Ratio may stand alone. Refused with a sentence naming the text: no number, NaN or infinity, no unit, a
/// unit of another kind, an unknown unit (the known ones are listed).
Result<double> parseQuantity(Kind kind, std::string_view text, std::string_view where = {});

/// The value in the system's unit with the digits that the kind deserves: "350 cfm", "595 m³/h".
std::string formatQuantity(Kind kind, double si, UnitSystem system);

/// The number alone, as formatQuantity writes it.
std::string formatNumber(Kind kind, double si, UnitSystem system);

/// Name of the unit that formatQuantity uses: "cfm", "m³/h"; "" for a Ratio.
std::string_view unitName(Kind kind, UnitSystem system);

/// The value in the unit that formatQuantity uses.
double inUnit(Kind kind, double si, UnitSystem system);

/// All unit texts that parseQuantity takes for a kind, in the order in which they are offered.
std::vector<std::string> unitTexts(Kind kind);

/// "length", "volume flow" …: the kind in words.
std::string_view kindName(Kind kind);

}  // namespace kerfdraft::base
