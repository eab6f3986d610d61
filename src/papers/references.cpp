// Reads the few fields that a line needs out of the entries: "  name = {text}," each on a line of its own.
#include "papers/references.h"

#include <fmt/format.h>

#include <cctype>

#include "papers/embedded_references.h"

namespace kerfdraft::papers {
namespace {

/// The text of an entry, from its key to the closing brace on a line of its own.
std::string_view entry(std::string_view key) {
  if (key.empty()) {
    return {};
  }
  const std::string_view all = embeddedFiles().front().text;
  const std::string head = fmt::format("{{{},\n", key);
  const std::size_t at = all.find(head);
  if (at == std::string_view::npos) {
    return {};
  }
  const std::size_t end = all.find("\n}", at);
  return all.substr(at, end == std::string_view::npos ? end : end - at);
}

/// A field without the braces that keep letters as they are.
std::string field(std::string_view of, std::string_view name) {
  const std::string head = fmt::format("\n  {} = {{", name);
  const std::size_t at = of.find(head);
  if (at == std::string_view::npos) {
    return {};
  }
  std::string out;
  int depth = 1;
  for (std::size_t i = at + head.size(); i < of.size(); ++i) {
    depth += of[i] == '{' ? 1 : of[i] == '}' ? -1 : 0;
    if (depth == 0) {
      break;
    }
    if (of[i] != '{' && of[i] != '}') {
      out += of[i] == '\n' ? ' ' : of[i];
    }
  }
  return out;
}

}  // namespace

std::optional<std::string> referenceText(std::string_view key) {
  const std::string_view of = entry(key);
  if (of.empty()) {
    return std::nullopt;
  }
  std::string out;
  const auto add = [&](const std::string& text, const char* between) {
    if (!text.empty()) {
      out += (out.empty() ? "" : between) + text;
    }
  };
  std::string author = field(of, "author");
  for (std::size_t at = author.find(" and "); at != std::string::npos; at = author.find(" and ", at)) {
    author.replace(at, 5, "; ");
  }
  add(author, "");
  add(field(of, "title"), ": ");
  add(field(of, "year"), ", ");
  const std::string note = field(of, "note");
  return note.empty() ? out + "." : out + ". Read: " + note + ".";
}

std::string referenceKey(std::string_view source) {
  std::size_t end = 0;
  while (end < source.size() && std::isalnum(static_cast<unsigned char>(source[end])) != 0) {
    ++end;
  }
  const std::string_view key = source.substr(0, end);
  return entry(key).empty() ? std::string() : std::string(key);
}

}  // namespace kerfdraft::papers
