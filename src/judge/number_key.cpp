// Keys to text and back, and the number that a key names.
#include "judge/number_key.h"

#include <charconv>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "judge/number_fields.h"

namespace kerfdraft::judge {

namespace {

using base::ErrorCode;
using base::fail;

std::vector<std::string_view> parts(std::string_view text) {
  std::vector<std::string_view> out;
  while (true) {
    const std::size_t slash = text.find('/');
    out.push_back(text.substr(0, slash));
    if (slash == std::string_view::npos) {
      return out;
    }
    text.remove_prefix(slash + 1);
  }
}

std::optional<std::size_t> index(std::string_view text) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) {
    return std::nullopt;
  }
  return value;
}

std::optional<Element> element(std::string_view word) {
  for (const auto& [name, value] : {std::pair<std::string_view, Element>{"node", Element::Node},
                                    {"run", Element::Run},
                                    {"port", Element::Port},
                                    {"fan", Element::Fan},
                                    {"opening", Element::Opening}}) {
    if (word == name) {
      return value;
    }
  }
  return std::nullopt;
}

std::string_view toText(Element element) {
  switch (element) {
    case Element::Node:
      return "node";
    case Element::Run:
    case Element::Piece:
      return "run";
    case Element::Port:
      return "port";
    case Element::Fan:
      return "fan";
    case Element::Opening:
      return "opening";
    case Element::Air:
      return "air";
  }
  return "";
}

/// The field of that name, or a sentence with the names that there are.
template <class Fields, class Owner>
base::Result<Number> read(const Fields& fields, const Owner& owner, const NumberKey& key,
                          std::string_view label) {
  std::string names;
  for (const auto& field : fields) {
    if (field.name == key.quantity) {
      return Number{owner.*(field.member), field.kind, fmt::format("{} {}", field.words, label)};
    }
    names += names.empty() ? "" : ", ";
    names += field.name;
  }
  return fail(ErrorCode::Reference,
              fmt::format("There is no \"{}\" here; there are {}.", key.quantity, names), key.text());
}

base::Result<Number> airNumber(const Assessment& assessment, const NumberKey& key) {
  const physics::AirState& air = assessment.pieces->air;
  if (key.quantity == "density") {
    return Number{air.density_kg_m3, Kind::Density, "density of the room's air"};
  }
  if (key.quantity == "viscosity") {
    return Number{air.viscosity_pa_s, Kind::Viscosity, "viscosity of the room's air"};
  }
  if (key.quantity == "pressure") {
    return Number{air.pressure_pa, Kind::AbsolutePressure, "barometric pressure"};
  }
  return fail(ErrorCode::Reference,
              fmt::format("There is no \"{}\" here; there are density, viscosity, pressure.", key.quantity),
              key.text());
}

std::size_t countOf(const pieces::Pieces& drawing, Element element) {
  switch (element) {
    case Element::Node:
      return drawing.nodes.size();
    case Element::Run:
    case Element::Piece:
      return drawing.runs.size();
    case Element::Port:
      return drawing.ports.size();
    case Element::Fan:
      return drawing.fans.size();
    case Element::Opening:
      return drawing.openings.size();
    case Element::Air:
      return 1;
  }
  return 0;
}

}  // namespace

std::string NumberKey::text() const {
  if (element == Element::Air) {
    return fmt::format("air/{}", quantity);
  }
  if (element == Element::Piece) {
    return fmt::format("state/{}/run/{}/piece/{}/{}", state, index, piece, quantity);
  }
  return fmt::format("state/{}/{}/{}/{}", state, toText(element), index, quantity);
}

base::Result<NumberKey> parseNumberKey(std::string_view text) {
  const std::vector<std::string_view> words = parts(text);
  const auto bad = [&](std::string_view why) {
    return fail(ErrorCode::Parse,
                fmt::format("\"{}\" names no number: {} A key looks like state/2/run/4/piece/3/loss, "
                            "state/0/port/1/flow or air/density.",
                            text, why));
  };
  NumberKey key;
  if (words.size() == 2 && words[0] == "air") {
    key.quantity = std::string(words[1]);
    return key;
  }
  if (words.size() < 5 || words[0] != "state") {
    return bad("it does not begin with a state, its number and an element.");
  }
  const auto state = index(words[1]);
  const auto what = element(words[2]);
  const auto at = index(words[3]);
  if (!state || !at) {
    return bad("states and elements are counted from 0.");
  }
  if (!what) {
    return bad("elements are node, run, port, fan, opening.");
  }
  key.state = *state;
  key.element = *what;
  key.index = *at;
  if (words.size() == 7 && *what == Element::Run && words[4] == "piece") {
    const auto piece = index(words[5]);
    if (!piece) {
      return bad("pieces are counted from 0.");
    }
    key.element = Element::Piece;
    key.piece = *piece;
  } else if (words.size() != 5) {
    return bad("there are words too many.");
  }
  key.quantity = std::string(words.back());
  return key;
}

