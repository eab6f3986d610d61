// Scales and sheets as draughtsmen use them, and the furniture round a picture.
#include "drawing/page.h"

#include <fmt/format.h>

#include <array>
#include <cctype>

#include "drawing/shapes.h"
#include "drawing/text_measure.h"

namespace kerfdraft::drawing {

using base::UnitSystem;

std::vector<Paper> papers(UnitSystem system) {
  if (system == UnitSystem::Us) {
    return {{"letter", 279.4, 215.9},
            {"tabloid", 431.8, 279.4},
            {"17 x 22 in", 558.8, 431.8},
            {"22 x 34 in", 863.6, 558.8}};
  }
  return {{"A4", 297, 210}, {"A3", 420, 297}, {"A2", 594, 420}, {"A1", 841, 594}};
}

std::optional<Paper> paperNamed(std::string_view name) {
  std::string asked(name);
  for (char& c : asked) {
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  constexpr std::string_view kUpright = "-upright";
  const bool upright = asked.ends_with(kUpright);
  if (upright) {
    asked.erase(asked.size() - kUpright.size());
  }
  for (const UnitSystem system : {UnitSystem::Us, UnitSystem::Metric}) {
    for (const Paper& paper : papers(system)) {
      std::string known = paper.name;
      for (char& c : known) {
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
      }
      if (known == asked && known.find(' ') == std::string::npos) {
        return upright ? Paper{paper.name + " upright", paper.height_mm, paper.width_mm} : paper;
      }
    }
  }
  return std::nullopt;
}

namespace {

struct UsualScale {
  double ratio;
  std::string_view words;
};

constexpr auto kUs = std::to_array<UsualScale>({{8, "1 1/2 in = 1 ft"},
                                                {12, "1 in = 1 ft"},
                                                {16, "3/4 in = 1 ft"},
                                                {24, "1/2 in = 1 ft"},
                                                {32, "3/8 in = 1 ft"},
                                                {40, "0.3 in = 1 ft"},
                                                {48, "1/4 in = 1 ft"},
                                                {64, "3/16 in = 1 ft"},
                                                {96, "1/8 in = 1 ft"},
                                                {128, "3/32 in = 1 ft"},
                                                {192, "1/16 in = 1 ft"},
                                                {384, "1/32 in = 1 ft"}});
constexpr auto kMetric = std::to_array<UsualScale>({{10, ""},
                                                    {20, ""},
                                                    {25, ""},
                                                    {30, ""},
                                                    {40, ""},
                                                    {50, ""},
                                                    {60, ""},
                                                    {75, ""},
                                                    {100, ""},
                                                    {150, ""},
                                                    {200, ""},
                                                    {250, ""},
                                                    {500, ""}});

}  // namespace

Scale scaleFor(double width_m, double height_m, double room_width_mm, double room_height_mm,
               UnitSystem system) {
  const double needed = std::max(
      {width_m * 1000 / std::max(room_width_mm, 1.0), height_m * 1000 / std::max(room_height_mm, 1.0), 1.0});
  const auto pick = [&](const auto& usual) {
    for (const UsualScale& s : usual) {
      if (s.ratio >= needed) {
        return Scale{s.ratio, s.words.empty() ? fmt::format("1 : {:.0f}", s.ratio)
                                              : fmt::format("{} (1 : {:.0f})", s.words, s.ratio)};
      }
    }
    const double round = std::ceil(needed / 100) * 100;
    return Scale{round, fmt::format("1 : {:.0f}", round)};
  };
  return system == UnitSystem::Us ? pick(kUs) : pick(kMetric);
}

std::vector<Shape> titleStrip(const Box& where, const TitleBlock& title, std::string_view scale) {
  std::vector<Shape> out;
  out.push_back(line({where.left, where.top}, {where.right, where.top}, stroke(kThick_mm)));
  const double pad = 2.2;
  // Three columns: whose shop; what is shown and how it is known; scale and caution.
  const double first = where.left + where.width() * 0.36;
  const double second = where.left + where.width() * 0.68;
  for (const double x : {first, second}) {
    out.push_back(line({x, where.top + 2}, {x, where.bottom - 0.5}, stroke(kHair_mm, kPale)));
  }
  const auto put = [&](double x, double y, double room, const std::string& words, TextLook look) {
    if (!words.empty()) {
      out.push_back(text({x, y}, cutToWidth(words, room, look.size_mm, look.bold), look));
    }
  };
  const double w1 = first - where.left - pad;
  put(where.left, where.top + 6.6, w1, title.shop, {.size_mm = kTitle_mm, .bold = true});
  const std::vector<std::string> note = wrapped(title.note, w1, kSmall_mm);
  for (std::size_t k = 0; k < std::min<std::size_t>(note.size(), 3); ++k) {
    const bool cut = k == 2 && note.size() > 3;
    put(where.left, where.top + 10 + 2.6 * static_cast<double>(k), w1, cut ? note[k] + " …" : note[k],
        {.size_mm = kSmall_mm, .colour = kFaint});
  }
  const double x2 = first + pad;
  const double w2 = second - first - 2 * pad;
  put(x2, where.top + 6.2, w2,
      title.drawing.empty() ? title.state : title.drawing + (title.state.empty() ? "" : ": " + title.state),
      {.size_mm = kHeading_mm, .bold = true});
  std::string known;
  for (const std::string* part : {&title.standing, &title.filter}) {
    if (!part->empty()) {
      known += (known.empty() ? "" : " · ") + *part;
    }
  }
  put(x2, where.top + 10.4, w2, known, {});
  put(x2, where.top + (known.empty() ? 10.4 : 14), w2, title.date, {});
  const double x3 = second + pad;
  const double w3 = where.right - x3;
  put(x3, where.top + 5.4, w3, std::string(scale), {.bold = true});
  const std::vector<std::string> caution = wrapped(title.caution, w3, kSmall_mm);
  for (std::size_t k = 0; k < std::min<std::size_t>(caution.size(), 3); ++k) {
    put(x3, where.top + 9 + 2.7 * static_cast<double>(k), w3, caution[k], {.size_mm = kSmall_mm});
  }
  return out;
}

std::vector<Shape> scaleBar(At at, double longest_mm, double mm_per_m, UnitSystem system) {
  constexpr double kFoot_m = 0.3048;
  const double unit_mm = mm_per_m * (system == UnitSystem::Us ? kFoot_m : 1.0);
  std::vector<Shape> out;
  double step = 0;
  for (const double s : {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0}) {
    if (4 * s * unit_mm <= longest_mm) {
      step = s;
    }
  }
  if (step == 0) {
    return out;
  }
  const double h = 1.2;
  for (int k = 0; k < 4; ++k) {
    const Box part{at.x + k * step * unit_mm, at.y + 3, at.x + (k + 1) * step * unit_mm, at.y + 3 + h};
    out.push_back(rectangle(part, k % 2 == 0 ? kInk : kWhite, stroke(kThin_mm)));
  }
  for (const int k : {0, 1, 2, 4}) {
    const std::string number = fmt::format("{:g}", k * step);
    const std::string words = k == 4 ? number + (system == UnitSystem::Us ? " ft" : " m") : number;
    // The unit hangs over to the right, the figure stands over its mark.
    const double x = at.x + k * step * unit_mm - textWidth(number, kSmall_mm) / 2;
    out.push_back(text({x, at.y + 2.3}, words, {.size_mm = kSmall_mm}));
  }
  return {{Group{"scale-bar", {}, {}, std::move(out)}}};
}

std::vector<Shape> northMark(At at) {
  std::vector<Shape> out;
  const At tip = at + At{0, -8.4};
  out.push_back(polygon({tip, at + At{1.7, 0}, at + At{0, -1.2}}, kInk, stroke(kThin_mm)));
  out.push_back(polygon({tip, at + At{-1.7, 0}, at + At{0, -1.2}}, kWhite, stroke(kThin_mm)));
  out.push_back(text(tip + At{0, -0.8}, "N", {.anchor = Anchor::Middle, .bold = true}));
  return {{Group{"north", {}, "North, where y grows", std::move(out)}}};
}

std::vector<Shape> originMark(At at) {
  std::vector<Shape> out;
  out.push_back(line(at + At{-2.2, 0}, at + At{2.2, 0}, stroke(kThin_mm)));
  out.push_back(line(at + At{0, -2.2}, at + At{0, 2.2}, stroke(kThin_mm)));
  out.push_back(circle(at, 1.1, std::nullopt, stroke(kThin_mm)));
  return {{Group{"origin", {}, "Origin: coordinates are measured from here", std::move(out)}}};
}

}  // namespace kerfdraft::drawing
