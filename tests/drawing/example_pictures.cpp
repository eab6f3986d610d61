// Reads the examples as the command line does.
#include "example_pictures.h"

#include <algorithm>
#include <filesystem>

#include "cli/shop_open.h"
#include "papers/draw_overlay.h"

namespace kerfdraft::drawing {

Overlay Example::overlay(std::size_t state, base::UnitSystem units) const {
  return papers::overlayOf(assessment, state, margins[state], units);
}

std::vector<Example> examples() {
  const auto catalogue = catalogue::Catalogue::shipped();
  base::check(catalogue.has_value(), "no catalogue");
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(KERFDRAFT_SOURCE_DIR "/examples")) {
    if (entry.path().extension() == ".json") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Example> out;
  for (const auto& path : paths) {
    auto assessment = cli::openShop(path.string(), *catalogue);
    base::check(assessment.has_value(), "an example that cannot be opened");
    auto margins = judge::margins(*assessment, *catalogue);
    base::check(margins.has_value(), "an example that cannot be judged");
    out.push_back({path.stem().string(), std::move(*assessment), std::move(*margins)});
  }
  return out;
}

}  // namespace kerfdraft::drawing
