// What the field tables say about the format, for machines and for people.
#pragma once

#include <string>
#include <string_view>

namespace kerfdraft::files {

/// JSON Schema (draft 2020-12) of a project file. It takes every file that readProject takes; ranges of
/// quantities and what must hold between entries are beyond it.
std::string projectSchema();

/// The tables of docs/format.md in Markdown: every object with its keys, every list of words, every unit.
std::string formatTables();

/// `page` with the text between the two marker lines replaced by formatTables(); empty where the markers are
/// missing.
std::string withFormatTables(std::string_view page);

inline constexpr std::string_view kTablesBegin = "<!-- made from the field tables: begin -->\n";
inline constexpr std::string_view kTablesEnd = "<!-- made from the field tables: end -->\n";

}  // namespace kerfdraft::files
