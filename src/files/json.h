// JSON text as a small tree that keeps the order of keys and the letters of numbers. The parser's heavy
// header stays in json.cpp.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"

namespace kerfdraft::files {

/// One JSON value. An object's i-th key belongs to its i-th item.
struct Json {
  enum class Type { Null, Bool, Number, Text, Array, Object };

  Type type = Type::Null;
  bool truth = false;             ///< of a Bool
  std::string text;               ///< of a Text, or the letters of a Number
  std::vector<std::string> keys;  ///< of an Object, all different
  std::vector<Json> items;        ///< of an Array or Object
  bool operator==(const Json&) const = default;

  static Json ofBool(bool truth);
  static Json ofNumber(std::string letters);
  static Json ofText(std::string_view text);
  static Json array();
  static Json object();

  /// The item of a key, or null where there is none or this is not an object.
  const Json* find(std::string_view key) const;
  Json* find(std::string_view key);
  /// Appends to an object; returns the object.
  Json& add(std::string_view key, Json value);
  /// Appends to an array; returns the array.
  Json& push(Json value);
};

/// "a list", "a text", …: what stands there, for sentences.
std::string_view kindOf(const Json& json);

/// Bounds that keep a hostile text from exhausting memory or stack.
struct JsonLimits {
  std::size_t bytes = std::size_t{64} << 20U;
  std::size_t values = 2'000'000;
  std::size_t depth = 48;
};

/// Reads one JSON text. `name` is the file named in errors. A byte-order mark of UTF-8 is passed over.
/// Refused with line and column, or with the place inside: text that is not JSON, ends early, is not UTF-8,
/// holds a key twice in one object, a number too large to be one, or goes over the limits.
base::Result<Json> parseJson(std::string_view text, std::string_view name, const JsonLimits& limits = {});

/// Writes with two spaces, short lists and objects on one line, a line end at the end. The same tree always
/// gives the same text.
std::string printJson(const Json& json);

/// On one line without spaces after commas.
std::string compactJson(const Json& json);

/// A step of a JSON pointer (RFC 6901): "/" and the key with "~" and "/" escaped.
std::string pointerStep(std::string_view key);

/// A person's text as quoted in a sentence: at most 40 characters, control characters as spaces.
std::string asQuoted(std::string_view text);

}  // namespace kerfdraft::files
