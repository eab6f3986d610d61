// Sums of advance widths; the font has no kerning, so a sum is what every program shows.
#include "drawing/text_measure.h"

#include <algorithm>

#include "drawing/font_table.h"
#include "drawing/utf8.h"

namespace kerfdraft::drawing {
namespace {

int unitsOf(char32_t code, bool bold) {
  const auto* found = std::lower_bound(kCharacterWidths.begin(), kCharacterWidths.end(), code,
                                       [](const CharacterWidth& w, char32_t c) { return w.code < c; });
  if (found == kCharacterWidths.end() || found->code != code) {
    return kUnitsPerEm;
  }
  return bold ? found->bold : found->regular;
}

constexpr double inEm(int units) {
  return static_cast<double>(units) / kUnitsPerEm;
}

}  // namespace

double textWidth(std::string_view text, double size_mm, bool bold) {
  long units = 0;
  for (std::size_t place = 0; place < text.size();) {
    units += unitsOf(nextCharacter(text, place), bold);
  }
  return static_cast<double>(units) / kUnitsPerEm * size_mm;
}

double ascent(double size_mm) {
  // Accents on capitals may rise above this; no unit or label of a shop has them.
  constexpr double kAboveCapital = 0.05;
  return (inEm(kCapHeight) + kAboveCapital) * size_mm;
}

double descent(double size_mm) {
  return inEm(kDescent) * size_mm;
}

double capHeight(double size_mm) {
  return inEm(kCapHeight) * size_mm;
}

double lineHeight(double size_mm) {
  constexpr double kLeading = 1.22;
  return kLeading * size_mm;
}

std::string cutToWidth(std::string_view text, double width_mm, double size_mm, bool bold) {
  if (textWidth(text, size_mm, bold) <= width_mm) {
    return std::string(text);
  }
  constexpr std::string_view kDots = "…";
  std::string best;
  for (std::size_t place = 0; place < text.size();) {
    nextCharacter(text, place);
    std::string cut(text.substr(0, place));
    cut.erase(cut.find_last_not_of(" ,;") + 1);
    cut += kDots;
    if (textWidth(cut, size_mm, bold) > width_mm) {
      break;
    }
    best = std::move(cut);
  }
  return best;
}

std::vector<std::string> wrapped(std::string_view text, double width_mm, double size_mm, bool bold) {
  std::vector<std::string> lines;
  std::string line;
  std::size_t place = 0;
  while (place < text.size()) {
    const std::size_t start = text.find_first_not_of(' ', place);
    if (start == std::string_view::npos) {
      break;
    }
    const std::size_t end = std::min(text.find(' ', start), text.size());
    const std::string word(text.substr(start, end - start));
    std::string longer = line;
    longer += line.empty() ? "" : " ";
    longer += word;
    if (!line.empty() && textWidth(longer, size_mm, bold) > width_mm) {
      lines.push_back(line);
      line = word;
    } else {
      line = std::move(longer);
    }
    place = end;
  }
  if (!line.empty()) {
    lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> balanced(std::string_view text, double width_mm, double size_mm, bool bold) {
  std::vector<std::string> best = wrapped(text, width_mm, size_mm, bold);
  const double step = size_mm / 2;
  for (double width = width_mm - step; best.size() > 1 && width > step; width -= step) {
    std::vector<std::string> tried = wrapped(text, width, size_mm, bold);
    if (tried.size() != best.size()) {
      break;
    }
    // A word longer than the width would stand out; then the wider lines are better.
    double widest = 0;
    for (const std::string& line : tried) {
      widest = std::max(widest, textWidth(line, size_mm, bold));
    }
    if (widest > width) {
      break;
    }
    best = std::move(tried);
  }
  return best;
}

}  // namespace kerfdraft::drawing
