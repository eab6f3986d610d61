// Digits and words of explanations.
#include "judge/explain_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace kerfdraft::judge {

namespace {

constexpr double kNoise = 1e-9;  // in SI units of any kind

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

}  // namespace

std::string exactText(base::Kind kind, double si, base::UnitSystem units) {
  // What is left of a zero after solving is noise of the last bits, and differs from machine to machine.
  if (std::abs(si) < kNoise) {
    si = 0;
  }
  if (kind == base::Kind::Ratio) {
    return fmt::format("{:.5g}", si);
  }
  return fmt::format("{:.5g} {}", base::inUnit(kind, si, units), base::unitName(kind, units));
}

std::string_view toText(base::From from) {
  switch (from) {
    case base::From::Entered:
      return "entered";
    case base::From::Catalogue:
      return "catalogue";
    case base::From::Number:
      return "number";
    case base::From::Constant:
      return "constant";
  }
  return "";
}

bool holdsWords(std::string_view text, std::string_view asked) {
  const std::string in = lower(text);
  const std::string words = lower(asked);
  std::size_t at = 0;
  while ((at = words.find_first_not_of(" \t", at)) != std::string::npos) {
    const std::size_t end = words.find_first_of(" \t", at);
    if (in.find(words.substr(at, end == std::string::npos ? end : end - at)) == std::string::npos) {
      return false;
    }
    at = end == std::string::npos ? words.size() : end;
  }
  return true;
}

}  // namespace kerfdraft::judge
