// Every row of every kind of thing in every example: read, changed, read back.
#include "desk/models/properties.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <random>

#include "files/save.h"
#include "shop/edit.h"
#include "shop/invariants.h"
#include "support/projects.h"
#include "support/shipped.h"

namespace kerfdraft::desk {
namespace {

using ::testing::HasSubstr;

using support::shipped;

std::vector<shop::Project> allExamples() {
  std::vector<shop::Project> out;
  for (const auto& entry : std::filesystem::directory_iterator(KERFDRAFT_EXAMPLES)) {
    if (entry.path().extension() == ".json") {
      out.push_back(*files::loadProject(entry.path()));
    }
  }
  return out;
}

/// One of each kind, and the shop itself.
std::vector<std::optional<Thing>> thingsOf(const shop::Project& project) {
  std::vector<std::optional<Thing>> out{std::nullopt};
  const auto add = [&](base::Id id) { out.emplace_back(*thingOf(project, id)); };
  for (const shop::Room& room : project.rooms) {
    add(room.id);
    for (const auto& each : room.openings) {
      add(each.id);
    }
    for (const auto& each : room.obstacles) {
      add(each.id);
    }
  }
  for (const shop::Machine& machine : project.machines) {
    add(machine.id);
    for (const shop::Port& port : machine.ports) {
      add(port.id);
    }
  }
  for (const shop::Collector& collector : project.collectors) {
    add(collector.id);
  }
  for (const shop::Duct& duct : project.ducts) {
    add(duct.id);
    for (const shop::Corner& corner : duct.corners) {
      add(corner.id);
    }
    for (const auto& each : duct.gates) {
      add(each.id);
    }
    for (const auto& each : duct.taps) {
      add(each.id);
    }
    for (const auto& each : duct.cleanouts) {
      add(each.id);
    }
  }
  return out;
}

TEST(Properties, WhatARowShowsIsWhatItTakes) {
  int rows = 0;
  for (const shop::Project& project : allExamples()) {
    base::SeededIds ids(5);
    for (const std::optional<Thing>& thing : thingsOf(project)) {
      const auto form = formOf(project, shipped(), thing);
      ASSERT_TRUE(form);
      EXPECT_FALSE(form->title.empty());
      std::set<std::string> paths;
      for (const PropertyRow& row : form->rows) {
        EXPECT_TRUE(paths.insert(row.path).second) << form->title << " has two rows " << row.path;
        EXPECT_FALSE(row.name.empty());
        if (row.editor == RowEditor::Add || row.editor == RowEditor::Remove) {
          continue;
        }
        EXPECT_FALSE(row.help.empty()) << form->title << " " << row.path;
        ++rows;
        const auto change = changeProperty(project, shipped(), thing, row.path, row.value, ids);
        ASSERT_TRUE(change) << form->title << " " << row.path << " \"" << row.value
                            << "\": " << change.error().text();
        const auto after = shop::applyEdits(project, change->edits);
        ASSERT_TRUE(after) << form->title << " " << row.path << ": " << after.error().text();
        EXPECT_EQ(*after, project) << form->title << " " << row.path;
      }
    }
  }
  EXPECT_GT(rows, 5000);
}

TEST(Properties, AnExampleIsSomethingThatIsTaken) {
  int examples = 0;
  for (const shop::Project& project : allExamples()) {
    base::SeededIds ids(5);
    for (const std::optional<Thing>& thing : thingsOf(project)) {
      const auto form = formOf(project, shipped(), thing);
      ASSERT_TRUE(form);
      for (const PropertyRow& row : form->rows) {
        EXPECT_FALSE(row.editor == RowEditor::Quantity && row.example.empty()) << row.path << " has none";
        if (!row.example.empty()) {
          const auto change = changeProperty(project, shipped(), thing, row.path, row.example, ids);
          EXPECT_TRUE(change) << row.path << " " << row.example << ": " << change.error().text();
          ++examples;
        }
      }
    }
  }
  EXPECT_GT(examples, 1000);
}

TEST(Properties, AChangedFigureReadsBackAsTyped) {
  support::ProjectBuilder builder;
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  base::SeededIds ids(5);
  const std::optional<Thing> thing = thingOf(builder.project, saw.machine);
  const auto change = changeProperty(builder.project, shipped(), thing, "ports/0/bore", "4 1/2 in", ids);
  const auto typed = changeProperty(builder.project, shipped(), thing, "ports/0/bore", "4.5 in", ids);
  ASSERT_TRUE(typed) << typed.error().text();
  EXPECT_FALSE(change && change->edits.empty());
  const auto after = shop::applyEdits(builder.project, typed->edits);
  ASSERT_TRUE(after);
  EXPECT_EQ(after->machines[0].ports[0].bore.text(), "4.5 in");
  const auto measured = changeProperty(*after, shipped(), thing, "ports/0/bore#standing", "measured", ids);
  ASSERT_TRUE(measured);
  EXPECT_EQ(shop::applyEdits(*after, measured->edits)->machines[0].ports[0].bore.standing(),
            base::Standing::Measured);
}

TEST(Properties, AnotherFigureIsNoLongerThePublishedOne) {
  support::ProjectBuilder builder;
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  builder.project.machines[0].floor =
      *base::Given<base::VolumeFlow>::parse("350 cfm", base::Standing::Published, "some book");
  base::SeededIds ids(5);
  const auto change = changeProperty(builder.project, shipped(), thingOf(builder.project, saw.machine),
                                     "floor", "400 cfm", ids);
  ASSERT_TRUE(change);
  const auto after = shop::applyEdits(builder.project, change->edits);
  EXPECT_EQ(after->machines[0].floor->standing(), base::Standing::Assumed);
  EXPECT_TRUE(after->machines[0].floor->source().empty());
  const auto emptied = changeProperty(*after, shipped(), thingOf(*after, saw.machine), "floor", "", ids);
  ASSERT_TRUE(emptied);
  EXPECT_FALSE(shop::applyEdits(*after, emptied->edits)->machines[0].floor);
}

TEST(Properties, RefusesWithAPlaceAndASentence) {
  support::ProjectBuilder builder;
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  base::SeededIds ids(5);
  const std::optional<Thing> thing = thingOf(builder.project, saw.machine);
  for (const auto& [path, text] : {std::pair{"ports/0/bore", "wide"},
                                   {"ports/0/bore", ""},
                                   {"ports/0/bore", "100 kg"},
                                   {"ports/0/bore", "9 m"},
                                   {"label", ""},
                                   {"kind", "no-such-kind"},
                                   {"guard", "perhaps"},
                                   {"room", "0001"},
                                   {"at/x", "east"},
                                   {"nothing", "1"},
                                   {"ports/7/bore", "100 mm"},
                                   {"floor#standing", "measured"},
                                   {"ports/0/maker", "450 cfm"},
                                   {"ports/0/maker", "1 m at 2 Pa"}}) {
    const auto change = changeProperty(builder.project, shipped(), thing, path, text, ids);
    ASSERT_FALSE(change) << path << " " << text;
    EXPECT_FALSE(change.error().message.empty());
  }
}

TEST(Properties, PutsPartsInAndTakesThemAway) {
  support::ProjectBuilder builder;
  const base::Id unit = builder.collector(support::at(4, 1, 2), "150 mm");
  base::SeededIds ids(5);
  shop::Project project = builder.project;
  const auto act = [&](std::string_view path, std::string_view text) {
    const auto change = changeProperty(project, shipped(), thingOf(project, unit), path, text, ids);
    ASSERT_TRUE(change) << path << ": " << change.error().text();
    const auto after = shop::applyEdits(project, change->edits);
    ASSERT_TRUE(after) << path << ": " << after.error().text();
    project = *after;
  };
  const std::size_t filters = project.collectors[0].filters.size();
  act("filters/add", "");
  act("separators/add", "");
  act("separators/add", "");
  act("separators/1/kind", "cyclone");
  act("separators/1/earlier", "");
  ASSERT_EQ(project.collectors[0].separators.size(), 2U);
  EXPECT_EQ(project.collectors[0].separators[0].kind, "cyclone");
  act("filters/0/seasoned", "750 m3/h at 300 Pa");
  EXPECT_NEAR(project.collectors[0].filters[0].seasoned->loss.si(), 300, 1e-9);
  act("separators/1/remove", "");
  act("filters/0/remove", "");
  EXPECT_EQ(project.collectors[0].separators.size(), 1U);
  EXPECT_EQ(project.collectors[0].filters.size(), filters);
}

TEST(Properties, CircuitsArePutInNamedAndTakenAway) {
  support::ProjectBuilder builder;
  const shop::PortRef saw = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  base::SeededIds ids(5);
  shop::Project project = builder.project;
  const auto act = [&](const std::optional<Thing>& thing, std::string_view path, std::string_view text) {
    const auto change = changeProperty(project, shipped(), thing, path, text, ids);
    ASSERT_TRUE(change) << path << ": " << change.error().text();
    const auto after = shop::applyEdits(project, change->edits);
    ASSERT_TRUE(after) << path << ": " << after.error().text();
    project = *after;
  };
  act(std::nullopt, "circuits/add", "");
  act(std::nullopt, "circuits/add", "");
  ASSERT_EQ(project.circuits.size(), 2U);
  EXPECT_EQ(project.circuits[1].label, "K2");
  act(std::nullopt, "circuits/1/breaker", "16 A");
  EXPECT_EQ(project.circuits[1].breaker->text(), "16 A");
  act(thingOf(project, saw.machine), "circuit", project.circuits[1].id.text());
  EXPECT_EQ(project.machines[0].circuit, project.circuits[1].id);
  EXPECT_FALSE(changeProperty(project, shipped(), std::nullopt, "circuits/0/voltage", "9 kV", ids));
  act(std::nullopt, "circuits/1/remove", "");
  ASSERT_EQ(project.circuits.size(), 1U);
  EXPECT_FALSE(project.machines[0].circuit.valid()) << "a circuit that is gone feeds nothing";
}

TEST(Properties, AFreeEndSaysItsHoodAndRoom) {
  support::ProjectBuilder builder;
  const base::Id room = builder.room(6, 4, 3);
  const base::Id duct =
      builder.duct(shop::FreeAir{}, shop::FreeAir{}, {support::at(1, 1, 1), support::at(3, 1, 1)}, "100 mm");
  base::SeededIds ids(5);
  shop::Project project = builder.project;
  const std::string hood = (*shipped().table("hoods"))->rows().front().key;
  for (const auto& [path, text] :
       {std::pair{"from/form", hood}, {"from/room", room.text()}, {"to/room", room.text()}}) {
    const auto change = changeProperty(project, shipped(), thingOf(project, duct), path, text, ids);
    ASSERT_TRUE(change) << path << ": " << change.error().text();
    const auto after = shop::applyEdits(project, change->edits);
    ASSERT_TRUE(after) << path << ": " << after.error().text();
    project = *after;
  }
  EXPECT_EQ(std::get<shop::FreeAir>(project.ducts[0].from), (shop::FreeAir{room, hood}));
  EXPECT_EQ(std::get<shop::FreeAir>(project.ducts[0].to), (shop::FreeAir{room, {}}));
  EXPECT_FALSE(changeProperty(project, shipped(), thingOf(project, duct), "from/form", "no-hood", ids));
}

TEST(Properties, AnOpenEndBecomesAnOutletWithACap) {
  support::ProjectBuilder builder;
  const base::Id room = builder.room(6, 4, 3);
  const base::Id duct =
      builder.duct(shop::OpenEnd{}, shop::OpenEnd{}, {support::at(1, 1, 1), support::at(9, 1, 1)}, "100 mm");
  base::SeededIds ids(5);
  shop::Project project = builder.project;
  const auto act = [&](std::string_view path, std::string_view text) {
    const auto change = changeProperty(project, shipped(), thingOf(project, duct), path, text, ids);
    ASSERT_TRUE(change) << path << ": " << change.error().text();
    const auto after = shop::applyEdits(project, change->edits);
    ASSERT_TRUE(after) << path << ": " << after.error().text();
    project = *after;
  };
  const auto rowOf = [&](std::string_view path) {
    const auto form = formOf(project, shipped(), thingOf(project, duct));
    const auto at = std::find_if(form->rows.begin(), form->rows.end(),
                                 [&](const PropertyRow& row) { return row.path == path; });
    return at == form->rows.end() ? std::optional<PropertyRow>() : std::optional(*at);
  };
  EXPECT_FALSE(rowOf("to/form"));
  ASSERT_TRUE(rowOf("to"));
  EXPECT_EQ(rowOf("to")->value, "open");
  act("to", "free-air");
  EXPECT_EQ(std::get<shop::FreeAir>(project.ducts[0].to), shop::FreeAir{}) << "it lies beyond the walls";
  act("from", "free-air");
  EXPECT_EQ(std::get<shop::FreeAir>(project.ducts[0].from), (shop::FreeAir{room, {}})) << "inside them";
  // Every cap and every screen of the tables can be chosen, and nothing else.
  const auto cover = rowOf("to/form");
  ASSERT_TRUE(cover);
  EXPECT_EQ(cover->choices.size(), 1 + (*shipped().table("outlet_cap_k"))->rows().size() +
                                       (*shipped().table("screen_k"))->rows().size());
  for (const auto& [key, words] : cover->choices) {
    EXPECT_FALSE(words.empty());
    act("to/form", key);
    EXPECT_EQ(std::get<shop::FreeAir>(project.ducts[0].to).form, key);
  }
  EXPECT_FALSE(changeProperty(project, shipped(), thingOf(project, duct), "to/form", "bellmouth", ids))
      << "that takes air in";
  EXPECT_FALSE(changeProperty(project, shipped(), thingOf(project, duct), "to", "port", ids));
  act("to", "free-air");
  EXPECT_FALSE(std::get<shop::FreeAir>(project.ducts[0].to).form.empty()) << "chosen again, it loses nothing";
  act("to", "open");
  EXPECT_TRUE(std::holds_alternative<shop::OpenEnd>(project.ducts[0].to));
}

TEST(Properties, WoodsAreChosenByName) {
  support::ProjectBuilder builder;
  builder.project.setting.woods = {"beech", "ash", "a-wood-of-another-table"};
  base::SeededIds ids(5);
  const auto form = formOf(builder.project, shipped(), std::optional<Thing>());
  const auto row = std::find_if(form->rows.begin(), form->rows.end(),
                                [](const PropertyRow& each) { return each.path == "setting/woods"; });
  ASSERT_NE(row, form->rows.end());
  EXPECT_EQ(row->editor, RowEditor::Several);
  EXPECT_EQ(row->value, "beech, ash, a-wood-of-another-table");
  EXPECT_THAT(row->choices,
              ::testing::Contains(std::pair<std::string, std::string>{"black-walnut", "Black walnut"}));
  EXPECT_EQ(row->choices.size(), (*shipped().table("woods"))->rows().size() + 1);
  const auto woods = [&](std::string_view text) {
    const auto change =
        changeProperty(builder.project, shipped(), std::optional<Thing>(), "setting/woods", text, ids);
    return change ? shop::applyEdits(builder.project, change->edits)->setting.woods
                  : std::vector<std::string>{"refused"};
  };
  EXPECT_THAT(woods("a-wood-of-another-table, beech, black-walnut"),
              ::testing::ElementsAre("a-wood-of-another-table", "beech", "black-walnut"));
  EXPECT_THAT(woods(""), ::testing::IsEmpty());
  EXPECT_THAT(woods("beech, no-wood"), ::testing::ElementsAre("refused"));
}

TEST(Properties, AFansCurveIsTypedLineByLine) {
  support::ProjectBuilder builder;
  const base::Id unit = builder.collector(support::at(4, 1, 2), "150 mm");
  base::SeededIds ids(5);
  const std::optional<Thing> thing = thingOf(builder.project, unit);
  const auto change =
      changeProperty(builder.project, shipped(), thing, "rating/points",
                     "0 cfm, 6.3 in w.g.\n350 cfm, 4.7 in w.g., 1 hp\n\n700 cfm; 0 in w.g.", ids);
  ASSERT_TRUE(change) << change.error().text();
  const auto after = shop::applyEdits(builder.project, change->edits);
  ASSERT_TRUE(after) << after.error().text();
  const auto& points = after->collectors[0].rating.points;
  ASSERT_EQ(points.size(), 3U);
  EXPECT_EQ(points[1].power->text(), "1 hp");
  EXPECT_EQ(points[2].flow.text(), "700 cfm");
  const auto wrong = changeProperty(builder.project, shipped(), thing, "rating/points",
                                    "0 cfm, 6 in w.g.\n300, 5 in w.g.", ids);
  ASSERT_FALSE(wrong);
  EXPECT_THAT(wrong.error().message, HasSubstr("line 2"));
}

TEST(Properties, SeveralThingsChangeTogether) {
  support::ProjectBuilder builder;
  const shop::PortRef a = builder.machine("", support::at(1, 1, 0.5), "100 mm");
  const shop::PortRef b = builder.machine("", support::at(3, 1, 0.5), "120 mm");
  base::SeededIds ids(5);
  const std::vector<Thing> both{*thingOf(builder.project, a.machine), *thingOf(builder.project, b.machine)};
  const auto form = formOf(builder.project, shipped(), both);
  ASSERT_TRUE(form);
  const auto bore = std::find_if(form->rows.begin(), form->rows.end(),
                                 [](const PropertyRow& row) { return row.path == "ports/0/bore"; });
  ASSERT_NE(bore, form->rows.end());
  EXPECT_TRUE(bore->value.empty()) << "they differ";
  EXPECT_TRUE(std::none_of(form->rows.begin(), form->rows.end(),
                           [](const PropertyRow& row) { return row.path == "label"; }));
  const auto change = changeProperty(builder.project, shipped(), both, "ports/0/bore", "5 in", ids);
  ASSERT_TRUE(change);
  const auto after = shop::applyEdits(builder.project, change->edits);
  ASSERT_TRUE(after);
  EXPECT_EQ(after->machines[0].ports[0].bore.text(), "5 in");
  EXPECT_EQ(after->machines[1].ports[0].bore.text(), "5 in");
}

TEST(Properties, AStateSaysItsGatesDoorsAndWhatRuns) {
  for (const shop::Project& project : allExamples()) {
    for (const shop::State& state : project.states) {
      const auto form = formOfState(project, state.id);
      ASSERT_TRUE(form);
      for (const PropertyRow& row : form->rows) {
        const auto change = changeStateProperty(project, state.id, row.path, row.value);
        ASSERT_TRUE(change) << row.path << ": " << change.error().text();
        const auto after = shop::applyEdits(project, change->edits);
        ASSERT_TRUE(after) << row.path;
        // A gate that is shut may be written down as such.
        if (!row.path.starts_with("gate/")) {
          EXPECT_EQ(*after, project) << state.name << " " << row.path;
        }
      }
    }
  }
}

// Whatever is typed anywhere: a sentence, or a sound project that reads back.
TEST(Properties, AnyTextIsTakenOrRefused) {
  const std::vector<std::string> texts{"",
                                       "0",
                                       "-1",
                                       "yes",
                                       "no",
                                       "100 mm",
                                       "4 in",
                                       "1e9 m",
                                       "nan m",
                                       "inf cfm",
                                       "400 cfm",
                                       "2 kPa",
                                       "50 %",
                                       "abc",
                                       "cyclone",
                                       "spiral-galvanized",
                                       "0.5",
                                       "90 deg",
                                       "\n",
                                       "\xff\xfe",
                                       "T1",
                                       "450 cfm at 1 in w.g.",
                                       "0 cfm, 5 in w.g.\n500 cfm, 0 in w.g.",
                                       "20 °C"};
  std::mt19937 random(11);
  int taken = 0;
  int refused = 0;
  for (const shop::Project& project : allExamples()) {
    base::SeededIds ids(5);
    const auto things = thingsOf(project);
    std::uniform_int_distribution<std::size_t> which(0, things.size() - 1);
    for (int n = 0; n < 400; ++n) {
      const std::optional<Thing>& thing = things[which(random)];
      const auto form = formOf(project, shipped(), thing);
      ASSERT_TRUE(form);
      const PropertyRow& row =
          form->rows[std::uniform_int_distribution<std::size_t>(0, form->rows.size() - 1)(random)];
      const std::string& text =
          texts[std::uniform_int_distribution<std::size_t>(0, texts.size() - 1)(random)];
      const auto change = changeProperty(project, shipped(), thing, row.path, text, ids);
      const auto after = change ? shop::applyEdits(project, change->edits)
                                : base::Result<shop::Project>(base::Failure(change.error()));
      if (!after) {
        EXPECT_FALSE(after.error().message.empty());
        ++refused;
        continue;
      }
      ++taken;
      EXPECT_TRUE(shop::checkProject(*after).empty()) << row.path << " " << text;
      EXPECT_TRUE(files::readProject(files::writeProject(*after), "after")) << row.path << " " << text;
    }
  }
  EXPECT_GT(taken, 100);
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace kerfdraft::desk