base::Result<Number> numberOf(const Assessment& assessment, const NumberKey& key) {
  if (key.element == Element::Air) {
    return airNumber(assessment, key);
  }
  if (key.state >= assessment.states.size()) {
    return fail(ErrorCode::Reference,
                fmt::format("There is no state {}; there are {}, counted from 0.", key.state,
                            assessment.states.size()),
                key.text());
  }
  const pieces::Pieces& drawing = *assessment.pieces;
  const std::size_t count = countOf(drawing, key.element);
  if (key.index >= count) {
    return fail(ErrorCode::Reference,
                fmt::format("There is no {} {}; there are {}, counted from 0.", toText(key.element),
                            key.index, count),
                key.text());
  }
  const network::Solution& solution = assessment.states[key.state].solution;
  if (!solution.solved()) {
    return fail(
        ErrorCode::Conflict,
        fmt::format("The state \"{}\" has no solution: {}", assessment.states[key.state].name, solution.why),
        key.text());
  }
  switch (key.element) {
    case Element::Node:
      if (key.quantity != "pressure") {
        return fail(ErrorCode::Reference,
                    fmt::format("There is no \"{}\" here; there is pressure.", key.quantity), key.text());
      }
      return Number{solution.node_pa[key.index], Kind::Pressure,
                    "pressure at " + drawing.nodes[key.index].label};
    case Element::Run:
      return read(kRunFields, solution.runs[key.index], key, drawing.runs[key.index].label);
    case Element::Piece: {
      const std::vector<pieces::Piece>& pieces = drawing.runs[key.index].pieces;
      if (key.piece >= pieces.size()) {
        return fail(ErrorCode::Reference,
                    fmt::format("There is no piece {} in {}; there are {}, counted from 0.", key.piece,
                                drawing.runs[key.index].label, pieces.size()),
                    key.text());
      }
      return read(kPieceFields, solution.runs[key.index].pieces[key.piece], key, pieces[key.piece].label);
    }
    case Element::Port:
      return read(kPortFields, solution.ports[key.index], key, drawing.ports[key.index].label);
    case Element::Fan:
      return read(kFanFields, solution.fans[key.index], key, drawing.fans[key.index].label);
    case Element::Opening:
      return read(kOpeningFields, solution.openings[key.index], key, drawing.openings[key.index].label);
    case Element::Air:
      break;
  }
  throw base::InternalError("an element that numbers do not know");
}

std::vector<NumberKey> numberKeys(const Assessment& assessment, std::size_t state) {
  std::vector<NumberKey> keys;
  if (!assessment.states[state].solution.solved()) {
    return keys;
  }
  const pieces::Pieces& drawing = *assessment.pieces;
  const auto add = [&](Element element, std::size_t index, std::size_t piece, const auto& fields) {
    for (const auto& field : fields) {
      keys.push_back({element, state, index, piece, std::string(field.name)});
    }
  };
  for (std::size_t n = 0; n < drawing.nodes.size(); ++n) {
    keys.push_back({Element::Node, state, n, 0, "pressure"});
  }
  for (std::size_t r = 0; r < drawing.runs.size(); ++r) {
    add(Element::Run, r, 0, kRunFields);
    for (std::size_t p = 0; p < drawing.runs[r].pieces.size(); ++p) {
      add(Element::Piece, r, p, kPieceFields);
    }
  }
  for (std::size_t p = 0; p < drawing.ports.size(); ++p) {
    add(Element::Port, p, 0, kPortFields);
  }
  for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
    add(Element::Fan, f, 0, kFanFields);
  }
  for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
    add(Element::Opening, o, 0, kOpeningFields);
  }
  return keys;
}

}  // namespace kerfdraft::judge
