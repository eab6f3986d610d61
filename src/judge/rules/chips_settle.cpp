// Chips on their way in air too slow to carry them: they drop, form dunes and choke the duct. One finding for
// each duct and state, about its slowest part; a shut run is not judged.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "judge/rules/air_support.h"
#include "judge/rules/conveying_rules.h"
#include "judge/rules/conveying_support.h"
#include "judge/rules/fan_support.h"

namespace kerfdraft::judge {

namespace {

/// A narrower duct lets a little less air pass, so its size is chosen with this to spare (ours).
constexpr double kSpare = 1.1;
/// So much above the advised speed other states may come in it: more strangles them (ours).
constexpr double kRoom = 1.25;
/// A bore nearer than this is the same (ours: tolerance of sheet metal and plastic).
constexpr double kSameBore = 0.98;
constexpr double kExact_m = 1e-6;
/// The next size: at least so much smaller (ours: what is sold differs by a tenth or more).
constexpr double kNarrower = 0.92;

/// How bad a speed is by the rule's three limits.
enum Zone { Carried, Marginal, Slow, NotCarried };

Zone zoneOf(const RunMargin& margin, double speed_m_s) {
  // A policy's figure may lie below the working rule's steps; then it decides alone.
  if (speed_m_s < std::min(margin.not_carried_below_m_s, margin.minimum_m_s)) {
    return NotCarried;
  }
  if (speed_m_s < std::min(margin.caution_below_m_s, margin.minimum_m_s)) {
    return Slow;
  }
  return speed_m_s < margin.minimum_m_s ? Marginal : Carried;
}

/// The gravity that can be stood for: what the upper end of the prediction shows, or one step less than what
/// the prediction itself shows.
struct Judged {
  Zone zone = Carried;
  bool sure = true;
};

Judged judged(const RunMargin& margin, double speed_m_s, double high) {
  const Zone shown = zoneOf(margin, speed_m_s);
  const Zone certain = zoneOf(margin, speed_m_s * high);
  if (certain == shown) {
    return {shown, true};
  }
  return {std::max(certain, static_cast<Zone>(shown - 1)), false};
}

struct SlowPart {
  Stretch stretch;
  const RunMargin* margin = nullptr;
  Judged judged;
  double ratio() const { return stretch.speed_m_s / margin->minimum_m_s; }
};

/// The slow parts of one duct, the worst first.
std::vector<std::vector<SlowPart>> slowParts(const Evidence& evidence, std::size_t state) {
  std::vector<std::vector<SlowPart>> out;
  std::map<base::Id, std::size_t> place;
  for (const RunMargin& margin : evidence.margins[state].runs) {
    const double high = evidence.speedBand(state, margin.run).high;
    for (const Stretch& stretch : stretchesOf(evidence, state, margin.run)) {
      const Judged found = judged(margin, stretch.speed_m_s, high);
      if (found.zone == Carried) {
        continue;
      }
      const auto [at, fresh] = place.try_emplace(stretch.duct->id, out.size());
      if (fresh) {
        out.emplace_back();
      }
      out[at->second].push_back({stretch, &margin, found});
    }
  }
  for (std::vector<SlowPart>& parts : out) {
    std::stable_sort(parts.begin(), parts.end(), [](const SlowPart& a, const SlowPart& b) {
      return a.judged.zone != b.judged.zone ? a.judged.zone > b.judged.zone : a.ratio() < b.ratio();
    });
  }
  return out;
}

const FlowMargin* portMargin(const Evidence& evidence, std::size_t state, std::size_t port) {
  for (const FlowMargin& margin : evidence.margins[state].ports) {
    if (margin.port == port) {
      return &margin;
    }
  }
  return nullptr;
}

/// What a port asks for, or its part of what its machine asks; what it gets where nobody asks.
double askedAt(const Evidence& evidence, std::size_t state, const FlowMargin& port) {
  if (const auto own = servedFrom(port)) {
    return *own;
  }
  const double flow_m3_s = std::max(0.0, port.flow_m3_s);
  for (const FlowMargin& machine : evidence.margins[state].machines) {
    const auto needed = servedFrom(machine);
    if (machine.ref.machine == port.ref.machine && needed && machine.flow_m3_s > 0) {
      return *needed * flow_m3_s / machine.flow_m3_s;
    }
  }
  return flow_m3_s;
}

/// What the open ports behind a run ask for in a state.
double asked(const Evidence& evidence, std::size_t state, std::size_t run) {
  double sum_m3_s = 0;
  for (const std::size_t p : portsThrough(evidence, state, run)) {
    if (const FlowMargin* margin = portMargin(evidence, state, p)) {
      sum_m3_s += askedAt(evidence, state, *margin);
    }
  }
  return sum_m3_s;
}

/// Runs that one size of a duct passes: all of them change with its bore.
std::vector<std::size_t> runsOfBore(const Evidence& evidence, std::size_t state, const Stretch& at) {
  std::vector<std::size_t> out;
  for (std::size_t r = 0; r < evidence.pieces().runs.size(); ++r) {
    const std::vector<Stretch> stretches = stretchesOf(evidence, state, r);
    if (std::any_of(stretches.begin(), stretches.end(), [&](const Stretch& each) {
          return each.duct == at.duct && std::abs(each.bore_m - at.bore_m) < kExact_m;
        })) {
      out.push_back(r);
    }
  }
  return out;
}

/// Whether every open machine gets what it asks.
bool works(const StateMargins& state) {
  const auto fed = [](const FlowMargin& margin) { return margin.served != Served::Short; };
  return state.served && std::all_of(state.ports.begin(), state.ports.end(), fed) &&
         std::all_of(state.machines.begin(), state.machines.end(), fed);
}

/// The most that any of these runs must carry for what works today.
double mostAsked(const Evidence& evidence, const std::vector<std::size_t>& runs) {
  double most_m3_s = 0;
  for (std::size_t s = 0; s < evidence.margins.size(); ++s) {
    if (evidence.state(s).declared && works(evidence.margins[s])) {
      for (const std::size_t run : runs) {
        most_m3_s = std::max(most_m3_s, asked(evidence, s, run));
      }
    }
  }
  return most_m3_s;
}

/// Whether the drawn air of one run comes to another.
bool leadsTo(const pieces::Pieces& drawing, std::size_t from, std::size_t to) {
  std::vector<char> seen(drawing.runs.size(), 0);
  std::vector<std::size_t> runs{from};
  while (!runs.empty()) {
    const std::size_t run = runs.back();
    runs.pop_back();
    if (run == to) {
      return true;
    }
    if (seen[run] != 0) {
      continue;
    }
    seen[run] = 1;
    for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
      if (drawing.runs[r].from == drawing.runs[run].to) {
        runs.push_back(r);
      }
    }
  }
  return false;
}

/// The least that a port gets in any declared state in which it is open.
double usualFlow(const Evidence& evidence, std::size_t port) {
  std::optional<double> least;
  for (std::size_t s = 0; s < evidence.margins.size(); ++s) {
    const FlowMargin* margin = portMargin(evidence, s, port);
    if (margin != nullptr && margin->open && margin->flow_m3_s > 0) {
      least = std::min(least.value_or(margin->flow_m3_s), margin->flow_m3_s);
    }
  }
  return least.value_or(0);
}

/// A gate before the slow part that one can open as well: the smallest that brings enough, else the one that
/// brings most.
std::optional<Remedy> secondGate(const Evidence& evidence, std::size_t state, const SlowPart& worst,
                                 double lacking_m3_s) {
  const StateResult& now = evidence.state(state);
  if (!now.declared || !works(evidence.margins[state])) {
    return std::nullopt;  // nobody has air to spare
  }
  const pieces::Pieces& drawing = evidence.pieces();
  std::optional<std::size_t> best;
  double best_m3_s = 0;
  for (std::size_t g = 0; g < drawing.gates.size(); ++g) {
    if (now.situation.gate_travel[g] > 0 || !leadsTo(drawing, drawing.gates[g].run, worst.stretch.run)) {
      continue;
    }
    network::Situation opened = now.situation;
    opened.gate_travel[g] = 1;
    double brings_m3_s = 0;
    for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
      if (isOpen(drawing, opened, p) && !isOpen(drawing, now.situation, p)) {
        brings_m3_s += usualFlow(evidence, p);
      }
    }
    const bool enough = brings_m3_s >= lacking_m3_s;
    const bool best_enough = best_m3_s >= lacking_m3_s;
    if (brings_m3_s > 0 && (!best || (enough && (!best_enough || brings_m3_s < best_m3_s)) ||
                            (!enough && !best_enough && brings_m3_s > best_m3_s))) {
      best = g;
      best_m3_s = brings_m3_s;
    }
  }
  if (!best) {
    return std::nullopt;
  }
  return Remedy{"open-gate",
                {},
                {drawing.gates[*best].label},
                Change{ChangeKind::GateOpen, drawing.gates[*best].id, now.id, 0, false},
                {},
                {}};
}

