// Walks the field tables over a JSON tree. Nothing is guessed: a key that no table knows, a value of another
// type or outside its range is a problem told with its place.
#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <optional>

#include "catalogue/near_keys.h"
#include "files/coordinates.h"
#include "files/json.h"
#include "files/migrations.h"
#include "files/project_fields.h"
#include "files/project_file.h"
#include "files/quantity_text.h"
#include "files/text_rule.h"
#include "shop/invariants.h"

namespace kerfdraft::files {
namespace {

using base::ErrorCode;

class Reader {
 public:
  explicit Reader(std::string_view name) : file_(name) {}

  std::vector<base::Error> takeProblems() { return std::move(problems_); }
  bool clean() const { return problems_.empty(); }

  /// Fields of one object, without its `format` and `extensions` where it is the whole project.
  template <Tabled S>
  void read(const Json& json, S& out, const FieldInfo& /*info*/) {
    if (!expect(json, Json::Type::Object, Table<S>::kNoun)) {
      return;
    }
    const std::size_t outer_names = names_.size();
    pushName<S>(json);
    forEachField<S>([&](const auto& field) { readField<S>(json, out, field); });
    refuseUnknownKeys<S>(json);
    names_.resize(outer_names);
  }

  template <Worded E>
  void read(const Json& json, E& out, const FieldInfo& /*info*/) {
    if (!expect(json, Json::Type::Text, Words<E>::kNoun)) {
      return;
    }
    std::vector<std::string> known;
    for (const Word<E>& word : Words<E>::kWords) {
      if (word.text == json.text) {
        out = word.value;
        return;
      }
      known.emplace_back(word.text);
    }
    problem(ErrorCode::Parse, fmt::format("{} is not a word of {}{}", asQuoted(json.text), Words<E>::kNoun,
                                          catalogue::nearKeysSentence(json.text, known)));
  }

  template <IsGiven G>
  void read(const Json& json, G& out, const FieldInfo& info) {
    using Quantity = typename GivenTraits<G>::Quantity;
    base::Standing standing = base::Standing::Assumed;
    std::string source;
    const Json* text = &json;
    if (json.type == Json::Type::Object) {
      text = json.find("value");
      if (text == nullptr) {
        problem(ErrorCode::Parse, "an entered quantity needs a \"value\"");
        return;
      }
      for (std::size_t i = 0; i < json.items.size(); ++i) {
        Step step(*this, pointerStep(json.keys[i]));
        if (json.keys[i] == "standing") {
          read(json.items[i], standing, {});
        } else if (json.keys[i] == "source") {
          read(json.items[i], source, {});
        } else if (json.keys[i] != "value") {
          refuseKey(json.keys[i], "an entered quantity", {"value", "standing", "source"});
        }
      }
    }
    std::optional<Step> step;
    if (text != &json) {
      step.emplace(*this, "/value");
    }
    if (text->type != Json::Type::Text) {
      problem(
          ErrorCode::Parse,
          fmt::format("a {} is written as a text with its unit, like \"{}\", but here is {}{}",
                      base::kindName(Quantity::kKind), exampleOf(Quantity::kKind, info.limits.range),
                      kindOf(*text), text->type == Json::Type::Number ? " " + text->text.substr(0, 40) : ""));
      return;
    }
    const base::Result<double> si = parseWithin(Quantity::kKind, text->text, info.limits.range, {});
    if (!si) {
      problem(si.error().code, si.error().message);
      return;
    }
    out = *G::parse(text->text, standing, std::move(source));
  }

  void read(const Json& json, std::string& out, const FieldInfo& info) {
    if (!expect(json, Json::Type::Text, textRuleWords(info.limits.text))) {
      return;
    }
    if (std::string wrong = textProblem(json.text, info.limits.text); !wrong.empty()) {
      problem(ErrorCode::Parse, std::move(wrong));
      return;
    }
    out = json.text;
  }

  void read(const Json& json, bool& out, const FieldInfo& /*info*/) {
    if (expect(json, Json::Type::Bool, "true or false")) {
      out = json.truth;
    }
  }

  void read(const Json& json, base::Id& out, const FieldInfo& /*info*/) {
    if (!expect(json, Json::Type::Text, "id")) {
      return;
    }
    if (const base::Result<base::Id> id = base::Id::parse(json.text)) {
      out = *id;
    } else {
      problem(ErrorCode::Parse,
              fmt::format("{} is not an id: 1 to 16 hex digits, not all zero", asQuoted(json.text)));
    }
  }

  void read(const Json& json, shop::Point& out, const FieldInfo& /*info*/) {
    readCoordinates(json, {&out.x_um, &out.y_um, &out.z_um}, "point");
  }

