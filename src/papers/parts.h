// Blocks that more than one paper uses. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "papers/document.h"
#include "papers/got.h"
#include "papers/paper_input.h"

namespace kerfdraft::papers {

/// The document with its title block.
Document begun(const PaperInput& input, std::string kind);

/// A number with its unit, as a prediction deserves.
std::string shown(const PaperInput& input, base::Kind kind, double si);

/// "Filter seasoned"; nothing where the shop has none.
std::string filterText(const PaperInput& input, std::size_t state);

/// A finding as a box: what it says, where else, what it explains.
FindingBox boxOf(const PaperInput& input, const judge::Group& group);

/// "3 of 12 states" in words: how many are served.
std::string servedSentence(const PaperInput& input);

// Drawings, each with caption.
Figure planFigure(const PaperInput& input, std::size_t state, bool with_bands);
Figure isometricFigure(const PaperInput& input, std::size_t state);
Figure fanFigure(const PaperInput& input, std::size_t fan);
Figure speedFigure(const PaperInput& input, std::size_t state);
/// Nothing where the path has no sheet.
std::optional<Figure> pressureFigure(const PaperInput& input, std::size_t state, std::size_t port);

/// Static pressure in the inlet duct of a running fan, relative to the room; the total where it has no duct.
double inletStatic(const PaperInput& input, std::size_t state, std::size_t fan);

/// How the entered values are known: counts by part of the shop.
Table standingTable(const PaperInput& input);

/// Disagreements between published rules, and which side was taken.
Table policyTable(const PaperInput& input);

/// Every source named in findings and in these sheets, once.
Sources sourcesOf(const PaperInput& input, const std::vector<const judge::Sheet*>& sheets);

/// A calculation sheet.
Table sheetTable(const judge::Sheet& sheet);

}  // namespace kerfdraft::papers
