// The file is read anew before every change, so that two windows do not take each other's machines away.
#include "desk/models/shelf.h"

#include <algorithm>
#include <functional>
#include <string>

#include "desk/models/placing.h"
#include "files/save.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::fail;
using base::Failure;
using base::Result;

Result<shop::Project> shelfProject(const std::filesystem::path& path) {
  std::error_code error;
  if (!std::filesystem::exists(path, error)) {
    shop::Project empty;
    empty.setting.name = "Own machines";
    empty.setting.note = "Machines that are offered in every shop.";
    empty.air.temperature = *base::Given<base::Temperature>::parse("20 °C");
    return empty;
  }
  files::ReadProject read = files::loadProject(path);
  if (!read) {
    return Failure(read.error().front());
  }
  return std::move(*read);
}

Result<void> write(const std::filesystem::path& path, const shop::Project& project) {
  std::error_code ignored;
  std::filesystem::create_directories(path.parent_path(), ignored);
  return files::saveProject(project, path);
}

}  // namespace

Result<std::vector<shop::Machine>> readShelf(const std::filesystem::path& path) {
  return shelfProject(path).map([](shop::Project project) { return std::move(project.machines); });
}

Result<void> keepOnShelf(const std::filesystem::path& path, const shop::Machine& machine) {
  if (machine.name.empty()) {
    return fail(ErrorCode::Parse, "give the machine a name first, so that you find it again");
  }
  Result<shop::Project> shelf = shelfProject(path);
  if (!shelf) {
    return Failure(shelf.error());
  }
  shop::Machine kept = machineAt(machine, {}, -machine.turned.si());
  kept.room = {};
  kept.circuit = {};
  std::erase_if(shelf->machines, [&](const shop::Machine& each) { return each.name == machine.name; });
  // The same machine kept under another name is another one here.
  base::SeededIds ids(std::hash<std::string>()(machine.name));
  kept = withNewIds(kept, ids);
  kept.label = freeMachineLabel(*shelf);
  shelf->machines.push_back(std::move(kept));
  return write(path, *shelf);
}

Result<void> takeOffShelf(const std::filesystem::path& path, base::Id machine) {
  Result<shop::Project> shelf = shelfProject(path);
  if (!shelf) {
    return Failure(shelf.error());
  }
  if (std::erase_if(shelf->machines, [&](const shop::Machine& each) { return each.id == machine; }) == 0) {
    return fail(ErrorCode::Reference, "this machine is no longer among your own");
  }
  return write(path, *shelf);
}

}  // namespace kerfdraft::desk