void addRemedies(const Evidence& evidence, std::size_t state, const SlowPart& worst,
                 const std::vector<std::size_t>& ports, Finding& finding) {
  const Stretch& at = worst.stretch;
  const double needed_m3_s = worst.margin->minimum_m_s * boreArea(at.bore_m);
  const double lacking_m3_s = needed_m3_s - at.flow_m3_s;
  // What the duct is there for: the air that its machines ask, where they get less.
  const double meant_m3_s = std::max(at.flow_m3_s, asked(evidence, state, at.run));
  double least_m = 0;
  for (const std::size_t p : ports) {
    least_m = std::max(least_m, kSameBore * evidence.pieces().ports[p].bore_m);
  }
  const double most_m3_s = mostAsked(evidence, runsOfBore(evidence, state, at));
  const auto narrower = [&](double bore_m) {
    return meant_m3_s < needed_m3_s && bore_m < kNarrower * at.bore_m && bore_m > least_m;
  };
  const auto carries = [&](double bore_m) {
    return meant_m3_s >= kSpare * worst.margin->minimum_m_s * boreArea(bore_m);
  };
  const auto fits = [&](double bore_m) {
    return most_m3_s <= kRoom * worst.margin->advised_m_s * boreArea(bore_m);
  };
  const auto suits = boreOf(evidence, at, Pick::Greatest,
                            [&](double bore_m) { return narrower(bore_m) && carries(bore_m); });
  if (suits) {
    finding.figures.push_back({"suits", *suits, base::Kind::Bore});
  }
  const bool cures = suits && fits(*suits);
  const auto taken = cures ? suits : boreOf(evidence, at, Pick::Least, [&](double bore_m) {
    return narrower(bore_m) && fits(bore_m);
  });
  if (taken) {
    finding.remedies.push_back(
        {"smaller-duct",
         {{"bore", *taken, base::Kind::Bore}},
         {finding.label},
         Change{ChangeKind::LegBore, at.duct->id, at.duct->corners[at.corner].id, *taken, false},
         {},
         {}});
  }
  if (auto gate = secondGate(evidence, state, worst, lacking_m3_s)) {
    finding.remedies.push_back(std::move(*gate));
  }
  if (suits && !cures) {
    finding.remedies.push_back(
        {"keep-moving", {{"flow", lacking_m3_s, base::Kind::VolumeFlow}}, {finding.label}, {}, {}, {}});
  }
  if (finding.remedies.empty()) {
    finding.remedies.push_back(
        {"more-air", {{"flow", needed_m3_s, base::Kind::VolumeFlow}}, {finding.label}, {}, {}, {}});
  }
}

