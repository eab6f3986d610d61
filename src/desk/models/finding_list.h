// What the panel of findings shows: groups in words for one reader and unit system, and what accepting a
// finding or trying a remedy means as edits. Without Qt.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/id.h"
#include "base/result.h"
#include "desk/models/change.h"
#include "desk/solved.h"
#include "judge/rule.h"

namespace kerfdraft::desk {

/// Something to do about a finding.
struct RemedyRow {
  std::string text;        ///< one sentence, with gain and price where they are known
  std::string caution;     ///< what can hurt while it is done; may be empty
  std::size_t remedy = 0;  ///< index in Finding::remedies
  bool can_be_tried = false;
  bool operator==(const RemedyRow&) const = default;
};

/// A finding that is folded under another.
struct FoldedRow {
  std::size_t finding = 0;
  std::string how;   ///< "The same in other states", "Comes of it", "Beside it"
  std::string text;  ///< sign, severity and title, which names the state; of the same only the state
  std::optional<std::size_t> state;
  base::Id place;
  bool operator==(const FoldedRow&) const = default;
};

/// A stretch of a sentence; one with a key is a number that can say where it comes from.
struct TextPart {
  std::string text;
  std::string key;  ///< judge::NumberKey text; may be empty
  bool operator==(const TextPart&) const = default;
};

struct FindingRow {
  std::size_t finding = 0;  ///< index in Verdict::findings
  judge::FindingKey key;    ///< outlives the list
  judge::Severity severity = judge::Severity::Note;
  std::string sign;  ///< "!!!", "!!", "!" or "i": colour is never the only sign
  std::string severity_word;
  std::string title;
  std::string where;  ///< state of use; empty where it is of the drawing itself; the title names it too
  std::string what;
  std::vector<TextPart> what_parts;  ///< the same, with its numbers to ask of
  std::string limit;                 ///< may be empty
  std::string defer;                 ///< may be empty
  std::vector<RemedyRow> remedies;
  std::vector<FoldedRow> folded;     ///< the same elsewhere, then symptoms
  std::optional<std::size_t> state;  ///< to show with it
  base::Id place;                    ///< to show on the plan; not valid where there is none
  bool returned = false;             ///< was accepted and has grown worse since
  std::string reason;                ///< why it was accepted; empty where it is not
  bool operator==(const FindingRow&) const = default;
};

struct FindingList {
  std::string headline;  ///< how the shop stands, in one sentence
  std::vector<FindingRow> on_top;
  std::vector<FindingRow> rest;        ///< folded away until asked for
  std::vector<FindingRow> lived_with;  ///< accepted, with their reasons
};

/// Before anything is judged, only a headline that says so. With `only_state`, groups that have a finding of
/// that state, told by that finding, and what is of the drawing itself.
FindingList listFindings(const Solved* solved, judge::Reader reader, base::UnitSystem units,
                         std::optional<std::size_t> only_state = {});

/// Where a finding leads: the state to show and the place to mark; the place is not valid where it has none.
struct Lead {
  std::optional<std::size_t> state;
  base::Id place;
};
Lead leadOf(const Solved& solved, std::size_t finding);

/// "Severe", "Serious", "Caution", "Note".
std::string severityWord(judge::Severity severity);

/// To live with a finding. Refused: no reason, a finding that is not there. `on` is today's date.
base::Result<Change> acceptFinding(const Solved& solved, std::size_t finding, std::string_view reason,
                                   std::string_view on);
/// To take that back.
base::Result<Change> withdrawFinding(const Solved& solved, std::size_t finding);

/// What a remedy changes, as edits of `project`. Refused: a remedy that cannot be tried, a place that has
/// gone since it was judged, a change that the project has already.
base::Result<Change> tryRemedy(const shop::Project& project, const Solved& solved, std::size_t finding,
                               std::size_t remedy);

/// The finding whose number a remedy moves: of a gate or filter of another state, what is found of the same
/// thing there; else the finding itself.
std::size_t findingHelped(const Solved& solved, std::size_t finding, std::size_t remedy);

/// Edits that make `after` of `before`, where only rooms, machines, ducts, collectors and states were put.
std::vector<shop::Edit> editsBetween(const shop::Project& before, const shop::Project& after);

}  // namespace kerfdraft::desk
