// The one place that knows SVG. Lengths are written with three decimals at most: a micrometre on paper.
#include "drawing/svg.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <numbers>
#include <string_view>

#include "drawing/embedded_fonts.h"
#include "drawing/text_measure.h"
#include "drawing/utf8.h"

namespace kerfdraft::drawing {

std::string toText(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

namespace {

/// Text that XML can hold: its own signs escaped, what it forbids replaced.
std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t place = 0; place < text.size();) {
    const std::size_t start = place;
    const char32_t code = nextCharacter(text, place);
    if (code == '&') {
      out += "&amp;";
    } else if (code == '<') {
      out += "&lt;";
    } else if (code == '>') {
      out += "&gt;";
    } else if (code == '"') {
      out += "&quot;";
    } else if (code < 0x20 || code == 0x7F) {
      out += ' ';
    } else if (code == kNoCharacter || code == 0xFFFE || code == 0xFFFF) {
      out += "\xEF\xBF\xBD";
    } else {
      out += text.substr(start, place - start);
    }
  }
  return out;
}

std::string number(double value) {
  if (!std::isfinite(value)) {
    return "0";
  }
  std::string text = fmt::format("{:.3f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) {
    text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string strokeAttributes(const Stroke& stroke) {
  std::string out =
      fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", toText(stroke.colour), number(stroke.width_mm));
  if (!stroke.dashes_mm.empty()) {
    out += " stroke-dasharray=\"";
    for (std::size_t k = 0; k < stroke.dashes_mm.size(); ++k) {
      out += (k == 0 ? "" : " ") + number(stroke.dashes_mm[k]);
    }
    out += '"';
  }
  if (stroke.ends == Ends::Round) {
    out += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
  }
  return out;
}

std::string paint(const std::optional<Stroke>& stroke, const std::optional<Colour>& fill) {
  return fmt::format(" fill=\"{}\"{}", fill ? toText(*fill) : "none",
                     stroke ? strokeAttributes(*stroke) : std::string());
}

struct Writer {
  std::string out;
  std::size_t depth = 1;

  void line(const std::string& text) {
    out.append(depth, ' ');
    out += text;
    out += '\n';
  }

  void operator()(const Path& path) {
    if (path.points.size() < 2) {
      return;
    }
    std::string d;
    for (std::size_t k = 0; k < path.points.size(); ++k) {
      d += (k == 0 ? "M" : k == 1 ? "L" : " ") + number(path.points[k].x) + ' ' + number(path.points[k].y);
    }
    line(fmt::format("<path d=\"{}{}\"{}/>", d, path.closed ? "Z" : "", paint(path.stroke, path.fill)));
  }

  void operator()(const Circle& circle) {
    line(fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>", number(circle.centre.x),
                     number(circle.centre.y), number(circle.radius_mm), paint(circle.stroke, circle.fill)));
  }

  void operator()(const Arc& arc) {
    const auto end = [&](double angle) {
      return number(arc.centre.x + arc.radius_mm * std::cos(angle)) + ' ' +
             number(arc.centre.y - arc.radius_mm * std::sin(angle));
    };
    const bool large = arc.to_rad - arc.from_rad > std::numbers::pi;
    line(fmt::format("<path d=\"M{}A{} {} 0 {} 0 {}\" fill=\"none\"{}/>", end(arc.from_rad),
                     number(arc.radius_mm), number(arc.radius_mm), large ? 1 : 0, end(arc.to_rad),
                     strokeAttributes(arc.stroke)));
  }

  void operator()(const Text& text) {
    if (text.text.empty()) {
      return;
    }
    std::string attributes = fmt::format(" x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\"", number(text.at.x),
                                         number(text.at.y), number(text.size_mm), toText(text.colour));
    if (text.anchor != Anchor::Start) {
      attributes += text.anchor == Anchor::Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
    }
    if (text.bold) {
      attributes += " font-weight=\"700\"";
    }
    if (text.turned_rad != 0) {
      attributes +=
          fmt::format(" transform=\"rotate({} {} {})\"", number(-text.turned_rad * 180 / std::numbers::pi),
                      number(text.at.x), number(text.at.y));
    }
    if (text.halo) {
      attributes +=
          fmt::format(" stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\" paint-order=\"stroke\"",
                      toText(*text.halo), number(text.size_mm * 0.3));
    }
    line(fmt::format("<text{}>{}</text>", attributes, escaped(text.text)));
  }

  void operator()(const Group& group) {
    std::string open = "<g";
    if (!group.kind.empty()) {
      open += fmt::format(" class=\"{}\"", escaped(group.kind));
    }
    if (!group.element.empty()) {
      open += fmt::format(" data-element=\"{}\"", escaped(group.element));
    }
    line(open + '>');
    ++depth;
    if (!group.title.empty()) {
      line(fmt::format("<title>{}</title>", escaped(group.title)));
    }
    for (const Shape& shape : group.shapes) {
      std::visit(*this, shape.what);
    }
    --depth;
    line("</g>");
  }
};

std::string base64(std::string_view bytes) {
  constexpr std::string_view kSigns = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t k = 0; k < bytes.size(); k += 3) {
    std::uint32_t three = 0;
    for (std::size_t j = 0; j < 3; ++j) {
      three = three << 8 | (k + j < bytes.size() ? static_cast<unsigned char>(bytes[k + j]) : 0U);
    }
    for (std::size_t j = 0; j < 4; ++j) {
      out += k + j > bytes.size() ? '=' : kSigns[three >> (18 - 6 * j) & 63];
    }
  }
  return out;
}

}  // namespace

std::string fontFaceRules() {
  std::string out;
  int weight = 400;
  for (const EmbeddedFile& file : embeddedFiles()) {
    out += fmt::format(
        "@font-face{{font-family:'Kerfdraft Sans';font-weight:{};src:url(data:font/ttf;base64,{})}}\n",
        weight, base64(file.text));
    weight = 700;
  }
  return out;
}

std::string toSvg(const Picture& picture, const SvgOptions& options) {
  const std::string width = number(picture.width_mm);
  const std::string height = number(picture.height_mm);
  Writer writer;
  writer.out = "<svg xmlns=\"http://www.w3.org/2000/svg\" ";
  if (options.fixed_size) {
    writer.out += fmt::format("width=\"{}mm\" height=\"{}mm\" ", width, height);
  }
  writer.out += fmt::format(
      "viewBox=\"0 0 {} {}\" role=\"img\" aria-labelledby=\"{p}-title {p}-about\" "
      "font-family=\"{}\">\n",
      width, height, kFontFamilies, fmt::arg("p", escaped(options.id_prefix)));
  writer.line(
      fmt::format("<title id=\"{}-title\">{}</title>", escaped(options.id_prefix), escaped(picture.title)));
  writer.line(fmt::format("<desc id=\"{}-about\">{}</desc>", escaped(options.id_prefix),
                          escaped(picture.description)));
  if (options.embed_font) {
    writer.line("<style>\n" + fontFaceRules() + " </style>");
  }
  for (const Shape& shape : picture.shapes) {
    std::visit(writer, shape.what);
  }
  writer.out += "</svg>\n";
  return std::move(writer.out);
}

}  // namespace kerfdraft::drawing
