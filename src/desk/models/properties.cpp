// Which field stands where, and which edit carries a changed thing back into the project.
#include "desk/models/properties.h"

#include <array>
#include <functional>

#include "base/csv.h"
#include "catalogue/policies.h"
#include "desk/models/property_walk.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) {
    return {};
  }
  return text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1);
}

std::vector<std::string_view> parted(std::string_view text, char mark) {
  std::vector<std::string_view> out;
  while (true) {
    const std::size_t at = text.find(mark);
    out.push_back(trimmed(text.substr(0, at)));
    if (at == std::string_view::npos) {
      return out;
    }
    text.remove_prefix(at + 1);
  }
}

struct InCatalogue {
  std::string_view noun;
  std::string_view key;
  std::string_view table;
};
constexpr std::array kInCatalogue{InCatalogue{"port", "hood", "hoods"},
                                  InCatalogue{"machine", "kind", "machine_kinds"},
                                  InCatalogue{"machine", "chips", "transport_rules"},
                                  InCatalogue{"leg", "construction", "constructions"},
                                  InCatalogue{"elbow-form", "form", "elbows"},
                                  InCatalogue{"duct", "elbow-form", "elbows"},
                                  InCatalogue{"separator", "kind", "separators"},
                                  InCatalogue{"separator", "bin-form", "containers"},
                                  InCatalogue{"filter", "cleaning", "filter_loading"}};

struct Elsewhere {
  std::string_view noun;
  std::string_view key;
};
/// Ends, corners and outlines are drawn; states have their own table.
constexpr std::array kElsewhere{
    Elsewhere{"duct", "from"},        Elsewhere{"duct", "to"},       Elsewhere{"duct", "corners"},
    Elsewhere{"duct", "gates"},       Elsewhere{"duct", "taps"},     Elsewhere{"duct", "cleanouts"},
    Elsewhere{"room", "outline"},     Elsewhere{"room", "openings"}, Elsewhere{"room", "obstacles"},
    Elsewhere{"obstacle", "outline"}, Elsewhere{"gate", "corner"},   Elsewhere{"access", "corner"}};

/// The thing itself, found again in a copy of the project, walked, and what carries it back.
class Holder {
 public:
  Holder(const shop::Project& project, const std::optional<Thing>& thing) : thing_(thing) {
    if (!thing_) {
      setting_ = project.setting;
      air_ = project.air;
      found_ = true;
      return;
    }
    find(project);
  }

  bool found() const { return found_; }

  std::string title(const shop::Project& project) const {
    std::string name = thing_ ? nameOf(project, *thing_) : std::string("the shop");
    if (!name.empty() && name.front() >= 'a' && name.front() <= 'z') {
      name.front() = static_cast<char>(name.front() - 'a' + 'A');
    }
    return name;
  }

  std::string doc() const {
    if (!thing_) {
      return std::string(files::Table<shop::Setting>::kDoc);
    }
    switch (thing_->kind) {
      case ThingKind::Room:
        return std::string(files::Table<shop::Room>::kDoc);
      case ThingKind::Opening:
        return std::string(files::Table<shop::Opening>::kDoc);
      case ThingKind::Obstacle:
        return std::string(files::Table<shop::Obstacle>::kDoc);
      case ThingKind::Machine:
        return std::string(files::Table<shop::Machine>::kDoc);
      case ThingKind::Port:
        return std::string(files::Table<shop::Port>::kDoc);
      case ThingKind::Duct:
        return std::string(files::Table<shop::Duct>::kDoc);
      case ThingKind::Corner:
        return std::string(files::Table<shop::Corner>::kDoc);
      case ThingKind::Gate:
        return std::string(files::Table<shop::Gate>::kDoc);
      case ThingKind::Tap:
      case ThingKind::Cleanout:
        return std::string(files::Table<shop::Access>::kDoc);
      case ThingKind::Collector:
        return std::string(files::Table<shop::Collector>::kDoc);
    }
    return {};
  }

