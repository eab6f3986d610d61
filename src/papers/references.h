// The list of sources, for papers and panels that name them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace kerfdraft::papers {

/// One entry of docs/references.bib as a line: who, what, when, and how it was read.
std::optional<std::string> referenceText(std::string_view key);

/// The key that a text such as "Hsg258: table 1" or "AcgihIv 24th ed., p. 5" begins with; empty where that is
/// no key of the list.
std::string referenceKey(std::string_view source);

}  // namespace kerfdraft::papers
