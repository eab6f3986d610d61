// What every tool and panel is given.
#pragma once

#include <memory>

#include "catalogue/catalogue.h"
#include "desk/document.h"
#include "desk/live.h"
#include "desk/look.h"

namespace kerfdraft::desk {

struct Bench {
  Document& document;
  Look& look;
  Live& live;
  std::shared_ptr<const catalogue::Catalogue> catalogue;
};

}  // namespace kerfdraft::desk
