// Figures are looked for among the numbers of the ports, runs and fans that the finding names.
#include "desk/models/finding_numbers.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <optional>

#include "judge/number_key.h"

namespace kerfdraft::desk {

namespace {

using judge::Element;
using judge::NumberKey;

constexpr double kSame = 1e-9;

bool same(double a, double b) {
  return std::abs(a - b) <= kSame * std::max(std::abs(a), std::abs(b)) && a != 0;
}

class Search {
 public:
  Search(const Solved& solved, const judge::Finding& finding) : solved_(solved), finding_(finding) {}

  std::optional<std::string> keyOf(const judge::Figure& figure) const {
    std::optional<std::string> found;
    for (std::size_t s = 0; s < solved_.states() && !found; ++s) {
      if (!finding_.state || *finding_.state == s) {
        found = inState(figure, s);
      }
    }
    return found;
  }

 private:
  std::optional<std::string> match(const judge::Figure& figure, const NumberKey& key) const {
    const auto number = judge::numberOf(*solved_.assessment, key);
    if (!number) {
      return std::nullopt;
    }
    // A flow of a run is kept as mass and told as volume at the room's density.
    const bool mass = number->kind == base::Kind::MassFlow && figure.kind == base::Kind::VolumeFlow;
    const double value = mass ? number->value / solved_.assessment->pieces->air.density_kg_m3 : number->value;
    const bool fits =
        (mass || number->kind == figure.kind) && (same(value, figure.value) || same(-value, figure.value));
    return fits ? std::optional(key.text()) : std::nullopt;
  }

  template <class Wanted>
  std::optional<std::string> ofPieces(const judge::Figure& figure, std::size_t state, std::size_t run,
                                      Wanted wanted) const {
    const std::vector<pieces::Piece>& pieces = solved_.assessment->pieces->runs[run].pieces;
    for (std::size_t p = 0; p < pieces.size(); ++p) {
      for (const char* quantity : {"loss", "speed", "flow", "static-in", "static-out"}) {
        if (!wanted(pieces[p])) {
          break;
        }
        if (auto key = match(figure, {Element::Piece, state, run, p, quantity})) {
          return key;
        }
      }
    }
    return std::nullopt;
  }

  std::optional<std::string> inState(const judge::Figure& figure, std::size_t state) const {
    const auto first = [&](Element element, std::size_t index,
                           std::initializer_list<const char*> quantities) -> std::optional<std::string> {
      for (const char* quantity : quantities) {
        if (auto key = match(figure, {element, state, index, 0, quantity})) {
          return key;
        }
      }
      return std::nullopt;
    };
    for (const std::size_t port : finding_.ports) {
      if (auto key = first(Element::Port, port, {"flow", "hood-static", "speed"})) {
        return key;
      }
    }
    for (const std::size_t run : finding_.runs) {
      if (auto key = first(Element::Run, run,
                           {"slowest", "flow-start", "flow-end", "static-start", "static-end", "total-start",
                            "total-end"})) {
        return key;
      }
      if (auto key = ofPieces(figure, state, run, [](const pieces::Piece&) { return true; })) {
        return key;
      }
    }
    const pieces::Pieces& drawing = *solved_.assessment->pieces;
    for (std::size_t r = 0; r < drawing.runs.size() && finding_.key.a.valid(); ++r) {
      if (auto key = ofPieces(figure, state, r,
                              [&](const pieces::Piece& piece) { return piece.key.a == finding_.key.a; })) {
        return key;
      }
    }
    for (std::size_t f = 0; f < drawing.fans.size(); ++f) {
      if (auto key = first(Element::Fan, f, {"inlet-flow", "flow", "rise", "inlet-total"})) {
        return key;
      }
    }
    for (std::size_t o = 0; o < drawing.openings.size(); ++o) {
      if (drawing.openings[o].key == finding_.key) {
        return first(Element::Opening, o, {"speed", "drop"});
      }
    }
    for (std::size_t n = 0; n < drawing.nodes.size(); ++n) {
      if (drawing.nodes[n].key == finding_.key) {
        return first(Element::Node, n, {"pressure"});
      }
    }
    return std::nullopt;
  }

  const Solved& solved_;
  const judge::Finding& finding_;
};

/// Where a number stands whole in a text: "12 cfm" is not in "312 cfm".
std::size_t wholeAt(std::string_view text, std::string_view number) {
  for (std::size_t at = text.find(number); at != std::string_view::npos; at = text.find(number, at + 1)) {
    const auto part = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.'; };
    const std::size_t end = at + number.size();
    const bool begins = at == 0 || !part(text[at - 1]);
    const bool ends = end == text.size() || std::isalnum(static_cast<unsigned char>(text[end])) == 0;
    if (begins && ends) {
      return at;
    }
  }
  return std::string_view::npos;
}

}  // namespace

std::vector<TextPart> askable(const Solved& solved, const judge::Finding& finding, std::string_view sentence,
                              const judge::Voice& voice) {
  std::vector<TextPart> parts{{std::string(sentence), ""}};
  if (!solved.assessment) {
    return parts;
  }
  const Search search(solved, finding);
  for (const judge::Figure& figure : finding.figures) {
    const std::string shown = voice.show(figure);
    const auto key = shown.empty() ? std::nullopt : search.keyOf(figure);
    if (!key) {
      continue;
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const std::size_t at = parts[i].key.empty() ? wholeAt(parts[i].text, shown) : std::string_view::npos;
      if (at == std::string_view::npos) {
        continue;
      }
      const std::string text = parts[i].text;
      parts[i].text = text.substr(0, at);
      const auto behind = parts.begin() + static_cast<std::ptrdiff_t>(i) + 1;
      parts.insert(behind, {TextPart{shown, *key}, TextPart{text.substr(at + shown.size()), ""}});
      break;
    }
  }
  std::erase_if(parts, [](const TextPart& part) { return part.text.empty(); });
  return parts;
}

}  // namespace kerfdraft::desk
