// Words, marks, and the sentences for what is missing or out of place.
#include "pieces/line_cursor.h"

#include <fmt/format.h>

#include <cctype>

#include "catalogue/near_keys.h"

namespace kerfdraft::pieces {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

std::vector<std::string> wordsOf(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      if (!word.empty()) {
        words.push_back(std::move(word));
      }
      word.clear();
    } else {
      word += c;
    }
  }
  if (!word.empty()) {
    words.push_back(std::move(word));
  }
  return words;
}

std::vector<std::string> partedBy(std::string_view text, char mark) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i == text.size() || text[i] == mark) {
      parts.emplace_back(text.substr(from, i - from));
      from = i + 1;
    }
  }
  return parts;
}

bool beginsLikeANumber(std::string_view word) {
  const std::size_t sign = !word.empty() && (word[0] == '-' || word[0] == '+') ? 1 : 0;
  return word.size() > sign && (word[sign] == '.' || (word[sign] >= '0' && word[sign] <= '9'));
}

Cursor::Cursor(std::string_view text, std::string where) : words_(wordsOf(text)), where_(std::move(where)) {}

bool Cursor::take(std::string_view word) {
  if (done() || words_[next_] != word) {
    return false;
  }
  ++next_;
  return true;
}

std::string Cursor::joined(std::size_t count) const {
  std::string text = words_[next_];
  for (std::size_t i = 1; i < count; ++i) {
    text += ' ' + words_[next_ + i];
  }
  return text;
}

std::string Cursor::rest() const {
  return done() ? std::string() : joined(words_.size() - next_).substr(0, 60);
}

Failure Cursor::wanted(std::string_view what, std::string_view example) const {
  if (done()) {
    return fail(ErrorCode::Parse, fmt::format("{} is missing; it is written like \"{}\"", what, example),
                where_);
  }
  return fail(ErrorCode::Parse,
              fmt::format("{} is wanted at \"{}\"; it is written like \"{}\"", what, rest(), example),
              where_);
}

Failure Cursor::stray(std::string_view takes) const {
  return fail(ErrorCode::Parse, fmt::format("\"{}\" does not belong here; {}", rest(), takes), where_);
}

/// A row by its key, by the beginning of its key ("spiral" for "spiral-galvanized"), or by a word of its
/// name.
Result<std::string> rowFor(const catalogue::Catalogue& catalogue, std::string_view table, const Cursor& at,
                           const std::string& word) {
  const Result<const catalogue::Table*> rows = catalogue.table(table);
  base::check(rows.has_value(), "a table that the line needs is not in the catalogue");
  std::vector<std::string> keys;
  for (const catalogue::Row& row : (*rows)->rows()) {
    keys.push_back(row.key);
  }
  if (std::find(keys.begin(), keys.end(), word) != keys.end()) {
    return word;
  }
  const auto begins = std::find_if(keys.begin(), keys.end(), [&](const std::string& key) {
    return key.starts_with(word) && key.size() > word.size() && key[word.size()] == '-';
  });
  if (begins != keys.end()) {
    return *begins;
  }
  const std::vector<catalogue::Hit> hits = catalogue.search(word);
  for (const catalogue::Hit& hit : hits) {
    const std::vector<std::string> name = wordsOf(hit.row->name);
    const auto same = [&](std::string part) {
      std::transform(part.begin(), part.end(), part.begin(),
                     [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
      return part == word;
    };
    if (hit.table == *rows && std::any_of(name.begin(), name.end(), same)) {
      return hit.row->key;
    }
  }
  return fail(
      ErrorCode::Reference,
      fmt::format("\"{}\" is no row of the table {}{}", word, table, catalogue::nearKeysSentence(word, keys)),
      at.where());
}

}  // namespace kerfdraft::pieces
