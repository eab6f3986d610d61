// The table is read anew each time: it is small, and nothing is kept.
#include "desk/models/glossary.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

#include <fmt/core.h>

#include "desk/models/embedded_texts.h"

namespace kerfdraft::desk {

namespace {

bool isWordByte(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return std::isalnum(byte) != 0 || byte >= 0x80;  // a letter beyond ASCII is part of its word
}

std::string lower(std::string_view text) {
  std::string out(text);
  std::transform(out.begin(), out.end(), out.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return out;
}

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(' ');
  if (from == std::string_view::npos) {
    return {};
  }
  return text.substr(from, text.find_last_not_of(' ') - from + 1);
}

std::vector<std::string> splitAt(std::string_view text, char at) {
  std::vector<std::string> out;
  while (true) {
    const std::size_t end = text.find(at);
    out.emplace_back(trimmed(text.substr(0, end)));
    if (end == std::string_view::npos) {
      return out;
    }
    text.remove_prefix(end + 1);
  }
}

/// Length of `word` or its plural at a place of a text in lower case; 0 where it does not stand there whole.
std::size_t standsAt(std::string_view text, std::size_t at, std::string_view word) {
  if (text.substr(at, word.size()) != word) {
    return 0;
  }
  for (const std::string_view ending : {"", "s", "es"}) {
    const std::size_t end = at + word.size() + ending.size();
    if (text.substr(at + word.size(), ending.size()) == ending &&
        (end == text.size() || !isWordByte(text[end]))) {
      return end - at;
    }
  }
  return 0;
}

}  // namespace

std::string Term::sentence() const {
  std::string shown = words.front();
  shown[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(shown[0])));
  return fmt::format("{}: {}.", shown, meaning);
}

std::vector<Term> glossary() {
  std::vector<Term> out;
  for (const std::string& line : splitAt(embeddedFiles().front().text, '\n')) {
    const std::vector<std::string> cells = splitAt(line, '|');
    constexpr std::size_t kCells = 4;  // before, word, meaning, behind
    if (cells.size() != kCells || cells[1] == "word" || cells[1].starts_with("---")) {
      continue;
    }
    out.push_back({splitAt(cells[1], ','), cells[2]});
  }
  return out;
}

std::optional<std::string> termText(std::string_view word) {
  const std::string asked = lower(trimmed(word));
  for (const Term& term : glossary()) {
    for (const std::string& each : term.words) {
      const std::string known = lower(each);
      if (standsAt(asked, 0, known) == asked.size() && !asked.empty()) {
        return term.sentence();
      }
    }
  }
  return std::nullopt;
}

std::vector<Term> termsIn(std::string_view text) {
  const std::string in = lower(text);
  const std::vector<Term> all = glossary();
  std::vector<std::size_t> found;
  for (std::size_t at = 0; at < in.size();) {
    std::size_t longest = 0;
    std::size_t which = 0;
    for (std::size_t t = 0; t < all.size() && (at == 0 || !isWordByte(in[at - 1])); ++t) {
      for (const std::string& word : all[t].words) {
        if (const std::size_t length = standsAt(in, at, lower(word)); length > longest) {
          longest = length;
          which = t;
        }
      }
    }
    if (longest > 0 && std::find(found.begin(), found.end(), which) == found.end()) {
      found.push_back(which);
    }
    at += std::max<std::size_t>(longest, 1);
  }
  std::vector<Term> out;
  out.reserve(found.size());
  for (const std::size_t t : found) {
    out.push_back(all[t]);
  }
  return out;
}

std::string explainTermsIn(std::string_view text) {
  std::string out;
  for (const Term& term : termsIn(text)) {
    out += out.empty() ? "" : "\n";
    out += term.sentence();
  }
  return out;
}

std::vector<Term> searchGlossary(std::string_view search) {
  std::vector<Term> out;
  const std::vector<std::string> asked = splitAt(lower(search), ' ');
  for (const Term& term : glossary()) {
    std::string all = term.meaning;
    for (const std::string& word : term.words) {
      all += '\n' + word;
    }
    all = lower(all);
    if (std::all_of(asked.begin(), asked.end(),
                    [&](const std::string& word) { return all.find(word) != std::string::npos; })) {
      out.push_back(term);
    }
  }
  return out;
}

}  // namespace kerfdraft::desk
