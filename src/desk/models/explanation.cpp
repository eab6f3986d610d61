// Derivations come from judge::explain(); here they get words, links and the standing of what was entered.
#include "desk/models/explanation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "desk/models/number_things.h"
#include "desk/models/places.h"
#include "doubt/matters.h"
#include "doubt/propagate.h"
#include "files/entered_at.h"
#include "judge/explain.h"
#include "judge/explain_words.h"
#include "network/sensitivity.h"
#include "papers/references.h"

namespace kerfdraft::desk {

namespace {

using judge::Element;
using judge::NumberKey;

/// "Hsg258, table 1" in the words of the list of sources, with what is said of the status.
std::string sourceText(std::string_view source, base::SourceStatus status) {
  if (source.empty()) {
    return status == base::SourceStatus::Ours ? "this program's own" : std::string(base::toText(status));
  }
  const std::string key = papers::referenceKey(source);
  const auto words = papers::referenceText(key);
  if (!words) {
    return fmt::format("{} ({})", source, base::toText(status));
  }
  std::string_view place = source.substr(key.size());
  const auto begins = place.find_first_not_of(" ,:");
  place = begins == std::string_view::npos ? std::string_view{} : place.substr(begins);
  return place.empty() ? fmt::format("{} ({})", *words, base::toText(status))
                       : fmt::format("{} At: {} ({}).", *words, place, base::toText(status));
}

WhyStep stepOf(const base::Step& step, base::Kind kind, base::UnitSystem units) {
  const base::Law& law = *step.law;
  WhyStep out;
  out.name = std::string(law.name);
  out.formula = std::string(law.formula);
  out.result = fmt::format("{} = {}", law.symbol, judge::exactText(kind, step.result, units));
  for (const base::Input& input : step.inputs) {
    out.with += fmt::format("{}{} = {}", out.with.empty() ? "" : ", ", input.symbol,
                            judge::exactText(input.kind, input.value, units));
  }
  out.source = sourceText(law.source, law.status);
  return out;
}

WhyInput numberInput(const judge::Assessment& assessment, std::string symbol, const NumberKey& key,
                     base::UnitSystem units) {
  const auto number = judge::numberOf(assessment, key);
  base::check(number.has_value(), "an explanation names a number that is not there");
  return {std::move(symbol), number->name, judge::exactText(number->kind, number->value, units),
          "another number",  key.text(),   {}};
}

void tellEntered(const shop::Project& project, const base::Operand& operand, WhyInput& out) {
  const auto at = files::enteredAt(project, operand.ref);
  if (!at) {
    out.words = operand.text.empty() ? "as drawn" : operand.text;
    out.origin = operand.text.empty() ? "from the drawing" : "entered with what it is made from";
    return;
  }
  std::string field = at->field;
  std::replace(field.begin(), field.end(), '-', ' ');
  out.words = at->label.empty() ? field : fmt::format("{} of {}", field, at->label);
  if (operand.text != at->text && !operand.text.empty()) {
    out.words += ": " + operand.text;
  }
  out.origin = fmt::format("entered as {}; {}", at->text, base::toText(at->standing));
  out.origin += at->source.empty() ? "; no source given" : "; source: " + at->source;
  out.place = at->thing;
}

WhyInput inputOf(const Solved& solved, const base::Operand& operand, base::UnitSystem units) {
  WhyInput out;
  out.symbol = operand.symbol;
  out.value = judge::exactText(operand.kind, operand.value, units);
  switch (operand.from) {
    case base::From::Number: {
      const auto key = judge::parseNumberKey(operand.ref);
      base::check(key.has_value(), "an explanation names a number by no key");
      WhyInput number = numberInput(*solved.assessment, operand.symbol, *key, units);
      number.value = out.value;  // a law may take it without its sign
      return number;
    }
    case base::From::Entered:
      tellEntered(*solved.project, operand, out);
      break;
    case base::From::Catalogue: {
      out.words = operand.text;
      const std::string key = papers::referenceKey(operand.ref);
      const auto words = papers::referenceText(key);
      out.origin = operand.ref.empty()
                       ? "from the program's tables; common practice or a choice of this project"
                   : words ? fmt::format("from the program's tables: {} At: {}", *words, operand.ref)
                           : fmt::format("from the program's tables: {}", operand.ref);
      break;
    }
    case base::From::Constant:
      out.words = operand.text;
      out.origin = "a constant, or follows from the drawing";
      break;
  }
  return out;
}

/// What holds together with a number that the solver found: its neighbours in the conditions that it meets.
std::vector<NumberKey> heldWith(const pieces::Pieces& drawing, const NumberKey& key) {
  std::vector<NumberKey> out;
  const auto add = [&](Element element, std::size_t index, std::string quantity, std::size_t piece = 0) {
    out.push_back({element, key.state, index, piece, std::move(quantity)});
  };
  switch (key.element) {
    case Element::Run:
      add(Element::Run, key.index, "total-start");
      for (std::size_t p = 0; p < drawing.runs[key.index].pieces.size(); ++p) {
        add(Element::Piece, key.index, "loss", p);
      }
      add(Element::Run, key.index, "total-end");
      break;
    case Element::Node:
      for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
        if (drawing.runs[r].to == key.index) {
          add(Element::Run, r, "flow-end");
        }
        if (drawing.runs[r].from == key.index) {
          add(Element::Run, r, "flow-start");
        }
      }
      for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
        if (drawing.fans[f].from == key.index || drawing.fans[f].to == key.index) {
          add(Element::Fan, f, "flow");
        }
      }
      for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
        if (drawing.openings[o].from == key.index || drawing.openings[o].to == key.index) {
          add(Element::Opening, o, "flow");
        }
      }
      break;
    case Element::Fan:
      add(Element::Fan, key.index, "inlet-total");
      add(Element::Fan, key.index, "rise");
      add(Element::Fan, key.index, "outlet-total");
      break;
    case Element::Opening:
      add(Element::Opening, key.index, "drop");
      break;
    case Element::Piece:
    case Element::Port:
    case Element::Air:
      break;
  }
  return out;
}

