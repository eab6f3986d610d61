// A finding: what is wrong, as data. Rules make findings and speech makes sentences of them, so units,
// language and reader can change without touching what was found.
#pragma once

#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/law.h"
#include "base/quantity.h"
#include "judge/change.h"
#include "pieces/pieces.h"

namespace kerfdraft::judge {

/// How grave a finding is in this project's setting.
enum class Severity {
  Severe,   ///< someone can be hurt, or the system cannot do its work at all
  Serious,  ///< a machine does not get its air, or chips settle
  Caution,  ///< works, but not for long or not well
  Note,     ///< worth knowing
};

std::string_view toText(Severity severity);  ///< "severe", "serious", "caution", "note"

/// A number of a finding; sentences ask for it by name: "flow", "needed", "bore" …
struct Figure {
  std::string_view name;
  double value = 0;
  base::Kind kind = base::Kind::Ratio;
};

/// What the figures are held against.
struct Limit {
  double value = 0;
  base::Kind kind = base::Kind::Ratio;
  std::string source;  ///< key in docs/references.bib with place; empty for common practice and our choices
  base::SourceStatus status = base::SourceStatus::CommonPractice;
  std::string policy;      ///< where published rules disagree, which was used: "transport-velocity: hsg258"
  std::string words = {};  ///< what it asks, where that is no number of a kind: "85 dB(A) over a day"
};

/// What a change would bring to the number that the finding is about, by solving the changed shop.
struct Gain {
  double before = 0;
  double after = 0;
  base::Kind kind = base::Kind::VolumeFlow;
  bool cures = false;  ///< the finding is gone with the change made, or no more than a note
  std::string at;      ///< where the number is read: a port, a run, a room, as printed
};

/// A rough price in US dollars, from the catalogue's estimates.
struct PriceBand {
  double low_usd = 0;
  double high_usd = 0;
};

/// What to do about it. `kind` is a key that speech knows: "bigger-duct", "shorter-hose" …
struct Remedy {
  std::string kind;
  std::vector<Figure> figures;
  std::vector<std::string> words;  ///< names that the sentence needs: a duct, a machine, a material
  std::optional<Change> change;    ///< where it can be tried by solving
  std::optional<Gain> gain;        ///< found by trying (judge/trial.h)
  std::optional<PriceBand> price;  ///< found by trying
};

struct Finding {
  std::string rule;                  ///< key of its rule, never changed once published: "port-short"
  pieces::PieceKey key;              ///< what it is about
  std::string label;                 ///< of that, as printed on the plan
  std::optional<std::size_t> state;  ///< index in Assessment::states; none: of the drawing itself
  std::string state_name;
  Severity severity = Severity::Note;
  std::vector<Figure> figures;
  std::vector<std::string> words;  ///< names that the sentence needs: a material, another machine, a country
  std::optional<Limit> limit;
  std::vector<Remedy> remedies;  ///< best first
  /// How bad: 0 at the limit, 1 at twice or half of it; of its own scale where there is no limit (1 where it
  /// simply is so). Orders findings of one severity, and lets an accepted one return.
  double badness = 0;
  std::vector<std::size_t> runs;   ///< in which it lies, or whose air it is about (Pieces::runs)
  std::vector<std::size_t> ports;  ///< whose air it takes or lacks (Pieces::ports)
  bool defers = false;             ///< ends with the advice to ask the local authority or a licensed trade

  /// The figure of a name; a missing one is a bug.
  const Figure& figure(std::string_view name) const;
  /// The same, or nothing.
  const Figure* findFigure(std::string_view name) const;
};

/// Rule + piece + state: by this a person accepts a finding.
struct FindingKey {
  std::string rule;
  pieces::PieceKey key;
  std::optional<std::size_t> state;
  auto operator<=>(const FindingKey&) const = default;
};

inline FindingKey keyOf(const Finding& finding) {
  return {finding.rule, finding.key, finding.state};
}

}  // namespace kerfdraft::judge
