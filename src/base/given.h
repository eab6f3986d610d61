// Given: what a person entered, kept as typed ("0.75 in" stays "0.75 in") with its standing and source.
#pragma once

#include <string>
#include <string_view>

#include "base/quantity.h"
#include "base/result.h"
#include "base/units.h"

namespace kerfdraft::base {

/// How an entered value is known. The order is from surest to least sure.
enum class Standing { Measured, Published, Maker, Assumed, Estimated };

constexpr std::string_view toText(Standing s) {
  switch (s) {
    case Standing::Measured:
      return "measured";
    case Standing::Published:
      return "published";
    case Standing::Maker:
      return "maker";
    case Standing::Assumed:
      return "assumed";
    case Standing::Estimated:
      return "estimated";
  }
  return "";
}

/// An entered quantity. Equality compares what was entered, not the number computed from it.
template <class Q>
class Given {
 public:
  Given() = default;

  /// Reads "4 in"; fails as parseQuantity does.
  static Result<Given> parse(std::string_view text, Standing standing = Standing::Assumed,
                             std::string_view source = {}, std::string_view where = {}) {
    return parseQuantity(Q::kKind, text, where).map([&](double si) {
      Given g;
      g.text_ = std::string(text);
      g.value_ = Q(si);
      g.standing_ = standing;
      g.source_ = std::string(source);
      return g;
    });
  }

  Q value() const { return value_; }
  double si() const { return value_.si(); }
  const std::string& text() const { return text_; }
  Standing standing() const { return standing_; }
  const std::string& source() const { return source_; }

  bool operator==(const Given& o) const {
    return text_ == o.text_ && standing_ == o.standing_ && source_ == o.source_;
  }

 private:
  std::string text_;
  Q value_;
  Standing standing_ = Standing::Assumed;
  std::string source_;
};

}  // namespace kerfdraft::base
