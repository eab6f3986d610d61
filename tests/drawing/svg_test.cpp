// The SVG writer: well-formed whatever the texts hold, the same bytes for the same picture.
#include "drawing/svg.h"

#include <gtest/gtest.h>

#include <random>
#include <string_view>

#include "drawing/shapes.h"

namespace kerfdraft::drawing {
namespace {

/// Tags open and close in order, attributes are quoted, no bare & or <. Enough of XML for what is written.
std::string problemOf(std::string_view svg) {
  std::vector<std::string> open;
  std::size_t k = 0;
  while (k < svg.size()) {
    if (svg[k] == '&') {
      const std::string_view rest = svg.substr(k);
      if (!rest.starts_with("&amp;") && !rest.starts_with("&lt;") && !rest.starts_with("&gt;") &&
          !rest.starts_with("&quot;")) {
        return "a bare & at " + std::string(rest.substr(0, 20));
      }
    }
    if (svg[k] != '<') {
      ++k;
      continue;
    }
    const std::size_t end = svg.find('>', k);
    if (end == std::string_view::npos) {
      return "a tag without an end";
    }
    std::string_view tag = svg.substr(k + 1, end - k - 1);
    if (tag.find('<') != std::string_view::npos) {
      return "a tag in a tag: " + std::string(tag);
    }
    if (tag.starts_with('/')) {
      if (open.empty() || open.back() != tag.substr(1)) {
        return "</" + std::string(tag.substr(1)) + "> closes nothing";
      }
      open.pop_back();
    } else {
      if (std::count(tag.begin(), tag.end(), '"') % 2 != 0) {
        return "an attribute without its quotes: " + std::string(tag);
      }
      if (!tag.ends_with('/')) {
        open.emplace_back(tag.substr(0, tag.find(' ')));
      }
    }
    k = end + 1;
  }
  return open.empty() ? "" : "<" + open.back() + "> stays open";
}

Picture sample() {
  Picture picture{200, 100, "A <plan> & more", "Said \"aloud\"", {}};
  picture.shapes.push_back(line({0, 0}, {10.12345, -0.00001}, stroke(0.25, kInk, {1, 0.5})));
  picture.shapes.push_back(polygon({{1, 1}, {2, 1}, {2, 2}}, kBody, roundStroke(0.3)));
  picture.shapes.push_back(circle({5, 5}, 2, std::nullopt, stroke(0.2)));
  picture.shapes.push_back({Arc{{5, 5}, 3, 0, 1.5707963267948966, stroke(0.2)}});
  TextLook look{.size_mm = 2.4, .anchor = Anchor::Middle, .bold = true};
  look.halo = true;
  picture.shapes.push_back(
      {Group{"machine", "0000000000000010", "T1 <saw>", {text({3, 3}, "T1 & T2 → 5 m³/h", look)}}});
  return picture;
}

TEST(Svg, IsWellFormedAndHoldsItsTexts) {
  const std::string svg = toSvg(sample(), {.embed_font = false});
  EXPECT_EQ(problemOf(svg), "");
  EXPECT_TRUE(svg.starts_with(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"200mm\" height=\"100mm\" viewBox=\"0 0 200 100\""));
  EXPECT_NE(svg.find("<title>T1 &lt;saw&gt;</title>"), std::string::npos);
  EXPECT_NE(svg.find(">T1 &amp; T2 → 5 m³/h</text>"), std::string::npos);
  EXPECT_NE(svg.find("data-element=\"0000000000000010\""), std::string::npos);
  EXPECT_NE(svg.find("role=\"img\""), std::string::npos);
  EXPECT_EQ(svg.find("-0\""), std::string::npos);
  EXPECT_NE(svg.find("M0 0L10.123 0\""), std::string::npos) << svg;
}

TEST(Svg, TheSamePictureGivesTheSameBytes) {
  EXPECT_EQ(toSvg(sample()), toSvg(sample()));
}

TEST(Svg, CarriesTheFontItIsSetIn) {
  const std::string svg = toSvg(sample());
  EXPECT_EQ(problemOf(svg), "");
  EXPECT_NE(
      svg.find(
          "@font-face{font-family:'Kerfdraft Sans';font-weight:400;src:url(data:font/ttf;base64,AAEAAAA"),
      std::string::npos);
  EXPECT_NE(svg.find("font-weight:700;src:url(data:font/ttf;base64,AAEAAAA"), std::string::npos);
  EXPECT_EQ(toSvg(sample(), {.embed_font = false}).find("base64"), std::string::npos);
  // Nothing comes from outside.
  EXPECT_EQ(svg.find("http", svg.find("2000/svg")), std::string::npos);
}

TEST(Svg, TakesItsPlaceInAPage) {
  const std::string svg = toSvg(sample(), {.embed_font = false, .fixed_size = false, .id_prefix = "plan2"});
  EXPECT_EQ(svg.find("width=\"200mm\""), std::string::npos);
  EXPECT_NE(svg.find("aria-labelledby=\"plan2-title plan2-about\""), std::string::npos);
}

TEST(Svg, RandomBytesInTextsStayHarmless) {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> byte(0, 255);
  for (int k = 0; k < 500; ++k) {
    std::string words;
    for (int n = 0; n < 30; ++n) {
      words += static_cast<char>(byte(random));
    }
    Picture picture{10, 10, words, words, {}};
    picture.shapes.push_back({Group{words, words, words, {text({1, 1}, words)}}});
    const std::string svg = toSvg(picture, {.embed_font = false, .id_prefix = words});
    EXPECT_EQ(problemOf(svg), "");
    for (const char c : svg) {
      EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 || c == '\n');
    }
  }
}

TEST(Svg, NumbersThatAreNoneDoNotReachTheFile) {
  Picture picture{10, 10, "t", "d", {}};
  picture.shapes.push_back(line({std::nan(""), 1}, {1, HUGE_VAL}, stroke(0.2)));
  const std::string svg = toSvg(picture, {.embed_font = false});
  EXPECT_EQ(svg.find("nan"), std::string::npos);
  EXPECT_EQ(svg.find("inf"), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::drawing