  void read(const Json& json, shop::PlanPoint& out, const FieldInfo& /*info*/) {
    readCoordinates(json, {&out.x_um, &out.y_um}, "point on the plan");
  }

  template <IsOptional O>
  void read(const Json& json, O& out, const FieldInfo& info) {
    typename OptionalTraits<O>::Value value{};
    read(json, value, info);
    out = std::move(value);
  }

  template <IsList L>
  void read(const Json& json, L& out, const FieldInfo& info) {
    if (!expect(json, Json::Type::Array, "list")) {
      return;
    }
    if (json.items.size() < info.limits.least_items) {
      problem(ErrorCode::Range, fmt::format("the list has {} entries; it needs at least {}",
                                            json.items.size(), info.limits.least_items));
    }
    out.reserve(json.items.size());
    for (std::size_t i = 0; i < json.items.size() && !full(); ++i) {
      Step step(*this, fmt::format("/{}", i));
      typename ListTraits<L>::Item item{};
      read(json.items[i], item, info);
      out.push_back(std::move(item));
    }
  }

  void read(const Json& json, shop::OpenEnd& /*out*/, const FieldInfo& /*info*/) {
    if (json.type != Json::Type::Bool || !json.truth) {
      problem(ErrorCode::Parse, "an open end is written {\"open\": true}");
    }
  }
  void read(const Json& json, shop::CollectorInlet& out, const FieldInfo& info) {
    read(json, out.collector, info);
  }
  void read(const Json& json, shop::CollectorOutlet& out, const FieldInfo& info) {
    read(json, out.collector, info);
  }
  void read(const Json& json, shop::MovedEnd& out, const FieldInfo& /*info*/) {
    read(json, out.places, FieldInfo{{}, {}, Need::Required, Limits::atLeast(1)});
  }

  template <class... Ends>
  void read(const Json& json, std::variant<Ends...>& out, const FieldInfo& info) {
    if (!expect(json, Json::Type::Object, "duct end")) {
      return;
    }
    const std::vector<std::string> known{std::string(EndForm<Ends>::kKey)...};
    if (json.keys.size() != 1) {
      problem(ErrorCode::Parse,
              fmt::format("a duct end is an object with one of the keys {}", fmt::join(known, ", ")));
      return;
    }
    Step step(*this, pointerStep(json.keys[0]));
    if (!(readEnd<Ends>(json, out, info) || ...)) {
      refuseKey(json.keys[0], "a duct end", known);
    }
  }

  void problem(ErrorCode code, std::string message) {
    if (full()) {
      return;
    }
    std::string where = fmt::format("{}: {}", file_, path_.empty() ? "/" : path_);
    if (!names_.empty()) {
      where += fmt::format(" ({})", fmt::join(names_, ", "));
    }
    problems_.push_back({code, std::move(message), std::move(where)});
  }

  bool full() const { return problems_.size() >= kMostProblems; }

 private:
  /// One step down the tree, for as long as it lives.
  class Step {
   public:
    Step(Reader& reader, std::string_view step) : reader_(reader), length_(reader.path_.size()) {
      reader.path_ += step;
    }
    ~Step() { reader_.path_.resize(length_); }
    Step(const Step&) = delete;
    Step& operator=(const Step&) = delete;

   private:
    Reader& reader_;
    std::size_t length_;
  };

  bool expect(const Json& json, Json::Type type, std::string_view what) {
    if (json.type == type) {
      return true;
    }
    Json wanted;
    wanted.type = type;
    const bool same = what == "text" || type == Json::Type::Bool || type == Json::Type::Array;
    problem(ErrorCode::Parse,
            same ? fmt::format("here must be {}, not {}", kindOf(wanted), kindOf(json))
                 : fmt::format("here must be {} ({}), not {}", kindOf(wanted), what, kindOf(json)));
    return false;
  }

  template <Tabled S, class M>
  void readField(const Json& json, S& out, const Field<S, M>& field) {
    if (full()) {
      return;
    }
    const Json* item = json.find(field.info.key);
    if (item != nullptr) {
      Step step(*this, pointerStep(field.info.key));
      read(*item, out.*field.member, field.info);
    } else if (field.info.need == Need::Required) {
      problem(ErrorCode::Parse, fmt::format("the {} has no \"{}\"", Table<S>::kNoun, field.info.key));
    }
  }

  template <class End, class Variant>
  bool readEnd(const Json& json, Variant& out, const FieldInfo& info) {
    if (json.keys[0] != EndForm<End>::kKey) {
      return false;
    }
    End end{};
    read(json.items[0], end, info);
    out = std::move(end);
    return true;
  }

