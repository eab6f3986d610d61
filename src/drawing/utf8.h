// One character after another out of UTF-8 text, whatever its bytes are.
#pragma once

#include <cstddef>
#include <string_view>

namespace kerfdraft::drawing {

/// What stands for a byte that is no UTF-8.
inline constexpr char32_t kNoCharacter = 0xFFFD;

/// The character at `place`, which moves on behind it. Overlong forms, surrogates and broken sequences give
/// kNoCharacter and move on by one byte. Precondition: place < text.size().
inline char32_t nextCharacter(std::string_view text, std::size_t& place) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
  const unsigned char first = byte(place);
  if (first < 0x80) {
    ++place;
    return first;
  }
  const std::size_t more = first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
  char32_t code = first & (0x3F >> more);
  bool good = first >= 0xC2 && first <= 0xF4 && place + more < text.size();
  for (std::size_t k = 1; good && k <= more; ++k) {
    good = (byte(place + k) & 0xC0) == 0x80;
    code = (code << 6) | (byte(place + k) & 0x3F);
  }
  constexpr char32_t kLeast[] = {0, 0x80, 0x800, 0x10000};
  good = good && code >= kLeast[more] && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
  place += good ? more + 1 : 1;
  return good ? code : kNoCharacter;
}

}  // namespace kerfdraft::drawing
