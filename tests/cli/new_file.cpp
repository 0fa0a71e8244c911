// Files that appear whole or not at all, and what is never written over.
#include "cli/new_file.h"

#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Folder;

namespace fs = std::filesystem;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

std::string read(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

int entries(const Folder& folder) {
  int count = 0;
  for ([[maybe_unused]] const auto& entry : fs::directory_iterator(folder.path())) ++count;
  return count;
}

// A folder with a card in it, and calls that write beside it.
struct Bench {
  Folder folder;
  std::string card = folder.file("card.toml", "the card");

  [[nodiscard]] NewFile file(const fs::path& path, bool force = false) const {
    return {.path = path.string(), .force = force, .original = card};
  }
  [[nodiscard]] NewFile beside(const std::string& name, bool force = false) const {
    return file(folder.path() / name, force);
  }
};

// Refused before and while writing, with force and without, and nothing changed.
void check_refused(const Bench& bench, const fs::path& path, std::string_view told) {
  const int before = entries(bench.folder);
  for (const bool force : {false, true}) {
    INFO(path.string());
    CHECK(has(trouble_with(bench.file(path, force)), told));
    CHECK(has(write_new_file(bench.file(path, force), "new"), told));
  }
  CHECK(read(bench.card) == "the card");
  CHECK(entries(bench.folder) == before);
}

}  // namespace

TEST_CASE(
    "a new file holds all of its text, with the mode that new files get, and nothing is left beside it") {
  const Bench bench;
  const std::string text = std::string(300'000, 'x') + "\n";
  const mode_t mask = ::umask(027);
  CHECK(trouble_with(bench.beside("new.toml")).empty());
  CHECK(write_new_file(bench.beside("new.toml"), text).empty());
  ::umask(mask);
  CHECK(read(bench.folder.path() / "new.toml") == text);
  CHECK(fs::status(bench.folder.path() / "new.toml").permissions() == fs::perms(0640));
  CHECK(entries(bench.folder) == 2);
}

TEST_CASE("a file that is there is kept unless told otherwise") {
  const Bench bench;
  const std::string there = bench.folder.file("there.toml", "kept");
  CHECK(has(trouble_with(bench.beside("there.toml")), "is there already, and was left as it is; --force"));
  CHECK(has(write_new_file(bench.beside("there.toml"), "new"), "is there already"));
  CHECK(read(there) == "kept");
  CHECK(trouble_with(bench.beside("there.toml", true)).empty());
  CHECK(write_new_file(bench.beside("there.toml", true), "new").empty());
  CHECK(read(there) == "new");
  CHECK(entries(bench.folder) == 2);
}

TEST_CASE("the card itself is never written over, by whatever name it is called") {
  const Bench bench;
  const fs::path folder = bench.folder.path();
  fs::create_directory(folder / "sub");
  fs::create_symlink(bench.card, folder / "link.toml");
  fs::create_symlink(folder / "link.toml", folder / "link to link.toml");
  fs::create_symlink(folder, folder / "folder");
  fs::create_hard_link(bench.card, folder / "hard.toml");
  for (const fs::path& path :
       {fs::path(bench.card), folder / "link.toml", folder / "link to link.toml", folder / "hard.toml",
        folder / "." / "card.toml", folder / "sub" / ".." / "card.toml", folder / "folder" / "card.toml"}) {
    check_refused(bench, path, "is the card itself, which is never written over");
  }
  NewFile of_link = bench.file(bench.card, true);
  of_link.original = (folder / "link.toml").string();
  CHECK(has(write_new_file(of_link, "new"), "is the card itself"));
  CHECK(read(bench.card) == "the card");
}

TEST_CASE("what is no plain file is not written over") {
  const Bench bench;
  const fs::path folder = bench.folder.path();
  fs::create_directory(folder / "sub");
  fs::create_symlink(folder / "nowhere", folder / "dangling.toml");
  fs::create_symlink(folder / "loop.toml", folder / "loop.toml");
  REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
  check_refused(bench, folder, "is a folder, not a file to write");
  check_refused(bench, folder / "sub" / "", "is a folder, not a file to write");
  check_refused(bench, folder / "dangling.toml", "is a link that leads nowhere");
  check_refused(bench, folder / "loop.toml", "is a link that leads nowhere");
  check_refused(bench, folder / "pipe", "is no plain file");
  check_refused(bench, "/dev/null", "is no plain file");
  CHECK(fs::is_character_file("/dev/null"));
}

TEST_CASE("where nothing can be written it says why") {
  const Bench bench;
  const fs::path folder = bench.folder.path();
  check_refused(bench, "", "The name of the file to write is empty");
  check_refused(bench, folder / "missing" / "new.toml", "There is no folder");
  check_refused(bench, folder / "missing" / "", "There is no folder");
  check_refused(bench, fs::path(bench.card) / "new.toml", "is not a folder to write in");
  check_refused(bench, folder / std::string(300, 'n'), "cannot be written");
}

TEST_CASE("a folder or file that may not be written says so") {
  const Bench bench;
  const fs::path locked = bench.folder.path() / "locked";
  fs::create_directory(locked);
  const std::string kept = bench.folder.file("kept.toml", "kept");
  fs::permissions(locked, fs::perms::owner_read | fs::perms::owner_exec);
  fs::permissions(kept, fs::perms::owner_read);
  if (::access(locked.c_str(), W_OK) != 0) {  // nothing is kept from root
    check_refused(bench, locked / "new.toml", "may not be written in");
    CHECK(has(write_new_file(bench.beside("kept.toml", true), "new"), "may not be written over"));
    CHECK(read(kept) == "kept");
  }
  fs::permissions(locked, fs::perms::owner_all);
}

TEST_CASE("a link to another file is followed, and stays a link") {
  const Bench bench;
  const std::string target = bench.folder.file("target.toml", "old");
  fs::create_symlink(target, bench.folder.path() / "link.toml");
  CHECK(has(write_new_file(bench.beside("link.toml"), "new"), "is there already"));
  CHECK(write_new_file(bench.beside("link.toml", true), "new").empty());
  CHECK(fs::is_symlink(bench.folder.path() / "link.toml"));
  CHECK(read(target) == "new");
}

TEST_CASE("a file that cannot be written whole is not there, and what it was to replace is kept") {
  const Bench bench;
  const std::string kept = bench.folder.file("kept.toml", "kept");
  static_cast<void>(std::signal(SIGXFSZ, SIG_IGN));
  rlimit limit{};
  REQUIRE(::getrlimit(RLIMIT_FSIZE, &limit) == 0);
  const rlimit small{1000, limit.rlim_max};
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
  const std::string fresh = write_new_file(bench.beside("new.toml"), std::string(5000, 'x'));
  const std::string over = write_new_file(bench.beside("kept.toml", true), std::string(5000, 'x'));
  REQUIRE(::setrlimit(RLIMIT_FSIZE, &limit) == 0);
  static_cast<void>(std::signal(SIGXFSZ, SIG_DFL));
  CHECK(has(fresh, "cannot be written"));
  CHECK(has(over, "cannot be written"));
  CHECK(read(kept) == "kept");
  CHECK(entries(bench.folder) == 2);
}
