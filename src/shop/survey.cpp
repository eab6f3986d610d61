// Places, ids and labels of the invariants.
#include "shop/survey.h"

#include <fmt/format.h>

#include "base/units.h"

namespace kerfdraft::shop {

using base::ErrorCode;

std::string_view toText(Thing thing) {
  switch (thing) {
    case Thing::Room:
      return "room";
    case Thing::Opening:
      return "opening";
    case Thing::Obstacle:
      return "obstacle";
    case Thing::Machine:
      return "machine";
    case Thing::Port:
      return "port";
    case Thing::Blower:
      return "blower";
    case Thing::Duct:
      return "duct";
    case Thing::Corner:
      return "corner";
    case Thing::Gate:
      return "gate";
    case Thing::Access:
      return "tap or cleanout";
    case Thing::Collector:
      return "collector";
    case Thing::Separator:
      return "separator";
    case Thing::Filter:
      return "filter";
    case Thing::State:
      return "state";
    case Thing::Circuit:
      return "circuit";
  }
  return "";
}

std::string named(std::string_view noun, std::string_view label) {
  return label.empty() ? std::string(noun) : fmt::format("{} {}", noun, label);
}

Survey::Place::Place(Survey& survey, std::string_view key)
    : survey_(survey), path_length_(survey.path_.size()), names_(survey.names_.size()) {
  survey_.path_ += '/';
  survey_.path_ += key;
}

Survey::Place::Place(Survey& survey, std::string_view key, std::size_t index, std::string name)
    : Place(survey, key) {
  survey_.path_ += fmt::format("/{}", index);
  if (!name.empty()) {
    survey_.names_.push_back(std::move(name));
  }
}

Survey::Place::~Place() {
  survey_.path_.resize(path_length_);
  survey_.names_.resize(names_);
}

void Survey::problem(ErrorCode code, std::string message) {
  std::string where = path_.empty() ? "/" : path_;
  if (!names_.empty()) {
    where += fmt::format(" ({})", fmt::join(names_, ", "));
  }
  problems_.push_back({code, std::move(message), std::move(where)});
}

void Survey::claim(Id id, Owner owner) {
  if (!id.valid()) {
    problem(ErrorCode::Reference, fmt::format("the {} has no id", toText(owner.thing)));
    return;
  }
  const auto [at, fresh] = owners_.emplace(id, owner);
  if (!fresh) {
    Place place(*this, "id");
    problem(ErrorCode::Reference,
            fmt::format("the id {} stands twice: a {} has it already", id.text(), toText(at->second.thing)));
  }
}

void Survey::claimLabel(std::string_view label) {
  if (!label.empty() && !labels_.emplace(label).second) {
    Place place(*this, "label");
    problem(ErrorCode::Conflict,
            fmt::format("the label \"{}\" stands twice; on paper the two could not be told apart", label));
  }
}

const Owner* Survey::find(Id id) const {
  const auto at = owners_.find(id);
  return at == owners_.end() ? nullptr : &at->second;
}

bool Survey::expect(Id id, Thing thing, std::string_view key, bool may_lack) {
  if (may_lack && !id.valid()) {
    return true;
  }
  const Owner* owner = find(id);
  if (owner != nullptr && owner->thing == thing) {
    return true;
  }
  Place place(*this, key);
  problem(ErrorCode::Reference, owner == nullptr
                                    ? fmt::format("no {} has the id {}", toText(thing), id.text())
                                    : fmt::format("the id {} belongs to a {}, not to a {}", id.text(),
                                                  toText(owner->thing), toText(thing)));
  return false;
}

bool Survey::expect(const PortRef& ref, std::string_view key) {
  Place place(*this, key);
  if (!expect(ref.machine, Thing::Machine, "machine", false) ||
      !expect(ref.port, Thing::Port, "port", false)) {
    return false;
  }
  if (find(ref.port)->parent != ref.machine) {
    Place port(*this, "port");
    problem(ErrorCode::Reference,
            fmt::format("the port {} is on another machine than {}", ref.port.text(), ref.machine.text()));
    return false;
  }
  return true;
}

std::string Survey::lengthText(double m) const {
  return base::formatQuantity(base::Kind::Length, m, project_.setting.units);
}
std::string Survey::flowText(double m3_s) const {
  return base::formatQuantity(base::Kind::VolumeFlow, m3_s, project_.setting.units);
}
std::string Survey::pressureText(double pa) const {
  return base::formatQuantity(base::Kind::Pressure, pa, project_.setting.units);
}
std::string Survey::speedText(double m_s) const {
  return base::formatQuantity(base::Kind::Speed, m_s, project_.setting.units);
}
std::string Survey::boreText(double m) const {
  return base::formatQuantity(base::Kind::Bore, m, project_.setting.units);
}

}  // namespace kerfdraft::shop