const doubt::Spread* spreadFor(const doubt::StateDoubt& doubt, const NumberKey& key) {
  const auto pick = [&](const std::vector<doubt::Spread>& of) {
    return key.index < of.size() ? &of[key.index] : nullptr;
  };
  switch (key.element) {
    case Element::Port:
      return key.quantity == "flow" || key.quantity == "speed" ? pick(doubt.ports) : nullptr;
    case Element::Run:
      if (key.quantity == "flow-start" || key.quantity == "flow-end") {
        return pick(doubt.runs);
      }
      return key.quantity == "slowest" ? pick(doubt.speeds) : nullptr;
    case Element::Piece:
      return key.quantity == "flow" || key.quantity == "speed" ? pick(doubt.runs) : nullptr;
    case Element::Fan:
      if (key.quantity == "flow" || key.quantity == "inlet-flow") {
        return pick(doubt.fans);
      }
      return key.quantity == "rise" ? pick(doubt.fan_rises) : nullptr;
    case Element::Opening:
      return key.quantity == "speed" || key.quantity == "flow" ? pick(doubt.openings) : nullptr;
    case Element::Node:
    case Element::Air:
      break;
  }
  return nullptr;
}

std::string doubtOf(const judge::Assessment& assessment, const NumberKey& key) {
  if (key.element == Element::Air || key.element == Element::Node) {
    return {};
  }
  network::SensitivitySolver solver(*assessment.network);
  const doubt::StateDoubt doubt = doubt::propagate(assessment, key.state, solver);
  const doubt::Spread* spread = doubt.defined ? spreadFor(doubt, key) : nullptr;
  if (spread == nullptr || spread->sigma <= 0 || spread->value == 0 || doubt.inputs.empty()) {
    return {};
  }
  std::size_t most = 0;
  for (std::size_t i = 0; i < spread->effects.size(); ++i) {
    most = std::abs(spread->effects[i]) > std::abs(spread->effects[most]) ? i : most;
  }
  const double share = spread->effects[most] * spread->effects[most] / (spread->sigma * spread->sigma);
  const doubt::Input& input = doubt.inputs[most];
  std::string out = fmt::format(
      "Known to about {:.0f} % (one standard deviation). What moves it most, with {:.0f} % of the doubt: "
      "{}, {}.",
      100 * spread->relative(), 100 * share, input.label, input.prior->known_as);
  if (const std::string_view how = doubt::howTo(input.prior->measure); !how.empty()) {
    out += fmt::format(" {}, and it is known better.", how);
  }
  return out;
}

std::optional<std::size_t> stateIn(const judge::Assessment& assessment, base::Id id) {
  for (std::size_t s = 0; s < assessment.states.size(); ++s) {
    if (assessment.states[s].id == id) {
      return s;
    }
  }
  return std::nullopt;
}

/// The place in a list of the thing that `same` knows again; as before where that is one of them.
template <class Things, class Same>
bool moveTo(const Things& things, std::size_t& index, Same same) {
  if (index < things.size() && same(things[index])) {
    return true;
  }
  const auto found = std::find_if(things.begin(), things.end(), same);
  index = static_cast<std::size_t>(found - things.begin());
  return found != things.end();
}

/// The key's indices in another drawing; false where the thing is gone.
bool moveIndex(const pieces::Pieces& before, const pieces::Pieces& after, NumberKey& key) {
  const auto by_key = [&](const auto& from, const auto& to) {
    const pieces::PieceKey wanted = from[key.index].key;
    return moveTo(to, key.index, [&](const auto& each) { return each.key == wanted; });
  };
  switch (key.element) {
    case Element::Node:
      return by_key(before.nodes, after.nodes);
    case Element::Run:
      return by_key(before.runs, after.runs);
    case Element::Fan:
      return by_key(before.fans, after.fans);
    case Element::Opening:
      return by_key(before.openings, after.openings);
    case Element::Port: {
      const pieces::PortPlace& wanted = before.ports[key.index];
      return moveTo(after.ports, key.index, [&](const pieces::PortPlace& each) {
        return each.ref == wanted.ref && after.runs[each.run].key == before.runs[wanted.run].key;
      });
    }
    case Element::Piece: {
      const pieces::PieceKey wanted = before.runs[key.index].pieces[key.piece].key;
      for (std::size_t r = 0; r < after.runs.size(); ++r) {
        std::size_t piece = key.piece;
        if (moveTo(after.runs[r].pieces, piece, [&](const auto& each) { return each.key == wanted; })) {
          key.index = r;
          key.piece = piece;
          return true;
        }
      }
      return false;
    }
    case Element::Air:
      return true;
  }
  return false;
}

}  // namespace

