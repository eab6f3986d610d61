// The JSON Schema, built from the field tables.
#include <fmt/format.h>

#include "base/units.h"
#include "files/describe.h"
#include "files/json.h"
#include "files/project_fields.h"
#include "files/quantity_text.h"
#include "files/text_rule.h"

namespace kerfdraft::files {
namespace {

Json text(std::string_view words) {
  return Json::ofText(words);
}

Json whole(std::size_t number) {
  return Json::ofNumber(fmt::format("{}", number));
}

std::string dashed(std::string_view words) {
  std::string out(words);
  for (char& c : out) {
    c = c == ' ' ? '-' : c;
  }
  return out;
}

/// Letters with a meaning in regular expressions get a backslash.
std::string escaped(std::string_view plain) {
  std::string out;
  for (const char c : plain) {
    if (std::string_view(R"(\^$.|?*+()[]{}/)").find(c) != std::string_view::npos) {
      out += '\\';
    }
    out += c;
  }
  return out;
}

class SchemaBuilder {
 public:
  Json build() {
    Json root = Json::object();
    root.add("$schema", text("https://json-schema.org/draft/2020-12/schema"));
    root.add("title", text(fmt::format("Project file, format {}", kFormat)));
    const Json body = object<shop::Project>();
    for (std::size_t i = 0; i < body.keys.size(); ++i) {
      root.add(body.keys[i], body.items[i]);
    }
    Json* properties = root.find("properties");
    Json all = Json::object();
    all.add("format", Json::object()
                          .add("const", whole(static_cast<std::size_t>(kFormat)))
                          .add("description", text(kFormatDoc)));
    for (std::size_t i = 0; i < properties->keys.size(); ++i) {
      all.add(properties->keys[i], properties->items[i]);
    }
    all.add("extensions",
            Json::object().add("type", text("object")).add("description", text(kExtensionsDoc)));
    *properties = std::move(all);
    Json* needed = root.find("required");
    needed->items.insert(needed->items.begin(), text("format"));
    root.add("$defs", std::move(defs_));
    return root;
  }

 private:
  /// A reference to a definition, which is made on its first use.
  template <class Make>
  Json reference(std::string_view name, Make make) {
    if (defs_.find(name) == nullptr) {
      defs_.add(name, Json());  // holds the place, so that the order is that of first use
      Json made = make();
      *defs_.find(name) = std::move(made);
    }
    return Json::object().add("$ref", text(fmt::format("#/$defs/{}", name)));
  }

  template <Tabled S>
  Json object() {
    Json properties = Json::object();
    Json needed = Json::array();
    const S usual{};
    forEachField<S>([&](const auto& field) {
      Json item = of(usual.*field.member, field.info);
      std::string doc(field.info.doc);
      const Range& range = field.info.limits.range;
      if (!range.least.empty()) {
        doc += fmt::format(" From {} to {}.", range.least, range.greatest);
      }
      item.add("description", text(doc));
      if (field.info.need == Need::Required) {
        needed.push(text(field.info.key));
      } else {
        addDefault(item, usual.*field.member);
      }
      properties.add(field.info.key, std::move(item));
    });
    Json json = Json::object();
    json.add("description", text(Table<S>::kDoc));
    json.add("type", text("object"));
    json.add("additionalProperties", Json::ofBool(false));
    if (!needed.items.empty()) {
      json.add("required", std::move(needed));
    }
    json.add("properties", std::move(properties));
    return json;
  }

  template <class T>
  static void addDefault(Json& item, const T& usual) {
    if constexpr (std::is_same_v<T, bool>) {
      item.add("default", Json::ofBool(usual));
    } else if constexpr (Worded<T>) {
      item.add("default", text(wordOf(usual)));
    }
  }

  template <Tabled S>
  Json of(const S& /*usual*/, const FieldInfo& /*info*/) {
    return reference(Table<S>::kNoun, [this] { return object<S>(); });
  }

  template <Worded E>
  Json of(const E& /*usual*/, const FieldInfo& /*info*/) {
    return reference(Words<E>::kNoun, [] {
      Json list = Json::array();
      std::string doc;
      for (const Word<E>& word : Words<E>::kWords) {
        list.push(text(word.text));
        doc += fmt::format("{}{}: {}", doc.empty() ? "" : "; ", word.text, word.doc);
      }
      return Json::object().add("description", text(doc)).add("enum", std::move(list));
    });
  }

