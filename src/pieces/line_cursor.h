// A cursor over the words of one piece of `kerfdraft line`: it takes quantities (the longest run of words
// that is one), plain words, and rows of the catalogue.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/given.h"
#include "base/result.h"
#include "catalogue/catalogue.h"

namespace kerfdraft::pieces {

/// The words of a text, parted by white space.
std::vector<std::string> wordsOf(std::string_view text);

/// The parts of a text between marks, empty ones too.
std::vector<std::string> partedBy(std::string_view text, char mark);

/// "4", "-3", ".5in": what a quantity begins with.
bool beginsLikeANumber(std::string_view word);

class Cursor {
 public:
  /// `where` names the piece in errors.
  Cursor(std::string_view text, std::string where);

  bool done() const { return next_ == words_.size(); }
  bool atNumber() const { return !done() && beginsLikeANumber(words_[next_]); }
  const std::string& peek() const { return words_[next_]; }
  const std::string& where() const { return where_; }

  /// Takes the word where it is this one.
  bool take(std::string_view word);
  std::string takeWord() { return words_[next_++]; }

  /// Takes the longest run of words that is a quantity of this kind, or nothing.
  template <class Q>
  std::optional<base::Given<Q>> maybe() {
    for (std::size_t count = std::min<std::size_t>(5, words_.size() - next_); atNumber() && count > 0;
         --count) {
      if (base::Result<base::Given<Q>> found = base::Given<Q>::parse(joined(count))) {
        next_ += count;
        return std::move(*found);
      }
    }
    return std::nullopt;
  }

  /// Takes a quantity that must be there; `what` and `example` make the sentence where it is not.
  template <class Q>
  base::Result<base::Given<Q>> need(std::string_view what, std::string_view example) {
    if (std::optional<base::Given<Q>> found = maybe<Q>()) {
      return std::move(*found);
    }
    return wanted(what, example);
  }

  /// The sentence for a word that does not belong here; `takes` says what does.
  base::Failure stray(std::string_view takes) const;

 private:
  std::string joined(std::size_t count) const;
  std::string rest() const;
  base::Failure wanted(std::string_view what, std::string_view example) const;

  std::vector<std::string> words_;
  std::string where_;
  std::size_t next_ = 0;
};

/// A row by its key, by the beginning of its key ("spiral" for "spiral-galvanized"), or by a word of its
/// name.
base::Result<std::string> rowFor(const catalogue::Catalogue& catalogue, std::string_view table,
                                 const Cursor& at, const std::string& word);

}  // namespace kerfdraft::pieces
