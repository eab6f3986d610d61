// Symptoms go beneath their causes.
#include "judge/merge.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

#include "judge/causes.h"

namespace kerfdraft::judge {

namespace {

constexpr std::size_t kNone = static_cast<std::size_t>(-1);

// All ours; docs/theory/verdict.md says why.
constexpr double kExplains = 0.5;       ///< a change that brings this share of what lacks names the cause
constexpr double kHelps = 0.25;         ///< one that brings this much does so where nothing else is known
constexpr double kEqual = 0.02;         ///< shares nearer than this count as equal
constexpr std::size_t kMostStates = 3;  ///< states of a finding in which causes are tried, the worst first
/// Where a finding tells no need in the unit of its number, a tenth more counts as what lacks.
constexpr double kUsualLack = 0.1;

class Merging {
 public:
  Merging(const Evidence& evidence, const std::vector<Finding>& findings,
          const std::vector<Cluster>& clusters, Trials& trials)
      : findings_(findings),
        clusters_(clusters),
        trials_(trials),
        parent_(clusters.size(), kNone),
        folded_(clusters.size(), kNone) {
    for (const Finding& finding : findings) {
      reach_.push_back(reachOf(evidence, finding));
    }
  }

  std::vector<Merged> merge() {
    std::vector<std::string_view> settled;
    for (const CauseRow& row : causeRows()) {
      if (std::find(settled.begin(), settled.end(), row.symptom) == settled.end()) {
        settled.push_back(row.symptom);
        settle(row.symptom);
      }
    }
    return collected();
  }

 private:
  const Finding& worst(std::size_t cluster) const { return findings_[clusters_[cluster].findings.front()]; }

  std::size_t root(std::size_t cluster) const {
    while (parent_[cluster] != kNone) {
      cluster = parent_[cluster];
    }
    return cluster;
  }

  /// A finding of the cause that lies rightly to this one of the symptom.
  std::optional<std::size_t> relatedFinding(const CauseRow& row, std::size_t symptom,
                                            std::size_t cause) const {
    for (const std::size_t f : clusters_[cause].findings) {
      if (related(row.relation, findings_[symptom], reach_[symptom], findings_[f], reach_[f])) {
        return f;
      }
    }
    return std::nullopt;
  }

  bool relatedClusters(const CauseRow& row, std::size_t symptom, std::size_t cause) const {
    return std::any_of(clusters_[symptom].findings.begin(), clusters_[symptom].findings.end(),
                       [&](std::size_t f) { return relatedFinding(row, f, cause).has_value(); });
  }

  struct Candidate {
    std::size_t cause = 0;  ///< cluster, as the row names it
    const CauseRow* row = nullptr;
    double share = 0;  ///< of what the symptom lacks
    bool tried = false;
  };

  /// How much of what a finding lacks a change brings; nothing where it cannot be tried.
  std::optional<double> share(const Finding& symptom, const Change& change) {
    const auto gain = trials_.gain(symptom, change);
    if (!gain) {
      return std::nullopt;
    }
    if (gain->cures) {
      return 1.0;
    }
    const bool told = symptom.limit && symptom.limit->kind == gain->kind;
    const double lack = told ? std::abs(symptom.limit->value - gain->before)
                             : kUsualLack * std::max(std::abs(gain->before), 1e-6);
    return lack > 0 ? std::clamp((gain->after - gain->before) / lack, -1.0, 1.0) : 0.0;
  }

  /// The most that one change of these remedies brings.
  std::optional<double> bestShare(const Finding& symptom, const std::vector<Remedy>& remedies) {
    std::optional<double> best;
    for (const Remedy& remedy : remedies) {
      if (remedy.change) {
        const auto brings = share(symptom, *remedy.change);
        if (brings && (!best || *brings > *best)) {
          best = brings;
        }
      }
    }
    return best;
  }

  /// In every state in which the symptom is as grave as in its worst, so that what explains one state only
  /// does not explain the others away.
  void tryCandidate(std::size_t symptom, Candidate& candidate) {
    std::size_t states = 0;
    for (const std::size_t f : clusters_[symptom].findings) {
      if (findings_[f].severity != worst(symptom).severity || states == kMostStates) {
        break;
      }
      ++states;
      std::optional<double> best;
      for (const std::size_t c : clusters_[root(candidate.cause)].findings) {
        const auto brings = bestShare(findings_[f], findings_[c].remedies);
        if (brings && (!best || *brings > *best)) {
          best = brings;
        }
      }
      if (best) {
        candidate.share = candidate.tried ? std::min(candidate.share, *best) : *best;
        candidate.tried = true;
      }
    }
  }

  /// How much of the air that the chips need comes with what a short port lacks. Known without a trial, and
  /// so also where the port's own cause cannot be tried.
  void serveCandidate(std::size_t symptom, Candidate& candidate) {
    for (const std::size_t f : clusters_[symptom].findings) {
      if (findings_[f].severity != worst(symptom).severity) {
        break;
      }
      const Figure* flow = findings_[f].findFigure("flow");
      const Figure* carries = findings_[f].findFigure("flow-needed");
      const auto shortage = relatedFinding(*candidate.row, f, candidate.cause);
      double share = 0;
      if (shortage && flow != nullptr && carries != nullptr && carries->value > flow->value) {
        const Finding& port = findings_[*shortage];
        share = (port.figure("needed").value - port.figure("flow").value) / (carries->value - flow->value);
      }
      candidate.share = candidate.tried ? std::min(candidate.share, share) : share;
      candidate.tried = true;
    }
    candidate.share = std::clamp(candidate.share, 0.0, 1.0);
  }

