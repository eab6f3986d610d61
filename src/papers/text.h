// Documents as plain text for terminals, and their tables as CSV.
#pragma once

#include <string>
#include <vector>

#include "papers/document.h"

namespace kerfdraft::papers {

struct TextOptions {
  std::size_t width = 78;   ///< of paragraphs; a table is as wide as it must be
  bool title_block = true;  ///< shop, kind and first line
};

/// Without figures: their captions stand in their place.
std::string toPlainText(const Document& document, const TextOptions& options = {});

/// Every table, one after another with a blank line between; a line with its caption goes before each. Units
/// stand in the heads, numbers carry the digits that their kind deserves.
std::string toCsv(const Document& document);

/// One table as CSV lines, the head first.
std::string toCsv(const Table& table, base::UnitSystem units);

}  // namespace kerfdraft::papers
