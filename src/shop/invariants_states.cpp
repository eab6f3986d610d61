// States of use: only what is there, each once.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "shop/survey.h"

namespace kerfdraft::shop {
namespace {

using base::ErrorCode;

void checkGates(Survey& survey, const State& state) {
  std::unordered_set<Id> seen;
  for (std::size_t k = 0; k < state.gates.size(); ++k) {
    const GateSetting& setting = state.gates[k];
    Survey::Place place(survey, "gates", k);
    if (!survey.expect(setting.gate, Thing::Gate, "gate", false)) {
      continue;
    }
    const std::string& label = survey.find<Gate>(setting.gate, Thing::Gate)->label;
    if (!seen.insert(setting.gate).second) {
      survey.problem(ErrorCode::Conflict, fmt::format("gate {} stands twice in this state", label));
    }
    if (!(setting.travel.si() >= 0 && setting.travel.si() <= 1)) {
      Survey::Place travel(survey, "travel");
      survey.problem(ErrorCode::Range,
                     fmt::format("the travel \"{}\" of gate {} is outside 0 (shut) to 1 (open)",
                                 setting.travel.text(), label));
    }
  }
}

void checkHoses(Survey& survey, const State& state) {
  std::unordered_set<Id> seen;
  std::map<Id, std::string> taken;
  for (std::size_t k = 0; k < state.hoses.size(); ++k) {
    const HosePlace& hose = state.hoses[k];
    Survey::Place place(survey, "hoses", k);
    if (!survey.expect(hose.duct, Thing::Duct, "duct", false)) {
      continue;
    }
    const Duct& duct = *survey.find<Duct>(hose.duct, Thing::Duct);
    const auto* end = std::get_if<MovedEnd>(&duct.from);
    if (end == nullptr) {
      survey.problem(ErrorCode::Conflict, fmt::format("duct {} is not a moved hose", duct.label));
      continue;
    }
    if (!seen.insert(hose.duct).second) {
      survey.problem(ErrorCode::Conflict, fmt::format("hose {} stands twice in this state", duct.label));
    }
    if (!survey.expect(hose.place, "place")) {
      continue;
    }
    const std::string port =
        fmt::format("port {} of machine {}", survey.find<Port>(hose.place.port, Thing::Port)->label,
                    survey.find<Machine>(hose.place.machine, Thing::Machine)->label);
    if (std::find(end->places.begin(), end->places.end(), hose.place) == end->places.end()) {
      survey.problem(ErrorCode::Conflict,
                     fmt::format("{} is not one of the places of hose {}", port, duct.label));
    } else if (const auto [at, fresh] = taken.emplace(hose.place.port, duct.label); !fresh) {
      survey.problem(ErrorCode::Conflict,
                     fmt::format("hoses {} and {} are both at {}", at->second, duct.label, port));
    }
  }
}

void checkOff(Survey& survey, const State& state) {
  std::unordered_set<Id> seen;
  for (std::size_t k = 0; k < state.off.size(); ++k) {
    Survey::Place place(survey, "off", k);
    const Owner* owner = survey.find(state.off[k]);
    if (owner == nullptr || (owner->thing != Thing::Collector && owner->thing != Thing::Blower)) {
      survey.problem(ErrorCode::Reference,
                     fmt::format("no collector or blower has the id {}", state.off[k].text()));
    } else if (!seen.insert(state.off[k]).second) {
      survey.problem(ErrorCode::Conflict, fmt::format("{} stands twice in this list", state.off[k].text()));
    }
  }
}

void checkSwung(Survey& survey, const State& state) {
  std::unordered_set<Id> seen;
  for (std::size_t k = 0; k < state.swung.size(); ++k) {
    Survey::Place place(survey, "swung", k);
    const auto* opening = survey.find<Opening>(state.swung[k], Thing::Opening);
    if (opening == nullptr || (opening->kind != OpeningKind::Door && opening->kind != OpeningKind::Window)) {
      survey.problem(ErrorCode::Reference,
                     fmt::format("no door or window has the id {}", state.swung[k].text()));
    } else if (!seen.insert(state.swung[k]).second) {
      survey.problem(ErrorCode::Conflict, fmt::format("{} stands twice in this list", state.swung[k].text()));
    }
  }
}

}  // namespace

void checkStates(Survey& survey) {
  const std::vector<State>& states = survey.project().states;
  for (std::size_t i = 0; i < states.size(); ++i) {
    Survey::Place place(survey, "states", i, named("state", states[i].name));
    checkGates(survey, states[i]);
    checkHoses(survey, states[i]);
    checkOff(survey, states[i]);
    checkSwung(survey, states[i]);
  }
}

}  // namespace kerfdraft::shop
