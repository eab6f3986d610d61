// One line each; where a figure comes from stands beside its constant.
#include "cli/cautions.h"

#include <fmt/format.h>

#include <algorithm>

namespace kerfdraft::cli {
namespace {

/// Rooms deeper under suction than this are said to be a danger to natural draft [Pa]: such appliances are
/// known to spill from 2 to 5 Pa (weatherization practice in the United States, from memory).
constexpr double kSpill_pa = 2.0;
/// From here on a room without such an appliance gets a word too: the upper end of that range (ours).
constexpr double kDeep_pa = 5.0;

class Cautions {
 public:
  Cautions(const judge::Assessment& assessment, const std::vector<std::size_t>& states)
      : assessment_(assessment), project_(*assessment.project), states_(states) {}

  std::vector<std::string> lines() {
    carbonMonoxide();
    fire();
    returnedAir();
    people();
    return std::move(lines_);
  }

 private:
  void carbonMonoxide() {
    for (const shop::Room& room : project_.rooms) {
      const auto [pressure_pa, state] = deepest(room.id);
      if (!room.natural_draft_appliance) {
        if (pressure_pa < -kDeep_pa) {
          lines_.push_back(fmt::format(
              "Make-up air: state \"{}\" pulls {} to {:.0f} Pa. A flame that shares its air would spill flue "
              "gas, and doors are hard to open. Give the air a way in.",
              state, room.label, pressure_pa));
        }
        continue;
      }
      if (pressure_pa < -kSpill_pa) {
        lines_.push_back(fmt::format(
            "Carbon monoxide: {} holds an appliance that takes its air from the room, and state \"{}\" pulls "
            "the room to "
            "{:.0f} Pa. Such appliances can spill flue gas from about 2 to 5 Pa. Open a way for make-up air "
            "before the "
            "fan runs, keep a carbon monoxide alarm, and have a licensed heating trade test the draft.",
            room.label, state, pressure_pa));
      } else if (blowsOutdoors()) {
        lines_.push_back(fmt::format(
            "Carbon monoxide: {} holds an appliance that takes its air from the room, and a fan blows "
            "outdoors. {} Keep a "
            "carbon monoxide alarm and have a licensed heating trade test the draft with everything running.",
            room.label,
            allSolved()
                ? fmt::format("With the openings of this project the room stays within {:.0f} Pa; shut doors "
                              "change that.",
                              kSpill_pa)
                : "How deep the room is pulled is not known, since a state has no solution."));
      } else {
        lines_.push_back(
            fmt::format("Carbon monoxide: {} holds an appliance that takes its air from the room. Never lead "
                        "the collector's air "
                        "outdoors without as much make-up air, and keep a carbon monoxide alarm.",
                        room.label));
      }
    }
  }

  bool allSolved() const {
    return std::all_of(states_.begin(), states_.end(),
                       [&](std::size_t s) { return assessment_.states[s].solution.solved(); });
  }

  void fire() {
    const bool sanding =
        std::any_of(project_.machines.begin(), project_.machines.end(), [](const shop::Machine& m) {
          return m.chips == "sander-dust" || m.kind.find("sander") != std::string::npos ||
                 m.kind.find("sanding") != std::string::npos;
        });
    if (sanding) {
      lines_.push_back(
          "Fire: dust of sanders goes through these ducts; raised in a cloud it can explode. Keep sparks, "
          "metal and "
          "finishing vapour out, empty the bin outdoors into covered metal, and ask the fire authority and "
          "the insurer "
          "what they require of the collector and its place.");
    }
  }

  void returnedAir() {
    for (const shop::Collector& collector : project_.collectors) {
      if (collector.discharge.room.valid()) {
        lines_.push_back(fmt::format(
            "Fine dust: the air of {} comes back into the room, with what its filter lets through. Flows do "
            "not say what is breathed; limits and their fractions: kerfdraft catalogue limits.",
            collector.label));
      }
    }
  }

  void people() {
    if (project_.setting.who == shop::Who::Employer || project_.setting.who == shop::Who::School) {
      lines_.push_back(
          "Others work here: local law sets limits, examinations and records. These figures are a plan, not "
          "an "
          "approval; ask the authority and a competent examiner.");
    }
  }

  bool blowsOutdoors() const {
    return std::any_of(assessment_.pieces->runs.begin(), assessment_.pieces->runs.end(),
                       [&](const pieces::Run& run) {
                         return assessment_.pieces->nodes[run.to].kind == pieces::NodeKind::Outdoors;
                       });
  }

  /// The deepest suction of a room in the shown states, and in which.
  std::pair<double, std::string> deepest(base::Id room) const {
    std::pair<double, std::string> found{0, ""};
    const auto& nodes = assessment_.pieces->nodes;
    for (const std::size_t s : states_) {
      const judge::StateResult& state = assessment_.states[s];
      for (std::size_t n = 0; state.solution.solved() && n < nodes.size(); ++n) {
        if (nodes[n].kind == pieces::NodeKind::Room && nodes[n].key.a == room &&
            state.solution.node_pa[n] < found.first) {
          found = {state.solution.node_pa[n], state.name};
        }
      }
    }
    return found;
  }

  const judge::Assessment& assessment_;
  const shop::Project& project_;
  const std::vector<std::size_t>& states_;
  std::vector<std::string> lines_;
};

}  // namespace

std::vector<std::string> cautions(const judge::Assessment& assessment,
                                  const std::vector<std::size_t>& states) {
  return Cautions(assessment, states).lines();
}

}  // namespace kerfdraft::cli
