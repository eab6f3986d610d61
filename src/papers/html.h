// Documents as one self-contained HTML page, for a screen and for paper.
#pragma once

#include <string>

#include "papers/document.h"

namespace kerfdraft::papers {

/// The whole page: style, font and pictures inside, nothing fetched from anywhere. Metric documents print on
/// A4, others on Letter. The same bytes for the same document.
std::string toHtml(const Document& document);

}  // namespace kerfdraft::papers
