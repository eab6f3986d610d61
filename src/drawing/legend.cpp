// Lays out the rows of a legend.
#include "drawing/legend.h"

#include "drawing/shapes.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {
namespace {

constexpr double kRow_mm = 5.0;
constexpr double kColumn_mm = 52;
constexpr double kSize_mm = 2.2;

struct Mover {
  At by;
  void operator()(Path& path) const {
    for (At& p : path.points) {
      p = p + by;
    }
  }
  void operator()(Circle& c) const { c.centre = c.centre + by; }
  void operator()(Arc& a) const { a.centre = a.centre + by; }
  void operator()(Text& t) const { t.at = t.at + by; }
  void operator()(Group& g) const {
    for (Shape& s : g.shapes) {
      std::visit(*this, s.what);
    }
  }
};

}  // namespace

LegendRow legendHeading(std::string words) {
  LegendRow row;
  row.words = std::move(words);
  row.heading = true;
  return row;
}

double drawLegendRows(std::vector<LegendRow> rows, const std::vector<std::string>& notes, const Box& where,
                      std::vector<Shape>& out) {
  const auto columns = static_cast<std::size_t>(std::max(1.0, std::floor(where.width() / kColumn_mm)));
  const double width = where.width() / static_cast<double>(columns);
  // The first section keeps a column of its own where there are several.
  std::size_t first = rows.size();
  for (std::size_t k = 1; k < rows.size() && columns > 1; ++k) {
    if (rows[k].heading) {
      first = k;
      break;
    }
  }
  const std::size_t rest = rows.size() - first;
  const std::size_t others = std::max<std::size_t>(columns - 1, 1);
  const std::size_t per_column = std::max<std::size_t>((rest + others - 1) / others, 1);
  Group group{"legend", {}, {}, {}};
  double lowest = where.top;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const std::size_t column = k < first ? 0 : 1 + (k - first) / per_column;
    const std::size_t place = k < first ? k : (k - first) % per_column;
    const double x = where.left + width * static_cast<double>(column);
    const double y = where.top + kRow_mm * (static_cast<double>(place) + 0.5);
    LegendRow& row = rows[k];
    for (Shape& shape : row.sample) {
      std::visit(Mover{{x, y}}, shape.what);
    }
    append(group.shapes, std::move(row.sample));
    const double base = y + capHeight(kSize_mm) / 2;
    if (row.heading) {
      group.shapes.push_back(text({x, base}, row.words, {.size_mm = kText_mm, .bold = true}));
    } else {
      group.shapes.push_back(text({x + kLegendSample_mm + 2, base}, row.words, {.size_mm = kSize_mm}));
    }
    if (!row.more.empty()) {
      group.shapes.push_back(text({x + std::min(width - 2, 52.0), base}, row.more,
                                  {.size_mm = kSize_mm, .anchor = Anchor::End, .colour = kFaint}));
    }
    lowest = std::max(lowest, y + kRow_mm / 2);
  }
  for (const std::string& note : notes) {
    for (const std::string& part : wrapped(note, where.width() - 2, kSmall_mm)) {
      lowest += 2.9;
      group.shapes.push_back(text({where.left, lowest}, part, {.size_mm = kSmall_mm, .colour = kFaint}));
    }
  }
  out.push_back({std::move(group)});
  return lowest - where.top;
}

}  // namespace kerfdraft::drawing
