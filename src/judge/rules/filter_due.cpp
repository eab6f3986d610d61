// What the filter's age costs: which machines are served only while it is clean, which fall short before it
// is due, and the gauge reading at which to clean it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "judge/rules/fan_support.h"
#include "judge/rules/filter_bin_rules.h"
#include "judge/rules/filter_support.h"

namespace kerfdraft::judge {

namespace {

/// Flow through a collector and the pressure across all its filters.
struct Point {
  double flow_m3_s = 0;
  double drop_pa = 0;
};

std::optional<Point> pointOf(const Evidence& evidence, const network::Solution& solution, std::size_t fan,
                             const shop::Collector& collector) {
  Point out;
  for (const shop::Filter& filter : collector.filters) {
    const auto air = filterAir(evidence.pieces(), solution, filter.id);
    if (!air) {
      return std::nullopt;
    }
    out.drop_pa += air->drop_pa;
  }
  out.flow_m3_s = solution.fans[fan].inlet_flow_m3_s;
  return out;
}

/// A port that is served at one end of the filter's life and not at the other.
struct Turned {
  std::size_t port = 0;
  double need_m3_s = 0;
  double before_m3_s = 0;
  double after_m3_s = 0;
};

/// Ports on a fan that `before` serves and `after` does not.
std::vector<Turned> turned(const Evidence& evidence, std::size_t state, std::size_t fan,
                           const network::Solution& before, const network::Solution& after) {
  std::vector<Turned> out;
  for (const std::size_t p : portsOn(evidence, state, fan)) {
    const auto need_m3_s = servedFrom(evidence.margins[state].ports[p]);
    if (need_m3_s && before.ports[p].flow_m3_s >= *need_m3_s && after.ports[p].flow_m3_s < *need_m3_s) {
      out.push_back({p, *need_m3_s, before.ports[p].flow_m3_s, after.ports[p].flow_m3_s});
    }
  }
  return out;
}

/// The pressure across the filter at which the first of these ports falls short: linear in the port's flow
/// between the two ends (test: FilterDue.CleaningPressureAgreesWithTheSolver).
double firstFall(const std::vector<Turned>& ports, const Point& before, const Point& after) {
  double earliest = 1;
  for (const Turned& port : ports) {
    earliest = std::min(earliest, (port.before_m3_s - port.need_m3_s) / (port.before_m3_s - port.after_m3_s));
  }
  return before.drop_pa + earliest * (after.drop_pa - before.drop_pa);
}

/// Nothing is known of its pressure drops or part of them.
bool guessed(const shop::Collector& collector) {
  return std::any_of(collector.filters.begin(), collector.filters.end(),
                     [](const shop::Filter& filter) { return !filter.seasoned || !filter.due; });
}

struct Life {
  std::size_t state = 0;
  Point clean;
  Point now;
  Point due;
};

Finding findingOf(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
                  const Life& life) {
  Finding finding = aboutFan(evidence, fan);
  finding.key = {pieces::Role::Filter, collector.filters.front().id, {}};
  finding.label = collector.filters.size() == 1 ? filterLabel(collector, collector.filters.front())
                                                : "Filters of " + finding.label;
  finding.state = life.state;
  finding.words = {"life", guessed(collector) ? "guessed" : "given"};
  finding.figures = {{"flow-clean", life.clean.flow_m3_s, base::Kind::VolumeFlow},
                     {"flow-now", life.now.flow_m3_s, base::Kind::VolumeFlow},
                     {"flow-due", life.due.flow_m3_s, base::Kind::VolumeFlow},
                     {"pressure-clean", life.clean.drop_pa, base::Kind::Pressure},
                     {"pressure-now", life.now.drop_pa, base::Kind::Pressure},
                     {"pressure-due", life.due.drop_pa, base::Kind::Pressure}};
  return finding;
}

void addPorts(const Evidence& evidence, const std::vector<Turned>& ports, Finding& finding) {
  for (const Turned& port : ports) {
    finding.ports.push_back(port.port);
    finding.words.push_back(evidence.pieces().ports[port.port].label);
  }
}

Remedy cleaning(const Evidence& evidence, const Finding& finding, const std::string& unit, double at_pa) {
  return {"clean-filter",
          {{"pressure", at_pa, base::Kind::Pressure}},
          {unit},
          Change{ChangeKind::FilterClean, {}, evidence.state(*finding.state).id, 0, false},
          {},
          {}};
}

Remedy cleaningAt(const std::string& unit, double at_pa) {
  return {"clean-filter-at", {{"pressure", at_pa, base::Kind::Pressure}}, {unit}, {}, {}, {}};
}

/// A port falls short in this state as it stands and would not with a clean filter.
Finding shortNow(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
                 const Life& life, const std::vector<Turned>& ports) {
  Finding finding = findingOf(evidence, fan, collector, life);
  finding.words[0] = "now";
  addPorts(evidence, ports, finding);
  // Where the state is that of a filter which is due, this is what being due means.
  const bool due = evidence.state(life.state).situation.filter == shop::FilterState::Due;
  finding.severity = due ? Severity::Caution : Severity::Serious;
  finding.badness = badnessOf(life.clean.flow_m3_s / std::max(1e-9, life.now.flow_m3_s));
  const double at_pa = firstFall(ports, life.clean, life.now);
  finding.figures.push_back({"clean-at", at_pa, base::Kind::Pressure});
  finding.remedies = {cleaning(evidence, finding, fanLabel(evidence, fan), at_pa)};
  return finding;
}

/// A port is served as it stands and falls short before the filter is due.
Finding shortWhenDue(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
                     const Life& life, const std::vector<Turned>& ports) {
  Finding finding = findingOf(evidence, fan, collector, life);
  finding.words[0] = "due";
  addPorts(evidence, ports, finding);
  finding.severity = Severity::Caution;
  finding.badness = badnessOf(life.now.flow_m3_s / std::max(1e-9, life.due.flow_m3_s));
  const double at_pa = firstFall(ports, life.now, life.due);
  finding.figures.push_back({"clean-at", at_pa, base::Kind::Pressure});
  finding.remedies = {cleaningAt(fanLabel(evidence, fan), at_pa)};
  return finding;
}

/// Nothing hangs on it: what its age costs in the state where it costs most.
Finding wholeLife(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
                  const Life& life) {
  Finding finding = findingOf(evidence, fan, collector, life);
  finding.severity = Severity::Note;
  finding.badness = badnessOf(life.clean.flow_m3_s / std::max(1e-9, life.due.flow_m3_s));
  finding.figures.push_back({"clean-at", life.due.drop_pa, base::Kind::Pressure});
  finding.remedies = {cleaningAt(fanLabel(evidence, fan), life.due.drop_pa)};
  return finding;
}

std::optional<Life> lifeOf(const Evidence& evidence, std::size_t state, std::size_t fan,
                           const shop::Collector& collector) {
  const FilterLife& life = evidence.filter_life[state];
  if (!evidence.solved(state) || !life.clean || !life.due ||
      !evidence.state(state).solution.fans[fan].running) {
    return std::nullopt;
  }
  const auto clean = pointOf(evidence, *life.clean, fan, collector);
  const auto now = pointOf(evidence, evidence.state(state).solution, fan, collector);
  const auto due = pointOf(evidence, *life.due, fan, collector);
  if (!clean || !now || !due || !(clean->flow_m3_s > 0)) {
    return std::nullopt;
  }
  return Life{state, *clean, *now, *due};
}

/// Of one collector: a finding for each state in which a port is short by the filter; else one for the state
/// in which a port falls short first as it loads; else one note.
void lookAt(const Evidence& evidence, std::size_t fan, const shop::Collector& collector,
            std::vector<Finding>& out) {
  const std::size_t before = out.size();
  std::optional<Finding> first_due;
  std::optional<Life> dearest;
  for (std::size_t s = 0; s < evidence.assessment.states.size(); ++s) {
    const auto life = lifeOf(evidence, s, fan, collector);
    if (!life) {
      continue;
    }
    const network::Solution& now = evidence.state(s).solution;
    const std::vector<Turned> short_now = turned(evidence, s, fan, *evidence.filter_life[s].clean, now);
    const std::vector<Turned> short_due = turned(evidence, s, fan, now, *evidence.filter_life[s].due);
    if (!short_now.empty()) {
      out.push_back(shortNow(evidence, fan, collector, *life, short_now));
    } else if (!short_due.empty()) {
      Finding finding = shortWhenDue(evidence, fan, collector, *life, short_due);
      if (!first_due || finding.figure("clean-at").value < first_due->figure("clean-at").value) {
        first_due = std::move(finding);
      }
    } else if (!dearest || life->clean.flow_m3_s - life->due.flow_m3_s >
                               dearest->clean.flow_m3_s - dearest->due.flow_m3_s) {
      dearest = life;
    }
  }
  if (first_due) {
    out.push_back(std::move(*first_due));
  } else if (out.size() == before && dearest) {
    out.push_back(wholeLife(evidence, fan, collector, *dearest));
  }
}

void look(const Evidence& evidence, std::vector<Finding>& out) {
  for (const shop::Collector& collector : evidence.project().collectors) {
    const auto fan = fanOf(evidence.pieces(), collector.id);
    if (fan && !collector.filters.empty()) {
      lookAt(evidence, *fan, collector, out);
    }
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string clean = voice.show(finding.figure("flow-clean"));
  const std::string now = voice.show(finding.figure("flow-now"));
  const std::string due = voice.show(finding.figure("flow-due"));
  const std::string at = voice.show(finding.figure("clean-at"));
  const std::string who = listedFrom(finding, 2);
  const bool one = finding.words.size() == 3;
  const std::string guess = finding.words[1] == "guessed" ? (voice.reader() == Reader::Owner
                                                                 ? " How fast this filter loads is a guess."
                                                                 : " Drops of the filter are partly assumed.")
                                                          : "";
  if (finding.words[0] == "now") {
    switch (voice.reader()) {
      case Reader::Owner:
        return fmt::format(
            "{} {} enough air only while the filter is cleaner: {} go through it clean, {} as it stands.{}",
            who, one ? "gets" : "get", clean, now, guess);
      case Reader::Adviser:
        return fmt::format(
            "{}: {} through it clean, {} as it stands, {} across it. {} {} served only below about {}.{}",
            finding.label, clean, now, voice.show(finding.figure("pressure-now")), who, one ? "is" : "are",
            at, guess);
      case Reader::Inspector:
        return fmt::format(
            "{}: {} through it clean, {} as it stands; intended flow at {} not met as it stands.{}",
            finding.label, clean, now, who, guess);
    }
  }
  if (finding.words[0] == "due") {
    switch (voice.reader()) {
      case Reader::Owner:
        return fmt::format(
            "{} {} short of air before the filter is due. Clean it when its gauge shows about {}.{}", who,
            one ? "runs" : "run", at, guess);
      case Reader::Adviser:
        return fmt::format("{}: {} now, {} when due ({} across it). {} {} short from about {} on.{}",
                           finding.label, now, due, voice.show(finding.figure("pressure-due")), who,
                           one ? "falls" : "fall", at, guess);
      case Reader::Inspector:
        return fmt::format("{}: intended flow at {} met now, not met beyond about {} across the filter.{}",
                           finding.label, who, at, guess);
    }
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return fmt::format(
          "{}: from clean to due {} of the air is lost. Clean it when the gauge shows about {}.{}",
          finding.label,
          voice.percent(1 - finding.figure("flow-due").value / finding.figure("flow-clean").value), at,
          guess);
    case Reader::Adviser:
      return fmt::format(
          "{}: {} clean, {} now, {} when due, with {}, {} and {} across it; no port falls short by "
          "it.{}",
          finding.label, clean, now, due, voice.show(finding.figure("pressure-clean")),
          voice.show(finding.figure("pressure-now")), voice.show(finding.figure("pressure-due")), guess);
    case Reader::Inspector:
      return fmt::format(
          "{}: intended flows are held from clean ({}) to due ({}); due at {} across the filter.{}",
          finding.label, clean, due, at, guess);
  }
  return {};
}

}  // namespace

const Rule kFilterDue{"filter-due", Topic::FilterAndBin, "What the filter costs", &look, &tidied<tell>};

}  // namespace kerfdraft::judge
