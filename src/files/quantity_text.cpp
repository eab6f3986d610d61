// Range checks of entered quantities.
#include "files/quantity_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "base/units.h"
#include "files/json.h"

namespace kerfdraft::files {
namespace {

/// −40 °F is not below −40 °C because of a rounded last digit.
constexpr double kSlack = 1e-9;

double bound(base::Kind kind, std::string_view text) {
  const base::Result<double> si = base::parseQuantity(kind, text);
  base::check(si.has_value(), "a range in a field table is not a quantity of its kind");
  return *si;
}

}  // namespace

base::Result<double> parseWithin(base::Kind kind, std::string_view text, const Range& range,
                                 std::string_view where) {
  const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 && c != '\t'; };
  if (text.size() > kLongestQuantity || std::any_of(text.begin(), text.end(), control)) {
    return base::fail(base::ErrorCode::Parse,
                      fmt::format("{} is not a {}: a number and its unit on one line, at most {} letters",
                                  asQuoted(text), base::kindName(kind), kLongestQuantity),
                      std::string(where));
  }
  const base::Result<double> si = base::parseQuantity(kind, text, where);
  if (!si) {
    return si;
  }
  if (!range.least.empty()) {
    const double least = bound(kind, range.least);
    if (*si < least - kSlack * std::fabs(least)) {
      return base::fail(base::ErrorCode::Range,
                        fmt::format("{} is below {}, the least it can be", asQuoted(text), range.least),
                        std::string(where));
    }
  }
  if (!range.greatest.empty()) {
    const double greatest = bound(kind, range.greatest);
    if (*si > greatest + kSlack * std::fabs(greatest)) {
      return base::fail(base::ErrorCode::Range,
                        fmt::format("{} is above {}, the most it can be", asQuoted(text), range.greatest),
                        std::string(where));
    }
  }
  return si;
}

}  // namespace kerfdraft::files
