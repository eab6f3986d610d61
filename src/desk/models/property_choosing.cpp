// Fields that are chosen from lists of things with names: woods, and what is on a free end of a duct.
#include <fmt/format.h>

#include <algorithm>

#include "desk/models/property_walk.h"
#include "desk/models/room_draft.h"

namespace kerfdraft::desk {

using base::ErrorCode;
using base::Result;

void Walk::leaf(std::vector<std::string>& list, const At& at) {
  if (listing()) {
    PropertyRow out = row(at, RowEditor::Several);
    keysOf("woods", out);
    std::sort(out.choices.begin(), out.choices.end(),
              [](const auto& a, const auto& b) { return a.second < b.second; });
    for (const std::string& key : list) {
      out.value += (out.value.empty() ? "" : ", ") + key;
      // Never drop what a file says, even where these tables do not know it.
      if (std::none_of(out.choices.begin(), out.choices.end(),
                       [&](const auto& choice) { return choice.first == key; })) {
        out.choices.emplace_back(key, key);
      }
    }
    rows.push_back(std::move(out));
    return;
  }
  if (!hit(at.path)) {
    return;
  }
  std::vector<std::string> next;
  for (std::string_view left = text; !left.empty();) {
    const std::size_t end = std::min(left.find(','), left.size());
    const std::string_view key = trimmedText(left.substr(0, end));
    left.remove_prefix(std::min(end + 1, left.size()));
    if (key.empty()) {
      continue;
    }
    const bool stood = std::find(list.begin(), list.end(), key) != list.end();
    if (const auto known = catalogue_.row("woods", key); !known && !stood) {
      refuse(known.error().code, known.error().message, at);
      return;
    }
    next.emplace_back(key);
  }
  list = std::move(next);
  outcome = Result<void>{};
}

void Walk::freeEnd(shop::DuctEnd& end, bool start, const shop::Point& place) {
  auto* free = std::get_if<shop::FreeAir>(&end);
  if (free == nullptr && !std::holds_alternative<shop::OpenEnd>(end)) {
    return;
  }
  const std::string path = start ? "from" : "to";
  const std::string group = start ? "Its beginning, not joined" : "Its end, not joined";
  const At whole{path, group, {path, {}, files::Need::Shown, {}}, files::Table<shop::Duct>::kNoun};
  constexpr std::string_view kOpen = files::EndForm<shop::OpenEnd>::kKey;
  constexpr std::string_view kFree = files::EndForm<shop::FreeAir>::kKey;
  if (listing()) {
    PropertyRow out = row(whole, RowEditor::Choice);
    out.value = std::string(free == nullptr ? kOpen : kFree);
    out.optional = false;
    out.keys_in_file = true;
    out.choices.emplace_back(kOpen, "nothing yet: it counts as shut");
    out.choices.emplace_back(
        kFree, start ? "free air: a sweep, a scoop, an open pipe" : "free air: it blows out there");
    rows.push_back(std::move(out));
  } else if (hit(path)) {
    if (text == kOpen) {
      end = shop::OpenEnd{};
    } else if (text == kFree) {
      if (free == nullptr) {
        const shop::Room* room = roomAt(project_, {place.x_um, place.y_um});
        end = shop::FreeAir{room == nullptr ? base::Id() : room->id, {}};
      }
    } else {
      refuse(ErrorCode::Parse, fmt::format("\"{}\" is none of the choices", text), whole);
      return;
    }
    outcome = Result<void>{};
    return;
  }
  if (free == nullptr) {
    return;
  }
  if (start) {
    fields(*free, path, group);
    return;
  }
  const std::string_view noun = files::Table<shop::FreeAir>::kNoun;
  leaf(free->room, At{path + "/room", group, {"room", {}, files::Need::Optional, {}}, noun});
  cover(free->form, At{path + "/form", group, {"form", {}, files::Need::Optional, {}}, noun});
}

void Walk::cover(std::string& form, const At& at) {
  // What covers an outlet stands in two tables; what air goes in through, in a third.
  PropertyRow out = row(at, RowEditor::Choice);
  out.value = form;
  out.choices.emplace_back("", "nothing: a plain end of pipe");
  keysOf("outlet_cap_k", out);
  keysOf("screen_k", out, "Screen: ");
  if (listing()) {
    rows.push_back(std::move(out));
  } else if (hit(at.path)) {
    if (std::none_of(out.choices.begin(), out.choices.end(),
                     [&](const auto& choice) { return choice.first == text; })) {
      refuse(ErrorCode::Reference, fmt::format("\"{}\" is no cap and no screen", text), at);
      return;
    }
    form = std::string(text);
    outcome = Result<void>{};
  }
}

}  // namespace kerfdraft::desk