Severity severityOf(Zone zone) {
  switch (zone) {
    case NotCarried:
      return Severity::Serious;
    case Slow:
      return Severity::Caution;
    default:
      return Severity::Note;
  }
}

const char* zoneWord(Zone zone) {
  return zone == NotCarried ? "not-carried" : (zone == Slow ? "slow" : "marginal");
}

Finding findingOf(const Evidence& evidence, std::size_t state, const std::vector<SlowPart>& parts) {
  const SlowPart& worst = parts.front();
  const Stretch& at = worst.stretch;
  const double minimum_m_s = worst.margin->minimum_m_s;
  Finding finding = aboutDuct(*at.duct);
  finding.state = state;
  // Chips fly only where machines work: what nobody does is worth knowing at most.
  finding.severity = evidence.state(state).declared ? severityOf(worst.judged.zone) : Severity::Note;
  double length_m = 0;
  for (const SlowPart& part : parts) {
    length_m += part.stretch.length_m;
    if (std::find(finding.runs.begin(), finding.runs.end(), part.stretch.run) == finding.runs.end()) {
      finding.runs.push_back(part.stretch.run);
    }
  }
  finding.figures = {{"slowest", at.speed_m_s, base::Kind::Speed},
                     {"needed", minimum_m_s, base::Kind::Speed},
                     {"length", length_m, base::Kind::Length},
                     {"bore", at.bore_m, base::Kind::Bore},
                     {"flow", at.flow_m3_s, base::Kind::VolumeFlow},
                     {"flow-needed", minimum_m_s * boreArea(at.bore_m), base::Kind::VolumeFlow}};
  finding.limit = speedLimit(evidence, *worst.margin, minimum_m_s);
  finding.badness = at.speed_m_s > 0 ? badnessOf(minimum_m_s / at.speed_m_s) : badnessOf(HUGE_VAL);
  const std::vector<std::size_t> ports = portsThrough(evidence, state, at.run);
  finding.words = {zoneWord(zoneOf(*worst.margin, at.speed_m_s)), worst.judged.sure ? "sure" : "doubtful",
                   chipsName(evidence, worst.margin->material)};
  for (std::string& name : machinesOf(evidence, ports)) {
    finding.words.push_back(std::move(name));
  }
  addRemedies(evidence, state, worst, ports, finding);
  return finding;
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (std::size_t s = 0; s < evidence.margins.size(); ++s) {
    if (!evidence.solved(s) || evidence.state(s).solution.outcome == network::Outcome::Still) {
      continue;
    }
    for (const std::vector<SlowPart>& parts : slowParts(evidence, s)) {
      out.push_back(findingOf(evidence, s, parts));
    }
  }
}

