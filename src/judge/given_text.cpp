// Decimals without needless zeros.
#include "judge/given_text.h"

#include <fmt/format.h>

namespace kerfdraft::judge {

std::string decimals(double value, int digits) {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') {
      text.pop_back();
    }
  }
  return text;
}

}  // namespace kerfdraft::judge
