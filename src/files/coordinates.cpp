// Coordinates between text and whole micrometres.
#include "files/coordinates.h"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "files/limits.h"
#include "files/quantity_text.h"

namespace kerfdraft::files {
namespace {

struct TextUnit {
  std::string_view text;
  double um;
  int most_decimals;
};

constexpr TextUnit kUs[] = {{"ft", 304800.0, 4}, {"in", 25400.0, 5}};
constexpr TextUnit kMetric[] = {{"m", 1e6, 3}, {"mm", 1e3, 3}};
/// By how many letters a unit of the other system must be shorter: 150 mm stays 150 mm in an inch project.
constexpr std::size_t kForeignPenalty = 2;

/// By how many letters inches or millimetres must be shorter: a drawing in one unit is read more easily.
constexpr std::size_t kSmallUnitPenalty = 2;

/// The same steps as reading takes, so that what is written is what is read.
std::optional<std::int64_t> micrometresOf(std::string_view text) {
  const base::Result<double> metres = base::parseQuantity(base::Kind::Length, text);
  if (!metres || std::fabs(*metres) > 1e9) {
    return std::nullopt;
  }
  return std::llround(*metres * 1e6);
}

std::optional<std::string> shortestIn(std::int64_t um, const TextUnit (&units)[2]) {
  std::optional<std::string> best;
  for (const TextUnit& unit : units) {
    for (int decimals = 0; decimals <= unit.most_decimals; ++decimals) {
      std::string text = fmt::format("{:.{}f} {}", static_cast<double>(um) / unit.um, decimals, unit.text);
      if (micrometresOf(text) == um) {
        if (um == 0) {
          text = fmt::format("0 {}", unit.text);
        }
        if (!best || text.size() + kSmallUnitPenalty < best->size()) {
          best = std::move(text);
        }
        break;
      }
    }
  }
  return best;
}

}  // namespace

base::Result<std::int64_t> parseCoordinate(std::string_view text, std::string_view where) {
  const base::Result<double> metres = parseWithin(base::Kind::Length, text, kCoordinate, where);
  if (!metres) {
    return base::Failure(metres.error());
  }
  return std::llround(*metres * 1e6);
}

std::string coordinateText(std::int64_t um, base::UnitSystem system) {
  const bool us = system == base::UnitSystem::Us;
  const std::optional<std::string> own = shortestIn(um, us ? kUs : kMetric);
  const std::optional<std::string> foreign = shortestIn(um, us ? kMetric : kUs);
  if (own && (!foreign || own->size() <= foreign->size() + kForeignPenalty)) {
    return *own;
  }
  return foreign ? *foreign : fmt::format("{} um", um);
}

}  // namespace kerfdraft::files
