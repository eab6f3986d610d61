// Walks the field tables of the project format over a value: to list its rows, or to change one of them.
// Only models/properties includes this.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.h"
#include "desk/models/properties.h"
#include "desk/models/property_words.h"
#include "files/coordinates.h"
#include "files/project_fields.h"
#include "files/quantity_text.h"
#include "files/text_rule.h"

namespace kerfdraft::desk {

/// Where keys of the catalogue are looked up that a field holds: by the noun of its struct and its key.
std::string_view tableOfKey(std::string_view noun, std::string_view key);
/// A field that has its own place elsewhere (an outline, corners, what hangs on a duct, ends, ids).
bool isElsewhere(std::string_view noun, std::string_view key);
/// What a field is called; its key with blanks where the table of words has none.
std::string nameOfField(std::string_view noun, std::string_view key);
/// What a part is called on a button, and over its rows.
std::string nameOfPart(std::string_view noun);
std::string headingOfPart(std::string_view noun);
/// Without blanks before and behind.
std::string_view trimmedText(std::string_view text);
std::string exampleFor(base::Kind kind, std::string_view noun, std::string_view key, base::UnitSystem units);

class Walk {
 public:
  Walk(const shop::Project& project, const catalogue::Catalogue& catalogue, base::IdSource* ids)
      : project_(project), catalogue_(catalogue), ids_(ids) {}

  /// List every row.
  std::vector<PropertyRow> rows;
  /// Or change this one; `outcome` then says how that went.
  std::string_view target;
  std::string_view text;
  std::optional<base::Result<void>> outcome;

  template <files::Tabled S>
  void fields(S& value, const std::string& path, const std::string& group) {
    using Form = files::Table<S>;
    files::forEachField<S>([&](const auto& field) {
      const files::FieldInfo& info = field.info;
      if (!isElsewhere(Form::kNoun, info.key)) {
        leaf(value.*(field.member),
             At{path.empty() ? std::string(info.key) : fmt::format("{}/{}", path, info.key), group, info,
                Form::kNoun});
      }
    });
  }

  /// A list that is no field of a table: the project's circuits.
  template <files::Tabled S>
  void list(std::vector<S>& values, std::string_view key, std::string_view doc, const std::string& group) {
    leaf(values, At{std::string(key), group, {key, doc, files::Need::Optional, {}}, key});
  }
  /// An end of a duct that is joined to nothing, at this place: whether it is in free air, in which room, and
  /// what is on it. Ends that are joined say nothing here: they are drawn.
  void freeEnd(shop::DuctEnd& end, bool start, const shop::Point& place);

 private:
  struct At {
    std::string path;
    std::string group;
    files::FieldInfo info;
    std::string_view noun;
  };

  bool listing() const { return target.empty(); }
  bool hit(const std::string& path) const { return target == path; }
  /// The path itself, its standing or its source.
  bool hitGiven(const std::string& path) const {
    return target.starts_with(path) && (target.size() == path.size() || target[path.size()] == '#');
  }
  void refuse(base::ErrorCode code, std::string message, const At& at) {
    outcome = base::fail(code, std::move(message), nameOfField(at.noun, at.info.key));
  }
  PropertyRow row(const At& at, RowEditor editor) const {
    PropertyRow out;
    out.path = at.path;
    out.group = at.group;
    out.name = nameOfField(at.noun, at.info.key);
    out.key = std::string(at.info.key);
    if (const FieldWords* words = fieldWords(at.noun, at.info.key)) {
      out.help = std::string(words->help);
      out.term = std::string(words->term);
    } else {
      out.help = std::string(at.info.doc);
    }
    out.editor = editor;
    out.optional = at.info.need == files::Need::Optional;
    return out;
  }

  template <files::IsGiven G>
  void leaf(G& value, const At& at) {
    given(&value, at, [&](G next) { value = std::move(next); }, {});
  }
  template <files::IsGiven G>
  void leaf(std::optional<G>& value, const At& at) {
    given(
        value ? &*value : nullptr, at, [&](G next) { value = std::move(next); }, [&] { value.reset(); });
  }

