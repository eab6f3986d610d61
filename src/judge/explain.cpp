// Replays one number, keeps the steps that lead to it, and says where their inputs come from.
#include "judge/explain.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "judge/replay.h"

namespace kerfdraft::judge {

namespace {

using base::Step;

/// The last step of the target law that gives the number.
std::size_t targetStep(const Replay& replay) {
  const std::vector<Step>& steps = replay.note.steps();
  for (std::size_t i = steps.size(); i-- > 0;) {
    if (steps[i].law == replay.target && sameBits(steps[i].result, replay.value)) {
      return i;
    }
  }
  throw base::InternalError("a replay lost its number");
}

/// The latest step before `before` that gives an input; steps.size() where none does. A zero is taken for a
/// step's result only under the same symbol.
std::size_t makerOf(const std::vector<Step>& steps, const base::Input& input, std::size_t before) {
  for (std::size_t i = before; i-- > 0;) {
    const bool same_symbol = steps[i].law->symbol == input.symbol;
    const double result = steps[i].result;
    if (steps[i].law->kind != input.kind) {
      continue;
    }
    // A law of the size of a flow takes a signed result without its sign.
    if ((sameBits(result, input.value) && (input.value != 0 || same_symbol)) ||
        (same_symbol && sameBits(std::abs(result), input.value))) {
      return i;
    }
  }
  return steps.size();
}

bool sameOperand(const base::Operand& known, const base::Input& input) {
  return known.kind == input.kind && sameBits(known.value, input.value);
}

/// Where an input that no step makes comes from: under its own symbol, else under another with its value.
base::Operand originOf(const Replay& replay, const base::Input& input) {
  for (const bool by_symbol : {true, false}) {
    for (const base::Operand& known : replay.known) {
      if (sameOperand(known, input) && (by_symbol ? known.symbol == input.symbol : input.value != 0)) {
        base::Operand found = known;
        found.symbol = std::string(input.symbol);
        return found;
      }
    }
  }
  return {std::string(input.symbol), input.value, input.kind, base::From::Constant, {}, "of the formula"};
}

base::Derivation finish(const NumberKey& key, const Number& number, const Replay& replay) {
  const std::vector<Step>& steps = replay.note.steps();
  const std::size_t target = targetStep(replay);
  std::vector<char> keep(steps.size(), 0);
  keep[target] = 1;
  std::vector<base::Input> open;
  for (std::size_t i = target + 1; i-- > 0;) {
    if (keep[i] == 0) {
      continue;
    }
    for (const base::Input& input : steps[i].inputs) {
      const std::size_t maker = makerOf(steps, input, i);
      if (maker < steps.size()) {
        keep[maker] = 1;
      } else {
        open.push_back(input);
      }
    }
  }
  base::Derivation derivation;
  derivation.key = key.text();
  derivation.name = number.name;
  derivation.kind = number.kind;
  derivation.value = replay.value;
  for (std::size_t i = 0; i <= target; ++i) {
    if (keep[i] != 0) {
      derivation.steps.push_back(steps[i]);
    }
  }
  for (const base::Input& input : open) {
    const bool listed = std::any_of(derivation.operands.begin(), derivation.operands.end(),
                                    [&](const base::Operand& operand) {
                                      return operand.symbol == input.symbol && sameOperand(operand, input);
                                    });
    if (!listed) {
      derivation.operands.push_back(originOf(replay, input));
    }
  }
  return derivation;
}

}  // namespace

base::Result<base::Derivation> explain(const Assessment& assessment, std::string_view text) {
  const auto key = parseNumberKey(text);
  if (!key) {
    return base::Failure(key.error());
  }
  const auto number = numberOf(assessment, *key);
  if (!number) {
    return base::Failure(number.error());
  }
  Replay replay;
  if (key->element == Element::Air) {
    replayAir(assessment, key->quantity, replay);
    return finish(*key, *number, replay);
  }
  const StateResult& state = assessment.states[key->state];
  const Scene scene{assessment, *key, state, *assessment.pieces, state.solution};
  switch (key->element) {
    case Element::Node:
      replayNode(scene, replay);
      break;
    case Element::Run:
      replayRun(scene, replay);
      break;
    case Element::Piece:
      replayPiece(scene, replay);
      break;
    case Element::Port:
      replayPort(scene, replay);
      break;
    case Element::Fan:
      replayFan(scene, replay);
      break;
    case Element::Opening:
      replayOpening(scene, replay);
      break;
    case Element::Air:
      break;
  }
  return finish(*key, *number, replay);
}

}  // namespace kerfdraft::judge
