// What the invariants share: an index of everything that has an id, and a list of problems with the place
// that is being looked at.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "base/result.h"
#include "shop/project.h"

namespace kerfdraft::shop {

/// What an id belongs to.
enum class Thing {
  Room,
  Opening,
  Obstacle,
  Machine,
  Port,
  Blower,
  Duct,
  Corner,
  Gate,
  Access,
  Collector,
  Separator,
  Filter,
  State,
  Circuit
};

/// "room", "port" …
std::string_view toText(Thing thing);

struct Owner {
  Thing thing = Thing::Room;
  Id parent;                 ///< the machine of a port, the duct of a corner or gate, the room of an opening
  const void* at = nullptr;  ///< the struct in the project
};

/// The walk over a project. Holds the place as a JSON pointer with labels, so that checks only say what is
/// wrong.
class Survey {
 public:
  explicit Survey(const Project& project) : project_(project) {}

  const Project& project() const { return project_; }

  /// A step down for as long as it lives: "/ducts", an index, and who that is ("duct D1").
  class Place {
   public:
    Place(Survey& survey, std::string_view key);
    Place(Survey& survey, std::string_view key, std::size_t index, std::string name = {});
    ~Place();
    Place(const Place&) = delete;
    Place& operator=(const Place&) = delete;

   private:
    Survey& survey_;
    std::size_t path_length_;
    std::size_t names_;
  };

  void problem(base::ErrorCode code, std::string message);
  std::vector<base::Error> takeProblems() { return std::move(problems_); }

  /// Takes an id into the index; a problem where it is no id or stands twice.
  void claim(Id id, Owner owner);
  /// Takes a printed label; a problem where it stands twice. Empty labels are not compared.
  void claimLabel(std::string_view label);
  /// What the id belongs to, or null.
  const Owner* find(Id id) const;
  /// The struct of an id, or null where the id belongs to something else or nothing.
  template <class T>
  const T* find(Id id, Thing thing) const {
    const Owner* owner = find(id);
    return owner == nullptr || owner->thing != thing ? nullptr : static_cast<const T*>(owner->at);
  }
  /// A problem "… is not the id of a room" unless it is one. An id that is not given passes where `may_lack`.
  bool expect(Id id, Thing thing, std::string_view key, bool may_lack);
  /// A problem unless the port is there.
  bool expect(const PortRef& ref, std::string_view key);

  std::string lengthText(double m) const;
  std::string flowText(double m3_s) const;
  std::string pressureText(double pa) const;
  std::string speedText(double m_s) const;
  std::string boreText(double m) const;

 private:
  const Project& project_;
  std::string path_;
  std::vector<std::string> names_;
  std::unordered_map<Id, Owner> owners_;
  std::unordered_set<std::string> labels_;
  std::vector<base::Error> problems_;
};

/// "machine T1"; the noun alone where there is no label.
std::string named(std::string_view noun, std::string_view label);

// One per family, called in this order after every id is in the index.
void checkRooms(Survey& survey);
void checkMachines(Survey& survey);
void checkDucts(Survey& survey);
void checkCollectors(Survey& survey);
void checkStates(Survey& survey);
void checkAccepted(Survey& survey);

}  // namespace kerfdraft::shop
