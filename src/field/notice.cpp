// The sentence of every notice: one place, so that units and language can change.
#include "field/notice.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/result.h"

namespace kerfdraft::field {
namespace {

/// Quantities of one notice in the reader's units.
class Speaker {
 public:
  Speaker(const Notice& notice, base::UnitSystem units) : notice_(notice), units_(units) {}

  std::string operator()(std::string_view name) const {
    const Said& said = find(name);
    return base::formatQuantity(said.kind, said.value, units_);
  }
  double number(std::string_view name) const { return find(name).value; }
  std::string percent(std::string_view name) const { return fmt::format("{:.1f} %", 100 * number(name)); }
  /// "11 % low", "4 % high" of a ratio to the right value.
  std::string off(std::string_view name) const {
    const double percent = 100 * (number(name) - 1);
    return fmt::format("{:.1f} % {}", std::abs(percent), percent < 0 ? "low" : "high");
  }
  std::string count(std::string_view name) const { return fmt::format("{:.0f}", number(name)); }
  /// "is" or "are" by a count.
  std::string_view verb(std::string_view name, std::string_view one = "is",
                        std::string_view many = "are") const {
    return number(name) == 1 ? one : many;
  }
  const std::string& detail() const { return notice_.detail; }
  /// ", 442 cfm" where the flow is known.
  std::string andFlow(std::string_view name) const { return number(name) > 0 ? ", " + (*this)(name) : ""; }