  void walk(Walk& walk) {
    if (!thing_) {
      walk.fields(setting_, "setting", "");
      walk.fields(air_, "air", "Air of the day");
      return;
    }
    switch (thing_->kind) {
      case ThingKind::Room:
        walk.fields(room_, "", "");
        return;
      case ThingKind::Opening:
        walk.fields(room_.openings[index_], "", "");
        return;
      case ThingKind::Obstacle:
        walk.fields(room_.obstacles[index_], "", "");
        return;
      case ThingKind::Machine:
        walk.middle = machine_.at;
        walk.fields(machine_, "", "");
        return;
      case ThingKind::Port:
        walk.fields(machine_.ports[index_], "", "");
        return;
      case ThingKind::Duct:
        walk.fields(duct_, "", "");
        for (std::size_t k = 0; k + 1 < duct_.corners.size(); ++k) {
          if (duct_.corners[k].leg) {
            walk.fields(*duct_.corners[k].leg, fmt::format("corners/{}/leg", k),
                        k == 0 ? std::string("From its beginning") : fmt::format("From corner {} on", k + 1));
          }
        }
        return;
      case ThingKind::Corner:
        if (const shop::Leg* leg = legInForce(duct_, std::min(index_, duct_.corners.size() - 2))) {
          walk.inherited = *leg;
        }
        walk.fields(duct_.corners[index_], "", "");
        return;
      case ThingKind::Gate:
        walk.fields(duct_.gates[index_], "", "");
        return;
      case ThingKind::Tap:
        walk.fields(duct_.taps[index_], "", "");
        return;
      case ThingKind::Cleanout:
        walk.fields(duct_.cleanouts[index_], "", "");
        return;
      case ThingKind::Collector:
        walk.fields(collector_, "", "");
        return;
    }
  }

  std::vector<shop::Edit> edits() const {
    if (!thing_) {
      return {shop::SetSetting{setting_}, shop::SetAir{air_}};
    }
    switch (thing_->kind) {
      case ThingKind::Room:
      case ThingKind::Opening:
      case ThingKind::Obstacle:
        return {shop::PutRoom{room_}};
      case ThingKind::Machine:
      case ThingKind::Port:
        return machineEdits();
      case ThingKind::Duct:
        return {shop::PutDuct{duct_}};
      case ThingKind::Corner: {
        // Branches that enter here follow a corner that is moved, and not one that is put.
        std::vector<shop::Edit> out;
        const shop::Point to = duct_.corners[index_].at;
        shop::Duct put = duct_;
        put.corners[index_].at = was_;
        out.emplace_back(shop::PutDuct{put});
        if (to != was_) {
          out.emplace_back(shop::MoveCorner{duct_.id, thing_->id, to});
        }
        return out;
      }
      case ThingKind::Gate:
        return {shop::PutGate{duct_.id, duct_.gates[index_]}};
      case ThingKind::Tap:
        return {shop::PutTap{duct_.id, duct_.taps[index_]}};
      case ThingKind::Cleanout:
        return {shop::PutCleanout{duct_.id, duct_.cleanouts[index_]}};
      case ThingKind::Collector: {
        shop::Collector put = collector_;
        put.at = was_;
        std::vector<shop::Edit> out{shop::PutCollector{put}};
        if (collector_.at != was_) {
          out.emplace_back(shop::MoveCollector{collector_.id, collector_.at});
        }
        return out;
      }
    }
    return {};
  }

 private:
  /// A machine whose place or turn was typed takes its ports along.
  std::vector<shop::Edit> machineEdits() const {
    shop::Machine put = machine_;
    put.at = was_;
    put.turned = turned_was_;
    std::vector<shop::Edit> out{shop::PutMachine{put}};
    if (machine_.at != was_ || !(machine_.turned == turned_was_)) {
      out.emplace_back(shop::MoveMachine{machine_.id, machine_.at, machine_.turned});
    }
    return out;
  }

