// What a text field may hold.
#pragma once

#include <string>
#include <string_view>

#include "files/field_table.h"

namespace kerfdraft::files {

/// What is wrong with the text, as a sentence; empty where nothing is.
std::string textProblem(std::string_view text, TextRule rule);

/// The rule as a regular expression of JSON Schema; empty for Note.
std::string_view textPattern(TextRule rule);

/// The most characters of a text.
std::size_t textLength(TextRule rule);

/// "one line", "catalogue key" …, for the documentation.
std::string_view textRuleWords(TextRule rule);

}  // namespace kerfdraft::files
