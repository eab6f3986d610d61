// Fields that are read and changed as one row: texts, choices, coordinates, a fan's curve.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/policies.h"
#include "desk/models/property_walk.h"

namespace kerfdraft::desk {
namespace {

using base::ErrorCode;
using base::Result;

std::vector<std::string_view> parted(std::string_view text, char mark) {
  std::vector<std::string_view> out;
  while (true) {
    const std::size_t at = text.find(mark);
    out.push_back(trimmedText(text.substr(0, at)));
    if (at == std::string_view::npos) {
      return out;
    }
    text.remove_prefix(at + 1);
  }
}

}  // namespace

std::string_view trimmedText(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t\r");
  if (begin == std::string_view::npos) {
    return {};
  }
  return text.substr(begin, text.find_last_not_of(" \t\r") - begin + 1);
}

void Walk::leaf(std::string& value, const At& at) {
  const std::string_view table = tableOfKey(at.noun, at.info.key);
  if (listing()) {
    rows.push_back(row(at, !table.empty()                                 ? RowEditor::Choice
                           : at.info.limits.text == files::TextRule::Note ? RowEditor::Lines
                                                                          : RowEditor::Text));
    rows.back().value = value;
    if (!table.empty()) {
      rows.back().choices.emplace_back("", at.noun == "free-air" ? "a plain end of pipe" : "not said");
      keysOf(table, rows.back());
    }
    return;
  }
  if (!hit(at.path)) {
    return;
  }
  if (text.empty() && at.info.need != files::Need::Required) {
    value.clear();
  } else {
    if (std::string wrong = files::textProblem(text, at.info.limits.text); !wrong.empty()) {
      refuse(base::ErrorCode::Parse, std::move(wrong), at);
      return;
    }
    if (!table.empty()) {
      if (const auto known = catalogue_.row(table, text); !known) {
        refuse(known.error().code, known.error().message, at);
        return;
      }
    }
    value = std::string(text);
  }
  outcome = base::Result<void>{};
}

void Walk::leaf(base::Id& value, const At& at) {
  std::vector<std::pair<std::string, std::string>> choices;
  if (at.info.key == "circuit") {
    choices.emplace_back("", "not known");
    for (const shop::Circuit& circuit : project_.circuits) {
      choices.emplace_back(circuit.id.text(), circuit.label);
    }
  } else {
    choices.emplace_back("", "outdoors");
    for (const shop::Room& room : project_.rooms) {
      choices.emplace_back(room.id.text(), room.label);
    }
  }
  if (listing()) {
    rows.push_back(row(at, RowEditor::Choice));
    rows.back().value = value.valid() ? value.text() : std::string();
    rows.back().optional = false;
    rows.back().choices = std::move(choices);
  } else if (hit(at.path)) {
    const bool known =
        std::any_of(choices.begin(), choices.end(), [&](const auto& choice) { return choice.first == text; });
    if (!known) {
      refuse(base::ErrorCode::Reference, fmt::format("\"{}\" is none of the choices", text), at);
      return;
    }
    value = text.empty() ? base::Id() : *base::Id::parse(text);
    outcome = base::Result<void>{};
  }
}

void Walk::leaf(bool& value, const At& at) {
  if (listing()) {
    rows.push_back(row(at, RowEditor::YesNo));
    rows.back().value = value ? "yes" : "no";
  } else if (hit(at.path)) {
    if (text != "yes" && text != "no") {
      refuse(base::ErrorCode::Parse, fmt::format("\"{}\" is neither yes nor no", text), at);
      return;
    }
    value = text == "yes";
    outcome = base::Result<void>{};
  }
}

void Walk::coordinate(std::int64_t& um, const At& at, std::string_view axis) {
  const std::string_view words = axis == "x" ? "east" : axis == "y" ? "north" : "above the floor";
  const std::string path = fmt::format("{}/{}", at.path, axis);
  if (listing()) {
    rows.push_back(row(at, RowEditor::Text));
    rows.back().path = path;
    rows.back().name += fmt::format(", {}", words);
    rows.back().key += fmt::format(", {}", axis);
    if (axis != "z") {
      rows.back().help += fmt::format(" Counted to the {} from the zero of the rulers.", words);
    }
    rows.back().value = files::coordinateText(um, project_.setting.units);
    rows.back().optional = false;
  } else if (hit(path)) {
    const base::Result<std::int64_t> read = files::parseCoordinate(text);
    if (!read) {
      refuse(read.error().code, read.error().message, at);
      return;
    }
    um = *read;
    outcome = base::Result<void>{};
  }
}

void Walk::keysOf(std::string_view table, PropertyRow& row, std::string_view before) const {
  row.keys_in_file = true;
  if (const auto found = catalogue_.table(table)) {
    for (const catalogue::Row& each : (*found)->rows()) {
      row.choices.emplace_back(each.key, fmt::format("{}{}", before, each.name));
    }
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

void Walk::leaf(std::vector<shop::Policy>& list, const At& at) {
  for (const catalogue::PolicySubject& subject : catalogue::policySubjects(catalogue_)) {
    const std::string path = fmt::format("{}/{}", at.path, subject.key);
    const auto mine = std::find_if(list.begin(), list.end(),
                                   [&](const shop::Policy& each) { return each.subject == subject.key; });
    if (listing()) {
      PropertyRow out = row(at, RowEditor::Choice);
      out.path = path;
      out.group = nameOfField(at.noun, at.info.key);
      out.name = subject.name;
      out.help = "Which book or law is followed here.";
      out.key = fmt::format("policies, {}", subject.key);
      out.keys_in_file = true;
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

}  // namespace kerfdraft::desk
