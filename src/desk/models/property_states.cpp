// What a state of use says: gates, doors, hoses, what runs.
#include <fmt/format.h>

#include <algorithm>

#include "desk/models/property_walk.h"

namespace kerfdraft::desk {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

std::optional<PropertyForm> formOfState(const shop::Project& project, base::Id id) {
  const auto state = std::find_if(project.states.begin(), project.states.end(),
                                  [id](const shop::State& each) { return each.id == id; });
  if (state == project.states.end()) {
    return std::nullopt;
  }
  PropertyForm form;
  form.title = state->name;
  form.doc = std::string(files::Table<shop::State>::kDoc);
  const auto add = [&](std::string path, std::string name, std::string_view key, bool yes) -> PropertyRow& {
    PropertyRow row;
    row.path = std::move(path);
    row.name = std::move(name);
    row.key = std::string(key);
    if (const FieldWords* words = fieldWords(files::Table<shop::State>::kNoun, key)) {
      row.group = std::string(words->name);
      row.help = std::string(words->help);
      row.term = std::string(words->term);
    }
    row.editor = RowEditor::YesNo;
    row.value = yes ? "yes" : "no";
    row.optional = false;
    form.rows.push_back(std::move(row));
    return form.rows.back();
  };
  const auto listed = [](const auto& list, base::Id each) {
    return std::find(list.begin(), list.end(), each) != list.end();
  };
  const auto own = [&](std::string_view key, RowEditor editor, std::string value) -> PropertyRow& {
    PropertyRow& row = add(std::string(key), nameOfField(files::Table<shop::State>::kNoun, key), key, false);
    row.group.clear();
    row.editor = editor;
    row.value = std::move(value);
    return row;
  };
  own("name", RowEditor::Text, state->name);
  PropertyRow& filter = own("filter", RowEditor::Choice, std::string(files::wordOf(state->filter)));
  filter.keys_in_file = true;
  for (const auto& word : files::Words<shop::FilterState>::kWords) {
    filter.choices.emplace_back(word.text, choiceWords(files::Words<shop::FilterState>::kNoun, word.text));
  }
  own("unused", RowEditor::YesNo, state->unused ? "yes" : "no");
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& gate : duct.gates) {
      const auto setting = std::find_if(state->gates.begin(), state->gates.end(),
                                        [&](const shop::GateSetting& each) { return each.gate == gate.id; });
      PropertyRow& row =
          add("gate/" + gate.id.text(), fmt::format("{} in {}", gate.label, duct.label), "gates", false);
      if (!duct.name.empty()) {
        row.help += fmt::format(" {} is: {}.", duct.label, duct.name);
      }
      row.editor = RowEditor::Text;
      row.value = setting == state->gates.end() ? "0" : setting->travel.text();
      row.example = "0.5";
    }
  }
  for (const shop::Room& room : project.rooms) {
    for (const shop::Opening& opening : room.openings) {
      if (opening.kind == shop::OpeningKind::Door || opening.kind == shop::OpeningKind::Window) {
        add("open/" + opening.id.text(), opening.label + " stands open", "swung",
            opening.usually_open != listed(state->swung, opening.id));
      }
    }
  }
  for (const shop::Collector& unit : project.collectors) {
    add("runs/" + unit.id.text(), unit.label + " runs", "off", !listed(state->off, unit.id));
  }
  for (const shop::Machine& machine : project.machines) {
    if (machine.blower) {
      add("runs/" + machine.blower->id.text(), machine.label + " blower runs", "off",
          !listed(state->off, machine.blower->id));
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    const auto* moved = std::get_if<shop::MovedEnd>(&duct.from);
    if (moved == nullptr) {
      continue;
    }
    PropertyRow& row = add("hose/" + duct.id.text(), duct.label + " is at", "hoses", false);
    row.editor = RowEditor::Choice;
    row.value.clear();
    row.choices.emplace_back("", "nowhere: it lies closed");
    for (const shop::PortRef& place : moved->places) {
      const shop::Machine* machine = machineOf(project, place.machine);
      const shop::Port* port = portOf(project, place);
      if (machine != nullptr && port != nullptr) {
        row.choices.emplace_back(place.port.text(), machine->label + " " + port->label);
      }
    }
    for (const shop::HosePlace& each : state->hoses) {
      if (each.duct == duct.id) {
        row.value = each.place.port.text();
      }
    }
  }
  return form;
}

