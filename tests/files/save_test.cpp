// Saving: whole files only, the previous one kept, nothing written that could not be opened again.
#include "files/save.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <algorithm>
#include <csignal>
#include <fstream>

#include "files/source_files.h"

namespace kerfdraft::files {
namespace {

shop::Project minimal() {
  const ReadProject read = loadProject(sourcePath("tests/files/data/minimal.json"));
  EXPECT_TRUE(read) << read.error().front().text();
  return read.value_or(shop::Project{});
}

std::vector<std::string> filesIn(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

TEST(Save, WritesAndReadsBackTheSameProject) {
  const Scratch scratch("save");
  const auto file = scratch.path() / "shop.json";
  const shop::Project project = minimal();
  ASSERT_TRUE(saveProject(project, file));
  const ReadProject back = loadProject(file);
  ASSERT_TRUE(back);
  EXPECT_EQ(*back, project);
  EXPECT_EQ(filesIn(scratch.path()), std::vector<std::string>{"shop.json"});
}

TEST(Save, KeepsThePreviousFileOnce) {
  const Scratch scratch("backup");
  const auto file = scratch.path() / "shop.json";
  shop::Project project = minimal();
  for (const char* name : {"first", "second", "third"}) {
    project.setting.name = name;
    ASSERT_TRUE(saveProject(project, file));
  }
  EXPECT_EQ(loadProject(file)->setting.name, "third");
  EXPECT_EQ(loadProject(backupPath(file))->setting.name, "second");
  EXPECT_EQ(filesIn(scratch.path()), (std::vector<std::string>{"shop.json", "shop.json.bak"}));
}

TEST(Save, RefusesWhatCouldNotBeOpenedAgainAndLeavesTheFileAlone) {
  const Scratch scratch("refuse");
  const auto file = scratch.path() / "shop.json";
  shop::Project project = minimal();
  ASSERT_TRUE(saveProject(project, file));
  const std::string before = textOf(file);
  project.states[0].gates[0].gate = base::Id(77);
  const auto saved = saveProject(project, file);
  ASSERT_FALSE(saved);
  EXPECT_NE(saved.error().message.find("000000000000004d"), std::string::npos) << saved.error().text();
  EXPECT_EQ(textOf(file), before);
  EXPECT_EQ(filesIn(scratch.path()), std::vector<std::string>{"shop.json"});
}

TEST(Save, AnUnfinishedDrawingIsKeptBesideTheFile) {
  const Scratch scratch("auto");
  const auto file = scratch.path() / "shop.json";
  shop::Project project = minimal();
  project.ducts[0].corners.resize(1);  // could not be saved
  ASSERT_TRUE(saveAutomatically(project, file));
  ASSERT_TRUE(saveAutomatically(project, file));
  EXPECT_EQ(filesIn(scratch.path()), std::vector<std::string>{"shop.json.autosave"});
}

TEST(Save, KeepsAccessRightsAndSymbolicLinks) {
  const Scratch scratch("link");
  const auto file = scratch.path() / "real.json";
  ASSERT_TRUE(saveProject(minimal(), file));
  ASSERT_EQ(::chmod(file.c_str(), 0640), 0);
  const auto link = scratch.path() / "link.json";
  std::filesystem::create_symlink("real.json", link);
  ASSERT_TRUE(saveProject(minimal(), link));
  EXPECT_TRUE(std::filesystem::is_symlink(link));
  struct stat found {};
  ASSERT_EQ(::stat(file.c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777U, 0640U);
}

TEST(Save, AFullDiskLeavesTheOldFileWhole) {
  const Scratch scratch("full");
  const auto file = scratch.path() / "shop.json";
  ASSERT_TRUE(replaceFile(file, "old", Backup::None));
  // A limit on the size of files makes the write fail half-way, as a full disk does.
  rlimit before{};
  ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
  const auto signal_before = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{1000, before.rlim_max};
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
  const auto saved = replaceFile(file, std::string(5000, 'x'), Backup::Keep);
  ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
  std::signal(SIGXFSZ, signal_before);
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().code, base::ErrorCode::Io);
  EXPECT_EQ(textOf(file), "old");
  EXPECT_EQ(filesIn(scratch.path()), std::vector<std::string>{"shop.json"});
}

TEST(Save, FoldersAndMissingFoldersAreSentences) {
  const Scratch scratch("folder");
  const auto onto = replaceFile(scratch.path(), "x", Backup::Keep);
  ASSERT_FALSE(onto);
  EXPECT_NE(onto.error().message.find("not an ordinary file"), std::string::npos);
  EXPECT_FALSE(replaceFile(scratch.path() / "no" / "shop.json", "x", Backup::Keep));
  const auto load = loadProject(scratch.path() / "no.json");
  ASSERT_FALSE(load);
  EXPECT_EQ(load.error().front().code, base::ErrorCode::Io);
  EXPECT_FALSE(loadProject(scratch.path()));
}

TEST(Save, TooLargeAFileIsNotReadToItsEnd) {
  const Scratch scratch("large");
  std::ofstream(scratch.path() / "large") << std::string(1000, ' ');
  EXPECT_TRUE(readFile(scratch.path() / "large", 1000));
  EXPECT_FALSE(readFile(scratch.path() / "large", 999));
}

}  // namespace kerfdraft::files