  template <IsGiven G>
  Json of(const G& /*usual*/, const FieldInfo& info) {
    constexpr base::Kind kKind = GivenTraits<G>::Quantity::kKind;
    const std::string name = dashed(base::kindName(kKind));
    return reference("entered-" + name, [&] {
      Json plain = reference("typed-" + name, [] { return quantity(kKind); });
      Json properties = Json::object();
      properties.add("value", plain);
      properties.add("standing", of(base::Standing{}, info));
      properties.add("source", ofText(TextRule::Name));
      Json full = Json::object()
                      .add("type", text("object"))
                      .add("additionalProperties", Json::ofBool(false))
                      .add("required", Json::array().push(text("value")))
                      .add("properties", std::move(properties));
      return Json::object().add("oneOf", Json::array().push(std::move(plain)).push(std::move(full)));
    });
  }

  static Json quantity(base::Kind kind) {
    std::string units;
    bool first = true;  // the first text may be the empty one
    for (const std::string& unit : base::unitTexts(kind)) {
      units += (first ? "" : "|") + escaped(unit);
      first = false;
    }
    return Json::object()
        .add("description", text(fmt::format("A {} as typed: number and unit.", base::kindName(kind))))
        .add("type", text("string"))
        .add("maxLength", whole(kLongestQuantity))
        .add("pattern", text(fmt::format(R"(^[-+0-9.eE/ \t]*[0-9.][ \t]*({})[ \t]*$)", units)));
  }

  static Json ofText(TextRule rule) {
    Json json = Json::object().add("type", text("string")).add("maxLength", whole(textLength(rule)));
    if (!textPattern(rule).empty()) {
      json.add("pattern", text(textPattern(rule)));
    }
    return json;
  }

  static Json of(const std::string& /*usual*/, const FieldInfo& info) { return ofText(info.limits.text); }
  static Json of(bool /*usual*/, const FieldInfo& /*info*/) {
    return Json::object().add("type", text("boolean"));
  }

  Json of(base::Id /*usual*/, const FieldInfo& /*info*/) {
    return reference("id", [] {
      return Json::object()
          .add("description", text("1 to 16 hex digits, not all zero; no two things share one."))
          .add("type", text("string"))
          .add("pattern", text("^(?!0+$)[0-9a-fA-F]{1,16}$"));
    });
  }

  Json of(const shop::Point& /*usual*/, const FieldInfo& info) {
    return reference("point", [&] { return coordinates(3, "x, y and z.", info); });
  }
  Json of(const shop::PlanPoint& /*usual*/, const FieldInfo& info) {
    return reference("plan-point", [&] { return coordinates(2, "x and y on the floor plan.", info); });
  }
  Json coordinates(std::size_t count, std::string_view doc, const FieldInfo& /*info*/) {
    return Json::object()
        .add("description", text(doc))
        .add("type", text("array"))
        .add("minItems", whole(count))
        .add("maxItems", whole(count))
        .add("items", reference("typed-length", [] { return quantity(base::Kind::Length); }));
  }

  template <IsOptional O>
  Json of(const O& /*usual*/, const FieldInfo& info) {
    return of(typename OptionalTraits<O>::Value{}, info);
  }

  template <IsList L>
  Json of(const L& /*usual*/, const FieldInfo& info) {
    Json json = Json::object().add("type", text("array"));
    if (info.limits.least_items > 0) {
      json.add("minItems", whole(info.limits.least_items));
    }
    json.add("items", of(typename ListTraits<L>::Item{}, info));
    return json;
  }

  static Json of(const shop::OpenEnd& /*usual*/, const FieldInfo& /*info*/) {
    return Json::object().add("const", Json::ofBool(true));
  }
  Json of(const shop::CollectorInlet& usual, const FieldInfo& info) { return of(usual.collector, info); }
  Json of(const shop::CollectorOutlet& usual, const FieldInfo& info) { return of(usual.collector, info); }
  Json of(const shop::MovedEnd& usual, const FieldInfo& /*info*/) {
    return of(usual.places, FieldInfo{{}, {}, Need::Required, Limits::atLeast(1)});
  }

  template <class... Ends>
  Json of(const std::variant<Ends...>& /*usual*/, const FieldInfo& info) {
    return reference("duct-end", [&] {
      Json choices = Json::array();
      (choices.push(endForm<Ends>(info)), ...);
      return Json::object()
          .add("description", text("What is at an end of a duct: an object with exactly one key."))
          .add("oneOf", std::move(choices));
    });
  }

  template <class End>
  Json endForm(const FieldInfo& info) {
    Json item = of(End{}, info);
    item.add("description", text(EndForm<End>::kDoc));
    return Json::object()
        .add("type", text("object"))
        .add("additionalProperties", Json::ofBool(false))
        .add("required", Json::array().push(text(EndForm<End>::kKey)))
        .add("properties", Json::object().add(EndForm<End>::kKey, std::move(item)));
  }

  Json defs_ = Json::object();
};

}  // namespace

std::string projectSchema() {
  return printJson(SchemaBuilder().build());
}

}  // namespace kerfdraft::files
