// The trade's words and what they mean, from docs/glossary.md, for tooltips and the page of words. Without
// Qt.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace kerfdraft::desk {

struct Term {
  std::vector<std::string> words;  ///< "blast gate", "gate": the first is shown
  std::string meaning;             ///< "a sliding plate that shuts a duct or throttles it"

  /// "Blast gate: a sliding plate that shuts a duct or throttles it."
  std::string sentence() const;
};

/// Every row of the table, in its order.
std::vector<Term> glossary();

/// The sentence of a word; upper case and a plural's "s" do not matter. Nothing where it is no word of the
/// table.
std::optional<std::string> termText(std::string_view word);

/// Terms that a text uses, in the order in which they come, each once. Whole words only, and the longest:
/// "static pressure" is not "static", and "blast gate" not "gate".
std::vector<Term> termsIn(std::string_view text);

/// Their sentences, each on a line of its own; empty where the text uses none.
std::string explainTermsIn(std::string_view text);

/// Terms whose words or meaning hold every word of `search`; all where it is empty.
std::vector<Term> searchGlossary(std::string_view search);

}  // namespace kerfdraft::desk
