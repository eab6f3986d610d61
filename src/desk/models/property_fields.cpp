// What is known of the fields beside their tables: where a key is looked up, what has its place elsewhere,
// what a field is called, an example of what may be typed.
#include <algorithm>
#include <array>

#include "desk/models/property_walk.h"

namespace kerfdraft::desk {
namespace {

struct InCatalogue {
  std::string_view noun;
  std::string_view key;
  std::string_view table;
};
constexpr std::array kInCatalogue{InCatalogue{"port", "hood", "hoods"},
                                  InCatalogue{"machine", "kind", "machine_kinds"},
                                  InCatalogue{"machine", "chips", "transport_rules"},
                                  InCatalogue{"leg", "construction", "constructions"},
                                  InCatalogue{"elbow-form", "form", "elbows"},
                                  InCatalogue{"duct", "elbow-form", "elbows"},
                                  InCatalogue{"separator", "kind", "separators"},
                                  InCatalogue{"separator", "bin-form", "containers"},
                                  InCatalogue{"filter", "cleaning", "filter_loading"},
                                  InCatalogue{"free-air", "form", "hoods"}};

struct Elsewhere {
  std::string_view noun;
  std::string_view key;
};
/// Ends, corners and outlines are drawn; states have their own table.
constexpr std::array kElsewhere{
    Elsewhere{"duct", "from"},        Elsewhere{"duct", "to"},         Elsewhere{"duct", "corners"},
    Elsewhere{"duct", "gates"},       Elsewhere{"duct", "taps"},       Elsewhere{"duct", "cleanouts"},
    Elsewhere{"room", "outline"},     Elsewhere{"room", "openings"},   Elsewhere{"room", "obstacles"},
    Elsewhere{"obstacle", "outline"}, Elsewhere{"gate", "corner"},     Elsewhere{"access", "corner"},
    Elsewhere{"on-corner", "duct"},   Elsewhere{"on-corner", "corner"}};

std::string spaced(std::string_view key) {
  std::string out(key);
  std::replace(out.begin(), out.end(), '-', ' ');
  return out;
}

}  // namespace

std::string_view tableOfKey(std::string_view noun, std::string_view key) {
  for (const InCatalogue& each : kInCatalogue) {
    if (each.noun == noun && each.key == key) {
      return each.table;
    }
  }
  return {};
}

bool isElsewhere(std::string_view noun, std::string_view key) {
  return key == "id" || std::any_of(kElsewhere.begin(), kElsewhere.end(), [&](const Elsewhere& each) {
           return each.noun == noun && each.key == key;
         });
}

std::string nameOfField(std::string_view noun, std::string_view key) {
  const FieldWords* words = fieldWords(noun, key);
  return words == nullptr ? spaced(key) : std::string(words->name);
}

std::string nameOfPart(std::string_view noun) {
  const PartWords* words = partWords(noun);
  return words == nullptr ? spaced(noun) : std::string(words->one);
}

std::string headingOfPart(std::string_view noun) {
  const PartWords* words = partWords(noun);
  return words == nullptr ? spaced(noun) : std::string(words->heading);
}

std::string tooltipOf(const PropertyRow& row) {
  return explained(row.help, row.term, row.key);
}

std::string exampleFor(base::Kind kind, std::string_view noun, std::string_view key, base::UnitSystem units) {
  const bool us = units == base::UnitSystem::Us;
  if (kind == base::Kind::Length) {
    const bool bore = key.find("bore") != std::string_view::npos;
    if (bore) {
      return us ? "4 in" : "100 mm";
    }
    if (noun == "room") {
      return us ? "9 ft" : "2.7 m";
    }
    return noun == "air" ? (us ? "900 ft" : "300 m") : (us ? "3 ft" : "0.9 m");
  }
  switch (kind) {
    case base::Kind::VolumeFlow:
      return us ? "400 cfm" : "700 m3/h";
    case base::Kind::Pressure:
      return us ? "8 in w.g." : "2000 Pa";
    case base::Kind::AbsolutePressure:
      return us ? "29.9 inHg" : "1013 hPa";
    case base::Kind::Temperature:
      return us ? "70 °F" : "20 °C";
    case base::Kind::Area:
      return us ? "20 in2" : "120 cm2";
    case base::Kind::Angle:
      return "90 deg";
    case base::Kind::Power:
      return us ? "3 hp" : "2.2 kW";
    case base::Kind::Voltage:
      return us ? "240 V" : "230 V";
    case base::Kind::Current:
      return us ? "20 A" : "16 A";
    case base::Kind::MassFlow:
      return us ? "20 lb/h" : "10 kg/h";
    case base::Kind::Volume:
      return us ? "30 gal" : "100 l";
    case base::Kind::RotationalSpeed:
      return "3450 rpm";
    case base::Kind::Ratio:
      // Of the air's humidity; of a bend, its radius over the bore; of a hose; else a loss in velocity
      // pressures.
      return key == "humidity" ? "50 %" : key == "radius" ? "1.5" : key == "compression" ? "0.2" : "0.5";
    case base::Kind::Density:
      return us ? "0.075 lb/ft3" : "1.2 kg/m3";
    default:
      return {};
  }
}

}  // namespace kerfdraft::desk
