// The tables of docs/format.md, built from the field tables.
#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/units.h"
#include "files/describe.h"
#include "files/project_fields.h"
#include "files/text_rule.h"

namespace kerfdraft::files {
namespace {

std::string link(std::string_view noun) {
  return fmt::format("[{}](#{})", noun, noun);
}

std::string unitLink(base::Kind kind) {
  return fmt::format("[{}](#units)", base::kindName(kind));
}

/// Walks from the project down; each object and each list of words gets one section, in the order of first
/// use.
class PageBuilder {
 public:
  std::string build() {
    object<shop::Project>();
    std::string page = fmt::format("## Objects\n\n{}## Words\n\n", objects_);
    page += words_;
    page += "## Units\n\nThe first unit of a kind in each system is the one in which values are shown.\n\n";
    page += "| kind | units |\n| --- | --- |\n";
    for (const base::Kind kind : kinds_) {
      std::string units;
      for (const std::string& unit : base::unitTexts(kind)) {
        units += fmt::format("{}{}", units.empty() ? "" : ", ", unit.empty() ? "none" : "`" + unit + "`");
      }
      page += fmt::format("| {} | {} |\n", base::kindName(kind), units);
    }
    return page;
  }

 private:
  template <Tabled S>
  void object() {
    if (!firstTime(Table<S>::kNoun)) {
      return;
    }
    std::string section =
        fmt::format("### {}\n\n{}\n\n| key | is | needed | what |\n| --- | --- | --- | --- |\n",
                    Table<S>::kNoun, Table<S>::kDoc);
    if constexpr (std::is_same_v<S, shop::Project>) {
      section += fmt::format("| `format` | `{}` | yes | {} |\n", kFormat, kFormatDoc);
    }
    const S usual{};
    forEachField<S>([&](const auto& field) {
      std::string is = words(usual.*field.member, field.info);
      if (const Range& range = field.info.limits.range; !range.least.empty()) {
        is += fmt::format(", {} to {}", range.least, range.greatest);
      }
      section += fmt::format("| `{}` | {} | {} | {} |\n", field.info.key, is,
                             needed(usual.*field.member, field.info.need), field.info.doc);
    });
    if constexpr (std::is_same_v<S, shop::Project>) {
      section += fmt::format("| `extensions` | object | no | {} |\n", kExtensionsDoc);
    }
    objects_ += section + "\n";
    forEachField<S>([&](const auto& field) { descend(usual.*field.member); });
  }

  template <class T>
  static std::string needed(const T& usual, Need need) {
    if (need == Need::Required) {
      return "yes";
    }
    if constexpr (std::is_same_v<T, bool>) {
      return fmt::format("no, `{}`", usual);
    } else if constexpr (Worded<T>) {
      return fmt::format("no, `{}`", wordOf(usual));
    } else {
      return "no";
    }
  }

  template <class T>
  void descend(const T& value) {
    if constexpr (Tabled<T>) {
      object<T>();
    } else if constexpr (IsOptional<T>) {
      descend(typename OptionalTraits<T>::Value{});
    } else if constexpr (IsList<T>) {
      descend(typename ListTraits<T>::Item{});
    } else if constexpr (std::is_same_v<T, shop::DuctEnd>) {
      ductEnd(value);
    }
  }

  template <class... Ends>
  void ductEnd(const std::variant<Ends...>& /*end*/) {
    if (!firstTime("duct-end")) {
      return;
    }
    objects_ +=
        "### duct-end\n\nWhat is at an end of a duct: an object with exactly one of these keys.\n\n| key | "
        "is | what "
        "|\n| --- | --- | --- |\n";
    ((objects_ +=
      fmt::format("| `{}` | {} | {} |\n", EndForm<Ends>::kKey, endWords(Ends{}), EndForm<Ends>::kDoc)),
     ...);
    objects_ += "\n";
    (descend(Ends{}), ...);
  }

  template <class End>
  std::string endWords(const End& /*end*/) {
    if constexpr (Tabled<End>) {
      return link(Table<End>::kNoun);
    } else if constexpr (std::is_same_v<End, shop::OpenEnd>) {
      return "`true`";
    } else if constexpr (std::is_same_v<End, shop::MovedEnd>) {
      return fmt::format("list of {}", link(Table<shop::PortRef>::kNoun));
    } else {
      return "id";
    }
  }

  template <class T>
  std::string words(const T& /*usual*/, const FieldInfo& info) {
    if constexpr (Tabled<T>) {
      return link(Table<T>::kNoun);
    } else if constexpr (Worded<T>) {
      wordSection<T>();
      return link(Words<T>::kNoun);
    } else if constexpr (IsGiven<T>) {
      wordSection<base::Standing>();
      constexpr base::Kind kKind = GivenTraits<T>::Quantity::kKind;
      if (std::find(kinds_.begin(), kinds_.end(), kKind) == kinds_.end()) {
        kinds_.push_back(kKind);
      }
      return unitLink(kKind);
    } else if constexpr (IsOptional<T>) {
      return words(typename OptionalTraits<T>::Value{}, info);
    } else if constexpr (IsList<T>) {
      const std::string item = words(typename ListTraits<T>::Item{}, info);
      return info.limits.least_items == 0
                 ? fmt::format("list of {}", item)
                 : fmt::format("list of {}, at least {}", item, info.limits.least_items);
    } else if constexpr (std::is_same_v<T, std::string>) {
      return std::string(textRuleWords(info.limits.text));
    } else if constexpr (std::is_same_v<T, bool>) {
      return "`true` or `false`";
    } else if constexpr (std::is_same_v<T, base::Id>) {
      return "id";
    } else if constexpr (std::is_same_v<T, shop::Point>) {
      return "point";
    } else if constexpr (std::is_same_v<T, shop::PlanPoint>) {
      return "plan point";
    } else {
      static_assert(std::is_same_v<T, shop::DuctEnd>);
      return link("duct-end");
    }
  }

  template <Worded E>
  void wordSection() {
    if (!firstTime(Words<E>::kNoun)) {
      return;
    }
    words_ += fmt::format("### {}\n\n| word | means |\n| --- | --- |\n", Words<E>::kNoun);
    for (const Word<E>& word : Words<E>::kWords) {
      words_ += fmt::format("| `{}` | {} |\n", word.text, word.doc);
    }
    words_ += "\n";
  }

  /// True the first time.
  bool firstTime(std::string_view noun) {
    if (std::find(seen_.begin(), seen_.end(), noun) != seen_.end()) {
      return false;
    }
    seen_.push_back(noun);
    return true;
  }

  std::vector<std::string_view> seen_;
  std::vector<base::Kind> kinds_;
  std::string objects_;
  std::string words_;
};

}  // namespace

std::string formatTables() {
  return PageBuilder().build();
}

std::string withFormatTables(std::string_view page) {
  const std::size_t begin = page.find(kTablesBegin);
  const std::size_t end = page.find(kTablesEnd);
  if (begin == std::string_view::npos || end == std::string_view::npos || end < begin) {
    return {};
  }
  std::string out(page.substr(0, begin + kTablesBegin.size()));
  out += formatTables();
  out += page.substr(end);
  return out;
}

}  // namespace kerfdraft::files