  template <files::IsGiven G, class Set>
  void given(const G* value, const At& at, const Set& set, const std::function<void()>& clear) {
    using Quantity = typename files::GivenTraits<G>::Quantity;
    if (listing()) {
      PropertyRow out = row(at, RowEditor::Quantity);
      out.optional = clear != nullptr || at.info.need == files::Need::Optional;
      out.example = exampleFor(Quantity::kKind, at.noun, at.info.key, project_.setting.units);
      if (value != nullptr) {
        out.value = value->text();
        out.standing = value->standing();
        out.source = value->source();
      }
      rows.push_back(std::move(out));
      return;
    }
    if (!hitGiven(at.path)) {
      return;
    }
    const std::string_view part = target.substr(at.path.size());
    if (!part.empty()) {
      if (value == nullptr) {
        refuse(base::ErrorCode::Conflict, "type a value first", at);
        return;
      }
      std::optional<base::Standing> standing = value->standing();
      std::string source = value->source();
      if (part == "#standing") {
        standing = standingOf(text);
      } else if (part == "#source") {
        if (std::string wrong = files::textProblem(text, files::TextRule::Note); !wrong.empty()) {
          refuse(base::ErrorCode::Parse, std::move(wrong), at);
          return;
        }
        source = std::string(text);
      } else {
        return;
      }
      if (!standing) {
        refuse(base::ErrorCode::Parse, fmt::format("\"{}\" is no standing", text), at);
        return;
      }
      set(*G::parse(value->text(), *standing, source));
      outcome = base::Result<void>{};
      return;
    }
    if (text.empty()) {
      if (clear) {
        clear();
        outcome = base::Result<void>{};
      } else if (at.info.need == files::Need::Optional) {
        set(G{});
        outcome = base::Result<void>{};
      } else {
        refuse(base::ErrorCode::Parse, "this must not be empty", at);
      }
      return;
    }
    if (const auto si = files::parseWithin(Quantity::kKind, text, at.info.limits.range, {}); !si) {
      refuse(si.error().code, si.error().message, at);
      return;
    }
    // Another figure than a published or a maker's one is no longer theirs.
    const bool keeps =
        value != nullptr && (value->text() == text || value->standing() == base::Standing::Measured ||
                             value->standing() == base::Standing::Estimated);
    set(*G::parse(text, keeps ? value->standing() : base::Standing::Assumed,
                  keeps ? value->source() : std::string()));
    outcome = base::Result<void>{};
  }

  static std::optional<base::Standing> standingOf(std::string_view word) {
    for (const auto& each : files::Words<base::Standing>::kWords) {
      if (each.text == word) {
        return each.value;
      }
    }
    return std::nullopt;
  }

  void leaf(bool& value, const At& at);

  template <files::Worded E>
  void leaf(E& value, const At& at) {
    if (listing()) {
      rows.push_back(row(at, RowEditor::Choice));
      rows.back().value = std::string(files::wordOf(value));
      rows.back().optional = false;
      rows.back().keys_in_file = true;
      for (const files::Word<E>& word : files::Words<E>::kWords) {
        rows.back().choices.emplace_back(std::string(word.text),
                                         std::string(choiceWords(files::Words<E>::kNoun, word.text)));
      }
    } else if (hit(at.path)) {
      for (const files::Word<E>& word : files::Words<E>::kWords) {
        if (word.text == text) {
          value = word.value;
          outcome = base::Result<void>{};
          return;
        }
      }
      refuse(base::ErrorCode::Parse, fmt::format("\"{}\" is none of the choices", text), at);
    }
  }

  void leaf(std::string& value, const At& at);

  /// Cap or screen of an outlet.
  void cover(std::string& form, const At& at);

  /// A room or a circuit.
  void leaf(base::Id& value, const At& at);

  void leaf(shop::Point& value, const At& at) {
    coordinate(value.x_um, at, "x");
    coordinate(value.y_um, at, "y");
    coordinate(value.z_um, at, "z");
  }
  void leaf(shop::PlanPoint& value, const At& at) {
    coordinate(value.x_um, at, "x");
    coordinate(value.y_um, at, "y");
  }
  void coordinate(std::int64_t& um, const At& at, std::string_view axis);

