// A cursor over the words of one piece takes quantities (the longest run of words that is one) and plain
// words.
#include "pieces/line_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <numbers>

#include "pieces/line_cursor.h"

namespace kerfdraft::pieces {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Given;
using base::Kind;
using base::Result;

constexpr int kMostPieces = 200;
constexpr int kMostCount = 50;

template <class Q>
Given<Q> assumed(std::string_view text) {
  Result<Given<Q>> given = Given<Q>::parse(text, base::Standing::Assumed, "not said");
  base::check(given.has_value(), "a default of the line does not parse");
  return std::move(*given);
}

/// A small whole number before a plural: "2 elbows", "3 bends".
std::optional<int> countOf(const std::string& word) {
  int value = 0;
  const auto [end, problem] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (problem != std::errc{} || end != word.data() + word.size() || value < 1 || value > kMostCount) {
    return std::nullopt;
  }
  return value;
}

using Read = Result<decltype(LinePiece::what)>;

Read readHood(Cursor& at, const catalogue::Catalogue& catalogue) {
  HoodWord hood;
  if (at.done()) {
    return hood;
  }
  if (std::optional<Given<base::VolumeFlow>> flow = at.maybe<base::VolumeFlow>()) {
    at.take("at");
    Result<Given<base::Pressure>> suction =
        at.need<base::Pressure>("the static suction at that flow", "3 in w.g.");
    if (!suction) {
      return Failure(suction.error());
    }
    hood.maker = shop::RatedPoint{std::move(*flow), std::move(*suction)};
  } else if (at.atNumber()) {
    Result<Given<base::Ratio>> entry = at.need<base::Ratio>("the entry coefficient", "0.5");
    if (!entry) {
      return Failure(entry.error());
    }
    hood.entry = std::move(*entry);
  } else {
    Result<std::string> form = rowFor(catalogue, "hoods", at, at.takeWord());
    if (!form) {
      return Failure(form.error());
    }
    hood.form = std::move(*form);
  }
  return at.done()
             ? Read(std::move(hood))
             : Read(at.stray(
                   "a hood takes one coefficient, one form of the catalogue, or a maker's flow and suction; "
                   "its bore is said with \"port 2.5 in\""));
}

/// Beyond these a figure is a slip of the pen, not a shop (ours).
constexpr double kLeastBore_m = 0.005;
constexpr double kMostBore_m = 2.0;
constexpr double kMostLength_m = 500.0;

Result<void> checkBore(const Given<base::Length>& bore, const Cursor& at) {
  if (bore.si() < kLeastBore_m || bore.si() > kMostBore_m) {
    return fail(ErrorCode::Range,
                fmt::format("a bore of {} cannot be; it lies between 5 mm and 2 m", bore.text()), at.where());
  }
  return {};
}

Read readPort(Cursor& at) {
  Result<Given<base::Length>> bore = at.need<base::Length>("the bore of the port", "4 in");
  if (!bore) {
    return Failure(bore.error());
  }
  if (const Result<void> fine = checkBore(*bore, at); !fine) {
    return Failure(fine.error());
  }
  return at.done() ? Read(PortWord{std::move(*bore)}) : Read(at.stray("a port takes its bore"));
}

Result<BoreWord> readBoreAndLength(Cursor& at) {
  Result<Given<base::Length>> bore = at.need<base::Length>("the bore", "4 in");
  if (!bore) {
    return Failure(bore.error());
  }
  if (const Result<void> fine = checkBore(*bore, at); !fine) {
    return Failure(fine.error());
  }
  Result<Given<base::Length>> length = at.need<base::Length>("the length", "10 ft");
  if (!length) {
    return Failure(length.error());
  }
  if (length->si() <= 0 || length->si() > kMostLength_m) {
    return fail(ErrorCode::Range,
                fmt::format("a length of {} cannot be; it is above zero and at most 500 m", length->text()),
                at.where());
  }
  BoreWord piece;
  piece.bore = std::move(*bore);
  piece.length = std::move(*length);
  return piece;
}

Read readDuct(Cursor& at, const catalogue::Catalogue& catalogue) {
  Result<BoreWord> duct = readBoreAndLength(at);
  if (!duct) {
    return Failure(duct.error());
  }
  duct->construction = "spiral-galvanized";
  if (!at.done() && !at.atNumber()) {
    Result<std::string> construction = rowFor(catalogue, "constructions", at, at.takeWord());
    if (!construction) {
      return Failure(construction.error());
    }
    duct->construction = std::move(*construction);
  }
  return at.done() ? Read(std::move(*duct)) : Read(at.stray("a duct takes bore, length and construction"));
}

Read readHose(Cursor& at) {
  Result<BoreWord> hose = readBoreAndLength(at);
  if (!hose) {
    return Failure(hose.error());
  }
  hose->hose = shop::Hose{};
  while (!at.done()) {
    if (at.take("smooth")) {
      hose->hose->inside = shop::HoseInside::Smooth;
    } else if (at.take("ribbed")) {
      hose->hose->inside = shop::HoseInside::Ribbed;
    } else if (at.take("tight")) {
      hose->hose->hung = shop::HoseHung::Tight;
    } else if (at.take("hung")) {
      hose->hose->hung = shop::HoseHung::Hung;
    } else if (at.take("slack")) {
      hose->hose->hung = shop::HoseHung::Slack;
    } else if (const std::optional<int> count = countOf(at.peek())) {
      at.takeWord();
      if (!at.take("bends") && !at.take("bend")) {
        return Read(at.stray(fmt::format("after {} the word \"bends\" is wanted", *count)));
      }
      hose->bends = *count;
    } else {
      return Read(
          at.stray("a hose takes bore, length, smooth or ribbed, tight, hung or slack, and \"3 bends\""));
    }
  }
  return std::move(*hose);
}

Read readElbow(Cursor& at, const catalogue::Catalogue& catalogue, int count) {
  ElbowWord elbow;
  elbow.count = count;
  elbow.angle = assumed<base::Angle>("90°");
  while (!at.done()) {
    if (std::optional<Given<base::Length>> bore = at.maybe<base::Length>()) {
      elbow.bore = std::move(*bore);
    } else if (std::optional<Given<base::Angle>> angle = at.maybe<base::Angle>()) {
      elbow.angle = std::move(*angle);
    } else if (at.take("radius")) {
      Result<Given<base::Ratio>> radius = at.need<base::Ratio>("the centre-line radius over the bore", "1.5");
      if (!radius) {
        return Failure(radius.error());
      }
      elbow.radius = std::move(*radius);
    } else if (!at.atNumber()) {
      Result<std::string> form = rowFor(catalogue, "elbows", at, at.takeWord());
      if (!form) {
        return Failure(form.error());
      }
      elbow.form = std::move(*form);
    } else {
      return Read(at.stray("an elbow takes bore, angle, form and \"radius 1.5\""));
    }
  }
  if (elbow.bore) {
    if (const Result<void> fine = checkBore(*elbow.bore, at); !fine) {
      return Failure(fine.error());
    }
  }
  if (elbow.angle.si() <= 0 || elbow.angle.si() > std::numbers::pi) {
    return fail(ErrorCode::Range,
                fmt::format("an elbow of {} is none; it turns by up to 180°", elbow.angle.text()),
                at.where());
  }
  return elbow;
}

Read readTaper(Cursor& at) {
  Result<Given<base::Angle>> angle = at.need<base::Angle>("the included angle", "30°");
  if (!angle) {
    return Failure(angle.error());
  }
  return at.done() ? Read(TaperWord{std::move(*angle)}) : Read(at.stray("a taper takes its included angle"));
}

Read readMachine(Cursor& at, const catalogue::Catalogue& catalogue) {
  if (at.done() || at.atNumber()) {
    return at.stray("a machine takes a kind of the catalogue, as in \"machine planer\"");
  }
  Result<std::string> kind = rowFor(catalogue, "machine_kinds", at, at.takeWord());
  if (!kind) {
    return Failure(kind.error());
  }
  return at.done() ? Read(MachineWord{std::move(*kind)}) : Read(at.stray("a machine takes its kind"));
}

Read readLoss(Cursor& at) {
  Result<Given<base::Ratio>> loss = at.need<base::Ratio>("the coefficient", "0.3");
  if (!loss) {
    return Failure(loss.error());
  }
  if (loss->si() < 0) {
    return fail(ErrorCode::Range, fmt::format("a coefficient of {} would add pressure", loss->text()),
                at.where());
  }
  return at.done() ? Read(LossWord{std::move(*loss)}) : Read(at.stray("a loss takes its coefficient"));
}

Read readGate(Cursor& at) {
  GateWord gate;
  gate.travel = assumed<base::Ratio>("100 %");
  while (!at.done()) {
    if (std::optional<Given<base::Length>> bore = at.maybe<base::Length>()) {
      gate.bore = std::move(*bore);
    } else if (std::optional<Given<base::Ratio>> travel = at.maybe<base::Ratio>()) {
      gate.travel = std::move(*travel);
    } else if (at.take("worn")) {
      gate.worn = true;
    } else if (!at.take("open")) {
      return Read(at.stray("a gate takes its bore, how far it is open (\"50 %\"), and \"worn\""));
    }
  }
  if (gate.bore) {
    if (const Result<void> fine = checkBore(*gate.bore, at); !fine) {
      return Failure(fine.error());
    }
  }
  if (gate.travel.si() <= 0 || gate.travel.si() > 1) {
    return fail(
        ErrorCode::Range,
        fmt::format("a gate open by {} lets nothing be said; it is open by more than 0 and up to 100 %",
                    gate.travel.text()),
        at.where());
  }
  return gate;
}

Read readSeparator(Cursor& at, const catalogue::Catalogue& catalogue) {
  shop::Separator separator;
  if (at.done() || at.atNumber()) {
    return at.stray("the kind of separator is wanted first: cyclone, lid or drop-box");
  }
  Result<std::string> kind = rowFor(catalogue, "separators", at, at.takeWord());
  if (!kind) {
    return Failure(kind.error());
  }
  separator.kind = std::move(*kind);
  while (!at.done()) {
    if (at.take("heads")) {
      Result<Given<base::Ratio>> heads =
          at.need<base::Ratio>("the loss in velocity pressures of its inlet", "3");
      if (!heads) {
        return Failure(heads.error());
      }
      separator.heads = std::move(*heads);
    } else if (std::optional<Given<base::Pressure>> loss = at.maybe<base::Pressure>()) {
      at.take("at");
      Result<Given<base::VolumeFlow>> flow = at.need<base::VolumeFlow>("the flow of that loss", "600 cfm");
      if (!flow) {
        return Failure(flow.error());
      }
      separator.rated_loss = std::move(*loss);
      separator.rated_flow = std::move(*flow);
    } else if (std::optional<Given<base::Length>> bore = at.maybe<base::Length>()) {
      separator.inlet_bore = std::move(*bore);
    } else {
      return Read(
          at.stray("a separator takes its kind, its inlet bore, \"heads 3\" or \"2 in w.g. at 600 cfm\""));
    }
  }
  return separator;
}

Read readFilter(Cursor& at) {
  shop::Filter filter;
  while (!at.done()) {
    if (std::optional<Given<base::Area>> area = at.maybe<base::Area>()) {
      filter.area = std::move(*area);
    } else if (std::optional<Given<base::Pressure>> loss = at.maybe<base::Pressure>()) {
      at.take("at");
      Result<Given<base::VolumeFlow>> flow = at.need<base::VolumeFlow>("the flow of that loss", "350 cfm");
      if (!flow) {
        return Failure(flow.error());
      }
      filter.seasoned = shop::FilterPoint{std::move(*flow), std::move(*loss)};
    } else if (at.take("inside")) {
      filter.inside = true;
    } else {
      return Read(
          at.stray("a filter takes its area, \"1 in w.g. at 350 cfm\" when seasoned, and \"inside\" where it "
                   "was fitted when the fan was measured"));
    }
  }
  return filter;
}

Read readPiece(Cursor& at, const catalogue::Catalogue& catalogue) {
  constexpr std::array<std::string_view, 11> kPieces = {
      "hood", "machine", "port", "duct", "hose", "elbow", "taper", "loss", "gate", "separator", "filter"};
  if (const std::optional<int> count = countOf(at.peek())) {
    at.takeWord();
    if (at.take("elbows") || at.take("elbow")) {
      return readElbow(at, catalogue, *count);
    }
    return Read(at.stray("only elbows are counted, as in \"2 elbows 4 in\""));
  }
  const std::string word = at.takeWord();
  if (word == "hood") {
    return readHood(at, catalogue);
  }
  if (word == "machine") {
    return readMachine(at, catalogue);
  }
  if (word == "loss") {
    return readLoss(at);
  }
  if (word == "port") {
    return readPort(at);
  }
  if (word == "duct") {
    return readDuct(at, catalogue);
  }
  if (word == "hose") {
    return readHose(at);
  }
  if (word == "elbow") {
    return readElbow(at, catalogue, 1);
  }
  if (word == "taper") {
    return readTaper(at);
  }
  if (word == "gate") {
    return readGate(at);
  }
  if (word == "separator") {
    return readSeparator(at, catalogue);
  }
  if (word == "filter") {
    return readFilter(at);
  }
  return fail(
      ErrorCode::Parse,
      fmt::format("\"{}\" is no piece; the pieces are {}", word.substr(0, 40), fmt::join(kPieces, ", ")),
      at.where());
}

}  // namespace