Explanation explainNumber(const Solved& solved, std::string_view text, base::UnitSystem units) {
  Explanation out;
  out.key = std::string(text);
  if (!solved.assessment) {
    out.problem = solved.problem ? solved.problem->text() : "Nothing is solved yet.";
    return out;
  }
  const judge::Assessment& assessment = *solved.assessment;
  const auto derivation = judge::explain(assessment, text);
  if (!derivation) {
    out.problem = derivation.error().text();
    return out;
  }
  const NumberKey key = *judge::parseNumberKey(text);
  out.name = derivation->name;
  out.value = judge::exactText(derivation->kind, derivation->value, units);
  out.state = key.element == Element::Air ? std::string() : assessment.states[key.state].name;
  for (std::size_t i = derivation->steps.size(); i-- > 0;) {
    // A law that hands on or finds a number has none of its kind.
    const base::Step& step = derivation->steps[i];
    const bool last = i + 1 == derivation->steps.size();
    out.steps.push_back(stepOf(step, last ? derivation->kind : step.law->kind, units));
  }
  const bool solved_for =
      !derivation->steps.empty() && derivation->steps.back().law->key == std::string_view("solved");
  if (solved_for) {
    for (const NumberKey& with : heldWith(*assessment.pieces, key)) {
      out.inputs.push_back(numberInput(assessment, "", with, units));
      out.inputs.back().origin = "another number: holds together with this one";
    }
  }
  for (const base::Operand& operand : derivation->operands) {
    out.inputs.push_back(inputOf(solved, operand, units));
  }
  out.doubt = doubtOf(assessment, key);
  for (const base::Id id : thingsOfNumber(*assessment.pieces, key)) {
    if (thingOf(*solved.project, id)) {
      out.place = id;
      break;
    }
  }
  return out;
}

std::string inState(std::string_view text, std::size_t state) {
  auto key = judge::parseNumberKey(text);
  if (!key || key->element == Element::Air) {
    return std::string(text);
  }
  key->state = state;
  return key->text();
}

std::optional<std::size_t> stateOfNumber(std::string_view text) {
  const auto key = judge::parseNumberKey(text);
  return key && key->element != Element::Air ? std::optional(key->state) : std::nullopt;
}

std::optional<std::string> followNumber(const Solved& before, const Solved& after, std::size_t shown,
                                        std::string_view text) {
  auto key = judge::parseNumberKey(text);
  if (!key || key->element == Element::Air) {
    return std::string(text);
  }
  if (!before.assessment || !after.assessment || key->state >= before.states() ||
      !judge::numberOf(*before.assessment, *key)) {
    return std::nullopt;
  }
  const std::size_t state =
      stateIn(*after.assessment, before.assessment->states[key->state].id).value_or(shown);
  if (state >= after.states() || !moveIndex(*before.assessment->pieces, *after.assessment->pieces, *key)) {
    return std::nullopt;
  }
  key->state = state;
  return key->text();
}

NumberList numbersOf(const Solved& solved, std::size_t state, const std::set<base::Id>& things,
                     std::string_view search, base::UnitSystem units) {
  NumberList list;
  if (!solved.assessment || state >= solved.states()) {
    return list;
  }
  const judge::Assessment& assessment = *solved.assessment;
  const Belongings belongings(*solved.project);
  std::array<std::vector<NumberKey>, 3> keys;  // ports and fans, slowest air, the rest
  for (NumberKey& key : judge::numberKeys(assessment, state)) {
    const bool first = key.element == Element::Port || key.element == Element::Fan;
    const bool slowest = key.element == Element::Run && key.quantity == "slowest";
    keys[first ? 0 : (slowest ? 1 : 2)].push_back(std::move(key));
  }
  for (const auto& part : keys) {
    for (const NumberKey& key : part) {
      if (!things.empty() && !belongings.anyOf(thingsOfNumber(*assessment.pieces, key), things)) {
        continue;
      }
      const auto number = judge::numberOf(assessment, key);
      base::check(number.has_value(), "a listed number is not there");
      if (!judge::holdsWords(number->name, search)) {
        continue;
      }
      if (list.rows.size() == kMostNumbers) {
        ++list.left_out;
        continue;
      }
      list.rows.push_back({key.text(), number->name, judge::exactText(number->kind, number->value, units)});
    }
  }
  return list;
}

std::string chiefNumber(const Solved& solved, std::size_t state, base::Id thing) {
  const NumberList list = numbersOf(solved, state, {thing}, "", base::UnitSystem::Metric);
  return list.rows.empty() ? std::string() : list.rows.front().key;
}

}  // namespace kerfdraft::desk
