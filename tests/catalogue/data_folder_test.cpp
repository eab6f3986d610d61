// Every file of the data folder against its form, its sources against the list of references, and
// docs/catalogue.md against both.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "catalogue/catalogue.h"
#include "catalogue/embedded.h"
#include "catalogue/forms.h"

namespace kerfdraft::catalogue {
namespace {

const std::filesystem::path kRoot = KERFDRAFT_SOURCE_DIR;
constexpr std::string_view kBegin = "<!-- tables: written by the test DataFolder -->\n";
constexpr std::string_view kEnd = "<!-- end of tables -->\n";

std::string readFile(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::set<std::string> filesOnDisk() {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(kRoot / "data")) {
    if (entry.path().extension() == ".csv") {
      names.insert(entry.path().filename().string());
    }
  }
  return names;
}

/// Keys of all entries of docs/references.bib and of the parts that wait to be merged into it.
std::set<std::string> bibKeys() {
  std::vector<std::filesystem::path> files = {kRoot / "docs" / "references.bib"};
  if (std::filesystem::exists(kRoot / "docs" / "references")) {
    for (const auto& entry : std::filesystem::directory_iterator(kRoot / "docs" / "references")) {
      files.push_back(entry.path());
    }
  }
  std::set<std::string> keys;
  for (const auto& file : files) {
    std::istringstream lines(readFile(file));
    for (std::string line; std::getline(lines, line);) {
      const auto open = line.find('{');
      if (line.starts_with('@') && open != std::string::npos) {
        keys.insert(line.substr(open + 1, line.find(',', open) - open - 1));
      }
    }
  }
  return keys;
}

std::string tablesAsMarkdown(const Catalogue& catalogue) {
  std::string text =
      "| file | rows | what it holds | columns beside key, name, source, status, note |\n|---|---|---|---|\n";
  for (const auto& table : catalogue.tables()) {
    std::string columns;
    for (const Column& c : table->form().columns) {
      columns += (columns.empty() ? "" : ", ") + std::string(c.name) + (c.required ? "" : " (may be empty)");
    }
    text += fmt::format("| {}.csv | {} | {} | {} |\n", table->form().name, table->rows().size(),
                        table->form().title, columns);
  }
  return text;
}

TEST(DataFolder, HoldsExactlyTheFilesThatAreBuiltIn) {
  std::set<std::string> built_in;
  for (const EmbeddedFile& file : embeddedFiles()) {
    built_in.emplace(file.name);
  }
  EXPECT_EQ(filesOnDisk(), built_in);
}

TEST(DataFolder, HasAFormForEveryFile) {
  std::set<std::string> formed;
  for (const TableForm& form : forms()) {
    formed.insert(std::string(form.name) + ".csv");
  }
  EXPECT_EQ(filesOnDisk(), formed);
}

TEST(DataFolder, IsBuiltInByteForByte) {
  for (const EmbeddedFile& file : embeddedFiles()) {
    EXPECT_EQ(readFile(kRoot / "data" / file.name), file.text) << file.name;
  }
}

TEST(DataFolder, EveryRowNamesAKnownSourceOrSaysThatThereIsNone) {
  const auto catalogue = Catalogue::shipped();
  ASSERT_TRUE(catalogue) << catalogue.error().text();
  const std::set<std::string> known = bibKeys();
  ASSERT_FALSE(known.empty());
  for (const auto& table : catalogue->tables()) {
    for (const Row& row : table->rows()) {
      if (row.source == "no source") {
        EXPECT_TRUE(row.status == base::SourceStatus::CommonPractice ||
                    row.status == base::SourceStatus::Ours)
            << row.where;
        continue;
      }
      const std::string key = row.source.substr(0, row.source.find(':'));
      EXPECT_TRUE(known.contains(key)) << row.where << ": no entry \"" << key << "\" in the references";
      EXPECT_NE(row.source.find(':'), std::string::npos) << row.where << ": the source names no place";
    }
  }
}

TEST(DataFolder, EveryFileBeginsWithALineThatSaysWhatItHolds) {
  for (const EmbeddedFile& file : embeddedFiles()) {
    EXPECT_TRUE(file.text.starts_with("# ")) << file.name;
  }
}

// With KERFDRAFT_WRITE_DOCS set in the environment the list is written anew instead of compared.
TEST(DataFolder, IsListedInTheDocumentation) {
  const auto catalogue = Catalogue::shipped();
  ASSERT_TRUE(catalogue) << catalogue.error().text();
  const std::filesystem::path path = kRoot / "docs" / "catalogue.md";
  const std::string page = readFile(path);
  const std::size_t begin = page.find(kBegin);
  const std::size_t end = page.find(kEnd);
  ASSERT_NE(begin, std::string::npos);
  ASSERT_NE(end, std::string::npos);
  const std::string expected = tablesAsMarkdown(*catalogue);
  if (std::getenv("KERFDRAFT_WRITE_DOCS") != nullptr) {
    std::ofstream(path, std::ios::binary)
        << page.substr(0, begin + kBegin.size()) << expected << page.substr(end);
    return;
  }
  EXPECT_EQ(page.substr(begin + kBegin.size(), end - begin - kBegin.size()), expected)
      << "run the test once with KERFDRAFT_WRITE_DOCS=1";
}

}  // namespace
}  // namespace kerfdraft::catalogue
