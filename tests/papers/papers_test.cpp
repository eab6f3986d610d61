// The three papers of every example in both unit systems: whole, readable, self-contained, the same each
// time.
#include "papers/papers.h"

#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "drawing/units_text.h"
#include "judge/rule.h"
#include "paper_stage.h"
#include "papers/got.h"
#include "papers/html.h"
#include "papers/text.h"

namespace kerfdraft::papers {
namespace {

using base::UnitSystem;
using judge::Reader;

constexpr std::array kReaders{Reader::Owner, Reader::Adviser, Reader::Inspector};
constexpr std::array kUnits{UnitSystem::Us, UnitSystem::Metric};

template <class Do>
void forEach(const Do& what) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    for (const Reader reader : kReaders) {
      for (const UnitSystem units : kUnits) {
        SCOPED_TRACE(stage.name +
                     (reader == Reader::Owner     ? " owner"
                      : reader == Reader::Adviser ? " adviser"
                                                  : " inspector") +
                     (units == UnitSystem::Us ? " us" : " metric"));
        const PaperInput input = stage.input(reader, units);
        what(stage, input, paperOf(input));
      }
    }
  }
}

TEST(Papers, PagesAreWholeAndSelfContained) {
  forEach([](const auto&, const PaperInput&, const Document& document) {
    const std::string html = toHtml(document);
    EXPECT_EQ(tests::tagFault(html), "");
    // Nothing is fetched: what looks like an address names the SVG language or is the font itself.
    for (const char* fetch : {"<script", "<link", "<img", "src=", "@import", "url(http", "href=\"http"}) {
      EXPECT_EQ(html.find(fetch), std::string::npos) << fetch;
    }
    EXPECT_EQ(tests::count(html, "@font-face"), 2U);
    // Nor does it tell where it was built.
    EXPECT_EQ(html.find(KERFDRAFT_SOURCE_DIR), std::string::npos);
  });
}

TEST(Papers, TheSameBytesEachTime) {
  const tests::PaperStage& stage = tests::paperStage("cabinet-shop");
  for (const Reader reader : kReaders) {
    const PaperInput input = stage.input(reader, UnitSystem::Metric);
    EXPECT_EQ(toHtml(paperOf(input)), toHtml(paperOf(input)));
  }
}

TEST(Papers, HeadingsDescendStepByStep) {
  forEach([](const auto&, const PaperInput&, const Document& document) {
    int level = 1;
    for (const Block& block : document.blocks) {
      if (const auto* heading = std::get_if<Heading>(&block)) {
        EXPECT_LE(heading->level, level + 1) << heading->text;
        EXPECT_FALSE(heading->text.empty());
        level = heading->level;
      }
    }
  });
}

TEST(Papers, EveryFigureHasAWordForWhoCannotSeeIt) {
  forEach([](const auto&, const PaperInput&, const Document& document) {
    for (const Block& block : document.blocks) {
      if (const auto* figure = std::get_if<Figure>(&block)) {
        EXPECT_FALSE(figure->picture.description.empty()) << figure->caption;
        EXPECT_FALSE(figure->caption.empty());
      }
    }
  });
}

TEST(Papers, TheFirstLineSaysDateFilterAndStanding) {
  forEach([](const auto&, const PaperInput& input, const Document& document) {
    ASSERT_EQ(document.first_line.size(), 3U);
    EXPECT_EQ(document.first_line[0], "2026-01-15");
    EXPECT_EQ(document.first_line[1].empty(), input.evidence.pieces().filters.empty());
    EXPECT_NE(document.first_line[2].find("predicted"), std::string::npos);
  });
}

TEST(Papers, NoSentenceIsBroken) {
  forEach([](const auto&, const PaperInput&, const Document& document) {
    const std::string text = toPlainText(document, {100000, true});
    static const std::regex kBroken(R"(\bnan\b|\binf\b|\(not computed\)| ,|,\.|\{|\}|\(\)|\.\.|: \.)");
    std::smatch bad;
    if (std::regex_search(text, bad, kBroken)) {
      const auto at = static_cast<std::size_t>(bad.position());
      ADD_FAILURE() << bad.str() << " in: " << text.substr(at < 60 ? 0 : at - 60, 120);
    }
  });
}

TEST(Papers, EveryRowIsAsWideAsItsTableOrNarrower) {
  forEach([](const auto&, const PaperInput&, const Document& document) {
    for (const Block& block : document.blocks) {
      if (const auto* table = std::get_if<Table>(&block)) {
        for (const auto& row : table->rows) {
          EXPECT_LE(row.size(), table->columns.size()) << table->caption;
          for (std::size_t c = 0; c < row.size(); ++c) {
            EXPECT_TRUE(!row[c].si || table->columns[c].kind) << table->columns[c].title;
          }
        }
      }
    }
  });
}

