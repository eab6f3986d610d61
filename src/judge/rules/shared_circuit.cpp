// A machine and its collector on one electric circuit, in use together: the breaker opens in the middle of a
// cut, or the second motor never starts. One finding for each circuit, in its heaviest state.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "catalogue/machines.h"
#include "judge/rules/fan_support.h"
#include "judge/rules/people_rules.h"
#include "judge/rules/people_support.h"

namespace kerfdraft::judge {

namespace {

/// Nominal voltages of the table; a socket's 120, 240 and 480 V are its 115, 230 and 460 V.
constexpr std::array kTableVolts = {115.0, 208.0, 230.0, 400.0, 460.0};
constexpr double kSameVoltage = 0.06;
/// Countries on 60 Hz for which the table's rows hold (from memory).
constexpr std::array kSixtyHertz = {"US", "CA", "MX"};

std::optional<double> tableVolts(double volts) {
  std::optional<double> best;
  for (const double each : kTableVolts) {
    const double off = std::abs(volts / each - 1);
    if (off <= kSameVoltage && (!best || off < std::abs(volts / *best - 1))) {
      best = each;
    }
  }
  return best;
}

/// What runs on a circuit in one state.
struct Load {
  std::size_t state = 0;
  std::vector<std::string> machines;
  std::vector<std::string> collectors;
  pieces::PieceKey key;
  double current_a = 0;  ///< of those motors whose current is known
  std::size_t unknown = 0;
  std::optional<catalogue::Origin> origin;
};

class Circuits {
 public:
  explicit Circuits(const Evidence& evidence) : evidence_(evidence) {}

  std::optional<Load> heaviest(const shop::Circuit& circuit) const {
    std::optional<Load> found;
    for (std::size_t s = 0; s < evidence_.assessment.states.size(); ++s) {
      if (!evidence_.state(s).declared) {
        continue;
      }
      Load load = loadIn(circuit, s);
      const bool together = !load.collectors.empty() && load.machines.size() + load.collectors.size() > 1;
      if (together && (!found || load.current_a > found->current_a)) {
        found = std::move(load);
      }
    }
    return found;
  }

 private:
  void add(const shop::Circuit& circuit, const std::optional<base::Given<base::Power>>& power,
           Load& load) const {
    const auto& sixty = kSixtyHertz;
    const bool is_sixty =
        std::find(sixty.begin(), sixty.end(), evidence_.project().setting.country) != sixty.end();
    const auto volts = tableVolts(circuit.voltage.si());
    const auto row = power && volts
                         ? catalogue::motorCurrent(evidence_.catalogue, power->si(),
                                                   circuit.three_phase ? 3 : 1, *volts, is_sixty ? 60 : 50)
                         : std::nullopt;
    if (!row) {
      ++load.unknown;
      return;
    }
    load.current_a += row->current_to_a.value_or(row->current_a);
    load.origin = row->origin;
  }

  Load loadIn(const shop::Circuit& circuit, std::size_t s) const {
    Load load;
    load.state = s;
    const pieces::Pieces& drawing = evidence_.pieces();
    const network::Situation& situation = evidence_.state(s).situation;
    for (const shop::Collector* collector : printed(evidence_.project().collectors)) {
      const auto f = fanOf(drawing, collector->id);
      if (!f || collector->circuit != circuit.id || !runs(s, collector->id)) {
        continue;
      }
      if (load.collectors.empty()) {
        load.key = drawing.fans[*f].key;
      }
      load.collectors.push_back(fanName(drawing, *f));
      add(circuit, collector->motor.power, load);
    }
    for (const shop::Machine* each : printed(evidence_.project().machines)) {
      const shop::Machine& machine = *each;
      if (machine.circuit != circuit.id) {
        continue;
      }
      for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
        if (drawing.ports[p].ref.machine == machine.id && isOpen(drawing, situation, p)) {
          load.machines.push_back(evidence_.machineName(machine.id));
          add(circuit, machine.motor, load);
          break;
        }
      }
    }
    return load;
  }

