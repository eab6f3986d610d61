// A document as plain blocks, without markup: what a paper says, apart from how it is written down. Numbers
// keep their SI value and kind, so that each writer shows them in its own way.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/quantity.h"
#include "base/units.h"
#include "drawing/display_list.h"
#include "drawing/grade.h"
#include "judge/finding.h"
#include "judge/rule.h"

namespace kerfdraft::papers {

/// A piece of a sentence, set strong or not.
struct Words {
  std::string text;
  bool strong = false;
};

/// A sentence or more, without a line break.
using Line = std::vector<Words>;

Line plain(std::string text);
Line strong(std::string text);
/// "Heading: rest" with the first part strong.
Line headed(std::string head, std::string rest);
/// Its words without emphasis.
std::string wordsOf(const Line& line);

/// 2 for a chapter, 3 within it; the title of the document is 1.
struct Heading {
  int level = 2;
  std::string text;
};

struct Text {
  Line line;
  bool lead = false;  ///< the sentence that a page begins with: set larger
  bool small = false;
};

struct Item {
  Line line;
  std::vector<Line> below;  ///< lines under it
};

struct List {
  bool numbered = false;
  std::vector<Item> items;
};

enum class Align { Left, Right };

/// A cell: a number of its column's kind, or text. Empty where it has neither.
struct Cell {
  std::string text{};
  std::optional<double> si{};             ///< shown instead of the text
  std::optional<drawing::Grade> grade{};  ///< a swatch of this step stands before it
  bool strong = false;
};

struct Column {
  std::string title;
  Align align = Align::Left;
  std::optional<base::Kind> kind{};  ///< of its numbers; the unit goes into the head
  double share = 0;                  ///< of the width, where it matters
};

struct Table {
  std::string caption;
  std::vector<Column> columns;
  std::vector<std::vector<Cell>> rows;
  std::string note{};                 ///< below it
  bool to_fill_in = false;            ///< with empty cells for a pen: taller rows, all lines ruled
  bool small = false;                 ///< many columns
  std::vector<std::size_t> starts{};  ///< rows before which a thicker rule stands
};

struct Figure {
  drawing::Picture picture;
  std::string caption;
  double width_share = 1;  ///< of the page's
};

struct FindingBox {
  judge::Severity severity = judge::Severity::Note;
  std::string title;
  std::string what;
  std::string limit{};
  std::vector<std::string> remedies{};
  std::string defer{};
  std::vector<std::string> also{};  ///< where else, what it explains, why it was accepted
};

/// A few numbers that a reader should take away.
struct KeyFigure {
  std::string value;  ///< with its unit
  std::string label;
};

struct KeyFigures {
  std::vector<KeyFigure> figures;
};

/// Something that can hurt.
struct Caution {
  std::string title;
  std::vector<Line> lines;
};

struct SourceLine {
  std::string key;
  std::string text;
};

struct Sources {
  std::vector<SourceLine> lines;
};

/// Places to write by hand.
struct SignatureBlock {
  std::vector<std::string> fields;
};

struct PageBreak {};

using Block = std::variant<Heading, Text, List, Table, Figure, FindingBox, KeyFigures, Caution, Sources,
                           SignatureBlock, PageBreak>;

struct Document {
  std::string shop;
  std::string kind;                       ///< "Report for the owner"
  std::string note{};                     ///< of the shop, small
  std::vector<std::string> first_line{};  ///< date, filter, measured or predicted
  judge::Reader reader = judge::Reader::Owner;
  base::UnitSystem units = base::UnitSystem::Us;
  bool contents = false;  ///< a list of chapters goes on top where it can be followed
  std::vector<Block> blocks{};
};

/// A cell's text in the reader's units, without the unit.
std::string cellText(const Cell& cell, const Column& column, base::UnitSystem units);
/// A column's title with its unit: "flow, cfm".
std::string columnTitle(const Column& column, base::UnitSystem units);

}  // namespace kerfdraft::papers
