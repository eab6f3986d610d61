// The form of a rule: what it looks for, and the words in which it tells of it. One file for each in
// judge/rules/; lists by topic in judge/rules/*_rules.h.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.h"
#include "judge/evidence.h"
#include "judge/finding.h"

namespace kerfdraft::judge {

/// Who reads (job.md's three): the owner without coefficients and in plain words, the adviser with every
/// number that one defends, the inspector in terms of hoods, intended and found performance.
enum class Reader { Owner, Adviser, Inspector };

enum class Topic { Air, Conveying, Pressure, Collector, FilterAndBin, People };

std::string_view toText(Topic topic);  ///< "Air at the machines", "Chips on their way" …

/// How a sentence shows its numbers.
class Voice {
 public:
  Voice(Reader reader, base::UnitSystem units) : reader_(reader), units_(units) {}
  Reader reader() const { return reader_; }
  base::UnitSystem units() const { return units_; }
  /// "812 cfm", rounded as a prediction deserves: three significant digits at most.
  std::string show(double si, base::Kind kind) const;
  std::string show(const Figure& figure) const { return show(figure.value, figure.kind); }
  /// "62 %".
  std::string percent(double ratio) const;

 private:
  Reader reader_;
  base::UnitSystem units_;
};

struct Rule {
  std::string_view key;  ///< never changed once published
  Topic topic = Topic::Air;
  std::string_view name;  ///< "Too little air at a port"
  /// Adds findings. The verdict fills Finding::rule and state_name, so a rule need not.
  void (*look)(const Evidence& evidence, std::vector<Finding>& out);
  /// One or two sentences: what is wrong, with numbers, and why it matters. No remedy, no severity in it.
  std::string (*tell)(const Finding& finding, const Voice& voice);
};

/// All rules, in the order in which papers list them.
std::span<const Rule* const> allRules();

/// The rule of a key; null where there is none.
const Rule* findRule(std::string_view key);

}  // namespace kerfdraft::judge
