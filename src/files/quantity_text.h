// A quantity's text held against the range of its field.
#pragma once

#include <string_view>

#include "base/quantity.h"
#include "base/result.h"
#include "files/field_table.h"

namespace kerfdraft::files {

/// The longest text of a quantity [bytes].
inline constexpr std::size_t kLongestQuantity = 40;

/// SI value of a person's text. Refused as parseQuantity does, too long a text, and a value outside the
/// range, with the bound that it passes.
base::Result<double> parseWithin(base::Kind kind, std::string_view text, const Range& range,
                                 std::string_view where);

}  // namespace kerfdraft::files
