#include "tests/cli/program.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace evenmat::testing {
namespace {

std::string whole(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> all;
  all.reserve(texts.size() + 1);
  for (std::string& text : texts) all.push_back(text.data());
  all.push_back(nullptr);
  return all;
}

}  // namespace

const std::string_view two_layers = R"([base]
fold  = "side"
front = "us A2"

[[layer]]
name   = "plum mat"
on     = "front"
border = "1/8"

[[layer]]
name   = "fern panel"
on     = "plum mat"
border = "1/16"
)";

const std::string_view too_wide = R"([base]
fold  = "side"
front = "us A2"

[[layer]]
name   = "plum mat"
on     = "front"
border = "1/8"
width  = 5
)";

Folder::Folder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "evenmat-test-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no folder for the test");
  path_ = pattern;
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string Folder::file(const std::string& name, std::string_view text) const {
  const std::filesystem::path path = path_ / name;
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

Terminal::Terminal() : ours_(::posix_openpt(O_RDWR | O_NOCTTY)) {
  std::array<char, 256> name{};
  if (ours_ < 0 || ::grantpt(ours_) != 0 || ::unlockpt(ours_) != 0 ||
      ::ptsname_r(ours_, name.data(), name.size()) != 0) {
    throw std::runtime_error("no terminal for the test");
  }
  path_ = name.data();
  held_ = ::open(name.data(), O_RDWR | O_NOCTTY);
  ::fcntl(ours_, F_SETFL, O_NONBLOCK);
}

Terminal::~Terminal() {
  ::close(held_);
  ::close(ours_);
}

std::string Terminal::text() const {
  std::string text;
  std::array<char, 4096> piece{};
  for (ssize_t got = 0; (got = ::read(ours_, piece.data(), piece.size())) > 0;) {
    text.append(piece.data(), static_cast<std::size_t>(got));
  }
  return text;
}

Run run(const Call& call) {
  const Folder folder;
  const std::string in = folder.file("in", call.input);
  const std::string out = call.out.empty() ? folder.file("out", "") : call.out.string();
  const std::string err = call.err.empty() ? folder.file("err", "") : call.err.string();

  posix_spawn_file_actions_t streams;
  posix_spawn_file_actions_init(&streams);
  posix_spawn_file_actions_addopen(&streams, STDIN_FILENO, in.c_str(), O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&streams, STDOUT_FILENO, out.c_str(), O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&streams, STDERR_FILENO, err.c_str(), O_WRONLY, 0);

  std::vector<std::string> words = call.words;
  words.insert(words.begin(), EVENMAT_PROGRAM);
  std::vector<std::string> environment = call.environment;
  pid_t process = 0;
  const int error = posix_spawn(&process, EVENMAT_PROGRAM, &streams, nullptr, pointers(words).data(),
                                pointers(environment).data());
  posix_spawn_file_actions_destroy(&streams);
  if (error != 0) throw std::runtime_error("the program does not start");

  int ended = 0;
  if (::waitpid(process, &ended, 0) != process) throw std::runtime_error("the program is lost");
  const int status = WIFEXITED(ended) ? WEXITSTATUS(ended) : 128 + WTERMSIG(ended);
  return {status, call.out.empty() ? whole(out) : "", call.err.empty() ? whole(err) : ""};
}

Run run(const std::vector<std::string>& words) { return run(Call{.words = words}); }

std::vector<std::string> lines(std::string_view text) {
  std::vector<std::string> all;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    all.emplace_back(text.substr(0, end));
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  }
  return all;
}

}  // namespace evenmat::testing
