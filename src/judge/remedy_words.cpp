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
    {"ask-fire-authority", "Ask the fire authority and the insurer what they want of {0+} and of its place"},
    {"ask-for-curve", "Ask the maker of {0} for its fan curve[, with points up to {flow}]"},
    {"bigger-bin", "Put a bin of {bin} or more in the place of the {0}"},
    {"bigger-collector",
     "Put a bigger collector in the place of {0}[, one that still pulls {pressure} at {flow}][: {1}]"},
    {"bigger-duct", "Make {0} {bore} wide"},
    {"bigger-duct-and-port", "Make {0} {bore} wide, and the port {1} with it"},
    {"bigger-motor", "Put a motor of {power} or more on {0}, or keep gates shut"},
    {"bigger-port", "Make the port of {0} {bore} wide"},
    {"body-opening", "Open the body of {0} to {area} in all, where the air should come in: at the cutter"},
    {"bond-metal",
     "{0}: join every loose piece of metal on the plastic to earth, and keep finishing vapour away"},
    {"carbon-monoxide-alarm", "Keep a carbon monoxide alarm that works in {0}"},
    {"clean-filter", "Clean the filter of {0}"},
    {"clean-filter-at", "When the gauge across the filter of {0} shows about {pressure}, clean it"},
    {"close-gaps", "Close gaps of {0} down to {area} in all, and leave open those at the cutter"},
    {"draw-collector", "Draw the collector and join the ducts to it"},
    {"drill-taps", "Drill a small hole to measure through into straight duct at each of {0+}"},
    {"empty-bin", "Empty the {0} after every {time-cutting} of cutting, before it is three quarters full"},
    {"empty-outdoors", "Empty {0+} often, outdoors, into covered metal, and always after sanding"},
    {"enclose-filter", "Put {0+} outdoors or into a casing, or {away} and more from where people stand"},
    {"enter-bin", "Measure the {0} and enter its volume"},
    {"enter-filter-area", "Read the area of medium off {0} and enter it"},
    {"enter-from-above", "Turn the entries of {1+} so that they come into {0} from the side or from above"},
    {"examine", "Ask the authority and a competent examiner what they want to see, and keep what was found"},
    {"fewer-gates", "Open fewer gates at once on {0}"},
    {"fine-filter", "See that {0+} has a filter made for fine dust, and look every week whether it is whole"},
    {"fit-gauge", "Put a gauge across {0+} and mark on it where it stands clean"},
    {"fit-guard", "Fit the guard of {0+} before the next cut"},
    {"fit-isolation",
     "Have something fitted between {0+} and the ducts that stops a flame, by someone licensed for it"},
    {"gate-at-main", "Put gate {0}, or a second one, within {length} of {1}"},
    {"gates-at-main", "Put gates {1+}, or second ones, within {length} of {0}"},
    {"give-air-a-way", "Give the air at {0} a way in and a way out: join what is closed there"},
    {"hold-liner",
     "Hold the bag in the {0} down: a basket of wire in it, or a hose that puts the same suction behind it"},
    {"hood-at-cutter",
     "Catch the dust of {0} with a hood close to the cutter, in the direction in which it flies"},
    {"join-collector", "Join a duct to {0}, or take it out of the drawing"},
    {"join-end", "Join the open end of {0} to where its air goes, or take it out of the drawing"},
    {"keep-moving", "Keep a gate at the far end of {0} open while little runs, so that {flow} more comes in"},
    {"lead-outdoors",
     "Lead the air of {0+} outdoors, with as much make-up air and no fire that breathes the room's"},
    {"let-air-in", "Let {flow} more air into {0}: open one more gate"},
    {"let-room-breathe", "Make an opening to the outdoors at {0} that cannot be shut"},
    {"measure-exposure", "Have the dust in the breath measured where it has to be known"},
    {"metal-by-hand", "Pick metal up by hand first, and keep {0+} shut while machines cut"},
    {"metal-duct", "{0}: lay them in metal, joined to earth throughout, with conductive hose"},
    {"more-air", "Bring {flow} through {0}: this bore carries its chips with that"},
    {"more-filter", "Give {0} {area-needed} of filter medium or more"},
    {"move-entry", "Let {0} enter two bores further along, so that it does not face the other"},
    {"non-return", "Put a damper behind {0} that shuts by itself when it stands"},
    {"one-fan-at-a-time", "Run only one of {0+} at a time"},
    {"open-gate", "Open gate {0} as well"},
    {"open-gate-fully", "Open gate {0} fully"},
    {"own-circuit", "Have a licensed electrician give {0} a circuit of its own"},
    {"own-collector", "Take {0} off these ducts, and collect its dust apart, with nothing that burns"},
    {"own-vapour-fan", "Take {0} off these ducts, and give it a room and a fan made for vapour"},
    {"protect-hearing", "Protect the ears at {0}, and have the noise measured"},
    {"quiet-collector", "Put the collector behind a wall that lets its air back, or outdoors"},
    {"refer", "Show the plan to an engineer for exhaust and to the fire authority before money is spent"},
    {"room-opening", "Make an opening of {area} to the outdoors in {0} that cannot be shut"},
    {"sealed-appliance", "Put an appliance that takes its air from outdoors in the place of the one in {0}"},
    {"separate-systems", "Give {0} ducts of its own"},
    {"short-use", "Keep to these times at {0+}, or have the dust in the breath measured"},
    {"shorter-hose", "Shorten the hose of {0} to {length} and hang it tight"},
    {"shut-gate", "Shut gate {0} when this is in use"},
    {"shut-inlet-test",
     "Find out what {0} pulls: shut its inlet, hold a gauge to a small hole before it, and enter what it "
     "shows; it takes two minutes"},
    {"slant-entry", "Let {0+} enter at 30° to the main, or 45° at most"},
    {"smaller-duct", "Make {0} {bore} wide: smaller, so that the air is fast enough"},
    {"spread-elbows", "Put straight duct of two bores or more between the elbows of {0}"},
    {"stiffer-bin",
     "Put a bin that bears {suction} in the place of the {0}, or stiffen it with a ring inside"},
    {"stiffer-duct",
     "Put heavier duct (26 gauge or more) in the place of {0+}, or look at its thickness first"},
    {"stiffer-hose", "Put hose that its maker says bears {suction} in the place of {0+}"},
    {"straight-inlet", "Give {0} five bores of straight duct before its inlet"},
    {"switch-off-with-damper", "Switch {0} off while the other fan runs, and shut it with a damper"},
    {"test-draft",
     "Have a licensed heating trade test the draft in {0} with every fan running and doors set for the "
     "deepest pull"},
    {"tight-hose", "Pull the hose of {0} tight, or put a smooth one in its place"},
    {"uncover-outlet", "Take the cover off the end of {0}, or put a separator before it"},
    {"wear-mask", "Wear a mask for fine dust that fits, beside the exhaust and never in its place"},
    {"wide-elbows", "Put elbows of a wider bend (radius two bores) into {0}"},
    {"widen-narrow-part", "Make {0} {bore} wide, as wide as what comes before it"},
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