  /// Two quantities that only make sense together, in one line: "450 cfm at 1.2 in w.g.".
  template <class Pair, class A, class B>
  void pair(std::optional<Pair>& value, const At& at, A Pair::*first, B Pair::*second) {
    if (listing()) {
      rows.push_back(row(at, RowEditor::Text));
      rows.back().example =
          project_.setting.units == base::UnitSystem::Us ? "450 cfm at 1.2 in w.g." : "750 m3/h at 300 Pa";
      if (value) {
        rows.back().value = fmt::format("{} at {}", ((*value).*first).text(), ((*value).*second).text());
      }
      return;
    }
    if (!hit(at.path)) {
      return;
    }
    if (text.empty()) {
      value.reset();
      outcome = base::Result<void>{};
      return;
    }
    const std::size_t mark = text.find(" at ");
    if (mark == std::string_view::npos) {
      refuse(base::ErrorCode::Parse, "write a flow, at, and a pressure, like \"450 cfm at 1.2 in w.g.\"", at);
      return;
    }
    Pair next;
    const auto one = A::parse(text.substr(0, mark));
    const auto two = B::parse(text.substr(mark + 4));
    if (!one || !two) {
      refuse((one ? two.error() : one.error()).code, (one ? two.error() : one.error()).message, at);
      return;
    }
    if (!(one->si() > 0) || two->si() < 0) {
      refuse(base::ErrorCode::Range, "the flow must be above zero and the pressure not below it", at);
      return;
    }
    // A half that was not changed keeps its standing and source.
    next.*first = value && ((*value).*first).text() == one->text() ? (*value).*first : *one;
    next.*second = value && ((*value).*second).text() == two->text() ? (*value).*second : *two;
    value = std::move(next);
    outcome = base::Result<void>{};
  }
  void leaf(std::optional<shop::RatedPoint>& value, const At& at) {
    pair(value, at, &shop::RatedPoint::flow, &shop::RatedPoint::suction);
  }
  void leaf(std::optional<shop::FilterPoint>& value, const At& at) {
    pair(value, at, &shop::FilterPoint::flow, &shop::FilterPoint::loss);
  }

  /// A part that is there or not: a hose, an own elbow, another size from here on.
  template <files::Tabled S>
  void leaf(std::optional<S>& value, const At& at) {
    // A blower has as many rows as a collector: they stand under a heading of their own.
    const std::string group =
        std::is_same_v<S, shop::Blower> ? headingOfPart(files::Table<S>::kNoun) : at.group;
    if (listing()) {
      rows.push_back(row(at, RowEditor::YesNo));
      rows.back().value = value ? "yes" : "no";
      if (value) {
        fields(*value, at.path, group);
      }
      return;
    }
    if (hit(at.path)) {
      if (text != "yes" && text != "no") {
        refuse(base::ErrorCode::Parse, fmt::format("\"{}\" is neither yes nor no", text), at);
        return;
      }
      if (text == "no") {
        value.reset();
      } else if (!value) {
        value = fresh<S>();
      }
      outcome = base::Result<void>{};
    } else if (value) {
      fields(*value, at.path, group);
    }
  }
  template <files::Tabled S>
    requires(!std::is_same_v<S, shop::PortRef>)
  void leaf(S& value, const At& at) {
    const std::string heading = headingOfPart(files::Table<S>::kNoun);
    fields(value, at.path, at.group.empty() ? heading : fmt::format("{}: {}", at.group, heading));
  }