  bool runs(std::size_t s, base::Id collector) const {
    const auto& states = evidence_.project().states;
    const auto state = std::find_if(states.begin(), states.end(), [&](const shop::State& each) {
      return each.id == evidence_.state(s).id;
    });
    return state == states.end() ||
           std::find(state->off.begin(), state->off.end(), collector) == state->off.end();
  }

  const Evidence& evidence_;
};

void look(const Evidence& evidence, std::vector<Finding>& out) {
  const Circuits circuits(evidence);
  for (const shop::Circuit& circuit : evidence.project().circuits) {
    const auto load = circuits.heaviest(circuit);
    if (!load) {
      continue;
    }
    Finding finding;
    finding.key = load->key;
    finding.label = circuit.label.empty() ? "A circuit" : circuit.label;
    finding.state = load->state;
    finding.words = load->machines;
    finding.words.insert(finding.words.end(), load->collectors.begin(), load->collectors.end());
    if (load->current_a > 0) {
      finding.figures.push_back({"current", load->current_a, base::Kind::Current});
      finding.figures.push_back({"unknown", static_cast<double>(load->unknown), base::Kind::Ratio});
    }
    const bool over = circuit.breaker && load->current_a > circuit.breaker->si();
    if (circuit.breaker) {
      finding.figures.push_back({"breaker", circuit.breaker->si(), base::Kind::Current});
      finding.badness = over ? badnessOf(load->current_a / circuit.breaker->si()) : 0;
    }
    if (load->origin) {
      const double held_a = circuit.breaker ? circuit.breaker->si() : load->current_a;
      finding.limit = limitOf(*load->origin, held_a, base::Kind::Current);
      finding.limit->words =
          circuit.breaker ? fmt::format("the breaker of {:.3g} A; currents of motors from the table", held_a)
                          : std::string("currents of motors from the table");
    }
    finding.severity = over ? Severity::Caution : Severity::Note;
    finding.defers = true;
    finding.remedies = {{"own-circuit", {}, {listed(load->collectors)}, {}, {}, {}}};
    out.push_back(std::move(finding));
  }
}

std::string tell(const Finding& finding, const Voice& voice) {
  const std::string all = listedFrom(finding, 0);
  const Figure* current = finding.findFigure("current");
  const Figure* breaker = finding.findFigure("breaker");
  const Figure* unknown = finding.findFigure("unknown");
  const bool over = current != nullptr && breaker != nullptr && current->value > breaker->value;
  const bool part = unknown != nullptr && unknown->value > 0;
  std::string sum;
  if (current != nullptr) {
    sum = fmt::format("{} at full load{}{}", voice.show(*current), part ? " without those not known" : "",
                      breaker == nullptr ? "" : fmt::format(", on a breaker of {}", voice.show(*breaker)));
  }
  switch (voice.reader()) {
    case Reader::Owner:
      return over ? fmt::format(
                        "{} hang on one circuit and run together: {}. It opens as soon as "
                        "both work hard.",
                        all, sum)
                  : fmt::format(
                        "{} hang on one circuit and run together{}. Starting takes several times that, "
                        "so the breaker may open when the second starts.",
                        all, sum.empty() ? std::string() : ": " + sum);
    case Reader::Adviser:
      return fmt::format(
          "One circuit for {}{}. Starting currents are six to eight times as large (common practice).", all,
          sum.empty() ? std::string("; the currents are not known") : ": " + sum);
    case Reader::Inspector:
      return fmt::format("{}: common circuit of {}{}. {}", finding.label, all,
                         sum.empty() ? std::string() : ", " + sum, over ? "Not met." : "Cannot conclude.");
  }
  return {};
}

}  // namespace

const Rule kSharedCircuit{"shared-circuit", Topic::People, "Machine and collector on one circuit", &look,
                          &tell};

}  // namespace kerfdraft::judge