  template <class List>
  bool indexIn(const List& list, base::Id id) {
    const auto at = std::find_if(list.begin(), list.end(), [id](const auto& each) { return each.id == id; });
    index_ = static_cast<std::size_t>(at - list.begin());
    return at != list.end();
  }

  void find(const shop::Project& project) {
    const base::Id id = thing_->id;
    switch (thing_->kind) {
      case ThingKind::Room:
      case ThingKind::Opening:
      case ThingKind::Obstacle:
        for (const shop::Room& room : project.rooms) {
          if (thing_->kind == ThingKind::Room      ? room.id == id
              : thing_->kind == ThingKind::Opening ? indexIn(room.openings, id)
                                                   : indexIn(room.obstacles, id)) {
            room_ = room;
            found_ = true;
            return;
          }
        }
        return;
      case ThingKind::Machine:
      case ThingKind::Port:
        for (const shop::Machine& machine : project.machines) {
          if (thing_->kind == ThingKind::Machine ? machine.id == id : indexIn(machine.ports, id)) {
            machine_ = machine;
            was_ = machine.at;
            turned_was_ = machine.turned;
            found_ = true;
            return;
          }
        }
        return;
      case ThingKind::Collector:
        if (const shop::Collector* collector = collectorOf(project, id)) {
          collector_ = *collector;
          was_ = collector->at;
          found_ = true;
        }
        return;
      case ThingKind::Duct:
      case ThingKind::Corner:
      case ThingKind::Gate:
      case ThingKind::Tap:
      case ThingKind::Cleanout:
        for (const shop::Duct& duct : project.ducts) {
          if (thing_->kind == ThingKind::Duct     ? duct.id == id
              : thing_->kind == ThingKind::Corner ? indexIn(duct.corners, id)
              : thing_->kind == ThingKind::Gate   ? indexIn(duct.gates, id)
              : thing_->kind == ThingKind::Tap    ? indexIn(duct.taps, id)
                                                  : indexIn(duct.cleanouts, id)) {
            duct_ = duct;
            if (thing_->kind == ThingKind::Corner) {
              was_ = duct.corners[index_].at;
            }
            found_ = true;
            return;
          }
        }
        return;
    }
  }

  std::optional<Thing> thing_;
  bool found_ = false;
  std::size_t index_ = 0;
  shop::Point was_;
  base::Given<base::Angle> turned_was_;
  shop::Setting setting_;
  shop::Air air_;
  shop::Room room_;
  shop::Machine machine_;
  shop::Duct duct_;
  shop::Collector collector_;
};

}  // namespace

std::string_view tableOfKey(std::string_view noun, std::string_view key) {
  for (const InCatalogue& each : kInCatalogue) {
    if (each.noun == noun && each.key == key) {
      return each.table;
    }
  }
  return {};
}

bool isElsewhere(std::string_view noun, std::string_view key) {
  return key == "id" || std::any_of(kElsewhere.begin(), kElsewhere.end(), [&](const Elsewhere& each) {
           return each.noun == noun && each.key == key;
         });
}

std::string spaced(std::string_view key) {
  std::string out(key);
  std::replace(out.begin(), out.end(), '-', ' ');
  return out;
}

std::string exampleFor(base::Kind kind, std::string_view noun, std::string_view key, base::UnitSystem units) {
  const bool us = units == base::UnitSystem::Us;
  if (kind == base::Kind::Length) {
    const bool bore = key.find("bore") != std::string_view::npos;
    if (bore) {
      return us ? "4 in" : "100 mm";
    }
    return noun == "air" ? (us ? "900 ft" : "300 m") : (us ? "3 ft" : "0.9 m");
  }
  switch (kind) {
    case base::Kind::VolumeFlow:
      return us ? "400 cfm" : "700 m3/h";
    case base::Kind::Pressure:
      return us ? "8 in w.g." : "2000 Pa";
    case base::Kind::AbsolutePressure:
      return us ? "29.9 inHg" : "1013 hPa";
    case base::Kind::Temperature:
      return us ? "70 °F" : "20 °C";
    case base::Kind::Area:
      return us ? "20 in2" : "120 cm2";
    case base::Kind::Angle:
      return "90 deg";
    case base::Kind::Power:
      return us ? "3 hp" : "2.2 kW";
    default:
      return {};
  }
}

