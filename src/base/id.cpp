// Ids as text, and a seeded source of them.
#include "base/id.h"

#include <fmt/format.h>

#include <charconv>

namespace kerfdraft::base {

Result<Id> Id::parse(std::string_view hex, std::string_view where) {
  std::uint64_t bits = 0;
  const auto [end, problem] = std::from_chars(hex.data(), hex.data() + hex.size(), bits, 16);
  if (hex.size() > 16 || problem != std::errc{} || end != hex.data() + hex.size() || bits == 0) {
    return fail(ErrorCode::Parse,
                fmt::format("\"{}\" is not an id: 1 to 16 hex digits, not all zero", hex.substr(0, 40)),
                std::string(where));
  }
  return Id(bits);
}

std::string Id::text() const {
  return fmt::format("{:016x}", bits_);
}

Id SeededIds::next() {
  // SplitMix64 [Steele, Lea, Flood 2014, from memory].
  state_ += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  z ^= z >> 31U;
  return z == 0 ? next() : Id(z);
}

}  // namespace kerfdraft::base
