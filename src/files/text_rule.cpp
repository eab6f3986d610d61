// The rules of text fields.
#include "files/text_rule.h"

#include <fmt/format.h>

#include <algorithm>

#include "files/json.h"

namespace kerfdraft::files {
namespace {

bool isKeyLetter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.';
}

bool isHex(char c) {
  return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
}

/// A role in small letters, then at most two ids of 16 hex digits, each behind a colon.
bool isAbout(std::string_view text) {
  constexpr std::size_t kDigits = 16;
  const auto role_end =
      std::find_if_not(text.begin(), text.end(), [](char c) { return (c >= 'a' && c <= 'z') || c == '-'; });
  std::string_view ids = text.substr(static_cast<std::size_t>(role_end - text.begin()));
  if (role_end == text.begin() || ids.size() > 2 * (kDigits + 1)) {
    return false;
  }
  while (!ids.empty()) {
    if (ids.size() <= kDigits || ids.front() != ':' ||
        !std::all_of(ids.begin() + 1, ids.begin() + 1 + kDigits, isHex)) {
      return false;
    }
    ids.remove_prefix(kDigits + 1);
  }
  return true;
}

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

std::string textProblem(std::string_view text, TextRule rule) {
  const bool note = rule == TextRule::Note;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if ((byte < 0x20 && !(note && (c == '\n' || c == '\t'))) || byte == 0x7F) {
      return fmt::format("{} holds a control character", asQuoted(text));
    }
  }
  if (const std::size_t length = characters(text); length > textLength(rule)) {
    return fmt::format("{} has {} characters; the most is {}", asQuoted(text), length, textLength(rule));
  }
  switch (rule) {
    case TextRule::Name:
    case TextRule::Note:
      break;
    case TextRule::Label:
      if (text.empty() || text.front() == ' ' || text.back() == ' ') {
        return fmt::format("{} is not a label: it must not be empty, begin or end with a space",
                           asQuoted(text));
      }
      break;
    case TextRule::Key:
      if (text.empty() || !std::all_of(text.begin(), text.end(), isKeyLetter)) {
        return fmt::format(
            "{} is not a catalogue key: lower-case letters, digits, \"-\", \"_\" and \".\" (leave it out for "
            "none)",
            asQuoted(text));
      }
      break;
    case TextRule::Country:
      if (text.size() != 2 ||
          !std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; })) {
        return fmt::format("{} is not a country code: two capital letters (ISO 3166), like \"US\"",
                           asQuoted(text));
      }
      break;
    case TextRule::Path:
      if (text.empty()) {
        return "it is empty (leave it out for none)";
      }
      break;
    case TextRule::About:
      if (!isAbout(text)) {
        return fmt::format(
            "{} is not what a finding is about: a role and at most two ids of 16 hex digits, like "
            "\"elbow:00000000000000a1\" (leave it out for the whole shop)",
            asQuoted(text));
      }
      break;
  }
  return {};
}

std::string_view textPattern(TextRule rule) {
  switch (rule) {
    case TextRule::Name:
      return "^[^\\u0000-\\u001f\\u007f]*$";
    case TextRule::Label:
      return "^[^\\u0000-\\u0020\\u007f]([^\\u0000-\\u001f\\u007f]*[^\\u0000-\\u0020\\u007f])?$";
    case TextRule::Key:
      return "^[a-z0-9._-]+$";
    case TextRule::Country:
      return "^[A-Z]{2}$";
    case TextRule::Path:
      return "^[^\\u0000-\\u001f\\u007f]+$";
    case TextRule::About:
      return "^[a-z-]+(:[0-9a-f]{16}){0,2}$";
    case TextRule::Note:
      break;
  }
  return {};
}

std::size_t textLength(TextRule rule) {
  switch (rule) {
    case TextRule::Name:
      return 200;
    case TextRule::Label:
      return 24;
    case TextRule::Key:
      return 60;
    case TextRule::Note:
      return 20'000;
    case TextRule::Country:
      return 2;
    case TextRule::Path:
      return 1000;
    case TextRule::About:
      return 60;
  }
  return 0;
}

std::string_view textRuleWords(TextRule rule) {
  switch (rule) {
    case TextRule::Name:
      return "text";
    case TextRule::Label:
      return "label";
    case TextRule::Key:
      return "catalogue key";
    case TextRule::Note:
      return "text of several lines";
    case TextRule::Country:
      return "country code";
    case TextRule::Path:
      return "name of one line";
    case TextRule::About:
      return "key of a piece";
  }
  return {};
}

}  // namespace kerfdraft::files
