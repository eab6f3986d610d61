// What a picture is made of, without Qt and without markup: plain shapes in millimetres on paper, x to the
// right and y down. Writers (svg.h) and painters turn it into a file or a window.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace kerfdraft::drawing {

/// A place on paper [mm].
struct At {
  double x = 0;
  double y = 0;
  bool operator==(const At&) const = default;
};

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  bool operator==(const Colour&) const = default;
};

/// "#4d1236".
std::string toText(Colour colour);

enum class Ends { Butt, Round };

/// How a line is drawn. Joins are round where its ends are, else mitred.
struct Stroke {
  Colour colour{};
  double width_mm = 0.18;
  std::vector<double> dashes_mm{};  ///< on, off, …; solid where empty
  Ends ends = Ends::Butt;
};

struct Path {
  std::vector<At> points{};
  bool closed = false;
  std::optional<Stroke> stroke{};
  std::optional<Colour> fill{};
};

struct Circle {
  At centre{};
  double radius_mm = 0;
  std::optional<Stroke> stroke{};
  std::optional<Colour> fill{};
};

/// Part of a circle, from one angle to another, anticlockwise as seen on paper; 0 points right.
struct Arc {
  At centre{};
  double radius_mm = 0;
  double from_rad = 0;
  double to_rad = 0;
  Stroke stroke{};
};

enum class Anchor { Start, Middle, End };

/// One line of text; its width is that of text_measure.h.
struct Text {
  At at{};  ///< on the baseline, at the anchor
  std::string text{};
  double size_mm = 2.5;  ///< of the em
  Anchor anchor = Anchor::Start;
  bool bold = false;
  Colour colour{};
  double turned_rad = 0;         ///< anticlockwise on paper, about `at`
  std::optional<Colour> halo{};  ///< a rim that keeps it readable over lines
};

struct Shape;

/// Shapes that belong together: what a pointer finds, with a text that explains it.
struct Group {
  std::string kind{};     ///< "machine", "duct", "gate" …
  std::string element{};  ///< id of the element or text of its PieceKey; empty for decoration
  std::string title{};    ///< shown when pointed at, read aloud
  std::vector<Shape> shapes;
};

struct Shape {
  std::variant<Path, Circle, Arc, Text, Group> what;
};

/// A whole picture. Its edges are the paper's.
struct Picture {
  double width_mm = 0;
  double height_mm = 0;
  std::string title{};
  std::string description{};  ///< what it shows, in a sentence or two, for who cannot see it
  std::vector<Shape> shapes{};
};

}  // namespace kerfdraft::drawing