void Walk::leaf(std::vector<shop::CurvePoint>& list, const At& at) {
  if (listing()) {
    rows.push_back(row(at, RowEditor::Lines));
    PropertyRow& out = rows.back();
    out.help += " One point in each line: flow, pressure, and the power where it is known.";
    out.example =
        project_.setting.units == base::UnitSystem::Us ? "350 cfm, 4.7 in w.g." : "600 m3/h, 1200 Pa";
    for (const shop::CurvePoint& point : list) {
      out.value +=
          fmt::format("{}{}, {}", out.value.empty() ? "" : "\n", point.flow.text(), point.pressure.text());
      if (point.power) {
        out.value += ", " + point.power->text();
      }
    }
    return;
  }
  if (!hit(at.path)) {
    return;
  }
  std::vector<shop::CurvePoint> next;
  std::size_t number = 0;
  for (const std::string_view line : parted(text, '\n')) {
    ++number;
    if (line.empty()) {
      continue;
    }
    const std::vector<std::string_view> cells =
        parted(line, line.find(';') != std::string_view::npos ? ';' : ',');
    const auto wrong = [&](const base::Error& error) {
      refuse(error.code, fmt::format("line {}: {}", number, error.message), at);
    };
    if (cells.size() < 2 || cells.size() > 3) {
      refuse(ErrorCode::Parse,
             fmt::format("line {}: write a flow and a pressure, like \"350 cfm, 4.7 in w.g.\"", number), at);
      return;
    }
    // What stood there before keeps its standing and source.
    const auto same = std::find_if(list.begin(), list.end(), [&](const shop::CurvePoint& each) {
      return each.flow.text() == cells[0] && each.pressure.text() == cells[1];
    });
    shop::CurvePoint point;
    if (same != list.end()) {
      point = *same;
    } else {
      const auto flow = files::parseWithin(base::Kind::VolumeFlow, cells[0], files::kFlow, {});
      const auto pressure = files::parseWithin(base::Kind::Pressure, cells[1], files::kPressure, {});
      if (!flow || !pressure) {
        wrong(flow ? pressure.error() : flow.error());
        return;
      }
      point.flow = *base::Given<base::VolumeFlow>::parse(cells[0], base::Standing::Maker);
      point.pressure = *base::Given<base::Pressure>::parse(cells[1], base::Standing::Maker);
    }
    point.power.reset();
    if (cells.size() == 3) {
      if (const auto power = files::parseWithin(base::Kind::Power, cells[2], files::kPower, {}); !power) {
        wrong(power.error());
        return;
      }
      point.power = *base::Given<base::Power>::parse(cells[2], base::Standing::Maker);
    }
    next.push_back(std::move(point));
  }
  list = std::move(next);
  outcome = Result<void>{};
}

void Walk::leaf(std::vector<std::string>& list, const At& at) {
  const auto table = catalogue_.table("woods");
  if (listing()) {
    rows.push_back(row(at, RowEditor::Text));
    for (const std::string& key : list) {
      rows.back().value += (rows.back().value.empty() ? "" : ", ") + key;
    }
    rows.back().help += " Keys with commas between them:";
    if (table) {
      for (const catalogue::Row& each : (*table)->rows()) {
        rows.back().help += " " + each.key;
      }
    }
    return;
  }
  if (!hit(at.path)) {
    return;
  }
  std::vector<std::string> next;
  for (const std::string_view key : parted(text, ',')) {
    if (key.empty()) {
      continue;
    }
    if (const auto known = catalogue_.row("woods", key); !known) {
      refuse(known.error().code, known.error().message, at);
      return;
    }
    next.emplace_back(key);
  }
  list = std::move(next);
  outcome = Result<void>{};
}

