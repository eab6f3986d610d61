// The library that reads DXF trusts its input: counts, lengths and numbers are made sure of here.
#include "files/dxf_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

namespace kerfdraft::files {
namespace {

/// Longer lines are cut by the library in the middle of a pair.
constexpr std::size_t kLongest_line = 1000;
/// A drawing in tenths of a millimetre with national coordinates stays far below.
constexpr double kGreatest = 1e11;
constexpr int kGreatest_code = 1071;

struct Group {
  int code = 0;
  std::string_view value;
  std::size_t line = 0;  ///< of the value
};

/// What an entity must have, and what else is handed on.
struct Kind {
  std::string_view name;
  std::vector<int> needed;
  std::vector<int> also;
};

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> kKinds{
      {"LINE", {10, 20, 11, 21}, {8, 30, 31}},
      {"LWPOLYLINE", {10, 20}, {8, 42, 70, 210, 220, 230}},
      {"POLYLINE", {}, {8, 66, 70, 210, 220, 230}},
      {"VERTEX", {10, 20}, {8, 42, 70}},
      {"SEQEND", {}, {8}},
      {"ARC", {10, 20, 40, 50, 51}, {8, 210, 220, 230}},
      {"CIRCLE", {10, 20, 40}, {8, 210, 220, 230}},
      {"ELLIPSE", {10, 20, 11, 21, 40, 41, 42}, {8, 230}},
      {"INSERT", {2, 10, 20}, {8, 41, 42, 44, 45, 50, 70, 71, 210, 220, 230}},
      {"BLOCK", {2}, {8, 10, 20, 70}},
      {"ENDBLK", {}, {8}},
      {"LAYER", {2}, {62, 70}},
  };
  return kKinds;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) {
    return {};
  }
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

template <class T>
std::optional<T> number(std::string_view text) {
  if (text.starts_with('+')) {
    text.remove_prefix(1);
  }
  T out{};
  const auto [end, wrong] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (wrong != std::errc() || end != text.data() + text.size()) {
    return std::nullopt;
  }
  return out;
}

/// What a person can read of a damaged value.
std::string shown(std::string_view value) {
  constexpr std::size_t kMost = 40;
  std::string out;
  for (const char c : value.substr(0, kMost)) {
    out += c >= ' ' && c < '\x7f' ? c : '?';
  }
  return value.size() > kMost ? out + " …" : out;
}

bool isReal(int code) {
  return (code >= 10 && code < 60) || (code >= 210 && code < 240);
}
bool isWhole(int code) {
  return code >= 60 && code < 80;
}

class Check {
 public:
  Check(std::string_view text, const std::string& place) : text_(text), place_(place) {}

  base::Result<DxfText> run() {
    if (text_.find('\0') != std::string_view::npos) {
      return base::fail(
          base::ErrorCode::Unsupported,
          "The file is not text. If it is a binary DXF, save the drawing again as a DXF in text "
          "(ASCII) form.",
          place_);
    }
    std::vector<Group> chunk;
    while (!ended_) {
      base::Result<std::optional<Group>> next = group();
      if (!next) {
        return tl::unexpected(next.error());
      }
      if (!*next) {
        break;
      }
      if ((*next)->code == 0 && !chunk.empty()) {
        if (auto done = hand(chunk); !done) {
          return tl::unexpected(done.error());
        }
        chunk.clear();
      }
      if ((*next)->code == 0 && (*next)->value == "EOF") {
        ended_ = true;
      } else if ((*next)->code != 999) {  // a remark
        if (chunk.empty() && (*next)->code != 0) {
          return failAt((*next)->line - 1,
                        fmt::format("A DXF begins with the pair 0 and SECTION; here stands "
                                    "the code {}. The file is no DXF, or its head is lost.",
                                    (*next)->code));
        }
        chunk.push_back(**next);
      }
    }
    if (!ended_) {
      return failAt(line_,
                    "The file ends here without the mark of its end (0, EOF), so it was cut off. Save or "
                    "copy it again.");
    }
    if (!entities_) {
      return base::fail(base::ErrorCode::Parse, "The file has no section ENTITIES, so it shows nothing.",
                        place_);
    }
    out_.clean += "0\nEOF\n";
    return std::move(out_);
  }

