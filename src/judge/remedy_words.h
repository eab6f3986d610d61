// What to do, by kind of remedy: one template each, as data, so that a new remedy is a new line.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "judge/finding.h"
#include "judge/rule.h"

namespace kerfdraft::judge {

struct RemedyWords {
  std::string_view kind;
  /// In the imperative, without a full stop. {flow} is the figure of that name, {flow%} the same in percent,
  /// {0} the first word, {1+} all words from the second on as a list. A part in [ ] is left out where a thing
  /// that it names is not there.
  std::string_view text;
};

/// By kind, in alphabetical order.
std::span<const RemedyWords> remedyWords();

/// The template of a kind; null where there is none.
const RemedyWords* findRemedyWords(std::string_view kind);

/// A template with its places filled. A figure or word that is not there, outside of [ ], is a bug.
std::string fillTemplate(std::string_view text, const Remedy& remedy, const Voice& voice);

}  // namespace kerfdraft::judge
