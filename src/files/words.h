// The words of every enum of the project, as written in files.
#pragma once

#include "files/field_table.h"
#include "shop/project.h"

namespace kerfdraft::files {

template <>
struct Words<base::Standing> {
  static constexpr std::string_view kNoun = "standing";
  static constexpr auto kWords = std::to_array<Word<base::Standing>>({
      {base::Standing::Measured, "measured", "measured here; `source` says with what"},
      {base::Standing::Published, "published", "from a published table; `source` names it"},
      {base::Standing::Maker, "maker", "the maker's figure"},
      {base::Standing::Assumed, "assumed", "taken as usual; what a plain text stands for"},
      {base::Standing::Estimated, "estimated", "a guess by eye"},
  });
};

template <>
struct Words<base::UnitSystem> {
  static constexpr std::string_view kNoun = "unit-system";
  static constexpr auto kWords = std::to_array<Word<base::UnitSystem>>({
      {base::UnitSystem::Us, "us", "inches, feet, cfm, fpm, inches of water"},
      {base::UnitSystem::Metric, "metric", "millimetres, metres, m³/h, m/s, pascals"},
  });
};

template <>
struct Words<shop::Who> {
  static constexpr std::string_view kNoun = "who";
  static constexpr auto kWords = std::to_array<Word<shop::Who>>({
      {shop::Who::Home, "home", "a private shop"},
      {shop::Who::OnePerson, "one-person", "a business without employees"},
      {shop::Who::Employer, "employer", "a business with employees"},
      {shop::Who::School, "school", "a school or college"},
  });
};

template <>
struct Words<shop::DensityMode> {
  static constexpr std::string_view kNoun = "density";
  static constexpr auto kWords = std::to_array<Word<shop::DensityMode>>({
      {shop::DensityMode::Local, "local", "air gets thinner where the suction is greater"},
      {shop::DensityMode::Uniform, "uniform", "the room's density everywhere"},
  });
};

template <>
struct Words<shop::OpeningKind> {
  static constexpr std::string_view kNoun = "opening-kind";
  static constexpr auto kWords = std::to_array<Word<shop::OpeningKind>>({
      {shop::OpeningKind::Door, "door", "a door"},
      {shop::OpeningKind::Window, "window", "a window"},
      {shop::OpeningKind::Grille, "grille", "a grille or louvre that is always open"},
      {shop::OpeningKind::Crack, "crack", "leakage of the building"},
      {shop::OpeningKind::Exhaust, "exhaust", "another fan that takes air out of the room"},
  });
};

template <>
struct Words<shop::RatingBasis> {
  static constexpr std::string_view kNoun = "rating-basis";
  static constexpr auto kWords = std::to_array<Word<shop::RatingBasis>>({
      {shop::RatingBasis::StaticAtInlet, "static-at-inlet", "static suction in the pipe before the unit"},
      {shop::RatingBasis::TotalAtInlet, "total-at-inlet", "suction of total pressure before the unit"},
      {shop::RatingBasis::FanStatic, "fan-static", "fan static pressure"},
      {shop::RatingBasis::FanTotal, "fan-total", "fan total pressure"},
  });
};

template <>
struct Words<shop::Fitted> {
  static constexpr std::string_view kNoun = "fitted";
  static constexpr auto kWords = std::to_array<Word<shop::Fitted>>({
      {shop::Fitted::Unknown, "unknown", "not said"},
      {shop::Fitted::Nothing, "nothing", "the bare fan"},
      {shop::Fitted::Bag, "bag", "with its bag"},
      {shop::Fitted::Filter, "filter", "with its filter"},
      {shop::Fitted::Cyclone, "cyclone", "with its cyclone, no filter"},
      {shop::Fitted::CycloneAndFilter, "cyclone-and-filter", "with cyclone and filter"},
  });
};

template <>
struct Words<shop::HoseInside> {
  static constexpr std::string_view kNoun = "hose-inside";
  static constexpr auto kWords = std::to_array<Word<shop::HoseInside>>({
      {shop::HoseInside::Smooth, "smooth", "smooth to the finger"},
      {shop::HoseInside::Ribbed, "ribbed", "the ribs can be felt inside"},
  });
};

template <>
struct Words<shop::HoseHung> {
  static constexpr std::string_view kNoun = "hose-hung";
  static constexpr auto kWords = std::to_array<Word<shop::HoseHung>>({
      {shop::HoseHung::Tight, "tight", "pulled straight"},
      {shop::HoseHung::Hung, "hung", "hung with a little sag"},
      {shop::HoseHung::Slack, "slack", "lying in bends"},
  });
};

template <>
struct Words<shop::GateSlot> {
  static constexpr std::string_view kNoun = "gate-slot";
  static constexpr auto kWords = std::to_array<Word<shop::GateSlot>>({
      {shop::GateSlot::None, "none", "no slot: shut means airtight"},
      {shop::GateSlot::New, "new", "the slot of a good gate"},
      {shop::GateSlot::Worn, "worn", "a worn or poor gate"},
  });
};

template <>
struct Words<shop::FanSide> {
  static constexpr std::string_view kNoun = "fan-side";
  static constexpr auto kWords = std::to_array<Word<shop::FanSide>>({
      {shop::FanSide::Upstream, "upstream", "before the fan, under suction"},
      {shop::FanSide::Downstream, "downstream", "behind the fan"},
  });
};

template <>
struct Words<shop::Throws> {
  static constexpr std::string_view kNoun = "throws";
  static constexpr auto kWords = std::to_array<Word<shop::Throws>>({
      {shop::Throws::Wood, "wood", "chips and dust of wood and boards"},
      {shop::Throws::Sparks, "sparks", "sparks or hot metal: a grinder, a welder, a metal saw"},
      {shop::Throws::Vapour, "vapour", "vapour or mist of finishes and solvents"},
  });
};

template <>
struct Words<shop::Guard> {
  static constexpr std::string_view kNoun = "guard";
  static constexpr auto kWords = std::to_array<Word<shop::Guard>>({
      {shop::Guard::Unknown, "unknown", "not said"},
      {shop::Guard::Fitted, "fitted", "on the machine and used"},
      {shop::Guard::Missing, "missing", "taken off or never there"},
  });
};

template <>
struct Words<shop::Housing> {
  static constexpr std::string_view kNoun = "housing";
  static constexpr auto kWords = std::to_array<Word<shop::Housing>>({
      {shop::Housing::Unknown, "unknown", "not said"},
      {shop::Housing::Open, "open", "a bag or cartridge in the open, blown up from inside"},
      {shop::Housing::Enclosed, "enclosed", "in a casing"},
  });
};

template <>
struct Words<shop::FilterState> {
  static constexpr std::string_view kNoun = "filter-state";
  static constexpr auto kWords = std::to_array<Word<shop::FilterState>>({
      {shop::FilterState::Clean, "clean", "new or just cleaned"},
      {shop::FilterState::Seasoned, "seasoned", "in ordinary use"},
      {shop::FilterState::Due, "due", "to be cleaned or changed"},
  });
};

}  // namespace kerfdraft::files
