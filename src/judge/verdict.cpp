// Runs the rules, sets aside what is accepted, merges, orders, and tries the remedies of what stands on top.
#include "judge/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>
#include <utility>

#include "judge/causes.h"
#include "judge/merge.h"
#include "judge/rule.h"
#include "judge/trials.h"
#include "judge/used_states.h"

namespace kerfdraft::judge {

namespace {

/// So many remedies of one cause are enough to choose from.
constexpr std::size_t kMostRemedies = 5;
/// In so many other states it is looked whether the remedies help there too, the worst first.
constexpr std::size_t kMostOtherStates = 3;
/// So many remedies are added for other states.
constexpr std::size_t kMostTakenOver = 2;
/// Badness below this is the limit itself, as far as accepting goes.
constexpr double kLeastBadness = 1e-3;

std::vector<Finding> allFindings(const Evidence& evidence) {
  std::vector<Finding> findings;
  for (const Rule* rule : allRules()) {
    const std::size_t first = findings.size();
    rule->look(evidence, findings);
    for (std::size_t f = first; f < findings.size(); ++f) {
      findings[f].rule = std::string(rule->key);
      if (findings[f].state && evidence.state(*findings[f].state).declared) {
        findings[f].state_name = evidence.state(*findings[f].state).name;
      }
    }
  }
  return findings;
}

const shop::Acceptance* acceptanceOf(const Evidence& evidence, const Finding& finding) {
  const base::Id state = finding.state ? evidence.state(*finding.state).id : base::Id{};
  const std::string about = finding.key.text();
  for (const shop::Acceptance& accepted : evidence.project().accepted) {
    if (accepted.rule == finding.rule && accepted.about == about && accepted.state == state) {
      return &accepted;
    }
  }
  return nullptr;
}

void findAccepted(const Evidence& evidence, Verdict& verdict) {
  for (const Finding& finding : verdict.findings) {
    const shop::Acceptance* found = acceptanceOf(evidence, finding);
    Accepted standing = Accepted::No;
    if (found != nullptr) {
      const double then = std::max(found->badness.si(), kLeastBadness);
      standing = finding.badness > kReturnsAt * then ? Accepted::Returned : Accepted::Yes;
    }
    verdict.accepted.push_back(standing);
    verdict.reasons.push_back(found != nullptr ? found->reason : std::string());
  }
}

/// Members of a group beside its lead.
std::vector<std::size_t> members(const Group& group) {
  std::vector<std::size_t> out = group.same;
  out.insert(out.end(), group.symptoms.begin(), group.symptoms.end());
  return out;
}

bool sameRemedy(const Remedy& a, const Remedy& b) {
  const auto change = [](const Remedy& each) {
    return each.change ? std::tuple(each.change->kind, each.change->a, each.change->b, each.change->value)
                       : std::tuple(ChangeKind::Bore, base::Id{}, base::Id{}, 0.0);
  };
  const auto place = [](const Remedy& each) {
    return each.words.empty() ? std::string() : each.words.front();
  };
  return a.change.has_value() == b.change.has_value() && change(a) == change(b) &&
         (a.change || (a.kind == b.kind && place(a) == place(b)));
}

/// The symptom on which a group's remedies are tried: the gravest, but one of the lead's own state and port
/// before all others, so that the numbers speak of what the lead speaks of.
const Finding& mainSymptom(const Verdict& verdict, const Group& group) {
  const Finding& lead = verdict.findings[group.lead];
  const auto fits = [&](const Finding& each) {
    const bool port = std::any_of(each.ports.begin(), each.ports.end(), [&](std::size_t p) {
      return std::find(lead.ports.begin(), lead.ports.end(), p) != lead.ports.end();
    });
    return (each.state == lead.state ? 2 : 0) + (port ? 1 : 0);
  };
  const Finding* best = &lead;
  if (isSymptom(lead.rule)) {
    return lead;
  }
  int best_fit = -1;
  for (std::size_t i = 0; i < group.explained; ++i) {
    const Finding& each = verdict.findings[group.symptoms[i]];
    const bool first_rule = each.rule == verdict.findings[group.symptoms.front()].rule;
    if (first_rule && fits(each) > best_fit) {
      best = &each;
      best_fit = fits(each);
    }
  }
  return *best;
}

/// Whether a change is made in one state of use alone.
bool ofOneState(const Change& change) {
  return change.kind == ChangeKind::GateOpen || change.kind == ChangeKind::GateShut ||
         (change.kind == ChangeKind::FilterClean && change.b.valid());
}

/// Where the same stands in other states and nothing that the lead offers helps there, the best of what is
/// offered there is taken over, with what it brings in that state.
void takeForOtherStates(Verdict& verdict, const Group& group, Trials& trials) {
  Finding& lead = verdict.findings[group.lead];
  std::size_t looked = 0;
  std::size_t taken = 0;
  for (const std::size_t f : group.same) {
    if (looked == kMostOtherStates || taken == kMostTakenOver ||
        verdict.findings[f].severity >= Severity::Note) {
      break;
    }
    ++looked;
    const Finding& there = verdict.findings[f];
    // Which gates are open is changed in one state alone, so the same advice is another change there.
    const bool helped = std::any_of(lead.remedies.begin(), lead.remedies.end(), [&](const Remedy& each) {
      return (each.change && !ofOneState(*each.change) && trials.helps(there, *each.change)) ||
             std::any_of(there.remedies.begin(), there.remedies.end(), [&](const Remedy& own) {
               return own.change && own.kind == each.kind && own.words == each.words &&
                      trials.helps(there, *own.change);
             });
    });
    if (helped) {
      continue;
    }
    Finding other = there;
    trials.tryRemedies(other, other);
    const auto best = std::find_if(other.remedies.begin(), other.remedies.end(), [&](const Remedy& each) {
      return each.change && each.gain && trials.helps(other, *each.change);
    });
    if (best != other.remedies.end()) {
      best->gain->at += fmt::format("{}in state {}", best->gain->at.empty() ? "" : " ", other.state_name);
      lead.remedies.push_back(*best);
      ++taken;
    }
  }
}

/// What stands on top gets the remedies of its main symptom and of the lesser causes beneath it, all tried on
/// that symptom. Of those only what helps, or what is words, is taken over.
void tryGroup(Verdict& verdict, const Group& group, Trials& trials) {
  const Finding of = mainSymptom(verdict, group);
  Finding& lead = verdict.findings[group.lead];
  const auto known = [&](const Remedy& remedy) {
    return std::any_of(lead.remedies.begin(), lead.remedies.end(),
                       [&](const Remedy& each) { return sameRemedy(each, remedy); });
  };
  const auto take = [&](const Finding& from) {
    for (const Remedy& remedy : from.remedies) {
      if (!known(remedy) && (!remedy.change || trials.helps(of, *remedy.change))) {
        lead.remedies.push_back(remedy);
      }
    }
  };
  take(of);
  for (std::size_t i = group.explained; i < group.symptoms.size(); ++i) {
    take(verdict.findings[group.symptoms[i]]);
  }
  trials.tryRemedies(lead, of);
  if (lead.remedies.size() > kMostRemedies) {
    lead.remedies.resize(kMostRemedies);
  }
  takeForOtherStates(verdict, group, trials);
}

struct Ordered {
  Group group;
  Severity severity = Severity::Note;
  double badness = 0;
  std::size_t touched = 0;  ///< ports
};

Ordered ordered(const Verdict& verdict, const std::vector<Cluster>& all, const Merged& merged) {
  Ordered out;
  const auto& own = all[merged.lead].findings;
  out.group.lead = own.front();
  out.group.same.assign(own.begin() + 1, own.end());
  const auto add = [&](const std::vector<std::size_t>& clusters_of) {
    std::vector<std::size_t> list = clusters_of;
    std::stable_sort(list.begin(), list.end(), [&](std::size_t a, std::size_t b) {
      return graver(verdict.findings[all[a].findings.front()], verdict.findings[all[b].findings.front()]);
    });
    for (const std::size_t c : list) {
      out.group.symptoms.insert(out.group.symptoms.end(), all[c].findings.begin(), all[c].findings.end());
    }
  };
  add(merged.explained);
  out.group.explained = out.group.symptoms.size();
  add(merged.lesser);
  std::set<std::size_t> ports;
  const auto weigh = [&](std::size_t f) {
    const Finding& finding = verdict.findings[f];
    out.severity = std::min(out.severity, finding.severity);
    ports.insert(finding.ports.begin(), finding.ports.end());
  };
  weigh(out.group.lead);
  for (const std::size_t f : members(out.group)) {
    weigh(f);
  }
  // How bad it is, is how bad the gravest of it is.
  out.badness = verdict.findings[out.group.lead].badness;
  for (const std::size_t f : members(out.group)) {
    if (verdict.findings[f].severity == out.severity) {
      out.badness = std::max(out.badness, verdict.findings[f].badness);
    }
  }
  out.touched = ports.size();
  return out;
}

void makeGroups(const Evidence& evidence, Verdict& verdict) {
  std::vector<std::size_t> open;
  std::vector<std::size_t> folded;
  for (std::size_t f = 0; f < verdict.findings.size(); ++f) {
    (verdict.accepted[f] == Accepted::Yes ? folded : open).push_back(f);
  }
  Trials trials(evidence);
  const std::vector<Cluster> all = clusters(verdict.findings, open);
  std::vector<Ordered> groups;
  for (const Merged& merged : mergeCauses(evidence, verdict.findings, all, trials)) {
    groups.push_back(ordered(verdict, all, merged));
  }
  std::stable_sort(groups.begin(), groups.end(), [&](const Ordered& a, const Ordered& b) {
    const auto weight = [](const Ordered& each) {
      return steps(each.badness * static_cast<double>(std::max<std::size_t>(1, each.touched)));
    };
    if (a.severity != b.severity) {
      return a.severity < b.severity;
    }
    return weight(a) > weight(b);
  });
  for (const Ordered& each : groups) {
    if (each.severity < Severity::Note && verdict.on_top < kMostOnTop) {
      ++verdict.on_top;
      tryGroup(verdict, each.group, trials);
    }
    // A cause weighs what its gravest symptom weighs.
    verdict.findings[each.group.lead].severity = each.severity;
    verdict.groups.push_back(each.group);
  }
  for (const Cluster& cluster : clusters(verdict.findings, folded)) {
    verdict.lived_with.push_back(
        {cluster.findings.front(), {cluster.findings.begin() + 1, cluster.findings.end()}, {}, 0});
  }
}

}  // namespace

Verdict judgeEvidence(const Evidence& evidence) {
  if (const std::optional<UsedStates> used = UsedStates::of(evidence)) {
    Verdict verdict = judgeEvidence(used->evidence());
    for (Finding& finding : verdict.findings) {
      finding.state = finding.state ? std::optional(used->whole(*finding.state)) : std::nullopt;
    }
    return verdict;
  }
  Verdict verdict;
  verdict.findings = allFindings(evidence);
  findAccepted(evidence, verdict);
  verdict.all_served = verdict.all_solved = true;
  for (const StateMargins& state : evidence.margins) {
    verdict.all_solved = verdict.all_solved && state.solved;
    verdict.all_served = verdict.all_served && state.served;
  }
  makeGroups(evidence, verdict);
  return verdict;
}

base::Result<Verdict> judgeShop(const Assessment& assessment, const catalogue::Catalogue& catalogue,
                                std::vector<StateBands> bands) {
  const auto evidence = gatherEvidence(assessment, catalogue, std::move(bands));
  if (!evidence) {
    return base::Failure(evidence.error());
  }
  return judgeEvidence(*evidence);
}

}  // namespace kerfdraft::judge
