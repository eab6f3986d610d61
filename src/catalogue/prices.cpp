// Price bands, scaled between the rows that are recalled.
#include "catalogue/prices.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

namespace kerfdraft::catalogue {
namespace {

constexpr double kFoot_m = 0.3048;
constexpr double kSame = 0.02;  // bores this near need no scaling

struct Point {
  double size = 0;  ///< bore or power
  Price price;
};

bool names(const std::string& list, std::string_view key) {
  std::istringstream words(list);
  for (std::string word; words >> word;) {
    if (word == key) {
      return true;
    }
  }
  return false;
}

/// The band of a row, for a metre where it is printed for a foot.
Price priceOf(const RowView& row) {
  const double factor = row.text("per") == "ft" ? 1 / kFoot_m : 1;
  const double low_usd = row.number("usd");
  const double high_usd = row.maybe("usd_to").value_or(low_usd);
  return {factor * std::min(low_usd, high_usd), factor * std::max(low_usd, high_usd), false, row.origin()};
}

/// Rows of a thing in rising size; those without the column where `column` is empty.
std::vector<Point> pointsOf(const Catalogue& catalogue, std::string_view thing, std::string_view column,
                            std::string_view construction = {}) {
  const base::Result<const Table*> table = catalogue.table("prices");
  base::check(table.has_value(), "the table of prices is missing");
  std::vector<Point> points;
  for (const Row& r : (*table)->rows()) {
    const RowView row(**table, r);
    if (row.text("thing") != thing ||
        (!construction.empty() && !names(row.text("constructions"), construction))) {
      continue;
    }
    const std::optional<double> size = column.empty() ? std::optional<double>(0) : row.maybe(column);
    if (size) {
      points.push_back({*size, priceOf(row)});
    }
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const Point& a, const Point& b) { return a.size < b.size; });
  return points;
}

/// The exponent between two prices; the usual one where it can't be told.
double exponent(double size_a, double usd_a, double size_b, double usd_b) {
  return size_b > size_a && usd_a > 0 && usd_b > 0 ? std::log(usd_b / usd_a) / std::log(size_b / size_a)
                                                   : kPriceExponent;
}

std::optional<Price> scaled(const std::vector<Point>& points, double size) {
  if (points.empty() || !(size > 0) || !std::isfinite(size)) {
    return std::nullopt;
  }
  const auto nearest = std::min_element(points.begin(), points.end(), [&](const Point& a, const Point& b) {
    return std::abs(std::log(size / a.size)) < std::abs(std::log(size / b.size));
  });
  Price price = nearest->price;
  const double ratio = size / nearest->size;
  if (std::abs(ratio - 1) <= kSame) {
    return price;
  }
  double low = kPriceExponent;
  double high = kPriceExponent;
  const auto other =
      ratio > 1 ? std::next(nearest) : (nearest == points.begin() ? points.end() : nearest - 1);
  if (other != points.end()) {
    const Point& a = ratio > 1 ? *nearest : *other;
    const Point& b = ratio > 1 ? *other : *nearest;
    low = exponent(a.size, a.price.low_usd, b.size, b.price.low_usd);
    high = exponent(a.size, a.price.high_usd, b.size, b.price.high_usd);
  }
  price.low_usd *= std::pow(ratio, low);
  price.high_usd *= std::pow(ratio, high);
  price.scaled = true;
  return price;
}

std::optional<Price> onlyRow(const std::vector<Point>& points) {
  return points.empty() ? std::nullopt : std::optional(points.front().price);
}

}  // namespace

std::optional<Price> ductPrice(const Catalogue& catalogue, std::string_view construction, double bore_m) {
  return construction.empty() ? std::nullopt
                              : scaled(pointsOf(catalogue, "duct", "bore", construction), bore_m);
}

std::optional<Price> hosePrice(const Catalogue& catalogue, double bore_m) {
  return scaled(pointsOf(catalogue, "hose", "bore"), bore_m);
}

std::optional<Price> gatePrice(const Catalogue& catalogue, double bore_m) {
  return scaled(pointsOf(catalogue, "gate", "bore"), bore_m);
}

std::optional<Price> automaticGatePrice(const Catalogue& catalogue) {
  return onlyRow(pointsOf(catalogue, "automatic gate", {}));
}

std::optional<Price> elbowPrice(const Catalogue& catalogue) {
  return onlyRow(pointsOf(catalogue, "elbow", {}));
}

std::optional<Price> branchPrice(const Catalogue& catalogue) {
  return onlyRow(pointsOf(catalogue, "branch", {}));
}

std::optional<Price> collectorPrice(const Catalogue& catalogue, double power_w) {
  return scaled(pointsOf(catalogue, "collector", "power"), power_w);
}

}  // namespace kerfdraft::catalogue
