// The table of remedies' sentences, and the filling of their places.
#include "judge/remedy_words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstddef>
#include <optional>

namespace kerfdraft::judge {

namespace {

// Keep in alphabetical order of the kinds.
constexpr auto kWords = std::to_array<RemedyWords>({
    {"ask-for-curve", "Ask the maker of {0} for its fan curve[, with points up to {flow}]"},
    {"bigger-bin", "Put a bin of {bin} or more in the place of the {0}"},
    {"bigger-collector",
     "Put a bigger collector in the place of {0}[, one that still pulls {pressure} at {flow}][: {1}]"},
    {"bigger-duct", "Make {0} {bore} wide"},
    {"bigger-motor", "Put a motor of {power} or more on {0}, or keep gates shut"},
    {"bigger-port", "Make the port of {0} {bore} wide"},
    {"body-opening", "Open the body of {0} to {area} in all, where the air should come in: at the cutter"},
    {"clean-filter", "Clean the filter of {0}"},
    {"clean-filter-at", "When the gauge across the filter of {0} shows about {pressure}, clean it"},
    {"drill-taps", "Drill a small hole to measure through into straight duct at each of {0+}"},
    {"empty-bin", "Empty the {0} after every {time-cutting} of cutting, before it is three quarters full"},
    {"enter-bin", "Measure the {0} and enter its volume"},
    {"enter-filter-area", "Read the area of medium off {0} and enter it"},
    {"enter-from-above", "Turn the entries of {1+} so that they come into {0} from the side or from above"},
    {"fewer-gates", "Open fewer gates at once on {0}"},
    {"fit-gauge", "Put a gauge across {0+} and mark on it where it stands clean"},
    {"gate-at-main", "Put gate {0}, or a second one, within {length} of {1}"},
    {"gates-at-main", "Put gates {1+}, or second ones, within {length} of {0}"},
    {"join-collector", "Join a duct to {0}, or take it out of the drawing"},
    {"keep-moving", "Keep a gate at the far end of {0} open while little runs, so that {flow} more comes in"},
    {"let-air-in", "Let {flow} more air into {0}: open one more gate"},
    {"more-air", "Bring {flow} through {0}: this bore carries its chips with that"},
    {"more-filter", "Give {0} {area-needed} of filter medium or more"},
    {"non-return", "Put a damper behind {0} that shuts by itself when it stands"},
    {"one-fan-at-a-time", "Run only one of {0+} at a time"},
    {"open-gate", "Open gate {0} as well"},
    {"open-gate-fully", "Open gate {0} fully"},
    {"room-opening", "Make an opening of {area} to the outdoors in {0} that cannot be shut"},
    {"separate-systems", "Give {0} ducts of its own"},
    {"shorter-hose", "Shorten the hose of {0} to {length} and hang it tight"},
    {"shut-gate", "Shut gate {0} when this is in use"},
    {"shut-inlet-test",
     "Find out what {0} pulls: shut its inlet, hold a gauge to a small hole before it, and enter what it "
     "shows; "
     "it takes two minutes"},
    {"smaller-duct", "Make {0} {bore} wide: smaller, so that the air is fast enough"},
    {"straight-inlet", "Give {0} five bores of straight duct before its inlet"},
    {"switch-off-with-damper", "Switch {0} off while the other fan runs, and shut it with a damper"},
    {"tight-hose", "Pull the hose of {0} tight, or put a smooth one in its place"},
    {"uncover-outlet", "Take the cover off the end of {0}, or put a separator before it"},
    {"wide-elbows", "Put elbows of a wider bend (radius two bores) into {0}"},
});

/// "A, B and C".
std::string list(std::span<const std::string> words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    out += i == 0 ? "" : (i + 1 == words.size() ? " and " : ", ");
    out += words[i];
  }
  return out;
}

/// What stands in a place; nothing where the remedy has no such thing.
std::optional<std::string> filled(std::string_view place, const Remedy& remedy, const Voice& voice) {
  std::size_t index = 0;
  const auto [end, problem] = std::from_chars(place.data(), place.data() + place.size(), index);
  if (problem == std::errc{}) {
    if (index >= remedy.words.size() || remedy.words[index].empty()) {
      return std::nullopt;
    }
    const bool all = end != place.data() + place.size() && *end == '+';
    return all ? list(std::span(remedy.words).subspan(index)) : remedy.words[index];
  }
  const bool percent = place.ends_with('%');
  const std::string_view name = percent ? place.substr(0, place.size() - 1) : place;
  for (const Figure& figure : remedy.figures) {
    if (figure.name == name) {
      return percent ? voice.percent(figure.value) : voice.show(figure);
    }
  }
  return std::nullopt;
}

/// Fills a text without [ ]; nothing where a place of it stays empty.
std::optional<std::string> fillAll(std::string_view text, const Remedy& remedy, const Voice& voice) {
  std::string out;
  while (!text.empty()) {
    const std::size_t open = text.find('{');
    out += text.substr(0, open);
    if (open == std::string_view::npos) {
      break;
    }
    const std::size_t close = text.find('}', open);
    base::check(close != std::string_view::npos, "a remedy's template has a place without an end");
    const auto value = filled(text.substr(open + 1, close - open - 1), remedy, voice);
    if (!value) {
      return std::nullopt;
    }
    out += *value;
    text.remove_prefix(close + 1);
  }
  return out;
}

}  // namespace

std::span<const RemedyWords> remedyWords() {
  return kWords;
}

const RemedyWords* findRemedyWords(std::string_view kind) {
  const auto found = std::find_if(kWords.begin(), kWords.end(),
                                  [&](const RemedyWords& words) { return words.kind == kind; });
  return found == kWords.end() ? nullptr : &*found;
}

std::string fillTemplate(std::string_view text, const Remedy& remedy, const Voice& voice) {
  std::string out;
  const auto must = [&](std::string_view part) {
    const auto filled = fillAll(part, remedy, voice);
    if (!filled) {
      throw base::InternalError("remedy " + remedy.kind + " lacks a figure or word of its sentence");
    }
    out += *filled;
  };
  while (!text.empty()) {
    const std::size_t open = text.find('[');
    must(text.substr(0, open));
    if (open == std::string_view::npos) {
      break;
    }
    const std::size_t close = text.find(']', open);
    base::check(close != std::string_view::npos, "a remedy's template has a part without an end");
    out += fillAll(text.substr(open + 1, close - open - 1), remedy, voice).value_or("");
    text.remove_prefix(close + 1);
  }
  return out;
}

}  // namespace kerfdraft::judge
