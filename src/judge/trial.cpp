// Solves changed shops and reads from them what the change brings.
#include "judge/trial.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "judge/change.h"
#include "judge/price_of_change.h"
#include "judge/rule.h"
#include "judge/trials.h"

namespace kerfdraft::judge {

namespace {

/// Shares of the number from which on a change brings little or much (ours: what a gauge shows, and what a
/// person hears).
constexpr double kLittle = 0.02;
constexpr double kMuch = 0.1;
/// A change that takes more than this share of the number away cures nothing (ours).
constexpr double kWorse = 0.01;

/// A number of one state that a finding is about.
struct Number {
  double value = 0;
  base::Kind kind = base::Kind::VolumeFlow;
  std::string at;
};

/// The same port in another build of the drawing; nothing where it is gone.
std::optional<std::size_t> portOf(const pieces::Pieces& drawing, const pieces::Pieces& original,
                                  std::size_t port) {
  const pieces::PortPlace& wanted = original.ports[port];
  const pieces::PieceKey& run = original.runs[wanted.run].key;
  std::optional<std::size_t> found;
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    if (drawing.ports[p].ref == wanted.ref) {
      if (drawing.runs[drawing.ports[p].run].key == run) {
        return p;
      }
      found = found ? found : p;
    }
  }
  return found;
}

std::optional<std::size_t> runOf(const pieces::Pieces& drawing, const pieces::PieceKey& key) {
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    if (drawing.runs[r].key == key) {
      return r;
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> roomOf(const pieces::Pieces& drawing, const pieces::PieceKey& key) {
  for (std::size_t n = 0; n < drawing.nodes.size(); ++n) {
    if (drawing.nodes[n].kind == pieces::NodeKind::Room && drawing.nodes[n].key == key) {
      return n;
    }
  }
  return std::nullopt;
}

/// What the finding is about, read in any build of the shop: a port's flow, a run's slowest speed, a room's
/// pressure.
std::optional<Number> numberOf(const Finding& finding, const pieces::Pieces& original,
                               const Assessment& assessment, std::size_t state) {
  const network::Solution& solution = assessment.states[state].solution;
  const pieces::Pieces& drawing = *assessment.pieces;
  // How fast the air comes in through the gaps of a machine's body.
  if (finding.key.role == pieces::Role::Opening && finding.limit &&
      finding.limit->kind == base::Kind::Speed) {
    for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
      if (drawing.openings[o].key == finding.key) {
        return Number{solution.openings[o].speed_m_s, base::Kind::Speed, "the gaps of " + finding.label};
      }
    }
  }
  // A finding that is held against a speed is about its run, whoever's air it is.
  const bool of_run = !finding.runs.empty() &&
                      (finding.ports.empty() || (finding.limit && finding.limit->kind == base::Kind::Speed));
  if (of_run) {
    const pieces::Run& wanted = original.runs[finding.runs.front()];
    const auto run = runOf(drawing, wanted.key);
    if (!run) {
      return std::nullopt;
    }
    // Its duct says enough: "D1: junction at … to …".
    return Number{solution.runs[*run].slowest_m_s, base::Kind::Speed,
                  wanted.label.substr(0, wanted.label.find(':'))};
  }
  if (!finding.ports.empty()) {
    const auto port = portOf(drawing, original, finding.ports.front());
    if (!port) {
      return std::nullopt;
    }
    return Number{solution.ports[*port].flow_m3_s, base::Kind::VolumeFlow,
                  original.ports[finding.ports.front()].label};
  }
  if (finding.key.role == pieces::Role::Room) {
    if (const auto room = roomOf(drawing, finding.key)) {
      return Number{solution.node_pa[*room], base::Kind::Pressure, drawing.nodes[*room].label};
    }
  }
  return std::nullopt;
}

/// The state of a finding; for one of the drawing itself the solved state in which its number is least.
std::optional<std::size_t> stateOf(const Evidence& evidence, const Finding& finding) {
  if (finding.state) {
    return evidence.solved(*finding.state) ? finding.state : std::nullopt;
  }
  std::optional<std::size_t> worst;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    if (!evidence.solved(s) ||
        (!finding.ports.empty() &&
         !isOpen(evidence.pieces(), evidence.state(s).situation, finding.ports.front()))) {
      continue;
    }
    const auto number = numberOf(finding, evidence.pieces(), evidence.assessment, s);
    if (number && number->value < least && (!finding.ports.empty() || number->value != 0)) {
      least = number->value;
      worst = s;
    }
  }
  return worst;
}

/// Whether the finding's rule no longer finds it, or finds no more than a note.
bool gone(const Finding& finding, const Evidence& changed) {
  const Rule* rule = findRule(finding.rule);
  if (rule == nullptr) {
    return false;
  }
  std::vector<Finding> found;
  rule->look(changed, found);
  return std::none_of(found.begin(), found.end(), [&](const Finding& each) {
    return each.key == finding.key && (!finding.state || each.state == finding.state) &&
           (each.severity != Severity::Note || finding.severity == Severity::Note);
  });
}

/// How much nearer to what is wanted: more flow and speed, less suction in a room.
double better(const Gain& gain) {
  return gain.kind == base::Kind::Pressure ? std::abs(gain.before) - std::abs(gain.after)
                                           : gain.after - gain.before;
}

/// 0 cures, 1 was not tried, 2 brings much and cures nothing, 3 brings little, 4 brings nothing.
constexpr int kNothing = 4;
int rank(const Remedy& remedy) {
  if (!remedy.gain) {
    return 1;
  }
  if (remedy.gain->cures) {
    return 0;
  }
  const double share = better(*remedy.gain) / std::max(std::abs(remedy.gain->before), 1e-9);
  return share > kMuch ? 2 : (share > kLittle ? 3 : kNothing);
}

/// Gain for a dollar; what costs nothing first, what has no price last.
double worth(const Remedy& remedy) {
  if (!remedy.gain) {
    return 0;
  }
  if (!remedy.price) {
    return -1;
  }
  const double usd = 0.5 * (remedy.price->low_usd + remedy.price->high_usd);
  return usd > 0 ? better(*remedy.gain) / usd : std::numeric_limits<double>::infinity();
}

}  // namespace

