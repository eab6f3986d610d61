// The form of a field table: one per struct, from which the reader, the writer, the schema and the
// documentation of the project format all come.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <vector>

#include "base/given.h"

namespace kerfdraft::files {

enum class Need {
  Required,  ///< refused where missing
  Shown,     ///< may be missing, always written
  Optional,  ///< may be missing, written only where it differs from its default
};

/// The least and greatest value, as quantity texts so that a sentence can show them. Empty: no bound.
struct Range {
  std::string_view least;
  std::string_view greatest;
};

/// What a text may be.
enum class TextRule {
  Name,     ///< one line, at most 200 characters
  Label,    ///< one line, 1 to 24 characters, printed on plans
  Key,      ///< of a catalogue row: lower-case letters, digits, "-", "_", "."
  Note,     ///< several lines, at most 20 000 characters
  Country,  ///< two capital letters
  Path,     ///< of a file, or a name that another program gave: one line, 1 to 1000 characters
  About,    ///< key of a piece: a role and at most two ids, "run:00000000000000a1"
};

/// What a field's value is held against, besides its type.
struct Limits {
  Range range;
  TextRule text = TextRule::Name;
  std::size_t least_items = 0;  ///< of a list

  constexpr Limits() = default;
  constexpr Limits(Range r) : range(r) {}  // NOLINT(google-explicit-constructor): reads as the table's column
  constexpr Limits(TextRule t) : text(t) {}  // NOLINT(google-explicit-constructor)
  static constexpr Limits atLeast(std::size_t items) {
    Limits limits;
    limits.least_items = items;
    return limits;
  }
};

struct FieldInfo {
  std::string_view key;
  std::string_view doc;
  Need need;
  Limits limits;
};

template <class S, class M>
struct Field {
  FieldInfo info;
  M S::*member;
};

template <class S, class M>
constexpr Field<S, M> required(std::string_view key, M S::*member, std::string_view doc, Limits limits = {}) {
  return {{key, doc, Need::Required, limits}, member};
}
template <class S, class M>
constexpr Field<S, M> shown(std::string_view key, M S::*member, std::string_view doc, Limits limits = {}) {
  return {{key, doc, Need::Shown, limits}, member};
}
template <class S, class M>
constexpr Field<S, M> optional(std::string_view key, M S::*member, std::string_view doc, Limits limits = {}) {
  return {{key, doc, Need::Optional, limits}, member};
}

/// Specialized per struct: kNoun ("duct": in sentences and as the schema's name), kDoc, kFields (a tuple of
/// Field).
template <class S>
struct Table;

template <class S>
concept Tabled = requires { Table<S>::kFields; };

/// Calls f(field) for every field in the order of the table.
template <Tabled S, class F>
void forEachField(F&& f) {
  std::apply([&](const auto&... each) { (f(each), ...); }, Table<S>::kFields);
}

/// One word of an enum, as written in files.
template <class E>
struct Word {
  E value;
  std::string_view text;
  std::string_view doc;
};

/// Specialized per enum: kWords (an array of Word).
template <class E>
struct Words;

template <class E>
concept Worded = requires { Words<E>::kWords; };

template <Worded E>
constexpr std::string_view wordOf(E value) {
  for (const Word<E>& word : Words<E>::kWords) {
    if (word.value == value) {
      return word.text;
    }
  }
  return {};
}

template <class T>
struct GivenTraits : std::false_type {};
template <class Q>
struct GivenTraits<base::Given<Q>> : std::true_type {
  using Quantity = Q;
};
template <class T>
concept IsGiven = GivenTraits<T>::value;

template <class T>
struct ListTraits : std::false_type {};
template <class T>
struct ListTraits<std::vector<T>> : std::true_type {
  using Item = T;
};
template <class T>
concept IsList = ListTraits<T>::value;

template <class T>
struct OptionalTraits : std::false_type {};
template <class T>
struct OptionalTraits<std::optional<T>> : std::true_type {
  using Value = T;
};
template <class T>
concept IsOptional = OptionalTraits<T>::value;

}  // namespace kerfdraft::files
