// Blanks around what a person typed.
#pragma once

#include <string_view>

namespace kerfdraft::base {

/// Without the spaces at both ends.
constexpr std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') {
    text.remove_prefix(1);
  }
  while (!text.empty() && text.back() == ' ') {
    text.remove_suffix(1);
  }
  return text;
}

}  // namespace kerfdraft::base