Result<std::vector<LinePiece>> readLine(std::string_view text, const catalogue::Catalogue& catalogue) {
  std::vector<LinePiece> pieces;
  for (const std::string& part : partedBy(text, ';')) {
    const std::vector<std::string> words = wordsOf(part);
    if (words.empty()) {
      continue;
    }
    const std::string typed = fmt::format("{}", fmt::join(words, " ")).substr(0, 60);
    Cursor at(part, fmt::format("piece {} ({})", pieces.size() + 1, typed));
    Read read = readPiece(at, catalogue);
    if (!read) {
      return Failure(read.error());
    }
    pieces.push_back(LinePiece{std::move(*read), typed, at.where()});
    if (pieces.size() > kMostPieces) {
      return fail(ErrorCode::Range, fmt::format("more than {} pieces; draw this as a project", kMostPieces),
                  "pieces");
    }
  }
  if (pieces.empty()) {
    return fail(ErrorCode::Parse, "there is no piece; begin like \"hood 0.5; hose 4 in 10 ft ribbed slack\"",
                "pieces");
  }
  return pieces;
}

Result<std::vector<shop::CurvePoint>> readCurve(std::string_view text, std::string_view where) {
  std::vector<shop::CurvePoint> points;
  for (const std::string& part : partedBy(text, ',')) {
    Cursor at(part, std::string(where));
    if (at.done()) {
      continue;
    }
    Result<Given<base::VolumeFlow>> flow = at.need<base::VolumeFlow>("the flow of a point", "350 cfm");
    if (!flow) {
      return Failure(flow.error());
    }
    at.take("at");
    Result<Given<base::Pressure>> pressure =
        at.need<base::Pressure>("the pressure at that flow", "4.7 in w.g.");
    if (!pressure) {
      return Failure(pressure.error());
    }
    if (!at.done()) {
      return at.stray("a point is a flow and a pressure; points are parted by commas");
    }
    shop::CurvePoint point;
    point.flow = std::move(*flow);
    point.pressure = std::move(*pressure);
    points.push_back(std::move(point));
  }
  return points;
}

Result<shop::RatedPoint> readLabel(std::string_view text, std::string_view where) {
  Cursor at(text, std::string(where));
  Result<Given<base::VolumeFlow>> flow =
      at.need<base::VolumeFlow>("the free-air flow on the label", "1100 cfm");
  if (!flow) {
    return Failure(flow.error());
  }
  at.take("at");
  at.take("and");
  Result<Given<base::Pressure>> suction =
      at.need<base::Pressure>("the greatest suction on the label", "8 in w.g.");
  if (!suction) {
    return Failure(suction.error());
  }
  return at.done() ? Result<shop::RatedPoint>(shop::RatedPoint{std::move(*flow), std::move(*suction)})
                   : Result<shop::RatedPoint>(at.stray("a label has a free-air flow and a greatest suction"));
}

}  // namespace kerfdraft::pieces
