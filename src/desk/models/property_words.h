// What the fields of a project are called where they are read and changed: the trade's words for the keys of
// the format, one sentence about each, and words for the values to choose from. Only tables; without Qt.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace kerfdraft::desk {

/// Of one key of one struct of the format.
struct FieldWords {
  std::string_view noun;    ///< of the struct, as its field table says: "hose"
  std::string_view key;     ///< "hung"
  std::string_view name;    ///< "How the hose hangs"
  std::string_view help;    ///< what it is, and what is taken where nothing is said
  std::string_view term{};  ///< the glossary's word that explains it further; empty: none
};

/// Of a struct that is a part of a thing.
struct PartWords {
  std::string_view noun;     ///< "fan-rating"
  std::string_view one;      ///< on buttons: "Put in a …"
  std::string_view heading;  ///< over its rows, or over a list of them
};

/// Of one value of an enum of the format.
struct ChoiceWords {
  std::string_view noun;  ///< of the enum: "hose-hung"
  std::string_view key;   ///< "hung"
  std::string_view words;
};

std::span<const FieldWords> allFieldWords();
std::span<const PartWords> allPartWords();
std::span<const ChoiceWords> allChoiceWords();

/// Null where the table has none.
const FieldWords* fieldWords(std::string_view noun, std::string_view key);
const PartWords* partWords(std::string_view noun);
/// The key itself where the table has none.
std::string_view choiceWords(std::string_view noun, std::string_view key);

/// What stands under the pointer: the sentence, the glossary's about its term, and where it is in the file.
std::string explained(std::string_view help, std::string_view term, std::string_view key);

}  // namespace kerfdraft::desk
