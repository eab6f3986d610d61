// The one measure of text: widths of the shipped font (data/fonts), so that a label takes the same room in
// every picture, page and window.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace kerfdraft::drawing {

/// Name of the shipped font, with what to fall back on, as a style sheet writes it.
inline constexpr std::string_view kFontFamilies = "'Kerfdraft Sans', Lato, 'Helvetica Neue', sans-serif";

/// Width of a line of UTF-8 text set at an em of `size_mm` [mm]. A character that the font lacks, and a byte
/// that is no UTF-8, counts as one em: too wide rather than too narrow.
double textWidth(std::string_view text, double size_mm, bool bold = false);

/// Above and below the baseline [mm]: what a line of text needs.
double ascent(double size_mm);
double descent(double size_mm);
/// Height of a capital [mm].
double capHeight(double size_mm);
/// From baseline to baseline [mm].
double lineHeight(double size_mm);

/// The text cut to a width with "…" at its end; empty where not even that fits.
std::string cutToWidth(std::string_view text, double width_mm, double size_mm, bool bold = false);

/// The text in lines no wider than asked, broken at spaces; a single longer word keeps its line.
std::vector<std::string> wrapped(std::string_view text, double width_mm, double size_mm, bool bold = false);

/// The same number of lines, made as equally long as words allow: for names.
std::vector<std::string> balanced(std::string_view text, double width_mm, double size_mm, bool bold = false);

}  // namespace kerfdraft::drawing