TEST(OwnersPaper, TellsAtMostThreeThingsAndNoCoefficient) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    for (const UnitSystem units : kUnits) {
      const Document document = ownerPaper(stage.input(Reader::Owner, units));
      const std::string text = toPlainText(document, {100000, true});
      for (const char* word : {"coefficient", "standard deviation", "sigma", "Reynolds", "friction factor"}) {
        EXPECT_EQ(text.find(word), std::string::npos) << stage.name << " " << word;
      }
      bool picture = false;
      for (std::size_t b = 0; b < document.blocks.size(); ++b) {
        picture = picture || std::holds_alternative<Figure>(document.blocks[b]);
        const auto* heading = std::get_if<Heading>(&document.blocks[b]);
        if (heading != nullptr && heading->text.starts_with("Do ")) {
          const auto& list = std::get<List>(document.blocks[b + 1]);
          EXPECT_LE(list.items.size(), 3U);
          EXPECT_TRUE(list.numbered);
        }
      }
      EXPECT_TRUE(picture) << stage.name;
    }
  }
}

TEST(AdvisersPaper, FlowsOfTheTableAreTheSolutions) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(Reader::Adviser, UnitSystem::Us);
    const Document document = adviserPaper(input);
    std::multiset<double> shown;
    for (const Block& block : document.blocks) {
      const auto* table = std::get_if<Table>(&block);
      if (table != nullptr && table->columns.size() == 12 && table->columns[1].title == "machine") {
        for (const auto& row : table->rows) {
          if (row.size() > 2) {
            shown.insert(*row[2].si);
          }
        }
      }
    }
    std::multiset<double> solved;
    for (std::size_t s = 0; s < input.assessment.states.size(); ++s) {
      if (input.assessment.states[s].solution.outcome != network::Outcome::Solved) {
        continue;
      }
      for (const Got& got : gotIn(input, s)) {
        solved.insert(got.margin->flow_m3_s);
      }
    }
    EXPECT_EQ(shown, solved) << stage.name;
    EXPECT_FALSE(shown.empty()) << stage.name;
  }
}

TEST(AdvisersPaper, TellsOfEveryGroupOnce) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(Reader::Adviser, UnitSystem::Metric);
    std::size_t boxes = 0;
    for (const Block& block : adviserPaper(input).blocks) {
      boxes += std::holds_alternative<FindingBox>(block) ? 1U : 0U;
    }
    EXPECT_EQ(boxes, input.verdict.groups.size() + input.verdict.lived_with.size()) << stage.name;
  }
}

TEST(AdvisersPaper, NamesEverySourceInWords) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    bool found = false;
    for (const Block& block : adviserPaper(stage.input(Reader::Adviser, UnitSystem::Us)).blocks) {
      if (const auto* sources = std::get_if<Sources>(&block)) {
        found = !sources->lines.empty();
        for (const SourceLine& line : sources->lines) {
          EXPECT_FALSE(line.text.empty()) << line.key;
        }
      }
    }
    EXPECT_TRUE(found) << stage.name;
  }
}

TEST(InspectorsPaper, EveryHoodThatIsEverOpenHasARowAndPlacesForAPen) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(Reader::Inspector, UnitSystem::Us);
    std::set<std::string> open;
    for (const std::size_t s : usualStates(input)) {
      for (const Got& got : gotIn(input, s)) {
        open.insert(got.name);
      }
    }
    std::set<std::string> rows;
    for (const Block& block : inspectorPaper(input).blocks) {
      const auto* table = std::get_if<Table>(&block);
      if (table != nullptr && table->columns.size() == 11) {
        EXPECT_TRUE(table->to_fill_in);
        for (const auto& row : table->rows) {
          rows.insert(row[1].text);
          EXPECT_TRUE(row[9].text.empty() && !row[9].si);
          EXPECT_TRUE(row[8].text == "met" || row[8].text == "not met" || row[8].text == "cannot conclude" ||
                      row[8].text == "nothing intended");
        }
      }
    }
    EXPECT_EQ(rows, open) << stage.name;
  }
}

TEST(InspectorsPaper, TheIntervalIsNamedOnlyWhereItIsKnown) {
  for (const tests::PaperStage& stage : tests::paperStages()) {
    const PaperInput input = stage.input(Reader::Inspector, UnitSystem::Metric);
    const std::string text = toPlainText(inspectorPaper(input));
    const bool british = input.evidence.project().setting.country == "GB";
    EXPECT_EQ(text.find("2027-03-15") != std::string::npos, british) << stage.name;
  }
}

}  // namespace
}  // namespace kerfdraft::papers