 private:
  base::Failure failAt(std::size_t line, std::string message) const {
    return base::fail(base::ErrorCode::Parse, std::move(message), fmt::format("{}, line {}", place_, line));
  }

  std::optional<std::string_view> lineOf() {
    if (at_ >= text_.size()) {
      return std::nullopt;
    }
    const std::size_t end = std::min(text_.find('\n', at_), text_.size());
    const std::string_view out = trimmed(text_.substr(at_, end - at_));
    at_ = end + 1;
    ++line_;
    return out;
  }

  base::Result<std::optional<Group>> group() {
    std::optional<std::string_view> code_text = lineOf();
    if (!code_text || (code_text->empty() && at_ >= text_.size())) {
      return std::nullopt;
    }
    const std::optional<int> code = number<int>(*code_text);
    if (!code || *code < -5 || *code > kGreatest_code) {
      return failAt(line_,
                    fmt::format("A number that says what follows (0 to {}) is expected, and here stands "
                                "\"{}\".",
                                kGreatest_code, shown(*code_text)));
    }
    const std::optional<std::string_view> value = lineOf();
    if (!value) {
      return failAt(line_,
                    fmt::format("The value after the code {} is missing: the file was cut off.", *code));
    }
    return Group{*code, *value, line_};
  }

  void put(int code, std::string_view value) { out_.clean += fmt::format("{}\n{}\n", code, value); }

  base::Result<void> hand(const std::vector<Group>& chunk) {
    const std::string_view type = chunk.front().value;
    if (type == "SECTION") {
      return section(chunk);
    }
    if (type == "ENDSEC") {
      if (section_.empty()) {
        return failAt(chunk.front().line, "A section ends here that never began.");
      }
      put(0, type);
      section_.clear();
      return {};
    }
    if (section_ == "TABLES") {
      return type == "LAYER" ? entity(chunk) : base::Result<void>{};
    }
    if (section_ != "BLOCKS" && section_ != "ENTITIES") {
      return {};
    }
    const auto code_is = [&](int code, int bits) {
      return std::any_of(chunk.begin(), chunk.end(), [&](const Group& each) {
        return each.code == code && (number<int>(each.value).value_or(0) & bits) != 0;
      });
    };
    const bool part = type == "VERTEX" || type == "SEQEND";
    if (part && drop_parts_) {
      return {};
    }
    drop_parts_ = false;
    if (code_is(67, 1) && type != "BLOCK" && type != "ENDBLK") {
      ++out_.on_paper;
      drop_parts_ = true;
      return {};
    }
    constexpr int kMesh = 16 | 64;
    const bool known = std::any_of(kinds().begin(), kinds().end(),
                                   [&](const Kind& kind) { return kind.name == type && type != "LAYER"; });
    if (!known || (type == "POLYLINE" && code_is(70, kMesh))) {
      if (section_ == "ENTITIES" && !part) {
        ++out_.skipped[shown(type)];
      }
      drop_parts_ = type == "POLYLINE";
      return {};
    }
    return entity(chunk);
  }

  base::Result<void> section(const std::vector<Group>& chunk) {
    if (!section_.empty()) {
      return failAt(chunk.front().line, fmt::format("A section begins here before {} ended.", section_));
    }
    const auto name = std::find_if(chunk.begin(), chunk.end(), [](const Group& g) { return g.code == 2; });
    if (name == chunk.end() || name->value.empty()) {
      return failAt(chunk.front().line, "A section begins here without its name.");
    }
    section_ = shown(name->value);
    entities_ = entities_ || section_ == "ENTITIES";
    put(0, "SECTION");
    put(2, section_);
    if (section_ == "HEADER") {
      for (std::size_t k = 0; k + 1 < chunk.size(); ++k) {
        if (chunk[k].code != 9 || chunk[k].value != "$INSUNITS") {
          continue;
        }
        const std::optional<int> unit = number<int>(chunk[k + 1].value);
        if (!unit || chunk[k + 1].code != 70) {
          return failAt(chunk[k + 1].line,
                        fmt::format("The unit of the drawing ($INSUNITS) is a whole number, "
                                    "and here stands \"{}\".",
                                    shown(chunk[k + 1].value)));
        }
        put(9, "$INSUNITS");
        put(70, fmt::format("{}", *unit));
      }
    }
    return {};
  }