const Trials::Changed* Trials::changed(const Change& change, std::size_t state) {
  const Key key{change.kind, change.a, change.b, change.value, change.with_port, state};
  const auto found = made_.find(key);
  if (found != made_.end()) {
    return found->second ? &*found->second : nullptr;
  }
  std::optional<Changed>& made = made_[key];
  const auto project = withChange(evidence_.project(), change);
  if (!project) {
    return nullptr;
  }
  auto assessment = assessOne(*project, evidence_.catalogue, state);
  if (!assessment || !assessment->states[state].solution.solved()) {
    return nullptr;
  }
  Changed built;
  built.assessment = std::make_unique<Assessment>(std::move(*assessment));
  // Bands are those of the shop as it is: the same ports and runs stand in the same order.
  const bool alike = built.assessment->pieces->runs.size() == evidence_.pieces().runs.size() &&
                     built.assessment->pieces->ports.size() == evidence_.pieces().ports.size();
  auto gathered = gatherEvidence(*built.assessment, evidence_.catalogue,
                                 alike ? evidence_.bands : std::vector<StateBands>{});
  if (!gathered) {
    return nullptr;
  }
  built.evidence = std::make_unique<Evidence>(std::move(*gathered));
  made = std::move(built);
  return &*made;
}

std::optional<Gain> Trials::gain(const Finding& finding, const Change& change) {
  const auto state = stateOf(evidence_, finding);
  if (!state) {
    return std::nullopt;
  }
  const auto before = numberOf(finding, evidence_.pieces(), evidence_.assessment, *state);
  const Changed* shop = before ? changed(change, *state) : nullptr;
  if (shop == nullptr) {
    return std::nullopt;
  }
  const auto after = numberOf(finding, evidence_.pieces(), *shop->assessment, *state);
  if (!after) {
    return std::nullopt;
  }
  Gain gain{before->value, after->value, before->kind, false, before->at};
  // What shuts the machine itself makes the finding go away and settles nothing.
  gain.cures = better(gain) >= -kWorse * std::abs(gain.before) && gone(finding, *shop->evidence);
  return gain;
}

bool Trials::helps(const Finding& finding, const Change& change) {
  const auto found = gain(finding, change);
  return found && (found->cures || better(*found) > kMuch * std::abs(found->before));
}

std::optional<PriceBand> Trials::price(const Finding& finding, const Change& change) {
  const auto state = stateOf(evidence_, finding);
  const Changed* shop = state ? changed(change, *state) : nullptr;
  return shop == nullptr ? std::nullopt : priceOfChange(evidence_, change, *shop->assessment);
}

void Trials::tryRemedies(Finding& finding, const Finding& of) {
  for (Remedy& remedy : finding.remedies) {
    if (remedy.change) {
      remedy.gain = gain(of, *remedy.change);
      remedy.price = price(of, *remedy.change);
    }
  }
  std::stable_sort(finding.remedies.begin(), finding.remedies.end(), [](const Remedy& a, const Remedy& b) {
    return rank(a) != rank(b) ? rank(a) < rank(b) : worth(a) > worth(b);
  });
  // What brings nothing is no advice, as long as there is another.
  while (finding.remedies.size() > 1 && rank(finding.remedies.back()) == kNothing) {
    finding.remedies.pop_back();
  }
}

void tryRemedies(const Evidence& evidence, Finding& finding) {
  Trials(evidence).tryRemedies(finding, finding);
}

std::optional<Gain> gainBetween(const Assessment& before, const Finding& finding, const Assessment& after) {
  if (!finding.state || *finding.state >= before.states.size()) {
    return std::nullopt;
  }
  const StateResult& was = before.states[*finding.state];
  const auto is = std::find_if(after.states.begin(), after.states.end(),
                               [&](const StateResult& each) { return each.id == was.id; });
  if (is == after.states.end() || !was.solution.solved() || !is->solution.solved()) {
    return std::nullopt;
  }
  const auto from = numberOf(finding, *before.pieces, before, *finding.state);
  const auto to =
      numberOf(finding, *before.pieces, after, static_cast<std::size_t>(is - after.states.begin()));
  if (!from || !to) {
    return std::nullopt;
  }
  return Gain{from->value, to->value, from->kind, false, from->at};
}

std::optional<Gain> tryChange(const Evidence& evidence, const Finding& finding, const Change& change) {
  return Trials(evidence).gain(finding, change);
}

}  // namespace kerfdraft::judge
