// All field tables, and that of the whole project.
#pragma once

#include "files/fields_collectors.h"
#include "files/fields_ducts.h"
#include "files/fields_machines.h"
#include "files/fields_setting.h"

namespace kerfdraft::files {

/// The newest format that is read, and the one that is written.
inline constexpr int kFormat = 1;

template <>
struct Table<shop::Circuit> {
  static constexpr std::string_view kNoun = "circuit";
  static constexpr std::string_view kDoc = "An electric circuit of the shop: what shares it trips together.";
  static constexpr auto kFields = std::make_tuple(
      required("id", &shop::Circuit::id, "Its id."),
      required("label", &shop::Circuit::label, "Printed label: \"K1\".", TextRule::Label),
      required("voltage", &shop::Circuit::voltage, "Its voltage.", Range{"50 V", "1000 V"}),
      optional("breaker", &shop::Circuit::breaker, "Rated current of its breaker.", Range{"1 A", "1000 A"}),
      optional("three-phase", &shop::Circuit::three_phase, "It has three phases."));
};

template <>
struct Table<shop::Acceptance> {
  static constexpr std::string_view kNoun = "acceptance";
  static constexpr std::string_view kDoc =
      "A finding that a person lives with. It returns when it has grown worse by a tenth.";
  static constexpr auto kFields = std::make_tuple(
      required("rule", &shop::Acceptance::rule, "Key of the rule.", TextRule::Key),
      optional("about", &shop::Acceptance::about, "What the finding is about: \"run:…\".", TextRule::About),
      optional("state", &shop::Acceptance::state, "Id of the state of use; without one, of the drawing."),
      required("badness", &shop::Acceptance::badness, "How bad it was when it was accepted.",
               Range{"0", "1000000"}),
      required("reason", &shop::Acceptance::reason, "Why it is accepted.", TextRule::Note),
      optional("on", &shop::Acceptance::on, "Date."));
};

/// `format` and `extensions` stand around these and are handled by the reader and writer themselves.
template <>
struct Table<shop::Project> {
  static constexpr std::string_view kNoun = "project";
  static constexpr std::string_view kDoc = "A whole project. Results are never stored in it.";
  static constexpr auto kFields =
      std::make_tuple(required("setting", &shop::Project::setting, "Whose shop it is."),
                      required("air", &shop::Project::air, "The air of the day."),
                      shown("rooms", &shop::Project::rooms, "The rooms."),
                      shown("machines", &shop::Project::machines, "The machines."),
                      shown("ducts", &shop::Project::ducts, "The ducts."),
                      shown("collectors", &shop::Project::collectors, "The collectors and boosters."),
                      shown("states", &shop::Project::states, "The states of use."),
                      optional("circuits", &shop::Project::circuits, "The electric circuits."),
                      optional("accepted", &shop::Project::accepted, "Findings that are lived with."),
                      optional("underlay", &shop::Project::underlay, "What lies under the plan."));
};

inline constexpr std::string_view kFormatDoc = "Version of the format; this page tells of 1.";
inline constexpr std::string_view kExtensionsDoc =
    "An object with what other programs keep here. It is written back as it was.";

}  // namespace kerfdraft::files
