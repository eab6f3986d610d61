// How a command says what it can be told, without knowing the parser: names, types, help. options.cpp makes
// the parser's options of it.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "cli/common.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the parser's own
class App;
class Option;
}  // namespace CLI

namespace kerfdraft::cli {

class OptionList {
 public:
  using Target =
      std::variant<std::string*, std::vector<std::string>*, int*, unsigned*, std::uint64_t*, double*>;

  explicit OptionList(CLI::App& command) : command_(command) {}

  /// What is told by its place ("project"), or behind its name ("--state"). `type` stands for the value in
  /// the help: FILE, NAME, TEXT …
  void option(const char* name, const char* type, Target target, const std::string& help);
  /// The same, and the command does not run without it.
  void required(const char* name, const char* type, Target target, const std::string& help);

  void flag(const char* name, bool& target, const std::string& help);
  /// A flag that does something else than being true.
  void flag(const char* name, std::function<void()> given, const std::string& help);

  /// One of a few words.
  template <class Target, class Value>
  void word(const char* name, const char* type, Target& target,
            std::vector<std::pair<std::string, Value>> words, const std::string& help) {
    std::vector<std::string> allowed;
    allowed.reserve(words.size());
    for (const auto& [word, value] : words) {
      allowed.push_back(word);
    }
    chosen(
        name, type, allowed,
        [&target, words = std::move(words)](const std::string& given) {
          for (const auto& [word, value] : words) {
            if (word == given) {
              target = value;
            }
          }
        },
        help);
  }

  /// Two that exclude each other, and one that means nothing without the other.
  void notTogether(const char* name, const char* other);
  void needs(const char* name, const char* other);

  /// What follows stands under this heading in the help; nullptr ends it.
  void heading(const char* title) { heading_ = title; }

  /// --units, --date and --output mean the same everywhere.
  void common(Common& common);
  void units(Common& common);
  void date(Common& common);
  void output(Common& common);

  /// What stands below the options: exit codes, examples.
  void footer(const std::string& text);

 private:
  CLI::Option* add(const char* name, const char* type, Target target, const std::string& help);
  void chosen(const char* name, const char* type, const std::vector<std::string>& allowed,
              const std::function<void(const std::string&)>& take, const std::string& help);

  CLI::App& command_;
  const char* heading_ = nullptr;
};

}  // namespace kerfdraft::cli