std::string ownerWords(const Finding& finding, const Voice& voice, const std::string& chips, bool sure) {
  const std::string& zone = finding.words[0];
  const std::string speeds =
      fmt::format("{} over {}, where {} is wanted", voice.show(finding.figure("slowest")),
                  voice.show(finding.figure("length")), voice.show(finding.figure("needed")));
  if (zone == "not-carried") {
    return fmt::format("In {} the air is too slow for {}: {}. They {} there and choke it in time.",
                       finding.label, chips, speeds, sure ? "pile up" : "may pile up");
  }
  if (zone == "slow") {
    return fmt::format("In {} the air is slow for {}: {}. Some {} lying, first behind the elbows.",
                       finding.label, chips, speeds, sure ? "stay" : "may stay");
  }
  return fmt::format("In {} the air is a little slow for {}: {}. Look into it now and then.", finding.label,
                     chips, speeds);
}

std::string tell(const Finding& finding, const Voice& voice) {
  const bool sure = finding.words[1] == "sure";
  const std::string machines = listedFrom(finding, 3);
  const std::string chips =
      machines.empty() ? finding.words[2] : fmt::format("{} from {}", finding.words[2], machines);
  const Figure* suits = finding.findFigure("suits");
  switch (voice.reader()) {
    case Reader::Owner:
      return ownerWords(finding, voice, chips, sure);
    case Reader::Adviser:
      return fmt::format(
          "Slowest {} in {} ({} at {}), {} long below the {} that {} needs; that is {} in this bore{}.{}",
          voice.show(finding.figure("slowest")), finding.label, voice.show(finding.figure("bore")),
          voice.show(finding.figure("flow")), voice.show(finding.figure("length")),
          voice.show(finding.figure("needed")), chips, voice.show(finding.figure("flow-needed")),
          suits != nullptr ? fmt::format(", or a bore of {} for this flow", voice.show(*suits)) : "",
          sure ? "" : " The upper end of the prediction lies above the limit that the prediction misses.");
    case Reader::Inspector:
      return fmt::format("{}: duct velocity {} over {}, {} intended for {}. {}", finding.label,
                         voice.show(finding.figure("slowest")), voice.show(finding.figure("length")),
                         voice.show(finding.figure("needed")), chips, sure ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kChipsSettle{"chips-settle", Topic::Conveying, "Air too slow for its chips", &look, &tell};

}  // namespace kerfdraft::judge
