// Shut branches that catch chips: they hang below the main or lie level with it, their gate is far from it,
// and chips pass their mouth. What lies in them blocks the branch or comes out in one lump when its gate
// opens.
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// Shorter ones hold no more than a handful (ours; that gates belong near the main is common practice).
constexpr double kLongest_m = 1.2;
constexpr double kShutTravel = 0.05;

/// The way from a main back to a shut gate, as far as chips can come.
struct Leg {
  double length_m = 0;  ///< that can fill
  bool falls = false;
  std::string gate;  ///< label; empty where it ends in a closed end
};

/// From the end of a run backward. Nothing where it comes to an open port or divides: then it is not a shut
/// branch, or its drops are judged at the place where it divides.
std::optional<Leg> legBack(const Evidence& evidence, std::size_t state, std::size_t run) {
  const pieces::Run& of = evidence.pieces().runs[run];
  const std::vector<Stretch> stretches = stretchesOf(evidence, state, run);
  Leg leg;
  bool climbs = false;  // duct that rises away from the main holds nothing
  for (std::size_t i = of.pieces.size(); i > 0; --i) {
    const pieces::Piece& piece = of.pieces[i - 1];
    if (piece.gate >= 0) {
      const auto gate = static_cast<std::size_t>(piece.gate);
      if (evidence.state(state).situation.gate_travel[gate] < kShutTravel) {
        leg.gate = evidence.pieces().gates[gate].label;
        return leg;
      }
      continue;
    }
    const auto at = std::find_if(stretches.begin(), stretches.end(),
                                 [&](const Stretch& each) { return each.piece == i - 1; });
    if (at == stretches.end() || climbs) {
      continue;
    }
    const double away = -riseOf(*at);  // along the way back, away from the main
    climbs = away > kLevelSine;
    if (!climbs) {
      leg.length_m += at->length_m;
      leg.falls = leg.falls || away < -kLevelSine;
    }
  }
  return of.closed ? std::optional(leg) : std::nullopt;
}

/// The worst of a branch over all declared states, and in how many of them chips pass it.
struct Caught {
  BranchEntry entry;
  Leg leg;
  std::vector<std::size_t> states;
};

bool chipsPassJunction(const Evidence& evidence, std::size_t state, const BranchEntry& entry) {
  return !evidence.chips[state][entry.main_run].empty() && evidence.chips[state][entry.run].empty();
}

std::vector<Caught> caughtIn(const Evidence& evidence) {
  std::vector<Caught> out;
  for (const BranchEntry& entry : branchEntries(evidence)) {
    Caught caught{entry, {}, {}};
    for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
      if (!evidence.state(s).declared || !evidence.solved(s) || !chipsPassJunction(evidence, s, entry)) {
        continue;
      }
      const auto leg = legBack(evidence, s, entry.run);
      if (leg && leg->length_m > kLongest_m) {
        caught.states.push_back(s);
        if (leg->length_m > caught.leg.length_m) {
          caught.leg = *leg;
        }
      }
    }
    if (!caught.states.empty()) {
      out.push_back(std::move(caught));
    }
  }
  return out;
}

/// One finding for all such branches of a main.
void look(const Evidence& evidence, std::vector<Finding>& out) {
  const std::size_t first = out.size();
  for (const Caught& caught : caughtIn(evidence)) {
    const Severity severity = caught.leg.falls ? Severity::Caution : Severity::Note;
    auto at = std::find_if(out.begin() + static_cast<std::ptrdiff_t>(first), out.end(),
                           [&](const Finding& each) { return each.key.a == caught.entry.main->id; });
    if (at == out.end()) {
      Finding finding = aboutDuct(*caught.entry.main);
      finding.severity = severity;
      finding.figures = {{"length", 0, base::Kind::Length},
                         {"limit", kLongest_m, base::Kind::Length},
                         {"states", 0, base::Kind::Ratio}};
      finding.limit = Limit{kLongest_m, base::Kind::Length, {}, base::SourceStatus::Ours, {}};
      finding.words = {"level"};
      at = out.insert(out.end(), std::move(finding));
    }
    at->severity = std::min(at->severity, severity);
    if (caught.leg.falls) {
      at->words[0] = "falls";
    }
    at->figures[0].value = std::max(at->figures[0].value, caught.leg.length_m);
    at->figures[2].value = std::max(at->figures[2].value, static_cast<double>(caught.states.size()));
    at->badness = badnessOf(at->figures[0].value / kLongest_m);
    at->runs.push_back(caught.entry.run);
    at->words.push_back(caught.entry.duct->label);
    if (!caught.leg.gate.empty()) {
      at->remedies.push_back({"gate-at-main",
                              {{"length", kLongest_m, base::Kind::Length}},
                              {caught.leg.gate, at->label},
                              {},
                              {},
                              {}});
    }
  }
  for (std::size_t f = first; f < out.size(); ++f) {
    // All gates in one sentence.
    if (out[f].remedies.size() > 1) {
      std::vector<std::string> words{out[f].label};
      for (const Remedy& remedy : out[f].remedies) {
        words.push_back(remedy.words[0]);
      }
      out[f].remedies = {
          {"gates-at-main", {{"length", kLongest_m, base::Kind::Length}}, std::move(words), {}, {}, {}}};
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string branches = listedFrom(finding, 1);
  const bool one = finding.words.size() == 2;
  const bool falls = finding.words[0] == "falls";
  const std::string length = voice.show(finding.figure("length"));
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "While {} {} shut, chips on their way through {} {} {}: up to {} lie open before the "
          "gate and fill.",
          branches, one ? "is" : "are", finding.label, falls ? "fall into" : "stray into",
          one ? "it" : "them", length);
    case Reader::Adviser:
      return fmt::format(
          "{} {} away from {} over up to {} before the gate, where {} is the most; chips pass "
          "the shut mouth in {} of the declared states.",
          branches, falls ? (one ? "falls" : "fall") : (one ? "leads level" : "lead level"), finding.label,
          length, voice.show(finding.figure("limit")), voice.show(finding.figure("states")));
    case Reader::Inspector:
      return fmt::format("{}: {} shut {} ({}) up to {} long before the gate, {} intended. Not met.",
                         finding.label, falls ? "falling" : "level", one ? "branch" : "branches", branches,
                         length, voice.show(finding.figure("limit")));
  }
  return {};
}

}  // namespace

const Rule kDeadLeg{"dead-leg", Topic::Conveying, "Shut branch that catches chips", &look, &tell};

}  // namespace kerfdraft::judge
