// What a measurement has to say besides its number: classic mistakes, assumptions, limits. Data first; the
// sentence is made in one place.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.h"
#include "base/units.h"

namespace kerfdraft::field {

struct Said {
  std::string name;
  base::Kind kind = base::Kind::Ratio;
  double value = 0;
};

struct Notice {
  enum class Level {
    Note,    ///< good to know
    Caution  ///< the number may be wrong
  };
  std::string key;  ///< one of noticeKeys(); never changes once published
  Level level = Level::Note;
  std::vector<Said> quantities;
  std::string detail;  ///< text that no quantity carries: the name of a rule, a point
  std::string source;  ///< key in docs/references.bib, or the word for where it comes from
};

/// The quantity of that name. Throws base::InternalError where there is none.
double quantityOf(const Notice& notice, std::string_view name);

/// The sentence, in the reader's units.
std::string say(const Notice& notice, base::UnitSystem units);

/// All keys that say() knows.
std::vector<std::string_view> noticeKeys();

}  // namespace kerfdraft::field