void Walk::leaf(std::vector<shop::Policy>& list, const At& at) {
  for (const catalogue::PolicySubject& subject : catalogue::policySubjects(catalogue_)) {
    const std::string path = fmt::format("{}/{}", at.path, subject.key);
    const auto mine = std::find_if(list.begin(), list.end(),
                                   [&](const shop::Policy& each) { return each.subject == subject.key; });
    if (listing()) {
      PropertyRow out = row(at, RowEditor::Choice);
      out.path = path;
      out.group = "Where published rules disagree";
      out.name = subject.name;
      out.help = "Which authority's figure or rule decides.";
      out.value = mine == list.end() ? std::string() : mine->choice;
      out.choices.emplace_back("", "the usual one");
      if (const auto choices = catalogue::policyChoices(catalogue_, subject.key)) {
        for (const catalogue::PolicyChoice& choice : *choices) {
          out.choices.emplace_back(choice.choice,
                                   choice.usual ? choice.name + " (the usual one)" : choice.name);
        }
      }
      rows.push_back(std::move(out));
    } else if (hit(path)) {
      if (!text.empty()) {
        if (const auto known = catalogue::policyChoice(catalogue_, subject.key, text); !known) {
          refuse(known.error().code, known.error().message, at);
          return;
        }
      }
      if (mine != list.end()) {
        list.erase(mine);
      }
      if (!text.empty()) {
        list.push_back({subject.key, std::string(text)});
      }
      outcome = Result<void>{};
      return;
    }
  }
}

std::optional<PropertyForm> formOf(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   const std::optional<Thing>& thing) {
  Holder holder(project, thing);
  if (!holder.found()) {
    return std::nullopt;
  }
  Walk walk(project, catalogue, nullptr);
  holder.walk(walk);
  return PropertyForm{holder.title(project), holder.doc(), std::move(walk.rows)};
}

std::optional<PropertyForm> formOf(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   const std::vector<Thing>& things) {
  if (things.empty()) {
    return formOf(project, catalogue, std::optional<Thing>());
  }
  std::optional<PropertyForm> form = formOf(project, catalogue, std::optional(things.front()));
  if (things.size() == 1 || !form) {
    return form;
  }
  for (std::size_t k = 1; k < things.size(); ++k) {
    if (things[k].kind != things.front().kind) {
      return std::nullopt;
    }
    const auto other = formOf(project, catalogue, std::optional(things[k]));
    if (!other) {
      return std::nullopt;
    }
    std::erase_if(form->rows, [&](PropertyRow& row) {
      const auto same = std::find_if(other->rows.begin(), other->rows.end(), [&](const PropertyRow& each) {
        return each.path == row.path && each.editor == row.editor;
      });
      if (same == other->rows.end()) {
        return true;
      }
      if (same->value != row.value) {
        row.value.clear();
        row.standing.reset();
        row.source.clear();
      }
      return false;
    });
  }
  // What must differ from thing to thing is not set for all.
  std::erase_if(form->rows, [](const PropertyRow& row) {
    return row.path == "label" || row.path.starts_with("at/") || row.editor == RowEditor::Add ||
           row.editor == RowEditor::Remove;
  });
  form->title = fmt::format("{} things", things.size());
  return form;
}

Result<Change> changeProperty(const shop::Project& project, const catalogue::Catalogue& catalogue,
                              const std::optional<Thing>& thing, std::string_view path, std::string_view text,
                              base::IdSource& ids) {
  Holder holder(project, thing);
  if (!holder.found()) {
    return fail(ErrorCode::Reference, "this thing is gone");
  }
  Walk walk(project, catalogue, &ids);
  walk.target = path;
  const std::string_view bare = trimmed(text);
  walk.text = bare;
  if (path.empty()) {
    return fail(ErrorCode::Reference, "nothing was named that could change");
  }
  holder.walk(walk);
  if (!walk.outcome) {
    return fail(ErrorCode::Reference, fmt::format("{} has no {}", holder.title(project), path));
  }
  if (!*walk.outcome) {
    return Failure(walk.outcome->error());
  }
  return Change{fmt::format("Change {}", thing ? nameOf(project, *thing) : std::string("the shop")),
                holder.edits()};
}

