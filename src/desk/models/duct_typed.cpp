// What is typed while a duct is drawn.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <numbers>
#include <string>
#include <vector>

#include "base/trim.h"
#include "catalogue/near_keys.h"
#include "desk/models/duct_draft.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Result;
using base::trimmed;

/// Where feet end and inches begin: after "ft" or "'".
std::size_t afterFeet(std::string_view text) {
  for (const std::string_view mark : {std::string_view("ft"), std::string_view("'")}) {
    if (const std::size_t at = text.find(mark); at != std::string_view::npos) {
      return at + mark.size();
    }
  }
  return std::string_view::npos;
}

}  // namespace

Result<double> parseLength(std::string_view raw) {
  const std::string_view text = trimmed(raw);
  const std::size_t feet_end = afterFeet(text);
  if (feet_end == std::string_view::npos) {
    if (!text.empty() && text.back() == '"') {
      return base::parseQuantity(base::Kind::Length,
                                 fmt::format("{} in", trimmed(text.substr(0, text.size() - 1))));
    }
    return base::parseQuantity(base::Kind::Length, text);
  }
  std::string_view feet = text.substr(0, feet_end);
  std::string_view inches = trimmed(text.substr(feet_end));
  const std::size_t mark = feet.ends_with("ft") ? 2 : 1;
  Result<double> whole = base::parseQuantity(
      base::Kind::Length, fmt::format("{} ft", trimmed(feet.substr(0, feet.size() - mark))));
  if (!whole || inches.empty()) {
    return whole;
  }
  for (const std::string_view end : {std::string_view("in"), std::string_view("\"")}) {
    if (inches.ends_with(end)) {
      inches = trimmed(inches.substr(0, inches.size() - end.size()));
      break;
    }
  }
  Result<double> rest = base::parseQuantity(base::Kind::Length, fmt::format("{} in", inches));
  if (!rest) {
    return rest;
  }
  if (*rest < 0 || *whole < 0) {
    return base::fail(ErrorCode::Parse, fmt::format("\"{}\" has a minus sign; a length counts from where you "
                                                    "are, toward the pointer",
                                                    text));
  }
  return *whole + *rest;
}

Result<Typed> parseTyped(std::string_view raw) {
  using What = Typed::What;
  struct Word {
    std::string_view word;
    What what;
  };
  constexpr std::array kWords{Word{"up ", What::Up},         Word{"down ", What::Down},
                              Word{"height ", What::Height}, Word{"bore ", What::Bore},
                              Word{"hose ", What::Tail},     Word{"entry ", What::Entry}};
  std::string_view text = trimmed(raw);
  Typed typed;
  for (const Word& word : kWords) {
    if (text.starts_with(word.word)) {
      typed.what = word.what;
      text = trimmed(text.substr(word.word.size()));
      break;
    }
  }
  // Ends in words of their own, with the key of a form behind them.
  constexpr std::array kEnds{Word{"free", What::Mouth}, Word{"outdoors", What::Outdoors},
                             Word{"indoors", What::Indoors}, Word{"outlet", What::Outlet}};
  for (const Word& word : kEnds) {
    const bool form = word.what != What::Outlet && text.starts_with(word.word) &&
                      text.substr(word.word.size()).starts_with(' ');
    if (text == word.word || form) {
      typed.what = word.what;
      typed.text = std::string(trimmed(text.substr(word.word.size())));
      return typed;
    }
  }
  if (typed.what == What::Tail && text == "none") {
    typed.what = What::NoTail;
    return typed;
  }
  if (typed.what == What::Tail) {
    for (std::size_t space = text.rfind(' '); space != std::string_view::npos; space = text.rfind(' ')) {
      const std::string_view word = text.substr(space + 1);
      if (word == "smooth" || word == "ribbed") {
        typed.inside = word == "smooth" ? shop::HoseInside::Smooth : shop::HoseInside::Ribbed;
      } else if (word == "tight" || word == "hung" || word == "slack") {
        typed.hung = word == "tight"  ? shop::HoseHung::Tight
                     : word == "hung" ? shop::HoseHung::Hung
                                      : shop::HoseHung::Slack;
      } else {
        break;
      }
      text = trimmed(text.substr(0, space));
    }
  }
  if (typed.what == What::Entry) {
    const Result<double> angle = base::parseQuantity(base::Kind::Angle, text);
    if (!angle) {
      return base::Failure(angle.error());
    }
    constexpr double kDegree = std::numbers::pi / 180;
    if (*angle < 15 * kDegree - 1e-9 || *angle > 90 * kDegree + 1e-9) {
      return base::fail(
          ErrorCode::Range,
          fmt::format("an entry of {} is not made; use 15 deg to 90 deg, usually 45 or 30", text));
    }
    typed.si = *angle;
    typed.text = std::string(text);
    return typed;
  }
  const Result<double> length = parseLength(text);
  if (!length) {
    return base::fail(
        length.error().code,
        fmt::format("{}. Type a length like 3.2 m or 10 ft 6, or a word before it: up, down, "
                    "height, bore, hose, entry; or how it ends: free, outdoors, indoors, outlet",
                    length.error().message));
  }
  if (*length <= 0 && typed.what != What::Height) {
    return base::fail(ErrorCode::Range, fmt::format("{} is not above zero", text));
  }
  constexpr double kLongest_m = 200;
  if (*length > kLongest_m || *length < 0) {
    return base::fail(ErrorCode::Range, fmt::format("{} is not between 0 and {} m", text, kLongest_m));
  }
  constexpr double kWidestBore_m = 2;
  if (typed.what == What::Bore && *length > kWidestBore_m) {
    return base::fail(ErrorCode::Range, fmt::format("a bore of {} is above {} m", text, kWidestBore_m));
  }
  typed.si = *length;
  // Feet and inches become one number; a text with one unit stays as typed.
  typed.text = base::parseQuantity(base::Kind::Length, text) ? std::string(text)
                                                             : fmt::format("{:.4g} in", *length / 0.0254);
  return typed;
}

Result<void> looseForm(const catalogue::Catalogue& catalogue, bool mouth, std::string_view key) {
  std::vector<std::string> known;
  for (const char* table : mouth ? std::vector{"hoods"} : std::vector{"outlet_cap_k", "screen_k"}) {
    const auto rows = catalogue.table(table);
    if (!rows) {
      return base::Failure(rows.error());
    }
    for (const catalogue::Row& row : (*rows)->rows()) {
      if (row.key == key) {
        return {};
      }
      known.push_back(row.key);
    }
  }
  return base::fail(
      ErrorCode::Reference,
      fmt::format("\"{}\" is no {}{}; there are {}", key,
                  mouth ? "form of a free mouth" : "cap or screen of an outlet",
                  catalogue::nearKeysSentence(std::string(key), known), fmt::join(known, ", ")));
}

}  // namespace kerfdraft::desk
