// The lock: one writer, and what a crash leaves behind.
#include "files/lock.h"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <fstream>
#include <optional>

#include "files/save.h"
#include "files/source_files.h"

namespace kerfdraft::files {

TEST(Lock, KeepsASecondWriterOutUntilItIsGone) {
  const Scratch scratch("lock");
  const auto project = scratch.path() / "shop.json";
  {
    const auto first = ProjectLock::take(project);
    ASSERT_TRUE(first) << first.error().text();
    EXPECT_FALSE(first->tookOver());
    EXPECT_NE(textOf(lockPath(project)).find(std::to_string(::getpid())), std::string::npos);
    const auto second = ProjectLock::take(project);
    ASSERT_FALSE(second);
    EXPECT_EQ(second.error().code, base::ErrorCode::Conflict);
    EXPECT_NE(second.error().message.find("open already, in process \"" + std::to_string(::getpid())),
              std::string::npos)
        << second.error().text();
  }
  EXPECT_FALSE(std::filesystem::exists(lockPath(project)));
  EXPECT_TRUE(ProjectLock::take(project));
}

TEST(Lock, OfACrashedProcessIsTakenOverAndSaidSo) {
  const Scratch scratch("crash");
  const auto project = scratch.path() / "shop.json";
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    const auto lock = ProjectLock::take(project);
    ::_exit(lock ? 0 : 1);  // without giving it back
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_EQ(status, 0);
  EXPECT_TRUE(std::filesystem::exists(lockPath(project)));
  const auto lock = ProjectLock::take(project);
  ASSERT_TRUE(lock) << lock.error().text();
  EXPECT_TRUE(lock->tookOver());
}

TEST(Lock, OfAnotherComputerIsNotTaken) {
  const Scratch scratch("other");
  const auto project = scratch.path() / "shop.json";
  std::ofstream(lockPath(project)) << "planning-desk-2 4711\n";
  const auto lock = ProjectLock::take(project);
  ASSERT_FALSE(lock);
  EXPECT_NE(lock.error().message.find("\"planning-desk-2\" (process \"4711\")"), std::string::npos)
      << lock.error().text();
  EXPECT_TRUE(std::filesystem::exists(lockPath(project)));
}

TEST(Lock, InAMissingFolderIsASentence) {
  const auto lock = ProjectLock::take("/no/such/folder/shop.json");
  ASSERT_FALSE(lock);
  EXPECT_EQ(lock.error().code, base::ErrorCode::Io);
}

TEST(Lock, MovesWithItsObject) {
  const Scratch scratch("move");
  const auto project = scratch.path() / "shop.json";
  std::optional<ProjectLock> kept;
  {
    auto lock = ProjectLock::take(project);
    ASSERT_TRUE(lock);
    kept.emplace(std::move(*lock));
  }
  EXPECT_FALSE(ProjectLock::take(project));
  kept.reset();
  EXPECT_TRUE(ProjectLock::take(project));
}

}  // namespace kerfdraft::files