Result<Change> changeProperty(const shop::Project& project, const catalogue::Catalogue& catalogue,
                              const std::vector<Thing>& things, std::string_view path, std::string_view text,
                              base::IdSource& ids) {
  if (things.empty()) {
    return changeProperty(project, catalogue, std::optional<Thing>(), path, text, ids);
  }
  // One after the other: two ports of one machine, two corners of one duct must not undo each other.
  shop::Project now = project;
  Change all;
  for (const Thing& thing : things) {
    Result<Change> change = changeProperty(now, catalogue, std::optional(thing), path, text, ids);
    if (!change) {
      return change;
    }
    if (Result<shop::Project> next = shop::applyEdits(now, change->edits)) {
      now = std::move(*next);
    } else {
      return Failure(next.error());
    }
    all.words = things.size() == 1 ? change->words : fmt::format("Change {} things", things.size());
    all.edits.insert(all.edits.end(), change->edits.begin(), change->edits.end());
  }
  return all;
}

// ----------------------------------------------------------------------------------------------- states

std::optional<PropertyForm> formOfState(const shop::Project& project, base::Id id) {
  const auto state = std::find_if(project.states.begin(), project.states.end(),
                                  [id](const shop::State& each) { return each.id == id; });
  if (state == project.states.end()) {
    return std::nullopt;
  }
  PropertyForm form;
  form.title = state->name;
  form.doc = std::string(files::Table<shop::State>::kDoc);
  const auto add = [&](std::string path, std::string name, std::string help, bool yes) -> PropertyRow& {
    PropertyRow row;
    row.path = std::move(path);
    row.name = std::move(name);
    row.help = std::move(help);
    row.editor = RowEditor::YesNo;
    row.value = yes ? "yes" : "no";
    row.optional = false;
    form.rows.push_back(std::move(row));
    return form.rows.back();
  };
  const auto listed = [](const auto& list, base::Id each) {
    return std::find(list.begin(), list.end(), each) != list.end();
  };
  for (const shop::Duct& duct : project.ducts) {
    for (const shop::Gate& gate : duct.gates) {
      const auto setting = std::find_if(state->gates.begin(), state->gates.end(),
                                        [&](const shop::GateSetting& each) { return each.gate == gate.id; });
      PropertyRow& row =
          add("gate/" + gate.id.text(), gate.label, "How far it is open: 0 is shut, 1 is open.", false);
      row.group = "Gates";
      row.editor = RowEditor::Text;
      row.value = setting == state->gates.end() ? "0" : setting->travel.text();
      row.example = "0.5";
    }
  }
  for (const shop::Room& room : project.rooms) {
    for (const shop::Opening& opening : room.openings) {
      if (opening.kind == shop::OpeningKind::Door || opening.kind == shop::OpeningKind::Window) {
        add("open/" + opening.id.text(), opening.label, "Whether it stands open.",
            opening.usually_open != listed(state->swung, opening.id))
            .group = "Doors and windows that stand open";
      }
    }
  }
  for (const shop::Collector& unit : project.collectors) {
    add("runs/" + unit.id.text(), unit.label, "Whether it runs.", !listed(state->off, unit.id)).group =
        "Runs";
  }
  for (const shop::Machine& machine : project.machines) {
    if (machine.blower) {
      add("runs/" + machine.blower->id.text(), machine.label + " blower", "Whether it runs.",
          !listed(state->off, machine.blower->id))
          .group = "Runs";
    }
  }
  for (const shop::Duct& duct : project.ducts) {
    const auto* moved = std::get_if<shop::MovedEnd>(&duct.from);
    if (moved == nullptr) {
      continue;
    }
    PropertyRow& row = add("hose/" + duct.id.text(), duct.label, "Where its hose is.", false);
    row.group = "Moved hoses";
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
  const std::string_view text = trimmed(raw);
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
    std::erase(list, *about);
    if (wanted) {
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
