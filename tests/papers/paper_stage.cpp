// Reads the examples as the command line does.
#include "papers/paper_stage.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include "files/save.h"

namespace kerfdraft::tests {

const std::vector<PaperStage>& paperStages() {
  static const catalogue::Catalogue catalogue = catalogue::Catalogue::shipped().value();
  static const std::vector<PaperStage> stages = [] {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::directory_iterator(KERFDRAFT_SOURCE_DIR "/examples")) {
      if (entry.path().extension() == ".json") {
        paths.push_back(entry.path());
      }
    }
    std::sort(paths.begin(), paths.end());
    std::vector<PaperStage> out;
    for (const auto& path : paths) {
      const auto project = files::loadProject(path.string());
      base::check(project.has_value(), "an example that cannot be opened");
      PaperStage stage;
      stage.name = path.stem().string();
      stage.assessment = std::make_unique<judge::Assessment>(judge::assess(*project, catalogue).value());
      stage.judgement = papers::Judgement::of(*stage.assessment, catalogue).value();
      out.push_back(std::move(stage));
    }
    return out;
  }();
  return stages;
}

const PaperStage& paperStage(const std::string& name) {
  const auto& all = paperStages();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const PaperStage& stage) { return stage.name == name; });
  base::check(found != all.end(), "there is no such example");
  return *found;
}

std::string tagFault(const std::string& html) {
  static const std::set<std::string> kVoid{"meta", "col", "br", "!DOCTYPE"};
  std::vector<std::string> open;
  std::set<std::string> ids;
  std::size_t at = 0;
  while ((at = html.find('<', at)) != std::string::npos) {
    const std::size_t end = html.find('>', at);
    if (end == std::string::npos) {
      return "a tag without an end";
    }
    const std::string tag = html.substr(at + 1, end - at - 1);
    at = end + 1;
    if (const std::size_t id = tag.find(" id=\""); id != std::string::npos) {
      const std::string name = tag.substr(id + 5, tag.find('"', id + 5) - id - 5);
      if (!ids.insert(name).second) {
        return "twice the id " + name;
      }
    }
    if (tag.starts_with("/")) {
      if (open.empty() || open.back() != tag.substr(1)) {
        return "</" + tag.substr(1) + "> closes <" + (open.empty() ? "" : open.back()) + ">";
      }
      open.pop_back();
      continue;
    }
    const std::string name = tag.substr(0, tag.find_first_of(" /\n"));
    if (kVoid.contains(name) || tag.ends_with("/")) {
      continue;
    }
    open.push_back(name);
    if (name == "style") {
      at = html.find("</style>", at);
      if (at == std::string::npos) {
        return "a style without an end";
      }
    }
  }
  return open.empty() ? std::string() : "<" + open.back() + "> is not closed";
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) {
    ++n;
  }
  return n;
}

}  // namespace kerfdraft::tests
