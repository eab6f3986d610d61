// Whatever a thing of the project says, as rows that can be read and changed. The rows come from the field
// tables of the project format, so that no field is forgotten. Without Qt.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/given.h"
#include "base/result.h"
#include "catalogue/catalogue.h"
#include "desk/models/change.h"
#include "desk/models/places.h"
#include "shop/project.h"

namespace kerfdraft::desk {

enum class RowEditor {
  Text,      ///< one line
  Lines,     ///< several lines: a note, a curve with a point in each line
  Quantity,  ///< with a unit, and a standing and source
  Choice,    ///< one of `choices`
  Several,   ///< any of `choices`; the value is their keys with ", " between them
  YesNo,     ///< "yes" or "no"
  Fixed,     ///< only to read
  Add,       ///< a button that puts a part in
  Remove     ///< a button that takes a part away
};

struct PropertyRow {
  std::string path;   ///< "ports/0/bore": what changeProperty() takes
  std::string group;  ///< heading that it stands under: "Port P1"; empty: of the thing itself
  std::string name;   ///< "inlet bore"
  std::string help;   ///< what it is and what is taken where it is empty
  std::string term;   ///< word of the glossary that explains it further; empty: none
  std::string key;    ///< its key in the project file; empty where it has none of its own
  RowEditor editor = RowEditor::Text;
  std::string value;                                           ///< as entered; a choice's key
  bool optional = true;                                        ///< may be empty
  std::string example;                                         ///< of a quantity: "100 mm"
  std::vector<std::pair<std::string, std::string>> choices{};  ///< key and words
  bool keys_in_file = false;                 ///< the keys of the choices are words of the file
  std::optional<base::Standing> standing{};  ///< of an entered quantity
  std::string source{};
};

/// What stands under the pointer over a row.
std::string tooltipOf(const PropertyRow& row);

/// What a panel is about.
struct PropertyForm {
  std::string title;  ///< "Machine T1"
  std::string doc;    ///< what such a thing is
  std::vector<PropertyRow> rows;
};

/// Of a thing; of the shop itself (setting and air of the day) where there is none. Nothing where the thing
/// is gone.
std::optional<PropertyForm> formOf(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   const std::optional<Thing>& thing);
/// Of several things of one kind: the rows that all have, with their value where it is the same and empty
/// where it differs. Nothing where they are of several kinds.
std::optional<PropertyForm> formOf(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   const std::vector<Thing>& things);
/// Of a state of use: name, filter, doors, what stands.
std::optional<PropertyForm> formOfState(const shop::Project& project, base::Id state);

/// The edit that gives a row this value; for Add and Remove the text does not matter. A path with "#standing"
/// or "#source" behind it changes those. Refused with a sentence: a path that is not there, a text that the
/// field does not take.
base::Result<Change> changeProperty(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                    const std::optional<Thing>& thing, std::string_view path,
                                    std::string_view text, base::IdSource& ids);
/// The same for several things as one chain.
base::Result<Change> changeProperty(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                    const std::vector<Thing>& things, std::string_view path,
                                    std::string_view text, base::IdSource& ids);
base::Result<Change> changeStateProperty(const shop::Project& project, base::Id state, std::string_view path,
                                         std::string_view text);

}  // namespace kerfdraft::desk
