// Rows are read from the verdict and said by judge::say(); edits are found by comparing projects.
#include "desk/models/finding_list.h"

#include <fmt/core.h>

#include <algorithm>

#include "desk/models/finding_numbers.h"
#include "desk/models/places.h"
#include "judge/change.h"
#include "judge/remedy_cautions.h"
#include "judge/speech.h"

namespace kerfdraft::desk {

namespace {

std::string signOf(judge::Severity severity) {
  switch (severity) {
    case judge::Severity::Severe:
      return "!!!";
    case judge::Severity::Serious:
      return "!!";
    case judge::Severity::Caution:
      return "!";
    case judge::Severity::Note:
      break;
  }
  return "i";
}

base::Id placeOf(const shop::Project& project, const judge::Finding& finding) {
  if (const auto thing = thingOf(project, finding.key.text())) {
    return thing->id;
  }
  for (const base::Id id : {finding.key.a, finding.key.b}) {
    if (id.valid() && thingOf(project, id)) {
      return id;
    }
  }
  return {};
}

std::vector<std::size_t> membersOf(const judge::Group& group) {
  std::vector<std::size_t> out{group.lead};
  out.insert(out.end(), group.same.begin(), group.same.end());
  out.insert(out.end(), group.symptoms.begin(), group.symptoms.end());
  return out;
}

/// The finding that tells of a group: its lead, or the first of the state that is asked for. Nothing where
/// none is of it.
std::optional<std::size_t> tellerOf(const judge::Verdict& verdict, const judge::Group& group,
                                    std::optional<std::size_t> only_state) {
  if (!only_state || !verdict.findings[group.lead].state) {
    return group.lead;
  }
  for (const std::size_t f : membersOf(group)) {
    if (verdict.findings[f].state == only_state) {
      return f;
    }
  }
  return std::nullopt;
}

FindingRow rowOf(const Solved& solved, const judge::Group& group, std::size_t teller,
                 const judge::Voice& voice) {
  const judge::Verdict& verdict = *solved.verdict;
  const judge::Finding& finding = verdict.findings[teller];
  judge::Said said = judge::say(finding, voice);
  FindingRow row;
  row.finding = teller;
  row.key = judge::keyOf(finding);
  row.severity = finding.severity;
  row.sign = signOf(finding.severity);
  row.severity_word = severityWord(finding.severity);
  row.title = std::move(said.title);
  row.where = finding.state ? finding.state_name : "";
  row.what_parts = askable(solved, finding, said.what, voice);
  row.what = std::move(said.what);
  row.limit = std::move(said.limit);
  row.defer = std::move(said.defer);
  for (std::size_t i = 0; i < finding.remedies.size() && i < said.remedies.size(); ++i) {
    const judge::Remedy& remedy = finding.remedies[i];
    row.remedies.push_back(
        {said.remedies[i], std::string(judge::remedyCaution(remedy.kind)), i, remedy.change.has_value()});
  }
  const auto fold = [&](std::size_t other, std::string_view how) {
    if (other == teller) {
      return;
    }
    const judge::Finding& under = verdict.findings[other];
    // The same elsewhere differs by its state alone.
    const bool same = under.rule == finding.rule && under.key == finding.key && !under.state_name.empty();
    row.folded.push_back({other, std::string(how),
                          fmt::format("{} {}: {}", signOf(under.severity), severityWord(under.severity),
                                      same ? under.state_name : judge::say(under, voice).title),
                          under.state, placeOf(*solved.project, under)});
  };
  fold(group.lead, "What it belongs to");
  for (const std::size_t other : group.same) {
    fold(other, "The same in other states");
  }
  for (std::size_t i = 0; i < group.symptoms.size(); ++i) {
    fold(group.symptoms[i], i < group.explained ? "Comes of it" : "Beside it");
  }
  row.state = finding.state;
  row.place = placeOf(*solved.project, finding);
  row.returned = verdict.accepted[teller] == judge::Accepted::Returned;
  row.reason = verdict.reasons[teller];
  return row;
}

std::string headlineOf(const judge::Verdict& verdict) {
  if (!verdict.all_solved) {
    return "No steady flow was found for at least one state of use, so it is not judged.";
  }
  const std::size_t open = verdict.groups.size();
  const std::string things = open == 0
                                 ? "Nothing is found wrong."
                                 : fmt::format("{} {} to look at.", open, open == 1 ? "thing" : "things");
  return verdict.all_served ? "Every port in use gets its air. " + things
                            : "Not every port in use gets its air. " + things;
}

base::Result<const judge::Finding*> findingAt(const Solved& solved, std::size_t finding) {
  if (!solved.verdict || finding >= solved.verdict->findings.size()) {
    return base::fail(base::ErrorCode::Reference,
                      "This finding is no longer there; look at the newest list.");
  }
  return &solved.verdict->findings[finding];
}

base::Id stateIdOf(const Solved& solved, const judge::Finding& finding) {
  return finding.state ? solved.assessment->states[*finding.state].id : base::Id{};
}

/// Things of `after` that `before` has not or has otherwise, by `Put`.
template <class Put, class Things>
void putChanged(const Things& before, const Things& after, std::vector<shop::Edit>& edits) {
  for (const auto& thing : after) {
    if (std::find(before.begin(), before.end(), thing) == before.end()) {
      edits.push_back(Put{thing});
    }
  }
}

}  // namespace

std::string severityWord(judge::Severity severity) {
  std::string word(judge::toText(severity));
  if (!word.empty() && word[0] >= 'a' && word[0] <= 'z') {
    word[0] = static_cast<char>(word[0] - 'a' + 'A');
  }
  return word;
}

FindingList listFindings(const Solved* solved, judge::Reader reader, base::UnitSystem units,
                         std::optional<std::size_t> only_state) {
  FindingList list;
  if (solved == nullptr) {
    list.headline = "Nothing is judged yet.";
    return list;
  }
  if (solved->problem) {
    list.headline = solved->problem->text();
    return list;
  }
  if (!solved->verdict) {
    list.headline = "Being judged …";
    return list;
  }
  const judge::Voice voice(reader, units);
  const judge::Verdict& verdict = *solved->verdict;
  const shop::Project& project = *solved->project;
  list.headline = project.machines.empty() || project.collectors.empty() || project.ducts.empty()
                      ? "Nothing to judge yet: draw a machine, a duct and a collector."
                      : headlineOf(verdict);
  for (std::size_t i = 0; i < verdict.groups.size(); ++i) {
    if (const auto teller = tellerOf(verdict, verdict.groups[i], only_state)) {
      (i < verdict.on_top ? list.on_top : list.rest)
          .push_back(rowOf(*solved, verdict.groups[i], *teller, voice));
    }
  }
  for (const judge::Group& group : verdict.lived_with) {
    // Each is taken back by itself, so each has its row.
    for (const std::size_t f : membersOf(group)) {
      if (!only_state || !verdict.findings[f].state || verdict.findings[f].state == only_state) {
        list.lived_with.push_back(rowOf(*solved, {f, {}, {}, 0}, f, voice));
      }
    }
  }
  return list;
}

Lead leadOf(const Solved& solved, std::size_t finding) {
  if (!solved.verdict || finding >= solved.verdict->findings.size()) {
    return {};
  }
  const judge::Finding& of = solved.verdict->findings[finding];
  return {of.state, placeOf(*solved.project, of)};
}

base::Result<Change> acceptFinding(const Solved& solved, std::size_t finding, std::string_view reason,
                                   std::string_view on) {
  const auto found = findingAt(solved, finding);
  if (!found) {
    return tl::unexpected(found.error());
  }
  if (reason.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return base::fail(base::ErrorCode::Parse,
                      "Say why you live with it; the reason is printed on the papers.");
  }
  const judge::Finding& of = **found;
  auto badness = base::Given<base::Ratio>::parse(fmt::format("{:.6g}", of.badness), base::Standing::Estimated,
                                                 "found by the check");
  if (!badness) {
    return tl::unexpected(badness.error());
  }
  shop::Acceptance acceptance{of.rule,  of.key.text(),       stateIdOf(solved, of),
                              *badness, std::string(reason), std::string(on)};
  return Change{fmt::format("Live with: {}", of.label), {shop::Accept{std::move(acceptance)}}};
}

base::Result<Change> withdrawFinding(const Solved& solved, std::size_t finding) {
  const auto found = findingAt(solved, finding);
  if (!found) {
    return tl::unexpected(found.error());
  }
  const judge::Finding& of = **found;
  return Change{fmt::format("No longer live with: {}", of.label),
                {shop::Withdraw{of.rule, of.key.text(), stateIdOf(solved, of)}}};
}

base::Result<Change> tryRemedy(const shop::Project& project, const Solved& solved, std::size_t finding,
                               std::size_t remedy) {
  const auto found = findingAt(solved, finding);
  if (!found) {
    return tl::unexpected(found.error());
  }
  const judge::Finding& of = **found;
  if (remedy >= of.remedies.size() || !of.remedies[remedy].change) {
    return base::fail(base::ErrorCode::Unsupported,
                      "This remedy cannot be tried on the drawing: it is work in the shop.");
  }
  const auto after = judge::withChange(project, *of.remedies[remedy].change);
  if (!after) {
    return tl::unexpected(after.error());
  }
  std::vector<shop::Edit> edits = editsBetween(project, *after);
  if (edits.empty()) {
    return base::fail(base::ErrorCode::Conflict, "The drawing has this already.");
  }
  return Change{fmt::format("Try a remedy at {}", of.label), std::move(edits)};
}

std::size_t findingHelped(const Solved& solved, std::size_t finding, std::size_t remedy) {
  const std::vector<judge::Finding>& all = solved.verdict->findings;
  if (remedy >= all[finding].remedies.size() || !all[finding].remedies[remedy].change) {
    return finding;
  }
  const judge::Change& change = *all[finding].remedies[remedy].change;
  using judge::ChangeKind;
  const bool of_state = change.kind == ChangeKind::GateOpen || change.kind == ChangeKind::GateShut ||
                        change.kind == ChangeKind::FilterClean;
  for (std::size_t f = 0; f < all.size() && of_state && change.b.valid(); ++f) {
    if (all[f].rule == all[finding].rule && all[f].key == all[finding].key &&
        stateIdOf(solved, all[f]) == change.b) {
      return f;
    }
  }
  return finding;
}

std::vector<shop::Edit> editsBetween(const shop::Project& before, const shop::Project& after) {
  std::vector<shop::Edit> edits;
  putChanged<shop::PutRoom>(before.rooms, after.rooms, edits);
  putChanged<shop::PutMachine>(before.machines, after.machines, edits);
  putChanged<shop::PutCollector>(before.collectors, after.collectors, edits);
  putChanged<shop::PutDuct>(before.ducts, after.ducts, edits);
  putChanged<shop::PutState>(before.states, after.states, edits);
  return edits;
}

}  // namespace kerfdraft::desk
