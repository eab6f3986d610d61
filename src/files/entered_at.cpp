// One walk for every struct, by its field table.
#include "files/entered_at.h"

#include <algorithm>
#include <charconv>
#include <cstddef>

#include "files/project_fields.h"

namespace kerfdraft::files {

namespace {

class Walk {
 public:
  std::optional<EnteredAt> found;

  template <class T>
  void visit(const T& value, std::string_view rest) {
    if constexpr (IsOptional<T>) {
      if (value) {
        visit(*value, rest);
      }
    } else if constexpr (IsGiven<T>) {
      if (rest.empty()) {
        here_.text = value.text();
        here_.standing = value.standing();
        here_.source = value.source();
        found = here_;
      }
    } else if constexpr (IsList<T>) {
      std::size_t index = 0;
      const std::string_view word = step(rest);
      const auto [end, problem] = std::from_chars(word.data(), word.data() + word.size(), index);
      if (problem == std::errc{} && end == word.data() + word.size() && index < value.size()) {
        visit(value[index], rest);
      }
    } else if constexpr (Tabled<T>) {
      visitFields(value, rest);
    }
  }

 private:
  /// The first word of a path, taken off it. Explanations write members of C++ with "_" in their names.
  static std::string_view step(std::string_view& rest) {
    if (rest.starts_with('/')) {
      rest.remove_prefix(1);
    }
    const std::size_t end = rest.find('/');
    const std::string_view word = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end);
    return word;
  }

  template <class T>
  void visitFields(const T& value, std::string_view rest) {
    if constexpr (requires { value.label.size(); }) {
      here_.label = std::string(value.label);
    }
    if constexpr (requires { value.id.valid(); }) {
      here_.thing = value.id;
    }
    std::string key(step(rest));
    std::replace(key.begin(), key.end(), '_', '-');
    forEachField<T>([&](const auto& field) {
      if (field.info.key == key) {
        here_.field = key;
        visit(value.*field.member, rest);
      }
    });
  }

  EnteredAt here_;
};

}  // namespace

std::optional<EnteredAt> enteredAt(const shop::Project& project, std::string_view path) {
  Walk walk;
  walk.visit(project, path);
  return walk.found;
}

}  // namespace kerfdraft::files
