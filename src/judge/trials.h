// Changed shops, each solved once in the state that is asked for, and kept while a verdict is made. Private
// to this room.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <tuple>

#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

class Trials {
 public:
  explicit Trials(const Evidence& evidence) : evidence_(evidence) {}

  /// As tryChange().
  std::optional<Gain> gain(const Finding& finding, const Change& change);

  /// Whether it cures or brings much.
  bool helps(const Finding& finding, const Change& change);

  /// What the material costs; nothing where the change cannot be tried or has no price.
  std::optional<PriceBand> price(const Finding& finding, const Change& change);

  /// As tryRemedies(), with the numbers of `of`, which may be another finding: a symptom that `finding`
  /// causes.
  void tryRemedies(Finding& finding, const Finding& of);

 private:
  /// A changed shop with one state solved.
  struct Changed {
    std::unique_ptr<Assessment> assessment;
    std::unique_ptr<Evidence> evidence;
  };
  using Key = std::tuple<ChangeKind, base::Id, base::Id, double, bool, std::size_t>;

  /// Null where the change is refused or the changed shop has no solution in that state.
  const Changed* changed(const Change& change, std::size_t state);

  const Evidence& evidence_;
  std::map<Key, std::optional<Changed>> made_;
};

}  // namespace kerfdraft::judge