  /// Ports, separators, filters, policies.
  template <files::Tabled S>
  void leaf(std::vector<S>& list, const At& at) {
    const std::string noun = nameOfPart(files::Table<S>::kNoun);
    std::string last = headingOfPart(files::Table<S>::kNoun);
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string path = fmt::format("{}/{}", at.path, i);
      std::string group = noun;
      if constexpr (requires { list[i].label; }) {
        group = fmt::format("{} {}", noun, list[i].label.empty() ? std::to_string(i + 1) : list[i].label);
      } else {
        group = fmt::format("{} {}", noun, i + 1);
      }
      last = group;
      fields(list[i], path, group);
      const std::string remove = path + "/remove";
      if (listing()) {
        PropertyRow out = row(at, RowEditor::Remove);
        out.path = remove;
        out.group = group;
        out.name = fmt::format("Take this {} away", noun);
        out.help.clear();
        out.term.clear();
        out.key.clear();
        rows.push_back(std::move(out));
        if (i > 0 && !std::is_same_v<S, shop::Circuit>) {
          rows.push_back(rows.back());
          rows.back().editor = RowEditor::Add;
          rows.back().path = path + "/earlier";
          rows.back().name = fmt::format("Put this {} before the one above", noun);
        }
      } else if (hit(remove)) {
        list.erase(list.begin() + static_cast<std::ptrdiff_t>(i));
        outcome = base::Result<void>{};
        return;
      } else if (hit(path + "/earlier") && i > 0) {
        std::swap(list[i - 1], list[i]);
        outcome = base::Result<void>{};
        return;
      }
    }
    const std::string add = at.path + "/add";
    if (listing()) {
      rows.push_back(row(at, RowEditor::Add));
      rows.back().path = add;
      rows.back().group = last;
      rows.back().name = fmt::format("Put in a {}", noun);
    } else if (hit(add)) {
      list.push_back(freshIn(list));
      outcome = base::Result<void>{};
    }
  }

  /// A fan's curve: a point in each line, "flow, pressure" or "flow, pressure, power".
  void leaf(std::vector<shop::CurvePoint>& list, const At& at);
  /// Woods.
  void leaf(std::vector<std::string>& list, const At& at);
  /// Policies are shown as a choice for each subject.
  void leaf(std::vector<shop::Policy>& list, const At& at);

  template <class T>
  void leaf(T& /*value*/, const At& /*at*/) {}  // what has its own place elsewhere

  template <files::Tabled S>
  S fresh() {
    S out{};
    if constexpr (requires { out.id; }) {
      out.id = ids_->next();
    }
    if constexpr (std::is_same_v<S, shop::Leg>) {
      out = inherited;
    }
    if constexpr (std::is_same_v<S, shop::Blower>) {
      out.label = "B1";
      out.rating.free_air_flow = base::Given<base::VolumeFlow>::parse("500 m3/h").value();
      out.rating.greatest_suction = base::Given<base::Pressure>::parse("1000 Pa").value();
    }
    return out;
  }
  template <files::Tabled S>
  S freshIn(const std::vector<S>& list) {
    S out = fresh<S>();
    if constexpr (requires { out.label; }) {
      const std::string_view prefix = files::Table<S>::kNoun == "port"      ? "P"
                                      : files::Table<S>::kNoun == "filter"  ? "F"
                                      : files::Table<S>::kNoun == "circuit" ? "K"
                                                                            : "S";
      for (std::size_t n = 1;; ++n) {
        out.label = fmt::format("{}{}", prefix, n);
        if (std::none_of(list.begin(), list.end(), [&](const S& each) { return each.label == out.label; })) {
          break;
        }
      }
    }
    if constexpr (std::is_same_v<S, shop::Circuit>) {
      out.voltage = *base::Given<base::Voltage>::parse(
          project_.setting.units == base::UnitSystem::Us ? "120 V" : "230 V");
    }
    if constexpr (std::is_same_v<S, shop::Port>) {
      if (!list.empty()) {
        out.at = list.back().at;
        out.bore = list.back().bore;
      } else {
        out.at = middle;
        out.bore = *base::Given<base::Length>::parse(
            project_.setting.units == base::UnitSystem::Us ? "4 in" : "100 mm");
      }
    }
    return out;
  }

  /// Rows of a table of the catalogue as choices, with words before each name.
  void keysOf(std::string_view table, PropertyRow& row, std::string_view before = {}) const;

 public:
  shop::Leg inherited;  ///< what "another size from here on" begins with
  shop::Point middle;   ///< where a machine's first port is put

 private:
  const shop::Project& project_;
  const catalogue::Catalogue& catalogue_;
  base::IdSource* ids_;
};

}  // namespace kerfdraft::desk
