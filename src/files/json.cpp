// The JSON tree and its parser, which stands on the events of a well-kept library.
#include "files/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <unordered_set>

namespace kerfdraft::files {
namespace {

using base::ErrorCode;

/// Builds the tree from the parser's events. Every refusal ends the parse at once.
class TreeBuilder {
 public:
  explicit TreeBuilder(const JsonLimits& limits) : limits_(limits) {}

  bool null() { return put(Json{}); }
  bool boolean(bool truth) { return put(Json::ofBool(truth)); }
  bool number_integer(std::int64_t value) { return put(Json::ofNumber(fmt::format("{}", value))); }
  bool number_unsigned(std::uint64_t value) { return put(Json::ofNumber(fmt::format("{}", value))); }
  bool number_float(double /*value*/, const std::string& letters) { return put(Json::ofNumber(letters)); }
  bool string(std::string& text) { return put(Json::ofText(text)); }
  bool binary(nlohmann::json::binary_t& /*bytes*/) { return refuse("binary data is not JSON"); }
  bool start_object(std::size_t /*size*/) { return open(Json::object()); }
  bool start_array(std::size_t /*size*/) { return open(Json::array()); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(std::string& text) {
    Level& level = levels_.back();
    if (!level.seen.insert(text).second) {
      return refuse(fmt::format("the key {} stands twice in one object", asQuoted(text)));
    }
    level.json.keys.push_back(text);
    return true;
  }

  bool parse_error(std::size_t position, const std::string& /*token*/,
                   const nlohmann::json::exception& error) {
    position_ = position;
    detail_ = detailOf(error.what());
    return false;
  }

  Json takeRoot() { return std::move(root_); }
  const std::string& refusal() const { return refusal_; }
  const std::string& detail() const { return detail_; }
  std::size_t position() const { return position_; }

  std::string pointer() const {
    std::string path;
    for (const Level& level : levels_) {
      path += level.json.type == Json::Type::Array
                  ? fmt::format("/{}", level.json.items.size())
                  : (level.json.keys.empty() ? std::string() : pointerStep(level.json.keys.back()));
    }
    return path;
  }

 private:
  struct Level {
    Json json;
    std::unordered_set<std::string> seen;
  };

  /// The middle of "[id] parse error at …: syntax error while parsing value - unexpected ']'; last read: …".
  static std::string detailOf(std::string_view what) {
    if (what.find("406") != std::string_view::npos && what.find("overflow") != std::string_view::npos) {
      return "a number is too large";
    }
    const std::size_t dash = what.find(" - ");
    std::string_view detail = dash == std::string_view::npos ? what : what.substr(dash + 3);
    detail = detail.substr(0, detail.find("; last read"));
    if (detail.find("unexpected end of input") != std::string_view::npos ||
        detail.find("missing closing quote") != std::string_view::npos) {
      return "the text ends in the middle; the file may be cut off";
    }
    return std::string(detail);
  }

  bool refuse(std::string sentence) {
    refusal_ = std::move(sentence);
    return false;
  }

  bool countOne() {
    if (++values_ > limits_.values) {
      return refuse(fmt::format("the text holds over {} values", limits_.values));
    }
    return true;
  }

  bool put(Json json) {
    if (!countOne()) {
      return false;
    }
    (levels_.empty() ? root_ : levels_.back().json.items.emplace_back()) = std::move(json);
    return true;
  }

  bool open(Json json) {
    if (levels_.size() == limits_.depth) {
      return refuse(fmt::format("lists and objects are nested over {} deep", limits_.depth));
    }
    if (!countOne()) {
      return false;
    }
    levels_.push_back({std::move(json), {}});
    return true;
  }

  bool close() {
    Json json = std::move(levels_.back().json);
    levels_.pop_back();
    (levels_.empty() ? root_ : levels_.back().json.items.emplace_back()) = std::move(json);
    return true;
  }

  const JsonLimits& limits_;
  Json root_;
  std::vector<Level> levels_;
  std::size_t values_ = 0;
  std::size_t position_ = 0;
  std::string refusal_;
  std::string detail_;
};

std::string lineAndColumn(std::string_view text, std::size_t position) {
  const std::string_view before = text.substr(0, std::min(position == 0 ? 0 : position - 1, text.size()));
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const std::size_t start = before.rfind('\n');
  const std::size_t column = start == std::string_view::npos ? before.size() + 1 : before.size() - start;
  return fmt::format("line {}, column {}", line, column);
}

}  // namespace

Json Json::ofBool(bool truth) {
  Json json;
  json.type = Type::Bool;
  json.truth = truth;
  return json;
}

Json Json::ofNumber(std::string letters) {
  Json json;
  json.type = Type::Number;
  json.text = std::move(letters);
  return json;
}

Json Json::ofText(std::string_view text) {
  Json json;
  json.type = Type::Text;
  json.text = std::string(text);
  return json;
}

Json Json::array() {
  Json json;
  json.type = Type::Array;
  return json;
}

Json Json::object() {
  Json json;
  json.type = Type::Object;
  return json;
}

const Json* Json::find(std::string_view key) const {
  const auto at = std::find(keys.begin(), keys.end(), key);
  return at == keys.end() ? nullptr : &items[static_cast<std::size_t>(at - keys.begin())];
}

Json* Json::find(std::string_view key) {
  return const_cast<Json*>(std::as_const(*this).find(key));
}

Json& Json::add(std::string_view key, Json value) {
  keys.emplace_back(key);
  items.push_back(std::move(value));
  return *this;
}

Json& Json::push(Json value) {
  items.push_back(std::move(value));
  return *this;
}

std::string_view kindOf(const Json& json) {
  switch (json.type) {
    case Json::Type::Null:
      return "null";
    case Json::Type::Bool:
      return "true or false";
    case Json::Type::Number:
      return "a number";
    case Json::Type::Text:
      return "a text";
    case Json::Type::Array:
      return "a list";
    case Json::Type::Object:
      return "an object";
  }
  return "";
}

base::Result<Json> parseJson(std::string_view text, std::string_view name, const JsonLimits& limits) {
  const std::string where(name);
  if (text.size() > limits.bytes) {
    return base::fail(
        ErrorCode::Range,
        fmt::format("the file has {} bytes; the most that is read is {}", text.size(), limits.bytes), where);
  }
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF")) {
    return base::fail(ErrorCode::Parse, "the file is UTF-16 text; save it as UTF-8", where);
  }
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    return base::fail(ErrorCode::Parse, "the file is empty", where);
  }
  if (text.find('\0') != std::string_view::npos) {
    // The parser would take it for the end of the text.
    return base::fail(ErrorCode::Parse, "the file holds a NUL byte, so it is not text", where);
  }
  TreeBuilder builder(limits);
  if (nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) {
    return builder.takeRoot();
  }
  if (!builder.refusal().empty()) {
    return base::fail(ErrorCode::Parse, builder.refusal(), fmt::format("{}: {}", name, builder.pointer()));
  }
  return base::fail(
      ErrorCode::Parse,
      fmt::format("not JSON at {}: {}", lineAndColumn(text, builder.position()), builder.detail()), where);
}

std::string pointerStep(std::string_view key) {
  std::string step = "/";
  for (const char c : key) {
    if (c == '~') {
      step += "~0";
    } else if (c == '/') {
      step += "~1";
    } else {
      step += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return step;
}

std::string asQuoted(std::string_view text) {
  constexpr std::size_t kMostCharacters = 40;
  std::string out = "\"";
  std::size_t characters = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    // Bytes 10xxxxxx go on with the character that has begun.
    if ((byte & 0xC0U) != 0x80U && ++characters > kMostCharacters) {
      out += "…";
      break;
    }
    out += byte < 0x20 || byte == 0x7F ? ' ' : c;
  }
  return out + '"';
}

}  // namespace kerfdraft::files
