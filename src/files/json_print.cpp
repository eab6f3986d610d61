// The printer of JSON trees.
#include <fmt/format.h>

#include "files/json.h"

namespace kerfdraft::files {
namespace {

constexpr std::size_t kLineWidth = 110;
constexpr std::size_t kMostKeysOnALine = 6;

void appendText(std::string& out, std::string_view text) {
  out += '"';
  for (const char c : text) {
    switch (c) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\t':
        out += "\\t";
        break;
      default:
        if (static_cast<unsigned char>(c) < 0x20) {
          out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        } else {
          out += c;
        }
    }
  }
  out += '"';
}

/// Everything on one line. `gap` stands after commas and colons.
void appendInline(std::string& out, const Json& json, std::string_view gap) {
  switch (json.type) {
    case Json::Type::Null:
      out += "null";
      return;
    case Json::Type::Bool:
      out += json.truth ? "true" : "false";
      return;
    case Json::Type::Number:
      out += json.text;
      return;
    case Json::Type::Text:
      appendText(out, json.text);
      return;
    case Json::Type::Array:
    case Json::Type::Object:
      break;
  }
  const bool object = json.type == Json::Type::Object;
  out += object ? '{' : '[';
  for (std::size_t i = 0; i < json.items.size(); ++i) {
    if (i > 0) {
      out += ',';
      out += gap;
    }
    if (object) {
      appendText(out, json.keys[i]);
      out += ':';
      out += gap;
    }
    appendInline(out, json.items[i], gap);
  }
  out += object ? '}' : ']';
}

/// Length on one line, or anything over `most` where it is longer: the walk stops there.
std::size_t inlineLength(const Json& json, std::size_t most) {
  switch (json.type) {
    case Json::Type::Null:
      return 4;
    case Json::Type::Bool:
      return json.truth ? 4 : 5;
    case Json::Type::Number:
      return json.text.size();
    case Json::Type::Text:
      return json.text.size() + 2;
    case Json::Type::Array:
    case Json::Type::Object:
      break;
  }
  if (json.type == Json::Type::Object && json.items.size() > kMostKeysOnALine) {
    return most + 1;
  }
  std::size_t length = 2;
  for (std::size_t i = 0; i < json.items.size() && length <= most; ++i) {
    length += (i == 0 ? 0 : 2) + (json.keys.empty() ? 0 : json.keys[i].size() + 4);
    length += inlineLength(json.items[i], most);
  }
  return length;
}

void appendPretty(std::string& out, const Json& json, std::size_t indent, std::size_t used) {
  const std::size_t room = kLineWidth > used ? kLineWidth - used : 0;
  const bool root = indent == 0 && !json.items.empty();
  if (json.items.empty() || (!root && inlineLength(json, room) <= room)) {
    appendInline(out, json, " ");
    return;
  }
  const bool object = json.type == Json::Type::Object;
  out += object ? '{' : '[';
  for (std::size_t i = 0; i < json.items.size(); ++i) {
    out += i > 0 ? ",\n" : "\n";
    out.append(indent + 2, ' ');
    std::size_t start = indent + 2;
    if (object) {
      const std::size_t before = out.size();
      appendText(out, json.keys[i]);
      out += ": ";
      start += out.size() - before;
    }
    appendPretty(out, json.items[i], indent + 2, start);
  }
  out += '\n';
  out.append(indent, ' ');
  out += object ? '}' : ']';
}

}  // namespace

std::string printJson(const Json& json) {
  std::string out;
  appendPretty(out, json, 0, 0);
  out += '\n';
  return out;
}

std::string compactJson(const Json& json) {
  std::string out;
  appendInline(out, json, "");
  return out;
}

}  // namespace kerfdraft::files