  std::vector<Candidate> candidates(std::size_t symptom) {
    std::vector<Candidate> out;
    for (const CauseRow& row : causeRows()) {
      if (row.symptom != worst(symptom).rule) {
        continue;
      }
      for (std::size_t c = 0; c < clusters_.size(); ++c) {
        if (c == symptom || worst(c).rule != row.cause || root(c) == symptom ||
            !relatedClusters(row, symptom, c)) {
          continue;
        }
        Candidate candidate{c, &row, 0, false};
        if (row.proof == Proof::Tried) {
          tryCandidate(symptom, candidate);
        } else if (row.proof == Proof::Served) {
          serveCandidate(symptom, candidate);
        }
        out.push_back(candidate);
      }
    }
    return out;
  }

  /// The cause that explains it; null where it stands for itself.
  const Candidate* choose(std::size_t symptom, const std::vector<Candidate>& all) {
    const Candidate* best = nullptr;
    const Candidate* taken = nullptr;
    for (const Candidate& each : all) {
      if (each.row->proof == Proof::Certain) {
        return &each;
      }
      if (each.row->proof == Proof::Taken && taken == nullptr) {
        taken = &each;
      }
      if (each.tried && (best == nullptr || each.share > best->share + kEqual)) {
        best = &each;
      }
    }
    // Its own remedies may name what no other finding does: a main too wide for the one gate that is open.
    const double own = bestShare(worst(symptom), worst(symptom).remedies).value_or(0);
    if (best != nullptr && best->share >= kExplains && best->share >= own - kHelps) {
      return best;
    }
    if (own >= kExplains) {
      return nullptr;
    }
    if (taken != nullptr) {
      return taken;
    }
    return best != nullptr && best->share >= kHelps && best->share >= own - kHelps ? best : nullptr;
  }

  void settle(std::string_view rule) {
    for (std::size_t s = 0; s < clusters_.size(); ++s) {
      if (worst(s).rule != rule || parent_[s] != kNone) {
        continue;
      }
      const std::vector<Candidate> all = candidates(s);
      const Candidate* chosen = choose(s, all);
      if (chosen != nullptr) {
        parent_[s] = root(chosen->cause);
      }
      for (const Candidate& each : all) {
        if (&each != chosen && each.row->folds && folded_[each.cause] == kNone) {
          folded_[each.cause] = s;
        }
      }
    }
  }

  std::vector<Merged> collected() {
    std::vector<char> leads(clusters_.size(), 0);
    for (std::size_t c = 0; c < clusters_.size(); ++c) {
      if (parent_[c] != kNone) {
        leads[parent_[c]] = 1;
      }
    }
    std::map<std::size_t, Merged> out;
    std::vector<std::size_t> beneath(clusters_.size(), kNone);
    for (std::size_t c = 0; c < clusters_.size(); ++c) {
      // A lesser cause goes with what it was thought to explain, unless it explains something else or weighs
      // more.
      const bool folds = parent_[c] == kNone && leads[c] == 0 && folded_[c] != kNone &&
                         worst(c).severity >= worst(folded_[c]).severity && root(folded_[c]) != c;
      beneath[c] = folds ? root(folded_[c]) : root(c);
      if (beneath[c] == c) {
        out[c].lead = c;
      }
    }
    for (std::size_t c = 0; c < clusters_.size(); ++c) {
      if (beneath[c] != c) {
        Merged& group = out.at(root(beneath[c]));
        (parent_[c] != kNone ? group.explained : group.lesser).push_back(c);
      }
    }
    std::vector<Merged> list;
    list.reserve(out.size());
    for (auto& [cluster, group] : out) {
      list.push_back(std::move(group));
    }
    return list;
  }

  const std::vector<Finding>& findings_;
  const std::vector<Cluster>& clusters_;
  Trials& trials_;
  std::vector<Reach> reach_;         ///< by finding
  std::vector<std::size_t> parent_;  ///< the cause of each cluster
  std::vector<std::size_t> folded_;  ///< the symptom whose lesser cause it is
};

}  // namespace

double steps(double badness) {
  return std::round(1000 * badness);
}

bool graver(const Finding& a, const Finding& b) {
  return a.severity != b.severity ? a.severity < b.severity : steps(a.badness) > steps(b.badness);
}

std::vector<Cluster> clusters(const std::vector<Finding>& findings, const std::vector<std::size_t>& wanted) {
  std::vector<Cluster> out;
  std::map<std::pair<std::string, pieces::PieceKey>, std::size_t> known;
  for (const std::size_t f : wanted) {
    const auto [at, fresh] = known.try_emplace({findings[f].rule, findings[f].key}, out.size());
    if (fresh) {
      out.emplace_back();
    }
    out[at->second].findings.push_back(f);
  }
  std::map<std::string, std::size_t> order;
  for (const Cluster& cluster : out) {
    order.try_emplace(findings[cluster.findings.front()].rule, order.size());
  }
  std::sort(out.begin(), out.end(), [&](const Cluster& a, const Cluster& b) {
    const Finding& one = findings[a.findings.front()];
    const Finding& other = findings[b.findings.front()];
    return std::tuple(order.at(one.rule), one.label.size(), one.label, one.key) <
           std::tuple(order.at(other.rule), other.label.size(), other.label, other.key);
  });
  for (Cluster& cluster : out) {
    std::stable_sort(cluster.findings.begin(), cluster.findings.end(),
                     [&](std::size_t a, std::size_t b) { return graver(findings[a], findings[b]); });
  }
  return out;
}

std::vector<Merged> mergeCauses(const Evidence& evidence, const std::vector<Finding>& findings,
                                const std::vector<Cluster>& all, Trials& trials) {
  return Merging(evidence, findings, all, trials).merge();
}

}  // namespace kerfdraft::judge