  base::Result<void> entity(const std::vector<Group>& chunk) {
    const std::string_view type = chunk.front().value;
    const Kind& kind =
        *std::find_if(kinds().begin(), kinds().end(), [&](const Kind& each) { return each.name == type; });
    for (const int code : kind.needed) {
      if (std::none_of(chunk.begin(), chunk.end(), [&](const Group& g) { return g.code == code; })) {
        return failAt(chunk.front().line,
                      fmt::format("This {} lacks its value with the code {}.", type, code));
      }
    }
    const bool many = type == "LWPOLYLINE";
    put(0, type);
    if (many) {
      // The library makes room for as many corners as the file says; what counts is how many come.
      put(90, fmt::format("{}", std::count_if(chunk.begin(), chunk.end(),
                                              [](const Group& g) { return g.code == 10; })));
    }
    bool has_x = false;
    for (const Group& each : chunk) {
      const auto in = [&](const std::vector<int>& codes) {
        return std::find(codes.begin(), codes.end(), each.code) != codes.end();
      };
      if (each.code == 0 || (!in(kind.needed) && !in(kind.also))) {
        continue;
      }
      if (many && each.code == 10) {
        has_x = true;
      } else if (many && each.code == 20) {
        if (!has_x) {
          return failAt(each.line,
                        "A corner of this LWPOLYLINE has a second coordinate without a first one.");
        }
      }
      if (auto done = value(type, each); !done) {
        return done;
      }
    }
    return {};
  }

  base::Result<void> value(std::string_view type, const Group& each) {
    if (isReal(each.code)) {
      const std::optional<double> real = number<double>(each.value);
      if (!real || !std::isfinite(*real)) {
        return failAt(each.line,
                      fmt::format("A number is expected for the code {} of this {}, and here stands "
                                  "\"{}\".",
                                  each.code, type, shown(each.value)));
      }
      if (std::abs(*real) > kGreatest) {
        return failAt(each.line,
                      fmt::format("{} is out of all bounds for the code {} of this {} (at most {:g}).",
                                  shown(each.value), each.code, type, kGreatest));
      }
      if (each.code == 40 && type != "ELLIPSE" && *real < 0) {
        return failAt(each.line,
                      fmt::format("The radius of this {} is {}; it cannot be below 0.", type, *real));
      }
      put(each.code, fmt::format("{}", *real));
    } else if (isWhole(each.code)) {
      const std::optional<int> whole = number<int>(each.value);
      if (!whole) {
        return failAt(each.line,
                      fmt::format("A whole number is expected for the code {} of this {}, and here "
                                  "stands \"{}\".",
                                  each.code, type, shown(each.value)));
      }
      put(each.code, fmt::format("{}", *whole));
    } else {
      if (each.value.size() > kLongest_line) {
        return failAt(each.line,
                      fmt::format("A name of {} characters is longer than the {} that can be read.",
                                  each.value.size(), kLongest_line));
      }
      put(each.code, each.value);
    }
    return {};
  }

  std::string_view text_;
  const std::string& place_;
  std::size_t at_ = 0;
  std::size_t line_ = 0;
  std::string section_;
  bool entities_ = false;
  bool ended_ = false;
  bool drop_parts_ = false;  ///< the corners of a polyline that is not read
  DxfText out_;
};

}  // namespace

base::Result<DxfText> checkDxfText(std::string_view text, const std::string& place) {
  return Check(text, place).run();
}

}  // namespace kerfdraft::files
