// Files and streams: what cannot be read, standard input, outputs that close or are full, colour.
#include "cli/files.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <filesystem>

#include "tests/catch.h"
#include "tests/cli/program.h"

using namespace evenmat;
using testing::Call;
using testing::Folder;
using testing::Run;
using testing::run;

namespace {

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

// What the program writes to a terminal, with `environment` set.
std::string on_a_terminal(const std::vector<std::string>& words,
                          const std::vector<std::string>& environment) {
  const testing::Terminal terminal;
  REQUIRE(run(Call{.words = words, .environment = environment, .out = terminal.path()}).status == 0);
  return terminal.text();
}

}  // namespace

TEST_CASE("a file that cannot be read gets one message and status 2") {
  const Folder folder;
  const std::string large = folder.file("large.toml", std::string(10'000'000, '#'));
  struct Unread {
    std::string path, told;
  };
  for (const Unread& unread :
       std::vector<Unread>{{folder.path() / "nowhere.toml", "There is no file"},
                           {folder.file("file", "") + "/card.toml", "There is no file"},
                           {folder.path(), "is a folder, not a card file"},
                           {large, "larger than a card file can be"},
                           {"/dev/zero", "larger than a card file can be"},
                           {"/proc/self/mem", "cannot be read"},
                           {std::string(5000, 'n'), "cannot be read"},
                           {"", "The name of the card file is empty"}}) {
    const Run told = run({"size", unread.path});
    INFO(told.err);
    CHECK(told.status == 2);
    CHECK(told.out.empty());
    CHECK(told.err.starts_with("evenmat: "));
    CHECK(has(told.err, unread.told));
    CHECK(testing::lines(told.err).size() == 1);
  }
}

TEST_CASE("a file that may not be read says so") {
  const Folder folder;
  const std::string path = folder.file("card.toml", testing::two_layers);
  std::filesystem::permissions(path, std::filesystem::perms::none);
  if (::access(path.c_str(), R_OK) == 0) return;  // nothing is kept from root
  const Run told = run({"size", path});
  CHECK(told.status == 2);
  CHECK(has(told.err, "may not be read"));
}

TEST_CASE("a card comes from standard input, too") {
  const Folder folder;
  const std::string card(testing::two_layers);
  const Run typed = run(Call{.words = {"size", "-", "--json"}, .input = card});
  CHECK(typed.status == 0);
  CHECK(typed.out == run({"size", folder.file("card.toml", card), "--json"}).out);
  CHECK(has(run(Call{.words = {"size", "-"}, .input = "title = 3\n"}).err, "standard input:1:9: "));
}

TEST_CASE("blanks in a path do no harm") {
  const Folder folder;
  CHECK(run({"size", folder.file("a card.toml", testing::two_layers)}).status == 0);
}

TEST_CASE("a reader who stops listening is no trouble") {
  const Folder folder;
  const std::string path = folder.file("card.toml", testing::two_layers);
  const std::string err = folder.file("err", "");
  std::array<int, 2> pipe{};
  REQUIRE(::pipe2(pipe.data(), O_CLOEXEC) == 0);
  ::close(pipe[0]);

  posix_spawn_file_actions_t streams;
  posix_spawn_file_actions_init(&streams);
  posix_spawn_file_actions_adddup2(&streams, pipe[1], STDOUT_FILENO);
  posix_spawn_file_actions_addopen(&streams, STDERR_FILENO, err.c_str(), O_WRONLY, 0);
  std::array<std::string, 3> words{EVENMAT_PROGRAM, "size", path};
  std::array<char*, 4> arguments{words[0].data(), words[1].data(), words[2].data(), nullptr};
  std::array<char*, 1> environment{nullptr};
  pid_t process = 0;
  REQUIRE(posix_spawn(&process, EVENMAT_PROGRAM, &streams, nullptr, arguments.data(), environment.data()) ==
          0);
  posix_spawn_file_actions_destroy(&streams);
  ::close(pipe[1]);
  int ended = 0;
  REQUIRE(::waitpid(process, &ended, 0) == process);
  CHECK(WIFEXITED(ended));
  CHECK(WEXITSTATUS(ended) == 0);
  CHECK(std::filesystem::file_size(err) == 0);
}

TEST_CASE("an answer that cannot be written is told, and not taken for done") {
  const Folder folder;
  const Run told =
      run(Call{.words = {"size", folder.file("card.toml", testing::two_layers)}, .out = "/dev/full"});
  CHECK(told.status == 2);
  CHECK(has(told.err, "The answer cannot be written"));
}

TEST_CASE("there is colour on a terminal only, and not where it is unwanted") {
  const Folder folder;
  const std::vector<std::string> words = {"size", folder.file("card.toml", testing::two_layers)};
  CHECK(has(on_a_terminal(words, {"TERM=xterm"}), "\x1b["));
  CHECK(has(on_a_terminal(words, {"TERM=xterm", "NO_COLOR="}), "\x1b["));
  CHECK_FALSE(has(on_a_terminal(words, {"TERM=xterm", "NO_COLOR=1"}), "\x1b"));
  CHECK_FALSE(has(on_a_terminal(words, {"TERM=dumb"}), "\x1b"));
  CHECK_FALSE(has(on_a_terminal(words, {}), "\x1b"));
  CHECK_FALSE(has(run(Call{.words = words, .environment = {"TERM=xterm"}}).out, "\x1b"));
}