 private:
  const Said& find(std::string_view name) const {
    const auto found = std::ranges::find(notice_.quantities, name, &Said::name);
    base::check(found != notice_.quantities.end(), "a notice without one of its quantities");
    return *found;
  }
  const Notice& notice_;
  base::UnitSystem units_;
};

struct Sentence {
  std::string_view key;
  std::string (*say)(const Speaker&);
};

constexpr auto kSentences = std::to_array<Sentence>({
    {"one-leg-doubled",
     [](const Speaker& q) {
       return fmt::format(
           "One leg read: its {} was doubled to {}, because the other leg moved as far. Taken alone it would "
           "have "
           "given {}.",
           q("leg"), q("pressure"), q("half-speed"));
     }},
    {"one-leg-unclear",
     [](const Speaker& q) {
       return fmt::format(
           "It was not said whether this is the difference of the two levels or one leg's movement; it was "
           "taken as "
           "the difference. If it was one leg, the pressure is {} and the speed {}{}.",
           q("doubled-pressure"), q("doubled-speed"), q.andFlow("doubled-flow"));
     }},
    {"one-leg-likely",
     [](const Speaker& q) {
       return fmt::format(
           "Probably only one leg was read. As the difference of the levels, {} makes {}, which is slow for "
           "a duct "
           "that carries chips; as one leg it would be {} and {}{}. Read both legs and add them.",
           q("pressure"), q("speed"), q("doubled-pressure"), q("doubled-speed"), q.andFlow("doubled-flow"));
     }},
    {"legs-unequal",
     [](const Speaker& q) {
       return fmt::format(
           "The legs moved by {} and {}. Their sum is right all the same if both were zeroed; look at the "
           "zero and at "
           "a leaning or uneven tube.",
           q("leg-1"), q("leg-2"));
     }},
    {"centre-reading",
     [](const Speaker& q) {
       return fmt::format(
           "A single centre reading shows the fastest air, not the mean: it was multiplied by {:.2g}. "
           "Uncorrected it "
           "would say {}{}. A traverse is surer.",
           q.number("factor"), q("centre-speed"), q.andFlow("centre-flow"));
     }},
    {"place-unstated",
     [](const Speaker& q) {
       return fmt::format(
           "It was not said where in the duct this was read; it was taken as the mean. If it was the centre, "
           "the mean "
           "is about {:.2g} of it: {}{}.",
           q.number("factor"), q("if-centre-speed"), q.andFlow("if-centre-flow"));
     }},
    {"pressures-averaged",
     [](const Speaker& q) {
       return fmt::format(
           "The speeds were averaged, not the pressures. Averaging the pressures first would give {}, {} "
           "too much.",
           q("wrong-speed"), q.percent("over"));
     }},
    {"mean-of-pressures",
     [](const Speaker&) {
       return std::string(
           "This pressure is a mean of pressures, and its root always over-reads the mean speed: by half a "
           "percent on "
           "an even profile, ten percent on a ragged one. Give the single readings.");
     }},
    {"below-resolution",
     [](const Speaker& q) {
       const std::string which = q.number("of") > 1
                                     ? fmt::format("{} of {} readings (lowest {}) {}", q.count("count"),
                                                   q.count("of"), q("pressure"), q.verb("count"))
                                     : fmt::format("{} is", q("pressure"));
       return fmt::format(
           "{} below what this gauge resolves: under {} ({}) the gauge alone leaves more than 20 % of speed "
           "in doubt. "
           "Use an inclined or digital gauge.",
           which, q("smallest-pressure"), q("smallest-speed"));
     }},
    {"zero-reading",
     [](const Speaker& q) {
       return fmt::format(
           "The gauge shows nothing, which is not the same as no air: it cannot tell speeds below about {}. "
           "The "
           "uncertainty given is what may be there unseen.",
           q("smallest-speed"));
     }},
    {"standard-air-at-altitude",
     [](const Speaker& q) {
       return fmt::format(
           "The density of {} that was given does not fit the place, whose air has {}: a speed from a "
           "pressure comes "
           "out {} by it.",
           q("density-used"), q("density-of-day"), [&] {
             const double percent = 100 * (1 / q.number("speed-ratio") - 1);
             return fmt::format("{:.1f} % {}", std::abs(percent), percent < 0 ? "low" : "high");
           }());
     }},
    {"density-corrected",
     [](const Speaker& q) {
       return fmt::format(
           "The air of this place has {} instead of the {} of standard air. The standard constant (4005) "
           "would make a "
           "speed from a pressure {:.1f} % {}.",
           q("density-of-day"), q("density-used"), std::abs(100 * (1 / q.number("speed-ratio") - 1)),
           q.number("speed-ratio") > 1 ? "too low" : "too high");
     }},
    {"standard-air-assumed",
     [](const Speaker& q) {
       return fmt::format(
           "No temperature, barometer or altitude was given: standard air ({}) was taken. In a hot, cold or "
           "high place "
           "give them.",
           q("density-used"));
     }},
    {"altitude-unstated",
     [](const Speaker&) {
       return std::string("Neither altitude nor barometer was given: sea level was taken.");
     }},
    {"probe-large",
     [](const Speaker& q) {
       return fmt::format(
           "A tube of {} is thick for a duct of {}: it blocks air and reads high. At most 1/30 of the "
           "bore is usual.",
           q("diameter"), q("bore"));
     }},
    {"head-large",
     [](const Speaker& q) {
       return fmt::format(
           "A head of {} fills {} of the section: the air speeds up past it and the meter reads high.",
           q("diameter"), q.percent("share"));
     }},
    {"fast-air",
     [](const Speaker& q) {
       return fmt::format(
           "At {} the air is compressed in front of the tube by more than 0.8 % of the reading, which "
           "is not corrected.",
           q("speed"));
     }},
    {"near-wall-moved",
     [](const Speaker& q) {
       std::string text = fmt::format("{} marks were kept {} from the wall.", q.count("moved"), q("least"));
       if (q.number("doubled") > 0) {
         text += " Marks that fall together are read once and counted twice.";
       }
       return text;
     }},
    {"small-for-epa",
     [](const Speaker& q) {
       return fmt::format(
           "The equal-area rule was published for ducts from 12 in (305 mm); this one has {}. The "
           "positions still divide it into equal areas.",
           q("bore"));
     }},
    {"straight-run-unstated",
     [](const Speaker&) {
       return std::string(
           "The straight duct before and after the plane was not given: no straight-run rule was "
           "checked.");
     }},
    {"straight-run-short",
     [](const Speaker& q) {
       return fmt::format(
           "With {:.1f} diameters of straight duct before and {:.1f} after, this plane meets no straight-run "
           "rule for a "
           "duct of its size. Look for a better place, or trust the number less.",
           q.number("upstream"), q.number("downstream"));
     }},
    {"one-diameter",
     [](const Speaker&) {
       return std::string(
           "Only one diameter was read: a profile that leans across it is not seen. Two at right angles "
           "are usual.");
     }},
    {"missing-filled",
     [](const Speaker& q) {
       return fmt::format(
           "{} of {} points {} missing ({}); each is stood in for by the points that see the same part "
           "of the section.",
           q.count("count"), q.count("of"), q.verb("count"), q.detail());
     }},
    {"negative-as-zero",
     [](const Speaker& q) {
       return fmt::format(
           "{} of {} readings {} negative: the air turns back or swirls there. They count as no speed. "
           "Find a better plane.",
           q.count("count"), q.count("of"), q.verb("count"));
     }},
    {"hoses-swapped",
     [](const Speaker&) {
       return std::string(
           "Every reading is negative: the two hoses are swapped, or the tube points downstream. The "
           "magnitudes were taken.");
     }},
    {"poor-profile",
     [](const Speaker& q) {
       return fmt::format(
           "{} of {} points {} less than a tenth of the greatest velocity pressure: the profile is too "
           "uneven for a good traverse. Find a better plane.",
           q.count("count"), q.count("of"), q.verb("count", "has", "have"));
     }},
    {"claim-agrees",
     [](const Speaker& q) {
       return fmt::format("The claimed {}{} agrees.", q("claimed"), q.andFlow("claimed-flow"));
     }},
    {"claim-one-leg",
     [](const Speaker& q) {
       return fmt::format(
           "The claimed {}{} is what reading one leg of the U-tube gives; both legs give {}{}.", q("claimed"),
           q.andFlow("claimed-flow"), q("right"), q.andFlow("right-flow"));
     }},
    {"claim-pressures-averaged",
     [](const Speaker& q) {
       return fmt::format(
           "The claimed {}{} is what averaging the pressures gives; averaging the speeds gives {}{}.",
           q("claimed"), q.andFlow("claimed-flow"), q("right"), q.andFlow("right-flow"));
     }},
    {"claim-centre",
     [](const Speaker& q) {
       return fmt::format("The claimed {}{} takes the centre for the mean; corrected it is {}{}.",
                          q("claimed"), q.andFlow("claimed-flow"), q("right"), q.andFlow("right-flow"));
     }},
    {"claim-standard-air",
     [](const Speaker& q) {
       return fmt::format("The claimed {}{} takes standard air; with the air of the day it is {}{}.",
                          q("claimed"), q.andFlow("claimed-flow"), q("right"), q.andFlow("right-flow"));
     }},
    {"claim-differs",
     [](const Speaker& q) {
       return fmt::format("The claimed {}{} is {} against {}{}, and none of the usual mistakes explains it.",
                          q("claimed"), q.andFlow("claimed-flow"), q.off("ratio"), q("right"),
                          q.andFlow("right-flow"));
     }},
});

}  // namespace

double quantityOf(const Notice& notice, std::string_view name) {
  const auto found = std::ranges::find(notice.quantities, name, &Said::name);
  base::check(found != notice.quantities.end(), "a notice without one of its quantities");
  return found->value;
}

std::string say(const Notice& notice, base::UnitSystem units) {
  const auto found = std::ranges::find(kSentences, notice.key, &Sentence::key);
  base::check(found != kSentences.end(), "a notice without a sentence");
  return found->say(Speaker(notice, units));
}

std::vector<std::string_view> noticeKeys() {
  std::vector<std::string_view> keys;
  for (const Sentence& s : kSentences) {
    keys.push_back(s.key);
  }
  return keys;
}

}  // namespace kerfdraft::field
