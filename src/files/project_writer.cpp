// Walks the field tables over a project and builds the JSON tree that is printed.
#include <fmt/format.h>

#include "files/coordinates.h"
#include "files/json.h"
#include "files/project_fields.h"
#include "files/project_file.h"

namespace kerfdraft::files {
namespace {

class Writer {
 public:
  explicit Writer(base::UnitSystem units) : units_(units) {}

  template <Tabled S>
  Json write(const S& in) const {
    Json json = Json::object();
    appendFields(json, in);
    return json;
  }

  template <Tabled S>
  void appendFields(Json& json, const S& in) const {
    const S usual{};
    forEachField<S>([&](const auto& field) {
      const auto& value = in.*field.member;
      if (field.info.need != Need::Optional || !(value == usual.*field.member)) {
        json.add(field.info.key, write(value));
      }
    });
  }

  template <Worded E>
  Json write(E value) const {
    return Json::ofText(wordOf(value));
  }

  template <IsGiven G>
  Json write(const G& given) const {
    if (given.standing() == base::Standing::Assumed && given.source().empty()) {
      return Json::ofText(given.text());
    }
    Json json = Json::object();
    json.add("value", Json::ofText(given.text()));
    json.add("standing", Json::ofText(wordOf(given.standing())));
    if (!given.source().empty()) {
      json.add("source", Json::ofText(given.source()));
    }
    return json;
  }

  Json write(const std::string& text) const { return Json::ofText(text); }
  Json write(bool truth) const { return Json::ofBool(truth); }
  Json write(base::Id id) const { return Json::ofText(id.text()); }

  Json write(const shop::Point& p) const {
    return Json::array().push(coordinate(p.x_um)).push(coordinate(p.y_um)).push(coordinate(p.z_um));
  }
  Json write(const shop::PlanPoint& p) const {
    return Json::array().push(coordinate(p.x_um)).push(coordinate(p.y_um));
  }

  template <IsOptional O>
  Json write(const O& value) const {
    return write(*value);
  }

  template <IsList L>
  Json write(const L& list) const {
    Json json = Json::array();
    for (const auto& item : list) {
      json.push(write(item));
    }
    return json;
  }

  Json write(const shop::OpenEnd& /*end*/) const { return Json::ofBool(true); }
  Json write(const shop::CollectorInlet& end) const { return write(end.collector); }
  Json write(const shop::CollectorOutlet& end) const { return write(end.collector); }
  Json write(const shop::MovedEnd& end) const { return write(end.places); }

  Json write(const shop::DuctEnd& end) const {
    return std::visit(
        [this]<class End>(const End& each) { return Json::object().add(EndForm<End>::kKey, write(each)); },
        end);
  }

 private:
  Json coordinate(std::int64_t um) const { return Json::ofText(coordinateText(um, units_)); }

  base::UnitSystem units_;
};

}  // namespace

std::string writeProject(const shop::Project& project) {
  Json root = Json::object();
  root.add("format", Json::ofNumber(fmt::format("{}", kFormat)));
  Writer(project.setting.units).appendFields(root, project);
  if (!project.extensions.empty()) {
    base::Result<Json> extensions = parseJson(project.extensions, "extensions");
    base::check(extensions && extensions->type == Json::Type::Object, "extensions are not a JSON object");
    root.add("extensions", std::move(*extensions));
  }
  return printJson(root);
}

}  // namespace kerfdraft::files
