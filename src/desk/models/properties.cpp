// Which field stands where, and which edit carries a changed thing back into the project.
#include "desk/models/properties.h"

#include <algorithm>

#include "desk/models/property_walk.h"
#include "drawing/utf8.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

/// The thing itself, found again in a copy of the project, walked, and what carries it back.
class Holder {
 public:
  Holder(const shop::Project& project, const std::optional<Thing>& thing) : thing_(thing) {
    if (!thing_) {
      setting_ = project.setting;
      air_ = project.air;
      circuits_ = project.circuits;
      circuits_were_ = project.circuits;
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
      walk.list(circuits_, "circuits", files::Table<shop::Circuit>::kDoc, "Electric circuits");
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
        walk.freeEnd(duct_.from, true, duct_.corners.front().at);
        walk.freeEnd(duct_.to, false, duct_.corners.back().at);
        for (auto* end : {&duct_.from, &duct_.to}) {
          if (auto* entry = std::get_if<shop::OnCorner>(end)) {
            walk.fields(*entry, end == &duct_.from ? "from" : "to",
                        end == &duct_.from ? "Where it leaves another duct" : "Where it enters another duct");
          }
        }
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
      return shopEdits();
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
  std::vector<shop::Edit> shopEdits() const {
    std::vector<shop::Edit> out{shop::SetSetting{setting_}, shop::SetAir{air_}};
    const auto with_id = [](const std::vector<shop::Circuit>& list, base::Id id) {
      return std::find_if(list.begin(), list.end(),
                          [id](const shop::Circuit& each) { return each.id == id; });
    };
    for (const shop::Circuit& was : circuits_were_) {
      if (with_id(circuits_, was.id) == circuits_.end()) {
        out.emplace_back(shop::RemoveCircuit{was.id});
      }
    }
    for (const shop::Circuit& now : circuits_) {
      if (const auto was = with_id(circuits_were_, now.id); was == circuits_were_.end() || !(*was == now)) {
        out.emplace_back(shop::PutCircuit{now});
      }
    }
    return out;
  }

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
  std::vector<shop::Circuit> circuits_;
  std::vector<shop::Circuit> circuits_were_;
  shop::Room room_;
  shop::Machine machine_;
  shop::Duct duct_;
  shop::Collector collector_;
};

}  // namespace

std::optional<PropertyForm> formOf(const shop::Project& project, const catalogue::Catalogue& catalogue,
                                   const std::optional<Thing>& thing) {
  Holder holder(project, thing);
  if (!holder.found()) {
    return std::nullopt;
  }
  Walk walk(project, catalogue, nullptr);
  holder.walk(walk);
  // Its own rows first: behind a part they would read as the part's.
  std::stable_partition(walk.rows.begin(), walk.rows.end(),
                        [](const PropertyRow& row) { return row.group.empty(); });
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
  const std::string_view bare = trimmedText(text);
  walk.text = bare;
  if (path.empty()) {
    return fail(ErrorCode::Reference, "nothing was named that could change");
  }
  for (std::size_t at = 0; at < bare.size();) {
    if (drawing::nextCharacter(bare, at) == drawing::kNoCharacter) {
      return fail(ErrorCode::Parse, "the text holds bytes that are no characters");
    }
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

}  // namespace kerfdraft::desk