Result<Change> changeStateProperty(const shop::Project& project, base::Id id, std::string_view path,
                                   std::string_view raw) {
  const auto there = std::find_if(project.states.begin(), project.states.end(),
                                  [id](const shop::State& each) { return each.id == id; });
  if (there == project.states.end()) {
    return fail(ErrorCode::Reference, "this state is gone");
  }
  shop::State state = *there;
  const std::string_view text = trimmedText(raw);
  const Change words{"Change state " + state.name, {}};
  const auto put = [&] { return Change{words.words, {shop::PutState{state}}}; };
  if (path == "name") {
    if (std::string wrong = files::textProblem(text, files::TextRule::Name); !wrong.empty() || text.empty()) {
      return fail(ErrorCode::Parse, text.empty() ? "a state needs a name" : wrong);
    }
    state.name = std::string(text);
    return put();
  }
  if (path == "filter") {
    for (const auto& word : files::Words<shop::FilterState>::kWords) {
      if (word.text == text) {
        state.filter = word.value;
        return put();
      }
    }
    return fail(ErrorCode::Parse, fmt::format("\"{}\" is none of clean, seasoned, due", text));
  }
  if (path == "unused") {
    state.unused = text == "yes";
    return put();
  }
  const std::size_t slash = path.find('/');
  const Result<base::Id> about = slash == std::string_view::npos
                                     ? fail(ErrorCode::Reference, "no such row")
                                     : Result<base::Id>(base::Id::parse(path.substr(slash + 1)));
  if (!about) {
    return fail(ErrorCode::Reference, fmt::format("a state has no {}", path));
  }
  const std::string_view what = path.substr(0, slash);
  if (what == "gate") {
    const auto travel = files::parseWithin(base::Kind::Ratio, text, {"0", "1"}, {});
    if (!travel) {
      return Failure(travel.error());
    }
    return Change{words.words, {shop::SetTravel{id, *about, *base::Given<base::Ratio>::parse(text)}}};
  }
  const auto toggle = [&](std::vector<base::Id>& list, bool wanted) {
    const bool listed = std::find(list.begin(), list.end(), *about) != list.end();
    if (listed && !wanted) {
      std::erase(list, *about);
    } else if (wanted && !listed) {
      list.push_back(*about);
    }
  };
  if (what == "runs" || what == "open") {
    if (text != "yes" && text != "no") {
      return fail(ErrorCode::Parse, fmt::format("\"{}\" is neither yes nor no", text));
    }
    if (what == "runs") {
      toggle(state.off, text == "no");
      return put();
    }
    for (const shop::Room& room : project.rooms) {
      for (const shop::Opening& opening : room.openings) {
        if (opening.id == *about) {
          toggle(state.swung, (text == "yes") != opening.usually_open);
          return put();
        }
      }
    }
    return fail(ErrorCode::Reference, "this door is gone");
  }
  if (what == "hose") {
    std::erase_if(state.hoses, [&](const shop::HosePlace& each) { return each.duct == *about; });
    if (!text.empty()) {
      const shop::Duct* duct = ductOf(project, *about);
      const auto* moved = duct == nullptr ? nullptr : std::get_if<shop::MovedEnd>(&duct->from);
      bool found = false;
      if (moved != nullptr) {
        for (const shop::PortRef& place : moved->places) {
          if (place.port.text() == text) {
            state.hoses.push_back({*about, place});
            found = true;
          }
        }
      }
      if (!found) {
        return fail(ErrorCode::Reference, "this hose has no such place");
      }
    }
    return put();
  }
  return fail(ErrorCode::Reference, fmt::format("a state has no {}", path));
}

}  // namespace kerfdraft::desk