  template <Tabled S>
  void pushName(const Json& json) {
    bool labelled = std::is_same_v<S, shop::State>;
    forEachField<S>([&](const auto& field) { labelled = labelled || field.info.key == "label"; });
    if (!labelled) {
      return;
    }
    const Json* label = json.find(std::is_same_v<S, shop::State> ? "name" : "label");
    if (label != nullptr && label->type == Json::Type::Text) {
      const std::string text = asQuoted(label->text);
      names_.push_back(
          fmt::format("{} {}", Table<S>::kNoun, std::string_view(text).substr(1, text.size() - 2)));
    }
  }

  template <Tabled S>
  void refuseUnknownKeys(const Json& json) {
    std::vector<std::string> known;
    forEachField<S>([&](const auto& field) { known.emplace_back(field.info.key); });
    if (std::is_same_v<S, shop::Project>) {
      known.insert(known.end(), {"format", "extensions"});
    }
    for (const std::string& key : json.keys) {
      if (full()) {
        return;
      }
      if (std::find(known.begin(), known.end(), key) == known.end()) {
        Step step(*this, pointerStep(key));
        const bool vowel = std::string_view("aeiou").find(Table<S>::kNoun.front()) != std::string_view::npos;
        refuseKey(key, fmt::format("{} {}", vowel ? "an" : "a", Table<S>::kNoun), known);
      }
    }
  }

  void refuseKey(std::string_view key, std::string_view of, const std::vector<std::string>& known) {
    problem(ErrorCode::Parse, fmt::format("{} is not a key of {}{}", asQuoted(key), of,
                                          catalogue::nearKeysSentence(key, known)));
  }

  static std::string exampleOf(base::Kind kind, const Range& range) {
    return range.greatest.empty() ? fmt::format("10 {}", base::unitTexts(kind).front())
                                  : std::string(range.greatest);
  }

  void readCoordinates(const Json& json, std::initializer_list<std::int64_t*> out, std::string_view what) {
    if (json.type != Json::Type::Array || json.items.size() != out.size()) {
      problem(ErrorCode::Parse,
              fmt::format("a {} is a list of {} lengths, like [{}], not {}{}", what, out.size(),
                          out.size() == 2 ? R"("3 ft", "4 ft")" : R"("3 ft", "4 ft", "7 ft")", kindOf(json),
                          json.type == Json::Type::Array ? fmt::format(" of {}", json.items.size()) : ""));
      return;
    }
    std::size_t i = 0;
    for (std::int64_t* each : out) {
      const Json& item = json.items[i];
      Step step(*this, fmt::format("/{}", i));
      ++i;
      if (item.type != Json::Type::Text) {
        problem(
            ErrorCode::Parse,
            fmt::format("a length is written as a text with its unit, like \"3 ft\", but here is {}{}",
                        kindOf(item), item.type == Json::Type::Number ? " " + item.text.substr(0, 40) : ""));
        continue;
      }
      const base::Result<std::int64_t> um = parseCoordinate(item.text);
      if (um) {
        *each = *um;
      } else {
        problem(um.error().code, um.error().message);
      }
    }
  }

  std::string file_;
  std::string path_;
  std::vector<std::string> names_;
  std::vector<base::Error> problems_;
};

}  // namespace

ReadProject readProject(std::string_view text, std::string_view name) {
  base::Result<Json> root = parseJson(text, name);
  if (!root) {
    return tl::unexpected(std::vector{root.error()});
  }
  if (const base::Result<void> migrated = migrate(*root, migrationSteps(), kFormat, name); !migrated) {
    return tl::unexpected(std::vector{migrated.error()});
  }
  Reader reader(name);
  shop::Project project;
  reader.read(*root, project, FieldInfo{});
  if (const Json* extensions = root->find("extensions"); extensions != nullptr) {
    if (extensions->type == Json::Type::Object) {
      project.extensions = extensions->items.empty() ? std::string() : compactJson(*extensions);
    } else {
      reader.problem(ErrorCode::Parse,
                     fmt::format("\"extensions\" must be an object, not {}", kindOf(*extensions)));
    }
  }
  if (!reader.clean()) {
    return tl::unexpected(reader.takeProblems());
  }
  std::vector<base::Error> problems = shop::checkProject(project);
  if (!problems.empty()) {
    problems.resize(std::min(problems.size(), kMostProblems));
    for (base::Error& problem : problems) {
      problem.where = fmt::format("{}: {}", name, problem.where);
    }
    return tl::unexpected(std::move(problems));
  }
  return project;
}

base::Result<shop::Project> firstProblemOnly(ReadProject read) {
  if (read) {
    return std::move(*read);
  }
  base::check(!read.error().empty(), "a project was refused without a problem");
  return base::Failure(read.error().front());
}

}  // namespace kerfdraft::files
