// The command line as values; help and mistakes as text.
#include "cli/options.h"

#include <gtest/gtest.h>

namespace kerfdraft::cli {
namespace {

Command parsed(std::vector<const char*> arguments) {
  arguments.insert(arguments.begin(), "kerfdraft");
  return parseArguments(static_cast<int>(arguments.size()), arguments.data(), {"2026-01-15", false});
}

Answer answer(std::vector<const char*> arguments) {
  const Command command = parsed(std::move(arguments));
  EXPECT_TRUE(std::holds_alternative<Answer>(command));
  return std::get<Answer>(command);
}

constexpr const char* kCommands[] = {"check",   "report",    "accept",    "solve",   "sheet",
                                     "explain", "draw",      "line",      "reading", "traverse",
                                     "new",     "catalogue", "completion"};

TEST(Options, EveryCommandHasHelpWithExamples) {
  for (const char* name : kCommands) {
    const Answer help = answer({name, "--help"});
    EXPECT_EQ(help.code, 0) << name;
    EXPECT_FALSE(help.is_error) << name;
    EXPECT_NE(help.text.find("Examples:\n  kerfdraft " + std::string(name)), std::string::npos) << name;
  }
}

TEST(Options, CompletionKnowsEveryCommandAndOption) {
  const std::string script = bashCompletion();
  for (const char* name : kCommands) {
    EXPECT_NE(script.find(std::string("    ") + name + ") words="), std::string::npos) << name;
  }
  EXPECT_NE(script.find("--gate-sets"), std::string::npos);
}

TEST(Options, DateAndUnitsReachTheCommand) {
  const Command command =
      parsed({"solve", "a.json", "--units", "metric", "--state", "x", "--state", "y", "--csv"});
  const SolveOptions& options = std::get<SolveOptions>(command);
  EXPECT_EQ(options.project, "a.json");
  EXPECT_EQ(options.common.date, "2026-01-15");
  EXPECT_EQ(options.common.units, base::UnitSystem::Metric);
  EXPECT_EQ(options.states, (std::vector<std::string>{"x", "y"}));
  EXPECT_EQ(options.format, Format::Csv);
  EXPECT_EQ(std::get<SheetOptions>(parsed({"sheet", "a.json", "--date", "2026-02-03"})).common.date,
            "2026-02-03");
}

TEST(Options, ReadersAreWords) {
  EXPECT_EQ(std::get<CheckOptions>(parsed({"check", "a.json"})).reader, judge::Reader::Adviser);
  EXPECT_EQ(std::get<ReportOptions>(parsed({"report", "a.json"})).reader, judge::Reader::Owner);
  EXPECT_EQ(std::get<ReportOptions>(parsed({"report", "a.json", "--reader", "inspector"})).reader,
            judge::Reader::Inspector);
  EXPECT_NE(answer({"check", "a.json", "--reader", "boss"}).text.find("owner, adviser, inspector"),
            std::string::npos);
  EXPECT_EQ(answer({"report", "a.json", "--reader", "owner", "--all-readers"}).code, 2);
  const AcceptOptions accept =
      std::get<AcceptOptions>(parsed({"accept", "a.json", "3", "--reason", "why not"}));
  EXPECT_EQ(accept.number, 3);
  EXPECT_EQ(accept.reason, "why not");
}

TEST(Options, DrawSaysWhatIsDrawn) {
  EXPECT_EQ(std::get<DrawOptions>(parsed({"draw", "a.json"})).what, DrawWhat::Plan);
  const Command command = parsed({"draw", "a.json", "--what", "pressure", "--port", "T2", "--paper", "a3",
                                  "--state", "x", "-o", "x.svg", "--plain"});
  const DrawOptions& options = std::get<DrawOptions>(command);
  EXPECT_EQ(options.what, DrawWhat::Pressure);
  EXPECT_EQ(options.port, "T2");
  EXPECT_EQ(options.paper, "a3");
  EXPECT_EQ(options.state, "x");
  EXPECT_EQ(options.common.output, "x.svg");
  EXPECT_EQ(options.common.date, "2026-01-15");
  EXPECT_TRUE(options.plain);
  EXPECT_EQ(answer({"draw", "a.json", "--what", "painting"}).code, 2);
}

TEST(Options, MistakesAreSentencesWithCodeTwo) {
  for (const std::vector<const char*>& wrong : {std::vector<const char*>{"sovle", "a.json"},
                                                {"solve"},
                                                {"solve", "a.json", "--unts", "us"},
                                                {"solve", "a.json", "--units", "imperial"},
                                                {"solve", "a.json", "--csv", "--json"},
                                                {"solve", "a.json", "--date", "yesterday"},
                                                {"solve", "a.json", "--each-gate", "--gate-sets"},
                                                {}}) {
    const Answer mistake = answer(wrong);
    EXPECT_EQ(mistake.code, 2);
    EXPECT_TRUE(mistake.is_error);
    EXPECT_FALSE(mistake.text.empty());
  }
  EXPECT_NE(answer({"sovle"}).text.find("\"solve\""), std::string::npos);
}

}  // namespace
}  // namespace kerfdraft::cli
