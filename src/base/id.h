// Ids: random 64 bits, written as 16 hex digits, never reused. Where they come from is injected.
#pragma once

#include <compare>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace kerfdraft::base {

class Id {
 public:
  constexpr Id() = default;
  explicit constexpr Id(std::uint64_t bits) : bits_(bits) {}
  /// 1 to 16 hex digits; zero is refused, it stands for "no id".
  static Result<Id> parse(std::string_view hex, std::string_view where = {});
  std::string text() const;
  constexpr std::uint64_t bits() const { return bits_; }
  constexpr bool valid() const { return bits_ != 0; }
  constexpr auto operator<=>(const Id&) const = default;

 private:
  std::uint64_t bits_ = 0;
};

/// Source of new ids: a program passes a random one, tests a counting one.
class IdSource {
 public:
  virtual ~IdSource() = default;
  virtual Id next() = 0;
};

/// SplitMix64 from a seed: the same seed gives the same ids (tests, starter projects).
class SeededIds final : public IdSource {
 public:
  explicit SeededIds(std::uint64_t seed) : state_(seed) {}
  Id next() override;

 private:
  std::uint64_t state_;
};

}  // namespace kerfdraft::base

template <>
struct std::hash<kerfdraft::base::Id> {
  std::size_t operator()(kerfdraft::base::Id id) const noexcept {
    return static_cast<std::size_t>(id.bits());
  }
};
